"""A pause where a course goes through other loops than the one before. Practice of the trade, no source."""

from __future__ import annotations

from typing import Any

from hookside.cues import complete
from hookside.pattern import Course, Cue, Group, Node, Pattern, Piece, Repeat


def sc(count: int, loops: str | None = None, **more: Any) -> Group:
    return Group.model_validate({"stitch": "sc", "count": count, "loops": loops, **more})


def course(label: str, *body: Node, **more: Any) -> Course:
    given = {"uses": 40, "makes": 40, "text": "", "line": int(label), "body": list(body)}
    return Course.model_validate({"id": f"hull.{label}", "label": label, "kind": "round", **given, **more})


def told(*courses: Course, cues: list[Cue] | None = None) -> list[tuple[str, str]]:
    (piece,) = complete(Pattern(pieces=[Piece(name="Hull", courses=list(courses), cues=cues or [])])).pieces
    return [(cue.after, cue.text) for cue in piece.cues if cue.address.endswith("/loops.0")]


def test_on_and_off_again() -> None:
    rounds = [course("4", sc(40)), course("5", sc(40, "back")), course("6", sc(40)), course("7", sc(40))]
    assert told(*rounds) == [("4", "Back loops only in this round."), ("5", "Both loops again.")]


def test_several_rounds_and_rows() -> None:
    rows = [course(str(n), sc(40, loops), kind="row") for n, loops in enumerate([None, "front", "front", "back"])]
    assert told(*rows) == [("0", "Front loops only from here on."), ("2", "Back loops only in this row.")]


def test_the_chain_before_and_the_join_behind_have_no_loops() -> None:
    chain, join = Group(stitch="ch", uses=0, makes=0), Group(stitch="join", uses=0, makes=0)
    assert told(course("1", chain, sc(40), join), course("2", chain, sc(40, "back"), join)) == [
        ("1", "Back loops only in this round.")
    ]


def test_a_single_stitch_through_one_loop_is_no_change() -> None:
    mixed = course("2", Repeat(body=[sc(3), sc(1, "front")], times=10))
    assert told(course("1", sc(40)), mixed, course("3", sc(40))) == []
    assert told(course("1", sc(40, "back")), mixed, course("3", sc(40))) == [("2", "Both loops again.")]


def test_nothing_before_the_first_course_or_on_a_chain_or_where_it_could_not_be_read() -> None:
    assert told(course("1", sc(40, "back"))) == []
    assert told(course("1", sc(40, "back", uses=0), uses=0), course("2", sc(40))) == []
    lost = course("2", read=False, uses=None, makes=None)
    assert told(course("1", sc(40)), lost, course("3", sc(40))) == []


def test_a_text_that_says_it_itself_there_is_left_alone() -> None:
    said = Cue(
        address="hull.1/other.1", after="1", course_id="hull.1", kind="other", text="Now the back loops.",
        weight="pause",
    )  # fmt: skip
    rounds = [course("1", sc(40)), course("2", sc(40, "back")), course("3", sc(40))]
    assert told(*rounds, cues=[said]) == [("2", "Both loops again.")]


def test_it_is_a_pause_that_we_worked_out() -> None:
    (piece,) = complete(
        Pattern(pieces=[Piece(name="Hull", courses=[course("1", sc(40)), course("2", sc(40, "back"))])])
    ).pieces
    (cue,) = [cue for cue in piece.cues if cue.address.endswith("/loops.0")]
    assert (cue.kind, cue.weight, cue.basis, cue.course_id, cue.at) == ("other", "pause", "worked out", "hull.1", None)
    assert (cue.address, cue.line) == ("hull.2/loops.0", 2)
