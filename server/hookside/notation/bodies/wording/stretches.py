"""The wording of stretches: how far, how even, what is left out, what is worked together."""

from __future__ import annotations

import re

from hookside.notation.askings.clauses import PUTS_IN

# "(48) - the bobbles are his elbows and should come under the snout": talk behind the count, whatever it names
TALK = re.compile(
    r"(?:that(?:'s| is| was) (?:all|it)|there you|well done|have fun|enjoy|happy|good luck|congratulations|thank you|"
    r"you(?:'re| are) (?:done|finished)|all done|the end)\b[^;()\[\]]{0,160}|"
    r"(?:the|these|those|this|they|it|your|his|her|its|you|if) [^.;()\[\]]{0,60}?\b"
    r"(?:are|is|will|should|may|might|looks?|makes?|comes?|goes|becomes?|begins?|starts?)\b[^.;()\[\]]{0,160}|"
    r"(?:the|these|those|his|her) [a-z ]{2,40}? (?:we|you|i) (?:will |shall |can )?[a-z]+\b[^.;()\[\]]{0,80}"
)
WORKS = re.compile(
    r"\d ?(?:sc|[hd]?dc|h?tr|inc|dec|ch|st|sts|stitch\w*|sl)\b|"
    r"\b(?:work|crochet|repeat|rep|skip|miss|leave|turn|join)\b|"
    r"\bin(?:to)? (?:each|every|the next|next)\b"
)
UNWORKED = re.compile(
    r"(?:and )?(?:leav(?:e|ing)|with) (?:the |all )*(?:rem(?:aining)?|rest|last|next|other|\d+|final|remainder)?\b"
    r"(?:[^.,;(){}\[\]]|(?<=st)\.|(?<=sts)\.|(?<=d\.c)\.){0,40}\b(?:un-?worked|unused|free)\b"
    r"[^.,;(){}\[\]]{0,30}|leav(?:e|ing) (?:the )?(?:rest|remainder|"
    r"remaining (?:sts|stitches))\b[^.,;(){}\[\]]{0,30}|"
    r"(?:and )?(?:the |all )*(?:rest|remaining|others?)(?: \d{1,3})?"
    r"(?: (?:of the )?(?:sts|stitches|sc|[hd]?dc|h?tr|round|rnd|row))? "
    r"(?:is|are|stays?|remains?) (?:left )?(?:not (?:be )?(?:worked|woven|knit(?:ted)?|crocheted|made|done)|"
    r"un-?worked|free)\b(?: for (?:the |a |now\b|later\b)?[a-z ]{0,30})?"
)
# "sc until 2 sts before the end"
SHORT_OF = re.compile(
    r"(?:until|till?|to|up to)(?: you are| you're| there are)? (?P<n>\d{1,2}|one|two|three|four) "
    r"(?:sts?|stitch(?:es)?|sc|[hd]?dc) (?:before|from|short of) (?:the )?(?:end|marker|last st(?:itch)?)"
    r"(?: of (?:the |this )?(?:round|row|rnd))?"
)
AFTER_TIMES = frozenset(["", ".", ";", "(", "[", "{", "<", "=", "-", ")"])
CLAUSE_ENDS = frozenset(["", ",", ".", ";", ":", ")", "]", "}", "(", "[", "{", "*", "-", "=", "and", "then"])
# "do this", "and you do that", ", which you do", "and this is done", "all of it" before how often; "and you repeat"
DOES_THAT = re.compile(
    r"(?:(?:and|so) )?(?:(?:which )?(?:(?:you|we) )?(?:then )?(?:do|work|make|doing|working) "
    r"(?:all of (?:this|that|it)|all (?:this|that)|the whole thing|this|that|it|these)(?: all)?|"
    r"which (?:you|we) (?:do|work|make)|(?:this|that|it|which|all of (?:this|that|it)|all (?:this|that)) "
    r"(?:is|are|gets?) (?:all )?(?:done|worked|made)|all (?:of )?(?:this|that|it)|and (?:all )?(?:this|that)|"
    r"(?P<repeats>(?:which )?(?:you|we|this is|that is)(?: then)?(?= rep)))(?= )"
)
MANNER = re.compile(
    r"(?:and |then |now |to )*(?:(?:turn|go|come|rotate|work)(?:ing)? (?:a?round )?(?:the |that )?"
    r"(?:corner|bend|end|tip)|"
    r"(?:turn|rotate|flip)(?:ing)? (?:it |(?:the |your )?(?:work|piece|chain) )?(?:upside[- ]down|180(?: ?degrees)?))"
    r"(?=\s*[,.;:]|\s*$)|"
    r"(?:and )?(?:working|going) (?:in|into|along|over|across) both sides of (?:the |that )?(?:ch(?:ain)?s?|bridge)"
    r"(?: between(?: the)? legs)?\b(?=\s*[,.;(\[=-]|\s*$)|"
    r"(?:and |while |by )?(?:holding|keeping|taking care|taking|being careful|careful|making sure|ensuring|pushing|"
    r"popping|letting|"
    r"allowing|pulling|trying)\b[^,.;:(){}\[\]*=]{2,90}|"
    r"(?:but |and )?(?:not |never |quite |fairly |rather |very )(?:too |so |over ?|very )?"
    r"(?:tight|loose|firm)(?:ly)?\b(?=\s*[,.;(\[=-]|\s*$)|"
    r"(?:then |and |now )*(?:return|(?:go|come|work|turn) back)(?:ing)?(?: (?:along|down|over))?"
    r"(?: (?:it|the ch(?:ain)?s?))?[,:]?(?= ?\d{1,3} ?(?:sc|[hd]?dc|h?tr|sl|ss|inc)\b)|"
    r"(?:beg(?:in)?(?:ning)?|start(?:ing)?) with (?:a |the )?standing [^,.;:(){}\[\]*]{2,20} (?:if|when|where|for)\b"
    r"[^,.;:(){}\[\]*]{2,60}|"
    r"(?P<rows>(?:about |roughly )?(?:one|1)(?: sc| st| stitch)? (?:for|in|per|into|from) (?:each|every) row"
    r"(?:[ -]ends?)?)(?=\s*[,.;(\[=-]|\s*$)|"
    r"(?:and |but )?(?:no|without(?: any)?) join(?:ing|s)(?: (?:the )?(?:rounds?|rnds?))?"
    r"(?=\s*[,.;(\[=/|-]|\s*$)|"
    r"without (?:tightening|pulling|squeezing|stretching|twisting)\b[^,.;:(){}\[\]*\d]{0,40}|"
    r"(?:that is |which is )?the (?:one|loop|strand|bar)s? (?:that |which )?(?:lies |runs |sits |is |are )?"
    r"(?:just |right )?(?:below|behind|under|beneath|underneath) (?:the )?[^,.;:(){}\[\]*\d]{2,40}(?=,)"
)
# "and pull tight every few stitches": again and again while the round is worked
TUGGED = re.compile(
    r"(?:and |then )*(?:pull|tug|draw|tighten|snug|smooth|press|push|stretch|straighten|untwist|check)(?:ing)?\b"
    r"[^,.;:(){}\[\]*=\d]{0,40}?\b(?:every (?:few|couple of|\d{1,2}|two|three|four|five|six|ten) "
    r"(?:sts?|stitch(?:es)?|sc)|after (?:every|each) (?:st|stitch|sc))\b(?=\s*[,.;(\[=/|-]|\s*$)"
)
# "sl st in the next one to even it off": what it is for
TO_NEATEN = re.compile(
    r"(?:in order )?to (?:even|level|smooth|neaten|tidy|straighten|hide|avoid|make it|keep)\b[^,.;:(){}\[\]*\d]{2,60}?"
    r"(?=\s*(?:\.{2,}|[,.;(\[=]|- ?\d|$))"
)
_VERB = (
    r"inc(?:reas)?(?:e|ing)?|dec(?:reas)?(?:e|ing)?|add(?:ing)?|reduc(?:e|ing)|remov(?:e|ing)|tak(?:e|ing) (?:away|off)"
)
_SO_MANY = r"\d+|two|three|four|five|six|seven|eight|nine|ten|twelve"
EVENLY = re.compile(
    rf"(?:work(?:ing)? |mak(?:e|ing) )?(?:(?P<verb>{_VERB})\s+(?:by\s+)?(?P<n>{_SO_MANY})"
    r"(?:\s*x\b|\s+(?:sts?|stitches|sc|times))?"
    rf"|(?P<n2>{_SO_MANY})\s+(?P<verb2>inc(?:rease)?s?|dec(?:rease)?s?)),?\s+(?:spread\s+|spaced\s+)?evenly"
    r"(?:\s+(?:spaced|spread|over|around|across|along|in|to|the|this|end|round|row|rnd))*"
)
# "sc around, increasing 6 sts", "... with 6 increases evenly spaced": behind a stretch that goes all the way
SHAPING_ALONG = re.compile(
    r"(?:with |and |while |making |working )*"
    rf"(?:(?P<verb>increasing|decreasing|inc|dec)\s+(?:by |in )?(?P<n>{_SO_MANY})"
    r"(?:\s+(?:sts?|stitches|times|x))?(?:,? (?:evenly|spaced|spread|spread out|around|across|as you go))*"
    rf"|(?P<n2>{_SO_MANY})\s+(?:evenly[ -](?:spaced |spread )?)?(?P<verb2>inc(?:rease)?s?|dec(?:rease)?s?)"
    r"(?:,? (?:evenly|spaced|spread|spread out|around|across|in it))*)(?=\s*(?:[.;,)(\[=]|-\s?\d|$))"
)
# "add 6 (24)", "reduce by 6", "+6 (24)": shaping by its sum alone, a whole course
BY_SUM = re.compile(
    r"(?:(?P<verb>add(?:ing)?|reduc(?:e|ing)|remov(?:e|ing)|tak(?:e|ing) (?:away|off)|los(?:e|ing))\s+(?:by\s+)?"
    rf"(?P<n>{_SO_MANY})(?:\s+(?:sts?|stitches))?(?:\s+(?:around|in all))?(?=\s*(?:[(\[{{=.:]|,?\s*$|-+\s*\d))"
    r"|(?P<verb2>[+-])\s?(?P<n2>\d{1,2})(?:\s+(?:sts?|stitches))?(?=\s*[(\[{=]\s*(?!(?P=n2)\b)\d))"
)
# "decrease evenly 6 times"
EVENLY_FIRST = re.compile(
    r"(?:work(?:ing)? )?(?P<verb>inc(?:reas)?(?:e|ing)?|dec(?:reas)?(?:e|ing)?) (?:sts? )?evenly (?:spaced |spread "
    r")?(?:by )?"
    r"(?P<n>\d+|two|three|four|five|six|seven|eight|nine|ten|twelve) (?:times|sts?|stitches)"
    r"(?: (?:around|across|over|along|in|the|this|round|row|rnd))*"
)
# "evenly inc 4 sts"
EVENLY_LED = re.compile(
    r"evenly,? (?:spaced,? |spread,? )?(?P<verb>inc(?:reas)?(?:e|ing)?|dec(?:reas)?(?:e|ing)?) (?P<n>\d{1,3})"
    r"(?: (?:sts?|stitches|times))?(?: (?:around|across))?(?=\s*(?:[.,;(\[=]|$))"
)
# "increase to 24 sts", "bring it up to 24", "back down to 12", "shrink to 12": what the round comes to
_MOVES = (
    r"(?:(?:bring|take|get|go|work|build)(?:ing)?(?: it| this| them)? )?(?:back )?(?:up|down)(?: again)?(?= to \d)|"
    r"(?:grow|widen|shrink|narrow)(?: it| out| back)?(?= to \d)"
)
TO_RESULT = re.compile(
    rf"(?:work(?:ing)? |mak(?:e|ing) )?(?P<verb>{_VERB}|{_MOVES})(?:\s+evenly)?(?:\s+(?:up|"
    r"down|back|"
    r"the (?:round|row|rnd)|(?:all (?:the way )?)?a?round))?\s+(?:to|until|till?)\s+"
    r"(?:(?:you have|there are|a total of|have|get|"
    r"make|only|just|(?:you are |you're )?left with)\s+)*(?P<n>\d{1,4})"
    r"(?:\s+(?:sts?|stitches|sc|dc|hdc|tr|total|in total))*(?:\s+(?:spread|spaced|evenly|around|across|over|along|in|"
    r"the|"
    r"this|round|row|rnd))*(?:(?:\s+(?:are|is))?\s+(?:left|remain(?:ing|s)?)(?: over| in all)?(?!\s*,))?"
    r"(?=\s*(?:[.,;(\[=:]|-\s|$))"
)
REST_BEGINS = frozenset([
    "and", "then", "now", "for", "in", "on", "over", "work", "crochet", "do", "the", "all", "your", "rest",
    "remainder", "other", "others", "remaining", "rem", "finish", "complete", "end", "close", "continue", "carry",
    "go", "keep", "fill", "finishing", "completing", "ending", "continuing", "working",
])  # fmt: skip
# "rest sc", "all other sts sc", "finish the round in sc": one stitch in all that is left, named behind the words ...
REST_IN = re.compile(
    r"(?:and |then |now |for )*(?:in |on |over |work |crochet |do )*(?:"
    r"(?:(?:the|all|all the|all of the|your)\s+)?(?:rest|remainder|others?|remaining|rem)(?:\s+(?:ones|sts?|stitches))?"
    r"(?:\s+of\s+(?:the\s+|this\s+)?(?:sts?|stitches|rounds?|rnds?|rows?|way))?(?:\s+around|\s+across)?"
    r"(?:\s+(?:is|are|get|gets|just|only|all|plain|simply|worked|work))*(?:\s+(?:in|with|as))?\s*[:=-]?"
    r"|(?:finish|complete|end|close|continue|carry on|go on|keep going|work on|keep|fill)(?:ing)?(?:\s+(?:off|up|out|"
    r"on))?"
    r"(?:\s+(?:the|this|your))?(?:\s+(?:rest|remainder)\s+of\s+(?:the|this))?(?:\s+(?:rounds?|rnds?|rows?))?\s+(?:in|"
    r"with|(?<=end )on|(?<=ending )on)"
    r"(?:\s+only)?)\s+(?:plain\s+|just\s+|only\s+)*(?:1\s+|one\s+|an?\s+|the\s+)?(?=[a-z])"
)
# "(sc, inc) x 6, ending with sc": what stands last, which the list before it may end with by itself
ENDS_WITH = re.compile(r"(?:and |then |now )*(?:end|finish)(?:ing)?\s+(?:off\s+)?(?:with|in|on)\b")
LAST_TOLD = "last told"
# ... or before them: "sc the rest of the way", "sc for the rest of the round"
REST = re.compile(
    r"(?:(?:in|into|on|for|over|along|to|through|all)\s+)?(?:all\s+)?(?:of\s+)?(?:the\s+|your\s+)?"
    r"(?:rest|remainder|others)\b"
    r"(?:\s+of\s+(?:the\s+|this\s+|your\s+)?(?:way|sts?|stitches|rounds?|rnds?|rows?|ones|circle))?"
    r"(?:\s+(?:around|round|across|sts?|stitches|way))*"
)
PLAIN = frozenset({"sc", "hdc", "dc", "tr"})
STEADY = re.compile(
    r"(?:(?:continue|keep|go on|cont\.?)(?: on)?(?: to)? |and )?(?P<verb>inc(?:reas(?:e|ing))?|dec(?:reas(?:e|ing))?)"
    r"(?:\s+(?:in|on) the same (?:way|manner)|\s+as (?:established|before|set)|\s+(?:in )?this way|\s+like this)?,?"
    r"\s+(?:by\s+)?(?P<n>\d+)(?:\s+(?:sts?|stitches|sc|times))?(?:\s+(?:evenly|spaced|spread))*"
    r"\s+(?:each|every|per|in each|in every|on each|on every|a)\s+(?:round|rnd|row)"
    r"(?:\s+(?:in|on) the same (?:way|manner)|\s+as (?:established|before|set)|\s+(?:in )?this way|\s+like this)?"
    r"(?:\s*,?\s*until\s+(?:you have\s+|there are\s+|only\s+)*\d+\s*(?:sts?|stitches|sc)?(?:\s+(?:remain|are left|"
    r"left))?)?"
)
NO_SHAPING = re.compile(
    r"(?:with )?(?:no|without|not)(?: any)?(?: more| further)? (?:increas\w*|decreas\w*|inc|dec|shaping)\b"
    r"(?:\s*(?:or|and|nor|/|,)\s*(?:no )?(?:increas\w*|decreas\w*|inc|dec|shaping)\b)*(?: (?:in |on )?this (?:round|"
    r"row|rnd))?|(?:with ?out|with no|no) (?:any )?changes?\b(?=\W|$)"
    r"|(?:with ?out|with no|no) (?:any )?(?:ch(?:ain)?s?|stitch(?:es)?|gaps?|holes?) (?:in )?between(?: them)?\b"
)
AND_SO_ON = re.compile(
    r"(?:(?:and|then|just) )*(?:(?:continue|keep|carry on|go on)(?: on)? alternating|"
    r"alternat(?:e|ing)(?: (?:them|these))?|"
    r"keep (?:this|that|it) up|continue|keep (?:on )?(?:going|doing|repeating|working)|carry on|go on|and so on)"
    r"(?: (?:in )?(?:this|the same) (?:way|manner|pattern|"
    r"fashion|sequence)| like (?:this|that)| so| thus| repeating| as set| as established| this| the pattern)?"
    r"(?=,? (?:all |the |way |right |evenly )*(?:around|round|across|to (?:the )?(?:end|last)|until|for the "
    r"(?:rest|whole))\b(?! (?:to|on|onto|along|in) (?:the )?(?:other|opposite|second|bottom|under)))"
)
# "sc, inc, sc, inc and so on"
SO_ON = re.compile(
    r"(?:and )?so (?:on|forth)(?:,? (?:all )?(?:around|round|across|to (?:the )?end))?(?=\s*(?:[.,;(\[=]|$))"
)
_TILL = (
    r"(?:,? (?:all )?(?:the )?(?:way )?(?:around|round|across|"
    r"(?:to|until|till)(?: you)?(?: (?:reach|get to|come to|hit|(?:get|come|are) back(?: to)?))? "
    r"(?:the |where you )?"
    r"(?:end|round|started|began|marker|start|beginning|last st(?:itch)?|first st(?:itch)?)"
    r"(?: of (?:the |this )?(?:round|row|rnd))?))?"
)
# "keep doing this until you reach the marker", "do this all round", "over and over", "continue like this."
ON_AND_ON = re.compile(
    r"(?:and )?(?:(?:keep|continue|carry on|go on)(?: on)?(?: (?:doing|repeating|working|going))?(?: with)?"
    r"(?: (?:like|in))? (?:this|that|so|these steps|the same)(?: way| manner)?|(?:do|doing) (?:this|that|so)|"
    rf"over and over(?: again)?|(?:again,? )?and again){_TILL}(?=\s*(?:[.,;(\[=]|- ?\d|$))"
    # "1 sc, then an increase. Keep repeating.": with no more behind it than a count
    r"|(?:and |then |just )*(?:keep(?: on)? (?:repeating|going)|repeating|continue|carry on|go on)"
    r"(?=\W*(?:$|[(\[=] ?\d))"
)
# "2 sc, inc ...", "sc, inc, sc, inc, etc. (18)", "(sc, inc)... around": it goes on as it began
TRAILS = re.compile(
    r"(?:\.{3,}|(?:and )?etc\b\.?(?:\s*\.{2,})?)"
    r"(?:,? (?:all )?(?:(?:the )?way )?(?:around|round|across|to (?:the )?end))?"
    r"(?=\s*(?:$|[.,;:]?\s*(?:[(\[{=/<]|-+>?\s*\d)|\.$))"
)
# "until you have 8 stripes": what is counted there is no stitch
SEEN = (
    r"(?:stripes?|bands?|bars?|rings?|lines?|ridges?|waves?|blocks?|repeats?|patterns?|segments?|sections?|legs?|bumps?|"
    r"scallops?|squares?)"
)
MEASURED = re.compile(
    rf"(?:until|till?) (?:(?:you|it|there|the [a-z]{{2,12}}|we)(?: have| has| are| shows?|'ve(?: got)?)? )?"
    rf"(?:worked |made |a total of |about )?(?:\d{{1,3}}|[a-z]{{3,6}}) (?:[a-z]{{2,12}} )?{SEEN}\b"
    r"(?: in (?:all|total))?|"
    r"(?:until|till?) (?:the |your |this )?(?:[a-z]{2,12} )?"
    r"(?:piece|work|it|tube|part|rows?|rounds?|strip|total length|length)"
    r" (?:measures?|is|has|reaches|are)\b[^.;(){}\[\]]{1,50}?(?:cm|mm|in(?:ch(?:es)?)?|\"|long|wide|deep|tall)\b|"
    r"(?:until|till?|for) (?:another |about |approx(?:imately|\.)? |around |a further )?\d{1,3}(?:[.,/ ]\d+){0,2} ?"
    r"(?:cm|mm|in|inch(?:es)?|\")(?![a-z])(?! hook)(?: more| long)?|"
    r"(?:until|till?) (?:it|the [a-z]{2,12}(?: [a-z]{2,12})?) (?:is|are) (?:as )?(?:long|wide|deep|tall)\b|"
    r"(?:until|till?) (?:the |your )?desired length\b"
)
PAIR_TOGETHER = re.compile(
    r"(?:then |and )*(?:work|crochet|knit)(?:ing)? (?:the )?(?:(?:two|2) (?:next|following)|(?:next|following) (?:two|"
    r"2))(?: ones| sts?| stitches)? (?:into|in|to) one\b|"
    r"(?:work|crochet|sc|dc|join) (?:the )?(?:first|next|1st|following) (?:st(?:itch)? )?and (?:the )?(?:second|2nd|"
    r"next|following) (?:sts? |stitch(?:es)? )?tog(?:ether)?\b"
)
# "Repeat the following six times: 1 sc, inc"
FOLLOWING = re.compile(
    r"(?:repeat|rep|work|do)(?: all)?(?: the| this)?(?: following)?(?: sequence| steps| stitches)? "
    r"(?P<n>\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|twelve) times?\s*:"
)
# "Repeat around: 4 sc, inc", "All the way round: ...", "x6: sc, inc"
LED_AROUND = re.compile(
    r"(?:(?:repeat|rep|work|do)(?: (?:this|the following|all))? )?(?:all )?(?:the way )?"
    r"(?:around|round|across|to (?:the )?end(?: of (?:the )?(?:round|rnd|row))?|x ?(?P<n>\d{1,3}))\s*:"
)
GOES_FAR = re.compile(r"\b(?:around|round|across|each|every|rep|repeat|to end|to the end|until|rest)\b")
# "sc around for 3 rounds", "sc 12 (12) x 3 rounds"
FOR_ROUNDS = re.compile(
    r"(?:for|x) ?(?:a total of )?(?P<n>\d{1,2}|two|three|four|five|six|seven|eight|nine|ten) (?:rounds|rnds|rows)\b"
    r"(?=\s*(?:[.,;(\[=]|- ?\d|$))"
)
CLOSED = re.compile(
    r"(?:until|till?) (?:the |your )?(?:hole|opening|gap|ring|circle|top|end|piece|it) (?:is |has )?(?:closed?s?|"
    r"shut|gone)(?: up)?"
)
SHAPING = re.compile(r"\b(?:inc\b|dec\b|increas|decreas|repeat|alternat|every|each|other)")
SKIP_AFTER_TIMES = frozenset(["total", "in", "all", "around", "altogether"])
# "work the last 2 sts together", at the end of its clause: one decrease.
WORK_TOGETHER = re.compile(
    r"(?:and |then )?(?:(?:(?:work|crochet|join|knit|draw|tak)(?:e|ing)?|single crochet|sc|(?P<led>h?dc|h?tr)) "
    r"(?:all )?(?:of )?(?:the |these |those )?(?:next|last|following|first|final|remaining)? ?|"
    r"(?:the )?(?:next|following|(?P<end>first|last)) |(?=\w+ (?:sts?|stitches) tog))"
    r"(?P<n>2|3|two|three) (?:(?:sts?|stitches|sc|dc|[ds]\.c\.) )?(?:together|tog)\b"
    r"(?: in (?:a |an |1 |one )?(?P<st>sc|dc|hdc|htr|tr)\b)?(?=\s*(?:[,.;()\[\]{}*=\"]|- ?\d|$|x|\d|around|all|to|"
    r"across|rep|(?:two|three|four|five|six|seven|eight|nine|ten|twelve|once|twice)\b))"
)
# "omitting the last st", "leaving the last 2 sts unworked": what a stretch before it does not work
LEFT_OUT = re.compile(
    r"(?:and |but )?(?:"
    r"(?:omitting|leaving out|leave out|omit|except(?: for| in)?|but not(?: in)?|not working(?: in| into)?|"
    r"skipping|skip|excluding)"
    r" (?:the )?(?:very )?last (?:(?P<n>\d{1,3}|two|three|four|five|six) )?"
    r"(?:sts?|stitch(?:es)?|sc|dc|hdc|tr)\b(?: unworked)?"
    r"|(?:leav(?:e|ing)|with) (?:the )?last (?:(?P<n2>\d{1,3}|two|three|four|five|six) )?"
    r"(?:sts?|stitch(?:es)?|sc|dc|hdc|tr) (?:un-?worked|unused|free|for (?:the )?next (?:round|rnd|row)))"
)
_SOME = r"(?:\d{1,3}|two|three|four|five|six)"
_STS = r"(?:sts?|stitch(?:es)?|sc|dc|hdc|h?tr)"
# "turn leaving 3 sts", "leave 3, turn", "do not work the last 3 sts", "3 sts remain unworked"
LEAVES = re.compile(
    r"(?:and |but )?(?:"
    r"(?:leav(?:e|ing)|ignor(?:e|ing)|(?:without|not) working(?: in| into)?|(?:do not|don't) work(?: in| into)?)"
    rf" (?:the |these |those |all |your )*(?:(?P<which>rem(?:aining)?|last|other|final|unworked|rest)\b(?:\. | ?))?"
    rf"(?:(?P<n>{_SOME})\b ?)?(?:{_STS}\b(?:\.(?= (?:un|free|over)))?|[ds]\.c\b\.?)?"
    r"(?: of (?:the |this )?(?:row|round))?(?: un-?worked| unused| free| over| alone| be)?(?: at (?:the|its) end)?"
    r"(?: ?\bfor (?:the |now|later|back|front|side|neck|arm|each|an? )[a-z ]{0,24}?)?"
    rf"|stop(?:ping)? (?:(?P<n4>{_SOME}) {_STS} (?:before|short of) the end|"
    rf"before the last (?P<n7>{_SOME})(?: {_STS})?)"
    rf"|(?P<n5>{_SOME}) {_STS} (?:(?:are |is )?left|remain(?:s|ing)?|stays?)(?: over)? (?:un-?worked|unused|free)"
    rf"|(?:the |all )?(?:last|final) (?:(?P<n6>{_SOME}) )?(?:{_STS} )?"
    r"(?:(?:are|is) (?:not worked|un-?worked|left out)|un-?worked)"
    rf"|(?:the |all )?(?:other|remaining|last|final|rest)(?: (?P<n3>{_SOME}))?(?: {_STS})? (?:stays?|waits?|remains?|"
    r"(?:are |is )?left)(?: (?:over|as they are|as is|behind|alone|un-?worked|unused|free|for later|for now))*"
    r"|(?:skip(?:ping)?|sk|miss(?:ing)?) (?:the |all )*(?:other|rem(?:aining)?|rest|unworked)\b(?: half)?"
    rf"(?: of (?:the|these|those))?(?: {_SOME}\b)?(?: (?:{_STS}|them|round|row)\b)?"
    r"(?:,? and (?:then )?(?:go|carry|continue|work|keep)(?:ing)? (?:on )?(?:in|into|from|with|at) (?:the )?"
    rf"(?:first|1st)(?: {_STS})?(?: again)?)?"
    r")(?=\s*(?:[,.;(){}\[\]/=<|]|- ?\d|$|and turn|turn))"
)
# "skipping the ch-3 picots": chains that no stitch stands on
PICOTS = re.compile(
    r"\s+(?:over )?(?:the |next |each |all )*(?:\d{1,2} )?"
    r"(?:ch(?:ain)?-\d{1,2}(?: ?(?:picots?|loops?|lps?))?s?|picots?|(?:ch(?:ain)?[ -]?)?(?:loops?|lps?))\b"
    r"(?! (?:of|only))"
)
LEAVES_BEGIN = frozenset(
    ["and", "but", "skip", "skipping", "sk", "miss", "missing", "stop", "stopping",
     "leave", "leaving", "ignore", "ignoring", "without", "not", "do", "don't", "two", "three", "four",
     "five", "six", "the", "all", "other", "remaining", "rest", "last", "final", *map(str, range(1, 100))]
)
# "sc in each sc around for the neck", "... to form the brim": what a course that goes all the way is for
PURPOSE = re.compile(
    r"(?:for|to (?:form|make|shape|create|become|start|begin|build)|as|forming|making|shaping|-|"
    r"(?:and |,? ?)?(?:this|which|that) (?:is|forms|makes|will be|becomes|will form))"
    r" (?:(?:the|a|an|his|her|its|your|one)\b ?)?(?P<what>[a-z][a-z' ]{1,40}?)(?=\s*(?:[.;,(\[=]|- \d|$))"
)
# "ch 4, skip next 12 sts for the first armhole": what is left open
LEFT_FOR = re.compile(
    r"(?:for|to (?:form|make|leave)|as) (?:(?:the|a|an|one|each|first|second|1st|2nd|other|left|right) )*"
    r"(?:arm|leg|ear|button|thumb|neck|tail|hand)?[ -]?(?:holes?|openings?|sleeves?|handles?|straps?|slits?|gaps?|"
    r"necks?(?:line)?|thumbs?|arms?|legs?|ears?|door|window)\b(?=\s*(?:[.,;:)\]]|- \d|and\b|then\b|$))"
)
NO_PURPOSE = re.compile(
    r"\b(?:rnds?|rounds?|rows?|rest|remainder|times?|each|every|all|next|last|first|loops?|sts?|stitch(?:es)?|follows?|"
    r"before|established|above|until|more|another|both|other|half|inc\w*|dec\w*|sc|dc|hdc|tr|ch|chains?|turn\w*|"
    r"skip\w*|repeat\w*)\b"
)
# "8 dc in MR. US terms.": which language a text speaks, told in the middle of it
TERMS_TOLD = re.compile(
    r"(?:written |worked |all )?(?:in |uses? )?(?:standard )?(?:us|usa|uk|american|british) "
    r"(?:crochet )?(?:terms?|terminology)\b"
)
OF_STITCHES = frozenset({"bobble", "popcorn", "puff", "cluster"})  # stitches whose make is told beside them
# "bobble (5 dc)", "puff (3 hdc in one st)": what a stitch is made of
MADE_OF = re.compile(
    r"(?:(?:made|worked) (?:of|with|from|over) |of |= ?)?\d{1,2}[ -]?(?:sc|hdc|dc|tr|htr|dtr|loops|lps)"
    r"(?:[ -]?(?:tog|together))?"
    r"(?: (?:in|into) (?:one|1|the same|same|a|the next|next) (?:st|stitch|sc|dc))?"
)
# "ending with dc in top of tch", "cast on 6 sc into loop": nothing but a way into the stitches
LEADS_IN = re.compile(
    r"(?:and )?(?:(?:end(?:ing)?|finish(?:ing)?|conclud(?:e|ing))(?: (?:the|this|your) (?:round|rnd|row))?"
    r"(?: off| up)? (?:with|on|by working)|"
    r"end(?:ing)?(?= (?:(?:\d{1,2}|one|an?) )?(?:(?:sc|[hd]?dc|h?tr)\b|[sd]\.c\.))|cast on|"
    rf"start(?:ing)? off with|(?!{PUTS_IN})put) (?:an? )?(?=[a-z\d(\[])"
)
# "inc by 6: (5 sc, inc) x 6": what the list behind the colon comes to
HEADLINE = re.compile(
    r"(?:(?:inc|dec)\w*(?: by| to)? \d+(?: sts?| stitches| times| evenly)*"
    r"|(?:inc|dec)\w* (?:at|on|along|in) (?:the |each |both |either |every |all )+"
    r"(?:ends?|sides?|corners?|edges?|tips?)"
    r"|(?:inc|dec)\w*(?: \d{1,2})?(?: sts?| stitches| one)? (?:in |on |at )?(?:every|each) "
    r"(?:other|second|third|fourth|fifth|sixth|[2-9](?:nd|rd|th))(?: (?:sts?|stitch|sc|[hd]?dc|one))?"
    r"(?=\s*[:=]\s*(?:[\[(*]|\d{1,2} (?:sc|[hd]?dc|h?tr), ))"
    r"|\d{1,2} (?:increases|decreases)(?: (?:evenly|spread|spaced|around|out|apart))*(?=\s*[:=]\s*[\[(*])"
    r"|(?:for (?:the|a|an) [a-z]{3,12},? )?(?:now )?(?:only )?(?P<part>over|on|across) (?:only )?(?:the|these|those)"
    r"(?: last| middle| next| same)? \d{1,3} (?:sts?|stitches|sc|[hd]?dc)(?: only)?)\s*[:=](?=\s*[\[(*{\w])"
)
# A decrease told in moves of the hook: so many loops drawn through at once, one stitch fewer than loops
_LOOP_UP = (
    r"(?:(?:insert(?:ing)?|put(?:ting)?) (?:the |your )?hook (?:in|into|through) (?:the )?(?:next|following|first|same|"
    r"2nd|second)(?: st(?:itch)?)?,?;? (?:and |then )?(?:(?:yo|yarn over)(?:,| and|, and)? )?(?:pull|draw) (?:up|"
    r"through) (?:a |the )?(?:loop|lp)|(?:pull|draw) up (?:a )?(?:loop|lp) in (?:each of )?(?:the )?next "
    r"(?:(?:2|two|3|three) )?st(?:itche)?s?)"
)
SPELT_OUT = re.compile(
    rf"{_LOOP_UP}(?:(?:,|;| and| then)+ {_LOOP_UP}){{0,2}}(?:,? ?\(?(?:twice|2 times)\)?)?(?:,|;| and| then)+ "
    r"(?:yo|yarn over)(?:,| and|, and)? (?:then )?(?:pull|draw) (?:it )?(?:through|thru) (?:all )?(?P<n>3|4|three|four)"
    r"(?: (?:loops|lps))?(?: on (?:the |your )?hook)?"
)
# "..., and work off together as one s. c.": the same, as old leaflets say it
_WORKED_OFF = (
    r"work(?:ing)? (?:them |these )?off (?:all )?(?:together(?: as one(?: (?:sts?|stitch|[sd]\.? ?c)\b\.?)?)?|"
    r"as one(?: (?:sts?|stitch|[sd]\.? ?c)\b\.?)?)"
)
# "draw up a loop in each of next 2 sc, yarn over and draw through all loops on hook"
SPELT_ALL = re.compile(
    r"(?:pull|draw) up (?:a )?(?:loop|lp) in (?:each of |all )?(?:the )?(?:next |last |first |remaining )?"
    r"(?P<n>2|two|3|three) (?:remaining )?(?:sts\b\.?|stitches|s ?c|d ?c)(?:,|;| and| then)+ "
    rf"(?:{_WORKED_OFF}|(?:yo|yarn over|yrh|thread over|y\.o\.)(?:,| and|, and)? (?:then )?(?:(?:pull|draw) (?:it )?)?"
    r"(?:through|thru) (?:(?:all )?(?:the )?(?:[34] |three |four )?(?:remaining )?(?:loops|lps)(?: on (?:the |your "
    r")?hook)?|(?:everything|all(?: of them)?|them all)(?=\s*(?:[.,;(\[]|$))))"
)
# "(insert hook in next st, pull up a loop) twice, yo and draw through all 3 loops"
SPELT_TIMES = re.compile(
    r"[(\[*]? ?(?:insert|put) (?:the |your )?hook (?:in|into|through) (?:the |each )?(?:next|following)?"
    r"(?: (?:st(?:itch)?|sc))?(?:,|;| and| then)+ (?:(?:yo|yarn over|yrh)(?:,| and|, and)? )?"
    r"(?:pull|draw) (?:up|through) (?:a |the )?(?:loop|lp)"
    r"[)\]*]?,? ?(?:x ?)?(?P<n>twice|2|two|3|three)(?: ?times| ?x)?(?:,|;| and| then)+ "
    r"(?:yo|yarn over|yrh)(?:,| and|, and)? (?:then )?(?:(?:pull|draw) )?(?:it )?(?:through|thru) "
    r"(?:all )?(?:the )?(?:[34] |three |four )?(?:remaining )?(?:loops|lps)(?: on (?:the |your )?hook)?"
)
# "2 sc in next sc - inc made": the name of what was just told
NAMED_MADE = re.compile(
    r"-+\s*(?:(?:sc|[hd]?dc|h?tr|single|invisible) )?(?:inc|dec|sc2tog)(?:rease)?s? (?:is |was )?made\b|"
    r"-+\s*(?:this is |that is )?called (?:an? )?[a-z-]{2,12}(?:\s-+)?(?=\s*(?:[;,.)]|$))"
)
ALWAYS_TOGETHER = re.compile(
    r"(?:(?:(?:always )?(?:crochet|work|knit) (?:always )?|always )(?:2|two) (?:sts? |stitches |sc |dc )?"
    r"(?:always )?tog(?:ether)?|(?:always )?tak(?:e|ing) off (?:always )?(?:2|two) (?:sts|stitches|sc)(?: always)?|"
    r"(?:always )?(?:tak(?:e|ing)|crochet|work|knit) (?:always )?tog(?:ether)? (?:always )?(?:2|two) "
    r"(?:sts|stitches|sc)(?: always)?|(?:2|two) (?:sts |stitches |sc )?tog(?:ether)? always)"
    r"(?: around| all round)?(?=\s*(?:[.,;()\[=]|$))"
)
# "every M double", "double the stitches"
DOUBLED = re.compile(
    r"(?:(?:every|each|all)(?: of)?(?: the)? (?:m|ms|sts?|stitch(?:es)?|mesh(?:es)?|loops?|sc|dc|ones?)"
    r"(?: (?:is|are|to be|gets?|will be))* doubled?|doubl(?:e|ing) (?:all )?(?:the |your )?"
    r"(?:sts|stitches|number of (?:sts|stitches)|(?:stitch )?count|everything|them all|all of them))\b"
    r"(?: (?:this|in this|around|round|rnd))*(?=\s*(?:[.,;:(){}\[\]=-]|$))"
)
_NTH = r"(?:\d{1,2}(?=st|nd|rd|th)|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth)"
_NTH_ALIKE = r"(?:\d{1,2}(?:st|nd|rd|th|\.)?|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth)"
NTH_TOGETHER = re.compile(
    r"(?:(?P<always>always )?(?:crochet|work|knit|join|dec(?:rease)?|tak(?:e|ing)(?: off| in)?) "
    r"(?:(?:together|always|in) )*|"
    r"(?=(?:every|each) [^,;()]{3,40} tog))"
    rf"(?:(?:every|each) |(?(always)(?:the )?|(?<=always )(?:the )?))(?P<n>{_NTH_ALIKE})"
    rf" ?(?:st(?:itch)? )?(?:and|&|/|\+) ?(?P<m>{_NTH_ALIKE})"
    r"(?: (?:sts?|stitch(?:es)?)\b(?: (?:(?:is |are )?(?:crochet|work|knit|tak|join|put)(?:ed|en|t|ted)? )?"
    r"tog(?:ether)?)?| tog(?:ether)?| [a-z]{1,10} tog(?:ether)?)?"
)
# "every 3rd double", "every other st doubled", "double every 2nd": plain ones, then two in one, all the way
NTH_DOUBLED = re.compile(
    rf"(?P<led>doubl(?:e|ing) (?:in )?)?every (?:(?P<n>{_NTH})(?:st|nd|rd|th)?|(?P<other>other))"
    r"(?(led)(?: (?:st|stitch|sc|one)\b)?| (?:(?:st|stitch|sc|one) )?(?:(?:is|gets) )?(?:doubled?|increased?|inc))"
    r"(?=\s*(?:[.,;:(){}\[\]=-]|$))"
)
# "add 1 st every 2 sts", "1 decrease every 6 stitches", "every other stitch adds one": shaping told by its spacing
_SO_MANIETH = (
    rf"(?P<n>other|\d{{1,2}}(?:st|nd|rd|th)?|two|three|four|five|six|seven|eight|nine|ten|{_NTH}(?:st|nd|rd|th)?)"
)
_ONE = r"(?:1|one|an?)"
_SHAPED = (
    r"(?:(?P<grows>inc(?:rease)?|add|plus|widen)|(?P<shrinks>dec(?:rease)?|reduce|remove|subtract|minus|narrow))(?:s|d|ing)?"
)
_A_STITCH = r"(?:sts?|stitch(?:es)?|sc|dc)"
EVERY_SO = re.compile(
    rf"(?:{_ONE} )?{_SHAPED}(?P<amount> (?:by )?{_ONE}(?: {_A_STITCH})?)?(?: (?:in|on|at|for|after|to))? (?:every|each)"
    rf"(?: {_SO_MANIETH})? {_A_STITCH}(?: around)?(?=\s*(?:[.,;(\[={{]|- ?\d|$))"
)
EVERY_SO_LED = re.compile(
    rf"(?:after |in )?every(?: {_SO_MANIETH})? {_A_STITCH},? {_SHAPED}(?P<amount>(?: by)?(?: {_ONE}(?: {_A_STITCH})?)?)"
    rf"(?=\s*(?:[.,;(\[={{]|- ?\d|$))"
)
# "1 tr in each dc except the first": passed over, where a stretch would begin
BUT_FIRST = re.compile(
    r",? ?(?:except(?:ing)?|excluding|omitting|skipping|missing|passing over|leaving out|but not|apart from|other than)"
    r"(?: for| in)? (?:the |your )?(?:very )?(?:first|1st)(?: (?P<n>[2-6]|two|three|four))?"
    r"(?: (?:sts?|stitch(?:es)?|one|ones|sc|[hd]?dc|h?tr|ch)\b)?(?=\s*(?:[,.;(\[=]|- ?\d|$))"
)
# "now do 5 more sc, that's the new start of the round": behind a round that is done; it adds nothing
_NEW_START = (
    r"(?:(?:new|next) (?:start|beginning)\b|(?:start|beginning) of (?:the |your |each |every )*"
    r"(?:new |next |following )?"
    r"(?:rounds?|rnds?)\b|(?:rounds?|rnds?) (?:will |now |always )*(?:starts?|begins?) (?:t?here|from)\b|"
    r"(?:shift|mov)(?:es?|s|ing)? (?:the |your )?(?:start|beginning|seam)\b)"
)
MOVES_START = re.compile(
    r"(?:(?:now|then|and|next|finally),? )*(?:(?:work|do|make|crochet|add|count) )?(?:(?:sc|dc|hdc|sts?) )?"
    r"(?:(?:in|for) (?:the )?next )?(?:another )?(?:\d{1,2}|one|two|three|four|five|six)(?: more| extra)?"
    r"(?: (?:sc|dc|hdc|sts?|stitch(?:es)?|(?:single|double) crochets?))?(?: more)?\b[^.;()\[\]{}\d]{0,40}?"
    rf"(?:[.,;:-] )?[^.;()\[\]{{}}\d]{{0,40}}?{_NEW_START}[^.;()\[\]{{}}\d]{{0,60}}"
)
