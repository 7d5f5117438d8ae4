"""The outline of fabric that is stuffed: a net that hardly stretches, blown up as far as it goes.

Stuffing presses every way alike, so the net takes the shape of the largest volume it can hold: no hoop longer than its
stitches (times a little stretch), no slope longer than its row height. A hoop may be shorter, then it gathers. For two
discs sewn together at the rim this is the Mylar balloon (W. Paulsen, "What is the shape of a Mylar balloon?", American
Mathematical Monthly 101, 1994).

Found by an augmented Lagrangian: hoops are bounds, slopes are constraints with multipliers (their tensions). A hoop
meets only its two neighbours, so the inner problem is a projected Newton method on a band matrix.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hookside.shape.slack import slack
from hookside.shape.solids import Array, volume

ROUNDS = 40  # of new multipliers, at most
STEPS = 200  # of Newton in one round, at most
CLOSE = 0.002  # share by which a slope may be too long at the end
STEADY = 1e-5  # change of the volume from one round of multipliers to the next, as a share


@dataclass(frozen=True, slots=True)
class Stuffed:
    """`r`, `z` of each hoop in mm. `settled`: no slope is more than 0.2 % too long, and the volume has come to rest."""

    r: Array
    z: Array
    settled: bool


def stuffed(radii: Array, heights: Array, straight: float = 0.0) -> Stuffed:
    """Radii of the hoops by their stitches, mm; slope lengths between neighbours, mm, one fewer.

    A hoop of radius 0 is a pole. Open ends are closed by a flat disc. `straight`: mm between the centres of an oval's
    half circles.
    """
    begun = slack(radii, heights)
    unit = float(np.max(radii))
    limit = np.asarray(radii, dtype=float) / unit
    net = _Net(np.asarray(heights, dtype=float) / unit, straight / unit)
    r = np.minimum(begun.r / unit, limit) * 0.95
    z = np.maximum(begun.z / unit, np.cumsum(np.concatenate([[0.0], net.h])) * 0.3)
    x = np.stack([r, z], axis=1).ravel()
    low, high = np.full(len(x), -np.inf), np.full(len(x), np.inf)
    low[0::2], high[0::2] = 0.0, limit
    low[1] = high[1] = 0.0  # the start stays where it is
    tension, stiff = np.zeros(len(net.h)), 1.0
    worst, before, settled = np.inf, 0.0, False
    for _ in range(ROUNDS):
        x = _newton(net, x, low, high, tension, stiff)
        over = net.over(x)
        tension = np.maximum(0.0, tension + stiff * over)
        longest = float(np.max(over))
        holds = volume(x[0::2], x[1::2], net.line)
        settled = longest < 2 * CLOSE and abs(holds - before) <= STEADY * holds
        if settled:
            break
        if longest > worst / 4:
            stiff = min(stiff * 3, 1e5)
        worst, before = longest, holds
    return Stuffed(x[0::2] * unit, x[1::2] * unit, settled)


def _newton(net: _Net, x: Array, low: Array, high: Array, tension: Array, stiff: float) -> Array:
    """The least energy within the bounds, near x."""
    from scipy.linalg import LinAlgError, solveh_banded

    energy, slope, band = net.energy(x, tension, stiff)
    damped = 1e-3
    for _ in range(STEPS):
        held = ((x <= low) & (slope > 0)) | ((x >= high) & (slope < 0))
        push = np.where(held, 0.0, slope)
        if np.max(np.abs(push)) < 1e-7:
            break
        free = band.copy()
        _let_go(free, held)
        while damped < 1e9:
            damped_band = free.copy()
            damped_band[0] += damped
            try:
                step = solveh_banded(damped_band, -push, lower=True, check_finite=False)
            except LinAlgError:
                damped *= 8
                continue
            there = np.clip(x + step, low, high)
            new_energy, new_slope, new_band = net.energy(there, tension, stiff)
            if new_energy < energy:
                break
            damped *= 8
        else:
            break
        small = energy - new_energy <= 1e-12 * abs(energy)
        x, energy, slope, band = there, new_energy, new_slope, new_band
        damped = max(damped / 10, 1e-9)
        if small:
            break
    return x


def _let_go(band: Array, held: NDArray[np.bool_]) -> None:
    """Take what is held at its bound out of the equations."""
    for k in range(4):
        across = held[: len(held) - k] | held[k:]
        band[k, : len(held) - k][across] = 0.0
    band[0, held] = 1.0


class _Net:
    """Slopes and their energy, in units of the widest hoop. x is r0, z0, r1, z1, ..."""

    def __init__(self, h: Array, line: float) -> None:
        self.h = h
        self.line = line

    def over(self, x: Array) -> Array:
        """How far each slope is too long: (length / h)^2 - 1."""
        return (np.diff(x[0::2]) ** 2 + np.diff(x[1::2]) ** 2) / self.h**2 - 1.0

    def energy(self, x: Array, tension: Array, stiff: float) -> tuple[float, Array, Array]:
        """Minus the volume, plus what slopes that are too long cost; its gradient; the lower band of its curvature."""
        r, z = x[0::2], x[1::2]
        a, b, dr, dz = r[:-1], r[1:], np.diff(r), np.diff(z)
        third = np.pi / 3
        area = third * (a * a + a * b + b * b) + self.line * (a + b)
        at_a, at_b = third * (2 * a + b) + self.line, third * (2 * b + a) + self.line
        pull = np.maximum(0.0, tension + stiff * self.over(x))
        cost = float(np.sum(pull * pull - tension * tension) / (2 * stiff)) - float(np.sum(dz * area))

        cr, cz = 2 * dr / self.h**2, 2 * dz / self.h**2  # slope of the constraint at the upper end
        slope = np.zeros_like(x)
        slope[0:-2:2] += -dz * at_a - pull * cr
        slope[2::2] += -dz * at_b + pull * cr
        slope[1:-2:2] += area - pull * cz
        slope[3::2] += -area + pull * cz

        hard = np.where(pull > 0, stiff, 0.0)
        bend = 2 * pull / self.h**2
        rr, rz, zz = hard * cr * cr + bend, hard * cr * cz, hard * cz * cz + bend
        band = np.zeros((4, len(x)))
        lower, upper = slice(0, -2, 2), slice(2, None, 2)  # r of the lower hoop, r of the upper
        lower_z, upper_z = slice(1, -2, 2), slice(3, None, 2)
        band[0, lower] += -2 * third * dz + rr
        band[0, upper] += -2 * third * dz + rr
        band[0, lower_z] += zz
        band[0, upper_z] += zz
        band[1, lower] += at_a + rz  # r, z of the lower hoop
        band[1, upper] += -at_b + rz  # r, z of the upper one
        band[1, lower_z] += at_b - rz  # z below, r above
        band[2, lower] += -third * dz - rr
        band[2, lower_z] += -zz
        band[3, lower] += -at_a - rz  # r below, z above
        return cost, slope, band
