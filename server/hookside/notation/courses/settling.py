"""A course that no reading fits as it stands: wider meanings, each tried where only so the numbers come out."""

from __future__ import annotations

import re
from dataclasses import replace

from hookside.notation.arithmetic.choosing import Chosen, choose
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.bodies.chunks import Phrases
from hookside.notation.bodies.telling import TELLING
from hookside.notation.courses.going_round import goes_round, in_circle, plain_between
from hookside.notation.courses.rowends import slipped
from hookside.notation.courses.twoinone import two_in_one
from hookside.notation.courses.waiting import Parsed, lead_chain
from hookside.notation.courses.wider import wider
from hookside.notation.trees.asked import every, once, walk
from hookside.notation.trees.nodes import (
    MOST_REPEATS,
    MOST_STITCHES,
    PLACED,
    SILENT,
    Choice,
    CueAt,
    Mark,
    Node,
    Rep,
    Tree,
    Work,
)
from hookside.pattern import Course, Group
from hookside.stitches import TABLE, Stitch

Own = dict[str, Stitch]


# "Ch 13. Round 1: ch 1 more, sc in 2nd ch from hook": on top of those that are there
_MORE_CHAINS = re.compile(
    r"\W*(?:ch(?:ain)?s? ?(?P<n>\d) (?:more|extra|additional)|(?P<n2>\d) (?:more|extra|additional) ch(?:ain)?s?)\b",
    re.I,
)


def settle(parsed: Parsed, ground: Ground, maybe: int | None, own: Own) -> Chosen:
    """The reading of a course that fits best; `maybe` is what the course below prints, where that is something else.

    `ground.declared` is taken from a body whose last stitches are its count, and dropped where it counts one stretch.
    """
    chosen = as_it_stands(parsed, ground, own)
    return chosen if chosen.fits else widened(parsed, chosen, ground, maybe, own)


def as_it_stands(parsed: Parsed, ground: Ground, own: Own) -> Chosen:
    """The reading of its own words that fits best."""
    more = _MORE_CHAINS.match(parsed.body) if ground.chain else None
    if more is not None:
        ground.chain += int(more["n"] or more["n2"])
    return choose(parsed.tree, ground, own)


def widened(parsed: Parsed, chosen: Chosen, ground: Ground, maybe: int | None, own: Own) -> Chosen:
    """The first of its wider meanings that fits; else what was `chosen` of its own words, which do not."""
    if maybe is not None:
        other_ground = ground.but(there=maybe)
        other = choose(parsed.tree, other_ground, own)
        rounds = None if other.fits else goes_round(parsed, other_ground, own)
        if other.fits or rounds is not None:
            return rounds or other
    trailing = trailing_count(parsed, ground, own)
    if trailing is not None:
        return trailing
    edge = on_an_edge(parsed, chosen, ground, own)
    if edge is not None:
        return edge
    level = levelled(parsed, ground, own) or in_circle(parsed, ground, own)
    if level is not None:
        return level
    across = slipped(parsed, ground, own)
    if across is not None:
        return across
    rounds = goes_round(parsed, ground, own) or spread_out(parsed, ground, own) or past_first_chain(parsed, ground, own)
    if rounds is not None:
        return rounds
    chain = along_chain(parsed, ground, own)
    if chain is not None:
        return chain
    between = plain_between(parsed, ground, own)
    if between is not None:
        return between
    beside = asked_with(parsed, ground, own) or wider(parsed, ground, own)
    if beside is None and ground.declared is not None:
        beside = two_in_one(parsed, ground, own)
    if beside is not None:
        return beside
    if ground.declared is not None and chosen.reading.filled and not chosen.reading.unknown:
        quiet = choose(parsed.tree, ground.but(declared=None), own)
        works = [n for n in parsed.tree.items if isinstance(n, Work)]
        one_phrase = len(works) > 1 and works[-1].start == works[-2].start  # "in 2nd ch from hook and in each ch"
        last = [n for n in quiet.reading.body[-1:] if isinstance(n, Group)]
        if quiet.fits and not one_phrase and any(_counted(n, own) == ground.declared for n in last):
            ground.declared = None  # "sc to end (11)": the bracket counts that stretch only
            quiet.why.append("count of a stretch")
            return quiet
    return chosen


def _counted(group: Group, own: Own) -> int:
    """What a bracket behind a stretch counts: 12 of "12 inc", but 24 of "2 sc in each of 12"."""
    stitch = own.get(group.stitch) or TABLE.get(group.stitch)
    alone = stitch is not None and stitch.makes == group.makes
    return group.count if alone else group.count * group.makes


def trailing_count(parsed: Parsed, ground: Ground, own: Own) -> Chosen | None:
    """ "(2 sc, inc) x 6, 24 sc": the last "24 sc" may be the printed count and no work.

    It is no count where it says so ("then 24 sc"), where it is another stitch than those before it, or where only its
    own amount stands there already: "18 sc, 18 sc", "dec x 9, sc 9" are a round and the next one.
    """
    items = parsed.tree.items
    if ground.declared is not None or ground.there is None or len(items) < 2 or parsed.tree.choices:
        return None
    if len(items) > 2 and _levels(items[-1]) and isinstance(items[-2], Work) and items[-2].bare:
        items = items[:-1]  # "1 dc in each dc; 12. Finish with one s.s. to level the last round."
    last = items[-1]
    if not isinstance(last, Work) or not _as_counts_go(last, items, parsed.body, own):
        return None
    chosen = choose(Tree(items[:-1], parsed.tree.choices), ground.but(declared=last.n), own)
    reading = chosen.reading
    if not chosen.fits or (reading.uses == reading.makes and not (reading.filled or last.bare)):
        return None
    ground.declared = last.n
    if not last.bare:
        chosen.why.append("number counts the course")
    return chosen


def _levels(node: Node) -> bool:
    """Is it the one slip stitch that evens out the end of a spiral, and no stitch of it?"""
    return isinstance(node, Work) and node.key == "sl st" and node.n == node.per == 1 and not node.fill


_GOES_ON = re.compile(r"\b(?:then|again|more|another|next|also|and)\b", re.I)


def _as_counts_go(last: Work, items: list[Node], body: str, own: Own) -> bool:
    """Does "24 sc" stand as a count does: its number first, the same stitch as all of the course?"""
    if last.n < 3 or last.per != 1 or last.base != "next" or last.fill or last.number is None or last.times:
        return False
    if last.loops or last.colour or not (last.bare or last.number[0] == last.start):
        return False
    before = max((n.end for n in items[:-1] if isinstance(n, (Work, Rep))), default=0)
    if _GOES_ON.search(body, before):
        return False
    keys = {n.key for n in walk(items[:-1]) if isinstance(n, Work)} - {"ch", last.key}
    return all((own.get(key) or TABLE[key]).of == last.key for key in keys)


def on_an_edge(parsed: Parsed, chosen: Chosen, ground: Ground, own: Own) -> Chosen | None:
    """ "Join yarn at the back. Row 1: ch 1, hdc in next 12": the chain only rises on an edge, nobody works along it."""
    if not ground.first or ground.there is not None or ground.chain or not chosen.reading.over_chain:
        return None
    works = [n for n in every(parsed.tree) if isinstance(n, PLACED)]
    lead = lead_chain(parsed.tree.items)
    if not 0 < lead <= _MOST_TURNING or any(n.base in ("hook", "ring") for n in works):
        return None
    rising = choose(parsed.tree, ground.but(first=False), own)
    return rising if rising.fits else None


_MOST_TURNING = 4  # chains that stand for a first tall stitch


def past_first_chain(parsed: Parsed, ground: Ground, own: Own) -> Chosen | None:
    """ "Ch 7. Row 1: sc in each ch (6)": nobody works into the chain at the hook, and the count says so."""
    if not ground.chain or ground.declared is None or not 1 <= ground.chain - ground.declared < _MOST_TURNING:
        return None
    if any(isinstance(n, PLACED) and n.base == "hook" for n in every(parsed.tree)):
        return None
    chosen = choose(parsed.tree, ground.but(chain=ground.declared), own)
    if not chosen.fits:
        return None
    chosen.why.append("first chain passed")
    return chosen


def along_chain(parsed: Parsed, ground: Ground, own: Own) -> Chosen | None:
    """ "Ch 15. Row 1: 1 sc from the second chain (14)": one in each chain from there on."""
    works = [n for n in parsed.tree.items if not isinstance(n, SILENT)]
    first = works[0] if len(works) == 1 else None
    if not isinstance(first, Work) or first.base != "hook" or first.n * first.per != 1 or not ground.chain:
        return None
    if ground.declared is None or ground.declared != ground.chain - first.hook + 1:
        return None
    at = parsed.tree.items.index(first)
    rest = Work(first.key, fill=True, start=first.start, end=first.end, noun="ch")
    chosen = choose(Tree([*parsed.tree.items[: at + 1], rest, *parsed.tree.items[at + 1 :]]), ground, own)
    if not chosen.fits:
        return None
    chosen.why.append("along the chain")
    return chosen


_SHAPES_BY = re.compile(r"\W*(?:in|de)crease (?:by )?\d{1,2}(?: (?:sts?|stitches|times))?(?: around)?\W*$", re.I)


def spread_out(parsed: Parsed, ground: Ground, own: Own) -> Chosen | None:
    """ "Increase 6" on 12: the six spread evenly, where they are all that is said or the printed count bears it out."""
    works = [n for n in parsed.tree.items if not isinstance(n, SILENT)]
    told = works[0] if len(works) == 1 else None
    only: Node | None = told
    if isinstance(only, Choice) and len(only.options[0]) == 1:
        only = only.options[0][0]  # "decrease by 3": so many decreases, or that many worked together
    if ground.there is None or not isinstance(only, Work) or only.key not in ("inc", "dec", "inv dec"):
        return None
    if only.fill or only.n < 2 or only.per > 1 or only.base != "next":
        return None
    if ground.declared is None and not _SHAPES_BY.match(parsed.body):
        return None
    spread = replace(only, evenly=only.n)
    kept = parsed.tree.choices if told is only else [c for c in parsed.tree.choices if c is not told]
    chosen = choose(Tree([spread if n is told else n for n in parsed.tree.items], kept), ground, own)
    if not chosen.fits or chosen.reading.unknown:
        return None
    chosen.why.append("shaping spread")
    return chosen


_AMOUNT = re.compile(
    r"\b(\d{1,2}) ?(?:sc|[hd]?dc|h?tr)\b|\b(?:sc|[hd]?dc|h?tr) (?:in(?:to)? )?(?:the )?(?:next )?(\d{1,2})\b"
)


def asked_with(parsed: Parsed, ground: Ground, own: Own) -> Chosen | None:
    """ "Attach ear (3 sc through both)", "change to blue for 5 sc": stitches of the course, told within an asking."""
    if ground.there is None or not any(isinstance(n, CueAt) for n in parsed.tree.items):
        return None
    works = [n for n in every(parsed.tree) if isinstance(n, Work) and n.base == "next" and n.key != "ch"]
    items: list[Node] = []
    for node in parsed.tree.items:
        items.append(node)
        if isinstance(node, CueAt):
            clause = parsed.phrases.cues[node.index]
            told = _AMOUNT.finditer(parsed.body[clause.start : clause.end].lower())
            key = works[0].key if works else "sc"
            items += [Work(key, n=int(m[1] or m[2]), start=clause.start, end=clause.end) for m in told]
    if len(items) == len(parsed.tree.items):
        return None
    chosen = choose(Tree(items, parsed.tree.choices), ground, own)
    if not chosen.fits:
        return None
    chosen.why.append("told within an asking")
    return chosen


def levelled(parsed: Parsed, ground: Ground, own: Own) -> Chosen | None:
    """A last "sl st in next st" that only levels the edge: 0 used, 0 made."""
    items = parsed.tree.items
    at = len(items) - 1
    while at >= 0 and not isinstance(items[at], Work):
        at -= 1
    if at <= 0:
        return None
    last = items[at]
    assert isinstance(last, Work)
    if last.key != "sl st" or last.n > 2 or last.fill:
        return None
    items[at] = Mark("join")
    chosen = choose(parsed.tree, ground, own)
    items[at] = last
    if chosen.fits:
        chosen.why.append("slip stitch levels")
        return chosen
    return None


def skipping(parsed: Parsed, ground: Ground, own: Own, again: bool = False) -> Chosen | None:
    """A course with words that nobody knows, where all its numbers come out without them; said at the course.

    `again`: the same words were left out of a course before, and its numbers came out.
    """
    tried = ground.but()
    chosen = settle(parsed, tried, None, own)
    reading = chosen.reading
    if not chosen.fits or reading.unknown or ground.free:
        return None
    if ground.declared is not None and tried.declared != ground.declared:
        return None  # it comes out only where the printed count is another: then the words are needed
    if ground.declared is not None:
        return chosen if ground.there is not None or reading.uses == 0 else None
    return chosen if ground.there is not None and (again or not reading.filled) else None


def may_be_left(phrases: Phrases, body: str) -> bool:
    """May the words nobody knows be left out for a try? One stretch of them, without anything that could count."""
    first, last = phrases.unknown[0][0], phrases.unknown[-1][1]
    words = body[first:last]
    if body[last : last + 1].isdecimal():
        return False  # "blorp R8 sc": the amount may belong to the word
    return sum(b - a for a, b in phrases.unknown) >= len(words.replace(" ", "")) and not TELLING.search(words)


@once
def too_much(tree: Tree) -> str:
    """Why a body is more than anyone works: a code of the table of mistakes, or nothing."""
    for node in every(tree):
        if isinstance(node, Rep) and node.times > MOST_REPEATS:
            return "too-many-repeats"
        if (isinstance(node, Rep) and node.times < 1) or (isinstance(node, PLACED) and node.n < 1):
            return "no-times"
        if isinstance(node, Work) and (node.n * node.per > MOST_STITCHES):
            return "too-many-stitches"
    return ""


def over_bridge(
    parsed: Parsed, chosen: Chosen, ground: Ground, bridge: int, own: Own
) -> tuple[Chosen, Ground] | None:
    """The round above two legs joined by `bridge` chains goes along both sides of them, where it says so or must."""
    told = parsed.phrases.both_sides
    if ground.there is None or not (told or (ground.declared is not None and not chosen.fits)):
        return None
    for sides in (2, 1):
        wide = ground.but(there=ground.there + sides * bridge)
        other = choose(parsed.tree, wide, own)
        if other.fits or told:
            if not told:
                other.why.append("over the bridge")
            return other, wide
    return None


_STANDS_STILL = 24  # courses without a change: more than anyone works plain between two shapings of a repeat


def astray(courses: list[Course], until: int) -> bool:
    """Has "repeat until you have 36" gone wrong: a course that did not come out, one past the number, no change?"""
    last = courses[-1]
    before = courses[-2].makes if len(courses) > 1 else None
    if not last.read or last.makes is None or (before is not None and last.uses != before):
        return True
    if len(courses) >= _STANDS_STILL and all(c.makes == last.makes for c in courses[-_STANDS_STILL:]):
        return True
    return before is not None and ((before < until < last.makes) or (before > until > last.makes))
