"""Colors and loops that are told behind the stitches they hold for: "12 sc (12), in black", "sc around, BLO"."""

from __future__ import annotations

from collections.abc import Iterator

from hookside.notation.bodies.chunks import Chunk
from hookside.notation.trees.nodes import GROUPS, WORKING, Choice, CueAt, Mark, Node, One, Tone, Work, is_lead


def dyed_behind(nodes: list[Node]) -> list[Node]:
    """ "12 sc (12), in black": a colour with no stitch behind it is that of all before, where no other one is told."""
    at = len(nodes) - 1
    while at > 0 and isinstance(nodes[at], (CueAt, Mark)):
        at -= 1
    last = nodes[at] if at > 0 else None
    if not isinstance(last, Tone) or last.colour is None or last.loops or isinstance(nodes[at - 1], CueAt):
        return nodes  # behind an asking it is the one that is changed to
    rest = [*nodes[:at], *nodes[at + 1 :]]
    return nodes if any(_dyed(n) for n in rest) else [last, *rest]


def _dyed(node: Node) -> bool:
    if isinstance(node, Choice):
        return any(_dyed(n) for option in node.options for n in option)
    if isinstance(node, GROUPS) and any(_dyed(n) for n in node.body):
        return True
    return isinstance(node, (Tone, Work, One)) and node.colour is not None


def looped_behind(nodes: list[Node]) -> list[Node]:
    """ "Sc around, back loops only", "dec x 9, blo": loops with no stitch behind them are those of all before.

    Where an asking or a join stands between them, or some of the stitches have other loops, they stay where they are,
    and the course says so (`loops_left_over`).
    """
    at = _loops_last(nodes)
    if at is None:
        return nodes
    last, rest = nodes[at], [*nodes[:at], *nodes[at + 1 :]]
    assert isinstance(last, Tone)
    between = isinstance(nodes[at - 1], (CueAt, Mark)) or getattr(nodes[at - 1], "why", "") == "join or stitch"
    return nodes if between or set(_sides(rest)) - {last.loops} else [last, *rest]


def taken_in(body: list[Node], modifiers: list[Chunk]) -> tuple[list[Node], list[Chunk]]:
    """ "(sc, inc, blo) x 6": loops at the end of a bracket are those of the bracket, as if they stood behind it."""
    at = _loops_last(body)
    if at is None or any(c.type == "LOOPSPOST" for c in modifiers):
        return body, modifiers
    last, rest = body[at], [*body[:at], *body[at + 1 :]]
    assert isinstance(last, Tone)
    return (body, modifiers) if set(_sides(rest)) else (rest, [*modifiers, Chunk("LOOPSPOST", last.loops, 0, 0)])


def loops_left_over(nodes: list[Node]) -> bool:
    """Do loops stand behind all stitches that they could hold for, of which it is not told for which they do?"""
    return _loops_last(nodes) is not None


def _loops_last(nodes: list[Node]) -> int | None:
    """Where loops stand that have stitches before them, and behind them none that go into a stitch."""
    for at in range(len(nodes) - 1, 0, -1):
        node = nodes[at]
        if isinstance(node, Tone) and node.sets_loops:
            return at if any(_worked(n) for n in nodes[:at]) else None
        if not is_lead(node):
            return None
    return None


def _worked(node: Node) -> bool:
    return isinstance(node, (*WORKING, Choice)) and not is_lead(node)


def _sides(nodes: list[Node]) -> Iterator[str | None]:
    """The loops that some of them are told to go through."""
    for node in nodes:
        if isinstance(node, Choice):
            for option in node.options:
                yield from _sides(option)
            continue
        if isinstance(node, GROUPS):
            yield from _sides(node.body)
        told = isinstance(node, Tone) and node.sets_loops
        if isinstance(node, (*WORKING, Tone)) and (told or node.loops is not None):
            yield node.loops
