"""A number in front of a stitch that says how many go into one: "[sc 1, 2sc] x6 = 18" on 12."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from hookside.notation.arithmetic.choosing import Chosen, choose
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.courses.waiting import Parsed
from hookside.notation.trees.nodes import Choice, Node, Rep, Tree, Work
from hookside.stitches import Stitch

TWO_IN_ONE = "two in one"  # its name among the meanings
_PLAIN = frozenset(["sc", "hdc", "dc", "tr"])
_ON_THE_WAY = frozenset(["ch", "sl st"])
_MOST = 3  # as many as are put into one stitch so


def two_in_one(parsed: Parsed, ground: Ground, own: dict[str, Stitch]) -> Chosen | None:
    """ "(1sc, 2sc) x6 (18)" on 12: both in one stitch, where only so all stitches below are used and the count comes.

    Some write every two of them so, and some only the last of a list: "(2sc, 2sc) x6 (24)" on 18.
    """
    if not ground.there or ground.free or ground.first or _has_names(parsed.tree.items):
        return None
    for which in (_all, _last):
        items, found = _doubled(parsed.tree.items, parsed.body, which)
        if not found:
            return None
        around: list[Node] = [Rep(items, fill=True)]
        for nodes in (items, around) if len(items) > 1 else (items,):
            chosen = choose(Tree(nodes, parsed.tree.choices), ground, own)
            reading = chosen.reading
            whole = reading.uses == ground.there and not (reading.uneven or reading.unknown)
            if chosen.fits and whole and not chosen.counted:
                chosen.why.append(TWO_IN_ONE)
                return chosen
    return None


def _has_names(nodes: list[Node]) -> bool:
    """ "(2 sc, inc) x 6": who has a name for what shapes the round means two stitches by a two."""
    for node in nodes:
        if isinstance(node, Work) and (node.per > 1 or node.key not in _PLAIN | _ON_THE_WAY):
            return True
        if isinstance(node, Rep) and _has_names(node.body):
            return True
        if isinstance(node, Choice) and any(_has_names(way) for way in node.options):
            return True
    return False


_Which = Callable[[list[int]], list[int]]


def _all(places: list[int]) -> list[int]:
    return places


def _last(places: list[int]) -> list[int]:
    return places[-1:]


def _doubled(nodes: list[Node], body: str, which: _Which) -> tuple[list[Node], bool]:
    """The stitches with those of one list that may go into one taken so, and whether there are any."""
    out = list(nodes)
    places = [at for at, n in enumerate(nodes) if isinstance(n, Work) and _may(n, body)]
    for at in which(places):
        work = nodes[at]
        assert isinstance(work, Work)
        times = work.times or 1
        out[at] = replace(work, n=times, per=work.n // times)
    found = bool(places)
    for at, node in enumerate(nodes):
        if isinstance(node, Rep):
            within, any_within = _doubled(node.body, body, which)
            out[at], found = replace(node, body=within), found or any_within
        elif isinstance(node, Choice):
            ways = [_doubled(way, body, which) for way in node.options]
            out[at] = replace(node, options=[way for way, _ in ways])
            found = found or any(told for _, told in ways)
    return out, found


def _may(work: Work, body: str) -> bool:
    """ "2sc", "2 dc x6": its number in front, and no place of its own."""
    if work.key not in _PLAIN or work.per != 1 or work.fill or work.base != "next" or work.number is None:
        return False
    if work.placed or work.bare or work.one_place or not work.start <= work.number[0] < work.end:
        return False
    each, left = divmod(work.n, work.times or 1)
    told = body[work.start : work.start + 2]
    return not left and 2 <= each <= _MOST and told[:1] == str(each) and not told[1:].isdecimal()
