"""Courses that point to others: "repeat rnds 5 and 6 twice", "as the first fin", "work 3 rounds even"."""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.colours import COLOURS, SHADES
from hookside.notation.bodies.besidecounts import EACH_HAS, ON_EACH
from hookside.notation.bodies.wording.stretches import SEEN
from hookside.notation.bodies.wording.tails import tail
from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.inwords import value
from hookside.notation.vocabulary import ORDINAL_WORDS, REMEMBERED, number_of

_COURSE = rf"(?:{COURSE}|steps?|lines?)\.?"
# "Repeat row 5 - 16 dc": the count behind a dash is no course
# ... nor is one behind a dash between spaces (more of them where bold signs stood), where one round is named or the
# list of them is at its end: "as row 2 - 8", "rows 2 and 3 - 8"
_ONE_NAMED = [rf"{word} {n}" for word in ("row", "rnd", "round", "and", "&") for n in ("[0-9]", "[0-9]{2}")]
_COUNT_BEHIND = (
    rf"(?:{'|'.join(f'(?<={named})' for named in _ONE_NAMED)})"
    r"\s{1,4}-\s{1,4}\d{1,4}\s*\.?\s*$"
)
_NUMBERS = (
    rf"\d{{1,4}}(?:(?!{_COUNT_BEHIND})\s*(?:-|to|through|thru|,|&|and)\s*(?:{_COURSE}\s*)?\d{{1,4}}"
    r"(?!\d|\s*(?:sts?|stitch(?:es)?|[hd]?dc|sc|h?tr|(?:half )?(?:single|double|treble)|x|(?:more )?times?)\b))*"
)
_POINTS = (
    r"(?:(?:(?:keep(?: on)?|continue|go on|carry on) )?repeating|repeat|rep\.|rep|reps|rpt\.?|rept\.?|"
    r"(?:keep(?: on)?|continue|go on|carry on) with(?=[^.;\n]{3,60} (?:until|till|up to|over and over))|"
    r"(?:(?:keep(?: on)?|continue|go on|carry on) )?(?:alternat(?:e|ing)(?: between)?|switch(?:ing)? between)|"
    r"(?:(?:work(?:ed)?|make|made|crochet|do|done|follow) )?(?:exactly |just )?(?:the same )?as (?:given|described|"
    r"written|worked|shown|told|directed|set out)(?: above)?(?: in| for)?|"
    r"(?:exactly|just) (?:as|like)(?: for| in)?|see|idem(?: to| as)?|cf\.?|work(?: as| like)?|"
    r"worked as|(?:exactly |just |all )?(?:the (?:very )?)?same (?:(?:thing|again|deal) )?as|"
    r"as(?: for| in)?|like|copy|follow|work the same as|"
    r"do the same as|identical to|crochet(?: as)?|do(?: as)?|make(?: as)?)"
)
# "just repeat row 2", "you simply work row 2 again", "again just like row 2": words of no weight in front of it
_LIGHTLY = (
    r"(?:(?:you|we|i|they|these|now|then|just|simply|only|please|again|all|are|is|it's|basically|continue to|"
    r"go on to),? ){0,4}"
)
_ORDINAL = rf"(?:\d{{1,4}}(?:st|nd|rd|th)|{'|'.join(ORDINAL_WORDS)})"
EARLIER_ONES = r"both|last|previous|prev|preceding|above|these|those|this|that"  # rounds named by where they stand
SMALL = r"two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"

# "until you have 9 rounds in total", "till nine rounds have been worked": rounds are told, not stitches
_UNTIL_SO_MANY = (
    r"(?:until|till)\s+(?:there are\s+|you(?: have|'ve)\s+(?:worked\s+|made\s+|got\s+)?)*(?:a total of\s+)?"
    rf"(?P<n>\d{{1,4}}|{SMALL})\s+(?P<such>(?:plain|even|straight|such)\s*)?(?:rows|rounds|rnds)\b"
)
UNTIL_TOTAL = r",?\s*" + re.sub(r"\(\?P<\w+>", "(?:", _UNTIL_SO_MANY)
_HOW_FAR = (
    rf"(?:{UNTIL_TOTAL}|,?\s*(?:up\s+)?(?:to|until|till|through|thru)\s+(?:and\s+including\s+)?"
    rf"(?:(?:the\s+)?end\s+of\s+)?(?:{COURSE}\.?)\s*\d{{1,3}}\b)"
)
UNTIL_ROWS = re.compile(rf"\b{_UNTIL_SO_MANY}", re.I)

# "Rnd 6: rnd 4 (18)": another round and nothing else
EARLIER = (
    rf"=?\s*(?={_COURSE}\s*{_NUMBERS}(?:\s+(?:again|once more))?,?"
    r"\s*(?:[(\[=.;-]|but\b|(?:in )?[bf]lo\b|x ?\d{1,2}\W*(?:\(\d+\)\W*)?$|$)"
    r"(?![-=.:)]*\s*(?:\d{1,3}|work|in|sc|[hd]?dc|h?tr|[*])\s*[a-z(]))"
)
OF_EARLIER = re.compile(EARLIER, re.I)
# "With blue, rep row 2"
COLOUR_LEAD = re.compile(
    # ... "Attach red and work as row 2", "Drop blue, pick up red and repeat row 2"
    r"(?P<words>(?:drop(?: [a-z]{1,12}){0,3}(?:,| and|, and) )?"
    r"(?:(?:join|attach|pick up|change to|switch to)\s+(?:in\s+|back to\s+)?|"
    r"(?:(?:continu(?:e|ing)|still|stay(?:ing)?) )?(?:with|using|in)\s+)[^.,;:()\n\d]{1,30}|"
    r"(?P<alone>[a-z]+(?: [a-z]+){0,2})(?=[,:-]))"
    r"(?:\s*[,:.;-]\s*|"
    r"(?P<joined>\s+and\s+)(?=(?:work|repeat|rep|do|crochet) (?:as|like|the same|exactly|row|round|rnd)))",
    re.I,
)
# "same, in blue": a yarn, and no other way of working
_YARN = (
    rf"(?:the )?(?:(?:yarn|colou?r|shade) [a-h]|[a-h]|(?:(?:{'|'.join(SHADES)}) )?(?:{'|'.join(sorted(COLOURS))}))"
    r"(?: yarn| wool| again)?"
)
# "Ch 1, turn, rep row 2": the way into a course, before what it is
EDGE_LEAD = re.compile(r"\s*(?:(?:ch(?:ain)? ?1|1 ?ch|turn(?: (?:the )?work)?)\b[\s,.;:]*(?:(?:and|then)\s+)?)+", re.I)
# "Rep 5 & 6 once", "repeat 5-6 twice more": rounds, though no word says so
_BARE = r"\d{1,3} ?(?:&|and|-|to|,|\+) ?\d{1,3}(?: ?(?:once|twice|again|\d (?:more )?times)\b[^a-z]*(?:more\W*)?)?\W*$"
REFERENCE = re.compile(
    r"\s*(?:(?:now |then )?(?:ditto|idem|id\.(?=\W*(?:\(\d+\)\W*)?$)|likewise|"
    r"(?:do )?(?:just |exactly )?the same(?: thing)?(?: again)?|do(?:ing)? the same(?: thing)?|"
    r"same(?: thing)?(?: again)?|again|"
    r"do\.(?=\W*$)|''(?=\W*$)|(?:one|once) more (?:like (?:this|that|it|the last)|the same)|"
    r"(?:and |then |now )*(?:another(?: one)?|one more|once more)(?: (?:round|rnd|row))?"
    r"(?: (?:just |exactly )?(?:the same|like (?:this|that|it|the last)(?: one)?|as before|alike|again))?"
    r"(?=\W{0,3}[(\[=-] ?\d+\W*$)|"
    r"[-' ]*\"[-'\" ]*(?=$|[(\[=-]+ ?\d+\W*$)|"
    r"(?P<repeat>re?pt?(?:eat)?)(?=\.?\s*(?:[(\[]\s*\d+\s*(?:sts?|stitch(?:es)?|sc|dc)?\s*[)\]]|[=-]|$)|"
    rf"{_HOW_FAR})|(?:keep(?: on)?|continue|go on|carry on) repeating(?={_HOW_FAR})|"
    r"(?:and |then |now )*(?:(?:work|make|do|crochet|add|continue(?: on)? for) )?"
    rf"(?:(?:another )?(?:(?P<many>\d{{1,2}}|one|{SMALL}) )(?:more )?|another )(?:rounds?|rnds?|rows?|rds?) "
    r"(?:like (?:the )?(?:last|previous)(?: one)?|like (?:this|that|it|these)|(?:in )?the same(?: way)?)|"
    r"(?:and |then |now )*(?:(?:work|make|do|crochet|add|continue(?: on)? for) )?"
    rf"(?P<more>\d{{1,2}}|one|{SMALL}) more (?:rounds?|rnds?|rows?|rds?))"
    r"(?!,? but (?:with(?:out)?|no)\b)"
    rf"(?={_HOW_FAR}|\s*(?:[(\[.=-]|$|,? ?but\b|"
    rf",? ?(?:with )?(?:\d{{1,2}}|one|{SMALL})(?: more)?(?: (?:sc|dc|sts?))? (?:in )?between\b|"
    r", (?:for|because|since) [^.;()\[\]\d]{4,50}(?:[.(\[]|$)|"
    rf"(?<=thing), ?\d{{1,4}}(?: ?sts?)?\W*$|(?<=same), ?\d{{1,4}}(?: ?sts?)?\W*$|"
    rf",? (?:still )?in {_YARN}\W*(?:\(\d+\)\W*)?$|"
    r"\d{1,4}(?: ?sts?)?\W*$))|"
    r"(?:and |then |now )*(?:(?:do|work|make|crochet) (?:that|this|it|the same)(?: round| row)?|(?:the )?same)"
    rf"(?= (?:again|once more|(?:once|twice|\d{{1,2}}|{SMALL}) (?:more(?: times?)?|times(?: more)?))\W*"
    r"(?:\(\d{1,4}\)\W*)?(?:(?:and )?turn\b\W*)?$)|"
    r"(?:now |then )?(?:continue|carry on|go on|keep going|keep increasing|keep decreasing|work)"
    r"(?: on)?(?: working| increasing| decreasing)?"
    r"(?:(?: in)? (?:the same|this) (?:way|manner|fashion|pattern)|"
    r",? (?:like (?:this|that)|thus|as (?:set|before|established)))"
    r"(?=,? [^.;()\[\]\n]{0,40}\b(?:more|extra|less|fewer)\b)|"
    rf"(?:{_LIGHTLY}(?:(?:(?:work|make|do|crochet|add) )?(?:another )?(?:(?P<so_many>\d{{1,2}}|one|{SMALL}) )?"
    r"(?:more )?(?:rounds?|rnds?|rows?|rds?) (?:the )?(?:same )?(?=as|like))?"
    rf"{_POINTS}\s+(?:the\s+)?(?:same\s+(?:thing\s+)?as\s+)?(?:for\s+|in\s+|as\s+|from\s+)?|"
    rf"{EARLIER})"
    rf"(?:(?:{_COURSE}|(?<=as\s)(?=\d)|(?<=like\s)(?=\d+\W*$)|"
    rf"(?<=rep\s)(?={_BARE})|(?<=repeat\s)(?={_BARE}))\s*(?P<numbers>{_NUMBERS})(?!\d|(?:st|nd|rd|th)\b)|"
    rf"(?P<ordinal>{_ORDINAL}(?:\s*(?:-|to|through|thru|,|&|and)\s*(?:the\s+)?{_ORDINAL})*)"
    r"(?:\s+(?:round|rnd|row|rd)s?|\s+(?:one\s+)?(?:was|did)\b|"
    r"(?<!first)(?<!\b1st)(?=\W*(?:\(\d+(?: [a-z]{2,8}\.?)?\)\W*)?$))|"
    rf"(?P<last>(?:(?:the\s+)?(?:{EARLIER_ONES})|the(?=\s+(?:{SMALL})\s+r))"
    rf"(?:\s+(?P<lastn>\d{{1,2}}|{SMALL}))?\s+(?:rounds?|rnds?|rows?|rds?)|"
    r"(?:the\s+)?(?:round|rnd|row)\s+(?:before|above)|"
    r"(?:above|before|(?:the\s+)?(?:last|previous|prev\.?|preceding)(?: one)?|the one (?:before|above))"
    rf"(?=\s*(?:[(\[.=-]|$|, (?:\d{{1,2}}|one|{SMALL})(?: more)? between\b))))(?!\s*st))(?P<rest>[^\n]*)",
    re.I,
)
COUNT_FIRST = re.compile(r"(?P<n>\d{1,4}) *= *(?=[a-z(\[*\d+-])", re.I)  # "24 = (2 sc, inc) x 6"
# "as head R1-R4": the piece before its rounds
PIECE_OF = re.compile(
    rf"\s*(?:(?:now |then )?{_POINTS}\s+)+(?:the\s+)?(?:same\s+(?:thing\s+)?as\s+)?(?:for\s+)?(?:the\s+)?"
    rf"(?P<name>[a-z][a-z ]{{1,30}}?)[,:]?\s+(?:up to\s+)?{_COURSE}\s*(?P<numbers>{_NUMBERS})",
    re.I,
)
# A table that only tells how many more or fewer: "+6", "0", "MR"
CHANGE_ALONE = re.compile(
    r"\s*(?:(?P<sign>[+-])\s*(?P<n>[1-9]\d?)(?:\s*(?:sts?|stitches))?|(?P<none>[+-]?\s*0|none|same|even|[=-])|"
    r"(?P<ring>(?:magic |adjustable )?(?:ring|circle|loop)|m\.?[rc]\.?|start))\s*$",
    re.I,
)
OF_PIECE = re.compile(
    rf"\s*(?:(?:now |then )?{_POINTS}\s+)*(?:the\s+)?(?:same\s+(?:thing\s+)?as\s+)?"
    rf"(?:{_COURSE}\s*(?P<numbers>{_NUMBERS})|"
    rf"(?P<ordinal>{_ORDINAL}(?:\s*(?:-|to|through|thru|,|&|and)\s*(?:the\s+)?{_ORDINAL})*)\s+(?:rounds?|rnds?|rows?|rds?)\.?)\s+"
    r"(?:of|from|for|on|in)\s+(?:the\s+)?(?P<name>[a-z][a-z ]{1,30}\d?)",
    re.I,
)
# "LEG 2. Work rounds 1 to 24 again", "make rounds (1) to (5) just as for the pot": of the piece before, or of that one
FROM_BEFORE = re.compile(
    r"\s*(?:(?:join|attach)\b[^.;:\n]{0,60}?\b(?:and|then)\s+)?(?:(?:now |then )?(?:first |also )?"
    r"(?:work|make|repeat|rep|crochet|do|follow|the|same(?: as)?|as(?: in)?|like)\b[ ]?)+"
    rf"{_COURSE}\s*(?P<numbers>[(\[]?\d{{1,3}}[)\]]?(?:\s*(?:-|to|through|thru|and|&)\s*(?:{_COURSE}\s*)?"
    r"[(\[]?\d{1,3}[)\]]?)?)(?!\s*(?:st|x|times|more)\b)"
    r"(?:,? (?:again|once more|as before|(?:in )?the same way|alike))?"
    r"(?:,? (?:just |exactly )?(?:as|like|as you did|(?:the )?same as|of|from)(?: for| in| on| with)? (?:the )?"
    r"(?P<name>[a-z][a-z ]{1,30}\d?))?(?=\s*(?:[.,;!(]|$|but\b|and (?:do|don't|keep|leave)\b))",
    re.I,
)
# "nine rounds of 30 single crochet", "4 rounds in dc"
_OF_PLAIN = (
    r"(?:of (?P<of>\d{1,3})(?: (?:sts?|stitches))?(?: (?:without|with no) (?:any )?(?:inc|dec|shap)[a-z]*)?"
    r"(?=\s*(?:[.,;(\[=-]|$))|"
    rf"(?:of|in|with) (?:(?:plain|just|only) )?(?:(?:(?P<of2>\d{{1,3}})|{SMALL}) )?"
    r"(?:single crochets?|double crochets?|sc|dc|[ds]\.c(?=\.))(?!\.? in\b)(?!\.? into\b))"
)
# "crochet 10 rounds over all sts"
_OVER_ALL = (
    r"(?:over|across|along|in) (?:all|every|each)(?: of)?(?: the)? (?:sts?|stitch(?:es)?)(?: a?round)?"
    r"(?=\s*(?:[.,;(\[=-]|$))"
)
# How many plain rounds a body stands for, and what is told behind them; `lines/unlabelled/alone` tells why it has
# words of its own
EVEN = re.compile(
    r"\s*(?:now |then |continue |work |to |and |crochet |just |simply |knit |we |keep going |carry on |go on |with )*"
    rf"(?:(?:work|do|crochet|make|add)?\s*(?:another\s+)?(?P<n>\d{{1,3}}|one|{SMALL}|(?:an?(?:other)? )?couple(?: of)?)"
    r"\s+(?:more\s+)?"
    rf"(?:(?:plain|even|straight)\s+(?:rounds?|rnds?|rows?|rds?)(?:\s+(?:of|in)\s+(?:sc|dc|single crochet))?"
    r"(?=\s*(?:[.,;(\[=-]|$| of (?:\d|[a-z]+ st)| on the))|"
    rf"(?:rounds|rnds|rows|rds)(?=\W*$)|"
    rf"(?:rounds?|rnds?|rows?|rds)\s+(?:(?:sc|dc|single crochet)(?: (?:a?round|across|only))?"
    rf"(?=\s*(?:[.,;(\[=-]|$))|even|straight|plain|{_OF_PLAIN}|{_OVER_ALL}|(?=\s*[(\[=]\s*\d{{1,4}}\W*$)|"
    r"(?:(?:like (?:that|this|it|these|those)|the same),? )?(?:but )?(?:without|(?:with )?no) (?:any )?(?:more )?"
    r"(?:shaping|changes?|inc(?:s|reas\w+)?|dec(?:s|reas\w+)?)|(?:with )?nothing (?:special|fancy|extra)|more))|"
    r"(?:work|continue|sc|dc)?\s*(?:even|straight|plain(?=\s+\())(?:\s+(?:in|with) (?:sc|dc))?(?:\s+for)?\s+\(?"
    rf"(?P<n2>\d{{1,3}}|{SMALL})\s+(?:more\s+)?(?:rounds?|rnds?|rows?)\b\)?(?!\w)|"
    r"(?:sc|dc)\s+(?:in\s+)?every\s+(?:round|rnd|row)\s+for\s+"
    rf"(?P<n3>\d{{1,3}}|{SMALL})\s+(?:more\s+)?(?:rounds?|rnds?|rows?)|"
    rf"(?:(?:plain )?(?:sc|dc)(?: around| evenly| even)?(?: for)?|around,?(?: for)?|same (?P<told>\d{{1,3}}) for) "
    rf"(?:the next )?(?P<n4>\d{{1,3}}|{SMALL}) "
    r"(?:more )?(?:rounds|rnds|rds|rows)(?: (?:straight|even(?:ly)?|plain))?"
    r"(?=\s*(?:[(\[.=-]|$|,? (?:still|always|all|each|so) \d|, \d))|"
    rf"(?P<one>(?:work|continue|crochet) {_OVER_ALL}|"
    r"(?:work|continue) (?:even(?:ly)?|straight)(?=\s*(?:[(\[.=,-]|$| around))|"
    r"(?:work|continue|crochet) (?:all )?(?:the way )?(?:a)?round (?:once )?(?:without (?:any )?(?:shaping|increas\w+|"
    r"decreas\w+)|even(?:ly)?|straight|plain)|"
    r"(?:knit )?even(?: (?:round|rnd|row))?|"
    r"straight(?! (?:arms?|legs?|ears?|tails?|horns?|stems?|spikes?|wings?|fins?|strips?|pieces?|parts?)\b)|"
    r"(?:an?(?:other)? )?plain(?: (?:round|rnd|row))? (?:again|once more)|"
    rf"(?:work|continue|keep|go on)(?: in)?(?: even(?:ly)?| straight| plain)?(?: around)?(?={UNTIL_TOTAL})|"
    r"(?:same(?: again)?,? (?:but )?)?"
    r"(?:with )?(?:no|without)(?: any)? (?:increas\w*|decreas\w*|inc|dec|shaping)(?: ?(?:or|and|nor|/|,) ?(?:no )?"
    r"(?:increas\w*|decreas\w*|inc|dec|shaping))*"
    r"(?:[,:;.]? (?:(?:just|only|simply) )+(?:sc|dc|single crochet)(?: in (?:each|every) st(?:itch)?)?(?: a?round)?)?"
    r"(?=\s*(?:[(\[.=,-]|$))|"
    r"(?:(?:one|1|an?(?:other)?) )?(?:plain|normal)(?: (?:sc|dc))?(?: (?:round|rnd|row))?"
    r"(?: (?:on|over|in|along) (?:all )?(?:the|these|those|your) (?:same )?\d{1,3} (?:sts|stitches))?"
    r"(?=\s*(?:[(\[.=-]|$)|(?:(?<=round)|(?<=rnd)|(?<=row)) (?:in|with) [a-z]{3,12}(?: [a-z]{3,12})?\W*$)|"
    r"(?:no|without|with no) (?:any )?(?:changes?|alterations?|additions?|modifications?)(?=\s*(?:[(\[.,;=<~*-]|$))|"
    r"(?:stays? |remains? |leave )?as (?:it|they) (?:is|are)(?=\s*(?:[(\[.=-]|$))|"
    r"(?:the )?same (?:number|amount|count)(?: of (?:sts|stitches))?(?: (?:again|as before))?(?=\s*(?:[(\[.=-]|$))|"
    r"(?:with )?nothing (?:special|fancy|extra)(?=\s*(?:[(\[.=-]|$))|"
    r"(?:work |crochet )?plainly(?:, (?:with )?(?:one |1 )?(?:sc|dc|(?:single|double) crochet) in(?:to)? "
    r"(?:each|every) st(?:itch)?(?: a?round)?)?(?=\s*(?:[(\[.=-]|$))|"
    r"unchanged(?=\s*(?:[(\[.=-]|$))|"
    r"(?:sc|dc) only(?=\s*(?:[(\[.=-]|$))|"
    r"(?:(?:crochet|work|continue|go|on)(?: on)? )?(?:all )?(?:the way )?(?:a?round and )?a?round"
    r"(?=\s*(?:[(\[.=-]|$))|"
    r"(?:you )?(?:just |simply )?(?:keep going|(?:go|keep)(?: going| on)? (?:straight|even|plain|"
    r"a?round(?: and round)?))(?=\s*(?:[(\[.=-]|$))|"
    r"st(?:itch)? in st(?:itch)?|another (?:round|rnd|row) (?:of sc|even)))"
    r"(?:(?!\w)|(?<=\)))(?P<rest>[^\n]*)",
    re.I,
)
# "... in blo", "... in white", behind so many plain rounds
EVEN_HOW = re.compile(
    r",? ?(?:all |worked |both |each )?(?:in|with|through) (?:the )?"
    r"(?:(?P<loops>[bf]lo|(?:back|front) loops?(?: only)?)|(?P<stitch>sc|[hd]?dc|h?tr)|"
    r"(?P<shade>[a-z]{3,12}(?: [a-z]{3,12})?))\W*(?:[(\[=]\s*\d+\W*)?$",
    re.I,
)
# "Flipper B: as A, but ...": the other one by its letter or number alone
_BY_ITS_LETTER = (
    r"[a-h1-9](?=\s*(?:[.,;(\n]|$|\b(?:but|except|until|till|then|and|in|with|without|minus|plus|again|mirror\w*|"
    r"up to|to|for|only)\b))"
)
LIKE_PIECE = re.compile(
    r"\s*(?P<lead>(?:with|using|in)\s+(?:[^.,;:()\n\d]{1,30},\s*|(?:[a-z]+ ){1,3}?(?=(?:make|work|crochet) )))?"
    r"(?:(?:make|work|worked|made|crochet|do|repeat|follow|complete|as|same|use|exactly|just|(?:start|begin(?:ning)?)s?(?:\s+off)?|"
    r"it|this(?:\s+one)?|rounds? \d+\s*(?:-|to)\s*\d+)\s+)*"
    r"(?:the\s+)?(?:(?:exactly\s+)?(?:the\s+)?same\s+(?:way\s+|pattern\s+|instructions\s+)?(?:as|for)|"
    r"(?:follow|copy|see|mirror)(?:\s+(?:the\s+)?(?:pattern|instructions|directions|steps)(?=\s+(?:of|for|from)))?"
    r"(?:\s+(?:of|for|from))?|"
    r"as\s+(?:given|directed|described|written|worked)\s+(?:for|in)|as(?:\s+(?:for|in))?|like|instructions\s+(?:for|as)|"
    r"(?:work|make|crochet|do|follow)(?=\s+the\s+[a-z ]{2,30}\s(?:again|once more|instructions|directions|steps)\W*$)|"
    r"repeat|instructions|of(?=\s+the\s)|rounds? \d+\s*(?:-|to)\s*\d+ of)\s+(?:for\s+)?(?:the\s+)?"
    rf"(?P<name>(?:[a-z][a-z ]{{1,30}}\d?|{_BY_ITS_LETTER})[^.\n]{{0,60}})",
    re.I,
)
# "As Ear A, then", "Same as Ear A, plus" in front of a label: all that part has, and what the label tells behind it
LIKE_THEN = re.compile(
    rf"\s*(?P<like>(?:(?:make|made|work|worked|crochet|do|repeat|follow|complete|begin|start|exactly|just|the)\s+)*"
    rf"(?:same|as|like|identical|repeat)\b(?![^.;:()\n]*\b{COURSE}\.?\s*\d)[^.;:()\n]{{0,50}}?)"
    r"\s*[,;-]?\s*(?:\b(?:and|then|plus|followed by|adding|add|with|ending with|end with|work|but|except|also)\b\s*|"
    r"[+&]\s*)+",
    re.I,
)
# "Same, R5: ...", "the same. Then R6: ...": a sign alone between them
SAME_THEN = re.compile(
    r"\s*(?P<like>(?:(?:make|work|do|worked|made|exactly|just|the)\s+)*"
    r"(?:same(?: (?:as|like)\b)?|as(?= (?:the )?first\b))"
    r"(?: the)?[a-z ]{0,16}?\d?)\s*[,;.]\s*(?:then\s*)?",
    re.I,
)
# "The same but in red.": all that the piece before it has; what is other stands behind
SAME_AGAIN = re.compile(
    r"\s*(?:(?:now |then )?(?:make|work|crochet|do)\b ?)?(?:(?:another|one more|a second|the second|it|this)\b ?)?"
    r"(?:one |piece )?(?:is )?(?:worked |made )?(?:exactly |just )?(?:in )?(?:the same|same|likewise|repeat|alike|"
    r"identical(?:ly)?|same as above|like the (?:first|other|previous|left|right)(?: one)?|as (?:above|before))"
    r"(?: way| again| thing)?(?:,? (?:but |only |this time )*"
    rf"(?P<but>(?:in|with) (?!(?:an?|one|{SMALL}) (?:more|extra|additional|plain|rounds?|rnds?|rows?)\b)"
    r"[a-z][^.,;:()\n\d]{1,30}))?\s*[.!]?\s*",
    re.I,
)
# ... and what may follow it: "The same, but skip R6.", "Make another one without the last round."
_ANOTHER = re.compile(r"\s*(?:make|work|crochet|do) (?:another|one more|a second|the second)(?: one| piece)?\b", re.I)
_BUT = re.compile(
    r"\s*[,;(.-]?\s*(?:but|except|only|without|with (?:\d|one|two|three|an?)|minus|omit\w*|skip\w*|leav\w+|mirror\w*|"
    r"in mirror|revers\w*|stop\w*|end\w*|to r\w* ?\d|do not|don't|not|no|never|this time|keep\w*|"
    r"fasten\w*|finish off|cut|sew|stuff\w*|"
    rf"{_COURSE} ?\d{{1,3}}(?= ?:)|up to|(?:and )?then|plus|(?:and )?add(?:ing)?|fold\w*|with r\w* ?\d|"
    rf"(?:and )?(?:\d{{1,2}}|one|{SMALL}) (?:more |extra |additional |plain )?(?:rounds?|rnds?|rows?))\b|\s*\+ ?\d",
    re.I,
)


def same_again(text: str) -> re.Match[str] | None:
    """ "The same but in red.", and in front of what is otherwise: "The same, but skip R6."."""
    match = SAME_AGAIN.fullmatch(text)
    if match is not None:
        return match
    match = SAME_AGAIN.match(text) or _ANOTHER.match(text)
    return match if match is not None and _BUT.match(text, match.end()) else None


@lru_cache(REMEMBERED)
def of_another(body: str) -> bool:
    """Might the body of a course have its stitches from another piece, or from the one before?"""
    return bool(LIKE_PIECE.match(body) or OF_PIECE.match(body) or PIECE_OF.match(body) or same_again(body))


_NAME_ENDS = re.compile(
    r"[.,;(=|\n]|\s-+\s*\d|\s-+\s(?=\w)|\b(?:but|for|until|till|up to|as far as|to (?:the )?end|through|thru|from|"
    rf"to {COURSE}\.? ?\d|{COURSE}\.? ?\d|rounds?|rnds?|rows?|except|without|omitting|skipping|leaving|minus|plus|"
    r"instead|only|then|again|once more|instructions|directions|steps|to (?:the )?\d|"
    r"(?:in|using|with) (?!the\b)[a-z]+)\b",
    re.I,
)


def name_ends(words: str) -> int:
    """Where the name of a part ends that stands in front of what is said of it: "ear 1, but skip R6"."""
    match = _NAME_ENDS.search(words, len(words) - len(words.lstrip()))
    return match.start() if match is not None else len(words)


# "twice, then row 2 once more", "..., ending with row 2"
THEN = re.compile(
    rf"[\s,;.]*\b(?:(?P<ends>end(?:ing|s)?)\s+(?:with|on|by|after)|(?:and|then|and then|followed by|plus))\s+"
    rf"(?:a\s+|an\s+|(?:repeat|rep|work|working)\s+)?(?:another\s+|"
    rf"the\s+)?{_COURSE}\s*(?P<numbers>{_NUMBERS})(?P<rest>[^\n]*)",
    re.I,
)
UNTIL = re.compile(
    r"\b(?:until|'?till?)\s+(?:(?:there(?: are|'s)?|"
    r"you(?: have|'ve got|'re left with| get(?: down| back)? to)?|just|only)\s+)*"
    r"(?P<n>\d{1,4})(?!\d|\s+(?:rows|rounds|rnds)|[.,/]?\d*\s*(?:cm|mm|in|inch(?:es)?|\")(?![a-z]))"
    rf"(?!\s+(?:[a-z]+\s)?{SEEN}\b)"
    r"\s*(?:sts?|stitches|sc|dc)?\s*"
    r"(?:(?:are |is )?(?:remain|remaining|left)|in total)?",
    re.I,
)
_ENDING_WITH = re.compile(
    r"^(?P<lead>\W*)ending with"
    r"(?=\s+\d{1,4}(?:\s+(?:sts?|stitches|sc|[hd]?dc|h?tr))?(?:\s+(?:left|remaining))?\W*$)",
    re.I,
)


def up_to(rest: str) -> str:
    """ ", ending with 4 hdc" behind what is repeated, told as "until"; of the same length."""
    return _ENDING_WITH.sub(lambda m: f"{m['lead']}until".ljust(len(m[0])), rest)


COUNT_IN = re.compile(
    r"[(\[{<]\s*(\d{1,4})\s*(?:sts?|stitches|sc|dc|hdc|htr|tr|loops|points|posts|columns)?\.?"
    rf"(?: (?:total|in total|each|per round|(?:in|after|at|on) {COURSE}\.? ?\d{{1,3}}))?\s*[)\]}}>]|"
    r"(?:\s[-=:]\s*|=\s*|\.\s+|\.{2,}\s*)(\d{1,4})\s*(?:sts?|stitches|sc|dc|hdc|htr|tr|loops)?\s*[.;]?\s*"
    r"(?:(?:turn|join)\b\.?\s*|[(\[]\s*\d{1,3} (?:rounds?|rnds?|rows?)\s*[)\]]\W*|(?<=[.;] )[a-z][^\d\n]+)?$",
    re.I,
)


# "even, 24; eyes between R8 and R9": nothing but the count
BEHIND_EVEN = re.compile(r"[,:;]?\s?(?P<n>\d{1,4})(?: (?:sts?|stitches))?(?=\s*(?:$|[.,;]))")
# "plain, which brings you to 13", "no change, giving 13", "as R3, so 13": behind what repeats nothing else is told so
_SO_MANY = re.compile(
    r"(?:^|[,;.:-])\s*(?:(?:which|that|this|it|so|and|you|we|now|should|will|then|again) )*"
    r"(?:is|are|makes?|making|gives?|giving|leaves?|leaving|brings?|bringing|comes?|coming|have|has|got|totals?|"
    r"stays?|remains?|so|still|now)(?: (?:you|us|with|back|up|down|to|at|still|always|again)){0,3} "
    r"(?P<n>\d{1,4})(?: (?:sts?|stitches|sc|[hd]?dc|h?tr))?\s*[.;!]?\s*$",
    re.I,
)
_JOB_BEHIND = re.compile(r"(?<=[.!)\]}>])\s+(?=[A-Z])")  # "You now have 7 sc. Cut the yarn, ..."


def ordinals(text: str) -> str:
    """ "5th to eighth" -> "5 to 8"."""
    text = re.sub(r"(?<=\d)(?:st|nd|rd|th)\b", "", text.lower())
    return re.sub("|".join(ORDINAL_WORDS), lambda m: str(ORDINAL_WORDS[m[0]]), text)


def numbers_in(match: re.Match[str]) -> str:
    """The rounds that a reference to another piece names: "rnds 2-5", "2nd to 5th rnds."."""
    told = match.groupdict()
    return told["numbers"] or ordinals(told["ordinal"])


_AND_AGAIN = re.compile(
    r"\W*(?:again\W+)?(?P<more>(?:(?:and |then )+(?:(?:once |yet )?again|once more|one more time)\W*)+)", re.I
)


def and_again(rest: str) -> int:
    """ "Do that row again. And again.": how many times more than the reference itself says."""
    told = _AND_AGAIN.fullmatch(rest)
    return len(re.findall(r"again|more", told["more"], re.I)) if told is not None else 0


def small(word: str) -> int:
    """ "once", "three", "12" -> a number."""
    if "couple" in word.lower():
        return 2
    return {"once": 1, "twice": 2, "thrice": 3, "a": 1, "an": 1}.get(word.lower()) or number_of(word)


def printed(body: str, start: int) -> tuple[int, int, int] | None:
    """The printed count of a body that is no list of stitches: "repeat round 6 (36)"."""
    found = None
    for match in COUNT_IN.finditer(body):
        group = 1 if match[1] else 2
        found = (int(match[group]), start + match.start(group), start + match.end(group))
    told = None
    if found is None and (has := EACH_HAS.search(body)) is not None:
        found = (value(has["n"]), start + has.start("n"), start + has.end("n"))
    if found is None and (each := ON_EACH.search(body)) is not None:
        found = (int(each["n"]), start + each.start("n"), start + each.end("n"))
    if found is None:
        told = tail(body, bracketed=True)
        ends = [m.start() for m in _JOB_BEHIND.finditer(body)] if told is None else []
        told = next((t for at in ends if (t := tail(body[:at], bracketed=True)) is not None), told)
    if found is None and told is None and (so := _SO_MANY.search(body)) is not None:
        found = (int(so["n"]), start + so.start("n"), start + so.end("n"))
    return found if told is None else (told.n, start + told.start, start + told.end)


def many(match: re.Match[str]) -> int:
    """How many courses a reference asks for in front of what it names: "2 more rounds like round 4"; 0 where none."""
    return small(match["many"] or match["more"] or match["so_many"] or "0")


def of_no_course(match: re.Match[str]) -> bool:
    """ "Continue in this way, one more between each": a reference that names no course."""
    return not any(match[group] for group in ("numbers", "ordinal", "last", "repeat"))
