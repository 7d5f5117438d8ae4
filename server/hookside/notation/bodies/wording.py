"""The table of phrases that are known by their wording: one entry each, matched where a clause or a word starts."""

from __future__ import annotations

import re

CLOSER = {"(": ")", "[": "]", "{": "}"}
OTHER_SIDE = re.compile(
    r"(?:(?:now |then |and )*(?:rotate|turn(?:ing)?|flip|working|work|continue|continuing|do not turn|without turning)\b[^.;()\[\]*]{0,60}?)?"  # noqa: E501
    r"(?:(?:on|along|down|in|into|across|up|to|around)\s+)?(?:the\s+)?(?:other|opposite|second|bottom|under|back|remaining|unused|unworked)\s*(?:side|loops?|edge|half|lps?)?s?\s*(?:side )?(?:of\s+)?(?:the\s+|your\s+)?"  # noqa: E501
    r"(?:foundation|starting|beginning|base|initial|first|original)?\s*(?:ch(?:ain)?s?|row|foundation|side)\b(?:\s*(?:sts|stitches|loops|edge))?"
)
JOIN = re.compile(
    r"(?:sl(?:ip)?[ .-]*st(?:itch)?|ss|sl)\.?\s+(?:(?:in|into|to|in to|through|with|on)\s+)?(?:the\s+)?(?:(?:top|first|1st|beg(?:inning)?|starting|(?:3rd|2nd|4th) (?:ch )?of|both)\b[^,.;()\[\]]{0,50}|(?:to|and)?\s*(?:join|close)\b[^,.;()\[\]]{0,50}|joining\b[^,.;()\[\]]{0,40})"  # noqa: E501
)
JOIN_PART = re.compile(
    r"(?:and\s+)?(?:join|attach|connect)\w*\b[^,.;()\[\]]{0,60}?\bwith (?:a |an |1 |one )?(?P<st>sc|dc|hdc|htr|sl st|ss|slip stitch|single crochet|double crochet)\b(?P<rest>[^,.;()\[\]]{0,60})"  # noqa: E501
)
JOIN_WORD = re.compile(
    r"(?:and\s+)?(?:join(?:ing|ed)?|close)\b(?! (?:the )?(?:yarn|new|legs?|to leg))[^,.;()\[\]]{0,70}"
)
RING_OF = re.compile(
    r"(?:and\s+)?(?:join|sl(?:ip)?[ .-]*st|ss)\b[^.;()\[\]]{0,50}?(?:to|and) (?:form|make|create) (?:a|the) (?:ring|circle|loop)\b"  # noqa: E501
)
TOTAL = re.compile(
    r"(?:for |making |giving |and |with |= ?)?(?:a )?(?:total(?: of)?(?: stitch(?:es)?| sts?)?(?: is| =|:)?|(?:you |we )?(?:should |will |'ll |must )?(?:now )?have(?: made)?|st(?:itch)? ?(?:count)(?: is| =|:)?|"  # noqa: E501
    r"count(?: is| =|:)|(?:still|again)(?: has| have)?|(?:remain|stay)(?:s|ing)?(?: at| with)?|leaving(?: you with)?|there (?:are|should be|will be)|ends? with|leaves? you with|now|makes?|giving(?: you)?|=|\u2192)\s*(?:now |left with |a total of |total )?[(\[]?(?P<n>\d+)[)\]]?\s*"  # noqa: E501
    r"(?:(?:sts?|stitch(?:es)?|sc|dc|hdc|htr|tr|st's)\b\.?)?(?:\s*(?:in total|in all|total|left|remaining|remain|now|altogether|around|per round|in (?:the|this) (?:round|row)|made|at the end(?: of (?:this |the )?(?:round|rnd|row)?(?: \d+)?)?))*"  # noqa: E501
    r"(?=\s*(?:[.;,)!\]]|$))"
)
UNWORKED = re.compile(
    r"(?:and )?(?:leav(?:e|ing)|with) (?:the |all )*(?:rem(?:aining)?|rest|last|next|other|\d+|final|remainder)?\b[^.,;()\[\]]{0,40}\b(?:un-?worked|unused|free)\b[^.,;()\[\]]{0,30}|leav(?:e|ing) (?:the )?(?:rest|remainder|remaining (?:sts|stitches))\b[^.,;()\[\]]{0,30}"  # noqa: E501
)
COUNTS = re.compile(
    r"(?P<no>(?:does|do|will|doesn't|don't|not|never)\b[^()\[\].;,]{0,14})?\bcount(?:s|ed|ing)?\s+as\b[^()\[\].;]{0,40}|(?:does|do) (?:not|n't) count\b[^()\[\].;]{0,30}"  # noqa: E501
)
ELSEWHERE = re.compile(
    r"\b(?:leg|legs|arm|arms|other piece|first piece|second piece|previous piece|body|both pieces|head)\b"
)
LAYERS = re.compile(r"\b(?:both layers|through both (?!l(?:oo|p))|both sides together|two layers|both thicknesses)\b")
AFTER_TIMES = frozenset(["", ".", ";", "(", "[", "{", "<", "=", "-", ")"])
CLAUSE_ENDS = frozenset(["", ",", ".", ";", ")", "]", "}", "(", "*", "-", "=", "and", "then"])
MANNER = re.compile(
    r"(?:and |while |by )?(?:holding|keeping|taking care|taking|being careful|careful|making sure|ensuring|pushing|popping|letting|"  # noqa: E501
    r"allowing|pulling|trying)\b[^,.;:()\[\]*]{2,90}"
)
COUNTED_CHAINS = re.compile(
    r"(?:and )?(?:count(?:ing)?|treat(?:ing)?) (?:each|every|all|the) (?:ch(?:ain)?s?[- ]?\d*)(?: (?:sps?|spaces?))? as (?:an? |one |1 )?(?:st|stitch|sc)\w*"  # noqa: E501
    r"|(?:each|every) ch(?:ain)?[- ]?\d*(?: (?:sp|space))? (?:counts|is counted) as (?:an? |one |1 )?(?:st|stitch|sc)\w*"  # noqa: E501
)
LAYERED = re.compile(
    r"(?:(?:and )?(?:work(?:ing|ed)?|going|inserting (?:the |your )?hook) )?(?:through|thru|across|in|into) (?:both|the two|two|2)(?: the| of the)? "  # noqa: E501
    r"(?:layers?|sides?|thicknesses|halves|edges|front and back)(?: (?:together|at once|of the \w+))*(?: to (?:close|seal|shut|join)(?: (?:it|the \w+))?)?"  # noqa: E501
)
ON_PIECE = re.compile(
    r"(?:around|round|on|of|over|along|across|in|into|to|from|onto)\s+(?:each (?:st|stitch) (?:of|on|around)\s+)?(?:the\s+)?"  # noqa: E501
    r"(?P<which>first|second|third|fourth|other|next|1st|2nd|3rd|4th|left|right|front|back)\s+(?P<what>legs?|arms?|pieces?|foot|feet|wings?|fins?|ears?|flippers?|halves|half|tubes?)\b"
    r"(?:\s+(?:\d|one|two))?"
)
PIECE = re.compile(
    r"(?:around|round|on|of|over|along|across|onto)\s+(?:the\s+)?(?P<what>leg|arm|piece|foot|wing|fin|flipper)\s+(?P<which>\d|one|two|a|b)\b"
)
ON_CHAIN = re.compile(
    r"(?:along|across|over|down|up|on|in|into)\s+(?:(?:the|each of the|each)\s+)?(?:(?:other|opposite|second|back|under) side of (?:the |this |that )?)?"  # noqa: E501
    r"(?:bridge|(?:connecting |joining |middle )?chains?|ch\b)(?!\s*-?\s*\d)(?! from)(?! sp)(?:\s+(?:bridge|sts?|stitches))?"  # noqa: E501
)
STARTING_IN = re.compile(
    r",?\s*(?:starting|beginning|start|begin|working)\s+(?:in|from|with|at|into)\s+(?:the\s+)?"
    r"(?:(?P<n>\d+)(?:st|nd|rd|th)|(?P<word>first|second|third|fourth|fifth))\s+(?:chain|ch)(?: st)?(?:\s+from (?:the |your )?hook)?"  # noqa: E501
)
EVENLY = re.compile(
    r"(?:work(?:ing)? |making? )?(?:(?P<verb>inc(?:reas)?(?:e|ing)?|dec(?:reas)?(?:e|ing)?)\s+(?:by\s+)?(?P<n>\d+)(?:\s+(?:sts?|stitches|sc|times))?"  # noqa: E501
    r"|(?P<n2>\d+)\s+(?P<verb2>inc(?:rease)?s?|dec(?:rease)?s?))\s+(?:spread\s+|spaced\s+)?evenly"
    r"(?:\s+(?:spaced|spread|over|around|across|along|in|to|the|this|end|round|row|rnd))*"
)
PLAIN = frozenset({"sc", "hdc", "dc", "tr"})
TO_ELSEWHERE = frozenset(
    [
        "around",
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
        "at",
    ]
).union(
    ["down", "up", "1", "one", "st", "working", "going", "and", "inserting", "work"],
)
STEADY = re.compile(
    r"(?:(?:continue|keep|go on|cont\.?)(?: on)?(?: to)? |and )?(?P<verb>inc(?:reas(?:e|ing))?|dec(?:reas(?:e|ing))?)"
    r"(?:\s+(?:in|on) the same (?:way|manner)|\s+as (?:established|before|set)|\s+(?:in )?this way|\s+like this)?,?"
    r"\s+(?:by\s+)?(?P<n>\d+)(?:\s+(?:sts?|stitches|sc|times))?(?:\s+(?:evenly|spaced|spread))*"
    r"\s+(?:each|every|per|in each|in every|on each|on every|a)\s+(?:round|rnd|row)"
    r"(?:\s+(?:in|on) the same (?:way|manner)|\s+as (?:established|before|set)|\s+(?:in )?this way|\s+like this)?"
    r"(?:\s*,?\s*until\s+(?:you have\s+|there are\s+|only\s+)*\d+\s*(?:sts?|stitches|sc)?(?:\s+(?:remain|are left|left))?)?"  # noqa: E501
)
NO_SHAPING = re.compile(
    r"(?:with )?(?:no|without|not)(?: any)?(?: more| further)? (?:increas\w*|decreas\w*|inc|dec|shaping)\b"
    r"(?:\s*(?:or|and|nor|/|,)\s*(?:no )?(?:increas\w*|decreas\w*|inc|dec|shaping)\b)*(?: (?:in |on )?this (?:round|row|rnd))?"  # noqa: E501
)
BOTH_ENDS = re.compile(
    r"(?:1 |one )?(?:st |stitch )?(?:at|on|in) (?:the )?(?:(?:beginning|beg|start) and (?:the )?end|each end|both ends|each side|both sides|each edge|both edges)"  # noqa: E501
    r"(?: of (?:the |this |each |every )?(?:row|round|rnd|work|piece))?"
)
AND_SO_ON = re.compile(
    r"(?:and )?(?:continue|keep going|carry on|go on|and so on)(?: (?:in )?(?:this|the same) (?:way|manner|pattern|fashion|sequence)| like this| so| thus| repeating| as set| as established| this| the pattern)?"  # noqa: E501
    r"(?=,? (?:all |the |way |right |evenly )*(?:around|across|to (?:the )?(?:end|last)|until|for the (?:rest|whole))\b)"  # noqa: E501
)
WITH_RING = re.compile(r"(?:start (?:off )?)?(?:with|in|using) (?:an? )mc\b")
ALONG_EDGE = re.compile(
    r"(?:along|across|down|on) (?:the )?(?:bottom|underside|lower edge|back)(?: of (?:the )?(?:ch(?:ain)?|work))?\b(?! loop)"  # noqa: E501
)
SAYS = re.compile(
    r"(?:(?:total )?(?:sts?|stitch(?:es)?)(?:[ -]?count)?(?: is)?\s*[=:]?\s*|(?:st(?:itch)?[ -]?count|total(?: (?:sts?|stitches|count))?|count)(?: is)?\s*[=:]?\s*|"  # noqa: E501
    r"there (?:are|will be|should be|is) (?:now )?|(?:you(?:'ll| will| should| now)? )(?:now )?(?:end up with|have|get|finish with|end with) )"  # noqa: E501
    r"(?P<n>\d{1,4})\b(?:\s*(?:sts?|stitch(?:es)?|sc|dc|hdc|htr|tr|in total|in all|total|left|remaining|now|altogether|around|per round|"  # noqa: E501
    r"(?:in|on) (?:the|this|each) (?:round|row|rnd)|at the end(?: of (?:this|the) (?:round|row|rnd))?)\b)*\s*(?=[.;,)!\]]|$)"  # noqa: E501
)
SAID_WORDS = frozenset(["st", "sts", "stitch", "stitches", "total", "count", "there", "you", "you'll"])
# A bracket that opens with its count: "(18 sts, 6 more)", "(12 + 6 = 18)", "(# 18)", "(18 m)".
OPENS_AS_COUNT = re.compile(
    r"(?:[#=]\s*|\+?\d+(?:\s*[-+]\s*\d+)*\s*(?:=|->|\u2192)\s*)?(?P<n>\d{1,4})"
    r"(?:\s*(?:\+ (?:the )?ch|m|p|ps)|\s*(?:sts?|stitch(?:es)?|sc|dc|hdc|htr|tr|maschen|mailles|puntos?)\b\.?(?P<rest>[ ,;:].*)?)?$"  # noqa: E501
)
CHANGE_AND_COUNT = re.compile(
    r"\+?\d+ ?(?:incs?|decs?|increases|decreases)?\s*[,;/]\s*(?P<n>\d{1,4}) (?:sts|stitches)$"
)
ANY_STITCH = re.compile(r"\b\d+ ?(?:sc|dc|hdc|htr|tr|sl st|ch)\b|\b(?:in|into) (?:next|each)\b|\brep|\btimes\b")
AND_SPACES = re.compile(
    r"\d+ (?:(?:ch(?:ain)?[- ]?\d* ?)?(?:sps?|spaces?|loops?|lps?|arches|picots?|shells?|clusters?))\b\.?"
)
JOINED_WITH = re.compile(
    r"(?:join|attach|add)(?:ing)? (?:in )?(?P<colour>[^,.;]{0,30}?) ?with (?:an? |1 |one )?(?:standing )?(?P<st>sc|dc|hdc|htr|tr|single crochet|double crochet)\b"  # noqa: E501
    r"(?: (?:in|into|to|at) (?:any|the first|first|the same|same|the next|next|a|the|each) (?:st(?:itch)?|sc|dc|sp|space)\b)?"  # noqa: E501
)
MEASURED = re.compile(
    r"(?:until|till?) (?:the |your |this )?(?:piece|work|it|tube|part|rows?|rounds?|strip|total length|length) (?:measures?|is|has|reaches|are)\b[^.;()\[\]]{1,50}?(?:cm|mm|in(?:ch(?:es)?)?|\"|long|wide|deep|tall)\b"  # noqa: E501
)
COUNT_TAIL = re.compile(
    r"(?:,? ?(?:at|by) (?:the |this )?end(?: of (?:this |the |each |every )?(?:rounds?|rnds?|rows?)?(?: \d+)?)?|(?:in|on) (?:this|the|each|every) (?:round|rnd|row)"  # noqa: E501
    r"|(?:per|each|every|a|on) (?:round|rnd|row)|on (?:the |your )?hook|around|altogether|so far|at this point|now)+"
)
ENDS_ROUND = re.compile(
    r"(?:and )?(?:finish|end|close|complete)(?:ing)? (?:(?:the |off the |this )?(?:round|rnd|row) )?(?:with|by working|by) (?:a |an |1 |one )?"  # noqa: E501
    r"(?:sl(?:ip)?[ .-]*st(?:itch)?|ss)\b[^.;()\[\]=]{0,60}"
)
PAIR_TOGETHER = re.compile(
    r"(?:work|crochet|sc|dc|join) (?:the )?(?:first|next|1st|following) (?:st(?:itch)? )?and (?:the )?(?:second|2nd|next|following) (?:sts? |stitch(?:es)? )?tog(?:ether)?\b"  # noqa: E501
)
CLOSED = re.compile(
    r"(?:until|till?) (?:the |your )?(?:hole|opening|gap|ring|circle|top|end|piece|it) (?:is |has )?(?:closed?s?|shut|gone)(?: up)?"  # noqa: E501
)
SHAPING = re.compile(r"\b(?:inc\b|dec\b|increas|decreas|repeat|alternat|every|each|other)")
SKIP_AFTER_TIMES = frozenset(["total", "in", "all", "around", "altogether"])
SPACE = re.compile(r"\bsps?\b|\bspaces?\b|\bch-\d|\b(?:ch|chain)-?\d* ?(?:loops?|lps?)\b|\barch")
STITCH_TOO = re.compile(r"\b(?:sts?|stitch(?:es)?|[hsd]?[cr]|hdc|htr|dc|sc|tr)\b.*\b(?:and|or|&)\b")
# "work the last 2 sts together", at the end of its clause: one decrease.
WORK_TOGETHER = re.compile(
    r"(?:and |then )?(?:work|crochet|join)(?:ing)? (?:the )?(?:next|last|following|first|final|remaining)? ?"
    r"(?P<n>2|3|two|three) (?:sts|stitches|sc|dc) (?:together|tog)\b(?=\s*(?:[,.;()\[]|$))"
)
# "omitting the last st", "leaving the last 2 sts unworked": what a stretch before it does not work
LEFT_OUT = re.compile(
    r"(?:and |but )?(?:"
    r"(?:omitting|leaving out|leave out|omit|except(?: for| in)?|but not(?: in)?|not working(?: in| into)?|"
    r"skipping|excluding)"
    r" (?:the )?(?:very )?last (?:(?P<n>\d{1,3}|two|three|four|five|six) )?"
    r"(?:sts?|stitch(?:es)?|sc|dc|hdc|tr)\b(?: unworked)?"
    r"|(?:leav(?:e|ing)|with) (?:the )?last (?:(?P<n2>\d{1,3}|two|three|four|five|six) )?"
    r"(?:sts?|stitch(?:es)?|sc|dc|hdc|tr) (?:un-?worked|unused|free))"
)
# "inc by 6: (5 sc, inc) x 6": what the list behind the colon comes to
HEADLINE = re.compile(r"(?:inc|dec)\w*(?: by)? \d+(?: sts?| stitches| times| evenly)*\s*:(?=\s*[\[(*{\w])")
# "working last sc in top of turning ch": where the last of the stitches told goes
LAST_INTO = re.compile(
    r"(?:and )?work(?:ing)? (?:the |your )?last (?:sc|dc|hdc|htr|tr|dtr|st|stitch) (?:in|into|on) (?:the )?"
    r"(?:top (?:st )?of|turning|3rd|4th|2nd)[^,.;()]{3,40}"
)
ALWAYS_TOGETHER = re.compile(
    r"(?:always )?(?:crochet|work|knit) (?:always )?(?:2|two) (?:sts? |stitches )?"
    r"(?:always )?together(?: around| all round)?"
    r"(?=\s*(?:[,.;()\[=]|$))"
)
NTH_TOGETHER = re.compile(
    r"(?:crochet|work|knit|join) (?:together )?every (?P<n>\d{1,2})(?:st|nd|rd|th) (?:st(?:itch)? )?and "
    r"(?P<m>\d{1,2})(?:st|nd|rd|th)"
    r"(?: st(?:itch)?)?(?: together)?"
)
