"""Eyes of a piece that ends open: a head, filled and sewn to its body. Demo texts; common practice, no source."""

from __future__ import annotations

import pytest

from hookside.compile import Choices, lay, read
from hookside.pattern import Cue, Pattern

HEAD = """Keeper
US terms
Gauge: 24 sts and 25 rounds = 10 cm

Head
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: (2 sc, inc) x 6 (24)
Rnd 5: (3 sc, inc) x 6 (30)
Rnd 6: (4 sc, inc) x 6 (36)
Rnds 7-12: sc in each st (36)
{end}
Body
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnds 3-5: sc in each st (12)
Stuff. Fasten off.

Assembly
Sew the head onto the body.{last}
"""
NARROW = "Rnd 13: (4 sc, dec) x 6 (30)\nRnd 14: (3 sc, dec) x 6 (24)\nRnd 15: (2 sc, dec) x 6 (18)\n"
LATE = " Insert the safety eyes between rounds 9 and 10 of the head."


def eyes(pattern: Pattern) -> tuple[Cue, Cue]:
    """Where they are asked, and where they are only shown."""
    found = [cue for piece in pattern.pieces for cue in piece.cues if cue.kind == "eyes"]
    (asked,) = [cue for cue in found if cue.weight == "stop"]
    (shown,) = [cue for cue in found if cue.weight == "whisper"]
    return asked, shown


@pytest.mark.parametrize("narrow", ["", NARROW])
def test_a_head_that_is_filled_has_its_eyes_before_that(narrow: str) -> None:
    """36 stitches of 4.17 mm are 48 mm across: two rounds past round 10 it is still as wide."""
    text = HEAD.format(end=f"{narrow}Stuff the head. Fasten off, leaving a tail for sewing.\n", last=LATE)
    pattern = read(text)
    asked, shown = eyes(pattern)
    assert (asked.after, asked.basis) == ("12", "worked out")
    steps = {cue.kind: cue.step for cue in lay(pattern, text, Choices())[0].strand.cues}
    assert steps["eyes"] < steps["stuff"]
    assert "it was due at round 12" in shown.advice
    assert any("when Head is already stuffed. You need that at round 12" in found.message for found in pattern.findings)


def test_an_open_end_too_narrow_for_fingers_is_too_late_as_well() -> None:
    """18 stitches of 4.17 mm are 24 mm across."""
    here = "Place the safety eyes between rounds 9 and 10.\n"
    asked, _ = eyes(read(HEAD.format(end=NARROW + here + "Fasten off.\n", last="")))
    assert asked.after == "12"


def test_what_stays_open_and_empty_is_in_reach() -> None:
    pattern = read(HEAD.format(end="Fasten off.\n", last=LATE))
    (only,) = [cue for piece in pattern.pieces for cue in piece.cues if cue.kind == "eyes"]
    assert (only.weight, only.basis) == ("stop", "written")


def test_a_face_is_stitched_from_outside() -> None:
    pattern = read(HEAD.format(end=f"{NARROW}Stuff. Fasten off.\n", last=" Embroider a mouth at round 12 of the head."))
    assert all(cue.basis == "written" for piece in pattern.pieces for cue in piece.cues if cue.kind == "embroider")


@pytest.mark.parametrize(
    "line",
    [
        "Sew on beads for eyes, one on each side of the beak at 8th round.",
        "Attach two black buttons as eyes at round 8.",
    ],
)
def test_what_is_sewn_on_from_outside_stays_where_it_is_printed(line: str) -> None:
    """Beads need no open piece, and no washer; the beak they stand beside is no place for them."""
    beak = "\nBeak\nRnd 1: 4 sc in magic ring (4)\nRnd 2: inc, 3 sc (5)\nRnd 3: sc around (5)\nFasten off.\n"
    text = HEAD.format(end="Stuff the head. Fasten off.\n", last="").replace("\nAssembly", f"{beak}\nAssembly")
    pattern = read(f"{text}{line}\n")
    (eyes_,) = [(piece, cue) for piece in pattern.pieces for cue in piece.cues if cue.kind == "eyes"]
    assert not eyes_[0].courses
    assert eyes_[1].weight != "whisper"
    assert not any(found.code == "printed-late" for found in pattern.findings)


def test_a_round_by_its_ordinal_is_the_place_of_eyes() -> None:
    """The 10th round: only the head has one, though the beak is named beside it."""
    beak = "\nBeak\nRnd 1: 4 sc in magic ring (4)\nRnd 2: inc, 3 sc (5)\nRnd 3: sc around (5)\nFasten off.\n"
    last = " Insert the safety eyes on each side of the beak at the 10th round."
    text = HEAD.format(end="Stuff the head. Fasten off.\n", last=last).replace("\nAssembly", f"{beak}\nAssembly")
    asked, _ = eyes(read(text))
    assert asked.after == "12"


SHUT = """Ball
US terms
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnds 4-6: sc in each st (18)
Rnd 7: (sc, dec) x 6 (12)
{eyes}
Rnd 8: dec x 6 (6)
Fasten off.
{last}
"""


def test_what_is_told_of_the_eyes_goes_where_they_go() -> None:
    last = "Last of all stitch a little nose."
    text = SHUT.format(eyes="Eyes between R4 and R5. Pull hard on them before you put the backs on.", last=last)
    asked = [cue for cue in read(text).pieces[0].cues if cue.basis == "worked out" and cue.weight != "whisper"]
    told = [(cue.kind, cue.after) for cue in asked if cue.kind in ("eyes", "other", "embroider") and cue.after != "8"]
    assert told == [("eyes", "6"), ("other", "6"), ("embroider", "6")]  # and the nose never before them


def test_eyes_between_the_last_two_rounds_wait_for_the_second() -> None:
    text = SHUT.format(eyes="Rnd 7b: sc around\neyes here between last 2", last="").replace("Rnd 7b", "Rnd 8")
    text = text.replace("Rnd 8: dec", "Rnd 9: dec")
    assert [cue.after for cue in read(text).pieces[0].cues if cue.kind == "eyes"] == ["8"]
