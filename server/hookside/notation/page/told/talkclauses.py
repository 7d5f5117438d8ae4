"""What a clause of a letter or of a talk tells, where no round has a label: a ring, a round, a count, a job.

Each pattern is tried where the clause before it ends; `talkrounds` walks from one to the next.
"""

from __future__ import annotations

import re

from hookside.notation.page.inwords import NTH, WORD

N = rf"(?:(?:\d{{1,3}}|{WORD})(?![\w-]))"
ST = (
    r"(?:(?:single|double|half treble|half double|treble)s?(?: crochets?)?|[sdh]\.?c\.?(?![a-z])|hdcs?|htrs?|trs?|"
    r"scs|dcs|plain(?: (?:ones?|sts|stitch(?:es)?))?|stitch(?:es)?|sts?|ones?|normal(?: ones?)?)(?![a-z])"
)
_GAP = r"[\s,]+"
_ROUND = r"(?:rounds?|rnds?|rows?|times? round|turns?)"
_AROUND = (
    r"(?:(?:all )?(?:of )?(?:the )?way(?: (?:a?round|along|to the end|through))?|all (?:a?round|over|along)|"
    r"a?round(?! (?:one|two|\d))(?: and (?:a?round))?|"
    rf"(?:right )?(?:(?:in)?to|until|till) the end(?: of (?:the|it|that) round)?|a?round(?= to {N})|"
    r"in (?:each|every)(?: (?:st|stitch|one))?)"
)
_TIMES = rf"(?:{N} times?(?: over| in all| a?round)?|(?:x|times) ?\d{{1,2}}|twice|thrice)"
REACH = (
    rf"(?:[\s,;-]*"
    rf"(?:(?:and|you|I|we|just|then|simply|so|keep|going|on|like|that|this|do|doing|over|and over|repeat(?:ing|ed)?|"
    rf"rep|again|it|the same)\s+)*?(?:(?:repeat(?:ing)?|rep|again|over and over)(?: (?:that|this|it|these))?[\s,]*)?"
    rf"(?P<reach>{_TIMES}|{_AROUND}(?:[\s,]+(?P<times>{_TIMES}))?))"
)

# "one between the increases", "with two sc in between": a round that goes on as the one before
BETWEEN = re.compile(
    rf"(?:(?:with|had|has|have|having|put|putting|this time|now) )*(?P<n>{N})(?: {ST})? (?:in )?between"
    rf"(?: (?:the |each |every )?(?P<kind>inc|dec)(?:rease)?s?\b| (?:them|each))?",
    re.I,
)
# "14, so that's", "18 (", "12 by": the count in front of its round
COUNT_FIRST = re.compile(
    rf"(?P<n>{N})(?: (?:sts|stitches))?(?:,? (?:(?:so|and) )?(?:by|that(?:'s| is)|which is|meaning|i\.?e\.?|with)\s+|"
    rf",? \((?=(?:{N}|an?|inc|dec|2|doubl)\b(?![)])))",
    re.I,
)
# "you should have 15 still", "still 18": a sentence of its own
COUNT_ALONE = re.compile(
    rf"(?:(?:so|and|now|still|that|which|it|you|we|I|should|will|be|have|has|had|got|gets?|makes?|made|gives?|gave|"
    rf"were?|are|is|at|thats|that'?s|you'?re|we'?re|back|up|down|to|'s|me|us|of course)[\s,]+)+(?P<n>{N})"
    r"(?: (?:sts|stitches))?(?: (?:still|again|now|in all|altogether|left|total|in total|each time|every time))*"
    r"(?=\s*(?:[.;,!:)\n]|$))",
    re.I,
)
BARE = re.compile(rf"(?P<n>{N})(?: (?:sts|stitches))?(?=\s*(?:[.;,!]|$))", re.I)
# "decrease the same way back:": counts alone behind it
BACKWARDS = re.compile(
    r"(?:(?:then|now|and|I|we|you) )*(?:(?:decreas\w+|dec|go|went|come|work) )(?:it )?(?:back )?(?:down )?"
    r"(?:in )?(?:the same way|likewise|the way (?:it|you|I) (?:came|went|grew))(?: back| down)*\s*[:,]",
    re.I,
)
# "no more increases" behind a plain round
BESIDE = re.compile(
    r"[\s,;.(]*(?:with |and )?(?:no|without)(?: any)?(?: more)? (?:inc|dec|shap)\w*(?: (?:at all|now|any more))*"
    r"(?=\s*(?:[,.;:!)]|$))",
    re.I,
)
# Of the tools, the yarn and the one who tells: numbers in it are no stitches
ASIDE = re.compile(
    r"\b(?:hooks?|mm|cm|inch(?:es)?|needles?|ball|balls|skeins?|grams?|minutes?|hours?|days?|weeks?|o'?clock|tv|tea|"
    r"years?|pounds?|dollars?|euros?)\b(?![^.]*\b(?:sc|[hd]?dc|inc\w*|dec\w*|rounds?|stitch(?:es)?|sts)\b)",
    re.I,
)

RING = re.compile(
    rf"(?:(?P<a>{N}) (?:(?P<st>{ST}) )?(?:in|into|inside|onto) (?:an? |the |your )?(?:(?:magic|adjustable|slip|yarn|"
    rf"thread|wool|amigurumi) )*(?:ring|circle|loop|mr|mc)\b|"
    rf"(?:an? |the |your )?(?:(?:magic|adjustable|slip|yarn|thread) )*(?:ring|circle|loop|mr|mc)\b"
    rf"(?:[\s,&]+(?:of|with|and|then|we|I|you|put|work|do|make|crochet|it|has|starting|containing|for|a total of|just|"
    rf"going to|are)\b){{0,6}}[\s,:&]+(?P<b>{N})(?: (?P<stb>{ST}))?"
    rf"(?: (?:in|into|inside)(?: to)? (?:it|that|the (?:ring|loop|circle|middle)|there))?(?![ ](?:chains?|ch)\b)|"
    rf"(?:chain|ch) ?(?:2|two)\b[\s,]+(?:(?:and|then|work|make|put|do)\s+)*(?P<c>{N}) (?P<stc>{ST}) (?:in|into) the "
    rf"(?:second|2nd)(?: (?:chain|ch|one|st|stitch))?(?: from (?:the |your )?hook)?)"
    r"(?:[\s,]+(?:and )?(?:pull|draw) (?:it|them|the ring)?[ ]?(?:up|tight|closed|shut|in)\b)?",
    re.I,
)
_NEXT = r"(?:the )?(?:next|same)(?: (?:stitch|st|one)(?![a-z]))?"
# "two dc in each", "make two in every stitch", "inc in every st", "doubles it"
EACH = re.compile(
    rf"(?:(?P<n>{N}|a)(?: (?P<st>{ST}))? (?:in|into) (?:each|every|all(?= (?:sts|stitches|of|the)\b)(?: of)?)"
    rf"(?! of)(?! other)(?! second)(?: single| and every)?(?: (?:stitch|st|one|[sd]c|them|the sts|"
    rf"the stitches)(?![a-z]))?(?:(?<=one) of (?:them|those|these|the \w+))?|"
    rf"(?P<many>{N}) inc(?:(?:rease)?s)?(?![a-z])(?=\s*(?:[,.;(=]|for|so|to|and then|then|which|$))|"
    rf"(?P<inc>doubl(?:e[sd]?|ing) (?:it|them|that|up)(?: all)?(?![a-z]| (?:each|every|all)\b)|"
    rf"(?:(?:an? )?(?:inc|increas(?:e[sd]?|ing))|doubl(?:e[sd]?|ing)(?: up)?) (?:in |into )?"
    rf"(?:each|every|all(?= (?:of|st|the st)))"
    rf"(?: (?:stitch|st|one|of them)(?![a-z]))?|"
    rf"(?:inc|increas(?:e|ing)|two in (?:each|every))(?= (?:all |a?round|to the end))|"
    rf"(?:an? |another )(?:increase|inc) {_ROUND},? (?:it is |with |of )?(?:two|2)(?: {ST})? in(?:to)? (?:each|every)"
    r"(?: (?:stitch|st|one)(?![a-z]))?|two into each))"
    r"(?P<around>[\s,]+(?:all (?:the way )?(?:a?round)|all the way|a?round|all the way|to the end|all along))?",
    re.I,
)
# "two together all round", "dec all around", "six decreases", "dc2tog six times"
DEC = re.compile(
    rf"(?:(?P<many>{N}) (?:dec(?:(?:rease)?s)?(?=\s*(?:[,.;(=]|for|so|to|and|then|which|$))|"
    rf"times two together)(?![a-z])(?P<around>[\s,]+(?:all )?(?:the way )?a?round)?|"
    rf"(?:(?:work|take|taking|put|crochet|pull|pulling|draw)\s+)?(?:two|2)(?: (?:(?:st|stitche)s|[sd]c))?"
    rf"(?: (?:taken|pulled|worked|drawn))? tog(?:ether)?"
    rf"(?:{REACH}|(?=\s+(?:back |down )?to {N}))|"
    rf"just (?:dec(?:rease)?s?)(?![a-z])(?=\s*[,.;])|together(?=\s*=)|"
    rf"(?:a )?(?:decreas(?:e|ing)|dec|invdec|[sd]c2tog)(?: (?:in |into )?(?:every|each) (?:two|2|pair)\b)?"
    rf"{REACH.replace('<reach>', '<reach2>').replace('<times>', '<times2>')})",
    re.I,
)
# "one plain, two in the next, all the way", "two and a decrease", "one in each of two and two in the next"
_IN_FIRST = r"(?: in (?:the )?(?:first|next|one)(?: (?:stitch|st|one)(?![a-z]))?)"
_IN_NEXT = r"(?: in (?:the )?next(?: (?:stitch|st|one)(?![a-z]))?)?"
_AND = r"(?:[\s,]*\b(?:and|then|plus)\b[\s,]*)+"
PAIR = re.compile(
    rf"(?:(?:one|1) in (?:each of )?(?:the )?(?:next |first )?(?P<of>{N})(?:{_AND}|[\s,]+)+|"
    rf"(?:(?P<a>{N})(?: more)? (?P<st>{ST}){_IN_FIRST}?|(?P<b>{N}){_IN_FIRST}|an? {ST}{_IN_FIRST}?|"
    rf"(?P<lone>sc|dc|hdc|htr|tr)(?![a-z]){_IN_FIRST}?)(?:{_AND}|[\s,]+)+|"
    rf"(?P<bare>{N})(?:,[\s,]*(?:{_AND})?|\s*{_AND}))"
    rf"(?:(?P<inc>(?:(?:two|2)(?: (?:{ST}))? (?:in|into) {_NEXT}|(?:an? |one |1 )?(?:inc(?:rease)?)(?![a-z]){_IN_NEXT}|"
    rf"(?:two|2) (?:in|into) (?:one|the same)|(?:two|2)(?:, (?:one|1), (?:two|2))+\s*\.{{2,3}}|"
    rf"(?:two|2)(?:, (?:one|1),? (?:two|2))*(?=[\s,;:]+(?:all|a?round|to the end|{N}\s*(?:[.,;]|$)))))|"
    rf"(?P<dec>(?:(?:pull|take|work|draw|put|squeeze|crochet)\s+)?(?:the )?(?:next )?(?:two|2)(?: (?:st|stitche)s)?"
    rf"(?: (?:taken|pulled|worked|drawn))? tog(?:ether)?|"
    rf"(?:a |one |1 )?(?:dec(?:rease)?)(?![a-z])(?: over (?:the )?next (?:two|2)(?: (?:stitches|sts))?)?|"
    rf"[sd]c2tog))(?:(?P<go>{REACH}))?",
    re.I,
)
_FLAT = (
    r"(?:plain(?:ly)?|even(?:ly)?|straight|just (?:sc|dc|single crochet|double crochet|plain)|"
    r"(?:of )?(?:plain |just )?(?:[sd]c|singles?(?: crochet)?|doubles?(?: crochet)?|trebles?)(?![a-z])|the same|"
    r"(?:without|with no|no) (?:any )?(?:more )?(?:inc|dec|shap|chang)\w*|(?:with )?nothing changed|as it is|"
    r"as they are|"
    r"(?:just )?(?:(?:one|1|a)(?: (?:[sd]c|single|stitch|st))?|[sd]c) in (?:each|every)(?: (?:one|stitch|st))?|"
    r"(?:we|you|I) (?:don'?t|do not) (?:inc|dec)\w*(?: (?:at all|any more|anything))?|without adding any)"
)
_FLATS = (
    rf"(?:[\s,]+(?:are|is|we|you|I|it|stays?|with|of|go|work|worked|all|then|again|only|and|in|that|"
    rf"just)){{0,4}}?[\s,]+(?:{_FLAT})(?![a-z])(?:[\s,]+(?:and )?{_FLAT}(?![a-z])){{0,2}}"
)
# "four rounds plain", "the next three rounds are just plain", "plain again", "straight for eight rounds"
PLAIN = re.compile(
    rf"(?:(?:for|over) )?(?:(?:the|a|an|one|1|another|about) )?(?:(?:next|following|other|last) )?"
    rf"(?:(?P<n>{N}) )?(?:(?:more|further|extra) )?(?:"
    rf"(?P<plainround>(?:plain|even|straight) {_ROUND}(?! of (?:inc|dec)))|"
    rf"{_ROUND} of (?P<each>{N})(?: (?:st|stitche)s)?(?=\s*(?:[,.;]|without|with no|then\b|and\b|$))"
    rf"(?:\s+(?:without|with no) (?:any )?(?:more )?(?:inc|dec|shap)\w*(?: at all)?)?|{_ROUND}{_FLATS}|"
    rf"{_ROUND}(?=,? (?:only |just )?(?:in|into|through|working)(?: (?:in|into|through))? (?:just |only )?"
    rf"the (?:back|front) loops?\b))|"
    rf"(?:(?:go|work|crochet|keep(?: on| going)?|continue|carry on|do|stay)(?:ing)? )?(?:once )?"
    rf"(?:(?:on|a?round)(?: and a?round)? )?"
    rf"(?:just )?(?:{_FLAT})(?![a-z])(?:[\s,]+(?:a?round))?"
    rf"(?:[\s,]+(?:for|over)? ?(?:the next |another )?(?P<n2>{N})(?: more)? {_ROUND}(?:[\s,]+(?:{_FLAT}))?|"
    rf"[\s,]+(?P<once>once|twice|thrice|{N} times)(?: more)?|[\s,]+again|[\s,]+(?:all )?(?:the way )?a?round)+|"
    rf"(?:go|work|keep|kept|going)(?:ing)?(?: on)?(?: a?round)(?: and a?round)? for (?P<n3>{N}) {_ROUND}(?:{_FLATS})?|"
    # "go round and round, 10 sc each, for nine rounds"
    rf"(?:go|work|keep|kept|crochet)(?:ing)?(?: on| going)? a?round(?: and a?round)*[\s,]+"
    rf"(?:(?:just|with|at)\s+)?{N}(?: {ST})?(?: each| every)?(?: (?:time|round|one))?[\s,]+"
    rf"(?:for )?(?P<n6>{N}) (?:more )?(?:{_ROUND}|times)|"
    # "12 sc for two rounds", "sc 18 for 3 more rounds", "left it at twenty-four for seven rounds"
    rf"(?:(?P<on>{N}) (?:sc|[hd]?dc|h?tr|sts|stitches|plain)|(?:sc|[hd]?dc|h?tr) (?P<on2>\d{{1,3}})|"
    rf"(?:left|leave) (?:it|them) (?:at|on) (?P<on3>{N}))[\s,]+(?:for|over) (?:the next |another )?(?P<n7>{N})"
    rf" (?:more )?{_ROUND}|"
    # "3 rounds on those 20", "ten rounds of 12 with no shaping", "5 rounds plain on 30"
    rf"(?P<n8>{N}) (?:more )?(?:(?:plain|even|straight) )?{_ROUND}(?:{_FLATS})? (?:on|over|at|of) (?:the |"
    rf"those |these )?"
    rf"(?P<on4>{N})(?: (?:sts|stitches|sc))?(?:[\s,]+(?:without|with no) (?:any )?(?:more )?(?:inc|dec|shap)\w*)?"
    rf"(?: at all)?(?=\s*(?:[,.;]|then\b|and\b|$))|"
    # "just go round 4 times without doing anything", "go round once with nothing"
    rf"(?:just )?(?:go|went|work) a?round (?P<n9>once|twice|{N} times) (?:without doing|with|doing) "
    r"(?:nothing|anything)(?: (?:else|special))?|"
    rf"(?P<n10>{N}) (?:more )?{_ROUND} of (?:just (?:sc|[hd]?dc|plain|single crochet)|"
    r"nothing(?: (?:special|fancy|extra|new|at all))?)|"
    rf"(?P<same>another|one more)(?: one| {_ROUND})? (?:the same|like (?:it|that|this))|"
    rf"(?:once )?(?:a?round )?(?:{_FLAT})(?=\s*(?:[,.;!:)]|$))|"
    rf"(?:{N}) {ST}[\s,]+(?:without|with no) (?:any )?(?:inc|dec|shap)\w*|"
    rf"(?:kept|keep|stay|go|went|carried|carry)(?:ing)? (?:on )?(?:at|with) (?P<at>{N}) for (?P<n5>{N}) {_ROUND}|"
    rf"(?P<n4>{N}) (?:more|others?)(?: {_ROUND})? (?:the same|(?:just )?like (?:it|that|this|them))",
    re.I,
)
LOOPS = re.compile(
    r"[\s,]*(?:but |and )?(?:all )?(?:in|into|through|working)(?: (?:in|into|through))? (?:just |only )?the "
    r"(?P<which>back|front) loops?(?: only)?(?! of)",
    re.I,
)
# "12 the next round, 18 the one after"
ONLY_COUNT = re.compile(
    rf"(?P<n>{N})(?: (?:st|stitche)s)? (?:(?:in|on|for) )?the (?:(?:next|following) (?:{_ROUND}|one)|"
    rf"(?:{_ROUND}|one) after(?: (?:that|this))?)\b",
    re.I,
)
# "do this round three times": of a plain round in front of it
OVER = re.compile(
    rf"[\s,;.]*(?:and )?(?:you )?(?:do|work|repeat|make) (?:this|that|it|the same)(?: {_ROUND})? "
    rf"(?:(?P<n>{N}) times(?: in all)?|(?P<twice>twice)(?: in all)?|(?P<more>{N}) (?:more times|times more))",
    re.I,
)
# "make ", "We'll start off with ": in front of a ring
RING_LEAD = re.compile(
    r"(?<![a-z])(?:take (?:the|your|some) (?:yarn|wool|cotton|hook),? (?=and ))?"
    r"(?:(?:so|okay|ok|now|first|what (?:I|we|you) do is|to start|to begin|and|then|for)[\s,]+)*"
    r"(?:(?:I|we|you|she|he|it)(?:'ll| will| do|(?='ve))?[\s,]*)?(?:(?:start|began|begin|make|made|work|do|"
    r"take|put|crochet|cast|form|(?:'ve |have )?got)(?:s|ed|ing)?"
    r"[\s,]+)(?:(?:off|out|on|by|with|making|working|it)[\s,:]+)*$",
    re.I,
)
COUNT = re.compile(
    rf"[\s,:;=(\[-]*(?:(?:so|and|which|that|this|it|you|I|we|to|till|until|back|down|up|now|still|again|"
    rf"should|will|be|get|'ll|"
    rf"have|has|got|gives?|makes?|made|gave|gets?|getting|you'?re|we'?re|on|leaves?|leaving|making|giving|us|"
    rf"me|is|are|you'?ve|we'?ve|there'?s|there|that'?s|that'?ll|"
    rf"it'?s|for|at|with|end(?:s|ing)?|"
    rf"total of|comes?|a)[\s,]+)*"
    rf"(?P<n>{N})(?: (?:st|stitche)s)?(?: (?:in all|altogether|again|now|left|still|each time|every time|"
    rf"in total|total|sts|stitches|"
    rf"of them|"
    r"in the round))*[)\]]?(?=\s*(?:[,.;:!)]|\n|$|(?:and|then|so|now|in|after|next|before|but)\b))",
    re.I,
)
COPIES = re.compile(
    rf"(?:(?:I|we|you) )?(?:make|made|need) (?P<n>{N})(?:(?=\s*[.;!])| (?:of (?:them|these|those)|in all|"
    rf"altogether|alike))",
    re.I,
)
JOB = re.compile(
    r"(?:(?:I|we|you|she|he)(?:'ll)? )?(?:(?:don'?t forget to|remember to|start to|begin to) )?(?:"
    r"(?P<after>after (?:stuffing|filling)(?: it)?\b)|"
    r"(?:put|fit|fix|pop|add) (?:the |his |her |its |in |on |some |your )|(?:stuff|fill)(?:ed|ing)?\b|sew|"
    r"(?:close|cut|fasten|finish off|draw|pull|weave|thread|run the|gather|fold|leave|tie|embroider|attach|snip|press|"
    r"flatten|turn it)(?:d|ed)?\b|(?:poke|push|stick|shove|pack) [a-z ]{1,24}\b(?:stuffing|filling|fill|fluff|eyes)\b|"
    rf"(?:(?:{N}|an?|some)(?: [a-z]+){{0,2}} )?(?:knots?|beads?|buttons?|eyes) (?:for|on|at|in|between)\b|"
    r"(?:switch|change|swap) to|back to (?:the )?[a-z]+(?= for\b)|"
    rf"back to (?:the )?(?!{N})[a-z]{{3,}}(?=\s*[,.;]))",
    re.I,
)
JOB_ENDS = re.compile(
    rf"[.!?;](?=\s|$)|\n\n|,? (?:and )?then (?!(?:fold|sew|fasten|cut|close|pull|draw|leave|stuff|fill)\b)|"
    rf",? and (?=(?:do|work|make|go) |(?:after|finish with|end with)\b)|,? and (?=(?:{N})\b)|"
    rf"(?= for (?:{N}|an?) (?:(?:plain|even|straight|more) )?{_ROUND})|, (?=(?:then |now )?(?:go|back to)\b)|"
    rf" and (?=did |does )| and (?=sew|fasten|close|cut|draw|pull)|, (?=dec|inc|{N}\b)",
    re.I,
)
# Where the next round begins, in so many words
LEAD = re.compile(
    rf"(?:(?:in|on|for|with) )?(?:the )?(?:next|following) (?:{_ROUND}|one|time(?: a?round)?)\b"
    r"(?:[\s,:]*(?:is|was|had|goes|went|it'?s)\b)?|"
    rf"(?:(?:in|on|for) )?the (?:{_ROUND}|one) (?:after(?: (?:that|this|it))?|that follows)\b(?:[\s,:]*(?:is|was|"
    rf"goes|went|it'?s)\b)?|"
    rf"(?:go|going|goes|went) (?:a?round|on)(?: (?:again|once))? with(?= (?!nothing))|"
    r"(?:come|go|went|came)(?:ing)? (?:back )?(?:in|down|up|out) again\b|"
    rf"(?:a|one|another|one more) {_ROUND} (?:where|in which|with)(?: (?:you|we|I))?(?: (?:do|work|make|put))?\b"
    rf"(?= (?:{N} |an? |inc|dec|\())|"
    r"after (?:that|this|which)\b|from (?:here|there)(?: on)?\b|last(?:ly| of all)\b|finally\b|at last\b|"
    rf"(?:go|work) (?:on |a?round )?(?:once more|again|once again)\b(?:[\s,]*(?:making|working|putting|and|with)\b)?|"
    r"(?:(?:now|then) )?(?:(?:you|we|I) )?(?:(?:now|then) )?(?:start|begin)(?:ing|s)? "
    r"(?:to (?:take away|increase|decrease|add)|taking away|adding|increasing|decreasing)(?=\s*[,.:;])|"
    r"when you'?(?:ve|re) (?:been )?(?:a?round|done that|there)\b|"
    rf"(?:now )?(?:(?:we|you|I)(?:'re| are|'m| am)? )?(?:now )?(?:inc|dec)reas(?:e|ing)\s*(?:[,:]|$)|"
    rf"(?:for )?(?:a|one|the next|another|one more|the last) {_ROUND} of(?= (?:{N} |an? |inc|dec)|"
    rf" {ST}[\s,]+(?:inc|dec|two))|"
    rf"(?:decrease|increase) by (?:doing|working|making)\b|(?:an? |another )(?:inc|dec)(?:rease)? {_ROUND}\b|"
    r"(?:finish|end|close) (?:up )?with\b|to (?:finish|close)\b",
    re.I,
)
# "decrease to five by taking two together all round": the count first
TO_BY = re.compile(rf"(?:de|in)crease (?:back |down |up )?to (?P<n>{N}) by\b", re.I)
SKIP = re.compile(
    r"(?:[\s,.;:!?()\u2026-]+|again(?=\s[a-z\d])|(?:it|that)(?:'s| is| goes)(?= )|"
    r"(?:and|so|then|now|next|okay|ok|right|well|first|also|just|simply|it|what|"
    r"(?:I|we|you|she|he)(?:'re|'ll| are| am| will| would)?(?: (?:going to|gonna))?|"
    r"go|do|does|did|work|works|worked|working|make|makes|making|crochet|put|take|taking|goes|there(?: is| are|"
    r"'s)?|comes?|"
    r"follows?|have to|going to|is|are|with|for|in|all)(?=[\s,.;:!?(]|$))",
    re.I,
)
# "Then 3 rounds."
ROUNDS_ALONE = re.compile(rf"(?:(?:and|then|now|work|do) )*(?P<n>{N}) (?:more )?(?:rounds|rnds|rows)", re.I)
COUNT_BEHIND = re.compile(r",? ?[(\[=]?[ ]?(?P<n>\d{1,3})[)\]]?(?=[ ]?(?:[.;]|$))", re.I)  # "Dec, 6."
# "two together, one = 12": a sentence whose sum is told is one round
SUMMED = re.compile(r"(?P<words>[^.!?;:=\n]{2,80}?)\s*=\s*(?P<n>\d{1,3})(?=\s*(?:[.;]|$))")
# Stitches and numbers in words that no pattern knew: a round may be told by them
STITCHY = re.compile(
    rf"\b(?:{N}|{ST}|inc\w*|dec\w*|rounds?|rows?|again|plain|together|double[sd]?|twice|once|straight|repeat\w*|"
    rf"same)\b",
    re.I,
)
LABELLED = re.compile(
    rf"\b(?<!next )(?<!following )(?:(?:rounds?|rows?)|(?:rnds?|r|rd)s?\.?) ?#?"
    r"(?:\d+(?! (?:more )?times)|one\b|two\b)(?!\d)|"
    rf"^[^\w\n]{{0,4}}\d{{1,2}} ?[.:)-] |"
    rf"\b{NTH} (?:time )?(?:rounds?|rnds?|rows?)\b",
    re.I | re.M,
)
