"""Parts that join later: found in the round that works them in, said before the first stitch.

Two legs over a chain of c come to a + b + 2c (at the chair: "two legs joined by a chain of c"). All texts: demo.
"""

from __future__ import annotations

import pytest

from hookside.compile import Choices, lay, read
from hookside.follow import advance, locate
from hookside.gather import gather

LEG = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnds 3-4: sc around (12)\n"
OVER = (
    "Rnd 5: ch 3, sc 12 around first leg, sc 3 along the chain, sc 12 around second leg, "
    "sc 3 along the other side of the chain (30)\nRnd 6: sc around (30)\n"
)
ARM = "Rnd 1: 6 sc in magic ring (6)\nRnds 2-5: sc around (6)\n"


def doll(legs: str, body: str) -> str:
    return f"Harbour hand\nUS terms\n\n{legs}\nBody\n{body}"


LEGS = f"Leg (make 2)\n{LEG}"


def test_the_legs_come_first_and_the_sum_is_the_readings_own() -> None:
    pattern = read(doll(LEGS, OVER))
    (joining,) = pattern.joinings
    assert (joining.piece, joining.label, joining.makes) == (2, "5", 12 + 12 + 2 * 3)
    assert [(part.name, part.copies, part.stitches) for part in joining.parts] == [("Leg", 2, 12)]
    assert joining.say.startswith("Round 5 of Body goes into both legs: work them first, to their last round.")
    assert "Leave the yarn of the last one uncut" in joining.say  # the text cuts none: nor do we
    (stop,) = (cue for cue in pattern.pieces[1].cues if "/ready-" in cue.address)
    assert (stop.weight, stop.basis, stop.course_id, stop.address) == ("stop", "worked out", None, "body.5/ready-p1x2")
    assert stop.words.short == "Have both legs ready"
    assert "12 stitches each, and comes to 30" in stop.words.full


def test_the_stop_stands_before_the_joined_round_and_passes_with_nothing_but_done() -> None:
    text = doll(LEGS, OVER)
    body = next(one.strand for one in lay(read(text), text, Choices()) if one.piece == "Body")
    spot = locate(body, 0)
    assert spot.cue is not None
    assert spot.cue.address == "body.5/ready-p1x2"
    assert getattr(advance(body, 0, "round"), "code", None) == "stop"


@pytest.mark.parametrize(
    ("end", "yarn"),
    [
        ("Fasten off the first leg only.\n", "Make the one whose yarn stays uncut last"),
        ("Fasten off.\n", "does not say what round 5 is worked with: leave the yarn of the last one uncut, or join"),
        ("", "Leave the yarn of the last one uncut: round 5 goes on from its loop."),
    ],
)
def test_a_cut_is_never_worked_out(end: str, yarn: str) -> None:
    pattern = read(doll(LEGS + end, OVER))
    assert yarn in pattern.joinings[0].yarn
    cuts = [cue for cue in pattern.pieces[0].cues if cue.kind == "fasten"]
    assert all("For sewing it on" not in cue.words.full for cue in cuts)  # it is not sewn on
    if end == "Fasten off.\n":
        assert "before you cut the last one" in cuts[0].words.full


def test_where_the_loop_is_asked_for_it_says_where_the_part_goes() -> None:
    pattern = read(doll(LEGS, OVER))
    (asked,) = (cue for cue in pattern.pieces[0].cues if cue.address.endswith("/loop.0"))
    assert "It goes into round 5 of Body. Leave the yarn of the last one uncut" in asked.words.full
    assert "to sew this piece on" not in asked.words.full


def test_yarn_joined_anew_says_so() -> None:
    pattern = read(doll(LEGS + "Fasten off.\n", "Join the yarn to the first leg.\n" + OVER))
    assert pattern.joinings[0].yarn.startswith("Yarn is joined for it anew")


@pytest.mark.parametrize(
    ("parts", "body", "found"),
    [
        (
            f"Leg 1\n{LEG}\nLeg 2\n{LEG}",
            OVER.replace("first leg", "leg 1").replace("second leg", "leg 2"),
            ["Leg 1", "Leg 2"],
        ),
        (
            f"Left leg\n{LEG}\nRight leg\n{LEG}",
            OVER.replace("first", "left").replace("second", "right"),
            ["Left leg", "Right leg"],
        ),
        (LEGS, "Rnd 5: 24 sc around both legs (24)\n", ["Leg"]),
    ],
)
def test_by_whatever_they_are_called(parts: str, body: str, found: list[str]) -> None:
    (joining,) = read(doll(parts, body)).joinings
    assert [part.name for part in joining.parts] == found


def test_arms_that_are_worked_in_higher_up() -> None:
    body = (
        "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\n"
        "Rnd 4: 3 sc, 3 sc through first arm and body, 6 sc, 3 sc through second arm and body, 3 sc (18)\n"
    )
    pattern = read(doll(f"Arm (make 2)\n{ARM}", body))
    (joining,) = pattern.joinings
    assert (joining.label, [(part.name, part.copies) for part in joining.parts]) == ("4", [("Arm", 2)])
    assert joining.yarn == ""  # the body's own yarn goes on
    (stop,) = (cue for cue in pattern.pieces[1].cues if "/ready-" in cue.address)
    assert stop.after == "3"


@pytest.mark.parametrize(
    "body",
    [
        "Rnd 1: 6 sc in magic ring (6)\nMark the place for the first leg.\nRnd 2: sc around (6)\n",
        "Rnd 1: 6 sc in magic ring (6)\nRnds 2-4: as for the leg, sc around (6)\n",
        "Rnd 1: 6 sc in magic ring (6)\nRnd 2: sc around (6)\nSew the legs to the body.\n",
    ],
)
def test_what_only_speaks_of_a_part_joins_nothing(body: str) -> None:
    assert read(doll(LEGS, body)).joinings == []


def test_a_part_printed_behind_is_worked_before() -> None:
    text = f"Harbour hand\nUS terms\n\nBody\n{OVER}\n{LEGS}"
    assert [one.run for one in lay(read(text), text, Choices(anyway=True))] == ["p2.c1", "p2.c2", "p1.c1"]


def test_the_list_says_what_must_be_ready_first() -> None:
    text = doll(LEGS, OVER)
    pattern = read(text)
    assert gather(pattern, text, None).first == [pattern.joinings[0].say]


@pytest.mark.parametrize(
    "line",
    [
        "ch 2, sc in each of the 12 sts of the first leg, sc in each of the 2 ch, sc in each of the 12 sts of the "
        "second leg, sc in the other side of the 2 ch (28)",
        "ch 2, sc in each of the 12 sts of leg 1, sc in each of the 2 ch, sc in each of the 12 sts of leg 2, sc in the "
        "other side of the 2 ch (28)",
    ],
)
def test_stitches_of_a_part_are_worked_in_as_well(line: str) -> None:
    (joining,) = read(doll(LEGS, f"Rnd 5: {line}\nRnd 6: sc around (28)\n")).joinings
    assert [(part.name, part.copies) for part in joining.parts] == [("Leg", 2)]
    assert joining.makes == 12 + 12 + 2 * 2


def test_the_joined_round_says_where_each_of_its_groups_goes() -> None:
    text = (
        "ch 2, 12 sc around the first leg, 2 sc in the ch, 12 sc around the second leg, 2 sc on the other side of the "
        "ch (28)"
    )
    body = read(doll(LEGS, f"Rnd 5: {text}\nRnd 6: sc around (28)\n")).pieces[1]
    assert body.courses[0].words.short == text.removesuffix(" (28)")
    spoken = body.courses[0].words.spoken
    assert "twelve single crochet around the first leg" in spoken
    assert "in the chain" in spoken
    assert body.courses[1].words.short == "28 sc"
