"""Surface and volume of what is round about an axis, or an oval about a line, or has the corners of a box.

A profile is two arrays of one length: radius and height of each hoop in mm, from the start to the end. An oval is that
profile with `straight` mm between the centres of its half circles. A box has squares for circles, `radius` half a side.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def volume(r: Array, z: Array, straight: float = 0.0, box: bool = False) -> float:
    """Of frustums between neighbouring hoops, in mm3; ends are taken as closed by flat discs."""
    dz = np.diff(z)
    a, b = r[:-1], r[1:]
    round_part = (4 if box else np.pi) / 3 * np.sum(dz * (a * a + a * b + b * b))
    return float(abs(round_part + straight * np.sum(dz * (a + b))))


def surface(r: Array, z: Array, straight: float = 0.0, box: bool = False) -> float:
    """Of the fabric between neighbouring hoops, in mm2; open ends are left open."""
    slant = np.hypot(np.diff(r), np.diff(z))
    return float(np.sum(slant * ((4 if box else np.pi) * (r[:-1] + r[1:]) + 2 * straight)))
