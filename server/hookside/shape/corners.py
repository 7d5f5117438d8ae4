"""Corners: increases that stand above one another in columns."""

from __future__ import annotations

from itertools import pairwise

from hookside.pattern import Course, Group, Node, Repeat, in_order

SQUARE = 4
LEAST = 3  # rounds whose increases stand above one another before it is said
MANY = 5_000  # stitches of a round; more are no base, and are not looked into
ASTRAY = 2  # stitches by which two sides of a square may differ: a round that begins in the middle of one
_NAMES = {5: "a pentagon", 6: "a hexagon", 7: "a heptagon", 8: "an octagon"}


def corners(courses: list[Course], oblong: bool) -> tuple[int, list[str]]:
    """Columns of increases, 0 where there are none, and what is said of them. `oblong`: worked about a chain.

    4: a square or a rectangle, each round four times two stitches and more larger than the one before. 5 and more: in
    three rounds or more, one increase each; a disc gets corners there. A hexagon of the same edge measures 5 % more
    from corner to corner than the circle, and 9 % less from side to side (its edge in six: nw/3 and 0.289 nw, the
    circle nw/pi).
    """
    run: list[Course] = []
    columns = 0
    for before, course in pairwise([None, *courses]):
        assert course is not None
        here = _columns(course) or SQUARE * _is_square(before, course, oblong)
        if here and (not run or here == columns):
            run, columns = [*run, course], here
        elif len(run) >= _least(columns):
            break
        else:
            run, columns = ([course], here) if here else ([], 0)
    if len(run) < _least(columns):
        return 0, []
    rounds = f"rounds {run[0].label} to {run[-1].label}"
    if columns == SQUARE:
        return SQUARE, [f"The increases of {rounds} stand in four corners: its base is {_base(oblong)}."]
    named = _NAMES.get(columns, f"{columns} corners")
    told = (
        f"The increases of {rounds} stand above one another in {columns} columns: lying flat they make {named}; "
        "stuffing rounds it."
    )
    return columns, [told]


def _base(oblong: bool) -> str:
    return "a rectangle" if oblong else "a square"


def _least(columns: int) -> int:
    return 2 if columns == SQUARE else LEAST


def _columns(course: Course) -> int:
    """Columns of increases of a round that repeats plain stitches and then one increase; 0 for another."""
    body = [node for node in course.body if not (isinstance(node, Group) and node.makes == 0)]
    if len(body) != 1 or not isinstance(body[0], Repeat) or body[0].times < 5:
        return 0
    inner = body[0].body
    ends = isinstance(inner[-1], Group) and inner[-1].makes > inner[-1].uses > 0 and inner[-1].count == 1
    plain = all(isinstance(node, Group) and node.makes == node.uses for node in inner[:-1])
    return body[0].times if len(inner) > 1 and ends and plain else 0


def _is_square(before: Course | None, course: Course, oblong: bool) -> bool:
    """Whether a round grows in four places alone, opposite sides alike, by two stitches or more in each."""
    if before is None or course.kind != "round" or not 0 < _many(course.body) <= MANY or _many(before.body) > MANY:
        return False
    if _at_most(course.body) - _at_least(before.body) < 2 * SQUARE:
        return False  # as nearly all rounds, and before any is laid out stitch by stitch
    edge = _edge(course)
    places = _places(edge)
    grown = len(_made(edge)) - len(_made(_edge(before)))
    if len(places) != SQUARE or grown < 2 * SQUARE:
        return False
    whole = len(_made(edge))
    sides = [b - a for a, b in pairwise([*places, places[0] + whole])]
    alike = abs(sides[0] - sides[2]) <= ASTRAY and abs(sides[1] - sides[3]) <= ASTRAY
    return alike and (oblong or max(sides) - min(sides) <= ASTRAY)


def _made(edge: list[tuple[int, int]]) -> list[int]:
    """One entry for each stitch, or chain of a corner, of the upper edge."""
    return [uses for uses, makes in edge for _ in range(makes)]


def _places(edge: list[tuple[int, int]]) -> list[float]:
    """Where on the upper edge a round makes more than it uses: the middle of each such place."""
    spans: list[list[int]] = []
    at = last = 0
    for uses, makes in edge:
        more = makes - uses
        if more > 0:
            # Two that widen side by side are one place, but not two corners: those of a narrow end.
            if spans and spans[-1][1] == at and min(more, last) < 2:
                spans[-1][1] = at + makes
            else:
                spans.append([at, at + makes])
        at, last = at + makes, more
    if len(spans) > 1 and spans[0][0] == 0 and spans[-1][1] == at and min(edge[0][1] - edge[0][0], last) < 2:
        spans[-1][1] += spans.pop(0)[1]  # a corner in which the round begins and ends
    return [(a + b) / 2 for a, b in spans]


def _edge(course: Course) -> list[tuple[int, int]]:
    """Stitches of a round in their order, each as what it uses and makes; a chain within it makes one, one that begins
    or joins it none."""
    each = [group for group in in_order(course.body) for _ in range(group.count)]
    while each and not each[0].makes:
        each.pop(0)
    while each and not each[-1].makes and each[-1].stitch != "ch":
        each.pop()
    return [(group.uses, group.makes or (group.stitch == "ch")) for group in each]


def _at_most(body: list[Node]) -> int:
    """Stitches of the edge that a body makes, all its chains counted."""
    return sum(
        node.times * _at_most(node.body)
        if isinstance(node, Repeat)
        else node.count * (node.makes or (node.stitch == "ch"))
        for node in body
    )


def _at_least(body: list[Node]) -> int:
    """The same without its chains."""
    return sum(
        node.times * _at_least(node.body) if isinstance(node, Repeat) else node.count * node.makes for node in body
    )


def _many(body: list[Node]) -> int:
    return sum(node.times * _many(node.body) if isinstance(node, Repeat) else node.count for node in body)
