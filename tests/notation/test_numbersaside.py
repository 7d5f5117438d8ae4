"""Bodies that differ in their numbers alone: what is filled in is what reading would have found, and it is soon so."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from hookside.notation import read
from hookside.notation.bodies import numbersaside
from hookside.notation.bodies.chunks import Phrases
from hookside.notation.bodies.numbersaside import NumbersAside
from hookside.notation.bodies.phrases import gather
from hookside.notation.bodies.tokens import Dictionary

HERE = Path(__file__).parent
_NUMBER = re.compile(r"\d+")
_ASKED = 60  # bodies of the samples, each with other numbers
_TIMES = 28


def told(phrases: Phrases) -> tuple[str, list[tuple[str, str, int, int]]]:
    chunks = [(c.type, repr(c.value), c.start, c.end) for c in phrases.chunks]
    return repr(replace(phrases, chunks=[])), chunks


def others(body: str, rng: random.Random) -> Iterator[str]:
    """The body with other numbers of as many figures, as many of them equal, in the same order of size."""
    known = sorted({int(n) for n in _NUMBER.findall(body)})
    parts = re.split(r"(\d+)", body)
    for _ in range(_TIMES):
        drawn: dict[int, int] = {}
        for figures in {len(str(n)) for n in known}:
            mine = [n for n in known if len(str(n)) == figures and n >= 5]
            there = range(max(5, 10 ** (figures - 1)), 10**figures)
            drawn |= dict(zip(mine, sorted(rng.sample(there, len(mine))), strict=True))
        new = [str(drawn.get(int(told), told)) if told[:1] in set("123456789") else told for told in parts]
        yield "".join(new)


def bodies() -> list[str]:
    """Bodies of labelled lines in the samples, and those of `bodies.txt`."""
    found = [line.split("|")[1] for line in (HERE / "bodies.txt").read_text("utf-8").splitlines() if "|" in line]
    for path in sorted(HERE.glob("runs*.txt")):
        found += re.findall(r"^(?:R|Rnd|Round|Row)s? ?\d+(?:-\d+)?[:.] (.{6,90})$", path.read_text("utf-8"), re.M)
    alike = {body.translate(str.maketrans("0123456789", "#" * 10)): body for body in found}
    return [body for body in alike.values() if any(len(n) < 4 for n in _NUMBER.findall(body))]


def test_what_is_filled_in_is_what_reading_finds() -> None:
    rng = random.Random(7)
    names = Dictionary("US")
    filled = 0
    for body in rng.sample(bodies(), _ASKED):
        aside = NumbersAside()
        for other in others(body, rng):
            assert told(aside.read(other, names)) == told(gather(other, names)), other
        filled += sum(likeness.agreed >= 8 for likeness in aside.known.values())
    assert filled > _ASKED / 3


def test_thousands_of_bodies_unlike_in_their_numbers_are_read_some_dozen_times(monkeypatch: pytest.MonkeyPatch) -> None:
    """demo: every way to part 99 stitches in three."""
    gathered = []
    monkeypatch.setattr(numbersaside, "gather", lambda body, names: gathered.append(body) or gather(body, names))
    ways = [(a, b, 99 - a - b) for a in range(30, 70) for b in range(10, 89 - a)]
    lines = [f"Rnd {n}: {a} sc, {b} sc in the back loop only, {c} sc (99)" for n, (a, b, c) in enumerate(ways, 3)]
    pattern = read("Rnd 1: ch 99, join to form a ring (99)\nRnd 2: sc in each ch around (99)\n" + "\n".join(lines))
    assert [course.makes for course in pattern.pieces[0].courses][-len(ways) :] == [99] * len(ways)
    assert len(ways) > 1_000
    assert len(gathered) < len(ways) / 3


def test_a_likeness_that_fails_is_given_up() -> None:
    """demo: a number that stands for another stitch from sixty on, as none does."""
    def odd(body: str, names: Dictionary) -> Phrases:
        phrases = gather(body, names)
        if int(body.split()[0]) >= 60:
            phrases.trails = True
        return phrases

    aside, names = NumbersAside(), Dictionary("US")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(numbersaside, "gather", odd)
        for n in [*range(20, 24), 61, 62, *range(24, 59)]:
            assert aside.read(f"{n} sc, inc", names).trails == (n >= 60)
    assert [likeness.unlike for likeness in aside.known.values()] == [True]
