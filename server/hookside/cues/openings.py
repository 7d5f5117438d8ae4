"""How wide a piece stands open after each round, and where something still goes in."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import pi

from hookside.pattern import Cue, Pattern, Piece
from hookside.shape.fabric import stitches
from hookside.shape.gauge import Gauge

# Across, in mm; common practice, no source, but for the figures of size: 18 stitches of 5 mm are 28.6 mm, 12 are 19.1.
FINGERS = 28.0  # two fingers with stuffing between them ("stuff by 18, top up at 12")
TOP_UP = 15.0  # the blunt end of a hook, and no more
HAND = 45.0  # enough to hold a washer against the inside
SHUT = 12.0  # what is drawn shut
WAIST = 0.8  # of what lies on either side of it: what is narrower than that is a neck (a guess)

FILLING = re.compile(
    r"\bstuffing|\bfib(?:er|re)\s?fill|\bpoly\s?fill|\bwadding|\btoy filling|\bhollow\s?fib", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Neck:
    """Where fingers fit before and not within. `before`: the last course still wide enough; `after`: the last that is
    not; `narrowest` of them, `mm` across."""

    before: int
    after: int
    narrowest: int
    mm: float


@dataclass(frozen=True, slots=True)
class Opened:
    """A piece in rounds. `across[i]`: its opening after course i, mm; None where a count is not known.

    `places`: its courses by their ids; a piece may have thousands of cues, of which each asks where it stands.
    """

    piece: Piece
    across: tuple[float | None, ...]
    places: dict[str, int]

    @property
    def shuts(self) -> bool:
        """Whether the last round is drawn shut, by the text or by what is left of it."""
        last = self.across[-1]
        said = any(cue.kind == "close" for cue in self.piece.cues)
        return said or (last is not None and last <= SHUT and last < max(a or 0.0 for a in self.across))

    @property
    def widest(self) -> int:
        """The last course that is as wide as the widest."""
        return self.widest_in((0, len(self.across) - 1))

    def widest_in(self, reach: tuple[int, int]) -> int:
        """The last course that is as wide as the widest from the first to the last of `reach`."""
        return max(range(reach[0], reach[1] + 1), key=lambda i: (self.across[i] or 0.0, i))

    def last_open(self, mm: float, reach: tuple[int, int] | None = None) -> int | None:
        """The last course after which it stands open at least `mm`, within `reach`; None: it never does."""
        first, last = reach or (0, len(self.across) - 1)
        found = [i for i in range(first, last + 1) if (self.across[i] or 0.0) >= mm]
        return found[-1] if found else None

    def necks(self, long: int | None = None) -> list[Neck]:
        """Where it narrows so that fingers do not fit any more, and widens again; what runs on as narrow as that to an
        open end is one too, if it does so for more than `long` courses. A count that is not known is taken as wide."""
        widths = [FINGERS if a is None else a for a in self.across]
        found: list[Neck] = []
        at = 0
        while at < len(widths):
            if widths[at] >= FINGERS:
                at += 1
                continue
            end = next((i for i in range(at, len(widths)) if widths[i] >= FINGERS), len(widths))
            before = max(widths[found[-1].after + 1 if found else 0 : at], default=0.0)
            behind = max(widths[end:], default=0.0)
            narrowest = min(range(at, end), key=lambda i: widths[i])
            mm = widths[narrowest]
            widens = before >= FINGERS and mm <= WAIST * min(before, behind)
            tube = end == len(widths) and before >= FINGERS and not self.shuts and long is not None and end - at > long
            if widens or tube:
                found.append(Neck(at - 1, end - 1, narrowest, mm))
            at = end
        return found

    def reach(self, row: int) -> tuple[int, int]:
        """The first and last course from which what lies at course `row` is in reach: no neck lies between."""
        first, last = 0, len(self.across) - 1
        for neck in self.necks():
            if row > neck.after:
                first = neck.after + 1
            elif row <= neck.before:
                last = min(last, neck.before)
        return first, last

    def index(self, cue: Cue) -> int | None:
        """The course a cue of this piece follows; -1: it stands before the first."""
        if cue.course_id is None:
            return -1
        return self.places.get(cue.course_id)


def opened(piece: Piece, gauge: Gauge) -> Opened | None:
    """The openings of a piece worked in rounds, at least three; None for another."""
    rounds = piece.courses
    if len(rounds) < 3 or any(course.kind != "round" for course in rounds):
        return None
    counts = [stitches(course) for course in rounds]
    if not any(counts):
        return None
    across = tuple(None if n is None else n * gauge.width / pi for n in counts)
    return Opened(piece, across, {course.id: at for at, course in enumerate(rounds)})


def all_opened(pattern: Pattern, gauge: Gauge) -> dict[int, Opened]:
    """Its pieces in rounds, by their number."""
    return {n: found for n, piece in enumerate(pattern.pieces) if (found := opened(piece, gauge)) is not None}
