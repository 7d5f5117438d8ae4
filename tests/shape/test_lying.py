"""What nothing fills: lying flat, standing, with chains in it, going on from other pieces. Demo patterns."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from hookside.compile import measured, read
from hookside.shape import PieceMeasures
from hookside.shape.fabric import Band, Fabric, fabric, usual_height
from hookside.shape.gauge import Gauge
from hookside.shape.lying import is_disc, lying
from hookside.shape.outline import outline

FIVE = Gauge(5.0, 5.0, 0.05, "demo", "swatch")


def rounds(counts: list[int], height: float = 1.0, **more: str) -> Fabric:
    bands = tuple(Band(f"p.{i}", str(i), n, height) for i, n in enumerate(counts, start=1))
    return Fabric("Demo", 1, "round", bands, **more)  # type: ignore[arg-type]


def test_a_disc_whose_stitches_and_rounds_agree_is_that_disc() -> None:
    """r = k h and 2 pi r = n w (definition): no strain."""
    radii, heights = np.arange(0, 13, dtype=np.float64) * 5, np.full(12, 5.0)
    assert is_disc(radii, heights)
    assert lying(radii, heights) == pytest.approx(radii)


@pytest.mark.parametrize("m", [7, 8, 10])
def test_what_has_too_many_stitches_lies_between_its_stitches_and_its_rounds(m: int) -> None:
    found = outline(rounds([m * k for k in range(1, 10)]), FIVE)
    by_stitches, by_rounds = 9 * m * 5 / np.pi, 2 * 9 * 5
    assert by_rounds < found.width < by_stitches
    assert found.stretch > 0
    assert (found.ruffled != ()) == (m > 7)  # seven in a round are 11 % too many, and that lies flat


def test_a_scale_of_the_gauge_is_a_scale_of_what_lies() -> None:
    small, large = (outline(rounds([8, 16, 24, 32, 40]), FIVE.scaled(k)) for k in (1.0, 2.5))
    assert large.width == pytest.approx(2.5 * small.width)


def test_a_cone_is_no_disc() -> None:
    """3 more in each round: half apex angle 28.5 degrees (worked examples: sin a = 3 w / 2 pi h)."""
    found = outline(rounds([3 * k for k in range(2, 16)]), FIVE)
    assert found.height > found.depth / 2 or found.lies_flat


def test_a_basket_stands_and_a_bag_is_laid_down() -> None:
    """48 stitches of 5 mm are 76.4 mm across (n w / pi); half of 240 mm is 120."""
    counts = [6, 12, 18, 24, 30, 36, 42, *[48] * 9]
    basket, bag = (outline(rounds(counts, stance=stance), FIVE) for stance in ("stands", "hangs"))
    assert not basket.lies_flat
    assert 76.4 <= basket.width <= 80.1  # its base of eight rounds, pressed flat, would be 80
    assert basket.height == pytest.approx(40, abs=1.0)  # eight rounds of wall above that
    assert bag.lies_flat
    assert bag.width == pytest.approx(120)
    assert bag.height == pytest.approx(80)
    assert "12 cm across" in " ".join(basket.said)
    assert "7.6 cm across" in " ".join(bag.said)
    assert outline(rounds(counts), FIVE).width == basket.width  # no name tells: its base is as wide as its rim
    assert outline(rounds([6, 12, 18, *[18] * 12]), FIVE).lies_flat  # a finger's length of tube
    ring = outline(replace(rounds([48] * 4), start=48), FIVE)
    assert (ring.lies_flat, ring.width) == (True, pytest.approx(120))  # a tube with no base, however short


def piece(lines: str, name: str = "Net Float") -> PieceMeasures:
    found = measured(read(f"{name}\nUS terms\nGauge: 20 sts and 20 rows = 10 cm\n\n{name}\n{lines}\n"))
    return found.pieces[-1]


def test_chain_spaces_have_their_width() -> None:
    lace = piece("Rnd 1: 12 dc in magic ring, join. (12)\nRnd 2: Ch 1, (sc in next st, ch 1) x 12, join. (12)")
    assert lace.openings_mm == [pytest.approx(12 * 5 / np.pi, abs=0.1), pytest.approx(24 * 5 / np.pi, abs=0.1)]
    assert any("Chain spaces" in line for line in lace.said)
    mesh = piece("Row 1: ch 22, sc in 2nd ch from hook and in each ch across. (21)\nRow 2: ch 1, turn, sc in next 21.")
    assert mesh.width_mm.value == pytest.approx(105, abs=0.1)  # what turns a row is no space
    assert mesh.said == []


def test_legs_that_become_a_body_are_measured_with_it() -> None:
    text = """Harbour Gull
US terms
Gauge: 20 sts and 20 rounds = 10 cm

Leg (make 2)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnds 3-8: sc in each st around (12)
Fasten off the first leg. Do not fasten off the second.

Body
Rnd 1: Ch 3, join to the first leg with a sc, sc in next 11 sts, sc in each of the 3 ch, sc in the next 12 sts of the
second leg, sc in the other side of the 3 ch (30)
Rnds 2-8: sc in each st around (30)
Rnd 9: (3 sc, dec) x 6 (24)
Rnd 10: (2 sc, dec) x 6 (18)
Stuff.
Rnd 11: (sc, dec) x 6 (12)
Rnd 12: dec x 6 (6)
Fasten off and close the hole.
"""
    leg, body = measured(read(text)).pieces
    assert leg.volume_cm3.value > 0  # it is filled from the body
    assert body.joined is not None
    assert body.joined.names == ["Leg"]
    assert body.joined.height_mm.value == pytest.approx(leg.height_mm.value + body.height_mm.value, rel=0.01)


def test_a_gauge_that_names_no_stitch_is_for_the_stitch_of_the_pattern() -> None:
    """16 rounds of double crochet at 8 rows to 10 cm are 200 mm (definition)."""
    lines = "Rnd 1: ch 40, join, 40 dc in next 40. (40)\nRnds 2-16: dc in each st around (40)"
    text = f"Pier Cowl\nUS terms\nGauge: 16 sts and 8 rows = 10 cm\n\nPier Cowl\n{lines}\n"
    found = measured(read(text))
    assert found.pieces[0].height_mm.value == pytest.approx(200, rel=0.02)
    named = measured(read(text.replace("8 rows", "17 rows").replace("16 sts", "16 sc")))
    assert named.pieces[0].height_mm.value == pytest.approx(16 * 100 / 17 * 15 / 7, rel=0.02)
    turns = [fabric(p) for p in read(text).pieces]
    assert usual_height(turns) == pytest.approx(15 / 7)


def test_what_narrows_to_a_tip_is_shut_whether_the_text_says_so_or_not() -> None:
    lines = (
        "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\n"
        "Rnds 4-7: sc in each st around (18)\nRnd 8: (sc, dec) x 6 (12)\n"
    )
    ball = piece(lines + "Rnd 9: dec x 6 (6)\nFasten off.")
    assert ball.volume_cm3.value > 0
    assert any("says nothing of stuffing" in line for line in ball.said)
    assert piece(lines + "Fasten off.").volume_cm3.value == 0


def test_ribs_round_posts_are_taken_lightly() -> None:
    begin = "Rnd 1: ch 40, join, 40 dc in next 40. (40)\n"
    plain = piece(f"{begin}Rnds 2-6: dc in each st around (40)", "Pier Cowl")
    ribbed = piece(f"{begin}Rnds 2-6: (FPdc in next st, BPdc in next st) x 20 (40)", "Pier Cowl")
    assert "round posts" in " ".join(ribbed.said)
    assert ribbed.width_mm.value == plain.width_mm.value
    assert ribbed.width_mm.high - ribbed.width_mm.low > plain.width_mm.high - plain.width_mm.low


def test_a_cushion_is_as_wide_as_its_case_laid_flat() -> None:
    """Twelve rounds of 6 more and back: laid flat a radius of k h = 60 mm (stitches and rounds agree), filled 0.7628 of
    that (the Mylar balloon; W. Paulsen, American Mathematical Monthly 101, 1994). A ball of that name stays a ball."""
    up = [6 * k for k in range(1, 13)]
    disc, ball = [*up, *up[-2::-1]], [*up[:6], *[36] * 6, *up[4::-1]]
    lens, cushion = (outline(rounds(disc, closed=True, stance=stance), FIVE) for stance in (None, "cushion"))
    assert cushion.width == pytest.approx(120, rel=0.05)
    assert lens.width == pytest.approx(0.7628 * 120, rel=0.05)
    assert cushion.volume == lens.volume
    assert any("thick" in said for said in cushion.said)
    assert len({outline(rounds(ball, closed=True, stance=stance), FIVE).width for stance in (None, "cushion")}) == 1


@pytest.mark.parametrize(
    ("join", "high"),
    [("Cntd. round the lot, 20 on each leg, 4 along each chain (48)", 40), ("Zig all of it about.", 35)],
)
def test_a_piece_whose_first_round_is_unread_is_an_open_tube_from_there(join: str, high: int) -> None:
    """48 stitches of 5 mm over 8 rounds of 5 mm are a wall 40 mm high (35 where round 1 tells no count); as a disc of
    8 rounds it would lie flat and ruffle."""
    text = (
        "Deck hand\nUS terms\nGauge: 20 sts and 20 rounds = 10 cm\n\nBody\nRnd 1: {first}\n"
        "Rnds 2-8: sc in each st (48)\nFasten off.\n"
    )
    pattern = read(text.format(first=join))
    assert not pattern.pieces[0].courses[0].read
    (body,) = measured(pattern).pieces
    assert body.ruffled_at == []
    assert body.height_mm.value == pytest.approx(high, abs=1)
    assert "Its round 1 is not read: it is taken for an open edge of 48 stitches." in body.said
    (ring,) = measured(read(text.format(first="Zig the ring (6)").replace("(48)", "(6)"))).pieces
    assert not any("open edge" in line for line in ring.said)  # no more than a ring holds: a tip


def test_what_is_pressed_flat_and_measured_so_is_not_said_to_be_folded() -> None:
    text = (
        "Seal\nUS terms\nGauge: 20 sts and 20 rounds = 10 cm\n\nFlipper\nRnd 1: 6 sc in magic ring (6)\n"
        "Rnd 2: inc x 6 (12)\nRnds 3-8: sc in each st (12)\n{end}\nFasten off.\n"
    )
    flipper = measured(read(text.format(end="Do not stuff. Flatten and sc 6 through both layers."))).pieces[0]
    assert flipper.lies_flat
    assert not any("folded" in line for line in flipper.said)
