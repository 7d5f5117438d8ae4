"""The upper edge of the fabric: what there is for the next course to be worked into."""

from __future__ import annotations

from dataclasses import dataclass, field

from hookside.notation.arithmetic.choosing import Chosen
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.courses.spaces import BOTH, CHAINED, SPACES
from hookside.notation.courses.waiting import Waiting
from hookside.pattern import Course


@dataclass(slots=True)
class Edge:
    """Stitches, chains and spaces that the course below made."""

    there: int | None  # stitches; None where nobody knows
    first: bool  # no course was worked yet
    maybe: int | None = None  # what the course below prints, where that is something else
    sound: bool = False  # ... though its stitches use all that was there
    chain: int = 0
    spaced: bool = False
    gaps: int = 0
    sizes: dict[int, int] = field(default_factory=dict)
    kept: tuple[int, ...] = ()
    chained: int = 0
    for_turn: int = 0  # of `chain`, told as those for the turn

    def ground(self, declared: int | None, below: Waiting | None) -> Ground:
        first = self.first or (self.there is None and self.chain > 0 and (below is None or below.label == 0))
        return Ground(
            self.there,
            self.chain,
            first,
            declared,
            spaces=self.spaced,
            gaps=self.gaps,
            sizes=self.sizes,
            kept=self.kept,
            chained=self.chained,
            for_turn=self.for_turn,
        )

    def above(self, todo: Waiting, taken: Chosen | None, ground: Ground, course: Course) -> Edge:
        """The edge that a course leaves, worked on this one."""
        made = Edge(todo.declared, self.first, spaced=ground.mode in (SPACES, BOTH), kept=ground.only)
        if taken is not None:
            reading = taken.reading
            made.sizes = reading.sizes
            made.gaps = sum(reading.sizes.get(size, 0) for size in ground.only) if ground.only else reading.spaces
            made.chained = reading.chains if ground.mode == CHAINED else 0
            if course.read:
                made.there = (ground.stands or reading.makes) if reading.makes else None
                made.chain = reading.chain if reading.makes == 0 and reading.chain > 0 else 0
                if todo.declared is not None and todo.declared != reading.makes:
                    made.maybe = todo.declared
                    made.sound = reading.uses == ground.there and not reading.uneven
                elif ground.there is not None and 0 < reading.uses < ground.there and reading.makes:
                    made.maybe = reading.makes + ground.there - reading.uses  # what it left may be worked again
        made.first = self.first and todo.label == 0 and made.there is None
        return made
