"""What of a finish list is done, by ticks and by what was answered on the bench, and what is left of it. Its twin is
frontend/src/pages/bench/finishing.ts."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from hookside.finish.item import FinishItem
from hookside.follow import State, Strand


def answered(items: Sequence[FinishItem], state: State, strands: Mapping[str, Strand]) -> set[str]:
    """Ids of the jobs of the text that were answered on the bench already."""
    passed: set[str] = set()
    for run in state.runs.values():
        passed |= {cue.address for cue in strands[run.strand].cues if cue.step < run.at}
    return {item.id for item in items if item.cue is not None and item.cue in passed}


def passed_by(items: Sequence[FinishItem], done: Collection[str]) -> set[str]:
    """Ids of what makes ready for a seam, was never said to be done, and has no time any more: the seam is made."""
    seam = max((n for n, item in enumerate(items) if item.kind == "sew" and item.id in done), default=-1)
    return {
        item.id for item in items[: max(seam, 0)] if item.cue is None and item.kind != "sew" and item.id not in done
    }


def left(
    items: Sequence[FinishItem], ticked: Collection[str], state: State, strands: Mapping[str, Strand]
) -> list[FinishItem]:
    """What is not done yet, in order: neither ticked nor answered on the bench, nor passed by."""
    done = answered(items, state, strands) | set(ticked)
    over = done | passed_by(items, done)
    return [item for item in items if item.id not in over]
