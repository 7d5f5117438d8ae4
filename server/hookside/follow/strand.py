"""The strand: the unchanging line of steps of one run.

Steps are numbered from 0. A place is one of these numbers: the next step to do;
`length` means finished. Courses and cues share the numbering:

    step   0     1..6        7           8..19      20
           ring  6 sc        cue "eyes"  12 sc ...  cue "stuff"

A course covers steps [first, first + steps of its body + cues inside it).
A cue is exactly one step. Bodies keep their repeats, so a strand is small.
"""

from __future__ import annotations

from bisect import bisect_left
from functools import cached_property
from typing import Literal

from hookside.pattern import Basis, CueKind, Node, Record, Weight, Words, length, makes


class StrandCourse(Record):
    """A course as it lies on a strand."""

    id: str
    label: str
    kind: Literal["round", "row"]
    first: int  # strand step of its first body step (or of a cue that stands before it inside the course)
    end: int  # one past its last step, cues inside included
    uses: int | None
    makes: int | None
    declared: int | None
    text: str
    body: list[Node]
    read: bool  # False: one step, a stop whose `done` carries the count
    spiral: bool
    plain: bool
    plain_index: int | None = None  # "plain round 2 of 4, rounds 9 to 12"
    plain_of: int | None = None
    plain_from: str | None = None
    plain_to: str | None = None
    words: Words


class StrandCue(Record):
    """A cue as it lies on a strand."""

    address: str
    step: int
    kind: CueKind
    text: str
    basis: Basis
    weight: Weight
    words: Words

    @property
    def home(self) -> str:
        """The id of the course that it belongs to by its address."""
        return self.address.partition("/")[0]

    @property
    def is_doubt(self) -> bool:
        """Whether it only says what is wrong with the course it stands before: with that nothing is to be done."""
        return self.address.startswith(f"{self.home}/doubt.")


class Strand(Record):
    """The steps of one run. `id` hashes all that it was made from; a strand never changes."""

    format: Literal[1] = 1
    id: str
    piece: str
    terms: Literal["US", "UK"]
    length: int
    courses: list[StrandCourse]
    cues: list[StrandCue]  # in order of `step`

    # What follows is worked out once per strand, on first use. It holds one entry for each course
    # or cue and never one for each step, so a strand of 5,000 courses costs a few milliseconds.

    @cached_property
    def cue_steps(self) -> list[int]:
        """The step of each cue, ascending, beside `cues`."""
        return [cue.step for cue in self.cues]

    @cached_property
    def course_ends(self) -> list[int]:
        """The end of each course, ascending, beside `courses`."""
        return [course.end for course in self.courses]

    @cached_property
    def cue_at(self) -> dict[int, StrandCue]:
        """The cue on each step that is one."""
        return {cue.step: cue for cue in self.cues}

    @cached_property
    def unread_at(self) -> dict[int, StrandCourse]:
        """The course on each step that is a whole course nobody could read."""
        return {self._own_step(course): course for course in self.courses if not course.read}

    @cached_property
    def halts(self) -> list[int]:
        """Every step nothing may pass unseen, ascending: stops, pauses, unread courses."""
        loud = [cue.step for cue in self.cues if cue.weight != "whisper"]
        return sorted([*loud, *self.unread_at])

    @cached_property
    def loud(self) -> list[StrandCue]:
        """The stops and pauses, in order of step."""
        return [cue for cue in self.cues if cue.weight != "whisper"]

    @cached_property
    def made_before(self) -> list[int]:
        """Stitches made by all courses before each course, and by all of them at the end.

        A course that could not be read counts as 0: its stitches are the maker's, not the strand's.
        """
        total, sums = 0, [0]
        for course in self.courses:
            total += makes(course.body) if course.read else 0
            sums.append(total)
        return sums

    def _own_step(self, course: StrandCourse) -> int:
        """The step of an unread course: its first that is no cue."""
        step = course.first
        while step in self.cue_at:
            step += 1
        return step


def flaws(strand: Strand) -> list[str]:
    """What is wrong with a strand's own arithmetic; empty when it is sound.

    A strand is kept for ever and every place is read against it, so whoever keeps one asks this first.
    """
    found = []
    steps = strand.cue_steps
    if steps != sorted(set(steps)):
        found.append("its cues do not stand in order, one to a step")
    if len({cue.address for cue in strand.cues}) != len(steps):
        found.append("two of its cues have the same address")
    if len({course.id for course in strand.courses}) != len(strand.courses):
        found.append("two of its courses have the same id")
    at = 0
    ordered = sorted(steps)
    distinct = sorted(strand.cue_at)

    def cues_in(steps: list[int], start: int, end: int) -> int:
        return max(0, bisect_left(steps, end) - bisect_left(steps, start))

    for course in strand.courses:
        if cues_in(distinct, at, course.first) != course.first - at:  # also where it starts before the last one's end
            found.append(f"steps {at} to {course.first} before course {course.id} are not all cues")
        inside = cues_in(ordered, course.first, course.end)
        own = length(course.body) if course.read else 1
        if course.end - course.first != own + inside:
            found.append(f"course {course.id} has {own} steps and {inside} cues but covers {course.end - course.first}")
        at = course.end
    if strand.length != at + sum(step >= at for step in steps) or any(step >= strand.length for step in steps):
        found.append(f"its length is {strand.length}, but its courses end at {at} and its cues do not fill the rest")
    return found
