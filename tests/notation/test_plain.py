"""Bodies read at a glance are read as those that are gone through word by word."""

import dataclasses
import random

import pytest

from hookside.notation import read
from hookside.notation.bodies.chunks import Phrases
from hookside.notation.bodies.phrases import gathered
from hookside.notation.bodies.plain import plain
from hookside.notation.bodies.tokens import Dictionary

NAMES = (Dictionary("US"), Dictionary("UK"))


def told(phrases: Phrases) -> dict[str, object]:
    """All that phrases hold, with chunks that can be compared."""
    held: dict[str, object] = {f.name: getattr(phrases, f.name) for f in dataclasses.fields(phrases)}
    return held | {"chunks": [(c.type, c.value, c.start, c.end) for c in phrases.chunks]}


def body(chance: random.Random) -> str:
    """A body of amounts, brackets and a count, as makers space them, at random."""

    def n() -> int:
        return chance.choice([0, 1, 1, 2, 2, 3, 4, 5, 6, 12, 40, 100, 1000])

    def item() -> str:
        stitch = chance.choice(["sc", "sc", "inc", "dec", "hdc", "dc", "tr", "htr", "invdec"])
        ways = [stitch, stitch, f"{n()} {stitch}", f"{n()}{stitch}", f"{stitch} {n()}", f"{stitch} x {n()}"]
        noun = chance.choice(["st", "sts", "stitch", "stitches", "sc", "dc"])
        spots = [f"in next {noun}", f"in next {n()} {noun}", f"in each of the next {n()} {noun}", f"in the next {noun}"]
        spots += [f"in each {noun} around", f"in every {noun}", "around", "across", "in MR", "in magic ring"]
        spot = chance.choice(spots)
        ways += [f"{stitch} {spot}", f"{n()} {stitch} {spot}"] if chance.random() < 0.5 else []
        return chance.choice([*ways, f"{stitch}x{n()}", f"{stitch} * {n()}", f"{n()}  {stitch}"])

    def row(deep: int) -> str:
        comma = ", " if chance.random() < 0.9 else ","
        single = [not deep or chance.random() < 0.6 for _ in range(chance.randint(1, 4))]
        parts = [item() if one else bracket(deep - 1) for one in single]
        return comma.join(parts)

    def bracket(deep: int) -> str:
        opens, closes = chance.choice(["()", "[]"])
        often = chance.choice([f"x{n()}", f" x{n()}", f"*{n()}", f" {n()} times", f" {n()}x", f" x  {n()}"])
        return f"{opens}{row(deep)}{closes}{often}"

    return row(2) + chance.choice(["", "", " (12)", "(12)", " [7]", " (30).", "\n  ( 8)", " (9 sts)", " [8 stitches]"])


def test_at_a_glance_as_word_by_word() -> None:
    chance = random.Random(26)
    seen = 0
    for at in range(3000):
        text = body(chance)
        text = text.upper() if at % 10 == 0 else text
        if any(c == "," and text[i - 1].isdigit() and text[i + 1].isdigit() for i, c in enumerate(text)):
            continue  # see below
        names = NAMES[at % 2]
        found = plain(text, names)
        if found is not None:
            seen += 1
            assert told(found) == told(gathered(text, names)), text
    assert seen > 400


@pytest.mark.parametrize(
    "text",
    ["(sc, inc)", "(sc, inc x 6", "sc, inc) x 6", "2 sc inc", "sc 3 inc", "sc in next 3", "3 sc 2", "sc,", ""],
)
def test_what_may_mean_more_is_gone_through(text: str) -> None:
    assert plain(text, NAMES[0]) is None


def test_a_comma_between_amounts_is_no_decimal_one() -> None:
    """Common practice, no source: "sc 2,1 inc" is two stitches and an increase."""
    course = read("Rnd 1: 9 sc in MR (9)\nRnd 2: (sc 2,1 inc) x 3 (12)").pieces[0].courses[1]
    assert (course.uses, course.makes) == (9, 12)
