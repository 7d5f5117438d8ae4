"""What others may count in a course in another way: loops of chain, chains gone around, dots for more of the same."""

from __future__ import annotations

import re

from hookside.notation.arithmetic.ground import Ground, Reading
from hookside.notation.courses.waiting import Waiting, numbers
from hookside.notation.trees.asked import every, once
from hookside.notation.trees.nodes import PLACED, Choice, Rep, Tree, Work
from hookside.stitches import TABLE

_LACE = 3  # chain spaces from which on a course is lace, and not one with a hole or two


# "(24) - 3", "(24 - 3)", "(24), 3": a number beside the printed count
_BESIDE = re.compile(
    r"[(\[{]\s*\d{1,4}(?: ?(?:sts?|stitches|sc))?\s{0,3}(?P<more>(?:[)\]}]\s{0,3}[-,;]?|[-,;])\s{0,3}(?P<n>\d{1,3}))"
    r"\s*[)\]}]?\s*\.?\s*$"
)


@once
def scalloped(tree: Tree) -> bool:
    """ "(sl st, ch 3, sl st) in first sc, sl st in next": slip stitches alone, with loops of chain between them."""
    nodes = every(tree)
    works = [n for n in nodes if isinstance(n, Work) and (n.key, n.n) != ("ch", 1)]  # but for the one that it rises by
    loops = sum(n.key == "ch" for n in works)
    slips = sum(n.key == "sl st" and n.base != "hook" for n in works)
    again = any(isinstance(n, Rep) and (n.fill or n.times > 1) for n in nodes)
    return loops + again > 1 and loops > 0 and slips + again > 1 and loops + slips == len(works)


def ends_open(reading: Reading, declared: int | None) -> bool:
    """Is a last course lace, with no printed count to say whether its chains count? `reading`: that of the course."""
    return declared is None and reading.spaces >= _LACE and reading.makes == reading.stitches


def counts_chains(reading: Reading, declared: int) -> bool:
    """Does a printed count hold the single chains of a course whose chains are only gone around?"""
    others = (reading.makes, reading.stitches, reading.spaces, reading.stitches + reading.spaces)
    return declared not in others and declared == reading.stitches + reading.chains


def trails_off(todo: Waiting) -> bool:
    """Does it end in dots that may mean more of the same, with no printed count to tell?"""
    parsed = todo.parsed
    if parsed is None or not parsed.phrases.trails or todo.declared is not None or not todo.first_of:
        return False
    return any(isinstance(n, Choice) and n.why == "trails off" for n in every(parsed.tree))


@once
def stands_first(tree: Tree) -> int:
    """Chains that may stay below the first stitch of a row though nobody says so: as many as it is high."""
    works = [n for n in every(tree) if isinstance(n, PLACED)]
    if any(n.base == "hook" for n in works):
        return 0
    first = next((n for n in works if isinstance(n, Work) and n.key in TABLE), None)
    return int(TABLE[first.key].height) if first is not None else 0


def beside_count(text: str, todo: Waiting, reading: Reading, ground: Ground) -> tuple[int, int] | None:
    """A number beside the printed count that nothing in the course comes to: where it stands in the page."""
    told = _BESIDE.search(text, todo.start, todo.end) if todo.declared == reading.makes and todo.first_of else None
    if told is None or todo.parsed is None or todo.borrowed or not todo.last_of or todo.parsed.phrases.sizes:
        return None
    there = ground.there or reading.uses
    known = {*reading.counts(), *numbers(todo.parsed), there, abs(reading.makes - there), reading.uses, todo.label}
    return None if int(told["n"]) in known else told.span("more")
