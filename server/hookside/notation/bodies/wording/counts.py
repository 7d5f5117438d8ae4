"""The wording of printed counts, and what is said to count."""

from __future__ import annotations

import re

_NOUN = (
    r"(?:sts?|stitch(?:es)?|sc|dc|hdc|htr|tr|(?:half )?(?:single|double|treble) (?:treble )?crochets?|half trebles?|"
    r"trebles?)"
)
# "= 40 with the chains", "36 counting each space as one"
_WITH_THEM = (
    r",? ?(?:(?:with|counting|including|incl\.?)(?: all)?(?: the| its| each| every)?(?: \d)? "
    r"(?:ch(?:ain)?s?|sps?|spaces?)"
    r"(?: (?:sts|stitches|sps?|spaces?))?(?: as (?:one|1|a st(?:itch)?))?|(?:the )?(?:chains|spaces) (?:are )?counted)"
)
WITH_CHAINS = re.compile(_WITH_THEM)
# "in this round", "in each of these 10 rounds"
_OF_ROUNDS = r"(?:in|on) (?:the|this|each|every)(?: of (?:the|these|those))?(?: [\da-z]{1,5})? (?:rounds?|rows?|rnds?)"
TOTAL = re.compile(
    r"(?:for |making |giving |and |with |= ?)?(?:a )?(?:total(?: of)?(?: stitch(?:es)?| sts?)?(?: is| =|:)?|(?:you |"
    r"we )?(?:should |will |'ll |must )?(?:now )?have(?: made)?|st(?:itch)? ?(?:count)(?: is| =|:)?|"
    r"count(?: is| =|:)|(?:check|sum|result|yield|tally|outcome)(?: is| =|:)?|(?:still|again)(?: has| have)?|"
    r"(?:remain|stay|keep)(?:s|ing)?(?: at| with)?|"
    r"leaving(?: you with)?|"
    r"there (?:are|should be|will be)|end(?:s|ing)? with|"
    r"leaves? you with|now|mak(?:es?|ing)|giving(?: you| us)?|=|\u2192)\s*"
    r"(?:now |left with |a total of |total )?[(\[]?(?P<n>\d+)[)\]]?\s*"
    rf"(?:(?:{_NOUN}|st's)\b\.?)?(?:\s*(?:in total|in all|total|left|remaining|remain|now|"
    rf"{_WITH_THEM}|"
    rf"altogether|around|per round|each (?:time|round|row)|every (?:time|round|row)|{_OF_ROUNDS}|made|"
    r"on (?:the |this )?(?:row|round|rnd)|at the end(?: of (?:this |the )?(?:round|rnd|"
    r"row)?(?: \d+)?)?))*"
    r"(?=\s*(?:[.;,)!\]]|$))"
)
SAYS = re.compile(
    r"(?:(?:total )?(?:sts?|stitch(?:es)?)(?:[ -]?count)?(?: is)?\s*[=:]?\s*|(?:st(?:itch)?[ -]?count|"
    r"total(?: (?:sts?|stitches|count))?|count)(?: is)?\s*[=:]?\s*|"
    r"there (?:are|will be|should be|is) (?:now )?|"
    r"(?:that|this|which|it)(?:'?s| is|'ll be| makes| gives(?: you| us)?| leaves(?: you(?: with)?)?| should be|"
    r" comes to)? |"
    r"still (?:at |have |has |on )?|so that |"
    r"(?:so that )?(?:(?:did |do )?you(?:'ll| will| should| now|'ve)? )(?:now |still )?(?:end up with|have|"
    r"get|got|finish with|end with|count|see|reach|come to|be (?:at|on|left with)) )"
    rf"(?P<n>\d{{1,4}})\b(?:\s*(?:{_NOUN}|in total|in all|total|(?:are )?left|remain(?:ing)?|now|"
    r"altogether|around|per round|"
    rf"{_OF_ROUNDS}|(?:each|every) (?:time|round|row|rnd)|"
    r"at the end(?: of (?:each of )?(?:this|the|these|those|each|every) (?:rounds?|rows?|rnds?))?)\b)*\s*(?=[.;,)?"
    r"!\]]|$|(?:now|then|before|but|so|for) (?:the|a|an|it|we|you|this|that|they|your)\b)"
)
# "..., 6 times so 18 total", "so that's 30", "so now 24", "and you have 18 left"
_IN_ALL = r"(?: (?:in total|in all|total|all together|altogether|now|left|all round|around))*"
_COME_TO = (
    r"(?:(?:that|this|it)(?:'?s| is| makes| gives(?: you| us)?| should be)|"
    r"(?:that )?(?:you|we)(?:'ve| should| will| now)* (?:have|get|got)|there are)"
)
SO_MANY = re.compile(
    rf"(?:(?:so|thus)(?: then)?(?: {_COME_TO})?|and(?: then)? {_COME_TO}) (?:still |now |a total of |back to )*"
    rf"(?P<n>\d{{1,4}})(?: {_NOUN})?{_IN_ALL}(?=\s*(?:[.;!(\[]|$))"
)
# "18 total", "30 all together": behind a comma
IN_ALL = re.compile(
    rf"(?P<n>\d{{1,4}})(?: {_NOUN})?(?: (?:in total|in all|total|all together|altogether|now|"
    r"(?:each|every) (?:time|round|rnd|row)))+(?=\s*(?:[.;!(\[]|$))"
)
# "..., 6 times in all, which makes 18 stitches", "..., twice, leaving 10", "..., 6 times, that's 24": a count behind it
TOLD_BEHIND = re.compile(
    r"[,;]?\s*(?:and |so )*(?:(?:which|that|this|it)(?:'s|'ll be| "
    r"(?:makes?|gives?|leaves?|is|comes to)(?: you)?(?: with)?)|"
    r"(?:that |now )?you(?:'ve (?:now |still )?got| (?:now |should |will |still )*have)|leaving(?: you)?(?: with)?|"
    r"making|giving(?: you| us)?|for|that)\s+"
    rf"(?:a total of |still |now )?\d{{1,4}}(?: {_NOUN})?(?: (?:remain|are left|left|in all|in total|altogether))?"
    r"(?=\s*(?:[.,;!(\[]|$))"
)
SAID_WORDS = frozenset(
    ["st", "sts", "stitch", "stitches", "total", "count", "there", "you", "you'll", "you've", "that", "that's", "thats",
     "that'll", "this", "which", "it", "it's", "it'll", "still", "so", "and", "did", "do"]
)  # fmt: skip
# "(24) - 2 minutes", "(24) photo 3", "(24) about 5 cm across": behind the count, of the making and not of the stitches
BESIDE_COUNT = re.compile(
    r"(?:(?:about|approx\.?|roughly|takes?|took|see|now|that(?:'s| is)|measures?|it(?:'s| is)) )*"
    r"(?:(?:photos?|pictures?|pics?|fig(?:ure)?s?|pages?|image|video)\.? ?\d{1,3}(?:[:-]\d{1,3})?|"
    r"\d{1,3}(?:[.,]\d{1,2})? ?(?:min(?:ute)?s?|secs?|seconds?|hours?|hrs?|cm|mm|inch(?:es)?|%|percent|skeins?|balls?|"
    r"g|grams?|days?)(?: (?:across|wide|high|long|tall|left|done|diameter|in diameter|so far|of work))*)"
    r"(?=\s*(?:[.;!)\]]|$))"
)
# "dec all the way around until 9 sts are left": where the round comes out
UNTIL_LEFT = re.compile(
    r"(?:until|till?)(?: there are| you have| only| just)* (?P<n>\d{1,4})(?: (?:sts?|stitches|sc|[hd]?dc))?"
    r"(?: (?:are |is )?(?:left|remain(?:ing|s)?))?(?=\s*(?:[.;,!]|$))"
)
# "18 left.", "12 remain": a sentence that is nothing but what there is
LEFT = re.compile(
    r"(?P<n>\d{1,4}) (?:(?:sts?|stitches|sc|dc) )?(?:(?:are |is )?left|remain(?:ing)?|altogether|now|again|still|"
    rf"in (?:all|total)|{_WITH_THEM})"
    r"(?: (?:over|now|on the \w+))?(?=\s*(?:[.;,)!\]]|$))"
)
# "sc2tog (3), ch 1, turn": nothing but the way to the next row stands behind a count
_INTO_FIRST = (
    r"(?: (?:to|in|into|with)(?: (?:the|a|join|top|of|first|1st|next|beg(?:inning)?|starting|round|rnd|sts?|stitch|"
    r"sc|[hd]dc|dc|h?tr|ch(?:ain)?|sl ?st|slip stitch|ss|same))+)*"
)
ONLY_TURNS = re.compile(
    r"(?:[\s,.;]*(?:and |then )?(?:(?:(?:turn|work|start|begin)ing (?:(?:each|every|the) (?:row|rnd|round) )?)?"
    r"(?:with )?(?:a (?:turning )?ch(?:ain)?\b|(?:[1-4] ?|one |two |three )ch(?:ain)?s?\b|"
    r"ch(?:ain)? ?(?:[1-4]|one|two|three)\b)"
    r"(?: (?:(?:at|on|to) )?(?:(?:the )?(?:start|beginning|end)(?: of)? )?"
    r"(?:each|every|the)(?: new)? (?:row|round|rnd|time|turn)\b)?|"
    r"turn(?: (?:(?:the )?work|over|around))?\b"
    r"(?: (?:each|every) (?:row|round|rnd|time)\b)?|"
    rf"(?:join|sl ?st|slip stitch|ss)\b{_INTO_FIRST}|fasten off\b|fo\b))+[\s,.;!]*$"
)
COMES_TO = re.compile(
    r"(?:back |up |down )?to (?:make |get |have |a total of )?(?P<n>\d{1,4})(?: (?:sts?|stitches|sc|dc|in all))*"
    r"(?=\s*(?:[.;)\]]|$))"
)
# "join. 12 dc and four ch-2 spaces.", "join. 28 dc (7 on each side)": the sentence behind the end of a round
SENTENCE = re.compile(
    r"(?P<n>\d{1,4}) (?:sts?|stitches|sc|[hd]?dc|h?tr|dtr)\b(?: (?:in all|in total|altogether|made))?"
    r"(?:,? (?:and|&|\+) (?:\d{1,3}|[a-z]+) (?:ch-?\d{0,2}[ -]?)?(?:corner )?"
    r"(?:sps?|spaces?|loops?|lps?|corners?|picots?))*"
    r"(?=\s*(?:[.;(\[]|$))"
)
# "56 tr and 8 ch.": the sentence at the end of a row whose chains are counted too
AND_CHAINS = re.compile(
    r"(?P<n>\d{1,4}) (?:sts?|stitches|sc|[hd]?dc|h?tr|dtr)\b,? (?:and|&|\+) (?P<m>\d{1,3}) ch(?:ain)?s?\b\s*[.;]?\s*$"
)
# "join. 12 shells.": what else there is of, at a body's end
THINGS = re.compile(
    r"\d{1,3} (?:shells?|scallops?|petals?|points?|picots?|spokes?|clusters?|bobbles?|puffs?|popcorns?|repeats?|"
    r"ruffles?|spikes?|waves?|ridges?|stripes?|sps?|spaces?|loops?|lps?|"
    # "7 tr on each side.": the count of a side, and nothing to work
    r"(?:sts?|stitches|sc|[hd]?dc|h?tr|dtr) (?:(?:on|along|down|per|to) (?:(?:each|every|a|one) )?(?:side|edge)|"
    r"between (?:the )?corners)(?: of (?:the|a) [a-z]+)?)\s*[.;]?\s*$"
)
# "..., repeat from * 7 more times, you have 8 tentacles": what its repeats look like, and no stitches
MADE_THINGS = re.compile(
    r"(?:(?:and |so |now )*(?:you(?:'ll| will| should)? (?:now |then )?have|"
    r"(?:which |that |it )?(?:makes?|making|gives?|giving)(?: you)?|for)(?: a total of)? )?"
    r"(?:\d{1,2}|two|three|four|five|six|eight|ten|twelve) "
    r"(?:tentacles|legs|arms|petals|points|spikes|fingers|toes|leaves|curls|strands|ringlets|locks|scallops|rays|fins|"
    r"feathers|teeth|branches|bumps|tassels|spines|peaks|waves)(?: (?:in total|in all|made|altogether|now|all around))*"
    r"[\s.;,!)\]]*$"
)
_SO_MANY = r"(?:the |each |all |both )*(?:(?:two|three|four|five|six|\d{1,2}) )?"  # "counting the two ch"
_PART = r"\d+(?: ?(?:sc|[hd]?dc|h?tr|incs?|decs?|increases?|decreases?|sts?|stitches|more|fewer)\b)?"
# A bracket that opens with its count: "(18 sts, 6 more)", "(12 + 6 = 18)", "(6 sc, 6 inc = 18)", "(# 18)", "(18 m)".
OPENS_AS_COUNT = re.compile(
    rf"(?:[#=]\s*|\+?{_PART}(?:\s*(?:[-+,;&]|and)\s*{_PART})*\s*(?:=|->|\u2192)\s*)?(?P<n>\d{{1,4}})"
    r"(?:\s*(?:\+ (?:the )?ch|m\.?|ms|p|ps|pts\.?)|"
    r"\s*(?:sts?|stitch(?:es)?|sc|dc|hdc|htr|tr|maschen|mailles|maglie|steken|punt[io]s?)\b"
    rf"\.?(?P<rest>[ ,;:].*)?|,? (?:with|counting|including|incl\.?) {_SO_MANY}ch(?:ain)?s?)?$"
)
# "18 sc (2 of them into the chains)": where some of those just told go
SOME_OF_THEM = re.compile(
    r"(?:(?:the )?(?:first|last|middle) )?(?:\d{1,2}|one|two|three|four|five|six|some) of (?:them|these|those|which) "
    r"(?:(?:go|goes|come|are|is|fall)(?: worked| made| placed)? )?(?:in|into|on|over|along)\b"
    r"(?! (?:the |one )?(?:same|each|one|1)\b)"
)
# "(still 12)", "(no change, 12)", "(increased by 6: 18)", "(6 more, 18 in all)", "(17s)"
BRACKETED_COUNT = re.compile(
    r"(?:(?:still|again|now|tot(?:al)?\.?:?|stays?|remains?|keep(?:ing)?|unchanged|no change|same|as before|plain|even|"
    r"(?:(?:in|de)creased?|up|down|plus|minus|[+-]) ?(?:by )?\d{1,2}(?: sts?)?|\d{1,2} (?:more|fewer|less)(?: sts?)?)"
    r"(?: at| with| to)?[,:;]? ?)+(?P<n>\d{1,4})(?: ?(?:sts?|stitches|sc|dc|in all|in total|total|altogether))*"
    r"|(?P<n2>\d{1,4})(?: ?s|,? (?:again|still|as before|unchanged|no change))\.?"
)
CHANGE_AND_COUNT = re.compile(
    r"(?:\+?\d+ ?(?:incs?|decs?|increases|decreases)?\s*[,;/-]\s*(?P<n>\d{1,4}) (?:sts|stitches)"
    r"|[+-]\s?\d+ ?(?:incs?|decs?)?\s*[,;/=]\s*(?P<n2>\d{1,4}))$"
)
COUNT_BEHIND = re.compile(r"(?: ?[,;:=/-]+| and|, making)? ?(?P<n>\d{1,4}) ?(?:sts?|stitches|sc|[hd]?dc|h?tr)?[ .]?$")
# What a round may have beside its stitches, told with its count: "40 sc and two handles"
OPENINGS = frozenset(
    ["handles", "handle", "straps", "strap", "gaps", "gap", "holes", "hole", "openings", "opening", "slits", "slit",
     "buttonholes", "buttonhole", "windows", "window", "bridges", "bridge", "armholes", "armhole"]
)  # fmt: skip
AND_SPACES = re.compile(
    r"(?:\d+ |one (?=ch))"
    r"(?:(?:ch(?:ain)?[- ]?\d* ?)?(?:sps?|spaces?|loops?|lps?|arches|picots?|shells?|clusters?))\b\.?|"
    rf"(?:\d+|two|three|four) (?:{'|'.join(sorted(OPENINGS, reverse=True))})\b\.?"
)
# "56 sts (chs included)", "15 sts, counting chs"; a turning chain is not meant
CHAINS_TOO = re.compile(
    r"(?: ?(?:sts?|stitches|sc|dc|hdc))?,? ?(?:[(\[]?(?:the )?chs?(?:ains?)? (?:are )?(?:included|counted|incl)\b|"
    rf"[(\[]?(?:counting|including|incl\.?|with) {_SO_MANY}(?:(?!turn|beg|start|first|t-)[a-z-]{3,10} )?"
    r"ch(?:s|ains?)?\b(?![ -]?\d))"
)
COUNT_TAIL = re.compile(
    r"(?:,? ?(?:at|by) (?:the |this )?end(?: of (?:this |the |each |every )?(?:rounds?|rnds?|rows?)?(?: \d+)?)?|"
    rf",? ?(?:not )?(?:counting|includ(?:ing|es?)|counts?|with) {_SO_MANY}(?:[a-z-]{{3,10}} )?"
    r"(?:ch(?:ain)?s?|t-?ch)(?:[ -]?\d)?(?: sps?| spaces?)?\b(?: as (?:a |one )?(?:st|sts|sc|dc|hdc|tr))?|"
    r" ?[(\[](?:the )?(?:turning |beginning |starting )?(?:ch(?:ain)?s?)(?:[ -]?\d)?(?: sps?| spaces?)? (?:are |is )?"
    r"(?:included|counted|incl)[)\]]|"
    r",? ?(?:and )?(?:the )?ch(?:ain)?s? (?:are |is )?(?:included|counted|incl)\b|"
    r"(?:in|on) (?:this|the|each|every) (?:round|rnd|row)"
    r"|(?:per|each|every|a|on) (?:round|rnd|row)|on (?:the |your )?hook|around|altogether|so far|at this point|now)+"
)
# "= 9, 10 and 11 sts": a count for each round of a label that names several
COUNT_OF_EACH = re.compile(r"\d{1,4}(?:\s*(?:,\s*and|,|;|/|and|&)\s*\d{1,4})+\s*(?:sts?|stitches|sc|dc)?\s*[.;]?\s*$")
ANY_STITCH = re.compile(r"\b\d+ ?(?:sc|dc|hdc|htr|tr|sl st|ch)\b|\b(?:in|into) (?:next|each)\b|\brep|\btimes\b")
COUNTS = re.compile(
    r"(?P<no>(?:does|do|will|doesn't|don't|not|never)\b[^(){}\[\].;,]{0,14})?\bcount(?:s|ed|ing)?\s+as\b[^()"
    r"\[\].;]{0,40}|(?:(?:does|do)(?: not|n't|nt)|never) counts?\b[^(){}\[\].;]{0,30}"
    r"|\b(?:stands?|standing) (?:for|in for|as)\b[^(){}\[\].;]{0,40}"
    r"|\bwhich (?:the |your )?(?:turning )?ch(?:ain)?s?\.?(?:[ -]?[2-5])? "
    r"(?:stands? (?:in )?for|counts? for|replaces?)\b"
    r"|\b(?:is|are|makes?|acts? as|equals?) (?:a|the|one|1) (?:first )?(?:sts?|stitch|[hd]?dc|h?tr|dtr)\b"
    r"[^(){}\[\].;]{0,20}"
    r"|\b(?:skipped|missed) ch(?:ain)?s? (?:are|make|form)\b[^(){}\[\].;]{0,20}\b(?:a|the|one|1) "
    r"(?:first )?(?:sts?|stitch|[hd]?dc|h?tr|dtr)\b[^(){}\[\].;]{0,20}"
    r"|(?:\bch(?:ain)?s? |\b(?:this|it|they) )?(?:is|are|isn't|aren't) (?:not )?(?:counted|(?:a |one )?(?:st|stitch))\b"
    r"|\bch(?:ain)?s? not (?:counted|a st(?:itch)?)\b|\bno ch(?:ain)?s? counts?\b(?: from here(?: on)?)?"
    r"|\bthe (?:\d |two |three |four )?(?:skipped |missed |turning |first |beginning |starting )*ch(?:ain)?s? (?:\d )?"
    r"(?:being|counting|counted|counts?|is|are) (?:as )?(?:one|1|the first)\b[^(){}\[\].;,]{0,30}"
    r"|(?<=\()(?:= ?|as |for |the )*(?:first|1st) (?:sts?|stitch|[hd]?dc|h?tr|dtr)(?=\))"
)
NOT_COUNTED = re.compile(r"^no |not|never|n't")  # ... and that it does not
# "ch 3 (a tr)": the chain is one
IS_A_STITCH = re.compile(
    r"(?:=|as)? ?(?:a|one|1|the first) (?:st|stitch|[hd]?dc|h?tr|dtr)|"
    r"= ?(?:(?:a|one|1|the first) )?(?:st|stitch|[hd]?dc|h?tr|d?trtr|dtr)"
    r"(?:(?: ?\+ ?|,? and |, )(?:a |one |1 )?ch(?:ain)?[ -]?\d)?"
    r"(?:,? (?:always|throughout|everywhere|here|each time|every time))?"
)
COUNTED_CHAINS = re.compile(
    r"(?:and )?(?:count(?:ing)?|treat(?:ing)?) (?:each|every|all|the) (?:ch(?:ain)?s?[- ]?\d*)(?: (?:sps?|spaces?))?"
    r" as (?:an? |one |1 )?(?:st|stitch|sc)\w*"
    r"|(?:each|every) ch(?:ain)?[- ]?\d*(?: (?:sp|space))? (?:counts|is counted) as (?:an? |one |1 )?(?:st|stitch|sc)"
    r"\w*"
    r"|(?:(?:the|these|those|both|all) )?(?:\d |two |three |four )?(?:new )?ch(?:ain)?s (?:each )?(?:are )?count(?:ed)?"
    r" as (?:\d |two |three |four )?(?:sts|stitches|sc)\b"
    r"|(?:the|these|those|both|all) (?:\d |two |three |four )?ch(?:ain)? (?:each )?(?:are )?count(?:ed)?"
    r" as (?:\d |two |three |four )?(?:sts|stitches|sc)\b"
)
