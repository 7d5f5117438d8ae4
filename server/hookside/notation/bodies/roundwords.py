"""What one round is, told in words where others print signs -> the same as they print it, in as many letters.

"sc until 2 sts are left, dec" is "sc to last 2 sts, dec"; "2 sc, inc, repeated 6 times" repeats them.
"""

from __future__ import annotations

import re

from hookside.notation.bodies.rewordings import Rewording, reworded
from hookside.notation.page.inwords import N, value
from hookside.notation.vocabulary import AMOUNT, COUNT_WORDS, number_of

_N = AMOUNT
_STS = r"(?:sts?|stitch(?:es)?|sc|[hd]?dc)"
_PLAIN = r"\b(?:sc|[hd]?dc|h?tr|single crochet)"
_ALL = rf"(?: (?:in|into) (?:each|every|all)(?: of the| the)?(?: {_STS})?)?(?: (?:around|across|along|on))?"
_OF_ROUND = r"(?: of (?:the |this )?(?:round|rnd|row))?"
_CLAUSE = r"(?=\s*(?:[.,;:)(\[\]=]|- ?\d|and\b|then\b|$))"
_OF_TIMES = re.compile(
    r"\b(?:around|each|every|rep|repeat\w*|then|times|last|first|rest|and (?:work|do|make)|"
    r"x ?\d)\b",
    re.I,
)
_STS_OF_ALL = r"(?:(?:all )?(?:of )?(?:the )?(?:sts?|stitch(?:es)?|sc|[hd]?dc|single crochets?)\b ?)?"
_MANIETH = {"other": 2, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "eighth": 8, "tenth": 10}
_NTHS = rf"(?:{'|'.join(_MANIETH)}|\d{{1,2}}(?:nd|rd|th))"
_ADORNING = r"(?!(?:inc|dec|inv|\d))[a-z]{2,8}(?: [a-z]{2,8}){0,2}?"
_EVERY_NTH = (
    rf"(?: (?:in|into|around|on))? (?:every|each) (?P<nth>{'|'.join(_MANIETH)}|\d{{1,2}}(?=[nrt][dh]))(?:[nrt][dh])? "
    r"(?:st|stitch|sc|post)(?: (?:around|below))?"
)
_OR = r"(?:or|alternatively|if you (?:prefer|like|want)|instead)\b[,:]?"
_OF_OTHERS = r"[^()\[\]]*\b(?:sizes?|small|medium|large|round|rnd|row)\b"
_SO_MANY_ROUNDS = r"(?:\d{1,3}|two|three|four|five|six|seven|eight|nine|ten) (?:rounds|rnds|rows)"
# "you're putting six single crochets into ...", "it's one single crochet, ...": said in front of the work
SAID = re.compile(
    r"\s*(?:(?:so|now|then|and|okay|here),? ){0,2}(?:(?:you|we)(?:'re| are)|it's|it is|that's|this is|this one's|i'm)"
    r"(?: (?:just|simply|going to|gonna|only|again|all|still))*"
    r"(?: (?:putting|doing|working|making|crocheting|work|put|do|make|crochet))?"
    rf"(?= (?:\d|an? (?:inc|dec)|(?:just )?(?:{COUNT_WORDS}) (?!of |more )|(?:in )?(?:back|front)|"
    r"sc\b|[hd]?dc\b|h?tr\b|single|double|half|inc|dec|plain))",
    re.I,
)


def _to_last(n: str) -> str:
    many = number_of(n)
    return f"to last {many} st{'s' if many > 1 else ''}"


def _until_left(match: re.Match[str]) -> str:
    """ "sc until two stitches are left" -> "sc to last 2 sts"; "sc until 2 left" has room for "sc to last 2" alone."""
    told = match["st"] + _to_last(match["n"])
    return told if len(told) <= len(match[0]) else f"{match['st']}to last {number_of(match['n'])}"


def _repeated(match: re.Match[str]) -> str:
    """ "..., repeated 6 times" -> "..., repeat 6 times"; "done" has room for "rep" alone."""
    told = f"{match['and']}repeat "
    return told if len(told) <= len(match[0]) else f"{match['and']}rep"


def _as_far(match: re.Match[str]) -> str:
    """ "repeat *-* the rnd out" -> "repeat *-* around"."""
    far = "across" if match["row"] or match["row2"] else "around"
    return f"{match['rep'] or ' '}{far}"


def _by_twos(match: re.Match[str]) -> str:
    """ "crochet 2 and 2 sc together" -> "dec around"."""
    how = "sc3tog" if match["n"].lower() in ("3", "three") else "dec"
    return f"{match['gap']}{how} around"


def _in_last(match: re.Match[str]) -> str:
    """ "inc in it" -> "inc"; "3 sc in it" -> "3 sc in st"."""
    work = match["shape"] or f"{match['many']} in st"
    return f"{match['last']}{work}"


def _alternating(match: re.Match[str]) -> str:
    """ "fpdc in every third st, sc in the rest" -> "(2 sc, fpdc) around"."""
    told = match["nth"].lower()
    n = int(told) if told.isdecimal() else _MANIETH[told]
    return f"{match['gap']}({n - 1} {match['plain']}, {match['st']}) around"


def _spread(match: re.Match[str]) -> str:
    told = f"{match['how'].lower()} {number_of(match['n'])} evenly"
    long = f"{match['gap']}{match['st']} around, {told}"
    if len(long) > len(match[0]) and match["st"].lower() not in ("sc", "dc"):
        return match[0]
    return long if len(long) <= len(match[0]) else match["gap"] + told


def _manieth(told: str) -> int:
    """ "third", "3rd", "other" -> 3, 3, 2."""
    return _MANIETH.get(told.lower()) or int(told[:-2])


def _evenly(match: re.Match[str]) -> str:
    """ "sc, 1 inc per round" -> so many of them on the way."""
    how, n = match["how"] or match["how2"], match["n"] or match["n2"]
    return f"{how.lower()} {1 if n.lower() in ('a', 'an') else number_of(n)} evenly"


_TABLE = [
    # "(sc 2, inc), 6": so few are no count of what a bracket of several makes
    Rewording(
        ("), ", "], "),
        r"(?<=[)\]]), ?(?P<n>[3-8]|three|four|five|six|seven|eight)(?=[\s.]*(?:[(\[=]\s?\d{1,3}\s?[)\]]?[\s.]*)?$)",
        lambda m: f" x{number_of(m['n'])}",
    ),
    # "all in back loop -> 48", "all, blo": every stitch there, told before its loops
    Rewording(
        ("all",),
        r"^(?P<gap>\s*)all,? (?P<loops>(?:in |through )?(?:the )?(?:(?:back|front|both) loops?(?: only)?|[bf]lo)\b)"
        r"(?=\s*(?:[.,;(\[=-]|$))",
        r"\g<gap>\g<loops> all",
    ),
    # "all single crochets", "work all dc without increases": the stitch that all of them are, told behind
    Rewording(
        ("all ",),
        r"^(?P<gap>\s*(?:(?:work|crochet|do) )?)all (?:in )?"
        r"(?P<st>(?:half )?(?:single|double|treble)(?: crochets?)?|sc|[hd]?dc|h?tr)\b"
        r"(?:,? (?:without|with no) (?:any )?(?:inc(?:reas\w+|s)?|dec(?:reas\w+|s)?|shaping)\b)?(?=\s*(?:[(\[.=-]|$))",
        r"\g<gap>\g<st> all",
    ),
    # "fpdc in every third st, sc in the rest": a plain stitch in each of those between
    Rewording(
        ("every ", "each "),
        rf"^(?P<gap>\s*)(?P<st>{_ADORNING}){_EVERY_NTH},? (?:and |with |then |work )*"
        rf"(?P<plain>{_PLAIN})(?: (?:in|through) both loops)?(?: (?:in|into|on))?(?: (?:all|each))?(?: of)?(?: the)? "
        rf"(?:rest|others?|remaining|remainder|between|in between|ones between)(?: {_STS})?(?: between)?(?: around)?"
        r"(?=\W*$|\s*[(\[=.-])",
        _alternating,
    ),
    # "sc around with a bobble in every third st"
    Rewording(
        ("every ", "each "),
        rf"^(?P<gap>\s*)(?P<plain>{_PLAIN})(?: around| (?:in|into) (?:each|every) {_STS}(?: around)?),? "
        rf"(?:(?:and|with|but|working|making) )*(?:an? |1 |one )?(?P<st>{_ADORNING}){_EVERY_NTH}(?=\W*$|\s*[(\[=.-])",
        _alternating,
    ),
    # "Work every 2 d.c. tog.", "every two together": each stitch with the one beside it, all the way round
    Rewording(
        ("every ",),
        r"^(?P<gap>\s*)(?:(?:now|then|work|crochet|take|join|knit|sc|dc|single crochet) ){0,2}"
        r"every (?P<n>2|two|3|three) (?:(?:sts?|stitches|sc|dc|[ds]\.c\.|loops) ?)?(?:together\b|tog\b\.?)"
        r"(?:,? (?:all )?(?:the way )?(?:a?round|across|(?:to|until) the end)(?: of the (?:round|row))?)?"
        r"(?=\s*(?:[.,;(\[=-]|$))",
        _by_twos,
    ),
    # "crochet 2 and 2 sc together", "take all the stitches together two by two"
    Rewording(
        ("tog",),
        rf"^(?P<gap>\s*)(?:(?:work|crochet|take|join|knit|always|now) ){{0,3}}{_STS_OF_ALL}"
        rf"(?P<tog>(?:together|tog),? )?(?P<n>2|two|3|three) (?:and|by|\+|&) (?:(?P=n)|two)(?: at a time)?"
        rf" ?{_STS_OF_ALL}(?(tog)|(?:together|tog)\b)"
        r"(?:,? (?:all )?(?:the way )?(?:a?round|across|(?:to|until) the end))?"
        r"(?=\s*(?:[.,;(\[=-]|$))",
        _by_twos,
    ),
    # "sc 2, inc 1, *6": the one star is a cross
    Rewording(
        ("*",),
        r"\A(?P<led>[^*]*[a-z\d], ?)\*(?=[^*]*\Z)(?= ?\d{1,2}(?!\d)(?: ?times)?\W*(?:\d{1,4}\D{0,12})?$)",
        r"\g<led>x",
    ),
    # "5 * inc", "6 * (2sc + inc)"
    Rewording((" * ",), r"(?<=\d )\*(?= (?:\(|[a-z]))", lambda m: m[0] if "rep" in m.string.lower() else "x"),
    # "sc a/r", "sc in ea st a/r": all round
    Rewording(
        ("a/r",),
        r"(?P<each>\b(?:each|ea|every|all)(?: (?:st|sc|dc|stitch))? )?\ba/r\b",
        lambda m: m["each"] or "all",
    ),
    # "it's one single crochet, ...": said in front of the work
    Rewording(("'", " is ", " are "), rf"\A{SAID.pattern}", ""),
    # "decrease, decrease, decrease, six of them": so many, the first of them shown
    Rewording(
        (" of the", " of tho"),
        r"\b(?P<how>dec|inc)(?:rease)?s?(?:,? (?:and )?(?P=how)(?:rease)?s?){1,5},? (?:and so on,? )?(?:that's )?"
        rf"(?P<n>\d{{1,2}}|{COUNT_WORDS}) of (?:them|those|these)(?: in all)?\b",
        lambda m: f"{number_of(m['n'])} {m['how']}",
    ),
    # "Continue in sc without increasing for 3 rounds"
    Rewording(
        (" without ", " with no "),
        r"^\s*(?:now |then )?(?:continue|work|carry on|go on|keep going|crochet)(?: on| working)? "
        r"in (?P<st>sc|[hd]?dc|h?tr|single crochet),? (?:without|with no) (?:any )?(?:more |further )?"
        r"(?:inc|dec|shap)[a-z]*(?: or (?:inc|dec)[a-z]*)?",
        r"\g<st> around",
    ),
    # "double up every one"
    Rewording(("double up",), r"\bdouble up (?=(?:every|each|all)\b)", "double"),
    # "6 sc in a ring and increase 6 stitches in every round:": of the rounds below it, and not of this one
    Rewording(
        ("crease ",),
        r"(?:(?<=ring)|(?<=circle)|(?<=mr)),? and (?:then )?(?:inc|dec)rease (?:by )?\d{1,2} (?:sts? |stitches )?"
        r"(?:in )?(?:each|every) (?:round|rnd|row)\W*$",
        "",
    ),
    # "Miss the first chain nearest the hook": which one "first" says as well
    Rewording(
        ("hook",),
        r"(?P<first>\b(?:first|1st) (?:ch(?:ain)?|st(?:itch)?)) (?:nearest|next|closest)(?: to)? (?:the |your )?hook\b",
        r"\g<first>",
    ),
    # "1 chain to come up, ...": what the chain at the start of a row is for
    Rewording(
        (" up", "height"),
        r"(?P<ch>\bch(?:ain)? ?\d|\d ch(?:ain)?s?) (?:to (?:come|go|climb) up|for (?:the )?height)\b",
        r"\g<ch>",
    ),
    Rewording(
        ("after that", "there"),
        r"\b(?:thereafter|after that|thereupon)(?= (?:\d|one|sc|[hd]?dc|h?tr|inc|dec|work)\b)",
        "then",
    ),
    # "dec 3 times, then sc in the 6 that are left"
    Rewording(
        (" left", "that remain"),
        rf"\bin (?:each of )?the (?:other |last )?(?P<n>\d{{1,3}}|{COUNT_WORDS})(?: (?:sts?|stitches|ones))? "
        r"(?:that (?:are|is) left(?: over)?|which are left|that remain|left over)(?=\W|$)",
        lambda m: f"in next {number_of(m['n'])}",
    ),
    # "sc around. That's 3 rounds.", "4 rounds done!": what has been worked, and no more of them
    Rewording(
        ("rounds", "rows", "rnds"),
        r"(?:(?<=[.;,!)\]]\s)|(?<=[\dd]\s))(?:(?:so|and|now) )?(?:(?:that's|that is|that makes|this makes|this is|"
        r"makes|you(?:'ve| now| should| will| have){0,3} (?:have|got)(?: now)?) (?:a total of |now )?"
        rf"{_SO_MANY_ROUNDS}(?: (?:in all|in total|altogether|so far|now|done|worked|made))?|"
        rf"{_SO_MANY_ROUNDS} (?:done|so far|worked|finished|in all|in total|altogether))(?=\s*(?:[.;!]|$))",
        "",
    ),
    # "you should see twelve", "you'll be seeing eighteen stitches"
    Rewording(
        (" see", " count", " find"),
        r"\b(?:you|we)(?:'ll| will| should| now){0,2} (?:be seeing|see|count|find)(?: now)? "
        rf"(?P<n>{N})(?P<sts> (?:sts?|stitches))?(?=\s*(?:[.,;!]|$))",
        lambda m: f"you have {value(m['n'])}{m['sts'] or ''}",
    ),
    # "crochet each stitch": one in it, as other tongues have it
    Rewording(
        ("crochet ", "work "),
        r"^(?P<gap>\s*)(?:crochet|work) (?P<each>each|every|all)(?P<of> the)? (?P<st>sts?|stitch(?:es)?)"
        r"(?=\s*(?:[.;(\[={<]|$))",
        r"\g<gap>1 in \g<each> \g<st>",
    ),
    # "put six sc in there": into the ring told before it
    Rewording(
        (" there",),
        r"(?P<ring>\b(?:ring|loop|circle|mr|mc)\b[^.;]{0,40}) in(?:to|side)? there(?=\s*(?:[.,;(\[=]|and\b|$))",
        r"\g<ring> in it",
    ),
    # "Sc, increasing 8 evenly": all the way round, with so many of them on the way
    Rewording(
        (" evenly", " spaced"),
        rf"^(?P<gap>\s*)(?:work )?(?P<st>{_PLAIN}),? (?:(?:and|but|with) )?(?P<how>inc|dec)(?:reas(?:e|ing))? (?:by )?"
        r"(?P<n>\d{1,2}|one|two|three|four|five|six|eight|ten|twelve)(?: (?:sts?|stitches|times))?"
        r" (?:evenly|spaced)(?: (?:spaced|spread|around|across|along))?(?=\s*(?:[.,;(\[=]|- ?\d|$))",
        _spread,
    ),
    # "sc in every st, same each time": of each course that the label names
    Rewording(
        ("same ",),
        r",? (?:and |it is |it's )?(?:the )?same (?:thing )?(?:in |for )?(?:each|every) (?:time|round|rnd|row|one)"
        r"(?: of them)?(?=\W*$|[\s,;.]{0,3}[(\[=])",
        "",
    ),
    # "all the same: 1 sc in every stitch": a round that is told in full
    Rewording(
        ("same",),
        rf"^\s*(?:all |still |just |again,? )*(?:the )?same(?: again| as before| here)?: (?=(?:\d{{1,3}} )?{_PLAIN}\b)",
        "",
    ),
    # "1 sc then inc, keep going til the end of the round"
    Rewording(
        ("the end",),
        r"\b(?P<on>keep going|carry on|go on|continue) (?:until|till?) (?=the end\b)",
        lambda m: f"{m['on']} to ".rjust(len(m[0])),
    ),
    # "in each sc increase": the place told first
    Rewording(
        ("in each", "in every", "into each", "into every"),
        rf"^(?P<gap>\s*)in(?:to)? (?:each|every) (?:single )?{_STS},? (?:an? |1 |one |we |work |make )*"
        r"(?P<how>inc|dec)(?:reas(?:e|es|ing)|s)?\b",
        r"\g<gap>\g<how> in each",
    ),
    # "twice in every 2nd", "dc twice in every third": two in each of those
    Rewording(
        ("twice in",),
        rf"^(?P<gap>\s*)(?:(?:sc|[hd]?dc|h?tr) )?twice in(?:to)? (?:every|each) (?P<nth>{_NTHS})(?: {_STS})?(?![a-z])",
        r"\g<gap>inc every \g<nth>",
    ),
    # "miss every 3rd", "skip every fourth stitch": the others are worked
    Rewording(
        ("miss every", "miss each", "skip every", "skip each"),
        rf"^(?P<gap>\s*)(?:miss|skip) (?:every|each) (?P<nth>{_NTHS})(?: (?:{_STS}|d\.c\.))?(?![a-z])",
        lambda m: f"{m['gap']}({_manieth(m['nth']) - 1},sk 1)rep",
    ),
    # "repeat from * to * for the whole round"
    Rewording(
        ("whole r", "entire r"),
        r"\b(?:for|over|along|in) the (?:whole|entire) (?:(?:round|rnd)|(?P<row>row))\b",
        lambda m: "across" if m["row"] else "around",
    ),
    # "repeat *-* the rnd out", "repeat from * for the rest of the round"
    Rewording(
        ("nd out", "ow out", "for the re"),
        r"(?:(?<=[*)\]]) ?|\b)(?:\* ?- ?\* )?\bthe (?:(?:whole|entire) )?(?:(?:round|rnd)|(?P<row>row)) out\b|"
        r"(?P<rep>\brep(?:eat)?\b[^.,;\n]{0,14} )for the (?:rest|remainder) of the (?:(?:round|rnd)|(?P<row2>row))\b",
        _as_far,
    ),
    # "18 again, this is the band": as many as there are
    Rewording(
        ("again", "once more", "as before"),
        r"^(?P<n>(?:[(\[ ]{0,3}|(?:and|now) )\d{1,3})(?P<again>,? (?:(?:all |still )?the same )?"
        r"(?:again|once more|as before)(?:,? (?:this|that|it|these|no|nice|and that|as)\b[^\d()\[\]\n]{0,60})?)"
        r"(?=\s*(?:[.(\[=]|$))",
        r"\g<n>",
    ),
    Rewording(
        ("or ", "or:", "or,", "if you", "instead", "alternativ"),
        rf"[(\[](?:or )?{_OR} (?=[^()\[\]]*[a-z]{{2}})(?!{_OF_OTHERS})(?!\d{{1,4}} ?(?:sts?\b|[)\]]))"
        r"[^()\[\]\n]{2,90}[)\]]|"
        r"(?P<into>\b(?:ring|mr|circle|loop)),? or (?:(?:use|work|start with|begin with) )?(?:ch(?:ain)? ?2|2 ch)\b"
        r"[^.;()\[\]\n]{0,60}",
        lambda m: m["into"] or "",
    ),
    # "taking only the back strand"
    Rewording(
        ("ing ",),
        r",? (?:taking|catching|grabbing|picking up)(?: up)?(?: only| just)? the (?P<side>back|front)(?: one)?"
        r"(?: (?:strand|loop|thread)s?)?(?: only)?\b",
        r" in \g<side> loop",
    ),
    # "9 x 2 sts together"
    Rewording(
        ("together",),
        r"\b(?P<n>\d{1,3}) ?x ?(?:2|two) (?:sts|stitches|sc) (?:crocheted )?together\b",
        r"\g<n> dec",
    ),
    Rewording(
        ("do not ", "don't "),
        rf"(?P<work>^\s*\d{{1,3}} {_PLAIN}) in (?:each|every) (?:round|rnd|row)(?=\W*$|\s*[(\[=])"
        r"(?=[^\n]*\b(?:do not|don't) )",
        r"\g<work>",
    ),
    # "we do not increase, 18 sc in every row"
    Rewording(
        ("do not ", "don't "),
        rf"^(?P<led>\s*(?:here |now )?(?:we |you )?(?:do not|don't) (?:inc|dec)(?:rease)?(?: (?:or|and) (?:inc|dec)"
        rf"(?:rease)?)?[,:;.] ?(?:just |only )?)(?P<work>(?:\d{{1,3}} (?={_PLAIN}\b))?{_PLAIN}\b)"
        r"(?: in (?:each|every) (?:round|rnd|row)(?=\W*$|\s*[(\[=]))?",
        lambda m: " " * len(m["led"]) + m["work"],
    ),
    # "decrease 6 stitches (2 sc, then 2 together)": so many times what the bracket says
    Rewording(
        ("crease",),
        r"^(?P<gap>\s*)(?:inc|dec)(?:rease)? (?P<n>\d{1,2}) (?:sts?|stitches|times) (?=\((?:\d{1,2} |one )?"
        r"(?:sc|[hd]?dc|single crochet)[^()]{0,16}\b(?:inc|dec|together|tog|"
        r"in (?:the )?(?:next|same|one|1))\b[^()]{0,12}\))",
        r"\g<gap>\g<n> x",
    ),
    # "sc until only two stitches are left, dec"; "until 6 sts are left" behind a decrease tells what it comes to
    Rewording(
        ("left", "remain"),
        rf"(?P<st>(?:{_PLAIN}{_ALL},?|[*)\]]) )(?P<till>(?:until|till?)(?: there are| there is| you have| only| just)* "
        rf"(?P<n>{_N})(?: {_STS})? (?:(?:are|is|stays?) )?(?:left|remain\w*)(?: over| un-?worked| free)*)"
        r"(?=\s*(?:[,;]|and\b|then\b))",
        _until_left,
    ),
    # "sc to within 2 sts of the end, dec"
    Rewording(
        ("within",),
        rf"\b(?:up )?to within (?P<n>{_N}) {_STS} of (?:the )?end\b{_OF_ROUND}",
        lambda m: _to_last(m["n"]),
    ),
    # "in all sts apart from the last two"
    Rewording(
        (" last",),
        rf"(?P<behind>\b(?:each|every|all|around|across)(?: of the)?(?: {_STS})?,? )"
        rf"(?P<but>apart from|other than|with the exception of|but not|save for|bar) (?=(?:in |into )?(?:the )?last\b)",
        lambda m: m["behind"] + "except",
    ),
    # "sc to last st, inc in it", "to last 2 sts, sc2tog over those": into what was just kept back
    Rewording(
        ("last", "left", "remain", "final"),
        rf"(?P<last>\b(?:last|left|remain\w*|final)\b[^,;.]{{0,40}}[,;.] ?(?:and |then |now |with )*(?:work )?)"
        rf"(?:(?P<shape>(?:an? |1 |one )?(?:inc(?:rease)?|dec(?:rease)?|invdec|sc2tog))"
        rf"(?: (?:in|into|over|across|on|with|at|of))?|(?P<many>[2-5] {_STS}) (?:in|into))"
        rf" (?:(?:it|this|that|those|these|them)(?: (?:one|two|st|sts|stitch|stitches|last one))?|there){_CLAUSE}",
        _in_last,
    ),
    Rewording(
        ("last",),
        rf"(?P<last>\blast (?:2|two)\b[^,;.]{{0,40}}[,;.] ?(?:and |then |now )*)"
        rf"(?:work|crochet|take|sc|make|join) (?:them|those|these|both|the two)(?: two| both)? "
        rf"(?:together|tog){_CLAUSE}",
        r"\g<last>dec",
    ),
    # "6 times 2 sc, inc": how often, in front of a list that is nothing else
    Rewording(
        (" times",),
        rf"^(?P<n>\s*(?:(?:work|do|make|repeat) )?{_N} times),? (?=(?:\d{{1,2}} ?)?[a-z]+[^()\[\]*:;.\n]*"
        r"(?:[(\[]\s*\d{1,4}[^()\[\]]{0,12}[)\]]|[=-] ?\d{1,4}(?: sts)?)?\s*\.?\s*$)",
        lambda m: m[0] if _OF_TIMES.search(m.string, m.end()) else f"{m['n']}:",
    ),
    # "2 sc, then an increase, repeated 6 times", "2 sc and inc, done six times"
    Rewording(
        (" times",),
        rf"(?P<and>[,;] (?:and )?|\band )(?:all )?"
        rf"(?P<done>repeated|done|worked)(?: in all| altogether)? (?={_N} times\b)",
        _repeated,
    ),
    # "sc, 1 inc per round", "sc around, increasing one st in each round"
    Rewording(
        (" round", " rnd", " row"),
        rf"^(?:(?P<st>\s*{_PLAIN})(?: in (?:each|every) st(?:itch)?)?(?: around)?[,:;]? \(?|"
        r"(?=\W{0,2}(?:inc|dec|\d|one)))"
        r"(?:and |with |plus |adding |making |working )*(?:(?P<n>\d|an?|one|two|three) (?:extra )?(?P<how>inc|dec)"
        r"(?:s|reases?)?|(?P<how2>inc|dec)(?:reas(?:e|ing))? (?:by )?(?P<n2>\d|one|two|three)(?: sts?| stitch(?:es)?)?)"
        r" (?:in |per |for |on |of )?(?:the |each |every |this |a )?(?:single )?(?:round|rnd|row)\)?(?=\W*$|\s*[(\[=])",
        _evenly,
    ),
]



def retold(body: str) -> str:
    """The body with what it tells of its round in words as others print it; of the same length."""
    return reworded(body, _TABLE)
