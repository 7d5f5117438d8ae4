"""The shelf: what is there to work, and what is being worked."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from hookside.journal import Labels

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.readings import Readings


def stock(journal: Journal, files: list[Path]) -> None:
    """Put the patterns of our own on a shelf that is bare."""
    if not journal.patterns() and not journal.makings():
        for file in files:
            journal.add_pattern(file.read_text(encoding="utf-8"), None, "own")


def shelf(journal: Journal, readings: Readings, maker: str = "") -> dict[str, Any]:
    """Everything that is at hand, and how this maker likes it."""
    written = Labels(journal.store).kept()

    def labelled(making: dict[str, Any]) -> dict[str, Any]:
        return {**making, "labels": written["makings"].get(str(making["id"]), [])}

    return {
        "epoch": journal.epoch,
        "maker": journal.maker(maker),
        "patterns": [
            {**pattern_on_shelf(kept, readings), "labels": written["patterns"].get(kept["id"], [])}
            for kept in journal.patterns()
        ],
        "makings": [labelled(making) for making in journal.makings()],
        "away": [labelled(making) for making in journal.makings_away() if making["id"] not in written["taken_off"]],
    }


def pattern_on_shelf(kept: dict[str, Any], readings: Readings) -> dict[str, Any]:
    """One pattern as the shelf shows it."""
    return {"id": kept["id"], "source": kept["source"], **readings.spine(kept["text"], kept["terms"])}
