"""Stitches that a text names and does not explain in numbers: what they make, found by its printed counts.

Each is supposed to be an increase, or a decrease, where that makes more courses come out as they are printed than one
stitch for one does. What is supposed is said, and never overrides a count that the words give.
"""

from __future__ import annotations

from collections.abc import Callable

from hookside.pattern import Pattern

Sums = dict[str, tuple[int, int]]

MOST_NAMES = 3  # stitches that are tried, each in two ways more
LONGEST = 16_000  # characters of a text that is read again for it
_WAYS = ((1, 2), (2, 1))
_FEWEST = 2  # courses that come out by it, and did not before


def settled(names: list[str], pattern: Pattern, read: Callable[[Sums], Pattern], length: int) -> Sums:
    """The names of which something else than one for one fits the printed counts -> stitches used and made.

    `read` reads the same text with stitches supposed so; it is called six times at most.
    """
    found: Sums = {}
    best = _astray(pattern)
    if length > LONGEST or len(names) > MOST_NAMES or best < _FEWEST:
        return found
    for name in names:
        for sums in _WAYS:
            astray = _astray(read({**found, name: sums}))
            if astray <= best - _FEWEST:
                best, found = astray, {**found, name: sums}
    return found


def _astray(pattern: Pattern) -> int:
    """Courses that come out otherwise than printed, or do not fit upon the course below."""
    courses = {(f.piece, f.course_id or f.course) for f in pattern.findings if f.severity == "error" and f.course}
    return len(courses)
