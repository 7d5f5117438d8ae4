"""The colour in the hand at a place, as the recap and the shelf say it (at the chair: "found again")."""

from __future__ import annotations

from hookside.compile import Choices, lay, read
from hookside.follow.place import step_of
from hookside.mend.recapping import colour_in_hand

# demo
PILOT = """Harbour pilot
US terms. Worked in a spiral.

BODY
With navy:
Rnd 1: 6 sc in a magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: with navy 4 sc, with white 4 sc, with navy 4 sc (12)
Change to sand.
Rnd 4: (sc, dec) x 4 (8)
Rnd 5: (with navy 1 sc, with white 1 sc) x 4 (8)
Fasten off.
"""


def test_a_change_behind_a_round_in_colours_holds_through_the_next_round() -> None:
    (laid,) = lay(read(PILOT), PILOT, Choices())
    strand = laid.strand
    first, second, third, fourth, fifth = strand.courses

    def at(course: int, stitch: int) -> str:
        return colour_in_hand(strand, step_of(strand, strand.courses[course - 1], stitch))

    assert (first.label, second.label, third.label, fourth.label, fifth.label) == ("1", "2", "3", "4", "5")
    assert [at(2, 3), at(3, 0), at(3, 4), at(3, 8)] == ["navy", "navy", "white", "navy"]
    assert [at(4, 0), at(4, 5), colour_in_hand(strand, fourth.first + 1)] == ["sand", "sand", "sand"]
    assert [at(5, 0), at(5, 1), at(5, 2), at(5, 7)] == ["navy", "white", "navy", "white"]
