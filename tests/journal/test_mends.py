"""A mend is one row: it survives the process, a changed text lays it anew where it fits, and it can be taken back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from desk import STRANDS
from laying import Round, group, lay
from test_recast import buoy, edit, laid

from hookside.follow import Mend, Strand, carry, mended
from hookside.journal import MovedOn
from hookside.mend.ground import subject
from hookside.mend.offering import Miscount, offers

BUOY = STRANDS["buoy"]
ROUND_5 = 60  # its first step; round 4, of 18, lies behind it


def mend_of(strand: Strand, at: int, key: str = "shaping") -> Mend:
    """One stitch too few in the round behind a place."""
    asked = subject(strand, at, {})
    assert asked is not None
    found = next(offer for offer in offers(strand, at, Miscount(asked, -1)) if offer.key == key)
    assert found.mend is not None, found.say
    return found.mend


def mend(desk: Any) -> tuple[int, Strand]:
    """At the start of round 5: round 4 has 17."""
    desk.do("goto", to=58)
    desk.do("done", cue=BUOY.cue_at[58].address)
    assert desk.at() == ROUND_5
    new, mends = mended(BUOY, [mend_of(BUOY, ROUND_5)])
    return desk.journal.put_on(desk.making, "p3.c1", ROUND_5, new, carry(BUOY, new, ROUND_5).to, mends), new


def test_it_is_one_row_and_its_replay(desk: Any, reopened: Callable[[], Any]) -> None:
    row, new = mend(desk)
    for later in (desk, reopened()):
        snapshot = later.journal.snapshot(desk.making)
        assert (snapshot["head"], snapshot["edited"]) == (row, False)
        run = snapshot["state"]["runs"]["p3.c1"]
        assert run["strand"] == new.id
        strand = Strand.model_validate(snapshot["strands"][new.id])
        assert [(c.uses, c.makes) for c in strand.courses] == [(6, 6), (6, 12), (12, 18), (18, 17), (17, 12), (12, 6)]
        assert run["at"] == strand.courses[4].first
        assert [one.course for one in later.journal.bench(desk.making).mends["p3.c1"]] == ["buoy.4"]
        assert later.journal.check() == []
    desk.join("phone")
    answer = desk.send(desk.move("next", unit="round") | {"strand": new.id})[0]
    assert answer["kind"] == "move"
    count = new.cue_at[answer["to"]]
    assert (count.kind, count.weight, count.text) == ("count", "pause", "Count now: 12 in round 5.")


def test_who_moved_on_counts_once_more(desk: Any) -> None:
    mend_row, new = mend(desk)
    rows = desk.journal.count_rows()
    with pytest.raises(MovedOn):
        desk.journal.put_on(desk.making, "p3.c1", 3, new, 3, [])
    assert desk.journal.count_rows() == rows
    assert desk.head() == mend_row
    edit(desk)  # what a changed text asks comes first
    with pytest.raises(MovedOn, match="asks first"):
        desk.journal.put_on(desk.making, "p3.c1", desk.at(), new, 3, [])


def test_a_changed_text_keeps_the_mend_where_its_rounds_are_as_they_were(desk: Any) -> None:
    mend(desk)
    edit(desk)
    reworded = BUOY.model_copy(update={"id": "reworded"})
    assert desk.journal.proposal(desk.making, laid()) is None  # the same steps, the mend among them
    assert desk.journal.proposal(desk.making, laid(buoy=reworded)) is None
    # A round more at the end: the rounds of the mend are as they were.
    courses = [*(Round(c.label, c.body, plain=c.plain) for c in BUOY.courses), Round("7", [group("sc", 6)], plain=True)]
    longer = lay("buoy", list(courses)).model_copy(update={"id": "longer"})
    asked = desk.journal.proposal(desk.making, laid(buoy=longer))
    assert "Round 7 is new." in asked["say"]
    assert "Round 5" not in asked["say"]
    assert isinstance(desk.journal.recast(desk.making, laid(buoy=longer), {}, desk.head()), int)
    bench = desk.journal.bench(desk.making)
    (kept,) = bench.mends["p3.c1"]
    strand = bench.strands[bench.state.runs["p3.c1"].strand]
    assert [c.makes for c in strand.courses] == [6, 12, 18, 17, 12, 6, 6]
    assert desk.journal.strand(kept.on) == longer


def test_a_changed_text_drops_a_mend_that_has_no_place_any_more(desk: Any) -> None:
    mend(desk)
    edit(desk)
    other = buoy("buoy", more=2).model_copy(update={"id": "other"})  # round 5 is a plain one in it
    assert isinstance(desk.journal.recast(desk.making, laid(buoy=other), {}, desk.head()), int)
    bench = desk.journal.bench(desk.making)
    assert (bench.state.runs["p3.c1"].strand, bench.mends) == ("other", {})


def test_it_is_taken_back(desk: Any, reopened: Callable[[], Any]) -> None:
    _, new = mend(desk)
    (kept,) = desk.journal.bench(desk.making).mends["p3.c1"]
    base = desk.journal.strand(kept.on)
    assert base == BUOY
    at = desk.at()
    desk.journal.put_on(desk.making, "p3.c1", at, base, carry(new, base, at).to, [])
    for later in (desk, reopened()):
        bench = later.journal.bench(desk.making)
        assert (bench.state.runs["p3.c1"].strand, bench.mends) == ("buoy", {})
        assert later.journal.snapshot(desk.making)["state"]["runs"]["p3.c1"]["at"] == ROUND_5


def test_the_last_count(desk: Any) -> None:
    assert desk.journal.last_count(desk.making, "p3.c1") is None
    desk.do("goto", to=30)
    desk.do("count", n=9)
    desk.do("count", n=8)
    last = desk.journal.last_count(desk.making, "p3.c1")
    assert (last["n"], last["row"]) == (8, desk.head())
    assert desk.journal.last_count(desk.making, "p1.c1") is None
