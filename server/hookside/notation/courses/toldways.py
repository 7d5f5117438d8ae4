"""How rounds are worked, told ahead of them: "All rounds in back loops only", "Work the first 3 rounds in hdc".

Loops are kept in mind and worked; what can not be kept in mind is said, so that it is not lost.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Literal, NamedTuple

from hookside.colours import COLOURS
from hookside.notation.askings.colournames import SHADE
from hookside.notation.courses.striped import names_shade
from hookside.notation.courses.waiting import Waiting, in_loops, ringed
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.layout import RawCourse, RawPiece, RawText, sentences
from hookside.notation.vocabulary import COUNT_WORDS, ORDINAL_WORDS, number_of
from hookside.pattern import Group, Pattern, groups
from hookside.stitches import by_name

_MOST = 60  # lines that are looked at
_LONGEST = 300  # characters of such a line
_ROLES = ("notes", "section", "story", "make")

_NTH = rf"\d{{1,2}}(?:st|nd|rd|th)|{'|'.join(ORDINAL_WORDS)}"
_WHICH = (
    rf"(?:(?P<all>(?:all|every|each)(?: of)?(?: the)?(?: (?:single|one))? (?:{COURSE}|stitch(?:es)?|sts?)(?![a-z])|"
    r"(?:the )?(?:whole|entire) (?:[a-z]{3,9}\b)|everything|throughout|everywhere)|"
    rf"(?:from )(?:the )?{COURSE}\.? ?#?(?P<on>\d{{1,3}})(?: on(?:wards?)?)?|"
    rf"(?:the )?{COURSE}\.? ?#?(?P<first>\d{{1,3}})(?: ?(?:-|to|through|until) ?(?:{COURSE}\.? ?)?(?P<last>\d{{1,3}}))?"
    rf"(?P<more>(?: ?(?:,|and|&) ?(?:{COURSE}\.? ?)?\d{{1,3}}){{0,6}})(?![\w.]?\d)|"
    rf"(?:the )?(?P<end>first|last|final)(?: (?P<many>\d{{1,2}}|{COUNT_WORDS}))? {COURSE}(?![a-z])|"
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
    rf"\b(?P<even>plain|straight|even(?=\W*$)|(?:without|no) (?:any |more )?(?:inc|dec|shap)[a-z]{{0,8}})\b|"
    rf"\b(?P<stop>stop|end|finish) (?:after|at|with|behind) (?:the )?{COURSE}\.? ?\d|"
    rf"\b(?P<shade>{'|'.join(sorted(COLOURS, key=len, reverse=True))})\b",
    re.I,
)
_NAMES = re.compile(_WHICH, re.I)
# "Use hdc instead of sc", "replace all sc with hdc", "read sc as hdc", "hdc wherever it says sc": for all rounds
_ST = _STITCH.replace("?P<stitch>", "?:")
_INSTEAD = re.compile(
    rf"\b{_ST}s? (?:instead of|in place of|rather than|for|wherever (?:it says|i write|you see|there is)) "
    rf"(?:all |every |each |the |an? )?(?P<old>{_ST})s?\b|"
    rf"\b(?:replac\w+|substitut\w+(?= [a-z ]{2,24} (?:with|by) )|"
    rf"read|exchang\w+|swap\w*|(?:all|every|each) (?:the )?(?={_ST}s? (?:is|are)))"
    rf" ?(?:all |every |each |the |an? )?(?P<old2>{_ST})s? "
    rf"(?:(?:is|are|be|worked|done|made|with|by|as|for|to|an?|in) )+{_ST}s?\b",
    re.I,
)
_SWAPS = re.compile(
    r"\b(?:instead|place of|rather than|replac|substitut|read|exchang|swap|wherever|for|(?:is|are) )", re.I
)
_TERMS = re.compile(r"\b(?:u\.?[ks]\.?a?|american|british|english|terms?|terminology)\b", re.I)
# "Use white except where told", "everything is white unless noted", "made in white": what each piece begins in
_BEGUN = re.compile(
    r"\W{0,4}(?:(?:please|main|use|using|work|works|worked|make|made|crochet|crocheted|knit|everything|all|it|is|are|"
    r"the|yarn|wool|colou?r|whole|toy|pieces|parts|rounds|in|with|of|done|:) ?){0,8}"
    rf"\b(?P<shade>{SHADE})(?: (?:yarn|wool|throughout|for everything|for all(?: parts| pieces| rounds)?))*,?"
    r"(?P<but> ?\(?(?:except|unless|if not|but for|save|apart from|other than|where not)\b[^\d\n]{0,60})?\W*",
    re.I,
)
_EXCEPTS = re.compile(r"\b(?:except|unless|if not|but for|save|apart from|other than|where not)\b", re.I)
_MADE_IN = re.compile(r"\W{0,4}(?:all|everything|made|worked|crocheted|the whole)\b", re.I)
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
    begins: bool = False  # it tells the color that pieces begin in
    old: str = ""  # the stitch that another one is to be worked for


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
        ways = _WAYS.search(text, start, end) is not None
        ways = ways and (_NAMES.search(text, start, end) or _HINT.search(text, start, end)) is not None
        if not (ways or _EXCEPTS.search(text, start, end) or _MADE_IN.match(text, start, end)) and (
            _SWAPS.search(text, start, end) is None
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
    begun = _BEGUN.fullmatch(words) if _EXCEPTS.search(words) or _MADE_IN.match(words) else None
    if begun is not None:
        return Way(start, end, piece, piece == 0, None, lambda labels: labels[:1], begins=True)
    swapped = _INSTEAD.search(words) if _SWAPS.search(words) and not _TERMS.search(words) else None
    if swapped is not None:
        old = swapped["old"] or swapped["old2"]
        return Way(start, end, piece, piece == 0, None, lambda labels: labels, old=old)
    told = next((m for kept in _KEPT if (m := kept.fullmatch(words))), None) if _HINT.search(words) else None
    if told is not None:
        if told.groupdict().get("step") == "other":  # from which one on?
            return Way(start, end, piece, False, None, _those(told))
        side: Literal["back", "front"] = "back" if (told["side"] or told["short"])[:1] in "bB" else "front"
        return Way(start, end, piece, piece == 0 and bool(told["all"]), side, _those(told))
    named = _NAMES.search(words)
    ways = _WAYS.search(words)
    if named is None or ways is None or (named["step"] and ways["even"]):  # ... from which one on?
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


def begun(way: Way, raw: RawPiece, queue: list[Waiting | RawText], text: str) -> list[Waiting | RawText]:
    """A piece that tells no color for its beginning begins in the one that such a sentence tells."""
    first = next((i for i, item in enumerate(queue) if isinstance(item, Waiting)), len(queue))
    if raw.colours is not None or any(names_shade(text, item) for item in queue[: first + 1]):
        return queue
    return [RawText(way.start, way.end, "colour"), *queue]


def lost(way: Way, words: str, pattern: Pattern) -> bool:
    """Is what such a sentence tells to be seen at none of its rounds?"""
    pieces = pattern.pieces if way.general or way.piece == 0 else pattern.pieces[way.piece : way.piece + 1]
    if way.old:
        key = by_name(pattern.terms).get(way.old.lower())
        return any(g.stitch == key for p in pieces for c in p.courses for g in groups(c.body))
    ways = list(_WAYS.finditer(words))
    told = next((way for way in ways if not way["even"]), ways[0] if ways else None)
    if told is None:
        return False
    if told["shade"]:
        return not any(cue.kind == "colour" for p in pieces for cue in p.cues) and not any(
            g.colour for p in pieces for c in p.courses for g in groups(c.body)
        )
    if told["stop"]:
        return True
    stitch = by_name(pattern.terms).get(told["stitch"].lower()) if told["stitch"] else None
    for piece in pieces:
        numbers = [int(c.label) for c in piece.courses if c.label.isdecimal()]
        named = set(way.those(numbers))
        there = [c for c in piece.courses if c.label.isdecimal() and int(c.label) in named and c.read]
        if told["even"]:
            kept = all(c.uses == c.makes for c in there)
        else:
            kept = all(any(_so(g, told, stitch) for g in groups(c.body)) for c in there)
        if there and kept:
            return False
    return True


def _so(group: Group, told: re.Match[str], stitch: str | None) -> bool:
    if told["loops"]:
        return group.loops is not None
    return stitch is None or group.stitch == stitch or (stitch == "sc" and group.stitch in ("inc", "dec", "inv dec"))
