"""What no text prints says why it is there; what stands on two lines is two jobs. Demo texts."""

from __future__ import annotations

from pathlib import Path

import pytest

from hookside.compile import Choices, lay, read
from hookside.pattern import Cue, Pattern

PATTERNS = sorted((Path(__file__).parents[2] / "patterns").glob("*.txt"))
LEGS = """Pilot
US terms

LEG (make 2)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: BLO sc in each st around (12)
Rnd 4: sc in each st around (12)
{ends}

BODY
Rnd 5: Ch 2, 12 sc around the first leg, 2 sc in the ch, 12 sc around the second leg, 2 sc in the ch (28)
Rnds 6-12: sc in each st around (28)
Rnd 13: (2 sc, dec) x 7 (21)
Rnd 14: (sc, dec) x 7 (14)
Rnd 15: dec x 7 (7)
Fasten off and close the hole.
{assembly}
"""
GULL = """Gull
US terms

WING (make 2)
Rnd 1: 5 sc in magic ring (5)
Rnd 2: inc x 5 (10)
{wing}

BEAK
Ch 3.
Row 1: sc in 2nd ch from hook, sc (2)
{beak}
"""


def cues(pattern: Pattern, name: str) -> list[Cue]:
    return next(piece.cues for piece in pattern.pieces if piece.name.lower() == name)


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_all_that_is_worked_out_says_why(path: Path) -> None:
    _says_why(read(path.read_text("utf-8")))


@pytest.mark.parametrize(
    "ends", ["", "Fasten off.", "Fasten off the first leg only.", "Do not cut the second leg's yarn."]
)
@pytest.mark.parametrize(
    "assembly", ["", "ASSEMBLY\nStuff the legs and the body.\nPut the eyes in between rounds 9 and 10."]
)
def test_so_does_what_is_joined_asked_and_moved(ends: str, assembly: str) -> None:
    _says_why(read(LEGS.format(ends=ends, assembly=assembly)))


def _says_why(pattern: Pattern) -> None:
    ours = [
        cue for laid in lay(pattern, "", Choices(anyway=True)) for cue in laid.strand.cues if cue.basis == "worked out"
    ]
    assert ours
    assert all("Worked out, because" in cue.words.full for cue in ours), [c.words.full for c in ours]


def test_in_passing_the_ears_do_not_hear_why() -> None:
    """A count behind every third round is said twenty times in a toy; the reason stands where it can be read."""
    (laid, *_) = lay(read(PATTERNS[0].read_text("utf-8")), "", Choices())
    whispers = [cue for cue in laid.strand.cues if cue.weight == "whisper" and cue.basis == "worked out"]
    assert whispers
    assert not any("because" in cue.words.spoken for cue in whispers if cue.kind in ("count", "marker"))


def test_a_tail_on_the_next_line_waits_for_itself() -> None:
    wing = cues(
        read(GULL.format(wing="fold flat, sc through both 5\nleave tail for sewing", beak="Fasten off.")), "wing"
    )
    jobs = [(cue.kind, cue.text) for cue in wing if cue.basis == "written"]
    assert jobs == [("shape", "Fold flat, sc through both 5"), ("tail", "Leave tail for sewing")]
    assert "For sewing it on leave about" in wing[-1].advice
    assert not any(cue.text.startswith("Keep this loop") for cue in wing), "the text says what becomes of it"
    assert len({cue.address for cue in wing}) == len(wing)


def test_what_is_only_sewn_on_is_asked_about_before_it_is_sewn() -> None:
    beak = cues(read(GULL.format(wing="Fasten off.", beak="Sew the beak to the front.")), "beak")
    assert [cue.text for cue in beak][-2:] == ["Keep this loop, or cut the yarn?", "Sew the beak to the front."]
    assert beak[-2].weight == "stop"


@pytest.mark.parametrize("said", ["Sew the opening shut.", "Leave a long tail.", "Fasten off, leaving a tail."])
def test_what_the_text_says_of_the_loop_is_not_asked(said: str) -> None:
    beak = cues(read(GULL.format(wing="Fasten off.", beak=said)), "beak")
    assert not any(cue.text.startswith("Keep this loop") for cue in beak)


def test_do_not_stuff_holds_nobody_up() -> None:
    (cue,) = [
        c
        for c in cues(read(GULL.format(wing="Do not stuff. Fasten off.", beak="Fasten off.")), "wing")
        if "stuff" in c.text
    ]
    assert cue.weight == "whisper"


def test_a_body_that_goes_on_from_its_legs_has_no_starting_tail() -> None:
    pattern = read(
        LEGS.format(ends="Fasten off the first leg only.", assembly="ASSEMBLY\nStuff the legs and the body.")
    )
    assert not any("starting tail" in f"{cue.text} {cue.advice}" for cue in cues(pattern, "body"))
