"""`hookside explain`: what it prints and how it ends."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from hookside.cli import main

BUOY = "FLOAT (make 2)\n\nRnd 1: 6 sc in a magic ring (6)\nRnd 2: inc x 6 (13)\n"


def run(*arguments: str, given: str | None = None) -> tuple[int, str, str]:
    result = CliRunner().invoke(main, ["explain", *arguments], input=given)
    return result.exit_code, result.stdout, result.stderr


@pytest.fixture
def float_(tmp_path: Path) -> str:
    path = tmp_path / "float.txt"
    path.write_text(BUOY, encoding="utf-8")
    return str(path)


def test_one_line(float_: str) -> None:
    code, out, err = run(f"{float_}:4")
    assert (code, err) == (0, "")
    assert out == (
        "Line 4: Rnd 2: inc x 6 (13)\n"
        "Round 2 of Float.\n"
        "    inc x 6  1 increase, six times in all\n"
        "    (13)     the printed count, 13\n"
        '  Its label is "Rnd 2:".\n'
        "  Round 1 made 6 stitches to work into.\n"
        "  It uses 6 and makes 12.\n"
        "  So all 6 are used and none is left over.\n"
        "  The pattern prints 13, one more than it makes.\n"
        "  Can't be followed: Round 2 makes 12 stitches, but the pattern prints 13.\n"
        "\n"
        'Read in US terms. It works "sc".\n'
    )


def test_several_lines_and_standard_input(float_: str) -> None:
    code, out, _ = run("-:1-4", given=BUOY)
    assert code == 0
    assert out == run(f"{float_}:1-4")[1]
    assert [line for line in out.splitlines() if line.startswith("Line ")] == [
        "Line 1: FLOAT (make 2)",
        "Line 3: Rnd 1: 6 sc in a magic ring (6)",
        "Line 4: Rnd 2: inc x 6 (13)",
    ]


def test_an_empty_line_is_said(float_: str) -> None:
    code, out, _ = run(f"{float_}:2")
    assert code == 0
    assert out.startswith("Line 2 is empty.\n")


def test_for_programs(float_: str) -> None:
    code, out, _ = run(f"{float_}:4", "--json")
    told = json.loads(out)
    assert code == 0
    assert sorted(told) == ["lines", "terms"]
    assert told["lines"][0]["course"] == "float.2"
    assert told["lines"][0]["parts"][0] == {"text": "inc x 6", "sense": "1 increase, six times in all"}


@pytest.mark.parametrize(
    ("where", "said"),
    [
        ("float.txt", "float.txt names no line; write the file, a colon and the line"),
        ("float.txt:9-3", "There are no lines 9 to 3"),
        ("float.txt:0", "There are no lines 0 to 0"),
        ("gone.txt:3", "There is no file gone.txt"),
    ],
)
def test_a_dead_end_is_one_sentence(where: str, said: str) -> None:
    code, out, err = run(where)
    assert (code, out) == (2, "")
    assert err.startswith(said)
    assert err.count("\n") == 1


def test_a_line_behind_the_last(float_: str) -> None:
    code, _, err = run(f"{float_}:99")
    assert code == 2
    assert err == "The text has 5 lines, so there is no line 99.\n"


def test_a_text_that_is_too_long() -> None:
    code, _, err = run("-:1", given="sc " * 90_000)
    assert code == 2
    assert "256 kB" in err
