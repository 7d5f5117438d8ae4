"""Round or row, where the labels say one thing and the work another (common practice, no source). Demo numbers."""

import pytest

from hookside.notation import read

RING = "Row 1: 6 sc in magic ring (6)\nRow 2: 2 sc in each (12)\nRow 3: (sc, inc) around (18)"
OVAL = "Row 1: ch 6, sc in 2nd ch from hook, sc in next 3, 3 sc in last ch, on the other side sc in next 3, inc (12)\n"
FAN = "Row 1: 3 sc in magic ring, turn (3)\nRow 2: ch 1, 2 sc in each, turn (6)\nRow 3: ch 1, (sc, inc) x3, turn (9)"
FLAP = "Row 1: ch 9, sc in 2nd ch from hook and in each ch across, turn (8)\nRow 2: ch 1, 8 sc, turn (8)"
STRIP = "Ch 9, sc in 2nd ch from hook and in each ch across (8)"


@pytest.mark.parametrize(
    ("text", "kind"),
    [(RING, "round"), (OVAL + "Row 2: sc around (12)", "round"), (FAN, "row"), (FLAP, "row"), (STRIP, "row")],
    ids=["ring", "oval", "fan", "flap", "strip"],
)
def test_a_ring_is_worked_in_rounds_whatever_it_is_called(text: str, kind: str) -> None:
    (piece,) = read(f"Fin\n{text}\n").pieces
    assert {course.kind for course in piece.courses} == {kind}
    assert [course.spiral for course in piece.courses] == [kind == "round"] * len(piece.courses)


PANEL = "Ch 15.\n#1 sc in 2nd ch from hook, sc in each ch [14]\n#2 sc in each st\n#3 to #4 sc in each st"
BELT = "Ch 7.\nR1: sc in 2nd ch from hook and across (6)\nR2-R4: ch 1, turn, sc across"
JOINED = "Ch 12.\n1) sc in 2nd ch from hook and in each ch, join (11)\n2) 11 sc, join (11)"
BALL = "Ch 2.\n1) 6 sc in 2nd ch from hook (6)\n2) inc x 6 (12)"
SPELLED = "Ch 12.\nRnd 1: sc in 2nd ch from hook and in each ch (11)\nRnd 2: 11 sc (11)"


@pytest.mark.parametrize(
    ("text", "kind"),
    [(PANEL, "row"), (BELT, "row"), (JOINED, "round"), (BALL, "round"), (SPELLED, "round")],
    ids=["panel", "belt", "joined", "ball", "spelled"],
)
def test_labels_that_spell_neither_are_what_the_work_is(text: str, kind: str) -> None:
    (piece,) = read(f"Fin\n{text}\n").pieces
    assert {course.kind for course in piece.courses} == {kind}
