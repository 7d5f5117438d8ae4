"""Whole patterns printed in random dialects, read and held against their truth: 200 of them in every run.

tests/long/dialect_texts.py reads thousands. Which choices stand out among what was missed:
`python tests/dialects/judging.py`.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parent))

from dialects import judging
from dialects.dialect import Dialect
from dialects.made import Again, Change, Plain, left, used
from dialects.printing import printed

# Raise these as the reader gets better; they are never lowered.
FLOORS = {
    "courses right at least": 0.965,
    "wrong in silence at most": 0.0025,
    "cues right at least": 0.955,
    "planted counts found at least": 0.98,
    "false errors per 200 at most": 2.8,
}
NUMBERS = range(10_001, 10_201)


@pytest.fixture(scope="module")
def judged() -> judging.Judged:
    return judging.judge(NUMBERS)


def test_no_dialect_fells_the_reader(judged: judging.Judged) -> None:
    assert judged.total.counts["crashes"] == 0


def test_courses_come_out_right(judged: judging.Judged) -> None:
    assert judged.total.courses_right >= FLOORS["courses right at least"], judging.standing_out(judged, 12)


def test_hardly_a_course_is_wrong_in_silence(judged: judging.Judged) -> None:
    silent = [f"{number} {where}: {line}" for kind, number, where, line in judged.missed if kind == "silent"]
    assert judged.total.silent <= FLOORS["wrong in silence at most"], silent


def test_counts_that_the_arithmetic_denies_are_said(judged: judging.Judged) -> None:
    missed = [line for line in judged.total.details if "planted" in line]
    assert judged.total.mistakes_found >= FLOORS["planted counts found at least"], missed


def test_cues_come_at_their_course(judged: judging.Judged) -> None:
    assert judged.total.cues_right >= FLOORS["cues right at least"]


def test_sound_courses_are_left_in_peace(judged: judging.Judged) -> None:
    assert judged.total.false_errors <= FLOORS["false errors per 200 at most"]


def test_the_texts_differ_in_many_ways() -> None:
    """At least forty habits that are chosen independently, and none of the common ones the same everywhere."""
    words: dict[str, set[str]] = {}
    for number in NUMBERS:
        for marks in printed(number).marks.values():
            for mark in marks:
                name, _, word = mark.partition("=")
                words.setdefault(name, set()).add(word)
    assert sum(len(w) > 1 for w in words.values()) >= 60
    for name in ("label.word", "label.mark", "count.dress", "inc.word", "dec.word", "even.form", "amount.form"):
        assert len(words[name]) >= 10, name


def test_a_number_gives_one_text_and_a_truth_that_holds_together() -> None:
    for number in range(1, 41):
        made = printed(number)
        assert printed(number).text == made.text
        misprinted = {(m["piece"], m["course"]) for m in made.truth["mistakes"]}
        for piece in made.truth["pieces"]:
            below = None
            for course in piece["courses"]:
                assert course["uses"] in (None, 0, below)
                below = course["makes"]
                wrong = (piece["name"], course["label"]) in misprinted
                assert course["declared"] is None or (course["declared"] != course["makes"]) == wrong


def test_a_new_habit_leaves_the_others_as_they_were() -> None:
    one, other = Dialect(7), Dialect(7)
    one.pick("first", ["a", "b", "c"])
    assert one.pick("second", list("abcdefgh")) == other.pick("second", list("abcdefgh"))


def test_parts_add_up() -> None:
    """Section 2 of the worked examples: `(2 sc, inc) x6` on 18 makes 24, `(2 sc, dec) x6` on 24 makes 18."""
    for kind, uses, makes in (("inc", 18, 24), ("dec", 24, 18)):
        parts = (Again((Plain(2), Change(kind)), 6),)  # type: ignore[arg-type]
        assert (used(parts), left(parts)) == (uses, makes)
    parts = (Plain(1), Change("inc"), Again((Plain(2), Change("inc")), 5), Plain(1))
    assert (used(parts), left(parts)) == (18, 24)
