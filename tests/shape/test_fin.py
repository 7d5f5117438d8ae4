"""A stuffed piece whose open end is pressed flat behind a narrow neck, as a fish's tail. Demo pieces; closed forms."""

from __future__ import annotations

import pytest

from hookside.compile import measured, read
from hookside.shape import PieceMeasures

BODY = """Herring
US terms
Gauge: 20 sts and 20 rounds = 10 cm

Body
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: (2 sc, inc) x 6 (24)
Rnds 5-9: sc in each st around (24)
Rnd 10: (2 sc, dec) x 6 (18)
Rnd 11: (sc, dec) x 6 (12)
Stuff.
Rnd 12: dec x 6 (6)
"""
TAIL = """Rnd 13: inc x 6 (12)
Rnd 14: inc x 12 (24)
Rnd 15: sc in each st around (24)
"""
MM = 5.0  # a stitch and a round of that gauge


def herring(tail: str) -> PieceMeasures:
    (piece,) = measured(read(BODY + tail)).pieces
    return piece


def test_a_fin_lies_along_the_fabric_and_is_half_its_edge_wide() -> None:
    fish = herring(TAIL + "Flatten the end and work 12 sc through both layers.\n")
    alone = herring("Fasten off.\n")
    assert fish.height_mm.value == pytest.approx(alone.height_mm.value + 3 * MM, abs=2)
    assert fish.width_mm.value == pytest.approx(24 * MM / 2, abs=0.1)
    assert fish.widest_at in ("round 14", "round 15")
    assert "measured as a fin" in " ".join(fish.said)


def test_no_stuffing_goes_into_the_fin() -> None:
    fish = herring(TAIL + "Fold flat and sew shut.\n")
    alone = herring("Fasten off.\n")
    assert fish.volume_cm3.value == pytest.approx(alone.volume_cm3.value, rel=0.1)
    # Three rounds, each as wide as its two edges on the average: 9, 18 and 24 stitches.
    assert fish.surface_cm2 - alone.surface_cm2 == pytest.approx((9 + 18 + 24) * MM * MM / 100, abs=1)


def test_an_end_that_is_not_pressed_flat_is_stuffed_with_the_rest() -> None:
    fish = herring(TAIL + "Fasten off.\n")
    assert "fin" not in " ".join(fish.said)
    assert fish.width_mm.value < 24 * MM / 2


def test_a_flat_end_without_a_neck_stays_a_stuffed_tube() -> None:
    arm = BODY.replace("Rnd 12: dec x 6 (6)\n", "")
    (piece,) = measured(read(arm + "Fold flat and work 6 sc through both layers.\n")).pieces
    assert "fin" not in " ".join(piece.said)
    assert piece.volume_cm3.value > 0
