"""Runs of alike plain courses, which a maker counts on: "plain round 2 of 4, rounds 9 to 12"."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from hookside.pattern import Course, Cue, Node, Repeat


class PlainRun(NamedTuple):
    """ "plain round 2 of 4, rounds 9 to 12" """

    place: int
    of: int
    start: str
    stop: str


def plain_runs(
    courses: list[Course], between: dict[int, list[Cue]], inside: dict[int, list[tuple[int, Cue]]]
) -> dict[int, PlainRun]:
    """For each course in a run of alike plain ones, two or more: its place in the run, and where the run goes.

    A change of colour ends a run: what is counted on is the stripe.
    """
    changes = {index for index, cues in between.items() if any(cue.kind == "colour" for cue in cues)}
    for index, cues in inside.items():
        for _, cue in cues:
            if cue.kind != "colour":
                continue
            changes.add(index)
            if (cue.at or 0) + 1 < (courses[index].makes or 0):  # not for the last stitch: two colours in one course
                changes.add(index - 1)
    return {
        index: PlainRun(place, len(run), courses[run[0]].label, courses[run[-1]].label)
        for run in _alike(courses, changes)
        if len(run) > 1
        for place, index in enumerate(run, start=1)
    }


def _alike(courses: list[Course], changes: set[int]) -> Iterator[list[int]]:
    """Runs of neighbouring plain courses that work the same stitches. `changes`: courses behind which a run ends."""
    run: list[int] = []
    for index, course in enumerate(courses):
        same = run and course.plain and _fabric(course) == _fabric(courses[run[-1]])
        if same and index - 1 not in changes:
            run.append(index)
            continue
        yield run
        run = [index] if course.plain else []
    yield run


def _fabric(course: Course) -> tuple[object, ...]:
    """What makes two plain courses alike to the hands: kind, count, stitches and loops, whatever the colour."""
    return (course.kind, course.makes, tuple(_stitches(course.body)))


def _stitches(body: list[Node]) -> Iterator[tuple[str, str | None]]:
    for node in body:
        if isinstance(node, Repeat):
            yield from _stitches(node.body)
        elif node.makes:
            yield node.stitch, node.loops
