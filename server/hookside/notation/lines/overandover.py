"""Lines that say the same over and over, their numbers aside: looked into some hundred times, then taken for alike."""

from __future__ import annotations

import re
from collections import Counter

from hookside.notation.lines.layout import RawPiece, RawText

MOST_ALIKE = 250  # many times the most that any text needs: a line of talk costs as much as ten rounds
_DIGITS = re.compile(r"\d+")
_WORDS_ALONE = ("story", "cue")


class OverAndOver:
    """How often lines of the same words were nothing but words among the rounds."""

    def __init__(self) -> None:
        self.seen: Counter[str] = Counter()
        self.roles: dict[str, str] = {}

    def learn(self, line: str, end: int, role: str, piece: RawPiece | None) -> None:
        """A line that ends at `end` was cut: counted where all that came of it are the words that stand there."""
        last = piece.items[-1] if role in _WORDS_ALONE and piece is not None and piece.items else None
        if last is None and not self.seen:
            return
        like = _DIGITS.sub("#", line)
        if isinstance(last, RawText) and last.end == end and last.job is None and last.along is None:
            self.seen[like] += 1
            self.roles[like] = role
        elif like in self.seen:
            del self.seen[like]  # a course, once: it takes a look each time

    def role(self, line: str) -> str | None:
        """What a line is without looking at it; None where it was not met so often."""
        if not self.roles:
            return None
        like = _DIGITS.sub("#", line)
        return self.roles[like] if self.seen[like] >= MOST_ALIKE else None
