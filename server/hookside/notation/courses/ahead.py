"""What the next course needs of this one: which of two meanings, and whether its chain spaces count."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import islice, pairwise, product

from hookside.notation.arithmetic.choosing import MOST_READINGS, Chosen, choose
from hookside.notation.arithmetic.ground import Ground, Reading, fits
from hookside.notation.arithmetic.summing import joined_chain, read_as
from hookside.notation.bodies.wording.places import CHAINS
from hookside.notation.courses.waiting import Parsed, Waiting, stretches, walk
from hookside.notation.lines.layout import RawText
from hookside.notation.trees.nodes import CueAt, Mark, Node, One, Skip, Tone, Tree, Work
from hookside.stitches import Stitch

Own = dict[str, Stitch]
_FAR = 20  # items behind a course among which the next one is looked for


@dataclass(frozen=True, slots=True)
class Ahead:
    """The next course, as far as its own words go."""

    parsed: Parsed
    declared: int | None

    def on(self, makes: int, own: Own) -> Chosen:
        """Its reading on a course of so many stitches; worked out once."""
        known = self.parsed.on.get((makes, self.declared))
        if known is None:
            known = choose(self.parsed.tree, Ground(makes, 0, False, self.declared), own)
            self.parsed.on[makes, self.declared] = known
        return known


def next_course(queue: list[Waiting | RawText], index: int) -> Ahead | None:
    """The course behind the item at `index`; None where there is none or its words are not understood."""
    after = next((t for t in islice(queue, index + 1, index + _FAR) if isinstance(t, Waiting)), None)
    if after is None or after.parsed is None or after.parsed.tree.failed or after.parsed.phrases.unknown:
        return None
    return Ahead(after.parsed, after.declared)


def turns_short(
    parsed: Parsed, ground: Ground, queue: list[Waiting | RawText], index: int, own: Own
) -> bool:
    """ "Sc 6, turn" on 12, and the next course works 6: rows over a part, the rest left. Never for a stitch or two."""
    marks = [n for n in parsed.tree.items if isinstance(n, Mark)]
    if not marks or marks[-1].name != "turn" or ground.there is None or ground.chain:
        return False
    taken = choose(parsed.tree, ground, own)
    reading = taken.reading
    if taken.fits or reading.filled or reading.unknown or reading.uneven:
        return False
    if ground.declared not in (None, reading.makes):
        return False
    return 0 < reading.uses * 4 <= ground.there * 3 and needed(reading.makes, next_course(queue, index), own)


def needed(makes: int | None, after: Ahead | None, own: Own) -> bool:
    """Does the next course, by its own numbers, need so many stitches?"""
    if makes is None or after is None:
        return False
    need = after.on(makes, own)
    return need.fits and (not need.reading.filled or after.declared is not None)


_HEIGHTS = {"hdc": 2, "dc": 3, "tr": 4, "dtr": 5}  # chains that stand for a stitch


def stands(parsed: Parsed, ground: Ground, chosen: Chosen, after: Ahead | None, own: Own) -> Chosen | None:
    """Nothing printed, but the words say that the chain at the start is a stitch (common practice, no source).

    "dc in 4th ch from hook" leaves three chains for a stitch; "ch 3, skip first st" puts one on the stitch passed;
    "join to top of ch-3" goes into it; and in a ring of tall stitches it is the first. The printed count of the next
    course may need it otherwise.
    """
    items = [n for n in parsed.tree.items if not isinstance(n, CueAt | Tone)]
    joined = joined_chain(items)
    items = [n for n in items[items.index(joined[0]) if joined else 0 :] if not isinstance(n, Mark)]
    works = [n for n in items if isinstance(n, Work) and n.key != "ch"]
    height = _HEIGHTS.get(works[0].key, 0) if works else 0
    lead = items[0] if items and isinstance(items[0], Work) and items[0].key == "ch" else None
    along = bool(works) and works[0].base == "hook" and works[0].hook == height + 1 and height > 2
    skips = lead is not None and len(items) > 1 and isinstance(items[1], Skip) and items[1].n == 1
    passed = lead is not None and height > 1 and lead.n == height and (skips or parsed.phrases.joins_top)
    ringed = lead is not None and height > 2 and lead.n == height and works[0].base == "ring"
    if not (along or passed or ringed):
        return None
    counted = read_as(parsed.tree, (0,) * len(parsed.tree.choices), ground, own, True)
    if not fits(counted, ground) or counted.makes == chosen.reading.makes:
        return None
    printed = after is not None and after.declared is not None
    if after is not None and printed and not after.on(counted.makes, own).fits:
        counted = chosen.reading if after.on(chosen.reading.makes, own).fits else counted
    if counted is chosen.reading:
        return None
    return Chosen(counted, True, ["turning chain stands"], counted=True)


def undecided(parsed: Parsed, chosen: Chosen, ground: Ground, own: Own) -> Chosen:
    """ "sc inc around" with nothing printed: both meanings fit, so that the one taken has to be said."""
    picks = list(chosen.reading.picks)
    for at, choice in enumerate(parsed.tree.choices):
        if choice.why != "one stitch or two" or picks[at]:
            continue
        other = read_as(parsed.tree, (*picks[:at], 1, *picks[at + 1 :]), ground, own)
        if other.makes != chosen.reading.makes and fits(other, ground):
            return replace(chosen, why=["names one stitch"])
    return chosen


def look_ahead(parsed: Parsed, chosen: Chosen, ground: Ground, after: Ahead | None, own: Own) -> Chosen:
    """Nothing printed and two meanings that fit: the next course may need one of them."""
    if after is None or after.on(chosen.reading.makes, own).fits:
        return chosen
    sizes = [range(len(c.options)) for c in parsed.tree.choices]
    for picks in islice(product(*sizes), MOST_READINGS):
        other = read_as(parsed.tree, picks, ground, own)
        if other.makes != chosen.reading.makes and fits(other, ground) and after.on(other.makes, own).fits:
            return Chosen(other, True, [parsed.tree.choices[i].why for i, p in enumerate(picks) if p])
    return chosen


def spaces(todo: Waiting, taken: Chosen, ground: Ground, after: Ahead | None, own: Own) -> tuple[Chosen, Ground]:
    """Chain spaces count as what the next course needs: not at all, alone, or beside the stitches."""
    assert todo.parsed is not None
    reading = taken.reading
    if todo.parsed.phrases.counted_chains:
        return with_spaces(todo, taken, ground, "chains", own)
    only = _of_size(reading, after)
    gaps = sum(reading.sizes[size] for size in only) if only else reading.spaces
    ground = replace(ground, only=only)
    there = {
        "": reading.stitches,
        "spaces": gaps,
        "both": reading.stitches + gaps,
        "chains": reading.stitches + reading.chains,
    }
    as_printed = next((m for m, n in there.items() if n == ground.declared), "")
    if ground.declared is None and hole(todo.parsed.tree.items):
        as_printed = "chains"
    if ground.declared is None and todo.parsed.phrases.elsewhere and _one_side(todo.parsed.tree.items):
        as_printed = "chains"
        taken = replace(taken, why=[*taken.why, "far side of the bridge"])
    if after is None:
        return with_spaces(todo, taken, ground, as_printed, own)
    into = after.parsed.phrases.into_spaces
    order = ["", "chains", "both", "spaces"] if not into else [into, *(m for m in there if m != into)]
    # Spaces worked into are stitches to work into, unless the print says which it counts
    aside = ["", "both", "spaces", "chains"] if ground.declared is not None else ["both", "", "spaces", "chains"]
    if as_printed == "chains" and not into:
        order = ["chains", "", "both", "spaces"]
    if into == "both" and not any(
        isinstance(n, Work | One) and n.fill and n.base == "next" for n in walk(after.parsed.tree.items)
    ):
        order = aside  # corners: stitches with the spaces between them
    if any(isinstance(n, Work) and n.fill and n.base == "space" for n in walk(after.parsed.tree.items)):
        order = aside  # its own words keep the spaces apart from the stitches
    if reading.chains == reading.spaces and _one_in_each(after.parsed):
        order = ["both", *(m for m in order if m != "both")]  # a chain that gets its one stitch is one
    elif into == "spaces" and ground.declared == reading.stitches and not stretches(after.parsed):
        order = [""]  # its stitches are printed, and the spaces the next one goes into are told one by one
    for mode in order:
        below = Ground(
            there[mode], 0, False, after.declared, after.parsed.phrases.unworked, spaces=mode in ("spaces", "both")
        )
        below.gaps = gaps
        below.chained = reading.chains if mode == "chains" else 0
        below.counts_as = after.parsed.phrases.counts_as
        if choose(after.parsed.tree, below, own).fits:
            return with_spaces(todo, taken, ground, mode, own)
    return with_spaces(todo, taken, ground, as_printed if ground.declared is not None else order[0], own)


_SIZE = re.compile(
    r"\b(?:ch|chain)[ -]?(\d)[ -]?(?:sps?|spaces?|loops?|lps?)\b|\b(\d)[ -]?ch(?:ain)?[ -]?(?:sps?|spaces?|lps?)\b"
)


def _of_size(reading: Reading, after: Ahead | None) -> tuple[int, ...]:
    """ "Sc in each dc and ch-1 sp" above spaces of one and of two chains: those of one; () where all are meant."""
    if after is None or len(reading.sizes) < 2:
        return ()
    filled = [n.noun for n in walk(after.parsed.tree.items) if isinstance(n, Work | One) and n.fill]
    named = {int(m[1] or m[2]) for noun in filled for m in _SIZE.finditer(noun)}
    told = tuple(sorted(named & set(reading.sizes)))
    return told if len(told) < len(reading.sizes) else ()


def _one_in_each(parsed: Parsed) -> bool:
    """ "Dc in next 3 dc, dc in ch-1 sp": into spaces go single stitches alone, beside those into the stitches."""
    into = [n for n in walk(parsed.tree.items) if isinstance(n, Work | One) and n.base == "space"]
    single = all(isinstance(n, Work) and not n.fill and n.n == n.per == n.places == 1 for n in into)
    return bool(into) and single and parsed.phrases.into_spaces == "both"


def hole(items: list[Node]) -> bool:
    """ "Ch 4, skip next 4 sts" once or twice in a course leaves a hole; the next course goes on over its chains."""
    plain = [n for n in items if not isinstance(n, CueAt | Tone)]
    return any(
        isinstance(chain, Work) and chain.key == "ch" and isinstance(left, Skip) and chain.n > 1 and left.n > 1
        for a, b in pairwise(plain)
        for chain, left in ((a, b), (b, a))
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
    ground = replace(ground, mode=mode)
    again = read_as(todo.parsed.tree, taken.reading.picks, ground, own, taken.counted)
    return replace(taken, reading=again, fits=fits(again, ground)), ground
