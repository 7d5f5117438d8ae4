"""The outline of fabric that nothing fills: hoops of its stitches, neighbours a row height apart along the slope."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hookside.shape.solids import Array

RUFFLED = 0.15  # share by which three rounds must be too wide before it is called a ruffle


@dataclass(frozen=True, slots=True)
class Slack:
    """`r`, `z` of each hoop in mm, the first the start, the last the end. `over`: for each hoop the share by which its
    stitches are more than the slope lets lie flat, below nought where they are fewer; where three in a row pass
    `RUFFLED`, it ruffles or cups."""

    r: Array
    z: Array
    over: Array

    @property
    def ruffled(self) -> list[int]:
        """Hoops of a ruffle, by index."""
        return _runs(self.over > RUFFLED)

    @property
    def cupped(self) -> list[int]:
        """Hoops that are drawn in more steeply than they lie flat, by index."""
        return _runs(self.over < -RUFFLED)


def _runs(wide: NDArray[np.bool_]) -> list[int]:
    """Those of three in a row."""
    run = [i for i in range(1, len(wide) - 1) if wide[i - 1] and wide[i] and wide[i + 1]]
    return sorted({j for i in run for j in (i - 1, i, i + 1)})


def slack(radii: Array, heights: Array) -> Slack:
    """Radii of the hoops by their stitches, mm, and the slope lengths between neighbours, one fewer.

    A hoop that cannot be reached from the one before lies flat out from it (or in to it), and the rest of its stitches
    ruffle (or cup): said in `over`.
    """
    r = np.array(radii, dtype=float)
    z = np.zeros_like(r)
    over = np.zeros_like(r)
    for i in range(1, len(r)):
        h = heights[i - 1]
        step = r[i] - r[i - 1]
        if abs(step) > h:
            reach = r[i - 1] + np.copysign(h, step)
            over[i] = (r[i] - reach) / max(reach, h)
            r[i] = reach
            step = np.copysign(h, step)
        z[i] = z[i - 1] + np.sqrt(max(0.0, h * h - step * step))
    return Slack(r, z, over)
