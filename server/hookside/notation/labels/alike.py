"""Rounds that a sentence makes of the one before it: "Do this round four times", "and the same for two further rounds".

And how far such a sentence goes by a number: "Do rounds 5 and 6 the same", "Work like this up to round 9".
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.notation.labels import references
from hookside.notation.labels.patterns import COURSE

_N = rf"\d{{1,2}}|one|{references.SMALL}|twice|once"
_ROUNDS = r"(?:rounds?|rnds?|rows?)"
_IN_ALL = r"(?: (?:in (?:all|total)|altogether))?"
_ENDS = r"(?=\s*(?:[.,;()\[=]|- ?\d|$))"
_TOLD = re.compile(
    rf"[\s,;.!(-]{{0,8}}(?<![a-z])(?:and |then |now )*(?:"
    rf"(?:(?:do|work|make|crochet) |(?:(?<=[,;.!(-])|(?<=[,;.!(-] ))(?=this {_ROUNDS}))"
    rf"(?P<what>(?:this|that|it)(?: {_ROUNDS})?) "
    rf"(?:(?P<in_all>{_N}) times|(?P<twice>twice)){_IN_ALL}|"
    rf"(?:and )?(?:do |work |make )?(?:exactly )?the same (?:again )?(?:for|in|over) (?:the (?:next )?)?"
    rf"(?P<more>{_N}) (?:further |more |other |following )?{_ROUNDS}|"
    # "and again for R5, R6 and R7", "same again for R5-7", "and the same for rounds 5 to 7"
    rf"(?:and )?(?:do |work |make )?(?:(?:exactly )?(?:the )?same(?: again)?|(?<!it )(?<!th[ai][st] )again|likewise) "
    rf"(?:for|in|on) (?:{COURSE}s?\.? ?)?"
    rf"(?:\d{{1,3}} ?(?:-|to|through|,|and|&|, and) ?(?:{COURSE}\.? ?)?){{0,6}}(?<=[a-z &,.-])(?P<also>\d{{1,3}})|"
    r"(?:work|continue|go on|carry on|keep on|keep going)(?: on)? "
    r"(?:like (?:this|that)|(?:in )?(?:this|the same) (?:way|manner)|so),?"
    rf" (?:up )?(?:to|until|till|through)(?: and including)?(?: the end of)? {COURSE} ?(?P<onto>\d{{1,3}})|"
    rf"(?:repeat|rep|do|work) (?:this|that|it)(?: {_ROUNDS})? (?:until|till) (?:there are|you(?: have|'ve))"
    rf"(?: worked| made| got| done)? (?P<such>{_N}) (?:such |of (?:these|those|them)|"
    rf"{_ROUNDS} (?:of \d{{1,3}}(?: (?:sts?|stitches|sc|dc))?|like (?:this|that|it)|alike))(?: {_ROUNDS})?|"
    rf"(?:do|work|make|crochet) {COURSE}s? ?(?:\d{{1,3}} ?(?:and|to|-|&|,) ?)?(?P<upto>\d{{1,3}}) (?:exactly )?"
    rf"(?:in )?(?:the same(?: way)?|alike|likewise|like (?:this|that))){_ENDS}",
    re.I,
)
# Behind the count of a plain round, where a group in brackets could not be what is told
_BEHIND_COUNT = re.compile(
    rf"[)\]](?:\s*[x*] ?(?P<in_all>\d{{1,2}})(?P<on> more(?: times| {_ROUNDS})?)?|"
    rf"[\s,;.-]+(?P<more>{_N}) more (?:times|of (?:these|those|this)|(?:such )?{_ROUNDS}))\W*$",
    re.I,
)
# no bracket in front: "(1 sc, 2 sc) x 6" is a list, whose 2 is no count
_PLAIN = re.compile(
    r"[^\w(\[{]*(?:(?:in )?[bf]lo\b[ ,:-]*)?(?:(?:all |only )?(?:in|of|with) )?"
    r"(?:(?:each|every|\d{1,3}) )?(?:sc|[hd]?dc|h?tr)"
    r"(?: in (?:each|every|all)(?: sts?| stitch(?:es)?| sc)?)?(?: (?:all )?(?:a?round|across))?\s*"
    r"(?:[(\[{=,;-]+\s*\d{1,4}(?: ?(?:sts?|stitches|sc|dc))?\s*[)\]}]?\W*)?",
    re.I,
)
# "sc around. Then once more.", "And again!", "Twice." behind a round that goes all the way, and nothing behind it
_ONCE_MORE = re.compile(
    rf"(?:[.;,!(-] ?|[\s,;.!(-]*\n\s*)(?:and |then |now |do |work |make |it |this |that |the |same |for )*(?:"
    rf"(?:(?:repeat|rep) (?:it |this |that )?)?(?P<more>{_N}) more(?: times?| {_ROUNDS})?|"
    rf"(?P<again>again)|(?:repeat|rep)(?: it| this| that)?,? "
    rf"(?P<repeat>(?:{_N})(?: times)?)|(?P<times>twice|(?:\d{{1,2}}|{references.SMALL}) times))[\s.!)]*$",
    re.I,
)
_ALL_THE_WAY = re.compile(r"\b(?:a?round|across|each|every|all)\b|[)\]][\s.]*$", re.I)
_HINT = re.compile(
    r"[utsalwmUTSALWM](?<!\w.)(?i:(?<=u)ntil|(?<=t)(?:ill|imes|wice)|(?<=s)(?:ame|o)|(?<=a)(?:like|gain)|(?<=l)ike(?:wise)?|"
    r"(?<=w)ay|(?<=m)anner)\b"
)
_WORDS = ("this", "that", "it ", "same", "alike", "like", " so", "again for")  # in all that may be told so
_LONGEST_LINE = 40  # letters
_LONGEST_AGAIN = 120  # ... of the last sentence of a body, with any of the words that lead to it
_LAST_WORDS = ("more", "again", "once", "twice", "times", "round", "rnd", "row")
_ANYTHING = ("this", "that", "it")
_ON_TO = re.compile(
    rf"\W*(?:now |then |and )*(?:work|continue|go on|carry on|keep going|keep on|crochet)(?: on)?(?: working)?,?"
    r"(?: (?:straight|even(?:ly)?|plain))?(?: (?:like (?:this|that)|(?:in )?(?:this|the same) (?:way|manner)|so|"
    rf"straight|even(?:ly)?|plain))?,? (?:up )?(?:to|until|till|through)(?: and including)?(?: the end of)?"
    rf" {COURSE} ?(?P<upto>\d{{1,3}})(?: inclusive)?(?: is (?:done|made|worked))?\W*",
    re.I,
)


@dataclass(frozen=True, slots=True)
class Alike:
    """So many courses in all with the one that is told, or up to the one of that number; where the words stand."""

    n: int
    upto: int
    start: int
    end: int
    or_more: bool = False  # it may as well be one more of them
    in_all: bool = False  # ... though so many in all are the likelier


def told(body: str) -> Alike | None:
    """What a sentence behind a body says of the courses alike; None where none does."""
    low = body.lower()
    match = _TOLD.search(body) if any(word in low for word in _WORDS) and _HINT.search(body) else None
    if match is not None and match["what"] in _ANYTHING and not _PLAIN.fullmatch(body, 0, match.start()):
        match = None  # "2 sc in the next stitch, sc in the next. Do this six times": within the round
    if match is not None and match.start():
        upto = match["upto"] or match["onto"] or match["also"]
        if upto:
            return Alike(0, int(upto), *match.span())
        n = references.small(match["in_all"] or match["twice"] or match["such"] or match["more"])
        below = match["what"] in _ANYTHING and "\n" in match[0]  # on a line of its own
        below = below and not match[0].lower().endswith(("all", "total", "altogether"))
        return Alike(n + bool(match["more"]), 0, *match.span(), below, below)
    behind = _BEHIND_COUNT.search(body)
    if behind is not None and _PLAIN.fullmatch(body, 0, behind.start() + 1):
        n = references.small(behind["in_all"] or behind["more"])
        return Alike(n + bool(behind["more"] or behind["on"]), 0, behind.start() + 1, behind.end())
    return _once_more(body)


_DO_THIS = re.compile(
    r"(?:and )?(?:(?:you|now|then) )?(?:do|work|repeat) (?:(?:all )?(?:of )?(?:this|that|it|these)) "
    rf"(?:(?:{_N}) times|twice)(?: in all| in total| altogether| around)?\s*[.!]?",
    re.I,
)
_SHAPED_LIST = re.compile(r"\b(?:inc|dec)|\btog(?:ether)?\b|\b(?:2|two|3|three) (?:sc|dc|sts?) in", re.I)
_REPEATED = re.compile(r"\b(?:rep|repeat|times|around|each|every|all|twice)\b|[x*] ?\d|\d ?x\b|[(\[=] ?\d+", re.I)


def told_below(body: str, line: str) -> bool:
    """ "Do this three times.", "Once more." on a line of its own below a plain round, or a list that shapes once."""
    if _DO_THIS.fullmatch(line) and _SHAPED_LIST.search(body) and not _REPEATED.search(body):
        return True
    if len(line) > _LONGEST_LINE or not line.rstrip(" .!)")[-10:].lower().endswith((*_LAST_WORDS, "all", "total")):
        return False
    alike = told(f"{body}\n{line}") if _PLAIN.fullmatch(body) and _ALL_THE_WAY.search(body) else None
    ends = len(body) + len(line.rstrip(" .!"))
    return alike is not None and alike.start >= len(body.rstrip(" .!")) and alike.end >= ends


def _once_more(body: str) -> Alike | None:
    """Of a round that goes all the way: in "sc 6. Then once more." it is the amount."""
    ends = body.rstrip(" .!)")[-7:].lower()
    near = max(0, len(body) - _LONGEST_AGAIN)
    match = _ONCE_MORE.search(body, near) if any(word in ends for word in _LAST_WORDS) else None
    if match is None or not _PLAIN.fullmatch(body, 0, match.start()):
        return None
    if not _ALL_THE_WAY.search(body, 0, match.start()):
        return None
    if match["more"] or match["again"]:
        return Alike(references.small(match["more"] or "one") + 1, 0, *match.span())
    n = references.small((match["repeat"] or match["times"]).removesuffix(" times"))
    return Alike(n, 0, *match.span(), or_more=True, in_all=bool(match["times"]))


def plain(body: str, end: int) -> bool:
    """Is all that stands before `end` a plain round and its count?"""
    return _PLAIN.fullmatch(body, 0, end) is not None


def on_to(sentence: str) -> int:
    """ "Work like this up to and including round 9." -> 9; 0 for any other sentence."""
    match = _ON_TO.fullmatch(sentence)
    return int(match["upto"]) if match is not None else 0
