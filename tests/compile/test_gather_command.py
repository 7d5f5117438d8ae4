"""`hookside gather` and `hookside habits`: what they print and how they end."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner

from hookside.cli import main

PATTERNS = Path(__file__).resolve().parents[2] / "patterns"


def run(*arguments: str) -> tuple[int, str, str]:
    result = CliRunner().invoke(main, list(arguments))
    return result.exit_code, result.stdout, result.stderr


def test_the_list_for_a_reader() -> None:
    code, out, _ = run("gather", str(PATTERNS / "harbor-skiff.txt"))
    lines = out.splitlines()
    assert code == 0
    assert lines[0] == "Harbor Skiff: 1 x Hull, 2 x Seat"
    assert "[ ] 3.25 mm hook: US D-3" in lines
    assert any(line.strip().startswith("not on its list; implied by Assembly") for line in lines)


def test_for_several_and_as_json() -> None:
    file = str(PATTERNS / "striped-buoys.txt")
    one, three = (json.loads(run("gather", file, "--json", "--copies", n)[1]) for n in ("1", "3"))
    assert [piece["copies"] for piece in three["pieces"]] == [15, 15]
    assert three["items"][1]["metres"]["value"] > 2.9 * one["items"][1]["metres"]["value"]


def test_what_makes_no_sense_ends_with_2() -> None:
    file = str(PATTERNS / "striped-buoys.txt")
    assert run("gather", file, "--copies", "0")[0] == 2
    code, _, said = run("gather", file, "--yarn", "spaghetti")
    assert code == 2
    assert "names no yarn that Hookside knows" in said


def test_habits_with_their_reasons() -> None:
    code, out, _ = run("habits", str(PATTERNS / "signal-pennant.txt"))
    assert code == 0
    assert out.startswith("UK terms. The text says that it uses UK terms.")
    assert "an invisible decrease shows on the other side of turned rows" in out
    assert json.loads(run("habits", str(PATTERNS / "seal-pup.txt"), "--json")[1])["plain"]["changes"]
