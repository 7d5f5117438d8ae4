"""A round without a label below one that is whole is a course of its own, and said where no number is left for it."""

import pytest

from hookside.compile import read

TEXT = "Ball\nR1: 6 sc in mr (6)\nR2: inc x 6 (12)\nR3: {}\n{}\nR{}: sc around\n"
ROUNDS = [
    "hdc around", "dc round", "sc blo around", "sc in each st around", "Sl st around.", "Reverse sc around.",
    "Another sc round.", "One more sc round.", "then sc around", "Turn and sc back.",
]  # fmt: skip


@pytest.mark.parametrize("above", ["sc 12", "12 sc", "sc around", "(sc, dec) x 4", "dec 6"])
@pytest.mark.parametrize("line", ROUNDS)
def test_it_is_the_round_for_which_the_labels_leave_room(above: str, line: str) -> None:
    pattern = read(TEXT.format(above, line, 5))
    (ball,) = pattern.pieces
    assert [c.label for c in ball.courses] == ["1", "2", "3", "4", "5"]
    assert len({c.makes for c in ball.courses[2:]}) == 1
    assert not [f for f in pattern.findings if f.severity != "note"]


@pytest.mark.parametrize("above", ["sc 12", "12 sc", "sc around", "(sc, dec) x 4", "dec 6"])
@pytest.mark.parametrize("line", ROUNDS)
def test_where_they_leave_none_both_rounds_of_a_number_are_worked_and_said(above: str, line: str) -> None:
    pattern = read(TEXT.format(above, line, 4))
    assert len(pattern.pieces[0].courses) == 5
    assert "label-again" in [f.code for f in pattern.findings]


@pytest.mark.parametrize("line", ["Sc 12", "12 sc in flo", "Sc 12 more."])
@pytest.mark.parametrize("next_label", [4, 5])
def test_so_is_the_same_amount_again(line: str, next_label: int) -> None:
    pattern = read(TEXT.format("sc 12", line, next_label))
    assert [c.makes for c in pattern.pieces[0].courses] == [6, 12, 12, 12, 12]
    assert any(f.code == "label-again" for f in pattern.findings) == (next_label == 4)


@pytest.mark.parametrize(
    ("line", "makes"),
    [("(sc, inc) x 6", 18), ("*sc, inc* x 6 (18)", 18), ("inc x 12", 24), ("sc in next 6, hdc in next 6", 12)],
)
@pytest.mark.parametrize("next_label", [4, 5])
def test_so_is_a_round_by_its_amounts_below_one_that_goes_all_the_way(line: str, makes: int, next_label: int) -> None:
    pattern = read(TEXT.format("sc around", line, next_label))
    assert [c.makes for c in pattern.pieces[0].courses] == [6, 12, 12, makes, makes]
    assert any(f.code == "label-again" for f in pattern.findings) == (next_label == 4)


@pytest.mark.parametrize(
    ("above", "line", "makes"),
    [
        ("(sc, inc) x 3", "sc around", 15),
        ("sc 6", "inc in each st around", 18),
        ("inc x 2", "sc around", 14),
        ("sc in each st", "around", 12),
        ("sc around", "inc in last st", 13),
        ("sc around", "sl st to first st", 12),
        ("sc around", "12 sc", 12),
        ("6 sc", "6 hdc", 12),
    ],
)
def test_the_rest_of_a_round_stays_in_it(above: str, line: str, makes: int) -> None:
    pattern = read(TEXT.format(above, line, 4))
    assert [c.makes for c in pattern.pieces[0].courses] == [6, 12, makes, makes]
