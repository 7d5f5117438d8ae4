"""From one strand to another: where a place goes when the pattern it is worked from was changed.

By course and stitch: a course is known again by its kind and its number, a place inside it by the stitches made.
Nothing here decides for the maker: `Carried.sure` says whether the course in hand is as it was, and whoever recasts
asks her where it is not.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import Literal

from pydantic import Field

from hookside.follow.making import RunState, State
from hookside.follow.place import course_at, offset_in, reach, slide, step_of
from hookside.follow.strand import Strand, StrandCourse, StrandCue
from hookside.pattern import Group, Node, Record, length, makes


class Carried(Record):
    """Where a place comes to lie on the other strand.

    to      its step there
    sure    the course in hand is as it was, or nothing of it is worked yet; otherwise `to` is the nearest there is
    start   the step at which that course begins
    missed  stops and pauses behind `to` that were never asked: new ones, and such as stood before the place
    """

    to: int
    sure: bool
    start: int
    missed: list[StrandCue] = Field(default_factory=list)


class Change(Record):
    """One course of which a changed text says something else. `behind`: it lies behind the place."""

    kind: Literal["round", "row"]
    label: str
    what: Literal["new", "gone", "different"]
    behind: bool = False


class Moved(Record):
    """A run put on another strand, at step `to` of it."""

    run: str
    strand: str
    to: int


def carry(old: Strand, new: Strand, at: int) -> Carried:
    """Where place `at` of `old` lies on `new`."""
    to, sure, start = _carried(old, new, at)
    to, _ = slide(new, to)
    return Carried(to=to, sure=sure, start=min(start, to), missed=_missed(old, new, at, to))


def changes(old: Strand, new: Strand, at: int) -> list[Change]:
    """What `new` says otherwise than `old`, in the order of the work; seen from place `at` of `old`."""
    partner = _partners(old, new)
    here = course_at(old, at)
    worked = len(old.courses) if here is None else here
    found: list[tuple[float, Change]] = []
    for index, course in enumerate(old.courses):
        other = partner.get(index)
        if other is None:
            found.append((index, Change(kind=course.kind, label=course.label, what="gone", behind=index < worked)))
        elif not _alike(course, new.courses[other]):
            found.append((other, Change(kind=course.kind, label=course.label, what="different", behind=index < worked)))
    met = {other: index for index, other in partner.items()}
    before = -1
    for index, course in enumerate(new.courses):
        if index in met:
            before = met[index]
        else:
            behind = before + 1 < worked  # it stands before a course that is worked already
            found.append((index - 0.5, Change(kind=course.kind, label=course.label, what="new", behind=behind)))
    return [change for _, change in sorted(found, key=lambda one: one[0])]


def cue_changes(old: Strand, new: Strand) -> tuple[list[StrandCue], list[StrandCue]]:
    """Stops and pauses that only `new` has, and such as only `old` has."""
    return _only(new, old), _only(old, new)


def same_steps(old: Strand, new: Strand) -> bool:
    """Whether a maker would notice nothing: courses and all that waits are alike, whatever the words."""

    def lie(strand: Strand) -> list[tuple[object, ...]]:
        courses = [(course.kind, course.label, course.first, course.end) for course in strand.courses]
        return [*courses, *((cue.step, cue.kind, cue.weight, cue.text) for cue in strand.cues)]

    return lie(old) == lie(new) and all(_alike(a, b) for a, b in zip(old.courses, new.courses, strict=True))


def recast(
    state: State, strands: Mapping[str, Strand], row: int, moved: Iterable[Moved], added: Sequence[tuple[str, str]] = ()
) -> State:
    """The state after journal row `row` put runs on other strands, and began new ones at their first step.

    Moves from before a recast can't be undone one by one: their steps belong to the strand that was left. Where only
    the words are others, all is as it was.
    """
    runs = dict(state.runs)
    for one in moved:
        run = runs[one.run]
        old, new = strands[run.strand], strands[one.strand]
        if one.to == run.at and same_steps(old, new):
            runs[one.run] = run.model_copy(
                update={"strand": one.strand, "counts": _counts(old, new, run.counts, one.to)}
            )
            continue
        counts = _counts(old, new, run.counts, one.to)
        runs[one.run] = RunState(strand=one.strand, at=slide(new, one.to)[0], counts=counts)
    for name, strand in added:
        runs[name] = RunState(strand=strand, at=slide(strands[strand], 0)[0])
    return state.model_copy(update={"head": row, "runs": runs})


# -- courses ----------------------------------------------------------------


def _partners(old: Strand, new: Strand) -> dict[int, int]:
    """Index of a course -> that of the course of the same kind and label, the second of a label with the second."""
    waiting: dict[tuple[str, str], list[int]] = defaultdict(list)
    for index, course in enumerate(new.courses):
        waiting[course.kind, course.label].append(index)
    found: dict[int, int] = {}
    for index, course in enumerate(old.courses):
        same = waiting[course.kind, course.label]
        if same:
            found[index] = same.pop(0)
    return found


def _alike(one: StrandCourse, other: StrandCourse) -> bool:
    """Whether two courses are the same to the hands. One that could not be read is known by its text."""
    if one.read != other.read:
        return False
    return _fabric(one.body) == _fabric(other.body) if one.read else one.text == other.text


def _fabric(body: list[Node]) -> list[object]:
    return [
        (node.stitch, node.count, node.uses, node.makes, node.steps, node.loops, node.into, node.colour)
        if isinstance(node, Group)
        else (node.times, _fabric(node.body))
        for node in body
    ]


def _carried(old: Strand, new: Strand, at: int) -> tuple[int, bool, int]:
    """(step, sure, start of the course in hand)."""
    if at == slide(old, 0)[0]:
        return 0, True, 0
    partner = _partners(old, new)
    index = course_at(old, at)
    cue = old.cue_at.get(at)
    if cue is not None:
        there = None if index is None else partner.get(index)
        # The same thing, waiting before the same course; of two that are alike the one with the same address.
        for other in sorted(new.cues, key=lambda c: c.address != cue.address):
            if _same_cue(other, cue) and other.weight != "whisper" and course_at(new, other.step) == there:
                return other.step, True, other.step
    if index is None:
        if not old.courses:
            return min(at, new.length), False, 0
        last = partner.get(len(old.courses) - 1)
        end = new.length if last is None else new.courses[last].end
        if last is not None and at == old.length and last == len(new.courses) - 1:
            return _before_new(old, new, new.length), True, end
        return end, last is not None, end
    if index not in partner:
        if not new.courses:
            return 0, False, 0
        nearest = new.courses[min(index, len(new.courses) - 1)].first
        return nearest, False, nearest
    here, course = old.courses[index], new.courses[partner[index]]
    offset = offset_in(old, here, at) if here.read and at >= here.first else 0
    start = _before_new(old, new, course.first)
    if offset == 0:
        return start, True, start
    if _alike(here, course):
        return step_of(new, course, offset), True, start
    if not course.read:
        return start, False, start
    found = reach(here.body, offset)
    made = makes(here.body) if found is None else found.made
    return step_of(new, course, _offset_of(course.body, made)), False, start


def _before_new(old: Strand, new: Strand, step: int) -> int:
    """`step`, or the first of the things directly before it that only the new strand has: they were never asked."""
    while (cue := new.cue_at.get(step - 1)) is not None and not any(_same_cue(cue, other) for other in old.cues):
        step -= 1
    return step


def _offset_of(body: list[Node], made: int) -> int:
    """The first offset at which so many stitches are made; the last step of the body where it makes fewer."""
    last = length(body) - 1
    if last < 0:
        return 0
    return bisect_left(range(last), made, key=lambda offset: _made(body, offset))


def _made(body: list[Node], offset: int) -> int:
    found = reach(body, offset)
    return makes(body) if found is None else found.made


# -- what waits -------------------------------------------------------------


def _same_cue(one: StrandCue, other: StrandCue) -> bool:
    return one.kind == other.kind and (one.text == other.text or one.address == other.address)


def _only(one: Strand, other: Strand) -> list[StrandCue]:
    return [cue for cue in one.loud if not any(_same_cue(cue, known) for known in other.cues)]


def _missed(old: Strand, new: Strand, at: int, to: int) -> list[StrandCue]:
    asked = [cue for cue in old.cues if cue.step < at]
    return [cue for cue in new.loud if cue.step < to and not any(_same_cue(cue, known) for known in asked)]


def _counts(old: Strand, new: Strand, counts: dict[str, int], to: int) -> dict[str, int]:
    """Counts typed for unread courses, under the names these have now; those before the place only."""
    partner = _partners(old, new)
    kept: dict[str, int] = {}
    for index, other in partner.items():
        course, named = old.courses[index], new.courses[other]
        if course.id in counts and not named.read and named.end <= to:
            kept[named.id] = counts[course.id]
    return kept
