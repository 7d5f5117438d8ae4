"""A color told for so many rounds in a sentence of its own, or among the words of a range."""

import pytest

from hookside.notation import read

_HEAD = "Bead\nWith white.\nR1: 6 sc in MR (6)\nR2: inc x 6 (12)\n"  # demo


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Two rounds in red.\nR3-6: sc around (12)\nR7: dec x 6 (6)", True),
        ("R3-4: sc around (12)\nTwo rounds in red.\nR5: dec x 6 (6)", True),
        ("R3-8: sc around (12)\nThe first two rounds are cream, the rest red.\nR9: dec x 6 (6)", True),
        ("Two rounds in red.\nR3-4: sc around (12)\nR5: dec x 6 (6)", False),
        ("Red for two rounds.\nR3-4: sc around (12)\nR5: dec x 6 (6)", False),
        ("One round red, one round cream.\nR3-4: sc around (12)\nR5: dec x 6 (6)", False),
        ("Two rounds in red.\nR3: sc around (12)\nR4: sc around (12)\nBack to white.\nR5: dec x 6 (6)", False),
    ],
)
def test_so_many_rounds_of_a_color_are_asked_in_front_of_as_many_or_said(text: str, said: bool) -> None:
    assert any(f.code == "shades-so-many" for f in read(_HEAD + text).findings) == said


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("sc around, red for 2, cream for 4 (12)", True),
        ("sc around (12). Red, red, cream, cream, red, red.", True),
        ("sc around (12), change to red", False),
        ("sc around (12) in red and cream", False),
    ],
)
def test_colors_shared_out_over_the_rounds_of_a_range_are_said(words: str, said: bool) -> None:
    assert any(f.code == "shades-of-some" for f in read(f"{_HEAD}R3-8: {words}").findings) == said
