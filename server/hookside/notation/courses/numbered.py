"""Courses that are printed out of their order: lists by turns, a line out of its place."""

from __future__ import annotations

from itertools import pairwise

from hookside.notation.courses.waiting import Waiting
from hookside.notation.lines.layout import RawText
from hookside.notation.trees.nodes import Mark, Tone, Work

Items = list[Waiting | RawText]


def in_order(items: Items) -> Items:
    """ "Rnds 3 and 5: ..." then "Rnd 4: ...": in the order of their numbers, where each is there once."""
    courses = [t for t in items if isinstance(t, Waiting)]
    labels = [t.label for t in courses]
    if any(t.foundation for t in courses[1:]) or len(set(labels)) != len(labels):
        return items
    return _sorted(items, courses) if _by_turns(courses) or slipped(items) is not None else items


def _by_turns(courses: list[Waiting]) -> bool:
    """Does a label list numbers that do not follow each other?"""
    lists = {id(t.raw): t.raw.label.numbers for t in courses if t.raw.label is not None}
    return any(b - a > 1 for numbers in lists.values() for a, b in pairwise(numbers))


def slipped(items: Items) -> Waiting | None:
    """ "R9 (24), R11 (30), R10 (30), R12": a line out of its place, where the counts fit by the numbers and not so."""
    courses = [t for t in items if isinstance(t, Waiting)]
    back = [n for n, (a, b) in enumerate(pairwise(courses)) if b.label < a.label]
    if len(back) != 1 or courses[back[0]].label != courses[back[0] + 1].label + 1:
        return None
    by_number = sorted(courses, key=lambda t: t.label)
    return courses[back[0] + 1] if _fits(by_number) and not _fits(courses) else None


def _fits(courses: list[Waiting]) -> bool:
    """Is each plain course printed with the count of the one before it?"""
    counts = [(_printed(t), _plain(t)) for t in courses]
    return all(not plain or None in (a, b) or a == b for (a, _), (b, plain) in pairwise(counts))


def _printed(todo: Waiting) -> int | None:
    counts = todo.parsed.phrases.counts if todo.parsed is not None else []
    return counts[-1][0] if counts else None


def _plain(todo: Waiting) -> bool:
    nodes = [n for n in todo.parsed.tree.items if not isinstance(n, (Tone, Mark))] if todo.parsed is not None else []
    only = nodes[0] if len(nodes) == 1 else None
    return isinstance(only, Work) and only.fill and only.per == 1 and not only.last


def _sorted(items: Items, courses: list[Waiting]) -> Items:
    """The courses by their numbers; sentences stand behind the highest that is printed before them."""
    after: dict[int, list[RawText]] = {}
    out: Items = []
    highest: int | None = None
    for item in items:
        if isinstance(item, Waiting):
            highest = item.label if highest is None else max(highest, item.label)
        elif highest is None:
            out.append(item)
        else:
            after.setdefault(highest, []).append(item)
    for todo in sorted(courses, key=lambda t: t.label):
        out.append(todo)
        out.extend(after.get(todo.label, []))
    return out
