"""A pattern changed while it is being made: asked, then written as one row; what other devices still send fits in."""

from __future__ import annotations

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest
from desk import RUNS, STRANDS
from laying import Cue, Round, group, lay, times

from hookside.follow.strand import Strand
from hookside.journal import MovedOn
from hookside.journal.recasting import listed

THIRD = [times(6, group("sc"), group("inc"))]


def buoy(name: str = "buoy2", third: list[Any] = THIRD, more: int = 2) -> Strand:
    """The small buoy with `more` plain rounds behind its fourth."""
    whisper = Cue("whisper", "marker")
    plain = [Round(str(4 + n), [group("sc", 18)], plain=True) for n in range(1 + more)]
    return lay(
        name,
        [
            Round("1", [group("ring"), group("sc", 6)]), whisper, Round("2", [group("inc", 6)]), whisper,
            Round("3", third), whisper, *plain, Cue("stop", "stuff"), whisper,
            Round(str(5 + more), [times(6, group("sc"), group("dec"))]), Cue("pause", "colour"), Cue("stop", "close"),
            Round(str(6 + more), [group("dec", 6)]), Cue("stop", "fasten"), Cue("pause", "weave"),
        ],
    )  # fmt: skip


def laid(**other: Strand) -> list[Any]:
    """The making's runs as the changed text lays them."""
    return [
        SimpleNamespace(run=run, piece=strand, copy=copy, copies=copies, strand=other.get(strand, STRANDS[strand]))
        for run, strand, copy, copies in RUNS
    ]


def edit(desk: Any) -> None:
    (pattern,) = desk.journal.patterns()
    assert [making for making, _ in desk.journal.update_pattern(pattern["id"], "changed", "US")] == [desk.making]


def test_a_note_stays_at_its_stitch(desk: Any, reopened: Callable[[], Any]) -> None:
    """Two plain rounds come in behind round 4, so that round 5 begins elsewhere; a course is known by its number."""
    run = "p3.c1"
    old, new = STRANDS["buoy"], buoy()

    def at(strand: Strand, label: str, offset: int) -> int:
        return next(course.first for course in strand.courses if course.label == label) + offset

    notes = [("a", at(old, "2", 4)), ("b", at(old, "5", 3)), ("c", 0)]
    for name, step in notes:
        value = {"note": name, "run": run, "step": step, "text": "count", "when": ""}
        desk.do("choose", run="", strand="", choices=[{"choice": "note", "value": value}])
    edit(desk)
    asked = desk.journal.proposal(desk.making, laid(buoy=new))
    assert isinstance(desk.journal.recast(desk.making, laid(buoy=new), {}, asked["head"]), int)
    for later in (desk, reopened()):
        kept = {note["note"]: note["step"] for note in later.journal.snapshot(desk.making)["choices"]["notes"]}
        assert kept == {"a": at(new, "2", 4), "b": at(new, "5", 3), "c": 0}


def test_a_changed_pattern_asks_and_moves_nothing(desk: Any, reopened: Callable[[], Any]) -> None:
    desk.do("goto", to=40 + 12)  # round 4, stitch 12
    before = desk.state()
    edit(desk)
    for later in (desk, reopened()):
        snapshot = later.journal.snapshot(desk.making)
        assert snapshot["edited"] is True
        assert snapshot["state"] == before
        assert snapshot["head"] == 3
    assert desk.journal.makings()[0]["edited"] is True
    # The same text once more is no change.
    assert desk.journal.update_pattern(desk.journal.patterns()[0]["id"], "changed", "US") == []


def test_the_question(desk: Any) -> None:
    desk.do("goto", to=40 + 12)
    edit(desk)
    asked = desk.journal.proposal(desk.making, laid(buoy=buoy()))
    assert asked["say"] == "The pattern was changed. Rounds 7 and 8 are new. Rounds 5 and 6 are different."
    (run,) = asked["runs"]
    assert (run["run"], run["sure"], run["from"]["say"], run["to"]["say"]) == (
        "p3.c1", True, "round 4, 12 of 18 made", "round 4, 12 of 18 made",
    )  # fmt: skip
    assert desk.journal.proposal(desk.making, laid()) is None  # the same steps: nothing to ask


def test_the_answer_is_one_row_and_its_replay(desk: Any, reopened: Callable[[], Any]) -> None:
    desk.do("goto", to=40 + 12)
    edit(desk)
    new = buoy()
    row = desk.journal.recast(desk.making, laid(buoy=new), {}, desk.head())
    for later in (desk, reopened()):
        snapshot = later.journal.snapshot(desk.making)
        assert (snapshot["head"], snapshot["edited"]) == (row, False)
        assert snapshot["state"]["runs"]["p3.c1"] == {"strand": "buoy2", "at": 52, "counts": {}, "history": []}
        assert snapshot["state"]["runs"]["p1.c1"]["strand"] == "flipper"
        assert {run["run"]: run["strand"] for run in snapshot["runs"]}["p3.c1"] == "buoy2"
        assert set(snapshot["strands"]) == {"flipper", "skiff", "buoy2"}
        assert later.journal.check() == []
    desk.join("phone")
    answer = desk.send(desk.move("next", unit="round") | {"strand": "buoy2"})[0]
    assert (answer["kind"], answer["from"], answer["to"]) == ("move", 52, 58)
    assert desk.journal.makings()[0]["edited"] is False


def test_staying_with_the_steps_one_has(desk: Any, reopened: Callable[[], Any]) -> None:
    desk.do("goto", to=52)
    edit(desk)
    desk.journal.stay(desk.making)
    for later in (desk, reopened()):
        snapshot = later.journal.snapshot(desk.making)
        assert (snapshot["edited"], snapshot["state"]["runs"]["p3.c1"]["at"]) == (False, 52)
        assert snapshot["state"]["runs"]["p3.c1"]["strand"] == "buoy"
    assert desk.journal.asking(desk.making) is None
    desk.join("phone")
    assert desk.do("next", unit="stitch")["to"] == 53


def test_a_changed_course_in_hand_is_asked_for(desk: Any) -> None:
    desk.do("goto", to=21 + 7)  # round 3
    edit(desk)
    new = laid(buoy=buoy(third=[times(6, group("sc", 2), group("inc"))]))
    asked = desk.journal.proposal(desk.making, new)
    assert asked["runs"][0]["sure"] is False
    assert "Rounds 3, 5 and 6 are different." in asked["say"]
    rows = desk.journal.count_rows()
    assert desk.journal.recast(desk.making, new, {}, asked["head"]) == ["p3.c1"]
    assert desk.journal.recast(desk.making, new, {"p3.c1": 4000}, asked["head"]) == ["p3.c1"]
    assert desk.journal.count_rows() == rows
    assert desk.journal.recast(desk.making, new, {"p3.c1": 25}, asked["head"]) == rows + 1
    assert desk.at() == 25


def test_who_moved_on_meanwhile_is_asked_once_more(desk: Any) -> None:
    desk.do("goto", to=52)
    edit(desk)
    asked = desk.journal.proposal(desk.making, laid(buoy=buoy()))
    desk.do("next", unit="stitch")
    with pytest.raises(MovedOn):
        desk.journal.recast(desk.making, laid(buoy=buoy()), {}, asked["head"])
    assert desk.at() == 53


def test_copies_and_finished_runs_are_left_alone(desk: Any) -> None:
    shorter = lay("flipper2", [Round("1", [group("sc", 6)]), Round("2", [group("sc", 5)])])
    while desk.at("p1.c1") < 20:
        at = desk.at("p1.c1")
        cue = STRANDS["flipper"].cue_at.get(at)
        more = {"intent": "done", "cue": cue.address} if cue else {"intent": "next", "unit": "round"}
        assert desk.do(run="p1.c1", **more)["kind"] == "move"
    desk.do("next", run="p1.c2", unit="stitch")
    edit(desk)
    asked = desk.journal.proposal(desk.making, laid(flipper=shorter))
    assert [run["run"] for run in asked["runs"]] == ["p1.c2"]  # the finished copy is not asked about
    desk.journal.recast(desk.making, laid(flipper=shorter), {}, asked["head"])
    runs = desk.state()["runs"]
    assert (runs["p1.c1"]["strand"], runs["p1.c1"]["at"]) == ("flipper", 20)
    assert (runs["p1.c2"]["strand"], runs["p1.c2"]["at"]) == ("flipper2", 1)


def test_pieces_that_come_and_go(desk: Any, reopened: Callable[[], Any]) -> None:
    """A new piece before the others: the text's numbers shift, the making's runs keep their names."""
    edit(desk)
    flag = SimpleNamespace(run="p1.c1", piece="flag", copy=1, copies=1, strand=STRANDS["flag"])
    others = [SimpleNamespace(run=f"p{int(r.run[1]) + 1}{r.run[2:]}", piece=r.piece, copy=r.copy, copies=r.copies,
                              strand=r.strand) for r in laid() if r.piece != "skiff"]  # fmt: skip
    asked = desk.journal.proposal(desk.making, [flag, *others])
    assert (asked["runs"], asked["added"], asked["left"]) == ([], ["flag"], ["skiff"])
    assert "skiff is not in it any more; what you have of it stays." in asked["say"]
    desk.journal.recast(desk.making, [flag, *others], {}, asked["head"])
    for later in (desk, reopened()):
        runs = later.journal.snapshot(desk.making)["runs"]
        assert [(run["run"], run["piece"]) for run in runs] == [
            ("p5.c1", "flag"), ("p1.c1", "flipper"), ("p1.c2", "flipper"), ("p3.c1", "buoy"), ("p2.c1", "skiff"),
        ]  # fmt: skip
    desk.join("phone")
    assert desk.send(desk.move("next", run="p5.c1", unit="stitch") | {"strand": "flag"})[0]["to"] == 1


def test_a_device_that_was_away_fits_in(desk: Any, reopened: Callable[[], Any]) -> None:
    """Its moves were made on the steps that were: laid aside, told on the steps that are, settled by a word."""
    desk.do("goto", to=52)
    desk.join("tablet")
    edit(desk)
    desk.journal.recast(desk.making, laid(buoy=buoy(third=[times(6, group("sc", 2), group("inc"))])), {}, desk.head())
    assert desk.at() == 52 + 6  # a round behind got 6 steps longer
    first = desk.move("next", "tablet", unit="stitch", backlog=True)
    second = desk.move("next", "tablet", unit="stitch", backlog=True)
    answers = desk.send(first, second)
    assert [(a["kind"], a["to"]) for a in answers] == [("aside", 53), ("aside", 54)]
    for later in (desk, reopened()):
        (aside,) = later.journal.snapshot(desk.making)["asides"]
        assert aside["to"] == 54 + 6
        assert later.at() == 58
    old = desk.move("settle", "phone", to=54, asides=[aside["row"]])
    assert desk.send(old)[0]["code"] == "recast"  # a step of the strand that was left
    desk.join("phone")
    settled = desk.send(desk.move("settle", "phone", to=60, asides=[aside["row"]]) | {"strand": "buoy2"})[0]
    assert (settled["kind"], settled["to"]) == ("settle", 60)
    assert desk.journal.snapshot(desk.making)["asides"] == []
    assert reopened().at() == 60
    assert desk.journal.check() == []


def test_what_was_worked_before_can_not_be_undone_across(desk: Any) -> None:
    desk.do("goto", to=52)
    edit(desk)
    desk.journal.recast(desk.making, laid(buoy=buoy()), {}, desk.head())
    desk.join("phone")
    undo = desk.move("undo", undoes=2) | {"strand": "buoy2"}
    assert desk.send(undo)[0]["code"] == "not-last"


@pytest.mark.parametrize(
    ("labels", "said"),
    [(["9"], "9"), (["9", "10"], "9 and 10"), (["9", "10", "11"], "9 to 11"), (["3", "9", "10", "11", "14"],
     "3, 9 to 11 and 14"), (["A", "B"], "A and B")],
)  # fmt: skip
def test_rounds_are_listed_as_one_says_them(labels: list[str], said: str) -> None:
    assert listed(labels) == said
