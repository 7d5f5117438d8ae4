"""What the shelf asks: patterns, makings with a recap, the maker's likings."""

from __future__ import annotations

from typing import Any

import pytest
from laying import Round, group, lay

from hookside.journal import MAKER, Journal, Unsound


def test_patterns_come_and_go_and_makings_stay(desk: Any) -> None:
    journal: Journal = desk.journal
    (first,) = journal.patterns()
    second = journal.add_pattern("Rnd 1: 6 sc in ring (6)", None, "own")
    assert journal.pattern(second) == {
        "id": second, "text": "Rnd 1: 6 sc in ring (6)", "terms": None, "source": "own",
    }  # fmt: skip
    journal.update_pattern(first["id"], "another text", "UK")
    assert journal.pattern(first["id"]) == {"id": first["id"], "text": "another text", "terms": "UK", "source": "yours"}
    journal.remove_pattern(first["id"])
    assert journal.pattern(first["id"]) is None
    assert [p["id"] for p in journal.patterns()] == [second]
    assert [m["pattern"] for m in journal.makings()] == [first["id"]]
    assert desk.do("next", unit="stitch")["ok"]


def test_recap(desk: Any) -> None:
    (fresh,) = desk.journal.makings()
    assert (fresh["title"], fresh["worked"], fresh["in_hand"], fresh["finished"]) == ("Harbour seal", None, None, False)
    desk.do("goto", to=24)
    (making,) = desk.journal.makings()
    assert making["worked"]
    # Two stitches and an increase are behind; stuffing is due once rounds 3 and 4 are done.
    assert making["in_hand"] == {
        "run": "p3.c1", "piece": "buoy", "copy": 1, "copies": 1, "label": "3", "kind": "round", "stitch": 3, "of": 18,
        "next_cue": {"kind": "stuff", "text": "stuff now", "distance_courses": 2, "waits": False},
        "then": None,
    }  # fmt: skip
    desk.do("goto", to=58)
    assert desk.journal.makings()[0]["in_hand"]["next_cue"] == {
        "kind": "stuff", "text": "stuff now", "distance_courses": 0, "waits": True,
    }  # fmt: skip


def test_recap_of_a_finished_making(desk: Any) -> None:
    desk.finish()
    (making,) = desk.journal.makings()
    assert making["finished"]
    assert making["in_hand"]["label"] is None
    assert making["in_hand"]["next_cue"] is None


def test_behind_the_last_stitch_of_a_part_the_next_one_is_told(desk: Any) -> None:
    desk.finish("p1.c1")
    (making,) = desk.journal.makings()
    assert making["in_hand"]["label"] is None
    assert making["in_hand"]["then"] == {"piece": "flipper", "copy": 2, "copies": 2, "crocheted": True}
    desk.finish("p1.c2", "p2.c1")
    assert desk.journal.makings()[0]["in_hand"]["then"] == {
        "piece": "buoy", "copy": 1, "copies": 1, "crocheted": True,
    }  # fmt: skip


def test_the_latest_worked_stands_first(desk: Any) -> None:
    first = desk.making
    second = desk.begin()
    assert [m["id"] for m in desk.journal.makings()] == [second, first]
    desk.making = first
    desk.heads.clear()
    desk.do("next", unit="stitch")
    assert [m["id"] for m in desk.journal.makings()] == [first, second]


def test_what_was_put_away_comes_back_at_its_place(desk: Any) -> None:
    desk.do("goto", to=24)
    place = desk.journal.makings()
    late = desk.move("next", unit="stitch")
    desk.journal.put_away(desk.making)
    assert desk.journal.makings() == []
    assert desk.journal.makings_away() == place
    assert desk.journal.snapshot(desk.making) is None
    assert desk.send(late)[0]["code"] == "gone"
    assert desk.journal.bring_back(desk.making)
    assert [(m["id"], m["in_hand"]) for m in desk.journal.makings()] == [(place[0]["id"], place[0]["in_hand"])]
    assert desk.journal.makings_away() == []
    assert not desk.journal.bring_back(desk.making)
    assert not desk.journal.bring_back(99)
    desk.heads.clear()
    assert desk.do("next", unit="stitch")["kind"] == "move"


def test_maker(journal: Journal) -> None:
    assert journal.maker() == MAKER
    journal.set_maker(journal.maker() | {"hand": "left", "quiet": ["marker"]})
    journal.set_maker(journal.maker() | {"plain": "stitch"})
    assert journal.maker() == MAKER | {"hand": "left", "plain": "stitch", "quiet": ["marker"]}


def test_makers_have_each_their_ways(journal: Journal) -> None:
    journal.set_maker(journal.maker() | {"hand": "left"})
    assert journal.maker("Ada") == journal.maker()  # as the house likes it, while she has said nothing
    assert journal.makers() == []
    journal.set_maker(journal.maker("Ada") | {"counting": "round"}, "Ada")
    journal.set_maker(journal.maker() | {"hand": "right"})
    assert (journal.maker("Ada")["hand"], journal.maker("Ada")["counting"]) == ("left", "round")
    assert (journal.maker()["hand"], journal.maker()["counting"]) == ("right", None)
    assert journal.makers() == ["Ada"]
    assert journal.maker_at_the_machine() == ""
    journal.set_maker_at_the_machine("Ada")
    assert journal.maker_at_the_machine() == "Ada"


def test_a_snapshot_has_all_a_device_needs(desk: Any) -> None:
    snapshot = desk.journal.snapshot(desk.making, "phone")
    assert set(snapshot) == {
        "epoch", "id", "pattern", "title", "head", "order", "terms", "runs", "state", "strands", "asides",
        "last", "edited", "choices", "mends",
    }  # fmt: skip
    assert snapshot["epoch"] == desk.journal.epoch
    assert [r["run"] for r in snapshot["runs"]] == ["p1.c1", "p1.c2", "p2.c1", "p3.c1"]
    assert snapshot["runs"][1] == {"run": "p1.c2", "piece": "flipper", "copy": 2, "copies": 2, "strand": "flipper"}
    assert set(snapshot["strands"]) == {"flipper", "skiff", "buoy"}
    assert snapshot["order"] == {"kind": "one", "label": None}
    assert desk.journal.snapshot(99) is None


def test_a_strand_that_does_not_add_up_is_not_kept(desk: Any) -> None:
    good = lay("dory", [Round("1", [group("sc", 6)])])
    bad = good.model_copy(update={"length": 7})
    with pytest.raises(Unsound, match="dory cannot be begun"):
        desk.begin_with(bad)
    desk.begin_with(good)
    other = lay("dory", [Round("1", [group("sc", 8)])])
    with pytest.raises(Unsound, match="known otherwise"):
        desk.begin_with(other)
    desk.begin_with(good.model_copy(deep=True))
    assert len(desk.journal.makings()) == 3


def test_patterns_lie_as_they_came_whatever_the_clock_says(desk: Any) -> None:
    desk.journal.wall = lambda: "2020-01-01T00:00:00+00:00"
    ids = [desk.journal.add_pattern(f"Rnd 1: {n} sc in MR ({n})", None, "yours") for n in range(4, 12)]
    assert [p["id"] for p in desk.journal.patterns() if p["id"] in ids] == ids
