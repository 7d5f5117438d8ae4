"""What a course is worked into, and what one reading of it comes to: stitches used, made, left over."""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from operator import attrgetter
from typing import Any

from hookside.pattern import Node as Made


@dataclass(slots=True)
class Ground:
    """What a course is worked into. `there`: stitches of the course below, None when not known."""

    there: int | None
    chain: int = 0  # chains of a foundation of their own, not yet worked into
    first: bool = False  # first course of its piece
    declared: int | None = None
    free: bool = False  # another piece's stitches are worked too: what is used cannot be checked
    counts_as: bool | None = None
    layers: bool = False  # two layers at once: every stitch goes into two
    mode: str = ""  # what is worked into of the course to be summed: "" its stitches, "spaces", "both", "chains"
    spaces: bool = False  # the spaces of the course below are among `there`
    gaps: int = 0  # chain spaces of the course below
    sizes: dict[int, int] = field(default_factory=dict)  # chains of a space below -> such spaces
    kept: tuple[int, ...] = ()  # of those spaces, the sizes that are among `there`; () all of them
    chained: int = 0  # chains in those spaces, where each of them is among `there`
    stands: int | None = None  # what the next course is worked into, where its spaces come on top of what it makes
    only: tuple[int, ...] = ()  # of the spaces to be summed, those of so many chains alone are worked into
    apart: bool = False  # "ch 3 (counts), dc in first st": that stitch has a place of its own beside the chain
    both_sides: bool = False  # a chain worked along one side and, past its last chain, back along the other
    oval: bool = False  # ... and begun in its second chain, though no words say so
    lend: tuple[int, ...] = ()  # stitches of the pieces that can be worked into, the next one first
    for_turn: int = 0  # of `chain`, told as those for the turn
    at_most: bool = False  # with `free`: some of `there` are kept back by its own words, and no more are worked


    def told(self) -> tuple[object, ...]:
        """All of it, to remember by what was found on it."""
        return (*_BESIDE_SIZES(self), tuple(self.sizes.items()))

    def but(self, **changed: Any) -> Ground:
        """The same ground with something else in it. `replace` does it too, in twice the time."""
        other = Ground(*_ALL(self))
        for name, value in changed.items():
            setattr(other, name, value)
        return other

    def of_space(self) -> int:
        """How many of `there` a chain space is: one, its chains where they are among them, else none."""
        if self.chained:
            return self.chained // self.gaps if self.gaps and self.chained % self.gaps == 0 else 0
        return 1 if self.spaces else 0


_NAMES = [field.name for field in fields(Ground)]
_ALL = attrgetter(*_NAMES)
_BESIDE_SIZES = attrgetter(*(name for name in _NAMES if name != "sizes"))


@dataclass(slots=True)
class Reading:
    """One way to read a body, summed."""

    picks: tuple[int, ...]
    body: list[Made] = field(default_factory=list)
    uses: int = 0
    makes: int = 0
    unknown: bool = False  # a stretch "around" whose length cannot be known
    uneven: int = 0  # stitches over in a repeat "around" that does not come out even
    over_chain: int = 0
    chain_left: int = 0
    chain: int = 0
    ring: bool = False
    joined: bool = False
    turned: bool = False
    cues: list[tuple[int, int]] = field(default_factory=list)  # cue index, stitches made before it
    filled: bool = False
    empty: bool = False  # a stretch came to nothing, though it was told: its words are not understood
    shared: bool = False  # a counted chain and the stitch told "in first st" may stand on one stitch
    branches: int = 0  # chains inside the course that are worked back along
    spaces: int = 0  # chain spaces made
    chains: int = 0  # chains in them
    sizes: dict[int, int] = field(default_factory=dict)  # chains of a space -> such spaces
    stitches: int = 0  # stitches made, spaces apart

    def counts(self) -> tuple[int, ...]:
        """What a designer may print as the count of this course."""
        if not (self.makes or self.uses):
            return 0, self.chain  # "R1: ch 20, join (20)": chains alone
        if not self.spaces:
            return (self.makes,)
        return self.makes, self.stitches, self.spaces, self.stitches + self.spaces, self.stitches + self.chains


def fits(reading: Reading, ground: Ground) -> bool:
    """Does a reading agree with all that is known: stitches there, printed count?"""
    odd = ground.layers and reading.uneven == 1  # folded flat, one stitch lies at the edge by itself
    if reading.unknown or (reading.uneven and not odd) or reading.over_chain:
        return False
    if ground.declared is not None and ground.declared not in reading.counts():
        return False
    if ground.layers and ground.there is not None and ground.there % 2:
        return reading.uses in (ground.there, ground.there - 1)
    return not goes_astray(reading, ground)


def goes_astray(reading: Reading, ground: Ground) -> bool:
    """Are more stitches worked into than there are, or fewer than have to be?"""
    if ground.there is None:
        return False
    if ground.free:
        return ground.at_most and reading.uses > ground.there
    return reading.uses != ground.there


def misfit(reading: Reading, ground: Ground) -> tuple[int, int]:
    """How far a reading is off: smaller is nearer."""
    if reading.unknown:
        return (9, 10**6)
    wrong = distance = 0
    if ground.declared is not None and ground.declared not in reading.counts():
        wrong += 1
        distance += abs(reading.makes - ground.declared)
    if ground.there is not None and not ground.free and reading.uses != ground.there:
        wrong += 1
        distance += abs(reading.uses - ground.there)
    if reading.uneven or reading.over_chain:
        wrong += 1
        distance += reading.uneven + reading.over_chain
    return wrong, distance
