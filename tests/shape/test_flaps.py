"""Rows worked among rounds: a flap on a part of the stitches, a slit where they go all the way round. Demo pieces."""

from __future__ import annotations

import pytest

from hookside.compile import measured, read
from hookside.shape import PieceMeasures

MM = 5.0  # a stitch and a round of the gauge below
BODY = """Chart Bag
US terms
Gauge: 20 sts and 20 rounds = 10 cm

Bag
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: (2 sc, inc) x 6 (24)
Rnds 5-10: sc in each st around (24)
"""
FLAP = "Row 11: ch 1, turn, sc in next 8 sts (8)\nRows 12-16: ch 1, turn, sc in each st (8)\n"
SLIT = "Row 11: ch 1, turn, sc in each st (24)\nRows 12-16: ch 1, turn, sc in each st (24)\n"


def bag(more: str) -> PieceMeasures:
    (piece,) = measured(read(BODY + more)).pieces
    return piece


def test_a_flap_stands_beside_the_piece_and_its_size_is_said() -> None:
    plain, with_flap = bag("Fasten off.\n"), bag(f"{FLAP}Fasten off.\n")
    assert with_flap.height_mm == plain.height_mm
    assert with_flap.width_mm == plain.width_mm
    said = " ".join(with_flap.said)
    assert "Rows 11 to 16 go over 8 of 24 stitches" in said
    assert f"{8 * MM / 10:g} cm wide" in said
    assert f"{6 * MM / 10:g} cm long" in said
    assert with_flap.openings_mm[10:] == [None] * 6
    assert len(with_flap.openings_mm) == 16


def test_its_yarn_is_counted() -> None:
    assert bag(f"{FLAP}Fasten off.\n").yarn_m.value > bag("Fasten off.\n").yarn_m.value


def test_rows_all_the_way_round_leave_a_slit() -> None:
    plain = bag("Rnds 11-17: sc in each st around (24)\nFasten off.\n")
    slit = bag(f"{SLIT}Rnd 17: sc in each st around (24)\nFasten off.\n")
    assert slit.height_mm.value == pytest.approx(plain.height_mm.value)
    assert f"leave a slit of about {6 * MM / 10:g} cm" in " ".join(slit.said)
    assert None not in slit.openings_mm


def test_rounds_go_on_behind_a_flap() -> None:
    plain = bag("Rnds 11-12: sc in each st around (24)\nFasten off.\n")
    heel = bag(f"{FLAP}Rnds 17-18: sc around all 24 sts (24)\nFasten off.\n")
    assert heel.height_mm.value == pytest.approx(plain.height_mm.value)


ROUNDS = """Rnd {0}: sc evenly around all four sides, join (40)
Rnds {1}-{2}: ch 1, sc in each st around, join (40)
Fasten off.
"""


def begun_with(rows: str, first: int, name: str = "Pouch") -> PieceMeasures:
    text = f"{name}\nUS terms\nGauge: 20 sts and 20 rounds = 10 cm\n\n{name}\n{rows}"
    (piece,) = measured(read(text + ROUNDS.format(first, first + 1, first + 9))).pieces
    return piece


def test_rows_before_rounds_lie_beside_what_is_measured() -> None:
    """The bottom of a pouch, 14 by 6; and the band of a hat, 40 rows of 6, whose row ends its rounds go into."""
    bottom = begun_with("Row 1: ch 15, sc in 2nd ch from hook and in each ch across (14)\n"
                        "Rows 2-6: ch 1, turn, sc in each st across (14)\n", 7)  # fmt: skip
    band = begun_with("Row 1: ch 7, sc in 2nd ch from hook and in each ch across (6)\n"
                      "Rows 2-40: ch 1, turn, sc in each st across (6)\n", 41, "Hat")  # fmt: skip
    for piece, wide, long in ((bottom, 14, 6), (band, 6, 40)):
        assert piece.width_mm.value == pytest.approx(40 * MM / 2), "pressed flat: half of the round"
        assert piece.height_mm.value == pytest.approx(10 * MM)
        said = f"a flat part about {wide * MM / 10:g} cm wide and {long * MM / 10:g} cm long"
        assert any(said in line for line in piece.said)
        assert piece.openings_mm[:long] == [None] * long
        assert piece.ruffled_at == []


def test_rows_that_are_closed_into_a_round_leave_a_slit() -> None:
    rows = (
        "Row 1: ch 41, sc in 2nd ch from hook and in each ch across (40)\n"
        "Rows 2-6: ch 1, turn, sc in each st across (40)\n"
    )
    piece = begun_with(rows, 7)
    assert piece.height_mm.value == pytest.approx(16 * MM)
    assert any("leave a slit of about 3 cm" in line for line in piece.said)
    assert None not in piece.openings_mm


def test_rows_behind_a_round_that_could_not_be_read_are_a_flat_piece() -> None:
    (piece,) = measured(read("R1: work in pattern\nRow 2: sc across (12)\nRow 3: sc across (12)\n")).pieces
    assert piece.lies_flat
