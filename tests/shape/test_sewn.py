"""How high a toy stands whose head is sewn to its body. Demo patterns; the circle of the seam by closed form."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from tests.shape.balls import BALL, SHUT

from hookside.compile import measured, read
from hookside.shape import PieceMeasures
from hookside.shape.sewn import SEWN, dip

OPEN = "Fasten off.\n"


def toy(head: str, body: str, sewing: str) -> tuple[PieceMeasures, PieceMeasures, str]:
    top = "Harbour Gull\nUS terms\nGauge: 20 sts and 20 rounds = 10 cm\n\n"
    text = f"{top}Head\n{BALL}{head}\nBody\n{BALL}{body}\nFinishing\n{sewing}\n"
    one, two = measured(read(text)).pieces[:2]
    return one, two, " ".join(two.said)


def high(said: str) -> float:
    """The height that is said, in mm."""
    return 10 * float(said.split("With the head sewn on it is ")[1].split("about ")[1].split(" cm")[0])


@pytest.mark.parametrize("r", [5.0, 12.0, 25.0])
def test_a_ball_reaches_through_a_circle_by_its_cap(r: float) -> None:
    """R - sqrt(R^2 - r^2), the height of a cap (closed form)."""
    turns = np.linspace(0, np.pi, 400)
    ball = [(30 * float(np.sin(t)), 30 - 30 * float(np.cos(t))) for t in turns]
    assert dip(ball, r) == pytest.approx(30 - sqrt(30**2 - r**2), abs=0.05)
    assert dip(ball, 40) == pytest.approx(30)  # no circle that large: half of it


def test_a_closed_head_sinks_into_an_open_body() -> None:
    head, body, said = toy(SHUT, OPEN, "Sew the head to the body. Sew the ears to the head.")
    seam = body.profile_mm[-1][0]
    below = dip(head.profile_mm, seam)
    assert seam == pytest.approx(18 * 5 / (2 * np.pi), rel=0.05)
    assert high(said) == pytest.approx(head.height_mm.value + body.height_mm.value - below, abs=0.6)


def test_two_open_ends_meet_at_their_rims() -> None:
    head, body, said = toy(OPEN, OPEN, "Sew head and body together.")
    assert high(said) == pytest.approx(head.height_mm.value + body.height_mm.value, abs=0.6)


def test_a_round_that_the_text_names_is_the_seam() -> None:
    """Round 13 of the body has 18 stitches, and so does the seam: both balls lose their cap beyond it."""
    head, body, said = toy(SHUT, SHUT, "Sew the head to R13 of the body.")
    r, z = body.profile_mm[13]
    lost = body.profile_mm[-1][1] - z + dip(head.profile_mm, r)
    assert high(said) == pytest.approx(head.height_mm.value + body.height_mm.value - lost, abs=0.6)
    assert "at most" not in said


def test_what_the_text_does_not_say_is_not_worked_out() -> None:
    head, body, said = toy(SHUT, SHUT, "Sew the head to the body.")
    assert "at most about" in said
    assert high(said) == pytest.approx(head.height_mm.value + body.height_mm.value, abs=0.6)
    assert "does not say where they meet" in toy(SHUT, SHUT, "Sew the ears to the head and the legs to the body.")[2]
    alone = measured(read(f"Float\nUS terms\n\nHead\n{BALL}{SHUT}"))
    assert "sewn on" not in " ".join(alone.pieces[0].said)


def test_said_where_the_head_ends() -> None:
    said = toy("Fasten off and sew to the body.\n", OPEN, "Weave in ends.")[2]
    assert "With the head sewn on" in said


@pytest.mark.parametrize(
    ("text", "together"),
    [
        ("Sew the head to the body.", True),
        ("Sew head and wings to body", True),
        ("We sew the ears and the snout to the head, the head to the body, the legs of above to the sides", True),
        ("Sew the head to Rnd 3-8 of the body, a little to the front.", True),
        ("Sew the body to the head", True),
        ("sew head and body together", True),
        ("Sew the head on the body.", True),
        ("Sew the arms to the head.", False),
        ("Sew the ears to the head and the legs to the body.", False),
        ("Sew the arms to the sides of the body and the cap to the head.", False),
        ("Sew the beak in front of the head and the crest behind.", False),
    ],
)
def test_what_sews_a_head_to_a_body(text: str, together: bool) -> None:
    assert bool(SEWN.search(text)) is together


def test_a_body_on_its_legs_is_as_high_as_both() -> None:
    legs = (
        "Leg (make 2)\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnds 3-8: sc in each st around (12)\n"
        "Fasten off the first leg. Do not fasten off the second.\n\n"
    )
    body = (
        "Body\nRnd 1: Ch 3, join to the first leg with a sc, sc in next 11 sts, sc in each of the 3 ch, sc in the next "
        "12 sts of the second leg, sc in the other side of the 3 ch (30)\nRnds 2-8: sc in each st around (30)\n"
        "Rnd 9: (3 sc, dec) x 6 (24)\nRnd 10: (2 sc, dec) x 6 (18)\nStuff.\nFasten off.\n\n"
    )
    top = "Gull\nUS terms\nGauge: 20 sts and 20 rounds = 10 cm\n\n"
    text = f"{top}{legs}{body}Head\n{BALL}{SHUT}\nFinishing\nSew the head to the body.\n"
    leg, trunk, head = measured(read(text)).pieces
    assert trunk.joined is not None
    whole = leg.height_mm.value + trunk.height_mm.value + head.height_mm.value
    lost = dip(head.profile_mm, trunk.profile_mm[-1][0])
    assert high(" ".join(trunk.said)) == pytest.approx(whole - lost, abs=0.6)
