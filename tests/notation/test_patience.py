"""How long a text is searched for what is not plain in it: counted in searches and readings, not in seconds."""

from __future__ import annotations

import pytest

from hookside.notation.arithmetic.summing import Sum
from hookside.notation.bodies import numbersaside
from hookside.notation.courses import cue_notes, sheet
from hookside.notation.courses.patience import MENDS, MOST_SEARCHED
from hookside.notation.reader import MOST_BYTES, Reader

BALL = "Ball\nR1: 6 sc in mr (6)\nR2: inc x 6 (12)\nR3: (sc, inc) x 6 (18)\n"
MOST_READINGS = 25_000  # of the arithmetic, in one text: five for each course that a text may have

# demo, each read for many seconds once; {n} is the number of the round
LINES = {
    "stars in stars": "R9: *sc 2, inc; rep from * 5 more times, ** sc; rep from ** (24)\n",
    "brackets left open": "R9: [(sc 2, {{inc (sc\n",
    "two colors": "R9: (sc 2 red, inc white) x 6, red sc 9, white sc 9\n",
    "told behind the stitches": "(sc 2, inc) x 6, then again, with red, then white\n",
    "shapings that go on": "R{n}-{m}: inc 6 each round\n",
    "the last ones dyed": "sc 18, the last 6 in white\n",
    "the round before again": "R{n}: sc around. Repeat R{before}.\n",
    "a second row": "Row 2: ch 1, dec at each end, turn (8)\n",
    "another round, changed": "R9: as R8 but dec instead of inc\n",
    "parts like the next": "Part{n}\nR1-9: as Part{m}\n",
    "eyes between all rounds": "R{n}: sc around (18)\nEyes between R{n} and the next.\n",
    "one paragraph": " R9: sc 18 (18). Change to red. Stuff.",
}


@pytest.fixture
def readings(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    made = [0]
    run = Sum.run

    def counted(self: Sum) -> object:
        made[0] += 1
        return run(self)

    monkeypatch.setattr(Sum, "run", counted)
    return made


def full(line: str) -> str:
    """A text of such lines as long as a text may be."""
    out, size, n = [BALL], len(BALL), 4
    while size + len(line) + 16 < MOST_BYTES:
        out.append(line.format(n=n, m=n + 2, before=n - 1))
        size += len(out[-1])
        n += 1
    return "".join(out)


@pytest.mark.parametrize("name", LINES)
def test_what_is_searched_for_is_bounded(name: str, readings: list[int]) -> None:
    reader = Reader(full(LINES[name]), None)
    reader.read()
    assert reader.sheet.patience.searched < MOST_SEARCHED + MENDS
    assert readings[0] < MOST_READINGS


def test_where_the_search_ends_is_said_once_and_all_behind_is_read_as_it_stands() -> None:
    """demo: each round is off by one, and none like another."""
    rounds = "".join(f"R{n}: sc {n % 83 + 1}, inc, sc {n // 83 + 3}, dec x 2 ({n % 7})\n" for n in range(4, 1_400))
    pattern = Reader(f"{BALL}{rounds}Ear\nR1: 5 sc in mr (5)\nR2: inc x 5 (10)\n", None).read()
    assert [f.code for f in pattern.findings].count("too-much-doubt") == 1
    assert [course.makes for course in pattern.pieces[-1].courses] == [5, 10]


def test_rounds_that_tell_no_stitches_are_looked_into_some_hundred_times(monkeypatch: pytest.MonkeyPatch) -> None:
    """demo: a letter about rounds, its lines led by their labels."""
    gathered = []
    gather = numbersaside.gather
    monkeypatch.setattr(numbersaside, "gather", lambda body, names: gathered.append(body) or gather(body, names))
    told = "".join(f"R{n}: eyes between R{n - 1} and R{n - 2}\n" for n in range(4, 904))
    pattern = Reader(f"{BALL}{told}Ear\nR1: 5 sc in mr (5)\nR2: inc x 5 (10)\n", None).read()
    assert len(gathered) < sheet.MOST_NOTHING + 10
    assert [f.line for f in pattern.findings if f.code == "too-much-doubt"] == [505]
    assert [course.makes for course in pattern.pieces[-1].courses] == [5, 10]


def test_an_asking_in_a_range_is_looked_into_once_for_all_its_courses(monkeypatch: pytest.MonkeyPatch) -> None:
    """demo: one round of ninety in another color."""
    asked = []
    due = cue_notes.due_in
    monkeypatch.setattr(cue_notes, "due_in", lambda *told, **how: asked.append(told) or due(*told, **how))
    pattern = Reader(f"{BALL}R4-93: sc around, all but R11 in red\n", None).read()
    assert len(pattern.pieces[0].courses) == 93
    assert len(asked) <= 2


def test_a_text_that_comes_out_is_never_searched() -> None:
    """demo: more rounds than any part has, each with its count."""
    told = "".join(f"R{n}: sc 18 (18)\n" for n in range(404, 1_404))
    reader = Reader(f"{BALL}R4-403: sc around (18)\n{told}", None)
    pattern = reader.read()
    assert sum(len(piece.courses) for piece in pattern.pieces) == 1_403
    assert reader.sheet.patience.searched == 0
