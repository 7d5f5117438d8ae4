"""The lengths of yarn that a piece is worked with: where a colour begins anew, and where it was cut on the way.

A colour that comes back within a few courses is carried along, not cut (common practice, no source), unless the text
cuts it; one that rests longer is taken as cut, unless the text carries it. Whether to cut is never decided here: this
only tells how many ends a piece is likely to have.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from hookside.pattern import Cue, Group, Piece
from hookside.shape.fabric import groups

CARRIED = 4  # courses that a colour rests at the most where it is carried along (a guess)
_CUTS = re.compile(
    r"(?<!not )(?<!n't )(?<!without )\b(?:cut(?:ting)?|break(?:ing)?|snip(?:ping)?|fasten(?:ing)? off|finish(?:ing)? "
    r"off)\b(?P<what>[^.;]*)",
    re.IGNORECASE,
)
_CARRIES = re.compile(
    r"\bcarry(?:ing)? (?:up|along|the|both|unused|colou?rs?|yarns?|it|them)\b"
    r"|\b(?:not|n't|without) (?:cut|break|fasten)",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Used:
    """A group, how often it is worked, its course counted from 0, and the colour in hand; "" where none is named."""

    course: int
    colour: str
    group: Group
    times: int


@dataclass(slots=True)
class Thread:
    """One length of yarn: the courses it is first and last worked in, counted from 0."""

    colour: str
    first: int
    last: int


def used(piece: Piece, named: Callable[[Cue], str], first: str = "") -> Iterator[Used]:
    """Its stitches in order with their colours. `named` tells the colour a cue changes to, "" for none; `first` the
    colour in hand before."""
    waiting: dict[str | None, list[str]] = defaultdict(list)
    for cue in piece.cues:
        # "/into.": only tells earlier what the stitches' own colours say; a whisper only shows what is no change, but
        # in front of all courses it tells what the piece goes on with.
        tells = cue.weight != "whisper" or cue.course_id is None
        changes = cue.kind == "colour" and tells and "/into." not in cue.address
        if changes and (colour := named(cue)):
            waiting[cue.course_id].append(colour)
    colour = (waiting.pop(None, None) or [first])[-1]
    for at, course in enumerate(piece.courses):
        for group, times in groups(course.body):
            colour = group.colour or colour
            yield Used(at, colour, group, times)
        colour = (waiting.pop(course.id, None) or [colour])[-1]


def threads(piece: Piece, uses: list[Used]) -> list[Thread]:
    """In the order in which they begin. The one worked last is the last in hand."""
    carried = len(piece.courses) if any(_CARRIES.search(cue.text) for cue in piece.cues) else CARRIED
    cut = _cut(piece, uses)
    found: list[Thread] = []
    live: dict[str, Thread] = {}
    for use in uses:
        thread = live.get(use.colour)
        rests = 0 if thread is None else use.course - thread.last
        if thread is None or rests > carried or any(thread.last <= at < use.course for at in cut[use.colour]):
            thread = live[use.colour] = Thread(use.colour, use.course, use.course)
            found.append(thread)
        thread.last = use.course
    return found


def _cut(piece: Piece, uses: list[Used]) -> dict[str, list[int]]:
    """Behind which courses, counted from 0, the text cuts which colours: that which it names there, else the one in
    hand."""
    numbers = {course.id: at for at, course in enumerate(piece.courses)}
    colours = list(dict.fromkeys(use.colour for use in uses if use.colour))
    found: dict[str, list[int]] = defaultdict(list)
    for cue in piece.cues:
        at = numbers.get(cue.course_id or "")
        told = _CUTS.search(cue.text) if at is not None else None
        if at is None or told is None:
            continue
        meant = [name for name in colours if re.search(rf"\b{re.escape(name)}\b", told["what"], re.IGNORECASE)]
        if not meant:
            meant = [use.colour for use in uses if use.course <= at][-1:]
        for name in meant[:1]:
            found[name].append(at)
    return found
