"""How rounds are worked, told ahead of them: "All rounds in back loops only", "Work the first 3 rounds in hdc".

Loops are kept in mind and worked; what can not be kept in mind is said, so that it is not lost.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Literal, NamedTuple

from hookside.colours import COLOURS
from hookside.notation.courses.waiting import Waiting, in_loops, ringed
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.layout import RawCourse, RawPiece, RawText, sentences
from hookside.notation.vocabulary import NUMBER_WORDS, ORDINAL_WORDS, number_of
from hookside.pattern import Group, Pattern, in_order
from hookside.stitches import by_name

_MOST = 60  # lines that are looked at
_LONGEST = 300  # characters of such a line
_ROLES = ("notes", "section", "story", "make")

_SMALL = "|".join(word for word in NUMBER_WORDS if len(word) > 2)
_NTH = rf"\d{{1,2}}(?:st|nd|rd|th)|{'|'.join(ORDINAL_WORDS)}"
_WHICH = (
    rf"(?:(?P<all>(?:all|every|each)(?: of)?(?: the)?(?: (?:single|one))? (?:{COURSE}|stitch(?:es)?|sts?)(?![a-z])|"
    r"(?:the )?(?:whole|entire) (?:[a-z]{3,9}\b)|everything|throughout|everywhere)|"
    rf"(?:from )(?:the )?{COURSE}\.? ?#?(?P<on>\d{{1,3}})(?: on(?:wards?)?)?|"
    rf"(?:the )?{COURSE}\.? ?#?(?P<first>\d{{1,3}})(?: ?(?:-|to|through|until) ?(?:{COURSE}\.? ?)?(?P<last>\d{{1,3}}))?"
    rf"(?P<more>(?: ?(?:,|and|&) ?(?:{COURSE}\.? ?)?\d{{1,3}}){{0,6}})(?![\w.]?\d)|"
    rf"(?:the )?(?P<end>first|last|final)(?: (?P<many>\d{{1,2}}|{_SMALL}))? {COURSE}(?![a-z])|"
    rf"(?:all |the )*(?P<parity>odd|even)(?:[- ]numbered)? (?:{COURSE}|ones)|"
    rf"every (?P<step>other|2nd|second|3rd|third|4th|fourth) {COURSE}|(?:the )?(?P<nth>{_NTH}) {COURSE}(?![a-z]))"
)
_LOOPS = (
    r"(?:(?:only|just) )?(?:(?:in|into|through|thru|using) )?(?:the )?"
    r"(?:(?P<side>back|front)[ -]?(?:loops?|lps?)|(?P<short>[bf]lo?)\b)(?: only)?"
)
_LEAD = r"\W{0,4}(?:[a-z][a-z ]{2,24}: ?)?(?:(?:please|remember)\b[:,]? )?"
_WORK = r"(?:(?:work(?:ed|ing)?|crochet(?:ed)?|made|make|are|is|be|being|should|to|all|sc|done|go(?:es)?),? ){0,4}"
_TAIL = (
    r"(?:,? (?:unless|except|if not)(?: when| where| it is)?(?: otherwise)?(?: stated| told| noted| said| mentioned| "
    r"indicated| specified| written)?(?: otherwise)?)?\W*"
)
_KEPT = (
    re.compile(rf"{_LEAD}{_WORK}{_WHICH}(?: ?[:,-] ?| ){_WORK}{_LOOPS}{_TAIL}", re.I),
    re.compile(rf"{_LEAD}(?P<all>work|crochet)(?:ed|ing)? {_LOOPS}{_TAIL}", re.I),
    re.compile(rf"{_LEAD}{_WORK}{_LOOPS},? (?:(?:in|for|on|from|at|of) )?{_WHICH}{_TAIL}", re.I),
)
_STITCH = (
    r"(?P<stitch>hdc|half double(?: crochets?)?|htr|sc|single crochets?|dc|double crochets?|tr|trebles?|"
    r"slip stitch(?:es)?|sl st)"
)
_WAYS = re.compile(
    rf"(?P<loops>(?:back|front)[ -]?(?:loops?|lps?)\b|\b[bf]lo\b)|"
    rf"\b(?:in|with|using|are|is) {_STITCH}\b|"
    rf"\b(?P<stop>stop|end|finish) (?:after|at|with|behind) (?:the )?{COURSE}\.? ?\d|"
    rf"\b(?P<shade>{'|'.join(sorted(COLOURS, key=len, reverse=True))})\b",
    re.I,
)
_NAMES = re.compile(_WHICH, re.I)
_HINT = re.compile(r"loops?\b|lps?\b|\b[bf]lo?\b", re.I)

Spans = list[tuple[int, int]]


class Way(NamedTuple):
    """A sentence that tells of rounds; `side` where it is one of loops alone, for the rounds that `those` takes."""

    start: int
    end: int
    piece: int  # in front of whose first course it stands
    general: bool  # ... of the first piece, and names no number: it holds for all of them
    side: Literal["back", "front"] | None
    those: Callable[[list[int]], list[int]]


def ways_told(text: str, roles: list[tuple[int, int, str]], pieces: list[RawPiece]) -> list[Way]:
    """The sentences in front of the first course of a piece that tell how rounds are worked."""
    begins = [next((i.start for i in raw.items if isinstance(i, RawCourse)), None) for raw in pieces]
    ends = [max((i.end for i in raw.items if isinstance(i, RawCourse)), default=0) for raw in pieces]
    found: list[Way] = []
    seen = 0
    for start, end, role in roles:
        if role not in _ROLES or end - start > _LONGEST:
            continue
        at = next((n for n, begin in enumerate(begins) if begin is not None and start < begin), None)
        if at is None or any(start < stop for stop in ends[:at]):
            continue
        if _WAYS.search(text, start, end) is None or not (
            _NAMES.search(text, start, end) or _HINT.search(text, start, end)
        ):
            continue
        seen += 1
        if seen > _MOST:
            break
        for a, b in sentences(text, start, end):
            way = _way(text[a:b], a, b, at)
            if way is not None:
                found.append(way)
    return found


def _way(words: str, start: int, end: int, piece: int) -> Way | None:
    told = next((m for kept in _KEPT if (m := kept.fullmatch(words))), None) if _HINT.search(words) else None
    if told is not None:
        if told.groupdict().get("step") == "other":  # from which one on?
            return Way(start, end, piece, False, None, _those(told))
        side: Literal["back", "front"] = "back" if (told["side"] or told["short"])[:1] in "bB" else "front"
        return Way(start, end, piece, piece == 0 and bool(told["all"]), side, _those(told))
    named = _NAMES.search(words)
    if named is None or _WAYS.search(words) is None:
        return None
    return Way(start, end, piece, piece == 0 and bool(named["all"]), None, _those(named))


def _those(told: re.Match[str]) -> Callable[[list[int]], list[int]]:
    group = {name: value for name, value in told.groupdict().items() if value}

    def of(labels: list[int]) -> list[int]:
        if "all" in group:
            return labels
        if "on" in group:
            return [n for n in labels if n >= int(group["on"])]
        if "first" in group:
            first, last = int(group["first"]), int(group.get("last", group["first"]))
            more = {int(n) for n in re.findall(r"\d+", group.get("more", ""))}
            return [n for n in labels if first <= n <= last or n in more]
        if "end" in group:
            many = number_of(group.get("many", "1"))
            return labels[:many] if group["end"].lower() == "first" else labels[-many:]
        if "parity" in group:
            return [n for n in labels if n % 2 == (group["parity"].lower() == "odd")]
        if "step" in group:
            step = {"2": 2, "s": 2, "o": 2, "3": 3, "t": 3}.get(group["step"][:1].lower(), 4)
            return [n for n in labels if n % step == 0]
        nth = group["nth"].lower()
        n = ORDINAL_WORDS.get(nth) or int(nth[:-2])
        return [n] if n in labels else []

    return of


def keep(way: Way, queue: list[Waiting | RawText]) -> bool:
    """Puts those courses into their loops, but for what goes into a ring or a chain; false where there is none."""
    courses = [t for t in queue if isinstance(t, Waiting) and not t.foundation]
    named = set(way.those([t.label for t in courses]))
    kept = [t for t in courses if t.label in named and t.parsed is not None and not ringed(t.parsed)]
    for todo in kept:
        if todo.parsed is not None and way.side is not None:
            todo.parsed = in_loops(todo.parsed, way.side)
    return bool(kept)


def lost(way: Way, words: str, pattern: Pattern) -> bool:
    """Is what such a sentence tells to be seen at none of its rounds?"""
    told = _WAYS.search(words)
    if told is None:
        return False
    pieces = pattern.pieces if way.general or way.piece == 0 else pattern.pieces[way.piece : way.piece + 1]
    if told["shade"]:
        return not any(cue.kind == "colour" for p in pieces for cue in p.cues) and not any(
            g.colour for p in pieces for c in p.courses for g in in_order(c.body)
        )
    if told["stop"]:
        return True
    stitch = by_name(pattern.terms).get(told["stitch"].lower()) if told["stitch"] else None
    for piece in pieces:
        numbers = [int(c.label) for c in piece.courses if c.label.isdecimal()]
        named = set(way.those(numbers))
        there = [c for c in piece.courses if c.label.isdecimal() and int(c.label) in named and c.read]
        if there and all(any(_so(g, told, stitch) for g in in_order(c.body)) for c in there):
            return False
    return True


def _so(group: Group, told: re.Match[str], stitch: str | None) -> bool:
    if told["loops"]:
        return group.loops is not None
    return stitch is None or group.stitch == stitch or (stitch == "sc" and group.stitch in ("inc", "dec", "inv dec"))
