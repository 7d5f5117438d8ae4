"""The strand: the unchanging line of steps of one run.

Steps are numbered from 0. A place is one of these numbers: the next step to do;
`length` means finished. Courses and cues share the numbering:

    step   0     1..6        7           8..19      20
           ring  6 sc        cue "eyes"  12 sc ...  cue "stuff"

A course covers steps [first, first + steps of its body + cues inside it).
A cue is exactly one step. Bodies keep their repeats, so a strand is small.
"""

from __future__ import annotations

from typing import Literal

from hookside.pattern import Basis, CueKind, Node, Record, Weight, Words


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


class Strand(Record):
    """The steps of one run. `id` hashes all that it was made from; a strand never changes."""

    format: Literal[1] = 1
    id: str
    piece: str
    terms: Literal["US", "UK"]
    length: int
    courses: list[StrandCourse]
    cues: list[StrandCue]  # in order of `step`
