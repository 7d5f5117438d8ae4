"""Fabric that lies flat on a table: a disc, or a shallow cup that a hand smooths down to measure it.

It has one radius for each hoop and no height. Where the stitches of a hoop and the rows below it want different radii,
both give a little: crochet stretches and gathers. The radii are those of the least strain, a hoop and a slope of the
same surface counting alike (there is no measurement that would say which is the stiffer).
"""

from __future__ import annotations

import numpy as np

from hookside.shape.solids import Array

SHALLOW = 0.7  # share of the rows' lengths that the last hoop reaches: less is a cup that nobody presses flat
WIDENING = 0.7  # share of the rounds that widen, in what is called a disc


def is_disc(radii: Array, heights: Array) -> bool:
    """Whether hoops of these radii, mm, with slopes of these lengths between them, one fewer, are laid flat: no round
    narrows, most widen, up to the last but one, and they rise less than they widen."""
    steps = np.diff(radii)
    if len(steps) < 2 or np.any(steps < 0) or not np.any(steps[-2:] > 0):
        return False
    return bool(np.mean(steps > 0) >= WIDENING and radii[-1] - radii[0] >= SHALLOW * np.sum(heights))


def lying(radii: Array, heights: Array) -> Array:
    """Radii of the hoops, mm, as they lie. A start of radius 0 stays where it is."""
    from scipy.linalg import solve_banded

    n = len(radii)
    band, wanted = np.zeros((3, n)), np.zeros(n)  # a hoop meets its two neighbours: above, itself, below
    held = radii <= 0  # a closed tip
    for i, radius in enumerate(radii):
        if held[i]:
            band[1, i] = 1.0
            continue
        reach = heights[max(0, i - 1)]
        stiff = reach / radius  # its surface, over the square of the length that is strained
        band[1, i] += stiff
        wanted[i] += stiff * radius
    for i, h in enumerate(heights):
        stiff = (radii[i] + radii[i + 1]) / 2 / h
        if not held[i + 1]:
            band[1, i + 1] += stiff
            band[2, i] -= stiff
            wanted[i + 1] += stiff * h
        if not held[i]:
            band[1, i] += stiff
            band[0, i + 1] -= stiff
            wanted[i] -= stiff * h
    return np.asarray(np.maximum(0.0, solve_banded((1, 1), band, wanted)), dtype=float)
