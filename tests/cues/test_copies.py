"""What the text says of one copy of a piece is said to that copy alone. Practice of the trade, no source."""

from __future__ import annotations

import pytest

from hookside.compile import Choices, lay, read
from hookside.follow import Strand

PILOT = """Harbour pilot
US terms. Worked in a spiral.

LEG (make 2)
Rnd 1: 6 sc in a magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: sc around (12)
{ends}

BODY
Rnd 4: Ch 2, 12 sc around the first leg, 2 sc in the ch, 12 sc around the second leg, 2 sc on the other side of the ch (28)
Rnd 5: sc around (28)
Fasten off.
"""  # noqa: E501


def legs(ends: str, copies: int = 2) -> list[Strand]:
    text = PILOT.format(ends=ends)
    return [laid.strand for laid in lay(read(text), text, Choices(copies={1: copies})) if laid.piece == "Leg"]


def said(strand: Strand) -> list[tuple[str, str]]:
    """The stops behind the last round."""
    return [(c.kind, c.words.short) for c in strand.cues if c.step >= strand.courses[-1].end and c.weight == "stop"]


@pytest.mark.parametrize(
    ("ends", "first", "second"),
    [
        (
            "Leg number one: fasten off and hide the end. Leg number two: leave the yarn on, we carry straight on.",
            ("fasten", "Leg number one: fasten off"),
            ("hold", "Leg number two: leave the yarn on, we carry straight on"),
        ),
        (
            "Cut the yarn on the first leg; on the second leg leave the yarn on.",
            ("fasten", "Cut the yarn on the first leg"),
            ("hold", "On the second leg leave the yarn on"),
        ),
        (
            "Fasten off the first leg. Do not fasten off the second leg, go straight on with the body.",
            ("fasten", "Fasten off the first leg"),
            ("hold", "Do not fasten off the second leg"),
        ),
        (
            "Fasten off the first leg but not the second.",
            ("fasten", "Fasten off the first leg"),
            ("hold", "Do not fasten off the second"),
        ),
        (
            "Fasten off on the first leg only; keep the loop of the second one.",
            ("fasten", "Fasten off on the first leg only"),
            ("hold", "Keep the loop of the second one"),
        ),
        (
            "Fasten off the first leg only.",
            ("fasten", "Fasten off the first leg only"),
            ("hold", "Do not cut the yarn of this leg"),
        ),
        (
            "Fasten off. (Do not fasten off on the second leg.)",
            ("fasten", "Fasten off"),
            ("hold", "Do not fasten off on the second leg"),
        ),
        (
            "Fasten off, but do not fasten off the second leg.",
            ("fasten", "Fasten off"),
            ("hold", "Do not fasten off the second leg"),
        ),
        (
            "First leg: fasten off. Second leg: do not fasten off.",
            ("fasten", "First leg: fasten off"),
            ("hold", "Second leg: do not fasten off"),
        ),
        (
            "Fasten off leg 1. Do not fasten off leg 2.",
            ("fasten", "Fasten off leg 1"),
            ("hold", "Do not fasten off leg 2"),
        ),
        (
            "Do not fasten off the last leg.",
            ("other", "Keep this loop, or cut the yarn?"),
            ("hold", "Do not fasten off the last leg"),
        ),
        (
            "Cut the yarn on the first leg and weave it in. Leave the second one on your hook, we carry straight on!",
            ("fasten", "Cut the yarn on the first leg"),
            ("hold", "Leave the second one on your hook"),
        ),
        (
            "Fasten off the first leg, but leave the second on the hook.",
            ("fasten", "Fasten off the first leg"),
            ("hold", "Leave the second on the hook"),
        ),
        (
            "Fasten off the first, keep the second going.",
            ("fasten", "Fasten off the first"),
            ("hold", "Keep the second going"),
        ),
        (
            "Break off the yarn after the first leg; after the second keep going.",
            ("fasten", "Break off the yarn after the first leg"),
            ("hold", "After the second keep going"),
        ),
        (
            "Fasten off the first leg. Keep the yarn on the second leg, the body starts from it.",
            ("fasten", "Fasten off the first leg"),
            ("hold", "Keep the yarn on the second leg"),
        ),
        (
            "Fasten off on the first leg. For the second leg, leave the yarn attached.",
            ("fasten", "Fasten off on the first leg"),
            ("hold", "For the second leg, leave the yarn attached"),
        ),
        (
            "Finish off the first leg; leave the second leg unfinished, you will continue with the body.",
            ("fasten", "Finish off the first leg"),
            ("hold", "Leave the second leg unfinished"),
        ),
        (
            "On the first leg, cut the yarn. On the second, leave it attached.",
            ("fasten", "On the first leg, cut the yarn"),
            ("hold", "On the second, leave it attached"),
        ),
        (
            "Fasten off the first leg. The second leg stays on the hook.",
            ("fasten", "Fasten off the first leg"),
            ("hold", "The second leg stays on the hook"),
        ),
        (
            "Fasten off. When the second leg is done keep it on the hook.",
            ("fasten", "Fasten off"),
            ("hold", "When the second leg is done keep it on the hook"),
        ),
    ],
)
def test_each_copy_is_told_its_own(ends: str, first: tuple[str, str], second: tuple[str, str]) -> None:
    one, other = legs(ends)
    assert said(one) == [first]
    assert said(other) == [second]
    assert one.id != other.id


DISC = """Cushion

Disc
Rnd 1: 6 sc in a magic ring (6)
Rnd 2: inc x 6 (12)
{ends}
"""


@pytest.mark.parametrize(
    ("ends", "first", "second"),
    [
        (
            "Fasten off. Make a second one, don't fasten off this time. Sew the two together, stuffing as you go.",
            ["Fasten off"],
            ["Don't fasten off this time", "Sew the two together", "Stuffing as you go"],
        ),
        (
            "FO. Make a second one; leave a long tail this time. Stuff and sew both pieces together.",
            ["Fasten off"],
            ["Fasten off", "Leave a long tail this time", "Stuff", "Sew both pieces together"],
        ),
        (
            "Fasten off.\nMake one more and leave the yarn on. Hold both discs together and sew around.",
            ["Fasten off"],
            ["Leave the yarn on", "Hold both discs together", "Sew around"],
        ),
        (
            "Fasten off. Make another, don't fasten off. Stuff.",
            ["Fasten off", "Stuff"],
            ["Don't fasten off", "Stuff"],
        ),
        (
            "Fasten off. Make 2. Whip stitch the pieces together. Weave in the ends.",
            ["Fasten off", "Make 2"],
            ["Fasten off", "Make 2", "Whip stitch the pieces together", "Weave in the ends"],
        ),
        (
            "Make 2. Fold flat and sew both sides together. Fasten off.",
            ["Make 2", "Fold flat", "Sew both sides together", "Fasten off"],
            ["Make 2", "Fold flat", "Sew both sides together", "Fasten off"],
        ),
    ],
)
def test_what_needs_both_is_told_behind_the_second(ends: str, first: list[str], second: list[str]) -> None:
    text = DISC.format(ends=ends)
    strands = [laid.strand for laid in lay(read(text), text, Choices(copies={1: 2}))]
    told = [[c.words.short for c in s.cues if c.step >= s.courses[-1].end and c.weight != "whisper"] for s in strands]
    assert told == [first, second]


def test_the_end_of_one_copy_is_woven_in_on_that_copy() -> None:
    first, second = legs("Fasten off leg 1 and weave in the end. Leg 2 stays on your hook.")
    assert [cue.kind for cue in first.cues if cue.kind == "weave" and cue.weight == "pause"] == ["weave"]
    assert not [cue for cue in second.cues if cue.kind == "weave" and cue.weight == "pause"]


def test_the_loop_that_is_kept_says_what_goes_on_from_it() -> None:
    (cue,) = [c for c in legs("Fasten off the first leg only.")[1].cues if c.kind == "hold"]
    assert "Body goes on from this one." in cue.words.full
    assert cue.basis == "worked out"


def test_what_is_said_of_all_is_one_strand() -> None:
    one, other = legs("Fasten off.")
    assert one.id == other.id
    assert said(one) == [("fasten", "Fasten off")]


def test_four_legs_for_two_toys_go_round() -> None:
    first, second, third, fourth = legs("Fasten off the first leg only.", copies=4)
    assert [first.id, second.id] == [third.id, fourth.id]
    assert first.id != second.id


def test_a_piece_of_which_one_is_made_is_told_all() -> None:
    assert [kind for kind, _ in said(legs("Fasten off the first leg only.", copies=1)[0])] == ["fasten"]


def test_what_is_worked_in_is_stuffed_with_what_it_is_worked_into() -> None:
    text = PILOT.format(ends="Fasten off the first leg only.").replace("BODY", "BODY AND HEAD").replace(
        "Rnd 5: sc around (28)\n",
        "Rnds 5-7: sc around (28)\nRnd 8: dec x 14 (14)\nRnd 9: (sc, inc) x 7 (21)\nRnd 10: (2 sc, inc) x 7 (28)\n"
        "Rnds 11-14: sc around (28)\nRnd 15: dec x 14 (14)\nRnd 16: dec x 7 (7)\n",
    )
    text += "\nASSEMBLY\nStuff the legs, body and head firmly.\n"
    body = read(text).pieces[1]
    first, second = (cue.text for cue in body.cues if cue.kind == "stuff" and cue.weight == "stop")
    assert first.startswith('Stuff the legs and the body now. "Stuff the legs, body and head firmly" (line')
    assert second.startswith("Stuff the head now")
    strand = next(laid.strand for laid in lay(read(text), text, Choices()) if laid.piece == "Body and head")
    stuffed = next(cue for cue in strand.cues if cue.kind == "stuff" and cue.weight == "stop")
    worked = [course for course in strand.courses if course.end <= stuffed.step][-1]
    # Counted before it is stuffed: mending wants the stuffing out.
    (count,) = (cue for cue in strand.cues if cue.kind == "count" and cue.address.startswith(f"{worked.id}/"))
    assert worked.end <= count.step < stuffed.step
