"""Any generated piece, printed in any style, reads back to the same stitches."""

import random
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

sys.path.insert(0, str(Path(__file__).parent))

from styles import STYLES, Made

from hookside.notation import read


@st.composite
def pieces(draw: st.DrawFn) -> list[Made]:
    there = draw(st.integers(4, 12))
    made = [Made(1, there, 0, "", 0, 0, there)]
    for number in range(2, draw(st.integers(3, 9))):
        change = draw(st.sampled_from(["inc", "dec", ""]))
        if not change:
            made.append(Made(number, there, 0, "", 0, 0, there))
            continue
        used = 1 if change == "inc" else 2
        between = draw(st.integers(0, 6))
        most = there // (between + used)
        if most < 2 or (change == "inc" and there > 200):
            made.append(Made(number, there, 0, "", 0, 0, there))
            continue
        times = draw(st.integers(2, min(most, 12)))
        rest = there - times * (between + used)
        lead = draw(st.integers(0, rest))
        makes = there + times * (1 if change == "inc" else -1)
        made.append(Made(number, lead, between, change, times, rest - lead, makes))
        there = makes
    return made


def printed(made: list[Made], style: str) -> str:
    first = "6 dc in MR" if style == "british" else "6 sc in MR"
    lines = [STYLES[style](m) for m in made]
    lines[0] = lines[0].replace(
        STYLES[style](made[0]), f"Rnd 1: {first.replace('6', str(made[0].makes))} ({made[0].makes})"
    )
    head = "UK terms\n\n" if style == "british" else ""
    return f"Harbour buoy\n\n{head}Body\n\n" + "\n".join(lines) + "\n"


def sums(text: str) -> list[tuple[str, int | None, int | None]]:
    return [(c.label, c.uses, c.makes) for p in read(text).pieces for c in p.courses]


def truth(made: list[Made]) -> list[tuple[str, int, int]]:
    below = [0, *(m.makes for m in made)]
    return [(str(m.number), used, m.makes) for m, used in zip(made, below, strict=False)]


@pytest.mark.parametrize("style", STYLES)
@settings(max_examples=15, deadline=None)
@given(made=pieces())
def test_printed_and_read_back(style: str, made: list[Made]) -> None:
    text = printed(made, style)
    assert sums(text) == truth(made)
    assert [f.code for f in read(text).findings if f.severity == "error"] == []


@settings(max_examples=25, deadline=None)
@given(made=pieces(), seed=st.integers(0, 10_000))
def test_stable_under_spaces_case_dashes_and_quotes(made: list[Made], seed: int) -> None:
    text = printed(made, "toy")
    chance = random.Random(seed)
    swaps = {
        " ": [" ", "  ", "\u00a0", "\u2009"],
        "-": ["-", "\u2013", "\u2014", "\u2212"],
        "x": ["x", "\u00d7", "X"],
        "(": ["(", "\uff08"],
        ")": [")", "\uff09"],
    }
    head, body = text.split("Rnd 1", 1)
    varied = head + "Rnd 1" + "".join(chance.choice(swaps.get(c, [c])) for c in body)
    assert sums(varied) == truth(made)


@settings(max_examples=20, deadline=None)
@given(made=pieces())
def test_uk_and_us_versions_compile_alike(made: list[Made]) -> None:
    british = read(printed(made, "british"))
    american = read(printed(made, "places"))
    assert (british.terms, american.terms) == ("UK", "US")
    assert [c.body for p in british.pieces for c in p.courses] == [c.body for p in american.pieces for c in p.courses]


def test_a_disc_of_n_rounds_of_six() -> None:
    """Round k of a disc has 6k stitches and n rounds 3n(n + 1) in all (section 1 of the worked examples)."""
    made = [Made(1, 6, 0, "", 0, 0, 6)] + [Made(k, 0, k - 2, "inc", 6, 0, 6 * k) for k in range(2, 21)]
    for style in STYLES:
        got = [m for _, _, m in sums(printed(made, style))]
        assert got == [6 * k for k in range(1, 21)], style
        assert sum(m or 0 for m in got) == 3 * 20 * 21
