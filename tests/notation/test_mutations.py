"""Texts with something changed in them never fell the reader, and a changed amount is never passed over in silence."""

import random
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from mutating import judged, mutated

from hookside.notation import read
from hookside.pattern import makes, uses

TEXTS = [
    path.read_text(encoding="utf-8") for path in sorted(Path(__file__).with_name("collection").glob("*.txt"))
]
SHARE = 10  # parts of the 2,000: each is a test of its own


@pytest.mark.parametrize("part", range(SHARE))
def test_no_mutation_fells_the_reader(part: int) -> None:
    chance = random.Random(part)
    for _ in range(1000 // SHARE):
        text = mutated(chance.choice(TEXTS), chance)
        for piece in read(text).pieces:
            for course in piece.courses:
                if course.read:
                    assert (uses(course.body), makes(course.body)) == (course.uses, course.makes), course.text


@pytest.mark.parametrize("part", range(SHARE))
def test_a_changed_amount_is_said_where_the_printed_count_stands(part: int) -> None:
    chance = random.Random(1000 + part)
    tried = 0
    while tried < 1000 // SHARE:
        silent = judged(chance.choice(TEXTS), chance)
        tried += silent is not None
        assert not silent, silent


def test_slip_stitches_along_a_chain_pass_over_nothing() -> None:
    """Found by tests/long/mutations.py: "20nd ch" on a chain of 21 used one stitch more than it said."""
    text = "Rope\nCh 21.\nRow 1: Sl st in 20nd ch from hook and in each ch across. (20)\n"
    (course,) = read(text).pieces[0].courses
    assert (uses(course.body), makes(course.body)) == (course.uses, course.makes)
