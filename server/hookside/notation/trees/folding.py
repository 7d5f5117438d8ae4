"""Lists of items folded into nodes: stars, "repeat from", brackets with what stands behind them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, cast

from hookside.notation.bodies.chunks import Chunk, Place, Times
from hookside.notation.bodies.wording.places import SPACE, STITCH_TOO
from hookside.notation.trees.behind import taken_in
from hookside.notation.trees.copying import copied
from hookside.notation.trees.nodes import (
    WORKING,
    Again,
    And,
    Choice,
    CueAt,
    Item,
    Mark,
    Node,
    One,
    Rep,
    StarClose,
    StarOpen,
    Tone,
    Work,
    is_lead,
    leads_over,
)
from hookside.notation.trees.reach import _among, _into_spaces, _led, _levelled, _picots, _shared, reach_back

NEXT_OR_SAME = "next or same"
_ACTIONS = (Mark, CueAt, Tone)


def fold(items: list[Item]) -> list[Node]:
    """Resolves stars and "repeat"s, and multipliers that may reach further back than one stitch."""
    out: list[Any] = []
    for item in _picots(_shared(items)):
        if isinstance(item, StarClose):
            at = _last_star(out)
            if at is None:
                continue
            body = cast(list[Node], out[at + 1 :])
            del out[at:]
            out.extend(repeated(body, item.modifiers, 0, 0, bracket=False))
        elif isinstance(item, Again):
            at = _last_star(out)
            if at is None:
                at = -1
                while at + 1 < len(out) and is_lead(out[at + 1]):
                    if at + 2 < len(out) and leads_over(out[at + 1], out[at + 2]):
                        break  # "ch 1, skip 1, sc in next, around": a mesh
                    at += 1
                body = cast(list[Node], out[at + 1 :])
                del out[at + 1 :]
            else:
                body = cast(list[Node], out[at + 1 :])
                del out[at:]
            out.extend(_again(body, item.times))
        elif isinstance(item, Choice) and item.why == NEXT_OR_SAME and (before := _worked_before(out)) is not None:
            chained = isinstance(before, Work) and before.key == "ch"  # "ch 3, (dc, ch 2, 2 dc) in same st"
            out.extend(item.options[1] if chained else [Choice(item.options[::-1], "same or next")])
        else:
            out.append(item)
    nodes = cast(list[Node], [i for i in out if not isinstance(i, StarOpen)])
    return _levelled(reach_back(_into_spaces(_among(_led(nodes)))))


def _worked_before(out: list[Any]) -> Any:
    """What was worked before this, since the beginning or the last star; None where nothing was."""
    last = next((n for n in reversed(out) if not isinstance(n, (*_ACTIONS, And))), None)
    return None if isinstance(last, StarOpen) else last


def _last_star(out: list[Any]) -> int | None:
    for at in range(len(out) - 1, -1, -1):
        if isinstance(out[at], StarOpen):
            return at
    return None


def _again(body: list[Node], times: Times) -> list[Node]:
    body = [n for n in body if not isinstance(n, StarOpen)]
    if not body:
        return []
    if times.trails:
        if any(isinstance(n, WORKING) and n.fill for n in body[-1:]):
            return body
        return [Choice([body, [Rep(_unit(body), fill=True)]], "trails off")]
    if times.fill:
        return [Rep(body, fill=True, last=times.last)]
    if times.uses is not None:
        return [Rep(body, uses=times.uses)]
    if times.more:
        return [Rep(body, times=times.n + 1, number=times.number)]
    if times.exact:
        return [Rep(body, times=times.n, number=times.number)]
    return [
        Choice(
            [[Rep(body, times=times.n + 1, number=times.number)], [Rep(body, times=times.n, number=times.number)]],
            "times or more times",
        )
    ]


def _unit(body: list[Node]) -> list[Node]:
    """ "sc, inc, sc, inc, ...": the stretch that is written more than once, once; the whole where none is."""
    kinds = [(n.key, n.n, n.per, n.base, n.loops) if isinstance(n, Work) else None for n in body]
    if None in kinds:
        return body
    sizes = range(1, len(body) // 2 + 1)
    period = next((p for p in sizes if all(kinds[i] == kinds[i - p] for i in range(p, len(body)))), len(body))
    return body[:period]


def _joined(children: list[Any]) -> list[Item]:
    out: list[Item] = []
    for child in children:
        if isinstance(child, list):
            out.extend(child)
        elif isinstance(child, Chunk) and child.type == "SEP" and child.value in ("and", "+"):
            out.append(And())
    return out


def _count(times: Times) -> int:
    return times.n + (1 if times.more else 0)


_MOST_TIMES = 20  # repeats within one stitch
_MOST_IN_ONE = 6
_PLAIN = frozenset(["sc", "hdc", "dc", "tr", "dtr", "ch", "picot"])


def _fits_in_one(worked: Sequence[Node]) -> bool:
    """ "4 sc, (sc, hdc, sc), 4 sc": may all of a bracket go into one stitch? Few plain stitches may."""
    plain = all(isinstance(n, Work) and n.key in _PLAIN and not n.fill and n.base == "next" for n in worked)
    return plain and 1 < sum(n.n for n in worked if isinstance(n, Work)) <= _MOST_IN_ONE


def repeated(body: list[Node], modifiers: list[Chunk], start: int, end: int, bracket: bool) -> list[Item]:
    """A bracket or a starred stretch with what stands behind it."""
    body, modifiers = taken_in(body, modifiers)
    behind = [at for at, c in enumerate(modifiers) if c.type == "ANDPLACE" and (c.value.kind != "fill" or c.value.each)]
    if behind and any(c.type == "PLACE" for c in modifiers[: behind[0]]):
        # "(sc, hdc, sc) in next st and in each of next 3": all of it goes into the further place too
        first, further = modifiers[: behind[0]], modifiers[behind[0] :]
        further[0] = Chunk("PLACE", replace(further[0].value, each=True), further[0].start, further[0].end)
        again = repeated(copied(body), further, start, end, bracket)
        return [*repeated(body, first, start, end, bracket), *again]
    times = [c.value for c in modifiers if c.type == "TIMES"]
    places = [c.value for c in modifiers if c.type in ("PLACE", "ANDPLACE")]
    loops = next((c.value for c in modifiers if c.type == "LOOPSPOST"), None)
    colour = next((c.value for c in modifiers if c.type == "COLOURPOST"), None)
    if not body:
        return []
    place: Place | None = places[0] if places else None
    span: dict[str, Any] = {
        "start": start,
        "end": end,
        "loops": loops or (place.loops if place else None),
        "colour": colour,
    }
    tone: dict[str, Any] = {"loops": span["loops"], "colour": colour}
    worked = [n for n in body if not isinstance(n, _ACTIONS)]
    result: list[Node]
    if place is not None and place.kind == "piece" and not times:
        return [Rep(body, fill=True, base="piece", **span)]
    if place is None or place.kind == "piece":  # how often is told: the leg only says where
        if not times:
            if bracket and len(body) == 1 and isinstance(body[0], Rep) and body[0].nth:
                result = body  # "sc around (inc in every 4th)"
            elif any(isinstance(n, Work) and (n.fill or n.spread or n.tip or n.first) for n in worked):
                result = [Rep(body, **span)]  # "(inc in the last st)" is worked once
            elif bracket and len(worked) == 1 and isinstance(worked[0], Work) and (worked[0].times or 0) > 1:
                result = [Rep(body, **span)]  # ... and so is "(dec twice)"
            else:
                ways: list[list[Node]] = [[Rep(body, **span)], [Rep(body, fill=True, **span)]]
                if bracket and _fits_in_one(worked):
                    ways.append([One(body, **tone)])
                result = [Choice(ways, "missing multiplier")]
        else:
            often = times[-1]
            if often.fill:
                result = [Rep(body, fill=True, last=often.last, **span)]
            elif often.uses is not None:
                result = [Rep(body, uses=often.uses, **span)]
            elif often.more:
                result = [
                    Choice(
                        [
                            [Rep(body, times=often.n + 1, number=often.number, **span)],
                            [Rep(body, times=often.n, number=often.number, **span)],
                        ],
                        "more times or times",
                    )
                ]
            else:
                result = [Rep(body, times=often.n, number=often.number, **span)]
                if often.again:  # "*sc 2, inc* repeat 5 times"
                    more: list[Node] = [Rep(body, times=often.n + 1, number=often.number, **span)]
                    result = [Choice([result, more], "in all or more times")]
        return cast(list[Item], result)
    kind = place.kind
    order = [c.type for c in modifiers if c.type in ("TIMES", "PLACE")]
    counted = order == ["TIMES", "PLACE"] and not (times[0].fill or times[0].uses)
    if counted and kind == "next" and place.n > 1 and not place.each:  # "(sc, inc) 3 times in next 6 sts"
        return [Rep(body, times=_count(times[0]), number=times[0].number, **span)]
    if kind == "fill":
        whole: list[Node] = [Rep(body, fill=True, last=place.last, **span)]
        if place.each:
            each = One(body, fill=True, last=place.last, noun=place.noun, **tone)
            spaced = SPACE.search(place.noun) and not STITCH_TOO.search(place.noun)  # nobody goes along spaces
            result = [each] if spaced else [Choice([[each], whole], "in each or along")]
        else:
            result = whole
    elif kind == "ring":
        result = [Rep(body, base="ring", **span)]
    elif kind == "hook":
        result = [One(body, base="hook", hook=place.n, **tone)]
    elif kind == "next" and place.n > 1:
        one: list[Node] = [One(body, n=place.n, **tone)]
        along: list[Node] = [Rep(body, uses=place.n, **span)]
        result = [
            Choice([one, along], "in each or along") if place.each else Choice([along, one], "along or in each")
        ]
    else:
        base = "same" if kind in ("same", "skipped") else "space" if kind == "space" else "next"
        if base == "next" and place.n == 1 and counted:
            # "(dc, ch 1) 3 times in next st"
            body, times = body * min(_count(times[0]), _MOST_TIMES), []
        result = [One(body, n=place.n if base == "space" else 1, base=base, noun=place.noun, **tone)]
        if kind == "same" and len(worked) > 1 and not re.search(r"\b(?:sps?|spaces?|loop|ring)\b", place.noun):
            result = [Choice([[One(body, noun=place.noun, **tone)], result], NEXT_OR_SAME)]
    for often in times:
        if not often.fill:
            result = [Rep(result, times=_count(often), number=often.number, start=start, end=end)]
        else:
            result = [Rep(result, fill=True, last=often.last, start=start, end=end)]
    return cast(list[Item], result)
