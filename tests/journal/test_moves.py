"""What the journal decides on moves: apply, answer again, lay aside, refuse."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from hookside.journal import MOST_MOVES
from hookside.journal.taking import TAKEN_ID

Reopen = Callable[[], Any]


def test_a_move_is_applied_and_acknowledged(desk: Any) -> None:
    answer = desk.do("next", unit="round")
    assert answer == {
        "ok": True, "id": f"{1:032x}", "row": 2, "kind": "move", "run": "p3.c1", "from": 0, "to": 8,
        "passed": ["buoy.1/marker.1"], "head": 2, "in_hand": "p3.c1", "asides": 0,
    }  # fmt: skip
    assert desk.state()["runs"]["p3.c1"]["history"] == [
        {"row": 2, "id": f"{1:032x}", "at": 0, "in_hand": None, "counts": {}}
    ]


def test_a_move_sent_again_gets_the_same_answer_and_changes_nothing(desk: Any, reopened: Reopen) -> None:
    moves = [desk.move("next", unit="stitch"), desk.move("next", unit="group"), desk.move("next", unit="nonsense")]
    first = desk.send(*moves)
    state = desk.state()
    assert [a["kind"] for a in first] == ["move", "move", "refused"]
    assert desk.send(*reversed(moves)) == first[::-1]
    later = reopened()
    assert later.send(*moves, moves[0]) == [*first, first[0]]
    assert later.state() == state == desk.state()


def test_twice_in_one_batch_is_once(desk: Any) -> None:
    move = desk.move("next", unit="stitch")
    first, second = desk.send(move, dict(move))
    assert first == second
    assert desk.at() == 1


def test_a_refusal_is_kept_and_answered_again(desk: Any, reopened: Reopen) -> None:
    move = desk.move("back", unit="stitch")
    (answer,) = desk.send(move)
    assert (answer["kind"], answer["code"], answer["from"], answer["to"]) == ("refused", "start", 0, 0)
    desk.do("next", unit="stitch")
    # Now it could be made, but it was answered.
    assert desk.send(move) == [answer]
    assert reopened().send(move) == [answer]


@pytest.mark.parametrize(
    ("change", "where"),
    [
        ({"id": "short"}, "id"),
        ({"id": "0" * 31 + "G"}, "id"),
        ({"intent": "dance"}, "intent"),
        ({"making": "1"}, "making"),
        ({"making": True}, "making"),
        ({"base": -1}, "base"),
        ({"to": 1.5}, "to"),
        ({"to": 2**63}, "to"),
        ({"device": ""}, "device"),
        ({"device": "ph\ud800one"}, "device"),
        ({"run": "x" * 65}, "run"),
        ({"cue": "x" * 501}, "cue"),
        ({"cue": "\ud800"}, "cue"),
        ({"colour": "red"}, "colour"),
        ({"undoes": [1]}, "undoes"),
        ({"asides": ["1"]}, "asides"),
    ],
)
def test_what_is_no_move_is_answered_and_not_kept(desk: Any, change: dict[str, Any], where: str) -> None:
    rows = desk.journal.count_rows()
    good = desk.move("next", unit="stitch")
    bad = desk.send(desk.move("next", unit="stitch") | change, good)
    assert (bad[0]["ok"], bad[0]["code"]) == (False, "malformed")
    assert where in bad[0]["say"]
    assert bad[1]["ok"]
    assert desk.journal.count_rows() == rows + 1


@pytest.mark.parametrize("raw", [None, 5, "move", [], {}])
def test_what_is_not_even_an_object(desk: Any, raw: Any) -> None:
    (answer,) = desk.send(raw)
    assert (answer["ok"], answer["code"]) == (False, "malformed")


def test_a_strange_cue_is_refused_like_any_other(desk: Any) -> None:
    assert desk.do("done", cue="\u0000 ✂")["code"] == "not-here"
    assert desk.journal.check() == []


def test_a_batch_has_a_bound(desk: Any) -> None:
    with pytest.raises(ValueError, match="500 are the most"):
        desk.send(*[desk.move("next", unit="stitch")] * (MOST_MOVES + 1))
    assert desk.at() == 0


def test_no_such_making_and_one_put_away(desk: Any, reopened: Reopen) -> None:
    stray = desk.move("next", unit="stitch") | {"making": 99}
    (nowhere,) = desk.send(stray)
    assert (nowhere["ok"], nowhere["kind"], nowhere["code"]) == (True, "refused", "gone")
    # It is kept: the same move again is the same answer, and another device can't use its id.
    assert reopened().send(stray, stray | {"device": "tablet"}) == [nowhere, TAKEN_ID]
    assert desk.journal.which(99, [stray["id"], "0" * 32]) == {stray["id"]: 0}
    desk.do("next", unit="stitch")
    late = desk.move("next", unit="stitch")
    desk.journal.put_away(desk.making)
    assert desk.journal.snapshot(desk.making) is None
    assert desk.journal.makings() == []
    (answer,) = desk.send(late)
    assert (answer["ok"], answer["kind"], answer["code"]) == (True, "refused", "gone")
    assert reopened().send(late) == [answer]
    assert desk.journal.check() == []


def test_a_run_there_is_not(desk: Any) -> None:
    assert desk.do("next", unit="stitch", run="p9.c9")["code"] == "no-run"


def test_own_rows_never_stand_in_the_way(desk: Any) -> None:
    # A device sends on without waiting for answers: its base stays behind its own rows.
    moves = [desk.move("next", unit="stitch") for _ in range(20)]
    assert {m["base"] for m in moves} == {1}
    assert [a["to"] for a in desk.send(*moves)] == [1, 2, 3, 4, 5, 6, 8, *range(9, 20), 21, 22]
    assert desk.send(desk.move("goto", to=3))[0]["kind"] == "move"


def test_two_taps_on_two_devices_both_count(desk: Any) -> None:
    desk.join("phone"), desk.join("tablet")
    phone, tablet = desk.move("next", unit="stitch"), desk.move("next", "tablet", unit="stitch")
    desk.send(phone)
    desk.now += 4.9
    (answer,) = desk.send(tablet)
    assert (answer["kind"], answer["from"], answer["to"]) == ("move", 1, 2)


def test_five_seconds_later_it_is_laid_aside(desk: Any) -> None:
    desk.join("phone"), desk.join("tablet")
    tablet = desk.move("next", "tablet", unit="group")
    desk.do("next", unit="round")
    desk.now += 5.0
    (answer,) = desk.send(tablet)
    assert (answer["kind"], answer["from"], answer["to"], answer["asides"]) == ("aside", 0, 1, 1)
    assert desk.at() == 8
    assert desk.send(tablet) == [answer]


def test_wall_clocks_do_not_matter(desk: Any) -> None:
    times = iter(["2031-01-01T00:00:00+00:00", "1999-12-31T23:59:59+00:00"] + ["2026-03-01T08:00:00+00:00"] * 9)
    desk.journal.wall = lambda: next(times)
    desk.join("phone"), desk.join("tablet")
    tablet = desk.move("next", "tablet", unit="stitch")
    desk.do("next", unit="stitch")
    assert desk.send(tablet)[0]["kind"] == "move"
    assert desk.journal.makings()[0]["worked"] == "1999-12-31T23:59:59+00:00"


@pytest.mark.parametrize(
    "change",
    [
        {"backlog": True},
        {"intent": "goto", "to": 20, "unit": None},
        {"intent": "count", "n": 3, "unit": None},
        {"intent": "rip", "to": 0, "unit": None},
        {"strand": "another"},
    ],
)
def test_what_is_never_put_onto_a_newer_row(desk: Any, change: dict[str, Any]) -> None:
    desk.join("phone"), desk.join("tablet")
    tablet = desk.move("next", "tablet", unit="stitch") | change
    desk.do("next", unit="stitch")
    assert desk.send(tablet)[0]["kind"] == "aside"
    assert desk.at() == 1


def test_two_newer_rows_are_too_many(desk: Any) -> None:
    desk.join("phone"), desk.join("tablet")
    tablet = desk.move("next", "tablet", unit="stitch")
    desk.do("next", unit="stitch")
    desk.do("next", unit="stitch")
    assert desk.send(tablet)[0]["kind"] == "aside"


def test_two_newer_rows_of_two_devices_are_too_many(desk: Any) -> None:
    for device in ("phone", "tablet", "laptop"):
        desk.join(device)
    tablet = desk.move("next", "tablet", unit="stitch")
    desk.do("next", unit="stitch")
    desk.join("laptop")
    desk.do("next", "laptop", unit="stitch")
    assert desk.send(tablet)[0]["kind"] == "aside"


def test_after_a_restart_every_row_is_old(desk: Any, reopened: Reopen) -> None:
    desk.join("phone"), desk.join("tablet")
    tablet = desk.move("next", "tablet", unit="stitch")
    desk.do("next", unit="stitch")
    assert reopened().send(tablet)[0]["kind"] == "aside"


def test_a_refused_row_of_another_device_is_no_newer_row(desk: Any) -> None:
    desk.join("phone"), desk.join("tablet")
    tablet = desk.move("goto", "tablet", to=20)
    assert desk.do("back", unit="stitch")["kind"] == "refused"
    assert desk.send(tablet)[0]["kind"] == "move"


def test_a_stop_answered_on_two_devices_is_answered_once(desk: Any) -> None:
    desk.do("goto", to=58)
    desk.join("tablet")
    both = [desk.move("done", device, cue="buoy.4/stuff.1") for device in ("phone", "tablet")]
    first, second = desk.send(*both)
    assert (first["kind"], first["to"]) == ("move", 60)
    assert (second["kind"], second["code"]) == ("refused", "not-here")


def apart(desk: Any) -> None:
    """The tablet worked on alone while the phone went on: three moves each, tablet's from the same start."""
    desk.journal.meet("phone", "Ada's phone")
    desk.journal.meet("tablet", "the tablet")
    desk.do("next", unit="round")
    desk.join("tablet")
    alone = [desk.move("next", "tablet", unit="stitch", backlog=True) for _ in range(3)]
    for _ in range(3):
        desk.do("next", unit="round")
    answers = desk.send(*alone)
    assert [(a["kind"], a["from"], a["to"]) for a in answers] == [("aside", 8, 9), ("aside", 9, 10), ("aside", 10, 11)]
    assert [a["asides"] for a in answers] == [1, 1, 1]


def test_asides_say_where_each_device_thinks_it_is(desk: Any, reopened: Reopen) -> None:
    apart(desk)
    asked = desk.journal.snapshot(desk.making)["asides"]
    assert asked == [{"row": 8, "device": "tablet", "device_name": "the tablet", "run": "p3.c1", "to": 11}]
    assert desk.at() == 58
    assert desk.journal.makings()[0]["asides"] == 1
    assert reopened().journal.snapshot(desk.making) == desk.journal.snapshot(desk.making)


@pytest.mark.parametrize("later", [False, True])
def test_more_of_the_same_device_goes_on_from_its_own_view(desk: Any, reopened: Reopen, later: bool) -> None:
    apart(desk)
    desk = reopened() if later else desk
    more = desk.move("next", "tablet", unit="stitch") | {"base": 2}
    (answer,) = desk.send(more)
    assert (answer["kind"], answer["from"], answer["to"]) == ("aside", 11, 12)
    assert [a["to"] for a in desk.journal.snapshot(desk.making)["asides"]] == [12]


def test_a_device_that_is_up_to_date_goes_on_while_the_making_asks(desk: Any) -> None:
    apart(desk)
    assert desk.do("done", cue="buoy.4/stuff.1")["kind"] == "move"
    desk.join("tablet")
    assert desk.do("next", "tablet", unit="repeat")["kind"] == "move"
    assert desk.at() == 62
    # One that knows nothing since before the quarrel does not, however fresh the one newer row is.
    desk.heads["laptop"] = desk.head() - 1
    assert desk.send(desk.move("next", "laptop", unit="stitch"))[0]["kind"] == "move"
    desk.heads["laptop"] = 2
    assert desk.send(desk.move("next", "laptop", unit="stitch"))[0]["kind"] == "aside"


def test_while_the_making_asks_not_even_a_fresh_row_is_built_on(desk: Any) -> None:
    desk.join("phone"), desk.join("tablet"), desk.join("laptop")
    laptop = desk.move("next", "laptop", unit="stitch")
    tablet = desk.move("goto", "tablet", to=30)
    desk.do("next", unit="stitch")
    assert desk.send(tablet)[0]["kind"] == "aside"
    assert desk.send(laptop)[0]["kind"] == "aside"


def test_settling_ends_the_asking(desk: Any, reopened: Reopen) -> None:
    apart(desk)
    answer = desk.do("settle", to=11, asides=[8])
    assert (answer["kind"], answer["from"], answer["to"], answer["asides"]) == ("settle", 58, 11, 0)
    for one in (desk, reopened()):
        snapshot = one.journal.snapshot(desk.making)
        assert snapshot["asides"] == []
        assert snapshot["state"]["runs"]["p3.c1"]["at"] == 11
    # Both histories stay, and the maker can change her mind.
    assert desk.journal.count_rows() == 9
    assert desk.do("undo", undoes=answer["row"])["to"] == 58


def test_settling_from_a_device_that_lags_is_heard(desk: Any) -> None:
    apart(desk)
    assert desk.send(desk.move("settle", "tablet", to=11, asides=[8], backlog=True))[0]["kind"] == "settle"


def test_a_second_answer_to_the_same_question_is_refused(desk: Any, reopened: Reopen) -> None:
    apart(desk)
    desk.do("settle", to=11, asides=[8])
    second = desk.do("settle", "tablet", to=30, asides=[8])
    assert (second["kind"], second["code"]) == ("refused", "settled")
    assert desk.at() == 11 == reopened().at()
    assert desk.do("settle", to=30)["code"] == "settled"


def test_settling_one_run_leaves_the_other_asking(desk: Any) -> None:
    apart(desk)
    other = desk.move("next", "tablet", run="p1.c1", unit="stitch", backlog=True)
    other["base"] = 2
    assert desk.send(other)[0]["kind"] == "aside"
    assert [a["run"] for a in desk.journal.snapshot(desk.making)["asides"]] == ["p3.c1", "p1.c1"]
    assert desk.do("settle", to=58, asides=[8])["asides"] == 1
    assert [a["row"] for a in desk.journal.snapshot(desk.making)["asides"]] == [other_row(desk)]


def other_row(desk: Any) -> int:
    return int(desk.journal.snapshot(desk.making)["asides"][0]["row"])


def test_a_settle_outside_the_strand_is_refused_and_the_asking_goes_on(desk: Any) -> None:
    apart(desk)
    assert desk.do("settle", to=9999, asides=[8])["code"] == "range"
    assert len(desk.journal.snapshot(desk.making)["asides"]) == 1


def test_undo_by_the_id_of_a_move_whose_row_is_not_known(desk: Any, reopened: Reopen) -> None:
    first, second = desk.move("next", unit="stitch"), desk.move("next", unit="stitch")
    undo = desk.move("undo", undoes=second["id"])
    assert [a["to"] for a in desk.send(first, second, undo)] == [1, 2, 1]
    assert reopened().at() == 1


def test_a_snapshot_shows_the_newest_fifty(desk: Any) -> None:
    for n in range(60):
        desk.do("next" if n % 2 == 0 else "back", unit="stitch")
    history = desk.state()["runs"]["p3.c1"]["history"]
    assert [past["row"] for past in history] == list(range(12, 62))


def test_several_makings_in_one_batch(desk: Any) -> None:
    one = desk.move("next", unit="stitch")
    first = desk.making
    desk.begin()
    desk.heads.clear()
    two = desk.move("next", unit="group", run="p1.c1")
    answers = desk.send(one, two)
    assert [a["to"] for a in answers] == [1, 6]
    assert desk.journal.snapshot(first)["head"] == answers[0]["row"]
    assert desk.journal.snapshot(desk.making)["head"] == answers[1]["row"]


def test_a_device_that_knows_rows_which_are_not_here_is_asked_first(desk: Any) -> None:
    """Nothing of its batch is taken, not even what would fit: an older journal may lie in the folder."""
    known = desk.move("next", unit="stitch")
    desk.send(known)
    fits, ahead = desk.move("next", unit="stitch"), desk.move("next", unit="stitch", base=10**9)
    answers = desk.send(fits, ahead, {"id": 1})
    assert [(answer["ok"], answer["code"]) for answer in answers] == [
        (False, "ahead"), (False, "ahead"), (False, "malformed"),
    ]  # fmt: skip
    assert (desk.at(), desk.journal.count_rows()) == (1, 2)
    assert desk.send(known)[0]["ok"]  # what was acknowledged stays so


def test_whose_move_a_place_comes_from_is_told(desk: Any) -> None:
    desk.journal.meet("tablet", "Tablet")
    desk.do("next", unit="stitch")
    desk.do("next", "tablet", run="p1.c1", unit="stitch")
    assert desk.journal.snapshot(desk.making)["last"] == {
        "p3.c1": {"device": "phone", "device_name": ""}, "p1.c1": {"device": "tablet", "device_name": "Tablet"},
    }  # fmt: skip


def test_an_id_belongs_to_the_device_that_used_it(desk: Any) -> None:
    move = desk.move("next", unit="stitch")
    other = move | {"device": "tablet", "unit": "round"}
    first, second = desk.send(move, other)
    assert first["ok"]
    assert (second["ok"], second["code"]) == (False, "id")
    assert "another device" in second["say"]
    assert desk.send(other) == [second]
    assert desk.send(move) == [first]
    assert desk.at() == 1


def test_the_snapshot_names_its_pattern(desk: Any) -> None:
    assert desk.join("phone")["pattern"] == desk.journal.patterns()[0]["id"]
