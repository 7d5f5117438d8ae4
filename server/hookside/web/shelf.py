"""The shelf: what is there to work, and what is being worked."""

from __future__ import annotations

import threading
from collections import Counter, OrderedDict
from pathlib import Path
from typing import TYPE_CHECKING, Any, get_args

from hookside.pattern import Finding, Pattern, Severity, Terms

if TYPE_CHECKING:
    from hookside.journal import Journal

KEPT = 64  # readings; one of a long pattern takes about a megabyte


class Readings:
    """Patterns as read, the latest kept: the shelf asks for all of them each time it is looked at."""

    def __init__(self, most: int = KEPT) -> None:
        self.most = most
        self.kept: OrderedDict[tuple[str, Terms | None], Pattern] = OrderedDict()
        self.lock = threading.Lock()

    def read(self, text: str, terms: Terms | None) -> Pattern:
        """The pattern in a text. Not to be changed by the caller."""
        from hookside.compile import read  # lark and the grammar are loaded when something is read

        key = (text, terms)
        with self.lock:
            if key in self.kept:
                self.kept.move_to_end(key)
                return self.kept[key]
        pattern = read(text, terms)
        with self.lock:
            self.kept[key] = pattern
            while len(self.kept) > self.most:
                self.kept.popitem(last=False)
        return pattern


def stock(journal: Journal, files: list[Path]) -> None:
    """Put the patterns of our own on a shelf that is bare."""
    if not journal.patterns() and not journal.makings():
        for file in files:
            journal.add_pattern(file.read_text(encoding="utf-8"), None, "own")


def shelf(journal: Journal, readings: Readings) -> dict[str, Any]:
    """Everything that is at hand."""
    return {
        "epoch": journal.epoch,
        "maker": journal.maker(),
        "patterns": [pattern_on_shelf(kept, readings) for kept in journal.patterns()],
        "makings": journal.makings(),
        "away": journal.makings_away(),
    }


def gravity(finding: Finding) -> Severity:
    """How grave a finding is to the maker. Where only the printed count is off, the stitches can be followed."""
    return "warning" if finding.code == "count" else finding.severity


def pattern_on_shelf(kept: dict[str, Any], readings: Readings) -> dict[str, Any]:
    """One pattern as the shelf shows it."""
    pattern = readings.read(kept["text"], kept["terms"])
    counts = Counter(gravity(finding) for finding in pattern.findings)
    return {
        "id": kept["id"],
        "title": pattern.title,
        "source": kept["source"],
        "pieces": [{"name": p.name, "make": p.make, "courses": len(p.courses)} for p in pattern.pieces],
        "findings": {severity: counts[severity] for severity in get_args(Severity)},
        "can_be_followed": pattern.can_be_followed,
    }
