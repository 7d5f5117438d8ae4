"""Texts that are no patterns, and texts that mean harm: one clear finding, never a crash."""

import os
import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hookside.notation import read
from hookside.pattern import Pattern

WORDS = st.sampled_from(
    [
        "Rnd",
        "Row",
        "R",
        "1",
        "2",
        "3",
        "6",
        "12",
        ":",
        "(",
        ")",
        "[",
        "]",
        "{",
        "}",
        "*",
        "x",
        ",",
        ";",
        ".",
        "-",
        "sc",
        "inc",
        "dec",
        "ch",
        "MR",
        "rep",
        "from",
        "around",
        "in",
        "next",
        "each",
        "st",
        "sts",
        "to",
        "last",
        "times",
        "2nd",
        "hook",
        "BLO",
        "turn",
        "join",
        "HEAD",
        "(make",
        "2)",
        "Stuff",
        "|",
        "#",
        "<",
        ">",
        "=",
        "&",
        "+",
        "/",
        "×",  # noqa: RUF001
        "sl",
        "st",
        "repeat",
        "rnds",
        "4-9",
        "until",
        "of",
        "the",
        "other",
        "side",
        "leg",
        "skip",
    ]
)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "   ",
        "\n\n\n",
        "The sea was calm that day. " * 200,
        "\x00\x01\x02\xff" * 500,
        "((((" * 5000,
        "*" * 5000,
        "Rnd " * 5000,
    ],
)
def test_not_a_pattern(text: str) -> None:
    pattern = read(text)
    assert [f.code for f in pattern.findings if f.severity == "error"] in (["not-a-pattern"], ["empty"])
    assert not pattern.can_be_followed


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("Rnd 1: 6 sc in MR (6)\nRnd 2: " + "(" * 400 + "sc" + ")" * 400, "nesting"),
        ("Rnd 1: 6 sc in MR (6)\nRnd 2: " + "sc, " * 20000, None),
        ("x" * 300_000, "too-long"),
        ("Rnds 1-99999: 6 sc", None),
        ("Rnd 1: 6 sc in MR\nRnds 2-6000: sc around", "too-many-courses"),
        ("Rnd 1: 6 sc in MR\n" + "Rnd 2: [" * 3000, None),
        ("Rnd 1: 6 sc in MR (6)\n" + "".join(f"gulls cry {n}\n" for n in range(9_000)), "too-many-lines"),
        ("Rnd 1: 6 sc in MR (6)\n" + "\n" * 30_000 + "Rnd 2: inc x 6 (12)\n", "too-many-lines"),
        ("FIN\nRnd 1: 6 sc in MR (6)\n" + "".join(f"FIN {n}\nWork as fin\n" for n in range(1_200)), "too-many-pieces"),
        ("Rnd 1: 6 sc in MR (6)\n" + "the gulls cry\n" * 2_000 + "Rnd 2: inc x 6 (13)\n", "too-much-talk"),
        (
            "R1: 6 sc in MR (6)\n"
            + "".join(f"R{n}: sc around (6)\nPut the eyes at R{n}.\n" for n in range(2, 2_100)),
            "too-much-beside",
        ),
        ("R1: 6 sc in MR (6)\n" + "Rounds 9, 10 and 11 are your easy rounds\n" * 2_100, "too-much-beside"),
        ("R1: 6 sc in MR (6)\n" + "R9 in red, R10 in white\n" * 2_100, "too-much-beside"),
        ("R1: 6 sc in MR (6)\n" + "sc around, join, turn (6)\n" * 1_600 + "R9: inc x 6 (12)\n", "too-many-bare"),
        ("R1: 6 sc in MR (6)\n" + "".join(f"Eyes between R{n} and the next\n" for n in range(300)), "over-and-over"),
        ("R1: 6 sc in MR (6)\n" + "Sew it. " * 1_100, "too-much-behind"),
        ("Rnd 1: 99999999999999999999999 sc in MR", None),
        ("| " * 50_000, None),
        ("&#42;<b>" * 10_000, None),
        ("Rnd 1: *" + "sc *" * 3000, None),
        ("R1: 6 sc in MR (6)\n" + "R9 in red, R10-12 in white, R13 in grey\n" * 300, "over-and-over"),
    ],
)
def test_bounded(text: str, code: str | None) -> None:
    pattern = read(text)
    assert pattern.findings
    if code is not None:
        assert code in [f.code for f in pattern.findings]


def test_an_empty_line_of_a_quoted_letter_fells_nothing() -> None:
    told = "> Hi Joan,\n>\n> HEAD, start at the top\n> Rd 1: 6 sc in ring (6)\n>\n> Rd 2: inc x 6 (12)\n>\n> Sew.\n"
    pattern = read(told)
    assert [course.makes for piece in pattern.pieces for course in piece.courses] == [6, 12]


def test_as_many_plain_rounds_as_are_followed_meet_no_bound() -> None:
    """Each in words of its own, with a label and a count."""
    beats = ((n, n % 90 + 1, n // 90 + 1) for n in range(2, 5_001))
    rounds = (f"R{n}: {a} sc, inc, {b} sc, dec, {197 - a - b} sc (200)\n" for n, a, b in beats)
    pattern = read("R1: 200 sc in MR (200)\n" + "".join(rounds))
    assert not {f.code for f in pattern.findings} & {"too-much-beside", "too-many-lines"}
    assert sum(course.read for piece in pattern.pieces for course in piece.courses) == 5_000


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=300))
def test_any_text(text: str) -> None:
    Pattern.model_validate(read(text).model_dump())


@settings(max_examples=150, deadline=None)
@given(st.lists(WORDS, max_size=60).map(" ".join))
def test_words_of_the_trade_in_any_order(text: str) -> None:
    pattern = read("Rnd 1: 6 sc in MR (6)\nRnd 2: " + text)
    for finding in pattern.findings:
        assert finding.line >= 1
        assert finding.span >= 0
        for suggestion in finding.suggestions:
            assert 0 <= suggestion.start <= suggestion.end


NAMES = "abcdefghijklmnopqrstuv"

SLOW_ONCE = {
    "tiny lines": "9\n" * 60_000,
    "list items": "<ol>" + "<li>sc</li>" * 15_000 + "</ol>",
    "labels on one line": "R1 " * 60_000,
    "headings": "## Fin\n" * 15_000,
    "digits": "Rnd 1: 6 sc in MR\nRnd 2: " + "1" * 16_000,
    "blank lines": "Rnd 1: 6 sc in MR\n" + "\n" * 200_000 + "Rnd 2: inc x 6",
    "the same round": "Rnd 1: 6 sc in MR\n" * 8_000,
    "cells below one another": "1\nsc\n6\n" * 30_000,
    "rounds for rounds": "sc around for 3 rounds\n" * 11_000,
    "a key of thousands": "Key\n" + "".join(f"{a}{b}{c}q - increase\n" for a in NAMES for b in NAMES for c in NAMES),
    "some stitches dyed": "R1: 6 sc in MR\nR2: inc x 6\n" + "R9: sc 12, the last 6 in white\n" * 8_000,
}


@pytest.mark.parametrize("name", SLOW_ONCE)
def test_work_is_bounded(name: str) -> None:
    """Each took seconds or minutes once. In a process of its own, with a limit far above what it needs of the
    processor: how long it waits for that is the machine's business."""
    code = (
        "import resource, sys; resource.setrlimit(resource.RLIMIT_CPU, (15, 15)); from hookside.notation import read; "
        "print(len(read(sys.stdin.read()).findings))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        input=SLOW_ONCE[name],
        text=True,
        capture_output=True,
        timeout=300,
        check=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )
    assert int(done.stdout) < 6_000


def test_a_round_behind_much_talk_is_found() -> None:
    """demo: a page with two thousand lines of chatter between two rounds."""
    fin = "Fin\nRnd 1: 5 sc in MR (5)\nRnd 2: inc x 5 (10)\n"
    pattern = read("Rnd 1: 6 sc in MR (6)\n" + "the gulls cry\n" * 2_000 + fin)
    assert [(p.name, [c.makes for c in p.courses]) for p in pattern.pieces][1:] == [("Fin", [5, 10])]


def test_rounds_behind_much_that_is_none_are_found() -> None:
    """demo: jobs between the rounds, more of them than are looked into, and none of which is lost up to there."""
    jobs = "".join(f"R{n}: sc around (6)\nPut the eyes at R{n}.\n" for n in range(2, 2_100))
    pattern = read(f"R1: 6 sc in MR (6)\n{jobs}FIN\nR1: 5 sc in MR (5)\nR2: inc x 5 (10)\n")
    assert len(pattern.pieces[0].courses) == 2_099
    assert [course.makes for course in pattern.pieces[-1].courses][-2:] == [5, 10]
    assert sum(cue.kind == "eyes" for cue in pattern.pieces[0].cues) == 2_001


def test_a_round_behind_much_that_nobody_knows_is_read() -> None:
    """demo: from a bound on, which is said, only rounds that hold a word of the trade are looked into."""
    lost = "".join(f"Rnd {n}: wobble {n} gulls by the {n}th gap\n" for n in range(2, 1_102))
    pattern = read(f"Rnd 1: 6 sc in MR (6)\n{lost}FIN\nRnd 1: 5 sc in MR (5)\nRnd 2: inc in each st around (10)\n")
    told = [finding.line for finding in pattern.findings if finding.code == "too-much-doubt"]
    assert told == [502]
    assert [course.makes for course in pattern.pieces[-1].courses] == [5, 10]


def test_rounds_that_come_out_are_read_however_many_are_unlike_each_other() -> None:
    """Every way to part 99 stitches in three: 4,753, of which so many as a text may have are worked (demo)."""
    ways = [(a, b, 99 - a - b) for a in range(1, 98) for b in range(1, 99 - a)][:4_000]
    lines = [f"Rnd {n}: {a} sc, {b} sc in the back loop only, {c} sc (99)" for n, (a, b, c) in enumerate(ways, 3)]
    start = "Rnd 1: ch 99, join to form a ring (99)\nRnd 2: sc in each ch around (99)\n"
    pattern = read(start + "\n".join(lines))
    rounds = [course for piece in pattern.pieces for course in piece.courses]
    assert "too-many-different" not in {finding.code for finding in pattern.findings}
    assert [course.makes for course in rounds[-4_000:]] == [99] * 4_000


@pytest.mark.parametrize(("nth", "read_so"), [(900, True), (3_000, False)])
def test_of_thousands_of_own_names_the_first_ones_are_known_and_the_others_said(nth: int, read_so: bool) -> None:
    names = [f"{a}{b}{c}q" for a in NAMES for b in NAMES for c in NAMES][:3_200]
    key = "Key\n" + "".join(f"{name} - increase\n" for name in names)
    pattern = read(f"{key}\nBall\nR1: 6 sc in mr (6)\nR2: 6 {names[nth]} (12)\nR3: 12 sc (12)\n")
    assert [course.read for course in pattern.pieces[-1].courses] == [True, read_so, True]
    assert ("unread" in [finding.code for finding in pattern.findings]) is not read_so


def test_no_rounds_of_the_same_are_none() -> None:
    """Found by a mutated text: "0Rnd 6: ..." behind round 4 fills no gap, and is said."""
    text = (
        "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\nRnd 4: (2 sc, inc) x 6 (24)\n"
        "0Rnd 6: (4 sc, inc) x 6 (36)\nRnd 7: 36 sc (36)\n"
    )
    assert any(finding.line == 5 and "left this out" in finding.message for finding in read(text).findings)


@pytest.mark.parametrize("row", ["{n},sc around,6", "{n}\nsc around\n6", '{n},"sc around",6', "{n} > sc around (6)"])
def test_a_table_goes_on_beyond_its_999th_row(row: str) -> None:
    rows = [row.format(n=n).replace("sc around", "6 sc in mr" if n == 1 else "sc around") for n in range(1, 1011)]
    pattern = read("\n".join(rows) + "\n")
    assert [len(piece.courses) for piece in pattern.pieces] == [1010]
    assert {course.makes for course in pattern.pieces[0].courses} == {6}
