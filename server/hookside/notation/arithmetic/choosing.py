"""The choice between readings: the first meaning that fits what is there and what is printed, else the nearest."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import islice, product

from hookside.notation.arithmetic.ground import Ground, Reading, fits, misfit
from hookside.notation.arithmetic.summing import read_as, stands_in
from hookside.notation.trees.nodes import SILENT, Choice, CueAt, Mark, One, Rep, Tone, Tree, Work, works_in
from hookside.stitches import TABLE, Stitch

MOST_READINGS = 64


@dataclass(slots=True)
class Chosen:
    """The reading taken. `why`: the double meaning decided against its first meaning; `bounded`: not all were tried."""

    reading: Reading
    fits: bool
    why: list[str] = field(default_factory=list)
    bounded: bool = False
    others: list[Reading] = field(default_factory=list)
    counted: bool = False


_ALL_IN_ONE = 2  # the third meaning of a bracket with no multiplier


def _named(choice: Choice, pick: int) -> str:
    """The name of what was decided: of the three meanings of such a bracket, the last has one of its own."""
    if pick == _ALL_IN_ONE and choice.why == "stitches or on the way":
        return "slip stitches over"
    if pick == _ALL_IN_ONE and choice.why == "all told or spread":
        return "all the way"
    return "all in one" if choice.why == "missing multiplier" and pick == _ALL_IN_ONE else choice.why


def choose(tree: Tree, ground: Ground, own: dict[str, Stitch]) -> Chosen:
    """The first meaning when it fits; else the first other one that fits; else the nearest. At most 64 are tried."""
    first = (0,) * len(tree.choices)
    if ground.counts_as is None and ground.declared is None and ground.there and _grows_at_start(tree):
        grown = read_as(tree, first, ground, own, True)
        if fits(grown, ground):
            return Chosen(grown, True, ["turning chain counts"], False, [], True)
    reading = read_as(tree, first, ground, own)
    if fits(reading, ground):
        spaced = ground.declared is None and any(c.why == "every so many" for c in tree.choices)
        return Chosen(reading, True, ["every so many"] if spaced else [])
    best = reading
    best_misfit = misfit(reading, ground)
    best_counted = False
    tried = 1
    others: list[Reading] = []
    turning = _may_count(tree, ground)
    sizes = [range(len(c.options)) for c in tree.choices]
    total = 1
    for size in sizes:
        total *= len(size)
    combos = sorted(islice(product(*sizes), 4096), key=lambda p: (sum(p), p)) if tree.choices else [()]
    # a single chain is hardly ever a stitch, so no round that does not come out is taken as if it were one
    single = any(isinstance(n, Work) and n.key == "ch" and n.n == 1 for n in tree.items[:2])
    bridged = ground.free and reading.spaces > 0
    ways = [(False, ground)]
    if turning:
        ways.append((True, ground))
    if bridged and not ground.mode:
        ways.append((False, ground.but(mode="chains")))
    if reading.shared:
        ways.append((False, ground.but(apart=True)))
    if turning and any(isinstance(n, Work) and n.first and n.per == 1 for n in tree.items):
        ways.append((True, ground.but(apart=True)))
    if reading.over_chain and (ground.declared is not None or _past_the_tip(tree)):
        ways.append((False, ground.but(both_sides=True)))
        if any(_widens(n, own) for n in works_in(tree.items)):
            # "Ch 7. Rnd 1: 5 sc, 3 in 1, 4 sc, inc (14)": from the second chain on, as ovals mostly begin
            ways.append((False, ground.but(both_sides=True, oval=True, chain=ground.chain - 1)))
    if ground.first and ground.there is None and not ground.chain and ground.declared and _climbs(tree):
        ways.append((False, ground.but(first=False)))  # "ch 2, 2 dc in each loop (72)", of loops left elsewhere
    for counted, below in ways:
        for picks in combos:
            if picks == first and not counted and below is ground:
                continue
            if tried >= MOST_READINGS:
                break
            tried += 1
            other = read_as(tree, picks, below, own, counted)
            if fits(other, ground):
                why = [_named(tree.choices[i], p) for i, p in enumerate(picks) if p]
                if counted:
                    why.append("turning chain counts")
                if below.apart:
                    why.append("beside the first")
                elif below is not ground and below.first == ground.first:
                    why.append("back along the chain" if below.both_sides else "bridge counts")
                return Chosen(other, True, why, False, others, counted)
            others.append(other)
            off = misfit(other, ground)
            if off < best_misfit and not (counted and single):
                best, best_misfit, best_counted = other, off, counted
    why = [_named(tree.choices[i], p) for i, p in enumerate(best.picks) if p]
    if best_counted:
        why.append("turning chain counts")
    return Chosen(best, False, why, total > MOST_READINGS, others, best_counted)


def _climbs(tree: Tree) -> bool:
    """ "Ch 2, 2 dc in each loop": a chain as high as a stitch and work all the way round, none of it into chains."""
    works = [n for n in tree.items if not isinstance(n, (CueAt, Tone, Mark, Choice))]
    if len(works) != 2 or not isinstance(works[0], Work) or not isinstance(works[1], Work):
        return False
    return works[0].key == "ch" and works[0].n <= _TALLEST and works[1].fill and not works[1].noun.startswith("ch")


def _widens(work: Work, own: dict[str, Stitch]) -> bool:
    """Three or more in one chain, whatever their name is: "3 sc in 1", "inc3", the text's own W."""
    entry = own.get(work.key) or TABLE.get(work.key)
    return work.per >= _TIP or (entry is not None and entry.uses == 1 and entry.makes >= _TIP)


def _past_the_tip(tree: Tree) -> bool:
    """ "4 sc, 4 sc in last ch, 4 sc": more stitches behind three or more in the last chain go back along it."""
    tips = [at for at, n in enumerate(tree.items) if isinstance(n, Work) and n.tip and n.per >= _TIP]
    return bool(tips) and any(isinstance(n, (Work, Rep)) for n in tree.items[tips[0] + 1 :])


_TALLEST = 4  # chains beside a stitch
_TIP = 3  # stitches in the last chain that turn the corner
_HEIGHTS = {"hdc": 2, "dc": 3, "tr": 4}


def _grows_at_start(tree: Tree) -> bool:
    """ "ch 3, dc in same st, 2 dc in each st": the chain and its neighbour are the first increase (common practice)."""
    first = [n for n in tree.items if not isinstance(n, SILENT)][:3]
    works = [n for n in first if isinstance(n, Work)]
    if len(works) < 3:
        return False
    chain, same, rest = works
    return (
        chain.key == "ch"
        and same.base == "same"
        and same.n * same.per == 1
        and chain.n == _HEIGHTS.get(same.key)
        and rest.fill
        and (rest.per == 2 or (rest.key in TABLE and TABLE[rest.key].makes == 2))
    )


def _may_count(tree: Tree, ground: Ground) -> bool:
    if ground.counts_as is not None:
        return False
    for node in tree.items:
        if isinstance(node, One) and node.n == 1 and stands_in(node.body[:2]):
            return True
        if isinstance(node, Work):
            if node.key == "ch" and node.n >= 1:
                return True
            if node.base == "hook" and node.hook >= 3:
                return True
    return False
