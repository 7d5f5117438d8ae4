"""The last item of a growing list that passes a test, without walking back over the same items for each that asks."""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, TypeVar

T = TypeVar("T")


class Latest(Generic[T]):
    """Looks among what was put behind where it was asked before: thousands of items may stand behind the last one that
    passes, or before any, and each asks. Where something was set in, or taken out, in front, it looks anew.
    """

    def __init__(self, passes: Callable[[T], bool]) -> None:
        self.passes = passes
        self.known = 0  # how many items were looked at
        self.end: T | None = None  # ... the last of them
        self.found: T | None = None

    def among(self, items: list[T]) -> T | None:
        if not (0 < self.known <= len(items) and items[self.known - 1] is self.end):
            self.known, self.found = 0, None
        for at in range(len(items) - 1, self.known - 1, -1):
            if self.passes(items[at]):
                self.found = items[at]
                break
        if items:
            self.known, self.end = len(items), items[-1]
        return self.found
