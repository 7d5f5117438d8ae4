"""Whole patterns printed at random, read and held against their truth: 200 in dialects, 150 in hands in every run.

In a dialect (tests/dialects/) habits are as frequent as they are, in a hand (tests/hands/) each as frequent as any
other, so that habits meet that seldom meet. tests/long/dialect_texts.py reads thousands; which choices stand out
among what was missed: `python tests/dialects/judging.py`, with `--hands` for the other table.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parent))

from dialects import judging
from dialects.dialect import Dialect
from dialects.made import Again, Change, Plain, left, used
from dialects.printing import printed
from hands.printing import printed as by_hand

# Raise these as the reader gets better; they are never lowered.
FLOORS = {
    "dialects": {
        "courses right at least": 0.965,
        "wrong in silence at most": 0.0025,
        "cues right at least": 0.955,
        "planted counts found at least": 0.98,
        "false errors per 200 at most": 2.8,
    },
    "hands": {
        "courses right at least": 0.92,
        "wrong in silence at most": 0.002,
        "cues right at least": 0.89,
        "planted counts found at least": 0.85,
        "false errors per 200 at most": 3.0,
    },
}
PRINTERS = {"dialects": printed, "hands": by_hand}
NUMBERS = {"dialects": range(10_001, 10_201), "hands": range(20_001, 20_151)}


@dataclass(frozen=True)
class Table:
    floors: dict[str, float]
    judged: judging.Judged


@pytest.fixture(scope="module", params=list(FLOORS))
def table(request: pytest.FixtureRequest) -> Table:
    kind = request.param
    return Table(FLOORS[kind], judging.judge(NUMBERS[kind], PRINTERS[kind]))


def test_no_text_fells_the_reader(table: Table) -> None:
    assert table.judged.total.counts["crashes"] == 0


def test_courses_come_out_right(table: Table) -> None:
    right = table.judged.total.courses_right
    assert right >= table.floors["courses right at least"], judging.standing_out(table.judged, 12)


def test_hardly_a_course_is_wrong_in_silence(table: Table) -> None:
    silent = [f"{number} {where}: {line}" for kind, number, where, line in table.judged.missed if kind == "silent"]
    assert table.judged.total.silent <= table.floors["wrong in silence at most"], silent


def test_counts_that_the_arithmetic_denies_are_said(table: Table) -> None:
    missed = [line for line in table.judged.total.details if "planted" in line]
    assert table.judged.total.mistakes_found >= table.floors["planted counts found at least"], missed


def test_cues_come_at_their_course(table: Table) -> None:
    assert table.judged.total.cues_right >= table.floors["cues right at least"]


def test_sound_courses_are_left_in_peace(table: Table) -> None:
    assert table.judged.total.false_errors <= table.floors["false errors per 200 at most"]


def test_the_texts_differ_in_many_ways() -> None:
    """At least forty habits that are chosen independently, and none of the common ones the same everywhere."""
    words: dict[str, set[str]] = {}
    for number in NUMBERS["dialects"]:
        for marks in printed(number).marks.values():
            for mark in marks:
                name, _, word = mark.partition("=")
                words.setdefault(name, set()).add(word)
    assert sum(len(w) > 1 for w in words.values()) >= 60
    for name in ("label.word", "label.mark", "count.dress", "inc.word", "dec.word", "even.form", "amount.form"):
        assert len(words[name]) >= 10, name


@pytest.mark.parametrize("kind", PRINTERS)
def test_a_number_gives_one_text_and_a_truth_that_holds_together(kind: str) -> None:
    for number in range(1, 41):
        made = PRINTERS[kind](number)
        assert PRINTERS[kind](number).text == made.text
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
