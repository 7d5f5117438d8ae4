"""Cues where they are due, and the marker's whisper. Practice of the trade, no source, except where one is named."""

from __future__ import annotations

from typing import Any

import pytest

from hookside.compile import read
from hookside.cues import complete, markers
from hookside.pattern import Course, Cue, Group, Pattern, Piece


def course(label: str, makes: int = 18, **more: Any) -> Course:
    body = [Group(stitch="sc", count=makes)]
    numbers = {"uses": makes, "makes": makes, "text": f"sc around ({makes})", "line": int(label), "body": body}
    return Course.model_validate({"id": f"buoy.{label}", "label": label, "kind": "round", **numbers, **more})


def cue(text: str, after: str, kind: str = "colour", **more: Any) -> Cue:
    return Cue.model_validate(
        {
            "address": f"buoy.{after}/{kind}.1", "after": after, "course_id": f"buoy.{after}", "kind": kind,
            "text": text, "weight": "pause", **more,
        }
    )  # fmt: skip


def buoy(*cues: Cue) -> Piece:
    courses = [course("1", 6, spiral=True), course("2", 12, spiral=True), course("3", spiral=True), course("4")]
    return Piece(name="Buoy", courses=courses, cues=list(cues))


def due(*cues: Cue) -> list[int | None]:
    (piece,) = complete(Pattern(pieces=[buoy(*cues)])).pieces
    return [c.at for c in piece.cues if c.basis == "written"]


def test_a_colour_for_the_last_stitch_is_due_before_that_stitch() -> None:
    assert due(cue("Change to color B in the last st of round 3.", "3")) == [17]
    assert due(cue("Change to yarn B on the last yrh.", "2")) == [11]
    assert due(cue("Finish the last stitch with cream.", "4")) == [17]


def test_a_colour_for_the_join_is_due_before_the_join() -> None:
    assert due(cue("Change to cream in the joining slip stitch of round 3.", "3")) == [18]
    assert due(cue("Change to cream in the joining sl st.", "2")) == [12]


def test_a_change_between_two_rounds_of_a_spiral_is_made_in_the_last_pull() -> None:
    assert due(cue("Change to color B.", "3")) == [17]
    (piece,) = complete(Pattern(pieces=[buoy(cue("Change to color B.", "3"))])).pieces
    assert "last pull" in piece.cues[0].advice


def test_what_says_nothing_of_the_last_stitch_stays_where_it_is_printed() -> None:
    assert due(cue("Join color B.", "3")) == [None]
    assert due(cue("Cut the yarn and change to color B.", "3")) == [None]
    assert due(cue("Change to color B.", "4")) == [None], "a round that is joined ends before the change"
    assert due(cue("Change to color B in the last stitch.", "3", at=5)) == [5]
    assert due(cue("Leave a tail after the last stitch.", "3", "tail")) == [None]


def test_a_course_that_could_not_be_read_moves_nothing() -> None:
    piece = buoy(cue("Change to color B in the last stitch.", "3"))
    piece.courses[2] = course("3", read=False, makes=18)
    (done,) = complete(Pattern(pieces=[piece])).pieces
    assert [c.at for c in done.cues if c.basis == "written"] == [None]


def test_the_pattern_handed_in_is_left_as_it_was() -> None:
    pattern = Pattern(pieces=[buoy(cue("Change to color B in the last stitch.", "3"))])
    before = pattern.model_dump()
    complete(pattern)
    assert pattern.model_dump() == before


def test_a_whisper_as_each_spiral_round_after_the_first_begins() -> None:
    found = markers(buoy())
    assert [(m.after, m.text) for m in found] == [
        ("1", "Work the first stitch of round 2, then put the marker into it."),
        ("2", "Work the first stitch of round 3, then put the marker into it."),
        ("3", "Work the first stitch of round 4, then put the marker into it."),
    ]
    assert {(m.kind, m.weight, m.basis, m.at) for m in found} == {("marker", "whisper", "worked out", None)}
    assert len({m.address for m in found}) == 3


def test_no_marker_where_rounds_are_joined_or_rows_are_turned() -> None:
    joined = Piece(name="Hull", courses=[course("1"), course("2")])
    rows = Piece(name="Seat", courses=[course("1", kind="row"), course("2", kind="row")])
    assert markers(joined) == markers(rows) == []


def test_a_text_that_says_it_itself_there_is_left_alone() -> None:
    piece = buoy(cue("Place the marker in the next stitch.", "2", "marker"))
    assert [m.after for m in markers(piece)] == ["1", "3"]


def test_no_marker_for_the_first_round_on_a_chain() -> None:
    chain = course("0", 0, spiral=True, body=[Group(stitch="ch", count=11, uses=0, makes=0)])
    piece = Piece(name="Hull", courses=[chain, course("1", 22, spiral=True), course("2", 28)])
    assert [m.after for m in markers(piece)] == ["1"]


@pytest.mark.parametrize(
    ("told", "ends"),
    [
        ("Border: join pink, sc evenly around. FO.", "fasten"),
        ("Edging: join pink, sc evenly around, FO.", "fasten"),
        ("EDGE - sc around, sl st to first sc. Fasten off and weave in ends.", "weave"),
        ("For the border: sc around in green.", "other"),
        ("Picot edging (optional): white, *sc 3, ch 3, sl st in first ch; rep from * around. FO.", "fasten"),
        ("Border. Join pink, sc evenly around. FO.", "fasten"),
        ("Join white with a sl st and sc evenly along the edge. FO.", "fasten"),
    ],
)
def test_an_edging_beside_the_rounds_stops_the_hook(told: str, ends: str) -> None:
    text = f"Ball\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\nRnd 3: (1 sc, inc) x 6 (18)\n{told}"
    (piece,) = read(text, None).pieces
    assert [course.makes for course in piece.courses] == [6, 12, 18]
    assert piece.cues[0].weight == "stop"
    assert "sc" in piece.cues[0].text
    assert piece.cues[-1].kind == ends


def test_work_that_makes_stitches_waits_for_its_answer() -> None:
    """As a pause it would be passed by a touch meant for the next round."""
    lines = {
        "Fold flat and work 4 sc through both layers.": "stop",
        "Flatten and sc both edges together.": "stop",
        "Do not stuff the arms.": "pause",
        "Turn to the right side.": "pause",
    }
    for text, weight in lines.items():
        (piece,) = complete(Pattern(pieces=[buoy(cue(text, "4", "shape"))])).pieces
        assert [c.weight for c in piece.cues if c.basis == "written"] == [weight], text
