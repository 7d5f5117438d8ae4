"""What is left of a making: in stitches, rounds and time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hookside.follow import State, Strand, courses_done, stitches_before
from hookside.record.sittings import Pace

# Working single crochet, stitches a minute (common practice, no source): a beginner 6 to 12, a practised hand 20 to 45.
ANYBODY = Pace(15.0, 6.0, 45.0, 0)


@dataclass(frozen=True, slots=True)
class Left:
    """Stitches and courses still to be worked, of how many; minutes for them as (about, least, most)."""

    stitches: int
    stitches_of: int
    courses: int
    courses_of: int
    by_run: Mapping[str, tuple[int, int]]  # of each run: stitches left, of how many
    minutes: tuple[float, float, float]
    own: bool  # by the maker's own pace, and not by anybody's
    unread: int  # courses left whose stitches nobody could count: they come on top


def left(state: State, strands: Mapping[str, Strand], own: Pace | None) -> Left:
    """What is left of all runs. Finishing is not in it: stuffing and sewing are no stitches."""
    by_run: dict[str, tuple[int, int]] = {}
    done = courses = unread = 0
    for name, run in state.runs.items():
        strand = strands[run.strand]
        whole = stitches_before(strand, strand.length)
        by_run[name] = (max(0, whole - stitches_before(strand, run.at)), whole)
        done += courses_done(strand, run.at)
        courses += len(strand.courses)
        unread += sum(1 for course in strand.courses if not course.read and course.end > run.at)
    stitches = sum(one for one, _ in by_run.values())
    by = own or ANYBODY
    return Left(
        stitches=stitches,
        stitches_of=sum(whole for _, whole in by_run.values()),
        courses=courses - done,
        courses_of=courses,
        by_run=by_run,
        minutes=(stitches / by.value, stitches / by.high, stitches / by.low),
        own=own is not None,
        unread=unread,
    )
