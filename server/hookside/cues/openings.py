"""How wide a piece stands open after each round, and where something still goes in."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import pi

from hookside.pattern import Cue, Pattern, Piece
from hookside.shape.asked import Asked
from hookside.shape.errors import CannotBeMeasured
from hookside.shape.fabric import stitches
from hookside.shape.gauge import Gauge
from hookside.shape.working import worked_with

# Across, in mm; common practice, no source, but for the figures of size: 18 stitches of 5 mm are 28.6 mm, 12 are 19.1.
FINGERS = 28.0  # two fingers with stuffing between them ("stuff by 18, top up at 12")
TOP_UP = 15.0  # the blunt end of a hook, and no more
HAND = 45.0  # enough to hold a washer against the inside
SHUT = 12.0  # what is drawn shut

NOT_STUFFED = re.compile(
    r"\b(?:do not|don't|no need to|without|never)\s+stuff|\bunstuffed\b|\bno stuffing\b", re.IGNORECASE
)
FILLING = re.compile(
    r"\bstuffing|\bfib(?:er|re)\s?fill|\bpoly\s?fill|\bwadding|\btoy filling|\bhollow\s?fib", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Opened:
    """A piece in rounds. `across[i]`: its opening after course i, mm; None where a count is not known."""

    piece: Piece
    across: tuple[float | None, ...]

    @property
    def shuts(self) -> bool:
        """Whether the last round is drawn shut, by the text or by what is left of it."""
        last = self.across[-1]
        said = any(cue.kind == "close" for cue in self.piece.cues)
        return said or (last is not None and last <= SHUT and last < max(a or 0.0 for a in self.across))

    @property
    def widest(self) -> int:
        """The last course that is as wide as the widest."""
        widths = [a or 0.0 for a in self.across]
        return max(i for i, a in enumerate(widths) if a == max(widths))

    def last_open(self, mm: float) -> int | None:
        """The last course after which it stands open at least `mm`, from where it only narrows; None: it never does."""
        found = [i for i, a in enumerate(self.across) if a is not None and a >= mm]
        return found[-1] if found else None

    def index(self, cue: Cue) -> int | None:
        """The course a cue of this piece follows; -1: it stands before the first."""
        if cue.course_id is None:
            return -1
        return next((i for i, course in enumerate(self.piece.courses) if course.id == cue.course_id), None)


def opened(piece: Piece, gauge: Gauge) -> Opened | None:
    """The openings of a piece worked in rounds, at least three; None for another."""
    rounds = piece.courses
    if len(rounds) < 3 or any(course.kind != "round" for course in rounds):
        return None
    counts = [stitches(course) for course in rounds]
    if not any(counts):
        return None
    return Opened(piece, tuple(None if n is None else n * gauge.width / pi for n in counts))


def gauge_of(pattern: Pattern, asked: Asked | None = None) -> Gauge:
    """What there is to measure with; a gauge that cannot be is passed over: `measure` says what is wrong."""
    for asks in (asked or Asked(), Asked()):
        try:
            return worked_with(pattern, asks)[0]
        except CannotBeMeasured:
            continue
    return worked_with(pattern.model_copy(update={"gauge": ""}), Asked())[0]
