"""The record of a making over HTTP and by the command line."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest
from click.testing import CliRunner

from hookside.cli import main


def first_round(house: Any) -> int:
    """A making of which the first round is worked."""
    making: int = house.begin()
    device = house.device()
    joined = device.join(making)["snapshot"]
    answers = device.send(device.move(joined, "next", unit="round"))["answers"]
    if not answers[0]["to"]:  # the colour it begins with is a pause of its own
        device.send(device.move(joined, "next", base=answers[0]["head"], unit="round"))
    return making


def test_the_record_of_a_making(house: Any) -> None:
    making = first_round(house)
    status, told = house.ask("GET", f"/api/makings/{making}/record")
    assert status == 200
    assert told["title"] == "Mooring buoy"
    (sitting,) = told["sittings"]
    assert (sitting["stitches"], sitting["pieces"], sitting["a_minute"]) == (6, ["Buoy"], None)
    # By the arithmetic of the text: 6 + 12 + 18 + 3 x 18 + 12 + 6 = 108 a copy, two copies.
    assert told["left"]["stitches_of"] == 2 * 108
    assert told["left"]["stitches"] == 2 * 108 - 6
    assert (told["left"]["courses"], told["left"]["courses_of"]) == (15, 16)
    metres = told["left"]["metres"]
    assert 0 < metres["low"] < metres["value"] < metres["high"]
    assert told["pace"] is None
    assert told["left"]["minutes"]["sittings"] == 0


def test_what_was_pulled_out_is_told(house: Any) -> None:
    """Six stitches made, four of them ripped: two stand, and the record says that four were pulled out."""
    making = first_round(house)
    device = house.device()
    joined = device.join(making)["snapshot"]
    at = joined["state"]["runs"]["p1.c1"]["at"]
    strand = joined["strands"][joined["runs"][0]["strand"]]
    end = next(course["end"] for course in strand["courses"])
    assert at >= end
    device.send(device.move(joined, "rip", to=end - 4))
    told = house.ask("GET", f"/api/makings/{making}/record")[1]
    assert (told["pulled_out"], told["left"]["stitches"]) == (4, 2 * 108 - 2)


def test_what_has_no_stitches_is_not_told_as_made(house: Any) -> None:
    """Demo: sewing up is a section of its own; that it has no stitches left says nothing of it."""
    flipper = "Flipper (make 2)\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
    making = house.begin(f"{flipper}\nMaking up\nPin the flippers to the body.\nSew them on.\n")
    _, made = house.ask("GET", f"/api/makings/{making}")
    assert len(made["runs"]) == 3
    _, told = house.ask("GET", f"/api/makings/{making}/record")
    assert [run["piece"] for run in told["runs"]] == ["Flipper", "Flipper"]


def test_it_goes_out_as_a_table(house: Any) -> None:
    making = first_round(house)
    status, headers, text = house.raw("GET", f"/api/makings/{making}/record.csv")
    assert (status, headers["Content-Type"].split(";")[0]) == (200, "text/csv")
    head, line = csv.reader(io.StringIO(text.decode()))
    assert head == ["begun", "ended", "minutes", "stitches", "stitches a minute", "pieces"]
    assert line[3:] == ["6", "", "Buoy"]


@pytest.mark.usefixtures("reads_at_once")
def test_the_command_says_the_same(house: Any) -> None:
    making = first_round(house)
    folder = str(house.journal.store.file.parent)
    run = CliRunner().invoke
    assert f"{making}  Mooring buoy" in run(main, ["record", "--folder", folder]).output
    told = run(main, ["record", str(making), "--folder", folder]).output
    assert "Left: 210 stitches of 216, 15 of 16 rounds and rows." in told
    assert "by what is common" in told
    assert " m of yarn (" in told
    assert "Buoy 2: 108 stitches left of 108" in told
    note = {"note": "n1", "run": "p1.c1", "step": 3, "text": "looser here", "when": ""}
    house.ask("POST", f"/api/makings/{making}/choices", {"choices": [{"choice": "note", "value": note}]})
    assert "Notes:\n  Buoy, round 1: looser here\n" in run(main, ["record", "mooring", "--folder", folder]).output
    gone = run(main, ["record", "99", "--folder", folder])
    assert gone.exit_code == 1
    assert "not on the shelf any more" in gone.output


def test_a_mend_is_nobodys_work(house: Any) -> None:
    """Round 2 of twelve comes out with eleven and is left so: what was worked and what is left are one sum."""
    making = first_round(house)
    device = house.device()
    joined = device.join(making)["snapshot"]
    device.send(device.move(joined, "next", unit="round"))
    at = house.ask("GET", f"/api/makings/{making}")[1]["state"]["runs"]["p1.c1"]["at"]
    answers = {"n": 11, "edge": "yes", "gap": "unsure"}
    mend = {"run": "p1.c1", "at": at, "answers": answers, "offer": "leave"}
    status, done = house.ask("POST", f"/api/makings/{making}/mend", mend)
    assert status == 200, done
    joined = device.join(making)["snapshot"]
    device.send(device.move(joined, "next", unit="stitch"))
    told = house.ask("GET", f"/api/makings/{making}/record")[1]
    worked = sum(one["stitches"] for one in told["sittings"])
    assert worked == 6 + 11 + 1
    assert told["left"]["stitches"] == told["left"]["stitches_of"] - worked


def test_a_making_that_is_not_there(house: Any) -> None:
    assert house.ask("GET", "/api/makings/99/record")[1]["code"] == "gone"


def test_the_same_again_by_what_was_said_of_the_yarn(house: Any) -> None:
    making = first_round(house)
    choices = [
        {"choice": "yarn", "value": "grey wool"},
        {"choice": "tick", "value": {"list": "gather", "item": "hook", "on": True}},
        {"choice": "copies", "value": {"1": 3}},
    ]
    assert house.ask("POST", f"/api/makings/{making}/choices", {"choices": choices})[1]["asks"] is True
    # A copy more changes no step of what there is: it is there without a question.
    assert house.ask("GET", f"/api/makings/{making}/recast")[1] == {"asks": False}
    worked = house.ask("GET", f"/api/makings/{making}")[1]
    assert [run["copies"] for run in worked["runs"]] == [3, 3, 3]
    assert worked["edited"] is False
    status, told = house.ask("POST", f"/api/makings/{making}/again")
    assert status == 200
    assert told["id"] != making
    new = house.ask("GET", f"/api/makings/{told['id']}")[1]
    # What she said of the yarn comes along; the copy more was wanted of that making alone.
    assert told["say"] == "Came along: the yarn. Not taken over: 1 more Buoy."
    assert new["choices"] == {"yarn": "grey wool"}
    assert [run["copy"] for run in new["runs"]] == [1, 2]
    assert all(run["at"] == 0 for run in new["state"]["runs"].values())
    assert new["edited"] is False
    assert house.ask("POST", "/api/makings/99/again")[1]["code"] == "gone"
