"""A course by its colours: neighbouring steps of one colour, in the order of work."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from hookside.pattern import Group, Node, Repeat, length, makes


class Stretch(NamedTuple):
    """Neighbouring steps of one colour. `before`: stitches the course has made by then; `loose`: steps since the last
    of those that made none, chains and the like; `stitches`: whether it makes any."""

    colour: str | None
    before: int
    loose: int
    stitches: bool


def first_colour(body: list[Node]) -> str | None:
    return next((stretch.colour for stretch in by_colour(body, 9) if stretch.colour), None)


def ends_in_a_join(body: list[Node]) -> bool:
    last = body[-1] if body else None
    return isinstance(last, Group) and last.stitch == "join"


def by_colour(body: list[Node], most: int) -> Iterator[Stretch]:
    """A body by its colours, `most` of them and one more where there are more. Steps that make nothing and name no
    colour (a ring, a turn, a join) belong to what is in the hand."""
    before = loose = 0
    found = 0
    colour: str | None = ""
    for group, count in _groups(body):
        made = count * group.makes
        neutral = not made and not group.colour
        # A chain in another colour begins it; its stitches go on.
        if not neutral and (colour == "" or group.colour != colour):
            if found > most:
                return
            found += 1
            colour = group.colour
            yield Stretch(colour, before, loose, made > 0)
        before += made
        loose = 0 if made else loose + count * group.steps


def _groups(body: list[Node]) -> Iterator[tuple[Group, int]]:
    """Groups in the order of work with how often in a row; a repeat in one colour all through is gone through once,
    its stitches counted."""
    for node in body:
        if isinstance(node, Group):
            yield node, node.count
            continue
        colours = colours_of(node.body)
        if len(colours) > 1:
            for _ in range(node.times):
                yield from _groups(node.body)
            continue
        made = makes(node.body) * node.times
        if made:
            yield Group(stitch="sc", count=made, colour=next(iter(colours))), made
        if loose := _behind_the_last(node.body):
            yield Group(stitch="ch", count=loose, makes=0), loose


def colours_of(body: list[Node]) -> set[str | None]:
    found: set[str | None] = set()
    for node in body:
        if isinstance(node, Repeat):
            found |= colours_of(node.body)
        elif node.makes or node.colour:
            found.add(node.colour)
    return found


def _behind_the_last(body: list[Node]) -> int:
    """Steps of a body behind its last stitch; all of them where it makes none."""
    loose = 0
    for node in reversed(body):
        if makes([node]):
            return loose + (_behind_the_last(node.body) if isinstance(node, Repeat) else 0)
        loose += length([node])
    return loose
