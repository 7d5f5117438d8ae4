"""Fifth stage: phrases -> tree, by the grammar body.lark."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache, lru_cache
from typing import Any, cast

from lark import Lark, UnexpectedInput
from lark.lexer import Lexer

from hookside.notation.bodies.chunks import Chunk, Phrases
from hookside.notation.bodies.wording.stretches import PLAIN
from hookside.notation.trees.behind import dyed_behind, looped_behind
from hookside.notation.trees.folding import _joined, fold, repeated
from hookside.notation.trees.nodes import (
    GROUPS,
    MOST_NESTED,
    Again,
    Choice,
    CueAt,
    Item,
    Mark,
    Node,
    Rep,
    Skip,
    StarClose,
    StarOpen,
    Tone,
    Tree,
    Work,
    is_lead,
)
from hookside.notation.trees.reach import travelled
from hookside.notation.trees.working import Working
from hookside.notation.vocabulary import REMEMBERED
from hookside.stitches import TABLE, Stitch

Plan = tuple[str, tuple[Any, ...]]  # a rule of the grammar and its parts: other plans, or the places of phrases


_HIGHEST = 4  # chains that a round rises by


class _Hand(Lexer):
    """Hands the phrases on to lark one by one."""

    def __init__(self, lexer_conf: Any) -> None:
        self.conf = lexer_conf

    def lex(self, lexer_state: Any, parser_state: Any = None) -> Iterator[Any]:
        yield from lexer_state.text if hasattr(lexer_state, "text") else lexer_state


def _grammar() -> Lark:
    return Lark.open(
        "body.lark", rel_to=__file__, parser="lalr", lexer=_Hand, propagate_positions=False, maybe_placeholders=False
    )


def _unwrapped(nodes: list[Node]) -> list[Node]:
    """ "(ch 3, dc in same st, 2 dc in each st around, join)": all of a round in a bracket."""
    only = nodes[0] if len(nodes) == 1 else None
    whole = isinstance(only, Rep) and only.times == 1 and not (only.fill or only.nth) and only.uses is None
    if whole and isinstance(only, Rep) and only.base == "next" and not (only.loops or only.colour):
        return only.body
    return nodes


def _closed(nodes: list[Node]) -> list[Node]:
    """ "Ch 1, 2 dc in each of next 5, sl st to first dc": where a chain rises to the round, the slip stitch joins."""
    first, last = (nodes[0], nodes[-1]) if len(nodes) > 2 else (None, None)
    rises = isinstance(first, Work) and first.key == "ch" and first.n <= _HIGHEST
    if not rises or not isinstance(last, Choice) or last.why != "join or stitch":
        return nodes
    return [*nodes[:-1], *last.options[0]]


def _but_for(lone: Work, bracket: Node) -> bool:
    """ "sc (dec twice)": a stitch without an amount, and right behind it a bracket that shapes, worked once."""
    if not (lone.alone and lone.key in PLAIN and isinstance(bracket, Rep) and 0 <= bracket.start - lone.end <= 1):
        return False
    inner = bracket.body[0] if len(bracket.body) == 1 and bracket.times == 1 and not bracket.fill else None
    if not isinstance(inner, Work) or inner.fill or inner.key not in TABLE:
        return False
    return inner.per > 1 or TABLE[inner.key].makes != TABLE[inner.key].uses


class Builder:
    """Tree callbacks, one for each rule. Each returns a list of items, joined and folded by its parent."""

    def __init__(self, own: dict[str, Stitch]) -> None:
        self.working = Working(own)

    def built(self, plan: Plan, chunks: list[Chunk]) -> Any:
        """A plan filled with the phrases it was made for."""
        rule, parts = plan
        children = [chunks[p] if isinstance(p, int) else self.built(p, chunks) for p in parts]
        return getattr(self, rule)(children)

    def start(self, children: list[Any]) -> list[Node]:
        nodes = _closed(looped_behind(dyed_behind(travelled(_unwrapped(fold(_joined(children)))))))
        worked = [n for n in nodes if not is_lead(n) and not isinstance(n, Mark)]
        if len(worked) == 1 and isinstance(worked[0], Work) and worked[0].alone:
            worked[0].fill = True  # "Rnd 4: sc" is sc all the way round
        elif len(worked) == 2 and isinstance(worked[0], Work) and _but_for(worked[0], worked[1]):
            at = nodes.index(worked[0])  # ... and so is "sc (inc in the last st)", but for one of its stitches
            around = replace(worked[0], fill=True)
            bracket = cast(Rep, worked[1])
            inner = cast(Work, bracket.body[0])
            behind: list[Node] = [inner, around] if inner.first else [around, bracket]
            nodes[at : nodes.index(bracket) + 1] = [Choice([[*worked], behind], "alone or all around")]
        return nodes

    def pending(self, _: list[Any]) -> list[Item]:
        return [StarOpen()]

    def starred(self, children: list[Chunk]) -> list[Item]:
        return [StarClose(children[1:])]

    def repfrom(self, children: list[Chunk]) -> list[Item]:
        return [Again(children[0].value, True)]

    def repall(self, children: list[Chunk]) -> list[Item]:
        return [Again(children[0].value, False)]

    def cue(self, children: list[Chunk]) -> list[Item]:
        return [CueAt(children[0].value)]

    def mark(self, children: list[Chunk]) -> list[Item]:
        name, how = children[0].value
        if how == "either":
            return [
                Choice([[Mark(name)], [Work("sl st", start=children[0].start, end=children[0].end)]], "join or stitch")
            ]
        return [Mark(name, how)]

    def skip(self, children: list[Chunk]) -> list[Item]:
        n, _, behind, *gaps = children[0].value
        return [Skip(n, behind, gaps[0] if gaps else 0)]

    def loops(self, children: list[Chunk]) -> list[Item]:
        return [Tone(loops=children[0].value, sets_loops=True)]

    def colour(self, children: list[Chunk]) -> list[Item]:
        return [Tone(colour=children[0].value)]

    def bracket(self, children: list[Any]) -> list[Item]:
        modifiers = [c for c in children if isinstance(c, Chunk) and c.type not in ("OPEN", "CLOSE", "SEP")]
        body = fold(_joined([c for c in children if not isinstance(c, Chunk) or c.type == "SEP"]))
        chunks = [c for c in children if isinstance(c, Chunk)]
        return repeated(body, modifiers, chunks[0].start, chunks[-1].end, bracket=True)

    def bracket_in(self, children: list[Any]) -> list[Item]:
        place = children[0]
        rest = children[1:]
        modifiers = [c for c in rest if isinstance(c, Chunk) and c.type not in ("OPEN", "CLOSE", "SEP")]
        body = fold(_joined([c for c in rest if not isinstance(c, Chunk) or c.type == "SEP"]))
        return repeated(
            body,
            [Chunk("PLACE", place.value, place.start, place.end), *modifiers],
            place.start,
            rest[-1].end,
            bracket=True,
        )

    def work_loops(self, children: list[Chunk]) -> list[Item]:
        nb, loops, stitch, *modifiers = children
        return self.working.worked(
            nb, stitch, [*modifiers, Chunk("LOOPSPOST", loops.value, loops.start, loops.end)], after=False
        )

    def work(self, children: list[Chunk]) -> list[Item]:
        amount: Chunk | None = None
        stitch: Chunk | None = None
        modifiers: list[Chunk] = []
        after = False
        for chunk in children:
            if chunk.type in ("NB", "NA", "BARE"):
                amount = chunk
                after = chunk.type == "NA"
            elif chunk.type == "ST":
                stitch = chunk
            elif chunk.type == "PLACEPRE":
                modifiers.insert(0, Chunk("PLACE", chunk.value, chunk.start, chunk.end))
            else:
                modifiers.append(chunk)
        worked = self.working.worked(amount, stitch, modifiers, after)
        for node in worked if children[0].type == "PLACEPRE" else []:
            if isinstance(node, Work):
                node.led = True
        return worked


_parser = cache(_grammar)


_SHORT = 64  # phrases of a body whose plan is kept


def _planned_for(kinds: tuple[str, ...]) -> Plan | None:
    """How the grammar takes phrases of these kinds, whatever they say; None where it takes them in no way."""
    try:
        parsed = _parser().parse(cast(Any, [Chunk(kind, None, at, at) for at, kind in enumerate(kinds)]))
    except UnexpectedInput:
        return None
    return _planned(parsed)


_known_plan = lru_cache(REMEMBERED)(_planned_for)


def _planned(parsed: Any) -> Plan:
    return str(parsed.data), tuple(p.start if isinstance(p, Chunk) else _planned(p) for p in parsed.children)


def _number(nodes: list[Node], into: list[Choice], depth: int = 0) -> int:
    """Gives every Choice its index; returns the depth of nesting."""
    deepest = depth
    for node in nodes:
        if isinstance(node, Choice):
            if node.index < 0:
                node.index = len(into)
                into.append(node)
            for option in node.options:
                deepest = max(deepest, _number(option, into, depth))
        elif isinstance(node, GROUPS):
            deepest = max(deepest, _number(node.body, into, depth + 1))
    return deepest


def build(phrases: Phrases, own: dict[str, Stitch]) -> Tree:
    """The tree of a body; `failed` says why there is none."""
    depth = 0
    for chunk in phrases.chunks:
        depth += (chunk.type == "OPEN") - (chunk.type == "CLOSE")
        if depth > MOST_NESTED:
            return Tree(failed="nesting")
    kinds = tuple([chunk.type for chunk in phrases.chunks])
    plan = _known_plan(kinds) if len(kinds) <= _SHORT else _planned_for(kinds)
    if plan is None:
        return Tree(failed="order")
    items = Builder(own).built(plan, phrases.chunks)
    tree = Tree(items)
    if _number(items, tree.choices) > MOST_NESTED:
        return Tree(failed="nesting")
    return tree
