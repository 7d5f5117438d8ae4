"""Whole patterns in hands drawn at random, where habits meet that seldom meet: 150 of them in every run.

tests/long/dialect_texts.py --hands reads thousands; what is missed: `python tests/dialects/judging.py --hands`.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parent))

from dialects import judging
from hands.printing import printed

# Raise these as the reader gets better; they are never lowered.
FLOORS = {
    "courses right at least": 0.85,
    "wrong in silence at most": 0.006,
    "cues right at least": 0.82,
    "planted counts found at least": 0.75,
}
NUMBERS = range(20_001, 20_151)


@pytest.fixture(scope="module")
def judged() -> judging.Judged:
    return judging.judge(NUMBERS, printed)


def test_no_hand_fells_the_reader(judged: judging.Judged) -> None:
    assert judged.total.counts["crashes"] == 0


def test_courses_come_out_right(judged: judging.Judged) -> None:
    assert judged.total.courses_right >= FLOORS["courses right at least"], judging.standing_out(judged, 12)


def test_few_courses_are_wrong_in_silence(judged: judging.Judged) -> None:
    silent = [f"{number} {where}: {line}" for kind, number, where, line in judged.missed if kind == "silent"]
    assert judged.total.silent <= FLOORS["wrong in silence at most"], silent


def test_cues_and_planted_counts_are_found(judged: judging.Judged) -> None:
    assert judged.total.cues_right >= FLOORS["cues right at least"]
    assert judged.total.mistakes_found >= FLOORS["planted counts found at least"]


def test_a_number_gives_one_text_and_a_truth_that_holds_together() -> None:
    for number in range(1, 41):
        made = printed(number)
        assert printed(number).text == made.text
        for piece in made.truth["pieces"]:
            below = None
            for course in piece["courses"]:
                assert course["uses"] in (None, 0, below)
                below = course["makes"]
