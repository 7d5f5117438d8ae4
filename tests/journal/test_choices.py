"""What the maker chose: rows that touch no place, known by name, and asked about where they change the steps."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from desk import STRANDS
from test_recast import laid

from hookside.journal.choices import CHOICES, MOST_NOTES, CannotChoose, checked, chosen

SAID = json.loads((Path(__file__).resolve().parents[1] / "vectors" / "choices.json").read_text(encoding="utf-8"))


def choose(desk: Any, *choices: tuple[str, Any], device: str = "phone", **more: Any) -> dict[str, Any]:
    desk.made += 1
    asked = {
        "id": f"{desk.made:032x}", "device": device, "device_seq": desk.made, "making": desk.making,
        "base": desk.head(), "intent": "choose",
        "choices": [{"choice": name, "value": value} for name, value in choices], **more,
    }  # fmt: skip
    answer: dict[str, Any] = desk.send(asked)[0]
    return answer


def test_the_last_row_of_a_name_counts_and_no_place_is_touched(desk: Any, reopened: Callable[[], Any]) -> None:
    desk.do("next", unit="round")
    before = desk.state()
    assert choose(desk, ("yarn", "red cotton, dye lot 12"), ("spiral", True))["kind"] == "choice"
    assert choose(desk, ("yarn", "red cotton, dye lot 13"), ("colours/p1.c2", {"main": "grey"}), device="tablet")["ok"]
    choose(desk, ("order", {"kind": "pair", "label": None}), ("hook", "3 mm"), ("hook", None))
    for later in (desk, reopened()):
        snapshot = later.journal.snapshot(desk.making)
        assert snapshot["state"] == before
        assert snapshot["choices"] == {
            "yarn": "red cotton, dye lot 13", "spiral": True, "colours/p1.c2": {"main": "grey"},
            "order": {"kind": "pair", "label": None},
        }  # fmt: skip
        assert snapshot["order"]["kind"] == "pair"
        assert snapshot["head"] == desk.head()
        assert later.journal.check() == []


def test_a_choice_does_not_stand_between_a_device_and_its_moves(desk: Any) -> None:
    desk.join("tablet")
    choose(desk, ("yarn", "wool"))
    choose(desk, ("yarn", "cotton"))
    assert desk.do("next", device="tablet", unit="round")["kind"] == "move"  # not laid aside
    assert choose(desk, ("yarn", "linen"), base=1, backlog=True)["kind"] == "choice"  # made offline, long ago


def test_sent_twice_it_is_one_row_and_its_id_is_no_moves(desk: Any) -> None:
    first = choose(desk, ("yarn", "wool"), id="a" * 32)
    assert choose(desk, ("yarn", "wool"), id="a" * 32) == first
    assert choose(desk, ("yarn", "wool"), id="a" * 32, device="tablet")["code"] == "id"
    assert desk.send(desk.move("next", unit="stitch") | {"id": "a" * 32})[0]["code"] == "id"
    move = desk.move("next", unit="stitch")
    desk.send(move)
    assert choose(desk, ("yarn", "wool"), id=move["id"])["code"] == "id"


@pytest.mark.parametrize(
    ("name", "value", "says"),
    [
        ("tension", "tight", 'There is no choice called "tension".'),
        ("colours/", {}, "There is no choice called"),
        ("spiral", "yes", '"spiral" cannot be that: '),
        ("copies", {"0": 1}, '"copies" cannot be that: '),
        ("kinds_off", ["gulls"], '"kinds_off" cannot be that: write '),
        ("gauge", {"stitches": 20}, '"gauge" cannot be that: stitches: '),
        ("yarn", "x" * 201, '"yarn" cannot be that: '),
        ("note", None, '"note" cannot be that: '),
        ("tick", {"list": "gather", "item": "", "on": True}, '"tick" cannot be that: item: '),
        ("colours", {str(n): "y" * 190 for n in range(30)}, '"colours" is more than Hookside keeps there'),
    ],
)
def test_what_is_no_choice_is_said(desk: Any, name: str, value: Any, says: str) -> None:
    with pytest.raises(CannotChoose, match=r".") as no:
        checked(name, value)
    assert says in str(no.value)
    answer = choose(desk, (name, value))
    assert (answer["ok"], answer["code"], answer["say"]) == (False, "malformed", str(no.value))


def test_what_adds_loses_nothing_of_two_devices() -> None:
    for case in SAID:
        now = case["before"]
        for one in case["choices"]:
            now = chosen(now, one["choice"], checked(one["choice"], one["value"]))
        assert now == case["after"], case["says"]
    assert {one["choice"].split("/")[0] for case in SAID for one in case["choices"]} == set(CHOICES)


def test_more_notes_than_a_page_shows_are_refused(desk: Any) -> None:
    for first in range(0, MOST_NOTES, 50):
        choose(desk, *(("note", {"note": f"n{n}", "text": "tight here"}) for n in range(first, first + 50)))
    assert choose(desk, ("note", {"note": "n0", "text": "tight"}))["kind"] == "choice"
    answer = choose(desk, ("note", {"note": "more", "text": "tight"}))
    assert (answer["kind"], answer["code"]) == ("refused", "full")


def test_a_choice_for_a_making_that_was_put_away_is_kept(desk: Any) -> None:
    desk.journal.snapshot(desk.making)
    desk.heads["phone"] = desk.head()
    desk.journal.put_away(desk.making)
    move = {"id": "b" * 32, "device": "phone", "device_seq": 1, "making": desk.making, "base": 1,
            "intent": "choose", "choices": [{"choice": "yarn", "value": "wool"}]}  # fmt: skip
    assert desk.send(move)[0]["code"] == "gone"
    assert desk.send(move | {"making": 99, "id": "c" * 32})[0]["code"] == "gone"


def test_what_changes_the_steps_is_asked_and_a_no_takes_it_back(desk: Any, reopened: Callable[[], Any]) -> None:
    desk.do("goto", to=40 + 12)
    before = desk.state()
    assert choose(desk, ("yarn", "wool"))["asks"] is False
    assert choose(desk, ("spiral", True))["asks"] is True
    assert choose(desk, ("spiral", True))["asks"] is False  # nothing new; it still asks
    for later in (desk, reopened()):
        snapshot = later.journal.snapshot(desk.making)
        assert (snapshot["edited"], snapshot["state"], snapshot["choices"]["spiral"]) == (True, before, True)
        asking = later.journal.asking(desk.making)
        assert (asking["choices"], asking["chosen"]) == ({"spiral": True}, ["spiral"])
    desk.journal.stay(desk.making)
    for later in (desk, reopened()):
        snapshot = later.journal.snapshot(desk.making)
        assert (snapshot["edited"], snapshot["choices"]) == (False, {"yarn": "wool"})
        assert later.journal.asking(desk.making) is None


def test_a_yes_puts_the_run_on_its_new_steps(desk: Any, reopened: Callable[[], Any]) -> None:
    from test_recast import buoy

    desk.do("goto", to=40 + 12)
    choose(desk, ("spiral", True))
    new = laid(buoy=buoy())
    asked = desk.journal.proposal(desk.making, new)
    assert asked["say"].startswith("What you chose changes what you work by. Rounds 7 and 8 are new.")
    assert isinstance(desk.journal.recast(desk.making, new, {}, asked["head"]), int)
    for later in (desk, reopened()):
        snapshot = later.journal.snapshot(desk.making)
        assert (snapshot["edited"], snapshot["choices"]) == (False, {"spiral": True})
        assert later.at() == 40 + 12


def test_the_same_steps_in_other_words_ask_nothing_and_keep_what_can_be_undone(
    desk: Any, reopened: Callable[[], Any]
) -> None:
    desk.do("goto", to=40 + 12)
    last = desk.do("next", unit="stitch")
    choose(desk, ("terms", "UK"))
    words = STRANDS["buoy"].model_copy(update={"id": "buoy-uk", "terms": "UK"})
    new = laid(buoy=words)
    assert desk.journal.proposal(desk.making, new) is None
    desk.journal.reworded(desk.making, new)
    for later in (desk, reopened()):
        snapshot = later.journal.snapshot(desk.making)
        assert (snapshot["edited"], snapshot["choices"]) == (False, {"terms": "UK"})
        assert snapshot["state"]["runs"]["p3.c1"]["strand"] == "buoy-uk"
    desk.join("phone")
    undo = desk.move("undo", undoes=last["row"]) | {"strand": "buoy-uk"}
    assert (desk.send(undo)[0]["kind"], desk.at()) == ("move", 40 + 12)
    # Once more, with nothing that differs: the choice stays.
    choose(desk, ("kinds_off", ["marker"]))
    desk.journal.reworded(desk.making, laid(buoy=words))
    assert desk.journal.snapshot(desk.making)["choices"] == {"terms": "UK", "kinds_off": ["marker"]}
    assert desk.journal.check() == []


def test_more_copies_are_asked_about_and_then_there(desk: Any, reopened: Callable[[], Any]) -> None:
    """Three flippers where two were laid: the new one is not begun, the others stay where they are and know of it."""
    desk.do("next", run="p1.c1", unit="round")
    before = desk.state()["runs"]
    assert choose(desk, ("copies", {"1": 3}))["asks"] is True
    third = SimpleNamespace(run="p1.c3", piece="flipper", copy=3, copies=3, strand=STRANDS["flipper"])
    pair, others = [[one for one in laid() if (one.piece == "flipper") is of] for of in (True, False)]
    new = [*pair, third, *others]
    asked = desk.journal.proposal(desk.making, new)
    assert (asked["runs"], asked["added"]) == ([], [])
    assert "flipper: one copy more, 3 in all." in asked["say"]
    desk.journal.recast(desk.making, new, {}, asked["head"])
    for later in (desk, reopened()):
        snapshot = later.journal.snapshot(desk.making)
        flippers = [run for run in snapshot["runs"] if run["piece"] == "flipper"]
        assert [(run["run"], run["copy"], run["copies"]) for run in flippers] == [
            ("p1.c1", 1, 3), ("p1.c2", 2, 3), ("p1.c3", 3, 3),
        ]  # fmt: skip
        assert snapshot["state"]["runs"]["p1.c3"]["at"] == 0
        assert {run: snapshot["state"]["runs"][run]["at"] for run in before} == {
            run: state["at"] for run, state in before.items()
        }
        assert snapshot["edited"] is False


def test_one_more_copy_is_wanted_of_what_is_finished(desk: Any) -> None:
    desk.finish()
    assert choose(desk, ("kinds_off", ["marker"]))["asks"] is False
    assert choose(desk, ("copies", {"1": 3}))["asks"] is True


def test_fewer_copies_take_nothing_away(desk: Any) -> None:
    choose(desk, ("copies", {"1": 1}))
    new = [one for one in laid() if one.run != "p1.c2"]
    assert desk.journal.proposal(desk.making, new) is None
