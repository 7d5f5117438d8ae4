"""Chain spaces: whether they count among the stitches that the next course is worked into.

The rule of spaces (common practice, no source): what the print counts, counts. Where nothing is printed, a space counts
as one stitch when the next course works into it beside the stitches, and by itself when only the spaces are worked
into. A way that the next course cannot be worked on gives place to one on which it can. Where the print counts the
stitches and the next course goes into spaces as well, the course keeps the printed count and the next one finds both.
Where a space came to count and no printed number says so, the maker is told in a note ("spaces-counted").
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from hookside.notation.arithmetic.choosing import Chosen
from hookside.notation.arithmetic.ground import Ground, Reading, fits
from hookside.notation.arithmetic.summing import read_as
from hookside.notation.bodies.wording.places import CHAINS, SPACE, sizes_in
from hookside.notation.courses.ahead import Ahead, on_ground
from hookside.notation.courses.waiting import Parsed, Waiting
from hookside.notation.trees.asked import every
from hookside.notation.trees.nodes import BESIDE, PLACED, Node, Skip, Tree, Work
from hookside.notation.vocabulary import AMOUNT, number_of
from hookside.stitches import Stitch

Own = dict[str, Stitch]
STITCHES, SPACES, BOTH, CHAINED = "", "spaces", "both", "chains"  # what counts, as Ground.mode names it
APART, AS_WELL = "apart", "as well"  # its stitches count; the next course works into its spaces alone, or into both
_BESIDE = 40  # characters behind a printed count in which a second one may stand


def spaces(todo: Waiting, taken: Chosen, ground: Ground, after: Ahead | None, own: Own) -> tuple[Chosen, Ground]:
    """The course with its chain spaces counted by the rule above."""
    taken, ground = _counted(todo, taken, ground, after, own)
    into = after.parsed.phrases.into_spaces if after is not None else ""
    if ground.mode == STITCHES and into in (SPACES, BOTH):
        ground = ground.but(mode=APART if into == SPACES else AS_WELL)
    return taken, ground


def _counted(todo: Waiting, taken: Chosen, ground: Ground, after: Ahead | None, own: Own) -> tuple[Chosen, Ground]:
    assert todo.parsed is not None
    reading = taken.reading
    if todo.parsed.phrases.counted_chains:
        return with_spaces(todo, taken, ground, CHAINED, own)
    only = _of_size(reading, after)
    gaps = sum(reading.sizes[size] for size in only) if only else reading.spaces
    ground = ground.but(only=only)
    holds = {
        STITCHES: reading.stitches,
        SPACES: gaps,
        BOTH: reading.stitches + gaps,
        CHAINED: reading.stitches + reading.chains,
    }
    printed = next((way for way, n in holds.items() if n == ground.declared), STITCHES)
    over = after is not None and after.parsed.phrases.into_spaces in (SPACES, BOTH)  # "12 sc in each ch-9 sp"
    if ground.declared is None and hole(todo.parsed.tree.items) and not over:
        printed = CHAINED
    far = ground.declared is None and todo.parsed.phrases.elsewhere and _one_side(todo.parsed.tree.items)
    if far:
        printed = CHAINED
        taken = replace(taken, why=[*taken.why, "far side of the bridge"])
    if after is None:
        return with_spaces(todo, taken, ground, printed, own)
    order = _order(reading, ground.declared, printed, after)
    if printed == CHAINED and (far or hole(todo.parsed.tree.items)):
        order = [CHAINED, *(way for way in order if way != CHAINED)]  # in the place of stitches, and counted so
    elif printed != STITCHES and ground.declared is not None and _eyelets(_plain(todo.parsed.tree.items)) == 1:
        order = [printed, *(way for way in order if way != printed)]
    for way in order:
        alone = way == STITCHES and after.parsed.phrases.into_spaces == SPACES
        below = Ground(holds[way], 0, False, after.declared, after.parsed.phrases.unworked)
        below.spaces = way in (SPACES, BOTH)
        below.gaps = gaps
        below.sizes, below.kept = reading.sizes, only
        below.chained = reading.chains if way == CHAINED else 0
        below.counts_as = after.parsed.phrases.counts_as
        if on_ground(after.parsed, between(below) if alone else below, own).fits:
            if ground.declared == reading.stitches and way in (SPACES, BOTH) and not _prints(gaps, todo.parsed):
                return taken, ground.but(mode=way, stands=holds[way])
            return with_spaces(todo, taken, ground, way, own)
    return with_spaces(todo, taken, ground, printed if ground.declared is not None else order[0], own)


def _prints(gaps: int, parsed: Parsed) -> bool:
    """ "(10 dc, 2 ch-1 sps)": does the print count the spaces as well?"""
    behind = parsed.phrases.counts[-1][2] if parsed.phrases.counts else len(parsed.body)
    beside = parsed.body[behind : behind + _BESIDE]
    return SPACE.search(beside) is not None and gaps in map(number_of, re.findall(rf"\b{AMOUNT}(?= )", beside))


def _order(reading: Reading, declared: int | None, printed: str, after: Ahead) -> list[str]:
    """The ways to count, the likeliest first: by what the next course works into, and by the print."""
    into = after.parsed.phrases.into_spaces
    works = [n for n in every(after.parsed.tree) if isinstance(n, PLACED) and n.fill]
    if reading.chains == reading.spaces and _one_in_each(after.parsed):
        return [BOTH, STITCHES, CHAINED, SPACES]  # a chain that gets its one stitch is one
    if into == SPACES and declared == reading.stitches:
        return [STITCHES]  # its stitches are printed, and only the spaces between them are worked into
    corners = into == BOTH and not any(n.base == "next" for n in works)
    if corners or any(isinstance(n, Work) and n.base == "space" for n in works):
        # told apart from the stitches: they count beside them, unless the print says which it counts
        return [STITCHES, BOTH, SPACES, CHAINED] if declared is not None else [BOTH, STITCHES, SPACES, CHAINED]
    if not into:
        return [CHAINED, STITCHES, BOTH, SPACES] if printed == CHAINED else [STITCHES, CHAINED, BOTH, SPACES]
    return [into, *(way for way in (STITCHES, SPACES, BOTH, CHAINED) if way != into)]


def between(ground: Ground) -> Ground:
    """A course that works into the spaces alone, on one whose stitches are printed: it goes from space to space."""
    return ground.but(there=ground.gaps, spaces=True)


def said_apart(todo: Waiting, ground: Ground, reading: Reading) -> str:
    """What is to be said of spaces that the next course works into: how they count, where no one number is printed."""
    if ground.mode not in (SPACES, BOTH, APART, AS_WELL) or not reading.spaces or todo.parsed is None:
        return ""
    gaps = sum(reading.sizes[size] for size in ground.only) if ground.only else reading.spaces
    one_number = ground.stands is None and todo.declared == reading.makes and not _prints(gaps, todo.parsed)
    if one_number and (ground.mode == APART or reading.makes != gaps):
        return ""
    if ground.mode in (APART, AS_WELL):
        return f"The next one works into those spaces too, and they are not counted: {reading.makes}."
    if ground.mode == SPACES and ground.stands is None:
        return f"The next one works into those spaces alone, so they are what counts: {reading.makes}."
    found = ground.stands or reading.makes
    return f"The next one works into those spaces, so each of them counts as a stitch to work into: {found} in all."


def _of_size(reading: Reading, after: Ahead | None) -> tuple[int, ...]:
    """ "Sc in each dc and ch-1 sp" above spaces of one and of two chains: those of one; () where all are meant."""
    if after is None or len(reading.sizes) < 2:
        return ()
    works = [n for n in every(after.parsed.tree) if isinstance(n, PLACED)]
    named = {size for n in works if n.fill and n.base == "next" for size in sizes_in(n.noun)}
    told = tuple(sorted(named & set(reading.sizes)))
    return told if len(told) < len(reading.sizes) else ()


def _one_in_each(parsed: Parsed) -> bool:
    """ "Dc in next 3 dc, dc in ch-1 sp": into spaces go single stitches alone, beside those into the stitches."""
    into = [n for n in every(parsed.tree) if isinstance(n, PLACED) and n.base == "space"]
    single = all(isinstance(n, Work) and not n.fill and n.n == n.per == n.places == 1 for n in into)
    return bool(into) and single and parsed.phrases.into_spaces == "both"


def hole(items: list[Node]) -> bool:
    """ "Ch 4, skip next 4 sts" once or twice in a course leaves a hole; the next course goes on over its chains.

    One chain over one stitch does so between stitches, and once: told again and again it is a mesh, and at the start of
    a course a way up."""
    plain = _plain(items)
    if _eyelets(plain) == 1:
        return True
    return any(
        isinstance(chain, Work) and chain.key == "ch" and isinstance(left, Skip) and chain.n > 1 and left.n > 1
        for a, b in pairwise(plain)
        for chain, left in ((a, b), (b, a))
    )


def _plain(items: list[Node]) -> Sequence[Node]:
    return [n for n in items if not isinstance(n, BESIDE)]


def _eyelets(plain: Sequence[Node]) -> int:
    """How often "sc 5, ch 1, skip 1, sc 6" leaves one stitch under one chain, with stitches on both sides of it."""
    return sum(
        isinstance(chain, Work)
        and chain.key == "ch"
        and isinstance(left, Skip)
        and chain.n == left.n == 1
        and all(isinstance(n, Work) and n.key != "ch" for n in (before, after))
        for before, chain, left, after in zip(plain, plain[1:], plain[2:], plain[3:], strict=False)
    )


def _one_side(items: list[Node]) -> bool:
    """Legs joined over a chain that this round works along once: the next round goes along its other side as well."""
    works = [n for n in items if isinstance(n, Work)]
    chains = sum(n.n for n in works if n.key == "ch" and n.n > 1)
    along = sum(n.n for n in works if n.key != "ch" and (n.base == "bridge" or CHAINS.search(n.noun)))
    whole = any(n.fill and n.base == "bridge" for n in works)  # "sc in each ch"
    return chains > 0 and (along == chains or (whole and along == 1))


def open_spaces(course: int | None, tree: Tree, reading: Reading, after: Ahead | None, own: Own) -> int | None:
    """What else a course with a hole in it may hold for the next one, where nothing tells; else None."""
    if after is None or course is None or not hole(tree.items) or after.parsed.phrases.into_spaces:
        return None
    for other in (reading.stitches, reading.stitches + reading.chains):
        if other != course and after.on(other, own).fits and after.on(course, own).fits:
            return other
    return None


def with_spaces(todo: Waiting, taken: Chosen, ground: Ground, mode: str, own: Own) -> tuple[Chosen, Ground]:
    assert todo.parsed is not None
    if not mode:
        return taken, ground
    ground = ground.but(mode=mode)
    again = read_as(todo.parsed.tree, taken.reading.picks, ground, own, taken.counted)
    return replace(taken, reading=again, fits=fits(again, ground)), ground
