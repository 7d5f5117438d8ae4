"""The word "same" behind a round that shapes: the same work again, or as many stitches as there are now?"""

from __future__ import annotations

from dataclasses import replace

from hookside.notation.courses.ahead import Ahead, next_course
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.waiting import Parsed, Waiting
from hookside.notation.lines.layout import RawText
from hookside.notation.trees.asked import every, walk
from hookside.notation.trees.copying import copy_of
from hookside.notation.trees.nodes import MOST_STITCHES, Rep, Tree, Work
from hookside.stitches import TABLE, Stitch

Own = dict[str, Stitch]
_PLAIN = ("sc", "hdc", "dc", "tr")
_MANY = 120  # stitches, upon which any list has room
_FAR = 24  # courses of the same, behind which nothing is looked for


def plain_like(sheet: Sheet, source: Parsed) -> Parsed | None:
    """A plain round of the stitch of `source`, where that one shapes, so that "same" can mean either; else None."""
    return plain_of(sheet, source) if any(_shapes(n) for n in _works(source)) else None


def plain_of(sheet: Sheet, source: Parsed) -> Parsed:
    """A plain round of the stitch that `source` begins with."""
    first = next((w.key for w in _works(source) if TABLE[w.key].of or w.key in _PLAIN), "sc")
    plain = sheet.parse("sc in each st around" if sheet.terms == "US" else "dc in each st around")
    of = TABLE[first].of or first
    if of == "sc" or of not in TABLE:
        return plain
    tree = copy_of(plain.tree)
    for node in every(tree):
        if isinstance(node, Work):
            node.key = of
    return Parsed(plain.phrases, tree, plain.body)


def with_the_rest(cycle: list[Parsed], room: int) -> list[Parsed]:
    """Rounds that are worked in turn again and again: where one shapes, "10 sc" of another is one in each.

    `room`: for so many courses; of those beyond it is only asked whether they shape.
    """
    if not any(_shaping(parsed) for parsed in cycle):
        return cycle
    told = [(parsed, _works(parsed)) for parsed in cycle[:room]]
    return [_in_each(p) if len(works) == 1 and _amount(works[0]) else p for p, works in told] + cycle[room:]


def widens(parsed: Parsed, own: Own) -> int:
    """How many stitches more a course makes than it uses; fewer where that is below nought."""
    reading = Ahead(parsed, None).on(_MANY, own).reading
    return reading.makes - reading.uses


def _works(parsed: Parsed) -> list[Work]:
    return [n for n in every(parsed.tree) if isinstance(n, Work) and n.key in TABLE and n.key != "ch"]


def _shaping(parsed: Parsed) -> bool:
    """Does any stitch of a body shape? Remembered, as each of a thousand references may ask it of all before it."""
    if parsed.shapes is None:
        parsed.shapes = any(_shapes(work) for work in _works(parsed))
    return parsed.shapes


def _amount(work: Work) -> bool:
    plain = not _shapes(work) and work.per == 1 and work.base == "next"
    return plain and work.n > 1 and not (work.fill or work.placed or work.evenly or work.result or work.last)


def _in_each(parsed: Parsed) -> Parsed:
    tree = copy_of(parsed.tree)
    tree.items = [
        replace(n, n=1, fill=True, bare=False) if isinstance(n, Work) and n.key != "ch" else n for n in tree.items
    ]
    return Parsed(parsed.phrases, tree, parsed.body)


def _shapes(work: Work) -> bool:
    entry = TABLE[work.key]
    return bool(entry.uses) and work.per * entry.makes != entry.uses


def _all_round(tree: Tree) -> bool:
    """ "Inc around", "(sc, inc) to the end": shaping as often as there is room, so that the count is multiplied."""
    filled = [n for n in tree.items if isinstance(n, (Rep, Work)) and n.fill]
    return any(isinstance(w, Work) and w.key in TABLE and _shapes(w) for w in walk([*filled]))


def settle_same(todo: Waiting, there: int | None, queue: list[Waiting | RawText], index: int, own: Own) -> str:
    """Settles what "same" means for all the courses of it; its meaning, where something tells that they are plain."""
    if todo.plain is None or not todo.first_of:
        return ""
    plain, told = _stays(todo, there, queue, index, own)
    todo.same = "" if told else "plain" if plain else "again"
    while plain and index < len(queue) and isinstance(item := queue[index], Waiting) and item.raw is todo.raw:
        item.parsed, item.source = item.plain, ""
        index += 1
    return "same and plain" if told and plain else ""


def _stays(todo: Waiting, there: int | None, queue: list[Waiting | RawText], index: int, own: Own) -> tuple[bool, bool]:
    """(are the courses of one "same" plain ones?, does anything tell?); `todo`, at `index`, is the first of them."""
    assert todo.parsed is not None
    if there is None:
        return False, False
    last = index
    ways: list[int | None] = [there, there]  # stitches after each course: plain, and shaped again
    while last < min(len(queue), index + _FAR) and isinstance(item := queue[last], Waiting):
        if item.raw is not todo.raw and item.parsed is not todo.parsed:
            break
        shaped = [Ahead(todo.parsed, None).on(n, own) if n is not None else None for n in ways]
        fits = [taken is not None and taken.fits and taken.reading.makes <= MOST_STITCHES for taken in shaped]
        made = [taken.reading.makes if taken and ok else None for taken, ok in zip(shaped, fits, strict=True)]
        ways = [ways[0] if item.plain is not None else made[0], made[1]]
        if item.declared is not None and item.declared in ways and ways[0] != ways[1]:
            return item.declared == ways[0], True
        last += 1
    plain, again = ways
    if plain is None or again is None:
        return again is None, True
    after = next_course(queue, last - 1)
    if after is not None:
        plain_fits, again_fits = after.on(plain, own).fits, after.on(again, own).fits
        if plain_fits != again_fits:
            return plain_fits, True
    return again > there and _all_round(todo.parsed.tree), False
