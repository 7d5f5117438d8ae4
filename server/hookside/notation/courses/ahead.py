"""What the next course needs of this one: which of two meanings, and whether its first chain stands for a stitch."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice, product

from hookside.notation.arithmetic.choosing import MOST_READINGS, Chosen, choose
from hookside.notation.arithmetic.ground import Ground, Reading, fits
from hookside.notation.arithmetic.summing import joined_chain, read_as
from hookside.notation.courses.waiting import Parsed, Waiting, lead_chain
from hookside.notation.lines.layout import RawText
from hookside.notation.sought import Sought
from hookside.notation.trees.asked import walk
from hookside.notation.trees.nodes import BESIDE, DOUBTS, Mark, Node, Skip, Work, works_in
from hookside.notation.vocabulary import number_of
from hookside.stitches import Stitch

Own = dict[str, Stitch]
_N = r"(?:\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_STS = r"(?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr)\b"
# Stitches that a sentence ahead of a row leaves, or the only ones it goes over
_STAYS_FREE = Sought(
    ("free", "unworked", "unused", "leav", "over", "only"),
    rf"(?<![\w-])(?P<n>{_N}) (?:{_STS} )?(?:(?:are|is|will be|get) )?"
    r"(?:(?:stay|remain|left|kept)s? )?(?:free|unworked|unused)\b|"
    rf"\bleav(?:e|ing) (?:the )?(?:last|first|other|next|remaining|back|front)? ?(?P<m>{_N}) {_STS}|"
    rf"\b(?:only )?over (?:only )?(?:the )?(?:first |next |last |other )?(?P<over>{_N}) {_STS}|"
    rf"\bonly (?:on |in )?(?:the )?(?:first |next )?(?P<only>{_N}) {_STS}",
    re.I,
)
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


def on_ground(parsed: Parsed, ground: Ground, own: Own) -> Chosen:
    """The reading of a body on its ground, apart from all wider meanings; worked out once, and not to be changed."""
    like = ("on", *ground.told())
    if like not in parsed.kept:
        chosen = choose(parsed.tree, ground, own)
        parsed.kept[like] = replace(chosen, others=[]) if chosen.others else chosen
    kept: Chosen = parsed.kept[like]
    return kept


def next_course(queue: list[Waiting | RawText], index: int) -> Ahead | None:
    """The course behind the item at `index`; None where there is none or its words are not understood."""
    after = next((t for t in queue[index + 1 : index + _FAR] if isinstance(t, Waiting)), None)
    if after is None or after.parsed is None or after.parsed.tree.failed or after.parsed.phrases.unknown:
        return None
    return Ahead(after.parsed, after.declared)


_FIRST_FEW = re.compile(r"\b(?:in|into|across|over) (?:the |each of (?:the )?)?first \d", re.I)  # "sc in first 5, turn"


def turns_short(
    parsed: Parsed, ground: Ground, queue: list[Waiting | RawText], index: int, own: Own
) -> bool:
    """ "Sc 6, turn" on 12, and the next course works 6: rows over a part, the rest left. Never for a stitch or two."""
    marks = [n for n in parsed.tree.items if isinstance(n, Mark)]
    if not marks or marks[-1].name != "turn" or ground.there is None or ground.chain:
        return False
    single = lead_chain(parsed.tree.items) == 1 and ground.declared is None
    taken = on_ground(parsed, ground.but(counts_as=False) if single else ground, own)
    reading = taken.reading
    if taken.fits or reading.filled or reading.unknown or reading.uneven:
        return False
    if ground.declared not in (None, reading.makes):
        return False
    short = reading.uses * 4 <= ground.there * 3 or _FIRST_FEW.search(parsed.body) is not None
    return 0 < reading.uses < ground.there and short and needed(reading.makes, next_course(queue, index), own)


def told_free(words: str, parsed: Parsed, ground: Ground, own: Own) -> bool:
    """ "Now in rows, the last 8 stitches stay free for the neck:" above a row of the others: those eight are left."""
    told = _STAYS_FREE.search(words)
    if told is None or ground.there is None or ground.chain:
        return False
    reading = choose(parsed.tree, ground.but(counts_as=False), own).reading
    if reading.filled or reading.unknown or not 0 < reading.uses < ground.there:
        return False
    over = told["over"] or told["only"]
    return reading.uses == number_of(over) if over else reading.uses == ground.there - number_of(told["n"] or told["m"])


def needed(makes: int | None, after: Ahead | None, own: Own) -> bool:
    """Does the next course, by its own numbers, need so many stitches?"""
    if makes is None or after is None:
        return False
    need = after.on(makes, own)
    return need.fits and (not need.reading.filled or after.declared is not None)


def goes_plain(reading: Reading, there: int | None) -> bool:
    """Is it one stitch in each all the way round, whatever number there is?"""
    return reading.filled and there is not None and reading.uses == reading.makes == there


def _unlike(queue: list[Waiting | RawText], index: int) -> Iterator[Waiting]:
    """The courses behind one, those left out that are the same as the one before them: they would answer the same."""
    before: Waiting | None = None
    for item in queue[index + 1 : index + _FAR]:
        if isinstance(item, Waiting):
            if before is None or item.parsed is not before.parsed or item.declared != before.declared:
                yield item
            before = item


def told_between(queue: list[Waiting | RawText], index: int, made: int, printed: int, own: Own) -> int | None:
    """Which of two numbers the courses behind need: the first of them tells that is more than plain work.

    A plain course goes round on any number; that its count is copied from below tells nothing.
    """
    for item in _unlike(queue, index):
        if item.parsed is None or item.parsed.tree.failed or item.parsed.phrases.unknown:
            return None
        after = Ahead(item.parsed, item.declared)
        ways = {n: after.on(n, own) for n in (made, printed)}
        if goes_plain(ways[made].reading, made):
            continue
        fitting = [n for n, chosen in ways.items() if chosen.fits]
        return fitting[0] if len(fitting) == 1 else None
    return None


def shaping_behind(queue: list[Waiting | RawText], index: int, makes: int, own: Own) -> Ahead | None:
    """The next course that is more than plain work on so many stitches; None where its words are not understood."""
    for item in _unlike(queue, index):
        if item.parsed is None or item.parsed.tree.failed or item.parsed.phrases.unknown:
            return None
        after = Ahead(item.parsed, item.declared)
        if not goes_plain(after.on(makes, own).reading, makes):
            return after
    return None


_HEIGHTS = {"hdc": 2, "dc": 3, "tr": 4, "dtr": 5}  # chains that stand for a stitch


def stands(parsed: Parsed, ground: Ground, chosen: Chosen, after: Ahead | None, own: Own) -> Chosen | None:
    """Nothing printed, but the words say that the chain at the start is a stitch (common practice, no source).

    "dc in 4th ch from hook" leaves three chains for a stitch; "ch 3, skip first st" puts one on the stitch passed;
    "join to top of ch-3" goes into it; and in a ring of tall stitches it is the first. The printed count of the next
    course may need it otherwise.
    """
    items = [n for n in parsed.tree.items if not isinstance(n, BESIDE)]
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


def undecided(
    parsed: Parsed, chosen: Chosen, ground: Ground, after: Ahead | None, own: Own, step: int = 0
) -> Chosen:
    """ "sc inc around" with nothing printed: both meanings fit, so that the one taken has to be said.

    "1 sc inc around" is a plain one and an increase: nobody counts the one increase that goes all the way round. So is
    "(2sc dec) x6", where the next course does not need it otherwise. "sc inc around" with no number is one stitch only
    where the piece goes on widening or narrowing as it did: by `step` stitches in its last shaping.
    """
    picks = chosen.reading.picks
    sizes = [range(len(c.options)) for c in parsed.tree.choices]
    for at, choice in enumerate(parsed.tree.choices):
        if choice.why not in DOUBTS or picks[at]:
            continue
        for other_picks in islice(product(*sizes[:at], (1,), *sizes[at + 1 :]), MOST_READINGS):
            other = read_as(parsed.tree, other_picks, ground, own)
            if other.makes == chosen.reading.makes or not fits(other, ground):
                continue
            if choice.why == DOUBTS[1]:
                return replace(chosen, why=["plain one and another"])
            if _names_one(choice.options[0]):
                return replace(chosen, why=["names one stitch"])
            counted = any(isinstance(n, Work) and n.number is not None for n in walk(choice.options[1]))
            both = after is not None and after.on(other.makes, own).fits
            as_before = step and abs(chosen.reading.makes - (ground.there or 0)) == step
            if (counted or not as_before) and (both or not needed(chosen.reading.makes, after, own)):
                return replace(chosen, reading=other, why=["plain one and another"])
            return replace(chosen, why=["names one stitch"])
    return chosen


def on_nothing_known(parsed: Parsed, chosen: Chosen, ground: Ground, own: Own) -> Chosen:
    """ "2sc inc x2 (8)" on a round that nobody could read: where two increases twice and (2 sc, inc) twice both make
    the count, only the stitches below could tell, and such words mostly mean the list."""
    picks = chosen.reading.picks
    sizes = [range(len(c.options)) for c in parsed.tree.choices]
    for at, choice in enumerate(parsed.tree.choices):
        if choice.why != DOUBTS[0] or picks[at] or _names_one(choice.options[0]):
            continue
        for other_picks in islice(product(*sizes[:at], (1,), *sizes[at + 1 :]), MOST_READINGS):
            other = read_as(parsed.tree, other_picks, ground, own)
            if fits(other, ground) and other.uses != chosen.reading.uses:
                return replace(chosen, reading=other, why=["plain one and another"])
    return chosen


def _names_one(option: list[Node]) -> bool:
    """ "hdc inc around", "sc inc in each st": a half double is told beside an increase to say of what it is made, and
    what goes into each stitch is one thing.
    """
    works = list(works_in(option))
    return any(n.key in ("hdc inc", "hdc2tog") or (n.fill and n.noun) for n in works)


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
