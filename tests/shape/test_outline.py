"""Outlines against closed forms and what geometry demands."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hookside.shape.fabric import Band, Fabric
from hookside.shape.gauge import Gauge
from hookside.shape.outline import HOOPS, outline
from hookside.shape.slack import slack
from hookside.shape.solids import surface, volume
from hookside.shape.stuffed import stuffed

FIVE = Gauge(5.0, 5.0, 0.05, "demo", "swatch")


def piece(counts: list[int], closed: bool = False, stuff: bool | None = False, start: int = 0) -> Fabric:
    bands = tuple(Band(f"p.{i}", str(i), n, 1.0) for i, n in enumerate(counts, start=1))
    return Fabric("Demo", 1, "round", bands, start=start, closed=closed, stuffed=stuff)


# -- the slack outline ------------------------------------------------------


@pytest.mark.parametrize(("m", "degrees"), [(1, 9.157849512), (3, 28.519956509), (5, 52.728490821), (6, 72.732564105)])
def test_cones(m: int, degrees: float) -> None:
    """sin of the half-apex angle = m w / (2 pi h), from circumference 2 pi s sin(a) at slant s = k h."""
    counts = np.arange(0, 41) * m
    found = slack(counts * 5.0 / (2 * np.pi), np.full(40, 5.0))
    assert np.degrees(np.arctan2(found.r[-1], found.z[-1])) == pytest.approx(degrees, abs=1e-6)
    assert found.ruffled == []


def test_a_disc_lies_flat_where_six_are_right() -> None:
    """6 a round lie flat where h/w = 3/pi: circumference 2 pi k h = 6 k w."""
    counts = np.arange(0, 13) * 6
    found = slack(counts * 5.0 / (2 * np.pi), np.full(12, 15 / np.pi))
    assert found.z == pytest.approx(np.zeros(13), abs=1e-5)
    assert found.r[-1] == pytest.approx(12 * 15 / np.pi)


def test_seven_a_round_ruffle_and_that_is_said_late() -> None:
    """7 a round are 1.114 of what lies flat (7 w / 2 pi h), within 15 %; 8 are 1.27 and ruffle."""
    for m, ruffles in ((6, False), (7, False), (8, True)):
        counts = np.arange(0, 13) * m
        found = slack(counts * 5.0 / (2 * np.pi), np.full(12, 5.0))
        assert bool(found.ruffled) is ruffles, m


def test_eight_a_round_fewer_cup_and_do_not_ruffle() -> None:
    """Drawn in by 8 a round, 1.27 of what lies flat: the stitches are fewer than reach across, not more."""
    counts = np.arange(12, 0, -1) * 8
    found = slack(counts * 5.0 / (2 * np.pi), np.full(11, 5.0))
    assert found.ruffled == []
    assert found.cupped[-1] == 11
    lid = outline(piece([96] * 4 + [8 * k for k in range(11, 0, -1)], stuff=False, start=96), FIVE)
    assert lid.ruffled == ()
    assert [said for said in lid.said if "It cups at" in said and said.endswith("15: fewer stitches than lie flat.")]
    ball = outline(piece([7 * k for k in range(1, 6)] + [35] * 5 + [7 * k for k in range(4, 0, -1)], stuff=True), FIVE)
    assert not [said for said in ball.said if "cups" in said or "ruffles" in said]
    assert ball.ruffled == ()


def test_a_tube() -> None:
    """30 sts x 10 rounds, w = h = 5 mm: diameter 47.746482928, height 50 mm (n w / pi)."""
    found = outline(piece([30] * 10, stuff=True, start=30), FIVE)
    assert found.openings == pytest.approx([47.746482928] * 10)
    assert found.width == pytest.approx(47.746482928 * HOOPS, rel=1e-3)
    assert found.height == pytest.approx(50, rel=0.01)
    empty = outline(piece([30] * 10, start=30), FIVE)
    assert empty.lies_flat
    assert empty.width == pytest.approx(75)  # half of 150 mm


@pytest.mark.parametrize("m", [1, 3, 5, 6])
def test_the_surface_and_volume_of_a_cone(m: int) -> None:
    """Of slant s and radius r, height z: surface pi r s, volume pi r^2 z / 3 (closed forms), within 2 %."""
    found = slack(np.arange(0, 41) * m * 5.0 / (2 * np.pi), np.full(40, 5.0))
    r = 40 * m * 5.0 / (2 * np.pi)
    high = np.sqrt(200.0**2 - r * r)
    assert found.r[-1] == pytest.approx(r)
    assert surface(found.r, found.z) == pytest.approx(np.pi * r * 200, rel=0.02)
    assert volume(found.r, found.z) == pytest.approx(np.pi * r * r * high / 3, rel=0.02)


def test_the_surface_of_a_disc() -> None:
    """Of radius r: pi r^2, and it holds nothing."""
    found = outline(piece([6 * k for k in range(1, 21)]), Gauge(5.0, 15 / np.pi, 0.05, "demo", "swatch"))
    r = 20 * 15 / np.pi
    assert found.width == pytest.approx(2 * r, rel=0.02)
    assert found.surface == pytest.approx(np.pi * r * r, rel=0.02)
    assert found.volume == 0


def test_a_cylinder() -> None:
    """Of radius r and height z: side 2 pi r z, volume pi r^2 z."""
    found = slack(np.full(41, 30.0), np.full(40, 5.0))
    assert surface(found.r, found.z) == pytest.approx(2 * np.pi * 30 * 200, rel=0.02)
    assert volume(found.r, found.z) == pytest.approx(np.pi * 30**2 * 200, rel=0.02)


@pytest.mark.parametrize("rows", [20, 40, 80])
def test_a_hemisphere(rows: int) -> None:
    """Half the rounds of form B, n_k = (2 pi R / w) sin(k pi / N): surface 2 pi R^2, volume 2/3 pi R^3."""
    counts = 2 * rows * np.sin(np.arange(rows // 2 + 1) * np.pi / rows)
    found = slack(counts * 5.0 / (2 * np.pi), np.full(rows // 2, 5.0))
    radius = rows * 5.0 / np.pi
    assert found.r[-1] == pytest.approx(radius, rel=0.02)
    assert found.z[-1] == pytest.approx(radius, rel=0.02)
    assert surface(found.r, found.z) == pytest.approx(2 * np.pi * radius**2, rel=0.02)
    assert volume(found.r, found.z) == pytest.approx(2 / 3 * np.pi * radius**3, rel=0.02)


# -- the stuffed outline ----------------------------------------------------


def sphere(rows: int, w: float = 5.0, h: float = 5.0, whole: bool = False) -> tuple[float, float, float]:
    """Width, height and volume of a stuffed ball by form B, in those of the sphere of R = rows h / pi."""
    counts = 2 * rows * h / w * np.sin(np.arange(rows + 1) * np.pi / rows)
    if whole:
        counts = np.floor(counts + 0.5)
    found = stuffed(counts * w / (2 * np.pi), np.full(rows, h))
    assert found.settled
    radius = rows * h / np.pi
    wide, high = np.max(found.r) / radius, np.ptp(found.z) / (2 * radius)
    return float(wide), float(high), volume(found.r, found.z) / (4 / 3 * np.pi * radius**3)


@pytest.mark.parametrize("rows", [20, 24, 40, 80])
@pytest.mark.parametrize("ratio", [0.8, 0.95, 1.0])
def test_a_ball_of_unrounded_counts_is_a_sphere(rows: int, ratio: float) -> None:
    """n_k = (2 pi R / w) sin(k pi / N): within 2 %."""
    assert sphere(rows, 5.0, 5.0 * ratio) == pytest.approx((1, 1, 1), abs=0.02)


@pytest.mark.parametrize("rows", [25, 27, 30, 36])
def test_a_ball_of_whole_stitches(rows: int) -> None:
    """Widest round of 50 stitches and more: radius within 1 %, volume within 5 %."""
    wide, high, holds = sphere(rows, whole=True)
    assert wide == pytest.approx(1, abs=0.01)
    assert holds ** (1 / 3) == pytest.approx(1, abs=0.01)
    assert high == pytest.approx(1, abs=0.04)
    assert holds == pytest.approx(1, abs=0.05)


@pytest.mark.parametrize("rings", [20, 50])
def test_two_discs_are_a_mylar_balloon(rings: int) -> None:
    """Two discs of radius a, hoops free to gather: radius 0.7628 a, thickness 0.9139 a, volume 1.2185 a^3
    (W. Paulsen, American Mathematical Monthly 101, 1994)."""
    a = 100.0
    up = np.arange(rings + 1) * a / rings
    found = stuffed(np.concatenate([up, up[-2::-1]]), np.full(2 * rings, a / rings))
    assert found.settled
    assert np.max(found.r) / a == pytest.approx(0.7628, rel=0.005)
    assert np.ptp(found.z) / a == pytest.approx(0.9139, rel=0.005)
    assert volume(found.r, found.z) / a**3 == pytest.approx(1.2185, rel=0.005)


def test_the_everyday_ball_is_rounder_stuffed_than_empty() -> None:
    """6..36, 36 six times, 30..6: caps 17.3 degrees off flat when empty; stuffing rounds them."""
    counts = [6, 12, 18, 24, 30, *[36] * 7, 30, 24, 18, 12, 6]
    empty = outline(piece(counts, closed=True), FIVE)
    full = outline(piece(counts, closed=True, stuff=True), FIVE)
    caps = np.degrees(np.arctan2(empty.z[5] - empty.z[0], empty.r[5]))
    assert caps == pytest.approx(17.267435895, abs=1e-6)
    assert full.volume > volume(np.array(empty.r), np.array(empty.z))


def test_a_stuffed_piece_whose_text_is_silent() -> None:
    counts = [6, 12, 18, 24, 24, 24, 18, 12, 6]
    silent = outline(piece(counts, closed=True, stuff=None), FIVE)
    assert silent.volume > 0
    assert any("says nothing of stuffing" in s for s in silent.said)
    assert outline(piece(counts, closed=False, stuff=None), FIVE).volume == 0


# -- what must hold for any piece -------------------------------------------


@st.composite
def rounds(draw: st.DrawFn) -> list[int]:
    counts = [draw(st.integers(4, 8))]
    for _ in range(draw(st.integers(3, 14))):
        n = counts[-1] + draw(st.integers(-6, 6))
        counts.append(max(4, n))
    return counts


@settings(max_examples=60, deadline=None)
@given(counts=rounds(), k=st.floats(0.5, 3.0), stuff=st.booleans())
def test_scaling_the_gauge_scales_lengths_surfaces_volumes(counts: list[int], k: float, stuff: bool) -> None:
    small = outline(piece(counts, closed=True, stuff=stuff), FIVE)
    large = outline(piece(counts, closed=True, stuff=stuff), FIVE.scaled(k))
    assert large.width == pytest.approx(small.width * k, rel=2e-3)
    assert large.surface == pytest.approx(small.surface * k**2, rel=5e-3)
    assert large.volume == pytest.approx(small.volume * k**3, rel=5e-3)
    if small.height > FIVE.height:  # a flat disc is as high as its yarn is thick
        assert large.height == pytest.approx(small.height * k, rel=5e-3)


@settings(max_examples=60, deadline=None)
@given(counts=rounds(), where=st.integers(0, 100), stuff=st.booleans())
def test_an_added_increase_never_narrows_the_outline(counts: list[int], where: int, stuff: bool) -> None:
    at = where % len(counts)
    more = [n + (i >= at) for i, n in enumerate(counts)]
    before = outline(piece(counts, closed=True, stuff=stuff), FIVE)
    after = outline(piece(more, closed=True, stuff=stuff), FIVE)
    assert all(b >= a for a, b in zip(before.openings, after.openings, strict=True))
    if stuff:  # an empty piece may stand steeper or lie flat instead: there only the openings say
        assert after.volume >= before.volume * (1 - 2e-3)
        assert after.width >= before.width * (1 - 2e-3)


@settings(max_examples=60, deadline=None)
@given(counts=rounds())
def test_stuffing_never_stretches_what_it_may_not(counts: list[int]) -> None:
    limit = np.array([0, *counts, 0]) * 5 / (2 * np.pi)
    found = stuffed(limit, np.full(len(limit) - 1, 5.0))
    assert found.settled
    assert np.all(found.r <= limit + 1e-9)
    assert np.all(np.hypot(np.diff(found.r), np.diff(found.z)) <= 5.0 * 1.003)
    assert volume(found.r, found.z) > 0


def test_an_oval_stands_on_a_stadium() -> None:
    """A stadium of straight L and radius r: perimeter 2 L + 2 pi r, area 2 r L + pi r^2 (definition)."""
    oval = replace(piece([22, 28, 34, 40, 40, 40]), kind="oval", straight=9.0)
    found = outline(oval, FIVE)
    r = (40 * 5 - 2 * 45) / (2 * np.pi)
    assert found.straight == 45
    assert found.width == pytest.approx(45 + 2 * r, rel=0.02)  # its base, pressed flat, is a little wider than its rim
    bag = outline(replace(oval, stance="hangs", bands=oval.bands + piece([40] * 12).bands), FIVE)
    assert bag.lies_flat
    assert bag.width == pytest.approx(100)  # half of its edge of 200
    z = np.array([0.0, 10.0])
    assert volume(np.array([r, r]), z, 45.0) == pytest.approx(10 * (2 * r * 45 + np.pi * r * r))
    assert surface(np.array([r, r]), z, 45.0) == pytest.approx(10 * (2 * 45 + 2 * np.pi * r))


def test_rows_are_as_wide_as_their_stitches() -> None:
    rows = Fabric("Demo", 1, "flat", tuple(Band(f"r.{i}", str(i), n, 1.0) for i, n in enumerate([20, 22, 18])))
    found = outline(rows, FIVE)
    assert (found.width, found.height, found.surface) == (110, 15, 5 * 5 * 60)
