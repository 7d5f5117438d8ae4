"""What a round's words ask for beside its stitches is told before its first one. Demo texts."""

from __future__ import annotations

from hookside.compile import Choices, lay, read
from hookside.cues import beforehand, learning
from hookside.follow import flaws

ROUND_4 = "R4: sc around, leaving st 4-6 unworked for the tail hole: ch 3 instead (18)"
NEWT = f"""Newt
US terms

Body
R1: 6 sc in MR (6)
R2: inc x6 (12)
R3: (1 sc, inc) x6 (18)
{ROUND_4}
R5: sc 18, placing a marker in st 5 and st 14 for the eyes
R6: press flat, 9 sc through both layers (9)
Fasten off.
"""


def told(text: str) -> list[tuple[str, str]]:
    (piece,) = (p for p in read(text).pieces if p.courses)
    return [(cue.after, cue.text) for cue in beforehand(piece)]


def test_what_no_job_tells_waits_before_the_round() -> None:
    assert told(NEWT) == [
        ("3", "Next round: leaving st 4-6 unworked for the tail hole: ch 3 instead"),
        ("5", "Next round: press flat, 9 sc through both layers"),
    ]
    (laid,) = lay(read(NEWT), NEWT, Choices())
    assert flaws(laid.strand) == []
    shown = [cue.words.short for cue in laid.strand.cues if "beforehand" in cue.address]
    assert shown[1].startswith("Next round: press")
    (piece,) = read(NEWT).pieces
    assert [(cue.after, cue.at) for cue in piece.cues if "eyes" in cue.text] == [("5", 5), ("5", 14)]


def test_two_layers_are_no_decrease() -> None:
    (piece,) = (p for p in read(NEWT).pieces if p.courses)
    assert not [cue for cue in learning(piece) if "/learn-dec" in cue.address]


def test_a_job_that_tells_it_is_not_told_again() -> None:
    told_so = NEWT.replace(ROUND_4, "R4: sc 18")
    told_so = told_so.replace("sc 18, placing a marker in st 5 and st 14", "sc 9, place a marker, sc 9")
    assert [after for after, _ in told(told_so)] == ["5"]


def test_a_range_is_told_once_and_a_row_that_leaves_its_rest_is_seen_at_its_end() -> None:
    lines = NEWT.replace("R5: sc 18, placing", "R5-R8: sc 18, placing").replace("R6:", "R9:")
    assert [after for after, _ in told(lines)] == ["3", "8"]
    (piece,) = read(lines).pieces
    assert [(cue.after, cue.at) for cue in piece.cues if "eyes" in cue.text] == [("4", None)]
    rest = NEWT.replace(ROUND_4, "R4: sc in 9, leave the rest unworked")
    assert all(after != "3" for after, _ in told(rest))
