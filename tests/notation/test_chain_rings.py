"""A ring of chains on a line of its own: the first round goes into it, and no magic ring is made besides."""

import pytest

from hookside.notation import read
from hookside.pattern import Group


def opening(above: str, first: str, terms: str = "") -> list[str]:
    piece = read(f"{terms}COASTER\n{above}\n{first}\n").pieces[0]
    return [n.stitch for n in piece.courses[0].body if isinstance(n, Group)]


@pytest.mark.parametrize(
    "above",
    [
        "Ch 4, sl st to form a ring.",
        "Ch 5 and join with a slip stitch to form a ring.",
        "Ch 6. Join with sl st into a ring.",
        "Ch 6, sl st in 1st ch to make a ring",
        "Chain 4 and close into a ring.",
        "Start with ch 4, joined into a ring with a slip stitch.",
        "Foundation: ch 4, ss to form ring.",
        "Base: ch 4, join into ring.",
        "Foundation chain: 4ch, ss to join.",
        "Ch 4, join.",
    ],
)
def test_stitches_into_the_ring_go_into_that_of_the_chain(above: str) -> None:
    assert opening(above, "Rnd 1: 8 sc into ring (8)") == ["ch", "join", "sc"]


def test_so_do_tall_ones_behind_a_chain_that_counts() -> None:
    first = "Rnd 1: 3ch (counts as tr), 11tr into ring, ss to top of 3ch. 12 tr"
    stitches = opening("Foundation: 4ch, ss to form ring.", first, "UK terms\n")
    assert "ring" not in stitches
    assert stitches[:2] == ["ch", "join"]


@pytest.mark.parametrize("above", ["Make a magic ring.", "Magic ring, ch 1"])
def test_a_magic_ring_that_is_told_stays(above: str) -> None:
    assert opening(above, "Rnd 1: 6 sc in ring (6)")[0] == "ring"
