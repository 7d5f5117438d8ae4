"""What one round is, told in words where others print signs -> the same as they print it, in as many letters.

"sc until 2 sts are left, dec" is "sc to last 2 sts, dec"; "2 sc, inc, repeated 6 times" repeats them.
"""

from __future__ import annotations

import re

from hookside.notation.vocabulary import NUMBER_WORDS, number_of

_N = rf"(?:\d{{1,3}}|{'|'.join(NUMBER_WORDS)})"
_STS = r"(?:sts?|stitch(?:es)?|sc|[hd]?dc)"
_PLAIN = r"\b(?:sc|[hd]?dc|h?tr|single crochet)"
_ALL = rf"(?: (?:in|into) (?:each|every|all)(?: of the| the)?(?: {_STS})?)?(?: (?:around|across|along|on))?"
# "sc a/r", "sc in ea st a/r": all round
_A_R = re.compile(r"(?P<each>\b(?:each|ea|every|all)(?: (?:st|sc|dc|stitch))? )?\ba/r\b", re.I)
_OF_ROUND = r"(?: of (?:the |this )?(?:round|rnd|row))?"
_CLAUSE = r"(?=\s*(?:[.,;:)(\[\]=]|- ?\d|and\b|then\b|$))"
# "sc until only two stitches are left, dec"; "until 6 sts are left" behind a decrease tells what it comes to
_UNTIL_LEFT = re.compile(
    rf"(?P<st>(?:{_PLAIN}{_ALL},?|[*)\]]) )(?P<till>(?:until|till?)(?: there are| there is| you have| only| just)* "
    rf"(?P<n>{_N})(?: {_STS})? (?:(?:are|is|stays?) )?(?:left|remain\w*)(?: over| un-?worked| free)*)"
    r"(?=\s*(?:[,;]|and\b|then\b))",
    re.I,
)
# "sc to within 2 sts of the end, dec"
_WITHIN = re.compile(rf"\b(?:up )?to within (?P<n>{_N}) {_STS} of (?:the )?end\b{_OF_ROUND}", re.I)
# "in all sts apart from the last two"
_EXCEPT = re.compile(
    rf"(?P<behind>\b(?:each|every|all|around|across)(?: of the)?(?: {_STS})?,? )"
    rf"(?P<but>apart from|other than|with the exception of|but not|save for|bar) (?=(?:in |into )?(?:the )?last\b)",
    re.I,
)
# "sc to last st, inc in it", "to last 2 sts, sc2tog over those": into what was just kept back
_THERE = re.compile(
    rf"(?P<last>\b(?:last|left|remain\w*|final)\b[^,;.]{{0,40}}[,;.] ?(?:and |then |now |with )*(?:work )?)"
    rf"(?:(?P<shape>(?:an? |1 |one )?(?:inc(?:rease)?|dec(?:rease)?|invdec|sc2tog))"
    rf"(?: (?:in|into|over|across|on|with|at|of))?|(?P<many>[2-5] {_STS}) (?:in|into))"
    rf" (?:(?:it|this|that|those|these|them)(?: (?:one|two|st|sts|stitch|stitches|last one))?|there){_CLAUSE}",
    re.I,
)
_BOTH = re.compile(
    rf"(?P<last>\blast (?:2|two)\b[^,;.]{{0,40}}[,;.] ?(?:and |then |now )*)"
    rf"(?:work|crochet|take|sc|make|join) (?:them|those|these|both|the two)(?: two| both)? (?:together|tog){_CLAUSE}",
    re.I,
)
# "6 times 2 sc, inc": how often, in front of a list that is nothing else
_TIMES_FIRST = re.compile(
    rf"^(?P<n>\s*(?:(?:work|do|make|repeat) )?{_N} times),? (?=(?:\d{{1,2}} ?)?[a-z]+[^()\[\]*:;.\n]*"
    r"(?:[(\[]\s*\d{1,4}[^()\[\]]{0,12}[)\]]|[=-] ?\d{1,4}(?: sts)?)?\s*\.?\s*$)",
    re.I,
)
_OF_TIMES = re.compile(
    r"\b(?:around|each|every|rep|repeat\w*|then|times|last|first|rest|and (?:work|do|make)|"
    r"x ?\d)\b",
    re.I,
)
# "2 sc, then an increase, repeated 6 times", "2 sc and inc, done six times"
_REPEATED = re.compile(
    rf"(?P<and>[,;] (?:and )?|\band )(?:all )?"
    rf"(?P<done>repeated|done|worked)(?: in all| altogether)? (?={_N} times\b)",
    re.I,
)
# "sc, 1 inc per round", "sc around, increasing one st in each round"
_PER_ROUND = re.compile(
    rf"^(?:(?P<st>\s*{_PLAIN})(?: in (?:each|every) st(?:itch)?)?(?: around)?[,:;]? \(?|"
    r"(?=\W{0,2}(?:inc|dec|\d|one)))"
    r"(?:and |with |plus |adding |making |working )*(?:(?P<n>\d|an?|one|two|three) (?:extra )?(?P<how>inc|dec)"
    r"(?:s|reases?)?|(?P<how2>inc|dec)(?:reas(?:e|ing))? (?:by )?(?P<n2>\d|one|two|three)(?: sts?| stitch(?:es)?)?)"
    r" (?:in |per |for |on |of )?(?:the |each |every |this |a )?(?:single )?(?:round|rnd|row)\)?(?=\W*$|\s*[(\[=])",
    re.I,
)


# "all in back loop -> 48", "all, blo": every stitch there, told before its loops
_ALL_IN = re.compile(
    r"^(?P<gap>\s*)all,? (?P<loops>(?:in |through )?(?:the )?(?:(?:back|front|both) loops?(?: only)?|[bf]lo)\b)"
    r"(?=\s*(?:[.,;(\[=-]|$))",
    re.I,
)
# "all single crochets", "work all dc without increases": the stitch that all of them are, told behind
_ALL_OF = re.compile(
    r"^(?P<gap>\s*(?:(?:work|crochet|do) )?)all (?:in )?"
    r"(?P<st>(?:half )?(?:single|double|treble)(?: crochets?)?|sc|[hd]?dc|h?tr)\b"
    r"(?:,? (?:without|with no) (?:any )?(?:inc(?:reas\w+|s)?|dec(?:reas\w+|s)?|shaping)\b)?(?=\s*(?:[(\[.=-]|$))",
    re.I,
)

# "crochet 2 and 2 sc together", "take all the stitches together two by two"
_STS_OF_ALL = r"(?:(?:all )?(?:of )?(?:the )?(?:sts?|stitch(?:es)?|sc|[hd]?dc|single crochets?)\b ?)?"
_TWO_AND_TWO = re.compile(
    rf"^(?P<gap>\s*)(?:(?:work|crochet|take|join|knit|always|now) ){{0,3}}{_STS_OF_ALL}"
    rf"(?P<tog>(?:together|tog),? )?(?P<n>2|two|3|three) (?:and|by|\+|&) (?:(?P=n)|two)(?: at a time)?"
    rf" ?{_STS_OF_ALL}(?(tog)|(?:together|tog)\b)(?:,? (?:all )?(?:the way )?(?:a?round|across|(?:to|until) the end))?"
    r"(?=\s*(?:[.,;(\[=-]|$))",
    re.I,
)
# "Work every 2 d.c. tog.", "every two together": each stitch with the one beside it, all the way round
_EVERY_TWO = re.compile(
    r"^(?P<gap>\s*)(?:(?:now|then|work|crochet|take|join|knit|sc|dc|single crochet) ){0,2}every (?P<n>2|two|3|three) "
    r"(?:(?:sts?|stitches|sc|dc|[ds]\.c\.|loops) ?)?(?:together\b|tog\b\.?)"
    r"(?:,? (?:all )?(?:the way )?(?:a?round|across|(?:to|until) the end)(?: of the (?:round|row))?)?"
    r"(?=\s*(?:[.,;(\[=-]|$))",
    re.I,
)
# "sc 2, inc 1, *6": the one star is a cross
_STAR_TIMES = re.compile(r"(?<=[a-z\d]), ?\*(?= ?\d{1,2}(?!\d)(?: ?times)?\W*(?:\d{1,4}\D{0,12})?$)", re.I)
# "5 * inc", "6 * (2sc + inc)"
_TIMES_STAR = re.compile(r"(?<=\d )\*(?= (?:\(|[a-z]))", re.I)
# "fpdc in every third st, sc in the rest": a plain stitch in each of those between
_MANIETH = {"other": 2, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "eighth": 8, "tenth": 10}
_ADORNING = r"(?!(?:inc|dec|inv|\d))[a-z]{2,8}(?: [a-z]{2,8}){0,2}?"
_EVERY_NTH = (
    rf"(?: (?:in|into|around|on))? (?:every|each) (?P<nth>{'|'.join(_MANIETH)}|\d{{1,2}}(?=[nrt][dh]))(?:[nrt][dh])? "
    r"(?:st|stitch|sc|post)(?: (?:around|below))?"
)
_REST_PLAIN = re.compile(
    rf"^(?P<gap>\s*)(?P<st>{_ADORNING}){_EVERY_NTH},? (?:and |with |then |work )*"
    rf"(?P<plain>{_PLAIN})(?: (?:in|through) both loops)?(?: (?:in|into|on))?(?: (?:all|each))?(?: of)?(?: the)? "
    rf"(?:rest|others?|remaining|remainder|between|in between|ones between)(?: {_STS})?(?: between)?(?: around)?"
    r"(?=\W*$|\s*[(\[=.-])",
    re.I,
)
# "sc around with a bobble in every third st"
_ADORNED = re.compile(
    rf"^(?P<gap>\s*)(?P<plain>{_PLAIN})(?: around| (?:in|into) (?:each|every) {_STS}(?: around)?),? "
    rf"(?:(?:and|with|but|working|making) )*(?:an? |1 |one )?(?P<st>{_ADORNING}){_EVERY_NTH}(?=\W*$|\s*[(\[=.-])",
    re.I,
)
# "all the same: 1 sc in every stitch": a round that is told in full
_SAME_LEAD = re.compile(
    rf"^\s*(?:all |still |just |again,? )*(?:the )?same(?: again| as before| here)?: (?=(?:\d{{1,3}} )?{_PLAIN}\b)",
    re.I,
)
# "Sc, increasing 8 evenly": all the way round, with so many of them on the way
_SPREAD = re.compile(
    rf"^(?P<gap>\s*)(?:work )?(?P<st>{_PLAIN}),? (?:(?:and|but|with) )?(?P<how>inc|dec)(?:reas(?:e|ing))? (?:by )?"
    r"(?P<n>\d{1,2}|one|two|three|four|five|six|eight|ten|twelve)(?: (?:sts?|stitches|times))?"
    r" (?:evenly|spaced)(?: (?:spaced|spread|around|across|along))?(?=\s*(?:[.,;(\[=]|- ?\d|$))",
    re.I,
)
# "sc in every st, same each time": of each course that the label names
_SAME_EACH = re.compile(
    r",? (?:and |it is |it's )?(?:the )?same (?:thing )?(?:in |for )?(?:each|every) (?:time|round|rnd|row|one)"
    r"(?: of them)?(?=\W*$|[\s,;.]{0,3}[(\[=])",
    re.I,
)
# "1 sc then inc, keep going til the end of the round"
_KEEP_GOING = re.compile(r"\b(?P<on>keep going|carry on|go on|continue) (?:until|till?) (?=the end\b)", re.I)
# "in each sc increase": the place told first
_PLACE_FIRST = re.compile(
    rf"^(?P<gap>\s*)in(?:to)? (?:each|every) (?:single )?{_STS},? (?:an? |1 |one |we |work |make )*"
    r"(?P<how>inc|dec)(?:reas(?:e|es|ing)|s)?\b",
    re.I,
)
# "repeat from * to * for the whole round"
_WHOLE_ROUND = re.compile(r"\b(?:for|over|along|in) the (?:whole|entire) (?:(?:round|rnd)|(?P<row>row))\b", re.I)
# "repeat *-* the rnd out", "repeat from * for the rest of the round"
_ROUND_OUT = re.compile(
    r"(?:(?<=[*)\]]) ?|\b)(?:\* ?- ?\* )?\bthe (?:(?:whole|entire) )?(?:(?:round|rnd)|(?P<row>row)) out\b|"
    r"(?P<rep>\brep(?:eat)?\b[^.,;\n]{0,14} )for the (?:rest|remainder) of the (?:(?:round|rnd)|(?P<row2>row))\b",
    re.I,
)
# "18 again, this is the band": as many as there are
_AGAIN = re.compile(
    r"^(?P<n>[^\w\n]{0,3}(?:(?:and|now) )?\d{1,3})(?P<again>,? (?:(?:all |still )?the same )?"
    r"(?:again|once more|as before)(?:,? (?:this|that|it|these|no|nice|and that|as)\b[^\d()\[\]\n]{0,60})?)"
    r"(?=\s*(?:[.(\[=]|$))",
    re.I,
)
# "6 sc in magic circle (or ch 2 and 6 sc in the 2nd ch)": another way to do the same, for no other size
_OR = r"(?:or|alternatively|if you (?:prefer|like|want)|instead)\b[,:]?"
_OF_OTHERS = r"[^()\[\]]*\b(?:sizes?|small|medium|large|round|rnd|row)\b"
_OTHER_WAY = re.compile(
    rf"[(\[](?:or )?{_OR} (?=[^()\[\]]*[a-z]{{2}})(?!{_OF_OTHERS})(?!\d{{1,4}} ?(?:sts?\b|[)\]]))"
    r"[^()\[\]\n]{2,90}[)\]]|"
    r"(?P<into>\b(?:ring|mr|circle|loop)),? or (?:(?:use|work|start with|begin with) )?(?:ch(?:ain)? ?2|2 ch)\b"
    r"[^.;()\[\]\n]{0,60}",
    re.I,
)
# "taking only the back strand"
_STRAND = re.compile(
    r",? (?:taking|catching|grabbing|picking up)(?: up)?(?: only| just)? the (?P<side>back|front)(?: one)?"
    r"(?: (?:strand|loop|thread)s?)?(?: only)?\b",
    re.I,
)
# "9 x 2 sts together"
_SO_MANY_TOGETHER = re.compile(r"\b(?P<n>\d{1,3}) ?x ?(?:2|two) (?:sts|stitches|sc) (?:crocheted )?together\b", re.I)
# "we do not increase, 18 sc in every row"
_NOT_SHAPED = re.compile(
    rf"^\s*(?:here |now )?(?:we |you )?(?:do not|don't) (?:inc|dec)(?:rease)?(?: (?:or|and) (?:inc|dec)(?:rease)?)?"
    rf"[,:;.] ?(?:just |only )?(?=(?:\d{{1,3}} )?{_PLAIN}\b)",
    re.I,
)
# "sc around. That's 3 rounds.", "You now have 3 rounds.", "4 rounds done!": what has been worked, and no more of them
# "you're putting six single crochets into ...", "it's one single crochet, ...": said in front of the work
SAID = re.compile(
    r"\s*(?:(?:so|now|then|and|okay|here),? ){0,2}(?:(?:you|we)(?:'re| are)|it's|it is|that's|this is|this one's|i'm)"
    r"(?: (?:just|simply|going to|gonna|only|again|all|still))*"
    r"(?: (?:putting|doing|working|making|crocheting|work|put|do|make|crochet))?"
    rf"(?= (?:\d|an? (?:inc|dec)|(?:just )?(?:{'|'.join(NUMBER_WORDS)}) (?!of |more )|(?:in )?(?:back|front)|"
    r"sc\b|[hd]?dc\b|h?tr\b|single|double|half|inc|dec|plain))",
    re.I,
)
# "decrease, decrease, decrease, six of them": so many, the first of them shown
_SHOWN = re.compile(
    r"\b(?P<how>dec|inc)(?:rease)?s?(?:,? (?:and )?(?P=how)(?:rease)?s?){1,5},? (?:and so on,? )?(?:that's )?"
    rf"(?P<n>\d{{1,2}}|{'|'.join(NUMBER_WORDS)}) of (?:them|those|these)(?: in all)?\b",
    re.I,
)
# "Miss the first chain nearest the hook": which one "first" says as well
_NEAREST = re.compile(
    r"(?P<first>\b(?:first|1st) (?:ch(?:ain)?|st(?:itch)?)) (?:nearest|next|closest)(?: to)? (?:the |your )?hook\b",
    re.I,
)
# "1 chain to come up, ...": what the chain at the start of a row is for
_COME_UP = re.compile(
    r"(?P<ch>\bch(?:ain)? ?\d|\d ch(?:ain)?s?) (?:to (?:come|go|climb) up|for (?:the )?height)\b", re.I
)
_DOUBLE_UP = re.compile(r"\bdouble up (?=(?:every|each|all)\b)", re.I)
# "6 sc in a ring and increase 6 stitches in every round:": of the rounds below it, and not of this one
_FROM_HERE = re.compile(
    r"(?:(?<=ring)|(?<=circle)|(?<=mr)),? and (?:then )?(?:inc|dec)rease (?:by )?\d{1,2} (?:sts? |stitches )?"
    r"(?:in )?(?:each|every) (?:round|rnd|row)\W*$",
    re.I,
)
# "Continue in sc without increasing for 3 rounds"
_PLAINLY = re.compile(
    r"^\s*(?:now |then )?(?:continue|work|carry on|go on|keep going|crochet)(?: on| working)? "
    r"in (?P<st>sc|[hd]?dc|h?tr|single crochet),? (?:without|with no) (?:any )?(?:more |further )?"
    r"(?:inc|dec|shap)[a-z]*(?: or (?:inc|dec)[a-z]*)?",
    re.I,
)
_THEREAFTER = re.compile(r"\b(?:thereafter|after that|thereupon)(?= (?:\d|one|sc|[hd]?dc|h?tr|inc|dec|work)\b)", re.I)
# "dec 3 times, then sc in the 6 that are left"
_THAT_ARE_LEFT = re.compile(
    rf"\bin (?:each of )?the (?:other |last )?(?P<n>\d{{1,3}}|{'|'.join(NUMBER_WORDS)})(?: (?:sts?|stitches|ones))? "
    r"(?:that (?:are|is) left(?: over)?|which are left|that remain|left over)(?=\W|$)",
    re.I,
)
_SO_MANY_ROUNDS = r"(?:\d{1,3}|two|three|four|five|six|seven|eight|nine|ten) (?:rounds|rnds|rows)"
_SO_FAR = re.compile(
    r"(?:(?<=[.;,!)\]]\s)|(?<=[\dd]\s))(?:(?:so|and|now) )?(?:(?:that's|that is|that makes|this makes|this is|makes|"
    r"you(?:'ve| now| should| will| have){0,3} (?:have|got)(?: now)?) (?:a total of |now )?"
    rf"{_SO_MANY_ROUNDS}(?: (?:in all|in total|altogether|so far|now|done|worked|made))?|"
    rf"{_SO_MANY_ROUNDS} (?:done|so far|worked|finished|in all|in total|altogether))(?=\s*(?:[.;!]|$))",
    re.I,
)
_IN_EVERY_ROUND = re.compile(
    rf"(?P<work>^\s*\d{{1,3}} {_PLAIN}) in (?:each|every) (?:round|rnd|row)(?=\W*$|\s*[(\[=])", re.I
)
# "decrease 6 stitches (2 sc, then 2 together)": so many times what the bracket says
_SO_OFTEN = re.compile(
    r"^(?P<gap>\s*)(?:inc|dec)(?:rease)? (?P<n>\d{1,2}) (?:sts?|stitches|times) (?=\((?:\d{1,2} |one )?"
    r"(?:sc|[hd]?dc|single crochet)[^()]{0,16}\b(?:inc|dec|together|tog|"
    r"in (?:the )?(?:next|same|one|1))\b[^()]{0,12}\))",
    re.I,
)

# "(sc 2, inc), 6": so few are no count of what a bracket of several makes
_OFTEN_BARE = re.compile(
    r"(?<=[)\]]), ?(?P<n>[3-8]|three|four|five|six|seven|eight)(?=[\s.]*(?:[(\[=]\s?\d{1,3}\s?[)\]]?[\s.]*)?$)", re.I
)


_SO_AND_SO = re.compile(r"\b(?:2|3|two|three) (?:and|by|\+|&) (?:2|3|two|three)\b")


def retold(body: str) -> str:
    """The body with what it tells of its round in words as others print it; of the same length."""
    low = body.lower()
    if "), " in low or "], " in low:
        body = _OFTEN_BARE.sub(lambda m: f" x{number_of(m['n'])}".ljust(len(m[0])), body)
    if "all" in low[:16]:
        body = _ALL_IN.sub(lambda m: f"{m['gap']}{m['loops']} all".ljust(len(m[0])), body)
        body = _ALL_OF.sub(lambda m: f"{m['gap']}{m['st']} all".ljust(len(m[0])), body)
    if "every " in low or "each " in low:
        body = _REST_PLAIN.sub(_alternating, body)
        body = _ADORNED.sub(_alternating, body)
    if "every " in low and " tog" in low:
        body = _EVERY_TWO.sub(_by_twos, body)
    if " tog" in low and _SO_AND_SO.search(low):
        body = _TWO_AND_TWO.sub(_by_twos, body)
    if body.count("*") == 1:
        body = _STAR_TIMES.sub(lambda m: m[0][:-1] + "x", body)
    if " * " in body and "rep" not in low:
        body = _TIMES_STAR.sub("x", body)
    if "a/r" in low:
        body = _A_R.sub(lambda m: m["each"] + "   " if m["each"] else "all", body)
    if "'" in low[:16] or " is " in low[:16] or " are " in low[:16]:
        said = SAID.match(body)
        body = " " * said.end() + body[said.end() :] if said is not None else body
    if " of the" in low or " of tho" in low:
        body = _SHOWN.sub(lambda m: f"{number_of(m['n'])} {m['how']}".ljust(len(m[0])), body)
    if " in " in low and (" without " in low or " with no " in low):
        body = _PLAINLY.sub(lambda m: f"{m['st']} around".ljust(len(m[0])), body)
    if "double up" in low:
        body = _DOUBLE_UP.sub("double    ", body)
    if "crease " in low and (" every r" in low or " each r" in low):
        body = _FROM_HERE.sub(lambda m: " " * len(m[0]), body)
    if "hook" in low:
        body = _NEAREST.sub(lambda m: m["first"].ljust(len(m[0])), body)
    if " up" in low or "height" in low:
        body = _COME_UP.sub(lambda m: m["ch"].ljust(len(m[0])), body)
    if "after that" in low or "there" in low:
        body = _THEREAFTER.sub(lambda m: "then".ljust(len(m[0])), body)
    if " left" in low or "that remain" in low:
        body = _THAT_ARE_LEFT.sub(lambda m: f"in next {number_of(m['n'])}".ljust(len(m[0])), body)
    if "rounds" in low or "rows" in low or "rnds" in low:
        body = _SO_FAR.sub(lambda m: " " * len(m[0]), body)
    if " evenly" in low:
        body = _SPREAD.sub(_spread, body)
    if "same " in low:
        body = _SAME_EACH.sub(lambda m: " " * len(m[0]), body)
    if "same" in low[:30]:
        body = _SAME_LEAD.sub(lambda m: " " * len(m[0]), body)
    if "the end" in low:
        body = _KEEP_GOING.sub(lambda m: f"{m['on']} to ".rjust(len(m[0])), body)
    if low.lstrip()[:2] == "in":
        body = _PLACE_FIRST.sub(lambda m: f"{m['gap']}{m['how']} in each".ljust(len(m[0])), body)
    if "whole r" in low or "entire r" in low:
        body = _WHOLE_ROUND.sub(lambda m: ("across" if m["row"] else "around").ljust(len(m[0])), body)
    if "nd out" in low or "ow out" in low or "for the re" in low:
        body = _ROUND_OUT.sub(_as_far, body)
    if low.lstrip("([ ")[:1].isdecimal() or low.startswith(("and ", "now ")):
        body = _AGAIN.sub(lambda m: m["n"].ljust(len(m[0])), body)
    if "or " in low or "if you" in low or "instead" in low or "alternativ" in low:
        body = _OTHER_WAY.sub(lambda m: (m["into"] or "").ljust(len(m[0])), body)
    if "ing " in low and ("back" in low or "front" in low):
        body = _STRAND.sub(lambda m: f" in {m['side']} loop".ljust(len(m[0])), body)
    if "together" in low:
        body = _SO_MANY_TOGETHER.sub(lambda m: f"{m['n']} dec".ljust(len(m[0])), body)
    if "do not " in low or "don't " in low:
        body = _NOT_SHAPED.sub(lambda m: " " * len(m[0]), body)
        body = _IN_EVERY_ROUND.sub(lambda m: m["work"].ljust(len(m[0])), body)
    if "crease" in low and "(" in low:
        body = _SO_OFTEN.sub(lambda m: f"{m['gap']}{m['n']} x".ljust(len(m[0])), body)
    if "left" in low or "remain" in low:
        body = _UNTIL_LEFT.sub(lambda m: m["st"] + _to_last(m["n"]).ljust(len(m["till"])), body)
    if "within" in low:
        body = _WITHIN.sub(lambda m: _to_last(m["n"]).ljust(len(m[0])), body)
    if " last" in low:
        body = _EXCEPT.sub(lambda m: m["behind"] + "except".ljust(len(m["but"])) + " ", body)
    if any(word in low for word in ("last", "left", "remain", "final", "within")):
        body = _THERE.sub(_in_last, body)
        body = _BOTH.sub(lambda m: m["last"] + "dec".ljust(len(m[0]) - len(m["last"])), body)
    if " times" in low:
        first = _TIMES_FIRST.match(body)
        if first is not None and not _OF_TIMES.search(body, first.end()):
            body = f"{first['n']}:".ljust(first.end()) + body[first.end() :]
        body = _REPEATED.sub(lambda m: m["and"] + "repeat".ljust(len(m[0]) - len(m["and"])), body)
    if (" inc" in low or " dec" in low) and ("round" in low or "rnd" in low or "row" in low):
        body = _PER_ROUND.sub(_evenly, body)
    return body


def _to_last(n: str) -> str:
    many = number_of(n)
    return f"to last {many} st{'s' if many > 1 else ''}"


def _as_far(match: re.Match[str]) -> str:
    """ "repeat *-* the rnd out" -> "repeat *-* around"."""
    far = "across" if match["row"] or match["row2"] else "around"
    return f"{match['rep'] or ' '}{far}".ljust(len(match[0]))


def _by_twos(match: re.Match[str]) -> str:
    """ "crochet 2 and 2 sc together" -> "dec around"."""
    how = "sc3tog" if match["n"].lower() in ("3", "three") else "dec"
    return f"{match['gap']}{how} around".ljust(len(match[0]))


def _in_last(match: re.Match[str]) -> str:
    """ "inc in it" -> "inc"; "3 sc in it" -> "3 sc in st"."""
    work = match["shape"] or f"{match['many']} in st"
    return (match["last"] + work).ljust(len(match[0]))


def _alternating(match: re.Match[str]) -> str:
    """ "fpdc in every third st, sc in the rest" -> "(2 sc, fpdc) around"."""
    told = match["nth"].lower()
    n = int(told) if told.isdecimal() else _MANIETH[told]
    return f"{match['gap']}({n - 1} {match['plain']}, {match['st']}) around".ljust(len(match[0]))


def _spread(match: re.Match[str]) -> str:
    told = f"{match['how'].lower()} {number_of(match['n'])} evenly"
    long = f"{match['gap']}{match['st']} around, {told}"
    if len(long) > len(match[0]) and match["st"].lower() not in ("sc", "dc"):
        return match[0]
    return (long if len(long) <= len(match[0]) else match["gap"] + told).ljust(len(match[0]))


def _evenly(match: re.Match[str]) -> str:
    """ "sc, 1 inc per round" -> so many of them on the way."""
    how, n = match["how"] or match["how2"], match["n"] or match["n2"]
    told = f"{how.lower()} {1 if n.lower() in ('a', 'an') else number_of(n)} evenly"
    return told.ljust(len(match[0]))
