"""How high a whole toy stands, with what is sewn on above and below. Demo patterns; places by closed form."""

from __future__ import annotations

from math import cos, pi, radians, sin

import pytest
from tests.shape.balls import BALL, SHUT

from hookside.compile import measured, read
from hookside.pattern import Course, Piece
from hookside.shape import Measures, PieceMeasures, Spread
from hookside.shape.measures import YarnSpread
from hookside.shape.sewn import dip
from hookside.shape.standing import facing, reach_of

TOP = "Harbour Seal\nUS terms\nGauge: 20 sts and 20 rounds = 10 cm\n\n"
PART = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnds 3-8: sc in each st around (12)\n"
EAR = f"Ear (make 2)\n{PART}Do not stuff. Fasten off.\n\n"
LEG = f"Leg (make 2)\n{PART}Stuff. Fasten off.\n\n"


def seal(sewing: str, parts: str = EAR + LEG) -> Measures:
    text = f"{TOP}Head\n{BALL}{SHUT}\nBody\n{BALL}Fasten off.\n\n{parts}Assembly\n{sewing}\n"
    return measured(read(text))


def trunk(of: Measures) -> float:
    head, body = of.pieces[:2]
    return head.height_mm.value + body.height_mm.value - dip(head.profile_mm, body.profile_mm[-1][0])


def test_head_and_body_alone() -> None:
    found = seal("Sew the head to the body. Sew the ears to the sides of the head.")
    assert found.whole is not None
    assert found.whole.of == ["Body", "Head"]
    assert found.whole.height_mm.value == pytest.approx(trunk(found), abs=1)
    assert "Not counted" in found.whole.said[-1]
    assert "ear and leg" in found.whole.said[-1]


def test_ears_on_the_top_stand_upon_it() -> None:
    found = seal("Sew the head to the body. Sew the ears to the top of the head.")
    assert found.whole is not None
    head, ear = found.pieces[0], found.pieces[2]
    sunk = dip(head.profile_mm[::-1], ear.profile_mm[-1][0])
    assert ear.height_mm.value == pytest.approx(8 * 5, abs=3)
    assert found.whole.height_mm.value == pytest.approx(trunk(found) + ear.height_mm.value - sunk, abs=1)
    assert found.whole.height_mm.low < trunk(found) + ear.height_mm.value - sunk < found.whole.height_mm.high


def test_legs_at_the_bottom_stand_below_it() -> None:
    less = seal("Sew the head to the body.")
    found = seal("Sew the head to the body. Sew the legs to the bottom of the body.")
    assert found.whole is not None
    assert less.whole is not None
    body, leg = found.pieces[1], found.pieces[3]
    sunk = dip(body.profile_mm[::-1], leg.profile_mm[-1][0])
    assert found.whole.height_mm.value == pytest.approx(less.whole.height_mm.value + leg.height_mm.value - sunk, abs=1)


def test_a_round_tells_how_far_an_ear_reaches_above_the_crown() -> None:
    """The further down, the less; at the widest round it stands out to the side and adds nothing."""
    heights = []
    for round_ in (2, 4, 9):
        found = seal(f"Sew the head to the body. Sew the ears to round {round_} of the head.")
        assert found.whole is not None
        heights.append(found.whole.height_mm.value)
    assert heights[0] > heights[1] > heights[2]
    assert heights[2] == pytest.approx(trunk(found), abs=1)


@pytest.mark.parametrize("degrees", [10, 30, 45, 60])
def test_a_part_on_a_ball_by_closed_form(degrees: int) -> None:
    """On a ball of radius R at the angle a from its top a part L long reaches L cos a - R (1 - cos a) above it."""
    radius, long = 40.0, 60.0
    steps = 180
    turns = [pi * i / steps for i in range(steps + 1)]
    nothing = Spread(value=0, low=0, high=0)
    ball = PieceMeasures(
        name="Head", make=1, height_mm=Spread(value=80, low=80, high=80), width_mm=nothing, depth_mm=0, widest_at="",
        surface_cm2=0, volume_cm3=nothing, stuffing_g=nothing, yarn_m=YarnSpread(value=0, low=0, high=0),
        openings_mm=[2 * radius * sin(t) for t in turns[1:]], lies_flat=False,
        profile_mm=[(radius * sin(t), radius - radius * cos(t)) for t in turns],
    )  # fmt: skip
    courses = [
        Course(id=f"h.{i}", label=str(i), kind="round", uses=6, makes=6, text="", line=i, body=[])
        for i in range(1, steps + 1)
    ]
    spot = facing(Piece(name="Head", courses=courses, cues=[]), ball, str(degrees), start=True)
    assert spot is not None
    found = reach_of([spot], long)
    a = radians(degrees)
    assert found.value == pytest.approx(max(0.0, long * cos(a) - radius * (1 - cos(a))), abs=0.1)
    assert found.low <= found.value <= found.high
    upside_down = facing(Piece(name="Head", courses=courses, cues=[]), ball, str(180 - degrees), start=False)
    assert upside_down == pytest.approx(spot, abs=0.01)


def test_a_body_on_joined_legs_with_its_head_and_ears() -> None:
    legs = (
        "Leg (make 2)\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnds 3-8: sc in each st around (12)\n"
        "Fasten off the first leg. Do not fasten off the second.\n\n"
    )
    body = (
        "Body\nRnd 1: Ch 3, join to the first leg with a sc, sc in next 11 sts, sc in each of the 3 ch, sc in the next "
        "12 sts of the second leg, sc in the other side of the 3 ch (30)\nRnds 2-8: sc in each st around (30)\n"
        "Rnd 9: (3 sc, dec) x 6 (24)\nRnd 10: (2 sc, dec) x 6 (18)\nStuff.\nFasten off.\n\n"
    )
    sewing = "Assembly\nSew the head to the body. Sew the ears to the top of the head.\n"
    found = measured(read(f"{TOP}{legs}{body}Head\n{BALL}{SHUT}\n{EAR}{sewing}"))
    leg, trunk_, head, ear = found.pieces
    assert found.whole is not None
    assert found.whole.of == ["Leg", "Body", "Head", "Ear"]
    parts = leg.height_mm.value + trunk_.height_mm.value + head.height_mm.value + ear.height_mm.value
    lost = dip(head.profile_mm, trunk_.profile_mm[-1][0]) + dip(head.profile_mm[::-1], ear.profile_mm[-1][0])
    assert found.whole.height_mm.value == pytest.approx(parts - lost, abs=1.5)


@pytest.mark.parametrize(
    ("name", "where"),
    [
        ("Tail", "to round 3 of the body"),  # it stands out behind
        ("Beak", "to the head, under the eyes"),
        ("Beard", "to the bottom of the head"),
        ("Wings", "to the back of the body"),
    ],
)
def test_what_does_not_stand_up_is_named_and_not_counted(name: str, where: str) -> None:
    found = seal(f"Sew the head to the body. Sew the {name.lower()} {where}.", f"{name}\n{PART}Fasten off.\n\n")
    assert found.whole is not None
    assert found.whole.of == ["Body", "Head"]
    assert found.whole.said[-1].endswith(f"{name.lower()}.")


def test_a_sole_under_the_body_adds_nothing() -> None:
    sole = "Base disc\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\nFasten off.\n\n"
    found = seal("Sew the head to the body. Sew the base disc to the bottom of the body.", sole)
    assert found.whole is not None
    assert found.whole.of == ["Body", "Head"]


def test_what_nothing_fills_does_not_stand() -> None:
    crown = "Crown\nRnd 1: 8 sc in magic ring (8)\nRnd 2: inc x 8 (16)\nRnd 3: (sc, inc) x 8 (24)\n\n"
    hat = f"{TOP}{crown}Sides\nRnd 4: sc in each st around (24)\nRnds 5-9: sc in each st around (24)\nFasten off.\n"
    assert measured(read(hat)).whole is None


def test_one_piece_alone_and_an_unknown_seam_have_no_whole() -> None:
    assert measured(read(f"{TOP}Body\n{BALL}{SHUT}")).whole is None
    assert seal("Sew the ears to the head.").whole is None


def test_the_whole_is_part_of_what_is_said() -> None:
    from hookside.cli.measure import listing, stable

    found = seal("Sew the head to the body. Sew the ears to the top of the head.")
    assert any("Body, head and ear: about" in line for line in listing(found))
    assert any("Body, head and ear: about" in line for line in stable(found)["basis"])  # type: ignore[attr-defined]
