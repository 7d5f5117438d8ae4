"""One maker's habits: every choice of words is made once for a text, by chance, and remembered by its name.

Each choice has a chance of its own (the text's number and the choice's name), so that a new choice added anywhere
leaves all others of the same text as they were. `marks` collects which choices a course was printed with.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence


class Dialect:
    """Habits of text number `number`. `also` fixes choices beforehand, by name."""

    def __init__(self, number: int, also: Mapping[str, str] | None = None) -> None:
        self.number = number
        self.chosen: dict[str, str] = dict(also or {})
        self.marks: set[str] = set()

    def chance(self, name: str) -> random.Random:
        """A stream of chance that belongs to `name` alone."""
        return random.Random(f"{self.number}/{name}")

    def pick(self, name: str, options: Sequence[str] | Mapping[str, float]) -> str:
        """The habit called `name`: one of `options` (a mapping gives weights), the same whenever it is asked for."""
        if name not in self.chosen:
            words = list(options)
            weights = list(options.values()) if isinstance(options, Mapping) else None
            self.chosen[name] = self.chance(name).choices(words, weights)[0]
        self.marks.add(f"{name}={self.chosen[name]}")
        return self.chosen[name]

    def has(self, name: str, share: float) -> bool:
        """A habit that one maker in so many has."""
        return self.pick(name, {"yes": share, "no": 1 - share}) == "yes"

    def now(self, name: str, options: Sequence[str] | Mapping[str, float], salt: object) -> str:
        """A choice made anew each time (`salt` says which time), and marked like a habit."""
        words = list(options)
        weights = list(options.values()) if isinstance(options, Mapping) else None
        got = self.chance(f"{name}/{salt}").choices(words, weights)[0]
        self.marks.add(f"{name}={got}")
        return got
