"""How large a rate may be, given how often something was seen: exact one-sided bounds of 95 %."""

from __future__ import annotations

import math
from collections.abc import Callable


def root(falls: Callable[[float], float], low: float, high: float) -> float:
    """Where a falling function is 0.05."""
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if falls(middle) > 0.05 else (low, middle)
    return high


def events(count: int) -> float:
    """Upper bound of the mean of a Poisson count: the mean at which so few are seen in 5 % of cases (Garwood 1936)."""

    def so_few(mean: float) -> float:
        return sum(math.exp(n * math.log(mean) - mean - math.lgamma(n + 1)) for n in range(count + 1))

    return root(so_few, 1e-9, 10 * count + 20)


def share(count: int, of: int) -> float:
    """Upper bound of a share (Clopper and Pearson 1934)."""
    if not of or count >= of:
        return 1.0

    def so_few(p: float) -> float:
        log = math.lgamma(of + 1)
        return sum(
            math.exp(
                log - math.lgamma(n + 1) - math.lgamma(of - n + 1) + n * math.log(p) + (of - n) * math.log1p(-p)
            )
            for n in range(count + 1)
        )  # fmt: skip

    return root(so_few, 1e-12, 1 - 1e-12)


def a_minute(count: int, minutes: float) -> dict[str, float]:
    """A rate for a report."""
    return {
        "events": count,
        "minutes": round(minutes, 2),
        "a_minute": round(count / minutes, 3) if minutes else 0.0,
        "at_most": round(events(count) / minutes, 3) if minutes else 0.0,
    }


def right(count: int, of: int) -> dict[str, float]:
    """A share that is good when large; `at_most_wrong` bounds the rest."""
    return {
        "right": count,
        "of": of,
        "share": round(count / of, 4) if of else 0.0,
        "at_most_wrong": round(share(of - count, of), 4),
    }
