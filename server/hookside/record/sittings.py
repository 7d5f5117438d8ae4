"""Moves with their times -> sittings and the maker's own pace.

Times are seconds since 1970 by the clock of the machine that kept the journal: good for how long something took within
a sitting, never for the order of moves. A clock that was put back ends a sitting.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hookside.follow import Strand, stitches_before

REST = 20 * 60.0  # seconds without a move that end a sitting: a large round told at its end takes a beginner less
HANDS = ("next", "undo", "back", "done")  # what follows the hook; the rest says where it is and tells nothing of pace
SHORT = 3 * 60.0  # a sitting under so many seconds, or under so few stitches, says nothing of pace
FEW = 20
FASTEST = 120.0  # stitches a minute: recounting by touch is no faster (at the chair: 60 to 120); quicker is catching up
LATELY = 8  # sittings that the pace is taken from: a hand gets quicker, and another yarn is another pace
SURE = 1.28  # standard deviations to either side that hold four of five
LEAST_SPREAD = 0.15
UNSURE_SPREAD = 0.4  # of a pace from fewer than three sittings


@dataclass(frozen=True, slots=True)
class Worked:
    """One move: when, of which run, stitches made by it (negative: taken back); `hands` is False for a jump, `ripped`
    True where the work was pulled out."""

    when: float
    run: str
    stitches: int
    hands: bool
    ripped: bool = False


@dataclass(frozen=True, slots=True)
class Sitting:
    """One stretch of work: from its first move to its last, in seconds; stitches made; moves; runs in hand."""

    begun: float
    ended: float
    stitches: int
    moves: int
    runs: tuple[str, ...]
    paced: int  # stitches made after the first move, by hand: what the seconds were spent on

    @property
    def seconds(self) -> float:
        return self.ended - self.begun

    @property
    def a_minute(self) -> float | None:
        """Stitches a minute; None where the sitting is too short to tell, or nothing was worked by hand."""
        if self.seconds < SHORT or self.paced < FEW:
            return None
        rate = self.paced * 60 / self.seconds
        return rate if rate <= FASTEST else None


@dataclass(frozen=True, slots=True)
class Pace:
    """Stitches a minute, between `low` and `high` in four sittings of five, from so many sittings."""

    value: float
    low: float
    high: float
    sittings: int


def worked(rows: Iterable[Mapping[str, Any]], strands: Mapping[str, Strand]) -> list[Worked]:
    """Applied moves as {when, run, strand, intent, from, to} -> what was worked by each, in their order.

    Where a run went onto another strand in between, a mend for one, its stitches may be another number: that difference
    is nobody's work and stands by itself, so that the sum is what lies behind the hook.
    """
    found = []
    behind: dict[str, int] = {}  # of each run, after its last move
    for row in rows:
        run, strand = row["run"], strands[row["strand"]]
        before, after = stitches_before(strand, row["from"]), stitches_before(strand, row["to"])
        if recast := before - behind.get(run, before):
            found.append(Worked(row["when"], run, recast, hands=False))
        behind[run], made = after, after - before
        found.append(Worked(row["when"], row["run"], made, row["intent"] in HANDS, row["intent"] == "rip"))
    return found


def sittings(moves: Sequence[Worked]) -> list[Sitting]:
    """The sittings of moves in their order. A move of a backlog that came later stands where it was written down."""
    found: list[list[Worked]] = []
    for move in moves:
        if found and 0 <= move.when - found[-1][-1].when <= REST:
            found[-1].append(move)
        else:
            found.append([move])
    return [_sitting(one) for one in found]


def _sitting(moves: Sequence[Worked]) -> Sitting:
    return Sitting(
        begun=moves[0].when,
        ended=moves[-1].when,
        stitches=sum(move.stitches for move in moves),
        moves=len(moves),
        runs=tuple(dict.fromkeys(move.run for move in moves)),
        paced=sum(move.stitches for move in moves[1:] if move.hands),
    )


def pace(found: Sequence[Sitting]) -> Pace | None:
    """The maker's own pace from her last sittings; None before there is one that tells.

    Stitches over minutes, so that a long sitting weighs more. The spread is that between sittings, on a scale of
    ratios, because twice as quick and half as quick are as far from the middle.
    """
    telling = [(one, rate) for one in found if (rate := one.a_minute) is not None][-LATELY:]
    if not telling:
        return None
    minutes = sum(one.seconds for one, _ in telling) / 60
    value = sum(one.paced for one, _ in telling) / minutes
    if len(telling) < 3:
        return Pace(value, value * (1 - UNSURE_SPREAD), value * (1 + UNSURE_SPREAD), len(telling))
    apart = [math.log(rate / value) * math.sqrt(one.seconds / 60 / minutes) for one, rate in telling]
    spread = max(LEAST_SPREAD, SURE * math.sqrt(sum(a * a for a in apart)))
    return Pace(value, value * math.exp(-spread), value * math.exp(spread), len(telling))
