"""Ways in which other authors write the same course: a row or round before it, its words, and what it must come to.

variants.txt: "what is there | words | stitches made". What is there: "c25" a chain of 25, "r18" a row of 18 stitches,
"24" a round of 24, "-" nothing that is known. Demo numbers; the sums are worked out by hand.
"""

from pathlib import Path

import pytest

from hookside.notation import read

LINES = [
    line.split("|")
    for line in (Path(__file__).parent / "variants.txt").read_text(encoding="utf-8").splitlines()
    if line and not line.startswith("#")
]


def text_of(there: str, words: str) -> str:
    """A text whose last course has these words."""
    if there == "-":
        return f"Fin\nRnd 1: {words}\n"
    if there[0] == "c":
        return f"Fin\nCh {there[1:]}.\nRow 1: {words}\n"
    if there[0] == "r":
        chains = int(there[1:]) + 1
        return f"Fin\nCh {chains}.\nRow 1: sc in 2nd ch from hook and in each ch across ({there[1:]})\nRow 2: {words}\n"
    return f"Fin\nRnd 1: {there} sc in MR ({there})\nRnd 2: {words}\n"


@pytest.mark.parametrize(("there", "words", "made"), LINES, ids=[line[1] for line in LINES])
def test_variant(there: str, words: str, made: str) -> None:
    pattern = read(text_of(there, words))
    courses = [course for piece in pattern.pieces for course in piece.courses]
    assert courses[-1].makes == int(made)
    assert not [f.message for f in pattern.findings if f.severity in ("error", "warning")]
