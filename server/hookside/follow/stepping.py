"""One move along one strand: where it comes to rest and which cues it passed.

Pure arithmetic on integers; `frontend/src/follow/stepping.ts` is its twin, and both are held to the
same vectors in tests/vectors. What may never happen: a stop or a pause passed without the place having
rested on it.
"""

from __future__ import annotations

from bisect import bisect_left
from typing import Literal

from pydantic import Field

from hookside.follow.place import course_at, cues_between, edges, offset_in, reach, rests, slide, step_of
from hookside.follow.strand import Strand, StrandCourse
from hookside.pattern import Record, length

Unit = Literal["stitch", "group", "repeat", "round", "plain"]
UNITS = ("stitch", "group", "repeat", "round", "plain")

RefusalCode = Literal[
    "stop",  # a stop or an unread course waits: only `done` goes on from here
    "finished",  # the last step is done
    "start",  # nothing lies behind
    "not-here",  # that cue is not the one the place rests on
    "range",  # no such step, or not behind the place, or a count outside 0 to 2,000
    "not-last",  # only the newest move of a run can be undone
    "no-run",  # the making has no such run
    "needs-count",  # an unread course is answered with the count of its stitches
    "unit",  # no such unit
]

LARGEST_COUNT = 2000  # stitches in a course; the limit of reading too


class Step(Record):
    """Where a move comes to rest, and the cues it passed, in order. An unread course is passed by its id."""

    to: int
    passed: list[str] = Field(default_factory=list)


class Refusal(Record):
    """A move that cannot be made here. Screens turn the code into a sentence."""

    code: RefusalCode


def _stretch(course: StrandCourse, offset: int, unit: str) -> tuple[int, int]:
    """The one `unit` that holds step `offset` of a course's body: (start, end), in steps of the body.

    What leads into a course goes with its first unit, what closes it with its last; only "stitch" takes them singly.
    """
    if unit == "stitch":
        return offset, offset + 1
    whole = length(course.body)
    lead, close = edges(course)
    found = reach(course.body, min(max(offset, lead), close - 1))
    assert found is not None, "a step that is neither a cue nor an unread course lies in a body"
    start, end = found.start, found.start + found.group.length
    if unit in ("repeat", "plain") and found.turn is not None:
        start, end = found.turn
    elif unit == "round" or (unit == "plain" and course.plain):
        return 0, whole
    return 0 if start == lead else start, whole if end == close else end


def _forward(strand: Strand, start: int, target: int) -> Step:
    """From `start` on to `target`, but onto the first thing that waits in between; then past whispers."""
    index = bisect_left(strand.halts, start)
    land = min(target, strand.halts[index]) if index < len(strand.halts) else target
    passed = [cue.address for cue in cues_between(strand, start, land)]
    rest, slid = slide(strand, land)
    return Step(to=rest, passed=passed + slid)


def _leave(strand: Strand, at: int) -> tuple[int, list[str]] | Refusal:
    """Set off forwards: a pause is answered by it, a stop or an unread course is not."""
    if not rests(strand, at):
        return at, []
    cue = strand.cue_at.get(at)
    if cue is None or cue.weight == "stop":
        return Refusal(code="stop")
    rest, slid = slide(strand, at + 1)
    return rest, [cue.address, *slid]


def advance(strand: Strand, at: int, unit: str | None) -> Step | Refusal:
    """Go on by one unit, at most to the first stop, pause or unread course on the way.

    Resting on a pause, the move answers it and nothing else: whoever touches "done" has not worked a stitch yet.
    """
    if unit not in UNITS:
        return Refusal(code="unit")
    if at >= strand.length:
        return Refusal(code="finished")
    left = _leave(strand, at)
    if isinstance(left, Refusal):
        return left
    start, answered = left
    if answered:
        return Step(to=start, passed=answered)
    index = course_at(strand, start)
    assert index is not None, "a step that is no cue lies in a course"
    course = strand.courses[index]
    _, end = _stretch(course, offset_in(strand, course, start), unit)
    return _forward(strand, start, step_of(strand, course, end - 1) + 1)


def retreat(strand: Strand, at: int, unit: str | None) -> Step | Refusal:
    """Go back to where the unit begins, at most onto the nearest stop, pause or unread course on the way.

    From the beginning of a unit it is the one before. Whispers are slid over.
    """
    if unit not in UNITS:
        return Refusal(code="unit")
    before = at - 1
    while (cue := strand.cue_at.get(before)) is not None and cue.weight == "whisper":
        before -= 1
    if before < 0:
        return Refusal(code="start")
    if rests(strand, before):
        return Step(to=before)
    index = course_at(strand, before)
    assert index is not None, "a step that is no cue lies in a course"
    course = strand.courses[index]
    start, _ = _stretch(course, offset_in(strand, course, before), unit)
    target = step_of(strand, course, start)
    last = bisect_left(strand.halts, before) - 1
    return Step(to=max(target, strand.halts[last]) if last >= 0 else target)


def answer(strand: Strand, at: int, address: str | None, count: int | None = None) -> Step | Refusal:
    """Answer the stop or pause the place rests on, or give an unread course (by its id) the count it made."""
    cue, course = strand.cue_at.get(at), strand.unread_at.get(at)
    if course is not None and course.id == address:
        if count is None:
            return Refusal(code="needs-count")
        if not 0 <= count <= LARGEST_COUNT:
            return Refusal(code="range")
    elif cue is None or cue.weight == "whisper" or cue.address != address:
        return Refusal(code="not-here")
    rest, slid = slide(strand, at + 1)
    return Step(to=rest, passed=[address, *slid])


def jump(strand: Strand, at: int, to: int | None) -> Step | Refusal:
    """Go to a step: freely backwards; forwards at most onto the first thing that waits in between."""
    if to is None or not 0 <= to <= strand.length:
        return Refusal(code="range")
    if to <= at:
        rest, slid = slide(strand, to)
        return Step(to=rest, passed=slid)
    left = _leave(strand, at)
    if isinstance(left, Refusal):
        return left
    start, passed = left
    step = _forward(strand, start, max(start, to))
    return Step(to=step.to, passed=passed + step.passed)


def rip(strand: Strand, at: int, to: int | None) -> Step | Refusal:
    """Rip back to a step at or before the place. The cues behind it wait again."""
    if to is None or not 0 <= to <= at:
        return Refusal(code="range")
    rest, slid = slide(strand, to)
    return Step(to=rest, passed=slid)
