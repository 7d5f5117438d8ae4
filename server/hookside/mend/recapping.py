"""After a day or weeks: what the hands have to know before the next stitch."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Literal

from hookside.follow import Strand, locate
from hookside.follow.place import offset_in, step_of
from hookside.mend.ground import cap, groups, name, subject
from hookside.mend.kinds import decrease
from hookside.pattern import Node, Record, Repeat, length
from hookside.stitches import TABLE, full_name
from hookside.words import yarn_named

What = Literal["hook", "yarn", "side", "decrease", "mend", "aside", "count", "expect"]


class Line(Record):
    """One thing to know, as a sentence."""

    what: What
    text: str


def recap(
    strand: Strand,
    at: int,
    counts: Mapping[str, int],
    *,
    hook: str = "",
    hand: str = "right",
    colours: Mapping[str, str] | None = None,
    mends: Sequence[str] = (),
    aside: Sequence[str] = (),
    counted: tuple[int, str] | None = None,
    rested: bool = False,
) -> list[Line]:
    """What to tell, in the order in which it is needed; what is not known is left out.

    hook     as the pattern or the maker names it
    hand     the one that holds it
    colours  what the maker calls the pattern's colours, where she has words of her own
    mends    what was worked otherwise than written, as said then
    aside    pieces that wait with their loop live
    counted  the last count she stated for this piece, and the course it was of, "round 5" ("": not known)
    rested   the work lay for a day or more: hands pull otherwise than they did (common practice, no source)
    """
    lines: list[Line] = []
    if hook:
        # "Hook: 3.5 mm", "3 mm crochet hook", as texts have it
        size = re.sub(
            r"^(?:crochet\s+)?hooks?:?\s+|\s+(?:crochet\s*)?hooks?$", "", hook.strip(" ."), flags=re.IGNORECASE
        )
        same = "The same person should go on with it: another pulls the yarn tighter or looser."
        lines.append(Line(what="hook", text=f"Hook {size}. {same}"))
    if rested and at > 0:
        compare = "After a rest, work one round and lay it beside the last ones: is it as tight as they are?"
        lines.append(Line(what="hook", text=f"{compare} If not, pull it out before it is a step in the fabric."))
    named = colour_in_hand(strand, at)
    if named:
        named = (colours or {}).get(named, named)
        lines.append(Line(what="yarn", text=f"Yarn in hand: {named}. A new ball: look for the same dye lot."))
    side = _side(strand, at, hand)
    if side:
        lines.append(Line(what="side", text=side))
    kinds = list(dict.fromkeys(g.stitch for c in strand.courses for g in groups(c.body) if decrease(g)))
    says = [full_name(TABLE[kind], strand.terms) for kind in kinds]
    if says and says != ["decrease"]:  # of a plain one that tells nothing
        lines.append(Line(what="decrease", text=f"Decreases here: {' and '.join(says)}."))
    lines += [Line(what="mend", text=f"Changed: {said}.") for said in mends]
    if aside:
        lines.append(Line(what="aside", text=f"Set aside, the loop live: {'; '.join(aside)}."))
    if counted is not None:
        n, of = counted
        lines.append(Line(what="count", text=f"Last count you gave: {n}{f', in {of}' if of else ''}."))
    lines.append(Line(what="expect", text=expected(strand, at, counts)))
    return lines


def expected(strand: Strand, at: int, counts: Mapping[str, int]) -> str:
    """What to count first, and what should come out."""
    asked = subject(strand, at, counts)
    if asked is None:
        return "Nothing is worked yet that could be counted."
    course = strand.courses[asked.index]
    start = "the start of the row" if course.kind == "row" else "the marker"
    if asked.whole:
        return f"Count {name(course)} all the way: I expect {asked.ours}."
    return f"Count from {start} to the hook: I expect {asked.ours}."


def colour_in_hand(strand: Strand, at: int) -> str:
    """The colour last named before a place, by a cue or in the stitches; "" where none is."""
    step, named = -1, ""
    for cue in strand.cues:
        if cue.step >= at:
            break
        if cue.kind == "colour" and (colour := yarn_named(cue.text)):
            step, named = cue.step, colour
    for course in strand.courses:
        if course.first > at:
            break
        last = _last_colour(course.body, offset_in(strand, course, min(at, course.end)))
        # "with navy 11 sc" is older than a "Change to sand" told before its last stitch.
        # What a round says of itself wins over the sentence right before it.
        if last is not None and (named_at := step_of(strand, course, last[1])) >= step:
            step, named = named_at, last[0]
    return named


def _last_colour(body: Sequence[Node], offset: int) -> tuple[str, int] | None:
    """The last colour that a body names up to the step in hand, and the offset from which on it does."""
    found: tuple[str, int] | None = None
    first = 0
    for node in body:
        if first > offset:
            break
        if not isinstance(node, Repeat):
            found = (node.colour, first) if node.colour else found
            first += node.length
            continue
        once = max(1, length(node.body))
        begun = first + min(node.times - 1, (offset - first) // once) * once
        inner = _last_colour(node.body, offset - begun) or (_last_colour(node.body, once) if begun > first else None)
        if inner is not None:
            found = inner[0], begun + min(inner[1], offset - begun)
        first += once * node.times
    return found


def _side(strand: Strand, at: int, hand: str) -> str:
    """Which side looks at the maker."""
    spot = locate(strand, at)
    if spot.course is None:
        return ""
    course = strand.courses[spot.course]
    turned = any(g.stitch == "turn" for c in strand.courses[: spot.course + 1] for g in groups(c.body))
    if course.kind == "row" or turned:
        return f"{cap(name(course))} is the one in hand; the work is turned after each."
    way = "to the left" if hand == "right" else "to the right"
    return f"The smooth side looks at you, and the round goes on {way}."
