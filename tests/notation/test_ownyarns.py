"""Which yarn of the text's own list a heading names. All headings are invented (demo)."""

import pytest

from hookside.notation import read
from hookside.notation.lines.colours.ownyarns import own_shade

LISTED = ("1 x 50 g ball DK in White (A)", "B: grey wool, 20 g", "cotton: driftwood (10 g)", "3 mm hook", "stuffing")


@pytest.mark.parametrize(
    ("heading", "named"),
    [
        ("HEAD (A)", "A"),
        ("BODY (in yarn B)", "yarn B"),
        ("WINGS (make 2) in B", "B"),
        ("FEET (make 2, in driftwood)", "driftwood"),
        ("Tail (2x A)", "A"),
        ("Collar (sea green)", "sea green"),
        ("Hull (C)", ""),
        ("Square A", ""),
        ("Cap (optional)", ""),
        ("Crest (stuffing)", ""),
        ("Leg (make 2 alike)", ""),
        ("Sail (left side)", ""),
    ],
)
def test_the_yarn_of_a_heading(heading: str, named: str) -> None:
    span = own_shade(heading, LISTED)
    assert (heading[slice(*span)] if span else "") == named


def test_without_a_list_no_heading_names_a_yarn_of_it() -> None:
    assert own_shade("HEAD (A)", ()) is None


@pytest.mark.parametrize(("lettered", "said"), [(True, False), (False, True)])
def test_a_heading_that_explains_the_letters_of_its_rounds_is_no_mixture(lettered: bool, said: bool) -> None:
    rounds = "R1: (A) 6 sc in MR (6)\nR2: (B) 6 inc (12)" if lettered else "R1: 6 sc in MR (6)\nR2: 6 inc (12)"
    pattern = read(f"Toy\nR1: 6 sc in MR (6)\n\nBall, A: red, B: cream\n{rounds}")
    assert any(f.code == "colors-mixed" for f in pattern.findings) == said
