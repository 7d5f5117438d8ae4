"""What came out of a file, or why nothing did."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Taken:
    """The text of a file. `kind`: pdf, html or text. `said`: what the maker should know of it, as sentences."""

    text: str
    kind: str
    said: list[str] = field(default_factory=list)


class CannotTake(ValueError):
    """No text comes out of this file; the message says why, and what would do instead."""
