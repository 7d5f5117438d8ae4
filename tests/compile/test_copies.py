"""How many copies of a piece a making has: as printed, or as the maker chose."""

from __future__ import annotations

import pytest

from hookside.compile import CannotBeFollowed, Choices, Laid, lay, read

# demo
TEXT = """Two Floats
US terms

BUOY (make 2)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)

LID
Rnd 1: 6 sc in magic ring (6)
"""


def laid(copies: dict[int, int]) -> list[Laid]:
    return lay(read(TEXT), TEXT, Choices(copies=copies))


def test_as_printed_where_nothing_was_chosen() -> None:
    assert [run.run for run in laid({})] == ["p1.c1", "p1.c2", "p2.c1"]


def test_as_chosen() -> None:
    runs = laid({1: 1, 2: 3})
    assert [(run.run, run.copies) for run in runs] == [("p1.c1", 1), ("p2.c1", 3), ("p2.c2", 3), ("p2.c3", 3)]
    assert len(laid({1: 99})) == 100


def test_the_number_of_copies_changes_no_steps() -> None:
    assert {run.strand.id for run in laid({1: 5})} == {run.strand.id for run in laid({})}


@pytest.mark.parametrize("copies", [{1: 0}, {1: 100}, {2: -1}])
def test_none_and_far_too_many_are_refused(copies: dict[int, int]) -> None:
    with pytest.raises(CannotBeFollowed, match="1 to 99"):
        laid(copies)


@pytest.mark.parametrize("number", [0, 3])
def test_a_piece_that_is_not_there_has_no_copies(number: int) -> None:
    with pytest.raises(CannotBeFollowed, match=f"no piece {number}"):
        laid({number: 2})


def test_a_printed_number_beyond_the_bounds_can_be_lowered() -> None:
    text = TEXT.replace("make 2", "make 200")
    pattern = read(text)
    with pytest.raises(CannotBeFollowed, match="to make 200"):
        lay(pattern, text, Choices())
    assert len(lay(pattern, text, Choices(copies={1: 4}))) == 5
