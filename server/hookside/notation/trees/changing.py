"""A tree with what a reference changes in it: one more plain stitch between the increases, dec instead of inc."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from hookside.notation.labels.changes import Change
from hookside.notation.trees.copying import copy_of
from hookside.notation.trees.nodes import GROUPS, Choice, Node, One, Rep, Tree, Work, flat
from hookside.stitches import TABLE


def changed(tree: Tree, change: Change, again: int) -> Tree | None:
    """A copy of `tree` with a change made, for the `again`-th repeat (from 1); None where it does not fit in."""
    copy = copy_of(tree)
    by = change.plain * (again if change.each else 1)
    done = [False]
    if change.times:
        whole = [n for n in copy.items if isinstance(n, Rep) and not n.fill and n.uses is None]
        if len(whole) != 1:
            return None
        whole[0].times = change.times
        return copy
    if change.between and _between_corners(copy.items, change.between):
        return copy
    if change.old.isdecimal():
        meant = [w for w in _straight(copy.items) if w.n == int(change.old) and w.key != "ch"]
        plain = [w for w in meant if not _shapes(w)]
        if plain and len(plain) < len(meant):  # "2 sc in place of 1" leaves the one increase what it is
            for work in plain:
                work.n = int(change.new)
            return copy
    _change(copy.items, change, by, done)
    if change.between and not done[0] and not any(w.n == 1 and not _shapes(w) for w in _straight(copy.items)):
        _lengthen(copy.items, change.between, done)  # "inc x 6", and now "ditto, 1 sc between"
    if by and not done[0]:
        _lengthen(copy.items, by, done)
    if (by or change.old or change.between) and not done[0]:
        return None
    return copy


def _straight(nodes: list[Node]) -> Iterator[Work]:
    """Stitches that share their place with no others."""
    for node in nodes:
        if isinstance(node, Choice):
            for option in node.options:
                yield from _straight(option)
        elif isinstance(node, Rep):
            yield from _straight(node.body)
        elif isinstance(node, Work):
            yield node


def _corners(nodes: list[Node]) -> bool:
    """Does anything go into a space: "(2 dc, ch 2, 2 dc) in next corner sp"?"""
    inner = [part for node in nodes for part in (node.body if isinstance(node, Rep) else [node])]
    return any(isinstance(node, One) and node.base == "space" for node in flat(inner))


def _between_corners(nodes: list[Node], n: int) -> bool:
    """ "As Rnd 3, with 11 dc between corners": the straight stretches of a square, all of one length."""
    sides = [w for w in _straight(nodes) if w.placed and w.key not in ("ch", "sl st") and w.n > 1 and w.base == "next"]
    if not _corners(nodes) or len({w.n for w in sides}) != 1 or any(w.fill for w in sides):
        return False
    for side in sides:
        side.n = n
    return True


def _shapes(node: Node) -> bool:
    return isinstance(node, Work) and (
        node.per > 1 or (node.key in TABLE and (TABLE[node.key].uses, TABLE[node.key].makes) not in ((1, 1), (0, 0)))
    )


def _change(nodes: list[Node], change: Change, by: int, done: list[bool]) -> None:
    for node in nodes:
        if isinstance(node, Choice):
            for option in node.options:
                _change(option, change, by, done)
            continue
        if isinstance(node, Work):
            if change.loops:
                node.loops = change.loops
            if change.old and node.key == change.old:
                node.key = change.new
                done[0] = True
            elif change.old in ("inc", "dec") and _shapes(node) and (node.per > 1) == (change.old == "inc"):
                node.key, node.per = change.new, 1
                done[0] = True
            elif change.old.isdecimal() and node.n == int(change.old) and node.key != "ch":
                node.n = int(change.new)
                done[0] = True
        elif isinstance(node, GROUPS):
            _change(node.body, change, by, done)
            if by and isinstance(node, Rep) and (node.fill or node.times > 1):
                _lengthen(node.body, by, done)
            if change.between and isinstance(node, Rep) and (node.fill or node.times > 1):
                there = sum(n.n for n in node.body if isinstance(n, Work) and not _shapes(n) and n.key != "ch")
                _lengthen(node.body, change.between - there, done)
                done[0] = done[0] or change.between == there


def _lengthen(nodes: list[Node], by: int, done: list[bool]) -> None:
    """One plain stitch more (or fewer) beside the shaping of a repeat."""
    shaping = [at for at, n in enumerate(nodes) if _shapes(n)]
    if len(shaping) != 1:
        return
    plain = [n for n in nodes if isinstance(n, Work) and not _shapes(n) and n.key != "ch" and not n.fill]
    if by == 0:
        return
    if plain:
        if plain[0].n + by < 0:
            return
        plain[0].n += by
        if not plain[0].n:
            nodes.remove(plain[0])
        done[0] = True
    elif by > 0:
        work = nodes[shaping[0]]
        assert isinstance(work, Work)
        of = TABLE[work.key].of if work.key in TABLE else "sc"
        plainly = Work(of, n=by, start=work.start, end=work.end)
        if work.n > 1 or work.fill:  # "inc x 6" grows to "(sc, inc) x 6"
            one = replace(work, n=1, fill=False, last=0, times=None)
            nodes[shaping[0]] = Rep([plainly, one], times=work.n, fill=work.fill, last=work.last)
        else:
            nodes.insert(shaping[0], plainly)
        done[0] = True
