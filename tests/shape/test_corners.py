"""Squares, rectangles, folds and nets against closed forms and printed sizes; demo patterns but for those."""

from __future__ import annotations

from math import cos, pi, sqrt

import numpy as np
import pytest

from hookside.compile import measured, read
from hookside.pattern import Course, Group, Node, Repeat
from hookside.shape import PieceMeasures
from hookside.shape.chains import Bows, bows, hung, spans
from hookside.shape.corners import corners
from hookside.shape.fabric import Band, Fabric
from hookside.shape.gauge import PER_HOOK, Gauge
from hookside.shape.outline import outline
from hookside.shape.solids import surface, volume

FIVE = Gauge(5.0, 5.0, 0.05, "demo", "swatch")
SQUARE = """Rnd 1: 8 sc in magic ring, join. (8)
Rnd 2: Ch 1, 2 sc in each sc around, join. (16)
Rnd 3: Ch 1, (3 sc in next sc, sc in next 3) x 4, join. (24)
Rnd 4: Ch 1, sc in next sc, (3 sc in next sc, sc in next 5) x 3, 3 sc in next sc, sc in next 4, join. (32)
Rnd 5: Ch 1, sc in 2, (3 sc in next sc, sc in next 7) x 3, 3 sc in next sc, sc in 5, join. (40)
Rnd 6: Ch 1, sc in 3, (3 sc in next sc, sc in next 9) x 3, 3 sc in next sc, sc in 6, join. (48)
"""


def piece(lines: str, name: str = "Dock Crate", gauge: str = "20 sts and 20 rows = 10 cm") -> PieceMeasures:
    return measured(read(f"{name}\nUS terms\nGauge: {gauge}\n\n{name}\n{lines}\n")).pieces[-1]


def test_a_printed_square_basket() -> None:
    """Square basket, 9 sc and 10 rows = 4 in, 48 stitches around, printed 5 1/2 in to a side
    (joann.com/bernat-crochet-nursery-storage-basket-set/132010400P352.html): a quarter of its edge is 5.33 in."""
    found = piece(SQUARE + "Rnds 7-19: sc in each sc around. (48)", "Dock Basket", "9 sc and 10 rows = 4 in")
    assert found.width_mm.value == pytest.approx(5.5 * 25.4, rel=0.05)
    assert found.depth_mm == found.width_mm.value
    assert found.corners == 4
    assert found.height_mm.value == pytest.approx(13 * 10.16, rel=0.08)
    assert "its base is a square" in " ".join(found.said)


def test_a_square_lies_flat_where_eight_are_right() -> None:
    """Side of k rounds 2 k h, edge 8 k h: 8 stitches a round where w = h (definition); diagonal sqrt(2) of it."""
    bands = tuple(Band(f"p.{k}", str(k), 8 * k, 1.0) for k in range(1, 11))
    found = outline(Fabric("Demo", 1, "round", bands, corners=4), FIVE)
    assert found.width == pytest.approx(100)
    assert found.surface == pytest.approx(100 * 100)
    assert found.ruffled == ()
    assert found.stretch == pytest.approx(0, abs=1e-9)
    assert f"{sqrt(2) * 10:.1f} cm" in " ".join(found.said)


def test_a_rectangle_about_a_chain() -> None:
    """Straight L, half depth a: edge 2 L + 8 a, sides L + 2 a and 2 a (definition)."""
    found = piece(
        "Rnd 1: Ch 11, sc in 2nd ch from hook, sc in next 8, 3 sc in last ch; working on the other side of the chain, "
        "sc in next 8, 2 sc in last. (22)\n"
        "Rnd 2: (3 sc in next st, sc in next 9, 3 sc in next st) x 2 (30)\n"
        "Rnd 3: sc in next st, 3 sc in next, sc in next 11, 3 sc in next, sc in next 2, 3 sc in next, sc in next 11, "
        "3 sc in next, sc in next. (38)\n"
        "Rnds 4-9: sc in each st around (38)",
        "Dock Tray",
    )
    half = (38 * 5 - 2 * 45) / 8
    assert (found.corners, found.straight_mm) == (4, 45)
    assert found.width_mm.value == pytest.approx(45 + 2 * half, rel=0.1)
    assert found.depth_mm == pytest.approx(2 * half, rel=0.15)  # its base, pressed flat, is a little larger


def test_a_round_of_four_increases_is_no_square() -> None:
    """Four increases of one stitch make a cone, and eight of one a disc."""
    cone = piece("Rnd 1: 8 sc in magic ring (8)\nRnd 2: (sc, inc) x 4 (12)\nRnd 3: (2 sc, inc) x 4 (16)")
    disc = piece("Rnd 1: 8 sc in magic ring (8)\nRnd 2: inc x 8 (16)\nRnd 3: (sc, inc) x 8 (24)")
    assert cone.corners == 0
    assert disc.corners == 0
    ball = piece(SQUARE + "Rnds 7-12: sc in each sc around. (48)\nStuff.", "Float")
    assert ball.corners == 0  # stuffing rounds it


def test_a_granny_square_has_the_chains_of_its_corners() -> None:
    """44 stitches and four corners of two chains: 13 to a side."""
    found = piece(
        "Rnd 1: Ch 3, 2 dc in magic ring, (ch 2, 3 dc in ring) x 3, ch 2, join. (12)\n"
        "Rnd 2: Ch 3, dc in next 2, (2 dc, ch 2, 2 dc) in corner ch-2 sp, (dc in next 3, (2 dc, ch 2, 2 dc) in corner "
        "ch-2 sp) x 3, join. (28)\n"
        "Rnd 3: Ch 3, dc in next 4, (2 dc, ch 2, 2 dc) in next ch-2 sp, (dc in next 7, (2 dc, ch 2, 2 dc) in next ch-2 "
        "sp) x 3, dc in next 2, join. (44)",
        "Deck Mat",
    )
    assert found.corners == 4
    assert found.openings_mm[-1] == pytest.approx(13 * 5)
    assert found.width_mm.low < 65 < found.width_mm.high


def test_a_base_in_rows_with_walls_of_rounds() -> None:
    """10 stitches by 8 rows of 5 mm: 50 by 40, walls of 2 (10 + 8) stitches about that (definition)."""
    rows = (
        "Row 1: Ch 11, sc in 2nd ch from hook and in each ch across. (10)\nRows 2-8: ch 1, turn, sc in each sc. (10)\n"
    )
    about = "Rnd 9: sc evenly around all four sides. (36)\n"
    found = piece(f"{rows}{about}Rnds 10-15: sc in each sc around (36)\nFasten off.")
    assert (found.width_mm.value, found.depth_mm) == (pytest.approx(50), pytest.approx(40))
    assert found.height_mm.value == pytest.approx(35, abs=0.5)
    assert found.surface_cm2 == pytest.approx(5 * 4 + 18 * 3.5, rel=0.01)
    assert found.openings_mm[0] == pytest.approx(50)
    assert "a base of 5 cm by 4 cm" in " ".join(found.said)
    odd = piece(f"{rows}Rnds 9-15: sc in next 12 sts (12)\nFasten off.")
    assert "measured as rounds" in " ".join(odd.said)  # no round about that base


def test_solids_with_corners() -> None:
    """A box a by b by z: a b z, and 2 (a + b) z of walls; a pyramid on a square: a third of its box (closed forms)."""
    r, z = np.array([20.0, 20.0]), np.array([0.0, 50.0])
    assert volume(r, z, 30.0, box=True) == pytest.approx(70 * 40 * 50)
    assert surface(r, z, 30.0, box=True) == pytest.approx(2 * (70 + 40) * 50)
    assert volume(np.array([0.0, 20.0]), z, box=True) == pytest.approx(40 * 40 * 50 / 3)


def test_folded_ears() -> None:
    """An edge of 18 stitches of 5 mm: 45 mm pressed flat (n w / 2), 22.5 folded in half (n w / 4)."""
    cup = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\n"
    ear = piece(cup + "Rnds 4-12: sc in each st around (18)\nDo not stuff. Fold in half.\nFasten off.", "Ear")
    assert ear.width_mm.value == pytest.approx(45)
    assert "4.5 cm wide, and folded in half 2.2 cm" in " ".join(ear.said)
    disc = piece(cup + "Rnd 4: (2 sc, inc) x 6 (24)\nFold in half and sew closed.\nFasten off.", "Ear")
    assert any(f"Folded in half it is about {round(disc.width_mm.value / 10, 1):g} cm wide" in s for s in disc.said)
    small = piece(cup + "Fold in half and sew closed.\nFasten off.", "Ear")
    assert small.volume_cm3.value == 0  # folded shut is no ball
    pinch = "Rnds 4-12: sc in each st around (18)\nDo not stuff. Pinch the base together.\nFasten off."
    pinched = piece(cup + pinch, "Ear")
    assert "before its edge is gathered" in " ".join(pinched.said)


def test_walls_that_are_wider_than_their_base_are_said_and_spread() -> None:
    """12 more in each round are twice what lies flat (2 pi h / w = 6.3): the walls have stitches for more than that."""
    counts = [8, 24, 36, 48, 60, 72, *[84] * 8]
    bands = tuple(Band(f"p.{i}", str(i), n, 1.0) for i, n in enumerate(counts, start=1))
    found = outline(Fabric("Demo", 1, "round", bands, stance="stands"), FIVE)
    assert "it may be anything between" in " ".join(found.said)
    assert found.stretch > 0.15
    six = tuple(Band(f"p.{i}", str(i), n, 1.0) for i, n in enumerate([*range(6, 49, 6), *[48] * 8], start=1))
    assert outline(Fabric("Demo", 1, "round", six, stance="stands"), FIVE).stretch <= 0.05


# -- chains ------------------------------------------------------------------


def course(*body: Node, makes: int, kind: str = "round") -> Course:
    return Course(id="n.1", label="1", kind=kind, uses=0, makes=makes, text="", line=1, body=list(body))  # type: ignore[arg-type]


def chain(n: int) -> Group:
    return Group(stitch="ch", count=n, uses=0, makes=0)


SC = Group(stitch="sc")


def test_short_chains_lie_along_and_long_ones_hang() -> None:
    lace = course(Repeat(times=12, body=[chain(1), SC]), makes=12)
    assert spans(lace) == 12  # a round closes where it began
    assert bows(lace) is None
    net = course(Repeat(times=6, body=[chain(5), Group(stitch="skip", makes=0, steps=0), SC]), makes=6)
    assert bows(net) == Bows(6, 5)
    turned = course(chain(1), Repeat(times=12, body=[SC, chain(1)]), Group(stitch="join", uses=0, makes=0), makes=12)
    assert spans(turned) == 12
    back = Group(stitch="sc", count=12, uses=0, into="2nd ch from hook")
    limbs = course(Repeat(times=8, body=[chain(13), back, Group(stitch="sl st", count=2)]), makes=112)
    assert (spans(limbs), bows(limbs)) == (0, None)  # what is worked back along a chain is a limb
    half, gap = Group(stitch="sc", count=20), Group(stitch="skip", count=8, makes=0, steps=0)
    handle = course(half, chain(8), gap, half, makes=40)
    assert (spans(handle), bows(handle)) == (8, None)  # a chain over a gap of eight is as wide as the gap


def test_a_net_that_hangs_is_a_mesh_of_triangles() -> None:
    """Legs of c / 2, base of the edge shared out: depth by Pythagoras, 3-4-5."""
    edge, deep = hung(60, 100, Bows(10, 10), True)
    assert (edge, deep) == (60, pytest.approx(4))
    assert hung(60, 100, Bows(10, 5), True) == (50, 0)  # too short for the edge: they draw it in


def test_a_net_that_lies_as_a_disc_spreads_till_its_legs_are_straight() -> None:
    """Rim r, crowns r', half a bow's angle between them: leg^2 = r^2 + r'^2 - 2 r r' cos (law of cosines)."""
    below = 2 * pi * 6.0
    edge, deep = hung(below, 6.0, Bows(12, 7), True)
    out = edge / (2 * pi)
    assert 6**2 + out**2 - 2 * 6 * out * cos(pi / 12) == pytest.approx(3.5**2)
    assert deep == pytest.approx(out - 6)


def test_a_printed_net() -> None:
    """5 bows and 11 rounds = 10 cm, of 5 or 6 chains, hook 3 to 3.5 mm, measured lying flat
    (gruendl-wolle.de/en/anleitungen/re-cotton-einkaufsnetz-2020z-en): a round is 9.1 mm, within 25 %."""
    width = PER_HOOK * 3.25
    deep = [hung(20 / width * 50, 1000, Bows(50, chains), True)[1] * width for chains in (5, 6)]
    assert min(deep) == pytest.approx(100 / 11, rel=0.25)
    assert max(deep) == pytest.approx(100 / 11, rel=0.25)
    assert min(deep) < 100 / 11 < max(deep)


def test_a_doily_grows_over_its_net() -> None:
    found = piece(
        "Rnd 1: 12 dc in magic ring, join. (12)\nRnd 2: (ch 5, sk 1, sc in next st) x 6, join. (6)\n"
        "Rnd 3: (ch 7, sc in next ch-5 sp) x 6 (6)\nRnd 4: (7 sc in next ch-7 sp) x 6 (42)",
        "Doily",
    )
    assert found.openings_mm == sorted(o for o in found.openings_mm if o is not None)
    assert "Courses of long chains" in " ".join(found.said)
    assert found.width_mm.low < found.width_mm.value * 0.75


def test_a_course_without_end_is_not_looked_into() -> None:
    """A hostile text: a round of a billion stitches takes no longer than another."""
    endless = course(Repeat(times=10**5, body=[Group(stitch="inc3", makes=3, steps=3), chain(5), SC]), makes=4 * 10**5)
    many = course(Group(stitch="sc", count=10**9), makes=10**9)
    assert (spans(endless), bows(endless), corners([endless, many, endless], False)[0]) == (0, None, 0)
