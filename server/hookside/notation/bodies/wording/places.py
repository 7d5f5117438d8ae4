"""The wording of places that are more than the next stitch: the other side, another piece, a bridge, a space."""

from __future__ import annotations

import re

from hookside.layers import BOTH, SIDES
from hookside.notation.sought import Sought

OTHER_SIDE = re.compile(
    r"(?:now |then |and |we |you )*(?:(?:rotate|turn(?:ing)?|flip|unfold|unroll|deploy|spread|working|work|"
    r"continue|continuing|do not turn|"
    r"without turning)\b(?:(?!\b(?:sc|[hd]?dc|h?tr|inc|dec|single|double)\b)[^.;(){}\[\]*\d]){0,60}?)?"
    r"(?:(?:on|along|down|in|into|across|up|to|around|by|from)\s+)?(?:the\s+)?(?:other|opposite|second|bottom|under|back|"
    r"remaining|rem\.?|unused|unworked|free|left-? ?over|opp\.?)"
    r"\s*(?:front |back )?(?:side|loops?|edge|half|lps?)?s?\s*(?:side )?(?:of\s+)?(?:the\s+|your\s+)?"
    r"(?:foundation|starting|beginning|base|initial|first|original)?\s*(?:ch(?:ain)?s?|row|foundation|side)\b"
    r"(?:\s*(?:sts|stitches|loops|edge))?"
    r"|(?:back )?(?:by|on|along|down|from|in|to|at) (?:the )?other (?:side|edge)"
    r"(?=\s*[:,]|\s\d{1,2} ?(?:sc|[hd]?dc|h?tr|inc|dec)\b)"
)
# "go back down the other side", "rotate and come back along the bottom with", "now work back up the chain:"
WAY_BACK = re.compile(
    r"(?:(?:now|then|and|next),? )*(?:(?:rotate|turn)(?: (?:around|it|the (?:work|piece|chain)))*(?:,| and|, and)? )?"
    r"(?:(?:(?:go|come|work|crochet|continue|return|head|carry on|keep going)(?:ing)? )+|(?<=then )(?=back)|"
    r"(?<=and )(?=back)|(?<=now )(?=back))"
    r"(?:(?:back|around|round|on|down|up|along|over|across|to|in|into|onto) )+(?:the )?"
    r"(?:(?:other|opposite|second|under|bottom|lower|far|remaining) ?(?:side|edge|half|loops)|bottom|underside|"
    r"(?P<chain>(?:foundation |starting )?ch(?:ain)?))(?: (?:of|along) (?:the |your )?(?:foundation |starting )?"
    r"(?:ch(?:ain)?|row))?(?:,? (?:with|making|by working)\b)?\s*[:,]?(?!\s*(?:until|to|till)\b)"
)
ALONG_EDGE = re.compile(
    r"(?:along|across|down|on) (?:the )?(?:bottom|underside|(?:lower|upper|open) (?:edge|end)|back|top|opening)"
    r"(?: of (?:the )?(?:ch(?:ain)?|work))?\b"
    r"(?! loop)"
)
# "12 sc along the row ends, 6 sc across the front": stitches on an edge, behind an amount of them
ON_EDGE = re.compile(
    r"(?:(?:evenly )?(?:along|across|down|up|over|on|into|in)|evenly (?:spaced )?(?:all )?a?round|"
    r"(?:all )?a?round(?= the (?:row[- ]ends|ends of (?:the )?rows|(?:top|bottom|upper|lower|long|raw) edge)))"
    r" (?:the |each |its |whole |entire )*"
    r"(?P<which>(?:(?:first|second|other|one|left|right|long|short|opposite|next|same|front|back) )*)"
    r"(?P<what>(?:ch(?:ain)?|foundation|starting|lower) edge|"
    r"row[- ]ends|ends of (?:the )?rows|row edges?|sides?(?: edges?)?|edges?|front|neck(?:line|edge)?|"
    r"edge of the [a-z]{3,12}|(?:top|bottom) of (?:the )?(?:rows?|rnds?|rounds?) \d{1,3}|"
    r"(?:\d{1,3} )?(?:un-?worked|unused|free) (?:sts?|stitches|sc|[hd]?dc|h?tr)|"
    r"bottom|top|(?:\w{3,9} )?opening|squares?|panel|circle|oval|mat|rug|blanket)"
    r"(?: edges?)?\b(?: of (?:the )?(?:rows?|piece|flap|heel|work|body|panel|strap|cuff|band|rib(?:bing)?|brim|strip|"
    r"collar)\b)?(?! loop)(?=\s*(?:[,.;:(\[{=/|]|- ?\d|$|and\b|then\b))"
)
# ... and what tells that they are no stitches of the course below
AN_EDGE = re.compile(
    r"\b(?:ch(?:ain)?|foundation|starting|cast-on|lower|upper|row|side|raw|neck|top|bottom|outer|front|back|left|right|"
    r"long|short|curved|straight|armhole|open|inner) ?edges?\b|"
    r"\brow[- ]ends\b|\bends of (?:the )?rows\b|"
    r"\b(?:up|down) (?:the |one |its )?(?:(?:first|second|other|left|right|long|short|next|same) )*(?:side|edge)s?\b|"
    r"\balong the (?:(?:first|second|other|left|right|long|short) )+sides?\b|\balong the edge of the [a-z]{3,12}\b|"
    r"\b(?:along|across|down|up|on) (?:the |each |its )?(?:sides?|edges?)\b(?=[^.]*\bcorner)|"
    r"\bevenly (?:spaced )?(?:all )?a?round (?:the |each |its )(?!edge)"
)
# "35 sc along each side", "11 sc on each of the four sides": the sides of a square, where no number is told
EACH_SIDE = re.compile(
    r"(?:evenly )?(?:along|across|down|up|over|on|in) (?:each|every|all)(?: of)?(?: the)?"
    r"(?: (?P<n>[3-8]|three|four|five|six|eight))? (?:sides?|edges?)\b"
)
# "sc in each of 20 row ends", "2 dc in each remaining row end around", "sc into the end of each row"
_AROUND_ENDS = r"(?: (?:all )?(?:the way )?(?:a?round|across)\b)?"
EACH_ROW_END = re.compile(
    r"(?:in|into|along|over) (?:each|every|all)(?: one)?(?: of)?(?: the)?(?: (?:remaining|rem\.?|other|following))?"
    r"(?: (?P<n>\d{1,3}))?(?: (?:remaining|other|following))? (?:row|rnd|round)[- ]?(?:ends?|edges?)\b"
    rf"{_AROUND_ENDS}|"
    r"(?:in|into|along|over) the (?:ends?|sides?|edges?) of (?:each|every|all)(?: of)?(?: the)?"
    rf"(?: (?:remaining|other|following))?(?: (?P<n2>\d{{1,3}}))? rows?\b{_AROUND_ENDS}"
)
# "dc in same row end", "3 sc in the first row end"
ONE_ROW_END = re.compile(
    r"(?:in|into) (?:the |that )?(?:same|first|1st|next|second|2nd|last) (?:row|rnd|round)[- ]?(?:end|edge)\b"
)
# "sc evenly along the row ends", with no amount
ALONG_ROW_ENDS = re.compile(
    r"(?:evenly )?(?:along|across|over|down|up|in|into) (?:all )?(?:of )?(?:the |its )?row[- ]?(?:ends|edges)\b"
)
# "(24 row ends, 48 dc)", "(24 rows)" behind stitches in each row end
SO_MANY_ROW_ENDS = re.compile(r"(?<![\d-])(?P<n>\d{1,3}) row(?:s\b|[- ]?(?:ends|edges)\b)")
# "sc evenly around all four sides, working 12 sc on each long side and 8 on each end": what goes before those sides
ALL_SIDES = re.compile(
    r"(?:evenly )?(?:all )?(?:the way )?a?round\b[^.;:(){}\d]{0,40}?"
    r"(?:,? (?:by )?(?:working|making|placing|with)|\s?[:,-])\s+"
    r"(?=\d{1,3} [^.;:,(){}]{0,24}?\b(?:on|along|across|down|to|over|in|for) (?:each|both) )"
)
# ... of which there are two and two
PAIR_OF_SIDES = re.compile(
    r"(?:evenly )?(?:on|along|across|down|up|to|over|in|into|for) (?:each|both|either)(?: of)?(?: the)?(?: two)? "
    r"(?:(?:long|short|narrow)(?:er)? )?(?:sides?|edges?|ends?)\b(?! of)"
)
EACH_CORNER = re.compile(
    r"(?:in|into|at|on) (?:each|every|all|the)(?: of)?(?: the)?(?: (?:[3-8]|three|four|five|six|eight))?"
    r" corners?(?: (?:st|sp|stitch|space|ch)\b)?"
)
BOTH_ENDS = re.compile(
    r"(?:1 |one )?(?:st |stitch )?"
    r"(?:(?:at|on|in) (?:the )?(?:(?:very )?(?:beginning|beg|start) and (?:the |at (?:the )?)?end|"
    r"each end|both ends|each side|both sides|each edge|both edges|either end|either side)|"
    r"each end|each side|both ends|both sides|either end|either side)"
    r"(?: of (?:the |this |each |every )?(?:row|round|rnd|work|piece))?"
)
# "dec at the beginning (7)": at one end of a row
ONE_END = re.compile(
    r"(?:1 |one )?(?:st |stitch )?(?:at|on|in) (?:the )?(?:very )?(?P<which>beginning|beg|start|end)"
    r"(?: of (?:the |this |each |every )?(?:row|round|rnd|work|piece))?(?: only)?(?=\s*(?:[,.;(\[=-]|$))"
)
STARTING_IN = re.compile(
    r",?\s*(?:starting|beginning|start|begin|working)\s+(?:in|from|with|at|into)\s+(?:the\s+)?"
    r"(?:(?P<n>\d+)(?:st|nd|rd|th)|(?P<word>first|second|third|fourth|fifth))\s+(?:chain|ch)(?: st)?"
    r"(?:\s+from (?:the |your )?hook)?"
)
# "sc in 2nd ch from hook and all the way back", "... and down the rest", "... and each one after that"
_CHAIN = r"(?:chains?|chs?|ones?)"
REST_OF_CHAIN = re.compile(
    r"(?:and |then |, ?)*(?:work |on )?(?:in(?:to)? |on )?(?:"
    rf"all (?:the )?(?:way )?(?:back|down|along|up)(?: (?:to the (?:end|start|beginning)|the (?:{_CHAIN}|rest)))?|"
    rf"(?:back |down |along |up )+(?:(?:all |each |every )?(?:of )?(?:the )?(?:rest|remaining|others|{_CHAIN}))"
    rf"(?: of (?:the|them|your)(?: {_CHAIN})?)?|"
    rf"(?:all )?(?:of )?the (?:rest|others|remaining {_CHAIN})(?: of (?:the|them|your)(?: {_CHAIN})?)?|"
    rf"(?:each|every) {_CHAIN} (?:after(?: (?:it|that|this))?|down|back|along|across)"
    rf"(?: (?:the|your) (?:{_CHAIN}|rest))?)"
    r"(?=\s*(?:[.,;(\[=-]|$|\d|turn\b))"
)
FROM_NTH = re.compile(
    r"\b(?:from|since) (?:the )?(?:(?P<n>[2-5])(?:nd|rd|th)|(?P<word>second|third|fourth|fifth)) ch(?:ain)?\b"
)
# "in the 2nd ch from the hook begin,", "start with the second loop and work": before the stitches along a chain
BEGIN_AT = re.compile(
    r"(?:(?:now|then|we|and) +)*(?:(?:start|begin|work|insert)(?:n?ing)? +(?:(?:the +|your +)?hook +)?)?"
    r"(?:in|into|from|since|with|at) +(?:the +)?(?:(?P<n>[2-5])(?:nd|rd|th)|(?P<word>second|third|fourth|fifth)) +"
    r"(?:(?:ch(?:ain)?|loop)s?(?: +st(?:itch)?)?(?: +(?:away +)?from +(?:the +|your +)?hook)?"
    r"|(?:(?:st(?:itch)?|one) +)?from +(?:the +|your +)?hook)"
    r"(?:,? +(?:we +)?(?:begin|start|onwards?|on)\b)?(?:\s*[,:.])?"
    r"(?: +(?:and|then|we|crochet|work|make|knit|start|begin))* +"
    r"(?=(?:\d{1,3} +)?(?:[hd]?dc|sc|h?tr|sl +st|ss|single +crochet|double +crochet|half)s?\b|\d{1,3} ?x\b)"
)
BACK_ALONG = re.compile(
    r"(?:(?:now|then|we) )*(?:crochet|work|go|come)(?:ing)? back(?:wards)? (?:along|down|over|up|across|on) "
    r"(?:the )?(?:ch(?:ain)?s?)\s*[,:]"
)
# "chain 36, sc back from 2nd ch", "ch 18, turn, sc 17 back along it"
BACK_OVER = re.compile(
    r"back(?: (?:along|down|over|across)(?: (?:it|(?:the |your )?ch(?:ain)?s?))?)?(?:,? (?:from|starting in) (?:the )?"
    r"(?P<nth>[2-5]|second|third|fourth)(?:nd|rd|th)? ch(?:ain)?(?: from (?:the |your )?hook)?)?"
    r"(?=\s*(?:[.,;(\[=]|- ?\d|$))"
)
# "3 sc in every chain back down", "dc in each ch to the top": to where all of them go anyway
TO_ITS_END = re.compile(
    r"(?:back(?: (?:along|down|over|across|up|again))?(?: (?:it|(?:the |your )?ch(?:ain)?s?))?|"
    r"(?:(?:all the way|right|straight|back|up|down) )*to (?:the |its )?(?:top|bottom|tip|start|beginning|slip ?knot)|"
    r"(?:and )?(?:in|into) the marked (?:one|st(?:itch)?|sc|dc|tr)(?: too| as well)?)"
    r"(?=\s*(?:[.,;(\[=]|- ?\d|$))"
)
# "working last sc in top of turning ch": where the last of the stitches told goes
LAST_INTO = re.compile(
    r"(?:and |with )?(?:work(?:ing)? (?:the |your )?|the |your )last (?:(?:sc|dc|hdc|htr|tr|dtr|st|stitch|one) )?"
    r"(?:goes |falls |being |is )?(?:worked )?(?:in|into|on) (?:the )?"
    r"(?:top (?:st )?of|turning|t-?ch\b|3rd|4th|2nd)[^,.;()=]{0,40}?(?=\s*(?:[,.;()=]|- ?\d|$))|"
    r"(?:and )?end(?:ing)? (?:in|on|into) (?:the )?(?:top|turning|last|3rd|4th|2nd)\b[^,.;()]{2,40}"
)
ON_CHAIN = re.compile(
    r"(?:along|across|over|down|up|on|in|into)\s+(?:(?:the|each of the|each)\s+)?(?:(?:other|opposite|second|back|"
    r"far|under) (?:side|edge) of (?:the |this |that )?)?"
    r"(?:bridge|(?:connecting |joining |middle )?chains?|ch\b)(?!\s*-?\s*\d)(?! from)(?! sp)(?:\s+(?:bridge|sts?|"
    r"stitches))?"
)
# "sc in the 2 ch", "in both chains", "in each ch on the other side": chains between two pieces
ON_CHAINS = re.compile(
    r"(?:along|across|over|on|in|into)\s+(?P<where>(?:the )?(?:(?:other|opposite|second|back|under|front) side|"
    r"back|front|underside|bottom|(?:free|unused|remaining|other) loops) of )?"
    r"(?P<each>each (?:of )?)?(?:the |these |those |same )*(?:(?P<both>both|two)|(?P<n>[1-9])|each)? ?"
    r"(?P<ch>ch(?:ain)?s?)(?: (?:st|stitch|stitche)s?)?(?: (?P<after>[1-9]))?\b(?! ?-?\d)"
    r"(?! from (?!the (?:back|other|under)|behind))(?! ?-?sp)"
    r"(?:,? (?:(?:on|along|from|at|by) the (?:(?:other|opposite|second|back|under)(?: side)?|underside)|from behind))?"
)
ON_PIECE = re.compile(
    r"(?:around|round|on|of|over|along|across|in|into|to|from|onto)\s+"
    r"(?:(?:each|every|all) (?:of )?(?:the )?(?:sts?|stitch|stitches) (?:of|on|around)\s+)?(?:the\s+)?"
    r"(?P<which>first|second|third|fourth|other|next|1st|2nd|3rd|4th|left|right|front|back|large|larger|small|smaller|"
    r"big|bigger|little)\s+(?P<what>legs?|arms?|"
    r"pieces?|foot|feet|wings?|fins?|ears?|flippers?|halves|half|tubes?|bumps?|humps?|lumps?|claws?|pincers?|toes?|"
    r"fingers?|thumbs?|boots?|shoes?|tentacles?|horns?|peaks?|sleeves?|tails?|branch(?:es)?|cones?|bulbs?)\b"
    r"(?:\s+(?:\d|one|two)(?!\d| ?(?:sc|[hd]?dc|h?tr|sts?|inc|dec|single|double|half)\b))?"
)
BARE_PIECE = re.compile(
    r"(?P<which>first|second|left|right|other) (?P<what>leg|arm|foot|wing|fin|ear|flipper|half)(?=\s*(?:[,.;)(]|$))"
)
# "sc into the first leg, sc in the next 11 sts": the first goes into one stitch of it
ONE_THEN_NEXT = re.compile(
    r"\s*(?:,|and\b|then\b)\s*(?:and |then )?(?:\d{1,3} )?(?:sc|[hd]?dc|h?tr) (?:in|into) (?:each of )?(?:the )?next \d"
)
# "in each of the 12 sts of the first leg", "in each st of leg 1": at the end of a place that is told in stitches
_THAT_PIECE = (
    r"\s+(?:the\s+)?(?:(?P<which>first|second|third|fourth|other|1st|2nd|3rd|4th|left|right|front|back)\s+"
    r"(?P<what>leg|arm|piece)|(?P<named>leg|arm|piece)\s+(?:(?:no|nr|number)\.?\s|#\s?)?(?P<no>\d|one|two|a|b))"
)
OF_PIECE = re.compile(rf"\b(?:of|on|around|from){_THAT_PIECE}\s*$")
PIECE_BEHIND = re.compile(rf"{_THAT_PIECE}\b")
# "8 sc around the first point": of two tips that become one piece
ON_POINT = re.compile(
    r"(?:around|round) (?:the )?(?P<which>first|second|third|other|1st|2nd|3rd) "
    r"(?P<what>points?|tips?|peaks?|lobes?|prongs?)\b"
)
# "10 sc on the large, 6 sc on the small": of two parts that are joined, by their size
ON_SIZED = re.compile(
    r"(?:around|round|on|of|over|along|across) the (?P<which>large|larger|small|smaller|big|bigger|little)(?P<what>)"
    r"(?: one)?(?=\s*(?:[,.;(\[=]|$))"
)
PIECE = re.compile(
    r"(?:around|round|on|of|over|along|across|onto)\s+(?:(?:the|that|this|each)\s+)?(?P<what>leg|arm|piece|foot|wing|fin|"
    r"flipper)(?:\s+(?:(?:no|nr|number)\.?\s|#\s?)?(?P<which>\d|one|two|a|b)\b|(?=\s*[,.;(\[]|\s*$))"
)
BOTH_PIECES = re.compile(
    r"(?:all )?(?:(?:in|into) (?:each|every|all) (?:the )?(?:sts?|stitch|stitches|sc|dc) )?"
    r"(?:around|across|over|along|of|on) "
    r"(?:(?:both|the two|all)(?: of the)? (?:legs|pieces|arms|halves|ears|feet|wings|fins)|"
    r"(?:the )?(?:first|one) (?:leg|piece|arm|half|ear|foot|wing|fin),? (?:and )?(?:then )?(?:around |over |on )?"
    r"(?:the )?(?:second|other)(?: (?:leg|piece|arm|half|ear|foot|wing|fin)| one)?)\b(?! (?:sc|[hd]?dc|h?tr)\b)"
)
# "... and both sides of the chain", "... and chains": once along each side
AND_CHAINS = re.compile(
    r",? (?:and|plus)(?: in| on| along| over)?(?: both sides of| each side of)?(?: the| all the)?(?: \d)? "
    r"(?:chains?|ch|chs|bridge)\b(?: (?:sts?|stitches|bridge|between(?: them)?))?"
)
# "join the legs by working": how it is done stands behind it
JOINS_BY = re.compile(
    r"(?:now |then |here |we |to )*(?:join|attach|connect|unite)(?:ing)? (?:the |both |your )*(?:two |2 )?"
    r"(?:legs?|pieces|arms|halves)(?: together| now)?(?:,? (?:by|as follows:?|like this:?|with:?)|\s?[:.]|\s-|,)"
    r"(?: (?:working|crocheting|making|work))?:? (?=\d|sc|dc|ch)"
)
TO_ELSEWHERE = frozenset(
    [
        "around",
        "behind",
        "by",
        "for",
        "round",
        "on",
        "of",
        "over",
        "along",
        "across",
        "in",
        "into",
        "to",
        "from",
        "onto",
        "through",
        "thru",
        "anywhere",
        "at",
        "with",
        "attaching",
        "together",
        "catching",
        "adding",
        "including",
        "taking",
    ]
).union(
    ["down", "up", "1", "one", "st", "working", "going", "and", "inserting", "work", "evenly", "where"],
)
ELSEWHERE = re.compile(
    r"\b(?:leg|legs|arm|arms|other piece|first piece|second piece|previous piece|body|both pieces|head)\b"
)
# "11 sc more around it", "in any st at the inside of leg one": behind a part that was named
AROUND_IT = re.compile(
    r"(?:more )?(?:around|round|on|along|over) (?:it|this one|that one)(?=\s*(?:[,.;(\[=]|- ?\d|$|and\b|then\b))"
)
ANY_OF_PIECE = re.compile(
    r"(?:anywhere|(?:in|into) (?:any|a|the first|the next|first|one) (?:st(?:itch)?|sc|dc))"
    r"(?: (?:at|on|along|near|from))?"
    r"(?: the (?:inside|back|inner (?:side|thigh)|side|middle|centre|center))?(?: of| on| from)? (?:the )?"
    r"(?P<which>first|second|third|other|1st|2nd|left|right)? ?(?P<what>leg|arm|piece|foot|fin|wing)"
    r"(?: (?P<no>\d|one|two|a|b))?"
    r"(?=\s*(?:[,.;(\[=]|$|and\b|then\b))"
)
# "in the free loops of R10", "in the front loops left from round 6": of a course long worked over
FREE_LOOPS = re.compile(
    r"(?:in|into|to|on|along|through) (?:each (?:one )?of )?(?:the |all |each )*(?:\d{1,3} )?(?:"
    r"(?:(?:each|every) (?:one )?(?:of the )?)?(?:free|unused|unworked|leftover|left[ -]?over|exposed|skipped|empty)"
    r"(?: (?:front|back))? (?:loops?|lps?)"
    r"|(?:remaining |visible )?(?:front|back) (?:loops?|lps?) (?:that (?:were|are|you) )?(?:left|unworked|free|unused|"
    r"remaining)"
    r")(?: (?:left|unworked|free|over))*(?: (?:of|from|on|in|at|by) (?:the )?(?:rnd|round|row|r)\.? ?\d{1,3})?"
    r"(?: of (?:the )?[a-z]+)?(?: around)?"
)
# "3 sc through fin and body": how it is worked
_PART = (
    r"(?:(?:first|second|third|other|left|right|1st|2nd|next|same|one) )?(?:edge of (?:the )?|top of (?:the )?)?"
    r"(?:arms?|legs?|wings?|fins?|ears?|flippers?|tails?|tentacles?|horns?|paws?|feet|foot|hands?|beak|snout|head|body|"
    r"flukes?|claws?|spikes?|handles?|straps?|pieces?|parts?)"
)
THROUGH_PARTS = re.compile(
    r"(?:and )?(?:(?:through|thru|with|joining|joined (?:to|with)|along with|together with|to (?:join|attach|add)|"
    r"attaching|adding|catching(?: in)?|taking in|including)(?: both)?(?: the| your| an?)? "
    rf"(?:[a-z]{{3,10}} and (?:the )?[a-z]{{3,10}}|{_PART}(?:,? (?:and|&|\+|to|onto) (?:the )?{_PART})?)|"
    rf"(?:on|into|in) both (?:the )?{_PART} and (?:the )?{_PART})\b"
    r"(?: (?:together|at once|at the same time|on|in place))?(?=\s*(?:[,.;(\[=]|- ?\d|$))"
)
# "hold the arm against the body and sc 5 through all layers": how the stitches behind it are worked
HOLDS_PART = re.compile(
    rf"(?:now |then |and )*(?:hold|place|lay|put|position|line up|take)(?:ing)? (?:the |your |an? )?{_PART}"
    r"[^.;,()\d]{0,40}?(?:,| and|, and|;|:)(?: then)? "
    r"(?=(?:\d{1,2} ?)?(?:[hd]?dc|sc|h?tr|single|double)\b|work \d|crochet \d)"
)
# "2 sc in last ch (same ch as first sc)": a remark that says which place that is
SAME_AS = re.compile(
    r"(?:this is |that is |i\.?e\.?,? |in )?(?:the )?same(?: (?:ch(?:ain)?|st(?:itch)?|space|sp|place|one))?"
    r" (?:as|where|that)(?: you (?:made|worked))?(?: (?:the|your|in))* (?:very )?"
    r"(?:first|1st|last|previous|beginning|starting) ?[a-z ]{0,24}"
)
# "2 dc in the ch that holds the first dc", "in the ch where you began": the place told by what is in it
TOLD_BY = re.compile(
    r"(?:in|into) (?:the |that )?(?:very |first )*(?:ch(?:ain)?|st(?:itch)?|loop|place|space|one)"
    r"(?: st(?:itch)?)? (?:that |which |already )*(?:hold(?:s|ing)|has|have|contain(?:s|ing)|carr(?:ies|ying)|took|"
    r"with|of|where|in which|bearing|under|you) (?:you (?:made |worked |put |began |started )?)?(?:the |your )?"
    r"(?:very )?"
    r"(?:(?:first|1st|beginning|starting|initial|opening)\b(?! from)[^,.;:()\[\]{}=<]{0,30}|"
    r"(?:started|began|begun)(?: (?:in|with|from|the round))*)"
    r"|(?:right |back )*where (?:(?:you|we|it|this|the (?:round|rnd)) )?(?:first )?"
    r"(?:started|began|begun|starts?|begins?)\b"
    r"(?: (?:in|with|from|it|the (?:round|rnd)))*(?=\s*(?:[,.;(\[=+]|- ?\d|$))"
)
_TO_SHUT = r"(?: (?:in order )?to (?:close|seal|shut|join)(?: up)?(?: (?:it|the \w+))?(?: (?:up|shut|closed|off))?)?"
LAYERED = re.compile(
    r"(?:(?:and )?(?:work(?:ing|ed)?|going|inserting (?:the |your )?hook) )?"
    rf"(?:through|thru|across|in|into|for|on|by|behind|from) {BOTH} "
    rf"(?:{SIDES}|halves|parts|ends|front and back)(?: (?:together|at once|of the \w+))*"
    + _TO_SHUT
    + rf"|(?:taking|catching|picking)(?: up| in)? {BOTH} {SIDES}"
    r"(?: together| (?:at|in|with) (?:every|each) st(?:itch)?)?"
    r"|(?:through|thru) both(?=\s*(?:[,.;(\[=]|$))"
    r"|(?:through|thru) (?:both|the two)(?: of)?(?: the)? (?!loops|lps|sts|stitches|strands|chains|arms|legs|ears|"
    r"wings|fins|flippers|hands|feet)[a-z]{3,12}s\b(?=\s*(?:[,.;(\[=]|$|in\b|all\b|a?round\b|across\b|together\b))"
)
_A_FEW = (
    r"(?:(?:\d{1,3}|two|three|four|five|six|seven|eight) ?(?:sc|hdc|dc|sl sts?|ss|single crochets?|double crochets?)|"
    r"(?:sc|hdc|dc|sl st|ss) \d{1,2}|\d{1,3} ?x(?= ?(?:[,.;(\[=]|through|thru|$)))\b"
)
# "fold flat and", "press the edges together, work one row of", "close the arm with": before stitches through two layers
FOLDED = re.compile(
    r"(?:(?:now|then|and|we) )*(?:"
    r"(?:fold|press|flatten|pinch|squeeze|squish|squash|lay|line up|with the)(?:ed|ing)?\b[^.;:(){}\[\]*\d]{0,60}?"
    r"(?<!,)(?:[,.;:]| and(?: then)?| so)+ (?:then )?(?:we )?(?:"
    r"(?:close|join|seal|crochet|sc|work)(?: (?:it|them|both \w+|the \w+))?(?: up| off| shut| together| closed)* "
    r"(?:with|by working) |(?:sc|dc|crochet|work|join) (?:both|the two|the) (?:edges?|sides?|layers?|ends) together"
    r"[,:;]? (?=" + _A_FEW + r")|(?:work|crochet|knit|tie|make|do)(?:ing)? |with )?"
    r"|(?:fold|press|pinch|squeeze|squish|squash|flatten)(?:ed)?(?: it| the \w+)?(?: flat| shut| closed)* "
    r"(?=" + _A_FEW + r" (?:through|thru))"
    r"|(?:close|join|seal|crochet|sc|shut)(?: (?:it|both|the|\w+)){0,4}?(?: together| up| shut| off| closed)* (?:with|"
    r"by working) (?=" + _A_FEW + r")"
    r"|with (?=" + _A_FEW + r" crochet(?:ed)? together)"
    r")(?:(?:1|one|a) (?:last )?(?:row|round) of )?"
    r"(?=(?:" + _A_FEW + r"|(?:[hd]?dc|sc|single crochet)\b|\d{1,3} (?=through|thru))(?P<rest>[^.;(){}\[\]]{0,80}))"
)
SHUT_BY = re.compile(r"(?:crochet(?:ed)? )?together\b" + _TO_SHUT + "|" + _TO_SHUT[4:-2])
# "sc both layers together across": the layers stand where a place would
BOTH_TOGETHER = re.compile(rf"(?:the )?both {SIDES} (?:together|at once)")
# "fold it and sc through both layers, 4 sc": the layers are told first, then how many
FOLDED_FIRST = re.compile(
    rf"(?:work |crochet )?(?:(?:sc|dc|hdc|single crochet) )?(?:through|thru) {BOTH} {SIDES}\s*[,:;]\s*(?={_A_FEW})|"
    rf"(?:work|crochet|knit|take|sc|dc)(?:ing)? (?:the )?{BOTH} {SIDES} (?:together|at once)\s*[,:;]?\s*"
    rf"(?:with )?(?={_A_FEW})|"
    r"(?:(?:now|then|and|we|you) )*(?:fold|flatten|press|pinch|squeeze|squish|squash|close|shut)(?:ed|ing)?\b"
    r"[^.;:(){}\[\]*\d]{0,40}?"
    r"(?:,| and)+ (?:then )?(?:we |you )?(?:(?:work|crochet|knit|make|do|go)(?:ing)? |(?:sc|dc|hdc|single crochet) )?"
    rf"(?:it )?(?:through|thru|across|for|by|on|at) {BOTH} (?:{SIDES}|parts|ends)(?: together| at once)?\s*[,:;]?\s*"
    r"(?:with |making |for )?(?=" + _A_FEW + r")"
)
LAYERS = Sought(
    ("both ", "two layers"),
    r"\b(?:both layers|through both (?!l(?:oo|p)|strands|threads|st(?:itche)?s\b)|both sides together|two layers|"
    r"both thicknesses)\b",
)
SPACE = re.compile(r"\bsps?\b|\bv[ -]?st(?:itch)?\b|\bspaces?\b|\bch-\d|\b(?:ch|chain)-?\d* ?(?:loops?|lps?)\b|\barch")
_SIZE = re.compile(
    r"\b(?:ch|chain)[ -]?(\d)[ -]?(?:sps?|spaces?|loops?|lps?)\b|\b(\d)[ -]?ch(?:ain)?[ -]?(?:sps?|spaces?|lps?)\b"
)


def sizes_in(noun: str) -> set[int]:
    """Of how many chains the spaces are that a place names: "each dc and ch-1 sp" -> {1}."""
    return {int(m[1] or m[2]) for m in _SIZE.finditer(noun)}


# "ss across to corner": slip stitches on the way to where the round begins
TO_CORNER = re.compile(
    r"(?:across |along |over |up )?(?:to|into|in) (?:the |next |first |nearest )*(?:(?:ch-?\d* ?)?corner"
    r"(?: (?:ch-?\d* ?)?(?:sp|space))?|(?:ch-?\d* )?(?:sp|space))\b(?=\s*(?:[,.;]|$|and\b|then\b))"
)
TO_SPACE = re.compile(rf"{SPACE.pattern}|\bcorners?\b")  # where slip stitches go before a round begins
# "2 dc in each space between dc around": as many gaps as there are stitches, all the way round
BETWEEN_ALL = re.compile(
    r"(?:in(?:to)? )?(?:(?:each|every) (?:of the )?(?:space|sp|gap) )?between (?:(?:each|every|all|the|of|pairs?) )*"
    r"(?:sts?|stitch(?:es)?|[hd]?dc|h?tr|dtr) (?:all )?(?:the way )?(?:a)?round\b"
)
# "in the next space between dc": one of them
BETWEEN_NEXT = re.compile(
    r"(?:in(?:to)?|to) (?:the )?(?:next |first )?(?:space|sp|gap) between (?:the )?(?:first |next )?(?:two |2 )?"
    r"(?:sts?|stitches|[hd]?dc|h?tr|dtr)\b"
)
CORNER = re.compile(r"\bcorners?$")
CHAINS = re.compile(r"(?:^|\s)ch(?:ain)?s?(?: around| across)?$")
STITCH_TOO = re.compile(r"\b(?:sts?|stitch(?:es)?|[hsd]?[cr]|hdc|htr|dc|sc|tr)\b.*\b(?:and|or|&)\b")
# "hdc in next 4 on the other side": which side, told behind its first stitches
SIDE_BEHIND = re.compile(
    r"(?:back )?(?:(?:up |down )?(?:on|along)|up|down|across|over|in) (?:the )?(?:other|opposite|second) (?:side|edge)"
    r"(?: of (?:the |your |each )?(?:foundation |starting |beginning )?(?:ch(?:ain)?s?))?"
    r"(?=\s*(?:[,.;(\[]|$|(?:to|until)\b))"
)
