"""MC ahead of the stitches of a first round: a magic circle, or the main color where the text has such a yarn."""

import pytest

from hookside.notation import read
from hookside.pattern import in_order


def _begun(text: str) -> tuple[bool, str | None]:
    """Is the first round worked into a ring, and in which color?"""
    worked = [g for g in in_order(read(text).pieces[0].courses[0].body) if g.makes]
    return any(g.into == "ring" for g in worked), worked[0].colour


@pytest.mark.parametrize(
    "line",
    [
        "Round 1: MC 6", "Rnd 1: MC, 6 sc (6)", "R1 MC 6sc", "1. mc 6", "1st round - MC, 6 sc", "Rnd 1: MC. 6 sc.",
        "Rnd 1: start MC 6 sc", "Rnd 1: make MC, 6 sc", "Rnd 1: MC, ch 1, 6 sc (6)", "Rnd 1: mc, sc 6", "Rnd 1: 6 MC",
        "MC = magic circle\nRnd 1: MC 6",
    ],
)  # fmt: skip
def test_mc_is_a_ring_where_no_yarn_is_called_so(line: str) -> None:
    assert _begun(f"Bun\n{line}\nR2: inc x 6 (12)") == (True, None)


@pytest.mark.parametrize(
    ("text", "ringed"),
    [
        ("Round 1: with MC, 6 sc in ring (6)", True),
        ("Round 1: MC, 6 sc in ring (6)", True),
        ("MC: blue\nRound 1: MC, 6 sc (6)", False),
        ("Yarn: main color (MC) blue\nRound 1: MC, 6 sc (6)", False),
        ("Yarn: blue (MC), white (CC)\nRound 1: MC, 6 sc (6)", False),
        ("You need: MC 50 g\nRound 1: MC 6 sc", False),
        ("Ch 4, join.\nRound 1: MC, 6 sc (6)", False),
    ],
)
def test_mc_stays_the_yarn_that_it_is(text: str, ringed: bool) -> None:
    pattern = read(f"Bun\n{text}\nRound 2: inc x 6 (12)\nRound 3: sc around in MC (12)")
    worked = [g for g in in_order(pattern.pieces[0].courses[0].body) if g.makes and g.stitch != "ch"]
    assert [(g.into == "ring", g.colour) for g in worked] == [(ringed, "MC")]
