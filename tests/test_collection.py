"""The half of the reading collection that was written blind, read and scored; only totals are asserted."""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parent))

import score

# Raise these as the reader gets better; they are never lowered. Where they should end: 0.98, 0.003, 0.95, 1.0, 1.0.
THRESHOLDS = {
    "courses right at least": 0.6,
    "wrong in silence at most": 0.1,
    "cues right at least": 0.4,
    "mistakes found at least": 0.4,
    "false errors per 200 at most": 60.0,
}


@pytest.fixture(scope="module")
def blind() -> score.Score:
    return score.score_folder(score.BLIND)


def test_the_reader_never_falls_over(blind: score.Score) -> None:
    assert blind.counts["crashes"] == 0


def test_courses_come_out_right(blind: score.Score) -> None:
    assert blind.courses_right >= THRESHOLDS["courses right at least"]


def test_hardly_a_course_is_wrong_in_silence(blind: score.Score) -> None:
    assert blind.silent <= THRESHOLDS["wrong in silence at most"]


def test_cues_come_at_their_course(blind: score.Score) -> None:
    assert blind.cues_right >= THRESHOLDS["cues right at least"]


def test_planted_mistakes_are_found(blind: score.Score) -> None:
    assert blind.mistakes_found >= THRESHOLDS["mistakes found at least"]


def test_sound_courses_are_left_in_peace(blind: score.Score) -> None:
    assert blind.false_errors <= THRESHOLDS["false errors per 200 at most"]


TRUTHS = score.truths(score.BLIND)


def test_the_collection_is_broad() -> None:
    courses = sum(len(piece["courses"]) for _, _, truth in TRUTHS for piece in truth["pieces"])
    assert len(TRUTHS) >= 56
    assert len({truth["style"] for _, _, truth in TRUTHS}) >= 50
    assert courses >= 1500
    assert sum(len(truth["mistakes"]) > 0 for _, _, truth in TRUTHS) >= 8
    assert {truth["terms"] for _, _, truth in TRUTHS} == {"US", "UK"}


@pytest.mark.parametrize("truth", [t for _, _, t in TRUTHS], ids=[str(i) for i in range(len(TRUTHS))])
def test_a_truth_holds_together(truth: score.Truth) -> None:
    """Each course uses what the one before made, and makes what is printed, except at and just after a mistake."""
    mistakes = {(m["piece"], m["course"]) for m in truth["mistakes"]}
    names = Counter(piece["name"] for piece in truth["pieces"])
    assert max(names.values()) == 1
    known = {(piece["name"], c["label"]) for piece in truth["pieces"] for c in piece["courses"]}
    assert mistakes <= known
    for cue in truth["cues"]:
        assert cue["piece"] in names
        assert cue["after"] == "0" or (cue["piece"], cue["after"]) in known
    for piece in truth["pieces"]:
        before: score.Truth | None = None
        for course in piece["courses"]:
            planted = (piece["name"], course["label"]) in mistakes
            after = before is not None and (piece["name"], before["label"]) in mistakes
            if not planted and None not in (course["makes"], course["declared"]):
                assert course["makes"] == course["declared"]
            if before is not None and not planted and not after and None not in (course["uses"], before["makes"]):
                assert course["uses"] + course.get("unworked", 0) == before["makes"]
            before = course
