"""`hookside mend` says what the page offers."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner
from strands import BUOY, OURS

from hookside.cli import main


def said(*words: str, text: str | None = None) -> tuple[int, str, str]:
    done = CliRunner().invoke(main, ["mend", *words], input=text)
    return done.exit_code, done.stdout, done.stderr


def test_one_too_few() -> None:
    code, out, _ = said("-", "4", "23", text=BUOY)
    assert code == 0
    lines = out.splitlines()
    assert lines[0] == "Round 4 of Buoy: 24 as written, 23 counted."
    assert lines[2] == "In the last repeat of round 8"
    assert "Round 8: (2 sc, inv dec) x 5, 3 sc. That makes 18, as written." in lines[3]


def test_for_programs() -> None:
    code, out, _ = said("-", "4", "25", "--json", text=BUOY)
    form = json.loads(out)
    assert (code, form["expected"], form["counted"]) == (0, 24, 25)
    assert [offer["key"] for offer in form["offers"]] == ["shaping", "hidden", "rip", "leave"]
    assert form["offers"][0]["line"] == "(2 sc, inv dec) x 5, inv dec, 1 sc, inv dec"
    # 13 where six decreases want 12: nothing in them is plain.
    assert (form["offers"][3]["kind"], form["offers"][3]["say"]) == (
        "refused", "No repeat of round 11 has a plain stitch that could take it up.",
    )  # fmt: skip


def test_right_and_far_off() -> None:
    assert said("-", "4", "24", text=BUOY)[1].splitlines()[1] == "That is right."
    far = said("-", "4", "12", text=BUOY)[1]
    assert "more than a mend can hide" in far
    assert "Pull round 4 out" in far


def test_what_is_not_there_is_said(tmp_path: Path) -> None:
    assert said("-", "40", "3", text=BUOY)[0] == 2
    seal = str(OURS / "seal-pup.txt")
    code, _, why = said(seal, "9", "30")
    assert (code, why) == (2, "Name the piece with --piece: Body, Flippers, Tail.\n")
    why = said(seal, "9", "30", "--piece", "wing")[2]
    assert why == "There is no piece called wing; there are Body, Flippers, Tail.\n"
    assert said(seal, "8", "11", "--piece", "flippers")[1].splitlines()[2] == "In the last repeat of round 9"
    empty = tmp_path / "letter.txt"
    empty.write_text("A letter home.", encoding="utf-8")
    assert said(str(empty), "1", "1")[2] == "There is no round and no row in this pattern.\n"
