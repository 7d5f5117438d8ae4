"""Chains within a course: short ones lie along it, long ones hang in bows between what holds them.

A bow of c chains, each as wide as a stitch, whose ends are `span` apart and whose middle the next course takes: two
legs of c/2, so it hangs sqrt(c^2 - span^2) / 2 deep (Pythagoras), as the mesh of a net does.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, pi, sin, sqrt

from hookside.pattern import Course, Group, Node, Repeat, in_order

LONG_CHAIN = 4  # chains in a row that lie along their course, each about as wide as a stitch; more hang in a bow
MANY = 20_000  # groups of a course, repeats counted through: more are no crochet, and are not looked into
FEW = 3  # bows in a course that is a net; fewer are a handle or a button's loop
_BEFORE = frozenset({"ring", "join", "turn"})
FLAT = 0.7  # share of its rows' lengths that a disc reaches with its rim: less is a cup or a bag


@dataclass(frozen=True, slots=True)
class Bows:
    """How many long chains a course has, and how many chains they are on the average."""

    number: int
    chains: float


def spans(course: Course) -> int:
    """Chains of a course that lie along it between its stitches: not those that begin it, turn it or hang from it."""
    if not _chained(course.body):
        return 0
    return sum(chains if chains <= LONG_CHAIN else min(chains, skipped) for chains, skipped in _between(course))


def bows(course: Course) -> Bows | None:
    """The long chains of a course that is mostly bows; None for another."""
    if not _chained(course.body):
        return None
    long = [chains for chains, skipped in _between(course) if chains > LONG_CHAIN and skipped < chains]
    if len(long) < FEW or 2 * sum(long) < (course.makes or 0):
        return None
    return Bows(len(long), sum(long) / len(long))


def hung(below: float, gone: float, net: Bows, rounds: bool) -> tuple[float, float]:
    """Edge and depth of a course of bows, in stitch widths, on an edge of `below` widths, `gone` widths from the start.

    A net that lies flat as a disc spreads until its legs are straight:
    r' = r cos(pi/m) + sqrt(leg^2 - r^2 sin^2(pi/m)).
    Another keeps the edge it hangs from; where its chains are shorter than that, they draw it in.
    """
    leg, reach = net.chains / 2, below / (2 * pi)
    if rounds and reach >= FLAT * gone and net.number >= FEW:
        turn = pi / net.number
        rest = leg * leg - (reach * sin(turn)) ** 2
        if rest > 0:
            out = reach * cos(turn) + sqrt(rest)
            return 2 * pi * out, max(0.0, out - reach)
    edge = min(below, net.number * net.chains)
    half = edge / net.number / 2
    return edge, sqrt(max(0.0, leg * leg - half * half))


def _between(course: Course) -> Iterator[tuple[int, int]]:
    """Each run of chains between two stitches, and the stitches that are skipped below it."""
    if not _chained(course.body) or _many(course.body) > MANY:
        return
    worked = list(in_order(course.body))
    first = next((node for node in course.body if not (isinstance(node, Group) and node.stitch in _BEFORE)), None)
    begun = isinstance(first, Repeat)  # a repeat that begins with chains ends before them, too
    at = 0
    while at < len(worked):
        if not _is_chain(worked[at]):
            begun = begun or (worked[at].makes > 0 and worked[at].stitch != "sl st")
            at += 1
            continue
        end = at
        while end < len(worked) and _is_chain(worked[end]):
            end += 1
        chains = sum(group.count for group in worked[at:end])
        beside = [worked[i] for i in (at - 1, end) if 0 <= i < len(worked)]
        skipped = sum(group.count * group.uses for group in beside if group.stitch == "skip")
        after = worked[end] if end < len(worked) else None
        turns = after is None or after.stitch == "turn"  # at a row's end
        limb = any(group.into and "from hook" in group.into for group in worked[end : end + 2])  # worked back along it
        hangs = limb or (after is not None and after.stitch == "sl st" and not after.uses)
        if begun and not turns and not hangs and not (at and worked[at - 1].stitch == "join"):
            yield chains, skipped
        at = end


def _chained(body: list[Node]) -> bool:
    for node in body:  # noqa: SIM110  (a generator costs more than the looking)
        if _chained(node.body) if isinstance(node, Repeat) else _is_chain(node):
            return True
    return False


def _many(body: list[Node]) -> int:
    return sum(node.times * _many(node.body) if isinstance(node, Repeat) else 1 for node in body)


def _is_chain(group: Group) -> bool:
    return group.stitch == "ch" and not group.makes
