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
    n = len(radii)
    matrix, wanted = np.zeros((n, n)), np.zeros(n)
    for i, radius in enumerate(radii):
        if radius <= 0:
            matrix[i, i] = 1.0  # a closed tip
            continue
        reach = heights[max(0, i - 1)]
        stiff = radius * reach / radius**2  # its surface, over the square of the length that is strained
        matrix[i, i] += stiff
        wanted[i] += stiff * radius
    for i, h in enumerate(heights):
        stiff = (radii[i] + radii[i + 1]) / 2 * h / h**2
        for at, sign in ((i + 1, 1.0), (i, -1.0)):
            if radii[at] <= 0:
                continue
            matrix[at, at] += stiff
            other = i if at == i + 1 else i + 1
            matrix[at, other] -= stiff
            wanted[at] += sign * stiff * h
    return np.asarray(np.maximum(0.0, np.linalg.solve(matrix, wanted)), dtype=float)
