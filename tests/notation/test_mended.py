"""The mended lines that are offered, taken one after the other. Texts: demo."""

from __future__ import annotations

import pytest

from hookside.notation import read
from hookside.notation.mended import MOST_CHANGES, Change, mend

BUOY = """BUOY
Rnd 1: 6 sc in MR (6)
Rnd 2: inc x 6 (13)
Rnd 3: (sc, inc) x 5 (18)
Rnd 4: (2 sc, inc) x 6 (24)
Rnd 5: (2 sc, dec) x 6 (18)
"""


def test_each_change_says_the_line_before_and_after_and_why() -> None:
    done = mend(BUOY)
    assert done.text == BUOY.replace("(13)", "(12)").replace("x 5", "x 6")
    assert done.changes == [
        Change(
            3, "Rnd 2: inc x 6 (13)", "Rnd 2: inc x 6 (12)", "Round 2 makes 12 stitches, but the pattern prints 13."
        ),
        Change(
            4,
            "Rnd 3: (sc, inc) x 5 (18)",
            "Rnd 3: (sc, inc) x 6 (18)",
            "Round 3 works 2 stitches five times = 10, but round 2 made 12: two are left over. "
            '"(sc, inc) x 6" uses all 12 and makes 18.',
        ),
    ]
    assert done.pattern.findings == []
    assert done.pattern == read(done.text)
    assert not done.more


def test_what_comes_after_decides_between_the_stitches_and_the_printed_count() -> None:
    # Round 2 prints 18 and its stitches make 12: the first later text needs 18 stitches there, the second 12.
    start = "BUOY\nRnd 1: 6 sc in MR (6)\nRnd 2: 2 sc in each st around (18)\n"
    by_print = start + "Rnd 3: (2 sc, inc) x 6 (24)\nRnd 4: (3 sc, inc) x 6 (30)\n"
    by_stitches = start + "Rnd 3: (sc, inc) x 6 (18)\nRnd 4: (2 sc, inc) x 6 (24)\n"
    assert mend(by_stitches).text == by_stitches.replace("around (18)", "around (12)")
    changed = mend(by_print)
    if changed.text != by_print:  # where an increase in three can be offered, it is the one that helps
        assert "3 sc in each st around (18)" in changed.text
    assert "around (12)" not in changed.text


def test_a_round_met_twice_gets_the_next_number_only_where_that_is_free() -> None:
    free = "BUOY\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\nRnd 2: (sc, inc) x 6 (18)\nRnd 4: sc in each st (18)\n"
    assert mend(free).text == free.replace("Rnd 2: (sc", "Rnd 3: (sc")
    taken = free.replace("Rnd 4", "Rnd 3")
    assert mend(taken).text == taken


@pytest.mark.parametrize("text", ["", "gulls", "BUOY\nRnd 1: 6 sc in MR (6)\n", "Rnd 1: 3 wobble (6)\n", BUOY[:30]])
def test_where_nothing_helps_nothing_changes(text: str) -> None:
    done = mend(text)
    assert (done.text, done.changes, done.more) == (text, [], False)


def test_a_mended_text_is_not_mended_again() -> None:
    assert mend(mend(BUOY).text).changes == []


def test_the_work_is_bounded_and_that_is_said() -> None:
    rounds = "".join(f"Rnd {n}: sc in each st ({6 + n % 2})\n" for n in range(2, 900))
    text = "ROPE\nRnd 1: 6 sc in MR (6)\n" + rounds
    done = mend(text)
    assert 0 < len(done.changes) <= MOST_CHANGES
    assert done.more


def test_all_else_stays_as_it_was() -> None:
    text = BUOY.replace("\n", "\r\n").replace("BUOY", "\ufeffB\u2019uoy \U0001f41f")
    assert mend(text).text == text.replace("(13)", "(12)").replace("x 5", "x 6")


STUCK = """BUOY
Rnd 1: 6 sc in MR (6)
Rnd 2: inc x 6 (13)
Rnd 3: 5 sc, wobble into the last hobble, 2 sc
Rnd 4: sc around (20)
Rnd 5: sc around (21)

SAIL
Rnd 1: 6 sc in MR (6)
Rnd 2: inc x 5 (12)
"""


def test_behind_what_cannot_be_followed_nothing_of_that_part_is_taken_and_that_is_said() -> None:
    broken = STUCK.replace("Rnd 4: sc around (20)", "Rnd 4: (3 sc, inc) x 7 (20)")
    broken = broken.replace("5 sc, wobble into the last hobble, 2 sc", "(2 sc, dec) x 50 (18)")
    done = mend(broken)
    assert done.text == broken.replace("(13)", "(12)").replace("inc x 5", "inc x 6")
    (stop,) = done.stops
    assert stop.line == 4
    assert stop.say.startswith("Stopped at line 4. Round 3 works 4 stitches 50 times = 200, but round 2 made only 12")
    assert "behind it" in stop.say


def test_a_shaping_that_makes_what_it_prints_is_firm_ground_again() -> None:
    text = BUOY.replace("(sc, inc) x 5 (18)", "into the wobble (18)") + "Rnd 6: (sc, dec) x 5 (12)\n"
    done = mend(text)
    assert done.text == text.replace("(13)", "(12)").replace("dec) x 5", "dec) x 6")
    assert done.stops == []
