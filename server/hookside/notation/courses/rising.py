"""A chain at the end of a row that the next row rises by: "..., ch 3, turn. / Skip first st, dc in each st".

Many leaflets tell it so (common practice, no source). It is worked as the first step of the row above it, where it can
stand for that row's first stitch: it is moved there, if that row passes its first stitch, or if the text says that such
chains count. Elsewhere it stays where it is told, and adds nothing.

A longer one widens the work: "..., ch 8, turn. / Sc in 2nd ch from hook and next 6 ch, sc in each sc across." It goes
with the course that is worked back along it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from hookside.notation.courses.waiting import Parsed, Waiting
from hookside.notation.lines.layout import RawText
from hookside.notation.trees.nodes import BESIDE, PLACED, SILENT, Choice, Mark, Node, Skip, Work

_HEIGHTS = range(2, 6)  # chains that may stand for a stitch; one alone only lifts the row
# "Rep rows 2 and 3 once more, ending with ch 3, turn": the end of the last of them
_ENDS_WITH = re.compile(r"\b(?:end|finish)(?:ing)? with (?:a )?ch(?:ain)? ?(?P<n>\d),? (?:and )?turn\b", re.I)


def rise(queue: Sequence[Waiting | RawText], turning: Mapping[int, bool]) -> None:
    """Moves such chains. `turning`: what the text says of chains by their height, 0 for any."""
    courses = [t for t in queue if isinstance(t, Waiting)]
    made: dict[tuple[int, int, int], tuple[Parsed, Parsed]] = {}  # rows that share a body go on sharing it
    told = [_at_end(todo) if todo.kind == "row" else None for todo in courses]
    takes = [a is not None and _takes(b.parsed, a, turning) for a, b in zip(told, courses[1:], strict=False)]
    for index, (todo, above) in enumerate(pairwise(courses)):
        hung = None if takes[index] or above.foundation else _hung_on(todo.parsed, above.parsed)
        if hung is not None:
            told[index], takes[index] = hung, True
    if not any(takes):
        return
    before: Work | None = None
    for todo, chain, taken in zip(courses, told, [*takes, False], strict=True):
        goes = chain if taken else None
        if todo.parsed is not None and (before is not None or goes is not None):
            key = id(todo.parsed), before.n if before is not None else 0, goes.n if goes is not None else 0
            if key not in made:
                made[key] = todo.parsed, _with(todo.parsed, before, goes)  # the first keeps its id its own
            todo.parsed = made[key][1]
        before = goes


def _at_end(todo: Waiting) -> Work | None:
    """The chain of "..., ch 3, turn" or "..., turn, ch 3"; None for any other end."""
    parsed = todo.parsed
    if parsed is None or parsed.tree.failed:
        return None
    told = _ENDS_WITH.search(todo.text) if todo.borrowed and todo.last_of else None
    if told is not None:
        return Work("ch", n=int(told["n"])) if int(told["n"]) in _HEIGHTS else None
    ends = [n for n in parsed.tree.items if not isinstance(n, BESIDE)][-2:]
    chains = [n for n in ends if isinstance(n, Work) and n.key == "ch" and n.n in _HEIGHTS]
    turns = any(isinstance(n, Mark) and n.name == "turn" for n in ends)
    return chains[0] if len(chains) == 1 and turns and len(parsed.tree.items) > 2 else None


def _hung_on(parsed: Parsed | None, above: Parsed | None) -> Work | None:
    """The chain at the end of a course that the next one is worked back along."""
    if parsed is None or parsed.tree.failed or above is None or above.tree.failed:
        return None
    ends = [n for n in parsed.tree.items if not isinstance(n, BESIDE)]
    while ends and isinstance(ends[-1], Mark) and ends[-1].name == "turn":
        ends.pop()
    chain = ends[-1] if len(ends) > 1 else None
    if not isinstance(chain, Work) or chain.key != "ch" or chain.n < 2 or chain.fill:
        return None
    first = next((n for n in above.tree.items if not isinstance(n, SILENT)), None)
    while isinstance(first, Choice):
        first = next((n for n in first.options[0] if not isinstance(n, SILENT)), None)
    back = isinstance(first, PLACED) and first.base == "hook" and 2 <= first.hook <= chain.n
    return chain if back else None


def _takes(parsed: Parsed | None, chain: Work, turning: Mapping[int, bool]) -> bool:
    """Does a row begin as one that stands on the chain below: it passes its first stitch, or the text says so?"""
    if parsed is None or parsed.tree.failed:
        return False
    first = next((n for n in parsed.tree.items if not isinstance(n, SILENT)), None)
    if first is None or (isinstance(first, Work) and first.key == "ch"):
        return False
    counts = turning.get(chain.n, turning.get(0))
    return counts is True or (counts is None and isinstance(first, Skip) and first.n == 1)


def _with(parsed: Parsed, before: Work | None, goes: Work | None) -> Parsed:
    items: list[Node] = [n for n in parsed.tree.items if goes is None or n is not goes]
    if before is not None:
        items = [replace(before, start=0, end=0, number=None), *items]
    return replace(parsed, tree=replace(parsed.tree, items=items), on={})
