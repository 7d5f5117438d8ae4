"""The mended lines offered beside a finding: each comes out as it is told, and none speaks against the verdict.

Texts: demo.
"""

from __future__ import annotations

import re

import pytest

from hookside.notation import read
from hookside.notation.mended import taken
from hookside.pattern import Finding

LOST = """FEET
Rnd 1: 6 sc in MR (6)
Rnd 2: {} (12)
Rnd 3: sc around (12)
Rnd 4: (sc, inc) x 6 (18)
"""


def offers(text: str) -> list[str]:
    (found,) = [f for f in read(text).findings if f.suggestions]
    return [re.sub(r"^\w+ \d+: |, makes \d+$", "", s.label) for s in found.suggestions]


@pytest.mark.parametrize(
    ("body", "mended"),
    [
        ("2 sc in each of next 5 sts, 1 sc in last st", ["2 sc in each of next 5 sts, 2 sc in last st",
                                                         "2 sc in each of next 6 sts"]),
        ("(2 sc in next st) 5 times, 1 sc in last st", ["(2 sc in next st) 5 times, 2 sc in last st",
                                                        "(2 sc in next st) 6 times"]),
        # "4 more times" are five: what is offered is written in the same way
        ("*2 sc in next st; rep from * 4 more times, 1 sc in last st",
         ["*2 sc in next st; rep from * 4 more times, 2 sc in last st", "*2 sc in next st; rep from * 5 more times"]),
        ("inc 5 times, 1 sc", ["inc 6 times"]),
    ],
)  # fmt: skip
def test_where_a_stitch_got_lost_the_lines_that_bring_it_back_are_offered(body: str, mended: list[str]) -> None:
    assert offers(LOST.format(body)) == mended


def test_where_the_stitches_are_right_only_the_count_is_offered() -> None:
    text = LOST.format("inc x 6").replace("sc around (12)", "inc x 12 (24)").replace("6 (18)", "6, 12 sc (32)")
    text += "Rnd 5: sc in each of next 30 sts (30)\n"
    (found,) = read(text).findings
    assert found.message.endswith("The next round needs the 30 that it makes.")
    assert [s.label for s in found.suggestions] == ["Round 4: 30 stitches"]


def as_told(text: str, found: Finding) -> None:
    """Each line that is offered makes, when it is taken, what its label says."""
    for offered in found.suggestions:
        told = re.search(r"(\d+) stitches$|makes (\d+)$", offered.label)
        if told is not None:
            then = read(taken(text, offered))
            course = next(c for p in then.pieces for c in p.courses if c.id == found.course_id)
            assert course.makes == int(told[1] or told[2]), offered.label


@pytest.mark.parametrize(
    "lines",
    [
        ["6 sc in MR", "inc x 6", "2 inc x6 20", "3 inc x6 31"],
        ["6 sc in MR (6)", "inc x 6 (12)", "*sc, inc; rep from * 4 more times (18)"],
        ["6 sc in MR (6)", "inc x 6 (12)", "sc, inc; repeat four more times (18)", "2 sc, inc x 6 (24)"],
        ["6 sc in MR", "inc x 6", "1 sc, inc (x3), 6 sc", "5 times: sc, inc; sc 2"],
        ["6 sc in MR", "3 sc in each st", "dec over 4, sc over 10"],
        ["6 sc in MR", "inc in each", "1sc,inc x5, ss, ch1 [18]", "(3 inc) 30"],
    ],
)
def test_each_offered_line_comes_out_as_it_is_told(lines: list[str]) -> None:
    text = "BUOY\n" + "".join(f"Rnd {n}: {line}\n" for n, line in enumerate(lines, 1))
    for found in read(text).findings:
        as_told(text, found)
