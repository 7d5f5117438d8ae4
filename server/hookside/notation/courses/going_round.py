"""Wider meanings of a course that goes all the way round, tried where only so its numbers come out."""

from __future__ import annotations

import re
from dataclasses import replace

from hookside.notation.arithmetic.choosing import Chosen, choose
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.courses.waiting import Parsed
from hookside.notation.trees.nodes import MOST_REPEATS, SILENT, Choice, CueAt, Mark, Node, Rep, Tree, Work
from hookside.stitches import TABLE, Stitch

Own = dict[str, Stitch]


_LAST_NUMBER = re.compile(r"(?<=[\w)\]}*])[ ,]+(?P<n>\d{1,3})(?: ?(?:sts?|stitches))?\s*\.?\s*$")


def last_number(body: str) -> tuple[str, int, int] | None:
    """ "sc in 2, 2 sc in next 24" -> what stands before the 24, and where that number is; None where none ends it."""
    match = _LAST_NUMBER.search(body, max(0, len(body) - 20))
    return (body[: match.start()], *match.span("n")) if match is not None else None


def counted_bare(parsed: Parsed, n: int, ground: Ground, own: Own) -> Chosen | None:
    """A body without the bare number `n` that ends it, where it is the count: "2 sc in each 12", "(sc, inc) 18"."""
    if ground.there is None or parsed.tree.failed or parsed.phrases.unknown:
        return None
    counted = ground.but(declared=n)
    chosen = choose(parsed.tree, counted, own)
    if not chosen.fits:
        chosen = goes_round(parsed, counted, own) or plain_between(parsed, counted, own) or chosen
    if not chosen.fits:
        return None
    chosen.why.append("number counts the course")
    return chosen


def goes_round(parsed: Parsed, ground: Ground, own: Own) -> Chosen | None:
    """ "2 sc, inc. 24 sts" on 18: the list again and again, where only so the printed count comes out."""
    items = parsed.tree.items
    lead = 0
    while lead < len(items) and isinstance(items[lead], SILENT):
        lead += 1
    tail = len(items)
    while tail > lead and isinstance(items[tail - 1], (Mark, CueAt)):
        tail -= 1
    body = items[lead:tail]
    only = body[0] if len(body) == 1 else None
    if isinstance(only, Choice) and only.why == "missing multiplier" and isinstance(once := only.options[0][0], Rep):
        body = once.body  # "(sc, inc) [6]"
    if isinstance(only, Choice) and only.why == "one stitch or two":
        body = only.options[1]  # "sc sc inc - 24": two names behind each other
    if ground.declared is None or ground.there is None or len(body) < 2:
        return None
    if not all(isinstance(n, Work) and not n.fill and n.key != "ch" and n.base == "next" for n in body):
        return None
    tree = Tree([*items[:lead], Rep(body, fill=True), *items[tail:]], parsed.tree.choices)
    chosen = choose(tree, ground, own)
    if chosen.fits:
        chosen.why.append("list goes round")
        return chosen
    tree.items[lead] = Rep(body, times=ground.declared)  # "2 sc, inc [6]" on 18
    often = choose(tree, ground.but(declared=None), own) if 1 < ground.declared < MOST_REPEATS else chosen
    if not often.fits or often.reading.uses == often.reading.makes:
        return None
    ground.declared = None
    often.why.append("number tells how often")
    return often


def terse(parsed: Parsed, ground: Ground, own: Own) -> Chosen | None:
    """ "3. sc 1, inc" on 12 and nothing more: the list again and again, where it goes into what is there."""
    items = [n for n in parsed.tree.items if not isinstance(n, SILENT)]
    works = [n for n in items if isinstance(n, Work) and not n.fill and n.base == "next" and not n.times]
    if len(works) < 2 or len(works) != len(items) or parsed.tree.choices or not ground.there:
        return None
    if not any(n.key in _SHAPES for n in works) or not any(n.key not in _SHAPES for n in works):
        return None
    lead = next(at for at, n in enumerate(parsed.tree.items) if n is works[0])
    tail = next(at for at, n in enumerate(parsed.tree.items) if n is works[-1])
    again = Rep(list(parsed.tree.items[lead : tail + 1]), fill=True)
    chosen = choose(Tree([*parsed.tree.items[:lead], again, *parsed.tree.items[tail + 1 :]]), ground, own)
    if not chosen.fits or chosen.reading.uneven:
        return None
    chosen.why.append("terse list")
    return chosen


_SHAPES = frozenset(["inc", "dec", "inv dec"])


def plain_between(parsed: Parsed, ground: Ground, own: Own) -> Chosen | None:
    """ "1 inc = 18" on 12, "2 dec 18" on 24: so many plain stitches and then one of these.

    "2 inc x6 24" on 18 is that as well, where the printed 24 is six more: then the 6 tells how often. Without a printed
    count only so many times that all stitches there are used.
    """
    items = [n for n in parsed.tree.items if not isinstance(n, SILENT)]
    if ground.there is None or len(items) != 1:
        return None
    only: Node = items[0]
    told = None
    if isinstance(only, Choice) and only.why == "missing multiplier":
        only = only.options[1][0]  # "(3 inc) 30" on 24
    if isinstance(only, Rep) and not only.last and len(only.body) == 1:
        told = None if only.fill else only.times  # "1 inc rep", "(2 inc) x 6"
        only = only.body[0]
    if not isinstance(only, Work) or only.key not in ("inc", "dec", "inv dec") or only.number is None:
        return None
    if only.fill or only.per > 1 or only.base != "next":
        return None
    before = only.n
    if only.times is not None:
        told, before = only.times, only.n // only.times
        if ground.declared is None and parsed.body[slice(*only.number)] != str(before):
            return None  # "inc x 6" on 12: the only number tells how often
    times = abs(ground.declared - ground.there) if ground.declared is not None else told or 0
    if times < 2 or told not in (None, times) or ground.there != times * (before + TABLE[only.key].uses):
        return None
    plain = Work(TABLE[only.key].of or "sc", n=before, start=only.start, end=only.end)
    between = Rep([plain, replace(only, n=1, number=None, times=None)], fill=True)
    at = next(i for i, n in enumerate(parsed.tree.items) if n is items[0])
    tree = Tree([*parsed.tree.items[:at], between, *parsed.tree.items[at + 1 :]], parsed.tree.choices)
    chosen = choose(tree, ground, own)
    if not chosen.fits:
        return None
    chosen.why.append("plain between")
    return chosen


_CIRCLE = re.compile(r"(?<!magic )(?<!adjustable )(?<!sliding )(?<!yarn )(?<!thread )\bcircle\b", re.I)


def in_circle(parsed: Parsed, ground: Ground, own: Own) -> Chosen | None:
    """ "12 sc in a circle" on 12: all the way round, where a course is there already to go round on."""
    if ground.there is None or ground.first or ground.chain or not _CIRCLE.search(parsed.body):
        return None

    def around(nodes: list[Node]) -> list[Node]:
        out: list[Node] = []
        for node in nodes:
            if isinstance(node, Work) and node.base == "ring":
                node = replace(node, base="next", fill=node.n == 1)
            elif isinstance(node, Rep) and node.base == "ring":
                node = replace(node, base="next", fill=node.times == 1)
            elif isinstance(node, Choice):
                node = replace(node, options=[around(way) for way in node.options])
            out.append(node)
        return out

    chosen = choose(Tree(around(parsed.tree.items), parsed.tree.choices), ground, own)
    if not chosen.fits:
        return None
    chosen.why.append("circle goes round")
    return chosen
