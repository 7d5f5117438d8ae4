"""A colour that is put away within a round: the stitches behind are no longer called by it."""

import pytest

from hookside.notation import read
from hookside.pattern import Group

_THREE = "BALL\nWith white\nR1: 6 sc in ring (6)\nR2: inc x 6 (12)\nR3: (1 sc, inc) x 6 (18)\n"


def colours(round_four: str) -> list[str | None]:
    course = read(f"{_THREE}R4: {round_four}\nR5: sc around (18)\n").pieces[0].courses[3]
    return [n.colour for n in course.body if isinstance(n, Group) and n.stitch == "sc"]


@pytest.mark.parametrize(
    ("back", "colour"),
    [
        ("(back to white)", "white"),
        ("(and back to white)", "white"),
        ("(then back to white)", "white"),
        ("(white again)", "white"),
        ("(now white)", "white"),
        ("(to white)", "white"),
        ("(switch back to white)", "white"),
        ("(back to main colour)", "main colour"),
        ("(back to MC)", "MC"),
        ("(back to A)", "A"),
        ("(back to the first colour)", None),
        ("(change colour)", None),
        ("drop pink,", None),
        ("back to white,", "white"),
    ],
)
def test_what_comes_behind_is_called_by_the_colour_gone_back_to_or_by_none(back: str, colour: str | None) -> None:
    assert colours(f"5 sc, (change to pink) 3 sc, {back} 10 sc (18)") == [None, "pink", colour]


def test_a_colour_that_is_only_carried_along_is_not_gone_back_to() -> None:
    assert colours("5 sc, (change to pink) 3 sc (carry white along), 10 sc (18)") == [None, "pink", "pink"]
