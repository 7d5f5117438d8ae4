"""How a label may be printed, as patterns: "Rnds 9-12 (4 rounds):", "4th row", "Round twenty-one:", "Next 3 rnds"."""

from __future__ import annotations

import re

from hookside.notation.vocabulary import COUNT_WORDS, NUMBER_WORDS, ORDINAL_WORDS, TENS

_WORDS = "rounds?|rnds?|rns?|rows?|rws?|rds?|r"
COURSE = rf"(?:{_WORDS})"  # what a course is called, wherever it is named
_KIND = rf"(?P<kind>{_WORDS})"
# "5 to 8", "5 right through to 8", "5 up to and including 8", "5 and every round until 8"
_UP_TO = (
    r"(?:(?:and\s+(?:every|all|each)\s+(?:the\s+)?(?:rounds?|rnds?|rows?)\s+)?"
    r"(?:(?:right|all the way|up|on)\s+)?(?:(?:through|thru)\s+)?(?:to|until|till?)(?:\s+and\s+incl(?:uding|\.)?)?|"
    r"(?:(?:right|all the way|up)\s+)?(?:through|thru))"
)
# "R5 -> R8", "R3->6:", and no range in "R4 -> 14 sc"
_ARROW = rf"-+>(?=\s*(?:{COURSE}\.?\s*#?\d|#?\d{{1,4}}\s?(?:[:.)=]|-)))"
_ITEM = (  # "R6.-R9.", "6.-9."
    rf"\d{{1,4}}(?:(?:\.(?=\s?-\s?r[a-z]{{0,4}}\.?\s?\d|-\d|\s(?:-|to|thru|through)\s\d{{1,4}}\.))?\s*(?:{_ARROW}|-|\.\.\.?|{_UP_TO}|:(?=\s*r[a-z]{{0,4}}\.?\s*\d))\s*(?:{COURSE}\.?\s*)?#?\d{{1,4}})?"
)
_NUMBERS = (
    rf"(?P<numbers>{_ITEM}(?:(?:\.(?=\s*(?:and|&|\+|,)\s*\d{{1,3}}\.))?\s*(?:,\s*and|,|&|and|plus|\+|(?<=\d)/(?=[\dr])|"
    rf"(?<=\s)/(?=\s))\s*(?:{COURSE}\.?\s*)?#?{_ITEM}|\s*=\s*{COURSE}\.?\s*#?{_ITEM})*)"
)
# in a bracket, or a count in words before the colon: "Round 2, for 9:", "Rounds 6 to 8, still 18:"
_COMES_TO = r"(?:for|still|now|always|makes?|making|gives?|giving|to (?:make|get|give)|up to|down to|back to|to)\s+"
_ASIDE = (
    rf"(?:\s*[(\[](?P<aside>[^()\[\]\n]{{1,60}})[)\]]|"
    rf",?\s+{_COMES_TO}(?P<told>\d{{1,4}})(?:\s+(?:sts?|stitches|sc|dc))?(?=\s*:))?"
)
# ... or without any word, where its own word stands before the number: "R3 18: (sc, inc) x 6"
_ASIDE_OR_COUNT = _ASIDE.replace(_COMES_TO, f"(?:{_COMES_TO})?")
_SIDE = r"(?:\s*[,-]?\s*[(\[]?(?:rs|ws|right side|wrong side|inclusive|incl\.?)(?![a-z])[)\]]?)?"
_END = r"(?P<end>\s*[:.)\]=/]+[-:.\s]*|\s+-+\s*|\s*-+\s+|-{1,3}(?=\S))"

# It begins with the letter that it takes, so that the engine runs to it: see `sought`
LABEL = re.compile(
    r"(?P<kind>[rR](?<!\w.)(?i:ounds?|nds?|ns?|ows?|ws?|ds?|))"
    rf"(?i:\s*\.?\s*(?:no\.?|number|nr\.?|#|-)?\s*{_NUMBERS}"
    rf"(?!\d|(?:[hd]?dc|sc|h?tr|ch|ss|inc|dec)\b|\s*(?:mm|cm|sts?|stitches|nd|rd|th)\b){_SIDE}{_ASIDE_OR_COUNT}{_SIDE}(?P<stop>{_END})?)"
)
# "R5 = R4", "R5: R4", in what LABEL takes for numbers
SAME_AS = re.compile(rf"\s*[=:]\s*(?={COURSE}\.?\s*#?(?P<n>\d{{1,4}}))", re.I)
# "Round (4) ...", "Rows [5-8]:"
BRACKETED = re.compile(
    rf"{_KIND}\.?\s*[(\[]\s*(?P<numbers>{_ITEM}(?:\s*(?:,\s*and|,|&|and|\+|/)\s*{_ITEM})*)"
    r"(?:\s*incl(?:\.|usive)?)?\s*[)\]](?P<stop>\s*[-:.]+)?\s*(?=[a-z\d(\[*{<])",
    re.I,
)
_COMMA_COUNT = r"\s*,\s*\d{1,4}\s*(?:sts|stitches)\b"  # "Round one, 6 sts. ..."
_TENS = "|".join(TENS)
_ONES = "|".join(list(NUMBER_WORDS)[:9])
_WORD = rf"(?:(?-i:[IVX]{{1,6}}(?![A-Za-z]))|(?:{_TENS})(?:[ -](?:{_ONES}))?|{COUNT_WORDS})"
# "Round twenty-one:", "Rounds three to five:"; in words it is a label only with a sign behind it
WORD_LABEL = re.compile(
    rf"\b{_KIND}\s+(?P<first>{_WORD})(?:\s*(?P<join>-|to|through|thru|and|&|"
    rf",)\s*(?P<last>{_WORD}))?\b{_SIDE}{_ASIDE}{_SIDE}(?P<stop>{_END}|(?<=[)\]])\s+|(?={_COMMA_COUNT}))",
    re.I,
)
# "4-5 Rnds 22sc", "6 Rnd (5sc + inc)*6": an amount of stitches, right behind a label without a sign
_WORK_NEXT = (
    r"\s+(?=(?:(?:in )?(?:[bf]lo?\b,? ?)|[(\[*{]\s*)?\d{1,3} ?(?:x ?)?"
    r"(?:sc|[hd]?dc|h?tr|inc|dec|invdec|ch|ss|sl st|[xva])\b|"
    r"(?:[(\[*{]\s*)(?:sc|[hd]?dc|h?tr|inc|dec)\b)"
)
# "4-6 round, sc around": ... and behind a comma with or without an amount
_WORK_BEHIND = r"\s+(?=(?:[(\[*{]\s*)?(?:\d{1,3} ?)?(?:x ?)?(?:sc|[hd]?dc|h?tr|inc|dec|invdec)\b)"
# "4 row:", "4 - 6 row; 18 sc", "5-8 rows:": numbers first, as translations have them
COUNT_LABEL = re.compile(
    rf"(?P<numbers>\d{{1,4}}(?:\s*(?:{COURSE}\.?\s*)?(?:-|\.\.\.?|(?:up )?to|until|till?|through|thru|"
    rf"[,+&/]|and)\s*\d{{1,4}})*)\.?\s*{_KIND}\b{_SIDE}{_ASIDE}(?P<stop>{_END}|\s*;\s+|{_WORK_NEXT}|,{_WORK_BEHIND})",
    re.I,
)
_TENTH = rf"(?:{'|'.join(list(TENS))})[ -](?:{'|'.join(list(ORDINAL_WORDS)[:9])})"  # "Twenty-first Round"
_ORDINAL = rf"(?:\d{{1,4}}(?:st|nd|rd| ?th|\.)|{'|'.join(ORDINAL_WORDS)}|{_TENTH})"
_UP_TO_NTH = r"\d{1,4}(?=\s*(?:-|to|and|&)\s*\d{1,4} ?(?:st|nd|rd|th)\b)"  # "5-6th R:"
ORDINAL_LABEL = re.compile(
    rf"(?:from\s+the\s+(?=\d))?(?P<first>{_ORDINAL}|{_UP_TO_NTH})"
    rf"(?P<between>(?:\s*[,+/]\s*{_ORDINAL}){{0,12}}?)(?:(?:\s*(?:{COURSE}|"
    rf"steps?)\b)?(?P<join>\s*(?:-|(?:up\s+)?to(?:\s+the)?|until|till|thru|through|and|und|&|"
    rf"[,+/])\s*)(?P<last>{_ORDINAL}))?\s*(?P<kind>rounds?|rnds?|rows?|rds?|steps?(?=\s*[.:])|"
    rf"r(?=\s*[.:]))\b{_SIDE}{_ASIDE}(?P<stop>{_END})?",
    re.I,
)
# "Odd rounds 5-9:", "Even-numbered rows 6 to 10 -"
BY_TURNS = re.compile(
    rf"(?:all |the |every )*(?P<turn>odd|even)(?:[- ]numbered)?\s+{_KIND}\s*[(\[,]?\s*(?:from\s+)?(?:{COURSE}\s*)?"
    rf"(?P<n>\d{{1,4}})\s*(?:-+|\.\.\.?|{_UP_TO})\s*(?:{COURSE}\s*)?(?P<last>\d{{1,4}}){_END}",
    re.I,
)
NUMBER_LABEL = re.compile(
    rf"[(\[#]?\s*(?P<numbers>\d{{1,4}}(?:[.)]?\s*(?:-|\.\.\.?|to|until|through|thru|,|&|\+|"
    rf"and)\s*[(\[#]?\d{{1,4}}|(?<=\d)/\d{{1,4}})*)"
    rf"(?:(?<=\d) incl(?:usive|\.)?)?{_ASIDE}"
    rf"(?P<stop>\s*(?:[.:)\]/]+(?:\s*[-:.])?(?!\d+(?!\d)\s*(?:mm|cm|m\b|g\b|oz|\d|-|\)|"
    rf"$))\s*|"
    rf"\s*-+\s+)|\t\s*|[ ]{{2,}})",
    re.I,
)
# "Lap 4:", "Circle 4.": what machines make of a round, a label only where stitches follow
LAP_LABEL = re.compile(
    rf"(?P<kind>laps?|circles?|tours?|lines?|levels?|ranks?|series|steps?|turns?|"
    rf"rings?|no\.?|nr\.?|number)\s*{_NUMBERS}{_ASIDE}(?P<stop>{_END})",
    re.I,
)
# "Row 2 and all even rows:", "2nd and every alt row -", "All odd rounds:"
_TURN = (
    r"(?:other|alt(?:ernate|ernative)?\.?|even|odd|even[- ]numbered|odd[- ]numbered|ws|rs|wrong[- ]side|right[- ]side|"
    r"second|2nd)"
)
_FOLLOWING = r"(?:following|foll\.?|subsequent|remaining)"
# In print without signs a label ends where an amount begins: "2nd and every alt rnd 1dc in each dc"
_AMOUNT_NEXT = r"\s+(?=\d{1,2} ?(?:ch|sc|[hd]?dc|h?tr|dtr|ss)\b)"
EVERY_LABEL = re.compile(
    rf"(?:(?:{COURSE}\.?\s*(?P<n>\d{{1,3}})|(?P<nth>{_ORDINAL})(?:\s+{COURSE})?){_SIDE}\s*(?:,\s*|,?\s*(?:and|&)\s*)"
    rf"(?P<and>(?:then\s+)?(?:(?:all|every|each)(?:\s+of)?(?:\s+the)?(?:\s+{_FOLLOWING}|\s+other)?|{_FOLLOWING}))?"
    rf"|(?P<all>(?:on\s+)?(?:all|every|each)(?:\s+the)?|(?=even|odd)))\s*(?P<turn>{_TURN})\s+(?P<kind>{COURSE})\b"
    rf"(?:\s*[,(]?\s*(?:to|through|thru|until|up\s+to|-)\s*(?:{COURSE}\s*)?(?P<last>\d{{1,3}})\)?)?{_SIDE}"
    rf"(?P<stop>{_END}|\s*,\s*|{_AMOUNT_NEXT})",
    re.I,
)
# "1st: 6 sc in MR", "3rd-5th: ..."
_NTH = r"\d{1,3}(?:st|nd|rd|th)"
NTH_LABEL = re.compile(
    rf"[(\[]?\s*(?P<numbers>{_NTH}(?:\s*(?:-|to|thru|through|&|and|,)\s*{_NTH}){{0,3}})\s*[:.)\]]+\s*-?\s*", re.I
)
WORK_OF_NEXT = (
    r"(?:(?:work |just |only |now )?(?:[(\[*]?(?:\d{1,3} ?)?(?:sc(?:2tog)?|[hd]?dc|h?tr|inc|dec|single crochets?)\b|"
    r"(?:increase|decrease)\b(?! (?:section|part|round|row))|plain\b|even\b)|double (?:every|each)\b|"
    r"(?:work|crochet) (?:every|each|all|in(?:to)? (?:each|every))\b|(?:\d|two|one) in(?:to)? (?:each|every|the)\b)"
)
NEXT_LABEL = re.compile(
    r"(?P<lead>(?:for|over|in|during) (?:the )?(?=(?:next|following) \w+ (?:rounds|rnds|rows|rds)\b,? *"
    r"(?:work |crochet )?\W?(?:\d+ )?(?:sc|[hd]?dc|h?tr|inc|dec|single|double|half)\b))?"
    # "the last one you decrease all around"; "the last round sc" may be talk of it
    r"(?:(?:and |then )?the (?=[a-z]+ (?:(?:round|rnd|row)s?|one)(?: is| you| we|:) ))?"
    r"(?P<what>(?P<open>next|following|last|final)|another|subsequent|further|closing|ending|foundation|set[ -]?up|"
    r"base|beginning|starting|"
    r"(?P<many>\d{1,2}|one|two|three|four|five|six|seven|eight|nine|ten)\s+(?:more|further|extra|additional)"
    r"(?=\s+[a-z]+\s*:))\s+"
    r"(?:(?P<n>\d{1,3}|two|three|four|five|six|seven|eight|nine|ten)\s+)?(?P<kind>rounds?|rnds?|rows?|"
    # "last one you crochet every second and third stitch together", "the last one is dec around"
    rf"(?(open)one(?=(?: is| you| we|:)?[ ]+{WORK_OF_NEXT})|(?!))|"
    rf"rds?)\b(?P<aside>){_SIDE}(?P<stop>\s*[:.\-]+\s*|\s?[)\];>=]\.?\s+|(?(lead),?\s+|(?!))|"
    # "Next round increase in every stitch.", "last round (sc, dec) x 6"
    rf"(?(open),?[ ]+(?:(?:is|you|we)[ ]+)?(?={WORK_OF_NEXT})|(?!))|(?<=[a-z\)]){_AMOUNT_NEXT})",
    re.I,
)

# "Inc rnd:", "Plain rounds (x3):", "Dec row 2 -", "Increase round 4:": a course by what it does, its number of its own
NAMED_LABEL = re.compile(
    r"(?:the |an? |another |(?:first|second|third|fourth|last|final|[1-9](?:st|nd|rd|th)) )?"
    r"(?P<what>inc(?:reas(?:e|ing))?|dec(?:reas(?:e|ing))?|shaping|plain|straight|picot|popcorn|bobble|puff|shell|cluster|"
    r"scallop|mesh|lace|eyelet|frill|ruffle|rib(?:bed|bing)?|ridge|fold|even(?=[ ](?:round|rnd|row|rd)\b)|"
    r"(?P<alone>widen(?:ing)?|narrow(?:ing)?|work even))\.?"
    r"(?:[ -]?(?P<kind>rounds?|rnds?|rows?|rds?|r(?=[ ]?\d))(?![a-z])\.?|(?(alone)|(?!)))"
    r"(?:[ ]?#?(?P<first>\d{1,3})(?:[ ]?(?:-|to|&|and)[ ]?(?P<last>\d{1,3}))?)?"
    r"(?:[ ]?[(\[][ ]?(?:x[ ]?|work[ ]|make[ ])?(?P<many>\d{1,2})[ ]?(?:x|times|rounds|rnds|rows|rds)?[ ]?[)\]])?"
    r"(?P<stop>[ ]?:[ -]*|[ ]-[ ]+)",
    re.I,
)
# ... behind its number: "R3: Plain rnd: sc in each", "R2: inc rnd, 2 sc in each"
NAMED_BEHIND = re.compile(
    r"(?:(?:inc(?:reas(?:e|ing))?|dec(?:reas(?:e|ing))?|shaping|plain|straight|widening|narrowing)\.?"
    r"[ -]?(?:round|rnd|row|rd)\b\.?|(?:widen|narrow)(?=[ ]?[:,-])|work even(?=[ ]?:))"
    r"[ ]?(?:[:,;-]|\.(?=[ ][\dA-Z(*]))[ ]*(?=\S)",
    re.I,
)
