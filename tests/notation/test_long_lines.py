"""Lines as long as a text may be: counted in what is laid out and looked into, not in seconds or bytes."""

from __future__ import annotations

import pytest

from hookside.notation import unexplained
from hookside.notation.courses.cue_notes import CueNotes
from hookside.notation.labels import howlong
from hookside.notation.labels.within import within
from hookside.notation.lines.layout import MOST_COURSES, RawCourse
from hookside.notation.lines.segments import cut
from hookside.notation.page.cleaning import clean
from hookside.notation.reader import MOST_BYTES, Reader, read
from hookside.pattern import Course


@pytest.mark.parametrize("line", ["R1-9999: sc\nEars\n", "R1-9999: sc\n"])
def test_no_more_courses_are_laid_out_than_are_followed(line: str) -> None:
    """demo: one label alone asks for more than there is room for."""
    page = clean(line * (MOST_BYTES // len(line)), None)
    courses = [item for piece in cut(page, "US").pieces for item in piece.items if isinstance(item, RawCourse)]
    assert sum(len(c.label.numbers) for c in courses if c.label is not None) <= MOST_COURSES + 9999


def test_the_labels_of_one_line_hold_so_many_numbers_at_most() -> None:
    line = "R3-999: sc (18). " * 10_000
    assert sum(len(label.numbers) for label in within(line, 0, len(line))) < 30_000


def test_each_sentence_of_a_long_body_is_looked_into_as_far_as_a_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    looked = []

    class Spy:
        def search(self, words: str) -> None:
            looked.append(len(words))

    monkeypatch.setattr(howlong, "_THIS_ONE", Spy())
    body = "sc in each st across, turn. Repeat row 2 until " * 2_000
    howlong.plain_behind(body)
    assert looked
    assert max(looked) <= howlong._LOOKED_INTO


def test_the_words_of_a_long_range_are_not_looked_into_for_letters_at_each_of_its_courses(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """demo: a label at every word of one line, and nothing else."""
    looked = []

    class Spy:
        def sub(self, _put: str, words: str) -> str:
            looked.append(len(words))
            return words

    monkeypatch.setattr(unexplained, "_NO_LETTERS", Spy())
    assert unexplained.letters_of(read("R1-9999 sc " * 2_000)) == []
    assert sum(looked) < MOST_BYTES


def test_rounds_of_one_number_in_one_line_are_no_range(monkeypatch: pytest.MonkeyPatch) -> None:
    """demo: the same label and the same words over and over; each time only the last is asked about."""
    runs: list[list[Course]] = []
    run = CueNotes._run

    def seen(self: CueNotes, course: Course | None) -> list[Course]:
        runs.append(run(self, course))
        return runs[-1]

    monkeypatch.setattr(CueNotes, "_run", seen)
    read("R4 (second cone only): sc 12 " * 300)
    assert len(runs) > 200
    assert max(len(one) for one in runs) <= 1


def test_what_was_said_of_one_piece_is_asked_of_that_piece_alone() -> None:
    """demo: a piece whose first round goes into nothing, and one of so many copies below it."""
    reader = Reader("Fin\nR1: (sc, inc) x 6 (18)\nEar (make 2)\nR1: 6 sc in MR (6)\n", None)
    reader.read()
    (at,) = [i for i, found in enumerate(reader.sheet.findings) if found.code == "bottomless"]
    assert reader.bottomless(at)
    assert not reader.bottomless(at + 1)
