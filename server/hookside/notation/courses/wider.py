"""Wider meanings of a list with a multiplier or a reach of its own, tried where nothing else comes out."""

from __future__ import annotations

import re
from dataclasses import replace

from hookside.notation.arithmetic.choosing import Chosen, choose
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.courses.waiting import Parsed
from hookside.notation.trees.nodes import Choice, Node, Rep, Tree, Work, is_lead
from hookside.stitches import TABLE, Stitch

Own = dict[str, Stitch]
_BRACKETED = re.compile(r"[(\[] ?(?:x ?\d{1,3}|\d{1,3} ?x|\d{1,3} times) ?[)\]]", re.I)
_SHAPES_ONE = re.compile(r"(?:inc|dec)[a-z]*\.? (?:1|one)", re.I)
_IN_ONE = (1, 2, 3)
_FEWEST_LISTED = 2  # numbers of such a list
_FIRST = re.compile(r"\W*(?:\d{1,3}|[a-z]{3,6}) ?(?:x|times)\s*:", re.I)


def wider(parsed: Parsed, ground: Ground, own: Own) -> Chosen | None:
    """The first of these that fits; None where none does."""
    for way, why in ((_all_before(parsed), "what is multiplied"), (_to_the_semicolon(parsed), "semicolon ends it"),
                     (_over(parsed), "taken over"), (_with_it(parsed), "multiplied with it"),
                     (_of_its_own(parsed), "shapes that stitch"),
                     (_into_one(parsed, ground), "each into one")):  # fmt: skip
        chosen = choose(Tree(way, parsed.tree.choices), ground, own) if way else None
        if chosen is not None and chosen.fits:
            chosen.why.append(why)
            return chosen
    return None


def _all_before(parsed: Parsed) -> list[Node]:
    """ "1 sc, inc (x3), 6 sc" on 12: the multiplier in its bracket is that of the list before it."""
    told = _BRACKETED.search(parsed.body) if parsed.body else None
    items = parsed.tree.items
    for at, node in enumerate(items if told is not None else []):
        if not isinstance(node, Work) or (node.times or 1) < 2 or node.number is None or told is None:
            continue
        lead = next((i for i, n in enumerate(items) if not is_lead(n)), at)
        before = [n for n in items[lead:at] if isinstance(n, Work) and not (n.fill or n.times or n.key == "ch")]
        if told.start() <= node.number[0] < told.end() and before and len(before) == at - lead:
            one = replace(node, n=max(1, node.n // (node.times or 1)), times=None, number=None)
            return [*items[:lead], Rep([*before, one], times=node.times or 1, number=node.number), *items[at + 1 :]]
    return []


def _to_the_semicolon(parsed: Parsed) -> list[Node]:
    """ "5 times: sc, inc; sc 2" on 12: what is told first goes as far as the semicolon."""
    stop = parsed.body.find(";")
    items = parsed.tree.items
    at = next((i for i, n in enumerate(items) if isinstance(n, Rep)), None)
    if stop < 0 or at is None or not _FIRST.match(parsed.body):
        return []
    rep = items[at]
    works = rep.body if isinstance(rep, Rep) else []
    within = [n for n in works if isinstance(n, Work) and n.end <= stop]
    behind = [n for n in works if isinstance(n, Work) and n.start > stop]
    if not within or not behind or len(within) + len(behind) != len(works) or not isinstance(rep, Rep):
        return []
    return [*items[:at], replace(rep, body=list(within)), *behind, *items[at + 1 :]]


def _over(parsed: Parsed) -> list[Node]:
    """ "Dec over 4, sc over 10" on 14: the four are the stitches it goes over, two for each decrease."""
    items: list[Node] = []
    found = False
    for node in parsed.tree.items:
        each = TABLE[node.key].uses if isinstance(node, Work) and node.key in TABLE else 0
        if isinstance(node, Work) and each > 1 and node.n > 1 and node.n % each == 0:
            over = " over " in parsed.body[node.start : node.end].lower()
            node, found = replace(node, n=node.n // each) if over else node, found or over
        items.append(node)
    return items if found else []


def _with_it(parsed: Parsed) -> list[Node]:
    """ "1 sc, inc, then 2 sc, inc x5, 1 sc" on 18: the stitch right before the only multiplier goes with it."""
    items: list[Node] = []
    for node in parsed.tree.items:
        listed = isinstance(node, Choice) and node.why == "what is multiplied"
        items += node.options[0] if listed and isinstance(node, Choice) else [node]
    many = [i for i, n in enumerate(items) if isinstance(n, Work) and (n.times or 1) > 1]
    at = many[0] if len(many) == 1 else 0
    before, last = items[at - 1 : at + 1] if at else [None, None]
    if not (isinstance(before, Work) and isinstance(last, Work)) or before.key == "ch" or before.fill or last.fill:
        return []
    one = replace(last, n=max(1, last.n // (last.times or 1)), times=None, number=None)
    return [*items[: at - 1], Rep([before, one], times=last.times or 1, number=last.number), *items[at + 1 :]]


def _into_one(parsed: Parsed, ground: Ground) -> list[Node]:
    """ "2, 1, 2, 1 = 6" on 4, "1, 1, 2 (24)" on 18: each number goes into one stitch, once or again and again, where it
    comes to what is printed."""
    works = [n for n in parsed.tree.items if isinstance(n, Work) and n.bare and n.n in _IN_ONE and not n.fill]
    there = ground.there
    if len(works) < _FEWEST_LISTED or len(works) != len(parsed.tree.items) or not there or there % len(works):
        return []
    often = there // len(works)
    if ground.declared != often * sum(n.n for n in works):
        return []
    each: list[Node] = [replace(n, n=1, per=n.n, number=None) for n in works]
    return each if often == 1 else [Rep(each, times=often)]


def _of_its_own(parsed: Parsed) -> list[Node]:
    """ "sc in next 2 sc, decrease 1 sc" on 28: one stitch fewer, and no decrease with a stitch behind it."""
    if _SHAPES_ONE.search(parsed.body) is None:
        return []
    items = _without_named(parsed.tree.items, parsed.body)
    return items if items != parsed.tree.items else []


def _without_named(nodes: list[Node], body: str) -> list[Node]:
    kept: list[Node] = []
    for node in nodes:
        if isinstance(node, Rep):
            within = _without_named(node.body, body)
            node = replace(node, body=within) if len(within) != len(node.body) else node
        before = kept[-1] if kept else None
        if not (isinstance(node, Work) and isinstance(before, Work) and _names(before, node, body)):
            kept.append(node)
    return kept


def _names(before: Work, node: Work, body: str) -> bool:
    """Is a stitch alone what the shaping before it is made of?"""
    lone = node.alone and node.number is None and not node.placed
    return lone and _SHAPES_ONE.fullmatch(body, before.start, node.start - 1) is not None
