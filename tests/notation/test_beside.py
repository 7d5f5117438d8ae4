"""What stands behind a dash or a count, in its own place: the colour of a whole round."""

import pytest

from hookside.cues.colours import coloured
from hookside.notation import read


@pytest.mark.parametrize("told", ["(12) - blue", "- in blue - (12)", "(12) in blue", ", in blue (12)", "(12) - B"])
def test_a_colour_behind_the_work_is_in_the_hand_before_it(told: str) -> None:
    pattern = coloured(read(f"Ball\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x6 (12)\nRnd 3: sc around {told}"))
    (cue,) = pattern.pieces[0].cues
    assert (cue.kind, cue.after) == ("colour", "2")


@pytest.mark.parametrize("told", ["in a spiral", "with care", "in one go", "with tight stitches", "in rib"])
def test_how_a_round_is_worked_is_no_colour(told: str) -> None:
    pattern = coloured(read(f"Ball\nRnd 1: 6 sc in MR (6)\nRnd 2: sc around (6) - {told}"))
    assert not pattern.pieces[0].cues


RISES = "Coaster\n{}Rnd 1: ch {n}, 12 dc in MR, join (12)\nRnd 2: ch {n}, 2 dc in each st around, join (24)"


@pytest.mark.parametrize(
    ("front", "n", "terms", "asked"),
    [
        ("Main color red\n", 2, "US", True),
        ("", 2, "US", True),  # even: asked
        ("Yarn: double knitting\n", 1, "UK", False),
        ("", 3, "US", False),
    ],
)
def test_dc_that_rises_by_two_chains_is_not_taken_for_uk_without_asking(
    front: str, n: int, terms: str, asked: bool
) -> None:
    pattern = read(RISES.format(front, n=n))
    assert pattern.terms == terms
    assert any(f.code == "terms" for f in pattern.findings) == asked
