"""Bodies that differ in their numbers alone are read like each other: "17 sc, inc, 40 sc" and "23 sc, inc, 61 sc".

A long text may tell thousands of rounds so, none like another. What the phrases of such a body say of each number is
learnt from a few readings that all agree, and filled in from there on: the same phrases at the same places, with the
numbers of the body at hand. Numbers that may be words of their own ("2 in one", "ch 3") stay what they are, as do how
many figures each has, which of them are equal and which the greater; so a body is filled in only where nothing that is
asked of its numbers has another answer. A likeness that fails once is given up for good.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import fields, is_dataclass, replace
from operator import itemgetter
from typing import Any

from hookside.notation.bodies.chunks import Chunk, Phrases
from hookside.notation.bodies.phrases import gather
from hookside.notation.bodies.tokens import Dictionary

Numbers = Sequence[int]
Fill = Callable[[Numbers], Any]

_FIRST = 4  # bodies alike that are read before it is worth the trouble to compare them: no part has many more
_SURE = 8  # readings that bear a likeness out before it is relied upon
_ONCE_MORE = 32  # ... and of so many that follow, one is read all the same
_SMALL = 5  # numbers below it stay what they are
_MOST_NUMBERS, _MOST_FIGURES = 12, 4
_NUMBER = re.compile(r"\d+")
_ASIDE = str.maketrans(dict.fromkeys("0123456789", "#"))


class _Unlike(Exception):
    """Two readings differ in more than what their numbers say."""


class _Likeness:
    """What is known of the bodies of one shape."""

    __slots__ = ("agreed", "fill", "fixed", "met", "sample", "unlike")

    def __init__(self) -> None:
        self.met = 0
        self.agreed = 0  # readings that were foretold rightly
        self.sample: tuple[Numbers, Phrases] | None = None
        self.fill: Fill | None = None
        self.fixed: dict[int, int] = {}  # numbers that were the same in both readings that were compared
        self.unlike = False

    def foretells(self, numbers: Numbers) -> bool:
        return self.fill is not None and all(numbers[at] == n for at, n in self.fixed.items())

    def learn(self, numbers: Numbers, phrases: Phrases) -> None:
        """A body was read: what it says is compared with what was expected, or with the reading kept as a sample."""
        if self.unlike or self.met < _FIRST:
            return
        if self.sample is None:
            self.sample = numbers, phrases
            return
        try:
            if self.fill is not None and self.foretells(numbers):
                if _filled(self.fill(numbers), phrases, {}) is not None:
                    raise _Unlike
                self.agreed += 1
            else:
                self._compare(self.sample, numbers, phrases)
        except _Unlike:
            self.unlike, self.fill, self.sample = True, None, None

    def _compare(self, sample: tuple[Numbers, Phrases], numbers: Numbers, phrases: Phrases) -> None:
        before, said = sample
        fixed = {at: n for at, n in enumerate(numbers) if n == before[at] >= _SMALL}
        if self.fill is not None and len(fixed) >= len(self.fixed):
            return
        moved = {pair: at for at, pair in enumerate(zip(before, numbers, strict=True)) if pair[0] != pair[1]}
        self.fill, self.fixed, self.agreed = _filled(said, phrases, moved) or (lambda _: said), fixed, 0


class NumbersAside:
    """Reads the bodies of one text, each once and those like many before it by their numbers alone."""

    def __init__(self) -> None:
        self.known: dict[tuple[str, tuple[int, ...]], _Likeness] = {}

    def read(self, body: str, names: Dictionary) -> Phrases:
        figures = _NUMBER.findall(body)
        if not figures or len(figures) > _MOST_NUMBERS or max(map(len, figures)) > _MOST_FIGURES:
            return gather(body, names)
        numbers = [int(n) for n in figures]
        order = sorted({n for n in numbers if n >= _SMALL})
        if not order:
            return gather(body, names)
        ranks = tuple([n if n < _SMALL else _SMALL + order.index(n) for n in numbers])
        likeness = self.known.setdefault((body.translate(_ASIDE), ranks), _Likeness())
        likeness.met += 1
        sure = likeness.agreed >= _SURE and likeness.met % _ONCE_MORE
        if sure and likeness.fill is not None and likeness.foretells(numbers):
            filled: Phrases = likeness.fill(numbers)
            return filled
        phrases = gather(body, names)
        likeness.learn(numbers, phrases)
        return phrases


def _filled(one: Any, other: Any, moved: dict[tuple[int, int], int]) -> Fill | None:
    """How what was read of one body becomes what was read of another, by their numbers; None where both are the same.

    `moved`: the numbers that are not the same in both, with their places.
    """
    if type(one) is not type(other):
        raise _Unlike
    if isinstance(one, Chunk):
        if (one.type, one.start, one.end) != (other.type, other.start, other.end):
            raise _Unlike
        kind, start, end, value = one.type, one.start, one.end, _filled(one.value, other.value, moved)
        return None if value is None else lambda numbers: Chunk(kind, value(numbers), start, end)
    if isinstance(one, list | tuple):
        if len(one) != len(other):
            raise _Unlike
        parts = [_filled(a, b, moved) for a, b in zip(one, other, strict=True)]
        made = one._make if hasattr(one, "_make") else type(one)
        each = [(a, part) for a, part in zip(one, parts, strict=True)]
        told = any(part is not None for part in parts)
        return (lambda numbers: made([part(numbers) if part else a for a, part in each])) if told else None
    if is_dataclass(one) and not isinstance(one, type):
        of = {f.name: _filled(getattr(one, f.name), getattr(other, f.name), moved) for f in fields(one)}
        new = {name: part for name, part in of.items() if part is not None}
        return (lambda numbers: replace(one, **{name: part(numbers) for name, part in new.items()})) if new else None
    if one == other:
        return None
    if not isinstance(one, int) or (one, other) not in moved:
        raise _Unlike
    return itemgetter(moved[one, other])
