"""Edits of single stitches in a row of them: one of them takes up, or makes, one more or fewer."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from hookside.mend.kinds import DECREASES, INCREASES, alike, base_of, decrease, increase, plain_stitch
from hookside.pattern import Group


@dataclass(frozen=True, slots=True)
class Change:
    """Stitches taken up and stitches made, more than before."""

    used: int
    made: int


def edited(units: list[Group], change: Change, decrease_key: str) -> list[Group] | None:
    """The units with the change made, the smallest edit first."""
    match (change.used, change.made):
        case (-1, 0):
            return _freed(units) or _paired_up(units)
        case (1, 0):
            return _flattened(units) or _widened(units, decrease_key)
        case (0, -1):
            return _lowered(units) or _taken_together(units, decrease_key)
        case (0, 1):
            return _parted(units) or _raised(units)
        case (-1, -1):
            at = _middle_plain(units, 1)
            return None if at is None or len(units) == 1 else [*units[:at], *units[at + 1 :]]
        case (1, 1):
            at = _middle_plain(units, 1)
            return None if at is None else [*units[:at], units[at], *units[at:]]
        case _:
            return None


def _last(units: list[Group], which: str) -> int | None:
    wanted = increase if which == "increase" else decrease
    return next((i for i in range(len(units) - 1, -1, -1) if wanted(units[i])), None)


def _plain_of(unit: Group) -> Group:
    """The plain stitch an increase or decrease is made of."""
    return unit.model_copy(update={"stitch": base_of(unit), "uses": 1, "makes": 1, "steps": 1})


def _increase_of(unit: Group) -> Group:
    return unit.model_copy(update={"stitch": INCREASES[unit.stitch], "uses": 1, "makes": 2, "steps": 2})


def _decrease_of(unit: Group, key: str) -> Group:
    named = key if unit.stitch == "sc" and key else DECREASES[unit.stitch]
    return unit.model_copy(update={"stitch": named, "uses": 2, "makes": 1, "steps": 1})


def _freed(units: list[Group]) -> list[Group] | None:
    """One decrease left out: a plain stitch in its place."""
    at = _last(units, "decrease")
    return None if at is None else [*units[:at], _plain_of(units[at]), *units[at + 1 :]]


def _flattened(units: list[Group]) -> list[Group] | None:
    """One increase left out, its two stitches worked into two."""
    at = _last(units, "increase")
    return None if at is None else [*units[:at], _plain_of(units[at]), _plain_of(units[at]), *units[at + 1 :]]


def _lowered(units: list[Group]) -> list[Group] | None:
    """One increase left out: a single stitch in its place."""
    at = _last(units, "increase")
    return None if at is None else [*units[:at], _plain_of(units[at]), *units[at + 1 :]]


def _parted(units: list[Group]) -> list[Group] | None:
    """One decrease left out: its two stitches each worked."""
    at = _last(units, "decrease")
    return None if at is None else [*units[:at], _plain_of(units[at]), _plain_of(units[at]), *units[at + 1 :]]


def _raised(units: list[Group]) -> list[Group] | None:
    """One plain stitch becomes an increase."""
    at = _middle_plain(units, 1)
    return None if at is None else [*units[:at], _increase_of(units[at]), *units[at + 1 :]]


def _widened(units: list[Group], key: str) -> list[Group] | None:
    """One plain stitch becomes a decrease: it takes up one stitch more."""
    at = _middle_plain(units, 1)
    return None if at is None else [*units[:at], _decrease_of(units[at], key), *units[at + 1 :]]


def _taken_together(units: list[Group], key: str) -> list[Group] | None:
    """Two plain stitches become a decrease."""
    at = _middle_plain(units, 2)
    return None if at is None else [*units[:at], _decrease_of(units[at], key), *units[at + 2 :]]


def _paired_up(units: list[Group]) -> list[Group] | None:
    """Two plain stitches become an increase; the two that stand nearest each other, where none are neighbours."""
    at = _middle_plain(units, 2)
    if at is not None:
        return [*units[:at], _increase_of(units[at]), *units[at + 2 :]]
    plain = [i for i, unit in enumerate(units) if plain_stitch(unit)]
    pairs = [(b - a, -a) for a, b in pairwise(plain) if alike(units[a], units[b])]
    if not pairs:
        return None
    gap, first = min(pairs)
    a, b = -first, gap - first
    return [*units[:a], *units[a + 1 : b], _increase_of(units[b]), *units[b + 1 :]]


def _middle_plain(units: list[Group], many: int) -> int | None:
    """Where `many` plain stitches stand in the middle of the longest stretch of them, of two the later."""
    best: tuple[int, int] | None = None
    start = 0
    for i in range(len(units) + 1):
        same = i < len(units) and plain_stitch(units[i]) and (i == start or alike(units[i], units[start]))
        if same:
            continue
        size = i - start
        if size >= many and plain_stitch(units[start]) and (best is None or size >= best[0]):
            best = (size, start)
        start = i if i < len(units) and plain_stitch(units[i]) else i + 1
    return None if best is None else best[1] + (best[0] - many) // 2
