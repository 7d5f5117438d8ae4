"""All that stands before it once more, told in words of any kind -> "repeat" as others print it, in as many letters.

"sc, dec; keep going all round" is "sc, dec; repeat around", "sc 4, inc, and do the same twice more" is repeated
twice more. What a hand that talks says beside such a round is told here as well: "for this round you ...", "no
increases this time".
"""

from __future__ import annotations

import re

from hookside.notation.bodies.rewordings import Rewording, reworded
from hookside.notation.vocabulary import COPIES

_N = COPIES
_STS = r"(?:sts?|stitch(?:es)?|sc|[hd]?dc)"
_END = r"(?=\s*(?:[.!;)]?\s*(?:[(\[=]|- ?\d)|[.!)]?\s*$))"
_BACK = (
    r"(?:until|till) (?:you|we|it)(?:'re| are|'ve| have)?(?: (?:get|got|gone|come|are|been|reach|arrive|meet|all|"
    r"the way|right|back|again|once|round|around|to|at|up|your|the|first|st|stitch|marker|start|beginning|again)){1,9}"
)
_FAR = (
    r"(?:all (?:the way )?a?round|the whole (?:way|round|way a?round)|a?round(?: and a?round)?|all the way|"
    rf"(?:to|until|till) (?:the end|you(?:'re| are) (?:done|back))(?: of (?:the |this )?(?:round|rnd))?|{_BACK})"
)
_ALIKE = (
    r"(?:like (?:this|that)|(?:in )?th(?:is|at) way|so|(?:in )?the same(?: way| thing)?|this|that|it|"
    rf"(?:those|these|the)(?: same)?(?: {_N})? (?:steps|stitches|sts|moves))"
)
_AND = r"(?:(?:[,;.:-] ?|\b(?=and |then ))(?:(?:and|then|just|simply|you|we|now|so) ){0,3})"
# "..., keep going all round", "... and carry on like that", "you keep repeating those two steps to the end"
_KEEP = re.compile(
    rf"(?P<and>{_AND})(?:keep|carry|go|continue)(?:s|ing)?(?: (?:on|going|repeating|doing|working))*"
    rf"(?:(?: {_ALIKE})(?:,? {_FAR})?|,? {_FAR}){_END}",
    re.I,
)
_GOES_FAR = re.compile(r"\b(?:a?round|across|each|every|ring|circle|loop|mr|repeat|rep)\b", re.I)
# "... and do the same thing two more times", "(do that six times)"
_SAME_THING = (
    rf"{_AND}(?:do|work|make|repeat) (?:exactly )?(?:the (?:whole thing|lot|same(?: thing)?)|all (?:of )?(?:this|that))"
    rf"(?: again)? (?P<more>{_N}(?: more)? times|(?P<also>again|twice more|once more)){_END}"
)
# "..., then do the same again for the other side", "..., and again twice"
_ONCE_MORE = (
    rf"{_AND}(?:(?:do|work|make|repeat) )?(?:(?:exactly )?the same(?: thing)?(?: again)? (?:for|on|over|along) "
    rf"the other (?:side|half)|again (?P<n>twice|{_N} times))(?: more)?{_END}"
)
_OVER_AND_OVER = rf",? (?:and )?over and over(?: again)?(?:,? {_FAR})?{_END}"
_BRACKETED = (
    rf"[,;]? ?[(\[](?:and )?(?:you )?(?:do|work|make|repeat) (?:all )?(?:this|that|it|so) (?P<n>{_N} times|twice)"
    rf"(?: in all| altogether)?[)\]]{_END}"
)
# "until you get back to your marker", "until you've gone all the way round": behind a stitch or a repeat
_TO_MARKER = rf"(?P<work>\b(?:each|every|all|repeat|rep|beginning|beg|start)(?: {_STS})?|\*),? {_BACK}{_END}"
# "for this round you sc 2": said in front of the work
_THIS_ROUND = (
    r"^\s*(?:for|in|on) this (?:round|rnd|row|one)[,:]? (?:(?:you|we|i)(?:'ll| will| are going to)? )?"
    r"(?:(?:just|simply|work) )?(?=\d|sc\b|[hd]?dc\b|inc|dec|single|\(|\[|\*)"
)
_SHAPINGS = r"(?:inc(?:reas(?:e|es|ing)|s)?|dec(?:reas(?:e|es|ing)|s)?|shaping)"
_NO_SHAPING = (
    rf"(?P<work>\b(?:each|every|all|around|round)(?: (?:single )?{_STS})?(?: a?round)?)(?:,| -| \() ?"
    rf"(?:and |so |with )?no (?:more )?{_SHAPINGS}(?: (?:or|and) {_SHAPINGS})?"
    rf"(?: (?:this time|here|at all|now|in this one|today|yet))*\)?{_END}"
)
# "work the next 2 as one", "knock two sts into one": with any verb, a decrease
_AS_ONE = (
    r"\b(?:(?:work|crochet|take|sc|treat|catch|hook|knock|squash|squeeze|turn|make|join|pull) )?(?:the )?(?:next )?"
    r"(?P<n>2|two|3|three)(?: next)?(?: (?:sts|stitches|of them))? "
    r"(?:as (?:if (?:they were )?|though (?:they were )?)?|(?:(?<=sts )|(?<=stitches )|(?<=next two )|(?<=next 2 ))"
    r"(?:into |in ))(?:one|1|a single one)"
    r"(?: st(?:itch)?)?(?=\s*(?:[,.;:)(\]\[*]|- |and\b|then\b|x ?\d|$))"
)
# "6 x work 2 st together": one stitch of the plural
_TIMES_TOGETHER = (
    rf"(?P<n>(?<![\d.]){_N} ?[x*])\s+(?:(?:work|take|crochet|sc) )?(?:2|two) (?:sts?|stitch(?:es)?) "
    r"(?:tog|together)\b"
)
# "inc in every other stitch, starting with a plain sc"
_OTHER_LED = (
    rf"^(?P<gap>\s*)(?P<how>inc|dec)(?:rease)?s? (?:in |into )?every other {_STS},? (?:but )?(?:start|begin)(?:n?ing)? "
    rf"with (?:a|an|one|1|the) (?:(?P<plain>(?:plain )?(?:sc|st|stitch|one)|plain one)|(?:inc|dec)(?:rease)?){_END}"
)

# "Decrease round: ...", "Work even: ...": what the round is called, in front of its work
_CALLED = (
    r"^\s*(?:(?:(?:inc|dec)(?:rease)?|plain|even) (?:round|rnd|row)|work (?:even|plain|straight))\s*[:-] ?"
    r"(?=(?:an? )?(?:\d|sc\b|[hd]?dc\b|single|\(|\[|\*|work|one))"
)
# "2 sc in each of the next 6 stitches for the cheeks, ...", "(that's 6 decreases)": what some of it is
_WHAT_FOR = (
    r"(?P<work>\d (?:sts|stitches|sc))(?: \((?:that's|that is|this is|=) \d{1,2} (?:decreases|increases|dec|inc)\))?"
    r"(?: for (?:the|his|her|its|your) [a-z]{3,12}(?=\s*[,;.])|(?<=\)))"
)
# "decrease over the next 12 stitches": two by two
_TWO_BY_TWO = (
    r"\bdecreas(?:e|ing) (?:over|across|along) the (?:next|last|first) (?P<n>\d{1,2}[02468]|[2468]) "
    r"(?:sts|stitches)\b"
)
_OTHERS = r"(?P<far>[)\]] ?(?:over|across|along)) the (?:other|last|remaining) (?P<n>\d{1,3})\b"
# "Work all 12 stitches in the back loops only."
_ALL_IN_LOOPS = (
    r"^(?P<gap>\s*)(?:work|crochet|sc) all (?:the |of the )?(?:\d{1,3} )?(?:sts|stitches) (?:in|into|through) (?:the )?"
    rf"(?P<side>back|front) loops?(?: only)?{_END}"
)
# "next round in the back loops only (12)", "front loops this time (12)": the loops, and no more
_BESIDE_LOOPS = (
    r"(?:(?:and|then|now|the|this|that|next|another|an?|one|last|first|round|rnd|row|for|of|work(?:ed|ing)?|do|goes?|it|"
    r"is|on|all|only|just|time|again|around|plain|straight|even|in|into|through)\b[\s,:.-]{0,3}){0,8}"
)
_ONLY_LOOPS = (
    rf"^(?P<gap>\s*){_BESIDE_LOOPS}(?:(?P<side>back|front)(?: (?:loops?|lps?))?|(?P<short>[bf])lo)\b\s*{_BESIDE_LOOPS}"
    r"(?=[(\[=-] ?\d{1,3}\b[^\d]{0,12}$)"
)
# "ch 1, plain, turn", "no increases; sl st in first st": a round in a word, between what begins and what ends it
_EVEN_WORD = (
    r"(?:plain(?: (?:round|rnd|row|all (?:a|the way )?round|around|across))?|"
    r"no (?:more )?(?:inc|dec|increas|decreas)\w*|no (?:shaping|changes?)|straight)"
)
_TO_BEGIN = r"(?:(?:turn[,.;] ?)?ch ?1(?:[,.;]? ?turn)?[,.;] ?)"
_TO_END = r"(?=\s*[,;.] ?(?:join|sl st|slip st|ss\b|ch ?1|turn))"
_PLAIN_BETWEEN = (
    rf"^(?P<gap>\s*)(?:(?P<first>{_TO_BEGIN}){_EVEN_WORD}(?=\s*(?:[,;.=(\[{{<]|-+>? ?\d|-+ ?(?:turn|join)|\d|$))|"
    rf"{_EVEN_WORD}(?:{_TO_END}|(?=\s*[{{<])))"
)
# "each st sc twice": two in each, and no two rounds
_EACH_TWICE = (
    r"^(?P<gap>\s*(?:ch ?1, )?)(?:in )?(?:each|every) (?:sts?|stitch),? (?P<st>sc|[hd]?dc|h?tr|single crochet|"
    r"double crochet) (?:twice|two times|2 times|2x)\b"
)
# "..., join, ch 1 20 sts": what is chained for the next round, and the count behind it
_CHAIN_AND_COUNT = (
    r"(?P<chain>[,;.] ?ch ?[123]) (?P<n>\d{1,4} ?(?:sts?|stitches)\b(?: (?:in all|in total|total|now))?\W*)$"
)
# "plain round 12 in all", "(sc, inc) x6 18 in all": the count behind what says how far or how often
_IN_ALL = (
    r"(?<=[a-z0-9)\]}*])(?<!\bsc)(?<!dc)(?<!tr)(?<!\bch)(?<!\bof)(?<!\bx)(?<!\bmr)(?<!\bring)(?<!inc)(?<!dec)(?<!\bwork)"
    r" (?P<n>\d{1,4}) in (?:all|total)\W*$"
)
_ANY_PLAIN = r"(?:sc|[hd]?dc|h?tr|(?:half )?(?:single|double|treble) crochet)"
# "..., join, that's 30", "..., sl st to join, for 16 sts": the count behind what ends the round
_JOINED_AND_COUNT = (
    r"(?P<join>[,;.] ?(?:(?:sl ?st|slip stitch|ss)(?: (?:to|in|into) [a-z0-9 ]{1,20}?)?|"
    r"join(?: with (?:sl ?st|ss))?)),?\s+"
    r"(?:that's|thats|that is|for|makes|making|to get)\s+(?P<n>\d{1,4}(?:\s*(?:sts?|stitches))?)(?=\W*$|\s+-\s|\s*[(;])"
)
# "sc for 4 sts, make an inc": over so many
_FOR_STS = (
    rf"(?<!\d )(?<!\d)\b(?P<st>{_ANY_PLAIN}) for (?P<n>\d{{1,3}} (?:sts|stitches))"
    r"(?=\s*(?:[,;/+)\]}-]|and\b|then\b))"
)
# "inc x 5, last 3 sc": the last three are so
_LAST_SO_MANY = (
    rf"(?P<sep>(?:[,;/+-] ?|\bthen )(?:and )?)last (?P<n>\d{{1,3}}) (?P<st>{_ANY_PLAIN})"
    r"(?=\s*(?:[.,;(\[{=-]|$))"
)
# "dec x 5, sc last 3"
_IN_LAST = rf"(?P<sep>[,;/+-] ?|\bthen )(?P<st>{_ANY_PLAIN}) last (?P<n>\d{{1,3}})(?=\s*(?:[.,;(\[{{=-]|_|$))"
# "repeat *3 sc, dec* around", "2 sc, repeat *3 sc, dec* 4 times": the stars and how far or often say it. A star with
# how often behind it ("rep * 3 times, *...") or a way to another ("repeat * to *") opens nothing
_OFTEN = rf"(?:for )?(?:{_N} ?(?:times\b|x\b(?! ?[a-z]))|twice|thrice|x ?\d)"
_LED_STARS = (
    r"(?P<lead>\A\s*|[,;/+.-] ?(?:then |and )?)rep(?:eat)? "
    rf"(?=\*(?!\s*(?:to\b|and\b|until\b|a?round\b|across\b|{_OFTEN}))[^*]{{3,80}}\*,? ?"
    rf"(?:(?:all |rep )?(?:a?round|across|to)\b|{_OFTEN}))"
)
# "sc to the end of the round 14 sts": the count behind what says how far
_END_AND_COUNT = (
    r"(?P<far>\b(?:to (?:the )?end(?: of (?:the )?(?:round|rnd|row))?|a?round|across)) "
    r"(?P<n>\d{1,4}) ?(?:sts|stitches)\W*$"
)
# "MR x 6, join"
_RING_TIMES = r"\A(?P<ring>\s*(?:mr|mc|magic (?:ring|circle|loop))) x (?P<n>\d{1,2})(?=\s*(?:[.,;(\[{=|#*-]|$))"
_STS_PLAIN = r"^(?P<gap>\s*)(?:work )?(?P<n>\d{1,3}) (?:sts|stitches) plain(?=\s*[,;])"
_TABLE = [
    Rewording(("this r", "this one"), _THIS_ROUND, ""),
    Rewording((" round:", " rnd:", " row:", "work even", "work plain", "work straight"), _CALLED, ""),
    Rewording((" for ", "(that", "(this", "(="), _WHAT_FOR, r"\g<work>"),
    Rewording(("decreas",), _TWO_BY_TWO, lambda m: f"{int(m['n']) // 2} dec"),
    Rewording((" the other", " the last", " the rem"), _OTHERS, lambda m: f"{m['far']} next {m['n']}"),
    Rewording((" all ",), _ALL_IN_LOOPS, lambda m: f"{m['gap']}{m['side'][0]}lo sc around"),
    Rewording(("back ", "front ", "blo", "flo"), _ONLY_LOOPS, lambda m: _in_loops(m)),
    Rewording(("each st", "every st"), _EACH_TWICE, lambda m: f"{m['gap']}2 {m['st']} each st"),
    Rewording((", ch", ". ch", "; ch"), _CHAIN_AND_COUNT, r"\g<chain>=\g<n>"),
    Rewording(("plain", "no ", "straight"), _PLAIN_BETWEEN, lambda m: f"{m['gap']}{m['first'] or ''}1 ea"),
    Rewording((" in all", " in total"), _IN_ALL, r" =\g<n>"),
    Rewording(("join", "sl st", "ss ", "slip"), _JOINED_AND_COUNT, r"\g<join> =\g<n>"),
    Rewording((" for ",), _FOR_STS, r"\g<st> in \g<n>"),
    Rewording(("last ",), _LAST_SO_MANY, r"\g<sep>\g<n> \g<st>"),
    Rewording((" last ",), _IN_LAST, r"\g<sep>\g<st> \g<n>"),
    Rewording(("rep *", "repeat *"), _LED_STARS, r"\g<lead>"),
    Rewording((" sts", " stitches"), _END_AND_COUNT, r"\g<far> =\g<n>"),
    Rewording((" tot.",), r"\((?P<n>\d{1,4}) tot\.\)", r"(\g<n>)"),
    Rewording((" x ",), _RING_TIMES, r"\g<ring> \g<n>"),
    Rewording((" plain",), _STS_PLAIN, lambda m: f"{m['gap']}{m['n']} sc"),
    Rewording(("no ",), _NO_SHAPING, r"\g<work>"),
    Rewording(("one", " 1"), _AS_ONE, lambda m: "dec" if m["n"].lower() in ("2", "two") else "sc3tog"),
    Rewording(("tog",), _TIMES_TOGETHER, lambda m: f"{m['n']} dec"),
    Rewording(("every other",), _OTHER_LED, lambda m: _led(m)),
    Rewording(("until", "till"), _TO_MARKER, lambda m: f"{m['work']} around"),
    Rewording(("same", "whole thing", "the lot", "all of th", "all th"), _SAME_THING, lambda m: _repeat(m, "more")),
    Rewording(("other side", "other half", "again "), _ONCE_MORE, lambda m: f", repeat {_times(m['n'])} more"),
    Rewording(("over and over",), _OVER_AND_OVER, ", repeat around"),
    Rewording(("(do ", "(work ", "(make ", "(repeat ", "[do ", "[repeat "), _BRACKETED, lambda m: _repeat(m, "n")),
]


def once_more(body: str) -> str:
    """The body with what is told of its repeats in words as others print it; of the same length."""
    body = reworded(body, _TABLE)
    low = body.lower()
    kept = _KEEP.search(body) if ("keep" in low or "carr" in low or "go" in low or "continu" in low) else None
    if kept is not None and not _GOES_FAR.search(body, 0, kept.start()):
        body = body[: kept.start()] + ", repeat around".ljust(len(kept[0])) + body[kept.end() :]
    return body


def _in_loops(match: re.Match[str]) -> str:
    """ "next round BLO" -> "blo even"; "BLO" alone has no room for it, and needs none."""
    told = f"{match['gap']}{(match['side'] or match['short'])[0]}lo even "
    return told if len(told) <= len(match[0]) else match[0]


def _repeat(match: re.Match[str], often: str) -> str:
    """ "(do that six times)" -> ", repeat six times"; the number stays where it stood, so that a mend finds it."""
    told = match[often]
    if told.lower() in ("again", "once more", "twice more"):
        return f", repeat {2 if told.lower()[0] == 't' else 1} more"
    return ", repeat ".ljust(match.start(often) - match.start()) + told


def _times(told: str | None) -> str:
    """ "twice", "three times" -> "2", "three"; "1" where nothing is told."""
    if told is None:
        return "1"
    return "2" if told.lower() == "twice" else told.split()[0]


def _led(match: re.Match[str]) -> str:
    """ "inc in every other stitch, starting with a plain one" -> "(sc, inc) around"."""
    how = match["how"].lower()
    return f"{match['gap']}(sc, {how}) around" if match["plain"] else f"{match['gap']}({how}, sc) around"
