"""The shelf: what is there to work, and what is being worked."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from hookside.finish import left
from hookside.journal import Labels
from hookside.web.said import Said

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.readings import Readings

MOST_TOLD = 12  # worked makings, the latest first, of which it is told what is left to finish


def stock(journal: Journal, files: list[Path]) -> None:
    """Put the patterns of our own on a shelf that is bare."""
    if not journal.patterns() and not journal.makings():
        for file in files:
            journal.add_pattern(file.read_text(encoding="utf-8"), None, "own")


def shelf(journal: Journal, readings: Readings, maker: str = "") -> dict[str, Any]:
    """Everything that is at hand, and how this maker likes it."""
    written = Labels(journal.store).kept()

    makings, away = journal.makings(), journal.makings_away()

    def labelled(making: dict[str, Any]) -> dict[str, Any]:
        return {**making, "labels": written["makings"].get(str(making["id"]), [])}

    worked = [making["id"] for making in makings if making["finished"]][:MOST_TOLD]
    to_finish = {id: left for id in worked if (left := left_to_finish(journal, readings, id)) is not None}
    return {
        "epoch": journal.epoch,
        "newest": max((making["id"] for making in [*makings, *away]), default=0),
        "maker": journal.maker(maker),
        "patterns": [
            {**pattern_on_shelf(kept, readings), "labels": written["patterns"].get(kept["id"], [])}
            for kept in journal.patterns()
        ],
        "makings": [{**labelled(making), "to_finish": to_finish.get(making["id"])} for making in makings],
        "away": [labelled(making) for making in away if making["id"] not in written["taken_off"]],
    }


def left_to_finish(journal: Journal, readings: Readings, making: int) -> int | None:
    """How many jobs of the finish list of a making are not done; None where that can't be told."""
    bench = journal.bench(making)
    chosen = journal.choices(making)
    kept = journal.kept_pattern(bench.pattern) if bench else None
    if bench is None or chosen is None or kept is None:
        return None
    copies = {run["run"].partition(".")[0].removeprefix("p"): run["copies"] for run in bench.runs}
    terms = bench.strands[next(iter(bench.state.runs.values())).strand].terms
    try:
        listed = readings.finishing(kept["text"], kept["terms"], terms, copies, bool(chosen["choices"].get("spiral")))
    except Said:
        return None
    ticked = chosen["choices"].get("ticks", {}).get("finish", [])
    return len(left(listed, ticked, bench.state, bench.strands))


def pattern_on_shelf(kept: dict[str, Any], readings: Readings) -> dict[str, Any]:
    """One pattern as the shelf shows it; one without a title by its first line."""
    spine = readings.spine(kept["text"], kept["terms"])
    first = next((line.strip() for line in kept["text"].splitlines() if line.strip()), "")[:80]
    return {"id": kept["id"], "source": kept["source"], **spine, "title": spine["title"] or first}
