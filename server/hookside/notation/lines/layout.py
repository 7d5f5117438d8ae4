"""What the layout of a text is made of: pieces, courses whose bodies are unread, sentences between them."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import NamedTuple

from hookside.notation.labels.label import CourseKind, Label
from hookside.pattern import CueKind

MOST_COURSES = 5000
MOST_PIECES = 1000
MOST_LINES = 6500  # with something on them: the most courses that are followed, and three others for ten of them
# behind these, rounds are still read
_LABELS_ALONE = frozenset(["too-much-talk", "too-much-beside", "too-many-bare", "over-and-over"])
MOST_TALK = 1000  # lines in a row without a course, a heading or a section: from there on only labels are looked for
MOST_BESIDE = 2000  # lines in all that are no course by a label or by stitches: from there on labels alone
MOST_BARE = 1500  # rounds without a label, many times what a text has, of which each asks all that a line may be
_HOOK_SIZE = re.compile(r"\d\s*mm\b|\b[B-S][-/ ]?\d{0,2}\b(?=\s*(?:hook|\(|$|\d))|\bsize\s+[A-Z0-9]\b")


@dataclass(slots=True)
class RawCourse:
    """A body and what it is called; `end` grows with continuation lines."""

    label: Label | None
    start: int
    end: int
    kind: CourseKind | None
    foundation: bool = False  # only chains: the ground of the next course


@dataclass(slots=True)
class RawText:
    """Sentences between courses; `job` where a word or two stand for one: "stuff", "eyes"."""

    start: int
    end: int
    job: CueKind | None = None
    along: frozenset[CueKind] | None = None  # told of a part that this one is like: what it takes along of that
    back: int = 0  # the course before which a color ends that was told for some alone, and the one before comes back


@dataclass(slots=True)
class HeadColours:
    """Several colours that a heading tells at text[start:end]; `later`: (start, end, its first course or None)."""

    start: int
    end: int
    plain: bool
    later: list[tuple[int, int, int | None]] = field(default_factory=list)


class Under(NamedTuple):
    """The heading above a part that asks for copies, how many, how many the part's own does, and what is said of it."""

    name: str
    made: int
    own: int
    code: str


@dataclass(slots=True)
class RawPiece:
    """A heading and all that stands under it."""

    name: str
    make: int
    at: int
    items: list[RawCourse | RawText] = field(default_factory=list)
    assembly: bool = False
    headed: bool = True
    colours: HeadColours | None = None
    again: tuple[int, int] | None = None  # words behind its last course that ask for more of one or the other
    under: Under | None = None
    copies_of: str = ""  # of the part whose copies it works together, where its rounds stand under that heading


@dataclass(slots=True)
class Layout:
    """A text with its parts sorted out."""

    title: str = ""
    hook: str = ""
    gauge: str = ""
    materials: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    abbreviations: dict[str, str] = field(default_factory=dict)
    pieces: list[RawPiece] = field(default_factory=list)
    bounds: dict[str, int] = field(default_factory=dict)  # findings of bounds that were met, and where that was
    named: bool = False  # does any piece have a name?
    unread: list[tuple[int, int]] = field(default_factory=list)  # lines ahead that tell copies, and were not taken
    in_part: list[tuple[int, int]] = field(default_factory=list)  # lines of copies that end before the last round
    roles: list[tuple[int, int, str]] = field(default_factory=list)  # line start, end, role (for the trace)
    no_heading: dict[int, str] = field(default_factory=dict)  # where a line might be one, and why it is none

    @property
    def full(self) -> bool:
        """Is the rest of the page left out?"""
        return not self.bounds.keys() <= _LABELS_ALONE


# "eyes 2 pcs 5 mm": a size in the same line that is no hook's
_OTHER_SIZES = re.compile(
    r"\b(?:eyes?|noses?|beads?|buttons?|bells?|wires?|felt|joints?|rings?|needles?|eyelets?)\b", re.I
)
_PARTS = re.compile(
    rf"[,;](?!\d)|[.:]\s|\band\b(?! \d)|\band\b(?=[^,;]*?{_OTHER_SIZES.pattern})", re.I
)  # fmt: skip


def hook_part(text: str) -> str:
    """The part of a line that tells the hook: "white DK yarn, 3 mm hook, a needle" -> "3 mm hook"."""
    parts = [p.strip() for p in _PARTS.split(text) if p.strip()]
    sized = [p for p in parts if _HOOK_SIZE.search(p) and not _OTHER_SIZES.search(p)]
    named = [p for p in parts if re.search(r"\bhook", p, re.I) and re.search(r"\d|\b[A-P]\b", p)]
    both = [p for p in named if p in sized]
    return (both or named or sized or [text])[0] if len(parts) > 1 else text


def text_start(text: str, at: int) -> int:
    """Start of the line that holds `at`."""
    return text.rfind("\n", 0, max(0, at - 1)) + 1


# a bracket that says where, behind a stop
_WHERE = re.compile(
    r"\s*\((?:in |go |placed )*(?:between|btwn?|at|over|after|around) (?:rounds?|rnds?|rows?|r)\b", re.I
)
_NO_END = re.compile(r"\b(?:approx|no|st|sts|rnd|rnds|rd|rds|etc|e\.g|i\.e|cm|mm|vs|ch|[ds]\.c|[hd]\.tr)$")

# "leaving a 10 in. tail", "ask Ms. K to help": no end, whatever follows
_NEVER_ENDS = re.compile(r"\b(?:mrs|ms|dr)$|\d ?in$")
_OF_INCHES = re.compile(
    r"\s+(?:(?:long|yarn|sewing|thread) )*(?:tails?|ends?|lengths?|strands?|of|long|apart|from|wide)\b"
)

# A sentence behind such a dot: "10 sts. stuff the head"
_BEGINS = re.compile(r"\s+(?:[A-Z]|(?:stuff|fill|sew|fasten|cut|close)\b(?! (?:and|in|the next)\b))")
_STOP = re.compile(r"[.!?)](?:(?<![)])(?=\s|$)|(?<=[.!?].)(?<=[)])(?=\s+[A-Z]))|\](?= ?\[[a-z])")


_SAYS = re.compile(r"\w")


def spans_of_sentences(text: str, at: int, end: int) -> list[tuple[int, int]]:
    found: list[tuple[int, int]] = []
    start = at
    for match in _STOP.finditer(text[at:end]):
        stop = at + match.end()
        if not _SAYS.search(text, start, stop):
            start = stop  # a stop by itself
            continue
        before = text[max(start, stop - 6) : stop - 1].lower()
        if _NO_END.search(before) and not _BEGINS.match(text, stop):
            continue
        never = _NEVER_ENDS.search(before)
        if never is not None and (never[0][0] in "md" or _OF_INCHES.match(text, stop)):
            continue
        if _WHERE.match(text, stop, end):
            continue  # "Eyes! (between rounds 3 and 4)": the bracket says where
        found.append((start, stop))
        start = stop
    if text[start:end].strip() or (not found and text[at:end].strip()):
        found.append((start if text[start:end].strip() else at, end))
    return found


def sentences(text: str, at: int, end: int) -> list[tuple[int, int]]:
    """Spans of the sentences in a stretch of text; the dot of "st." or "approx." ends none."""
    found = []
    for start, stop in spans_of_sentences(text, at, end):
        while start < stop and text[start].isspace():
            start += 1
        found.append((start, stop))
    return found


def short_name(name: str) -> bool:
    return len(name) <= 16 and len(name.split()) <= 3 and bool(re.match(r"[A-Za-z]", name))
