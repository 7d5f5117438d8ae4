"""One amount of one stitch in its place, in every meaning it can have: "2 sc in each of next 3 sts"."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, cast

from hookside.notation.bodies.chunks import MAYBE_TWO, Chunk, Doubt, Place, Times
from hookside.notation.trees.nodes import Choice, Item, Mark, Node, Rep, Skip, Work, works_in
from hookside.stitches import TABLE, Stitch

# "2 sc around" may be two in each stitch; nobody means thirty in each by "30 sc around" (common practice, no source)
_MOST_IN_EACH = 9
_ANY_STITCH = frozenset(["", "st", "sts", "stitch", "stitches", "sc", "ch"])


class Working:
    """The stitch phrases of one body. `own`: stitches the text defines itself."""

    def __init__(self, own: dict[str, Stitch]) -> None:
        self.own = own

    def entry(self, key: str) -> Stitch:
        return self.own.get(key) or TABLE[key]

    def worked(self, amount: Chunk | None, stitch: Chunk | None, modifiers: list[Chunk], after: bool) -> list[Item]:
        """One amount of one stitch, wherever its words stood."""
        key = stitch.value if stitch else "sc"
        n = amount.value[0] if amount else None
        number = (amount.value[1], amount.value[2]) if amount else None
        start = min(c.start for c in (amount, stitch, *modifiers) if c is not None)
        end = max(c.end for c in (amount, stitch, *modifiers) if c is not None)
        if not modifiers and stitch is not None and not isinstance(stitch.value, Doubt):
            return cast(list[Item], self._one(n, key, None, number, after, start, end))
        places = [c.value for c in modifiers if c.type in ("PLACE", "ANDPLACE")]
        often = [c.value for c in modifiers if c.type == "TIMES"]
        loops = next((c.value for c in modifiers if c.type == "LOOPSPOST"), None)
        colour = next((c.value for c in modifiers if c.type == "COLOURPOST"), None)
        if (
            len(often) == 1
            and amount is None
            and len(places) == 1
            and not often[0].fill
            and not often[0].more
            and (
                (places[0].n == 1 and places[0].kind in ("next", "one", "first", "last", "same"))
                or (places[0].kind == "hook" and places[0].each)
            )
            and modifiers.index(next(c for c in modifiers if c.type == "TIMES"))
            < modifiers.index(next(c for c in modifiers if c.type == "PLACE" or c.type == "ANDPLACE"))
        ):
            n, number = often.pop().n, None  # "sc 3 times in next st": three in that one; "sc x3 from 2nd ch"
        spread: Place | None = None
        first_and = next((i for i, c in enumerate(modifiers) if c.type == "ANDPLACE"), None)
        told_twice = len(places) == 2 and places[0].kind not in ("fill", "hook")
        if told_twice and places[1].kind == "fill" and (first_and is None or not (places[1].noun or places[1].each)):
            spread, first_and = places.pop(), None  # "2 sc in next around", and with a comma in front of the last word
        order = [c.type for c in modifiers if c.type in ("TIMES", "PLACE", "ANDPLACE")]
        few = order == ["TIMES", "PLACE"] and len(often) == len(places) == 1 and amount is None
        few = few and often[0].n in (2, 3) and not (often[0].fill or often[0].more or often[0].uses)
        if few and places[0].kind == "fill" and not (places[0].noun or places[0].each):
            spread = places.pop()  # "sc 4, inc twice, around": all of it goes around, with both
        if len(places) == 2 and places[0].kind == "hook" and (places[1].kind in ("same", "one")) and first_and is None:
            places.pop()  # "start in 2nd ch: 2 sc in this ch"
        if len(places) == 2 and places[0].kind == "hook" and places[1].kind == "fill" and first_and is None:
            hook = places.pop(0)  # "starting in 2nd ch, sc across"
            places[0].hook = hook.n
        nodes: list[Node] = []
        if key == "ch" and places and places[0].kind == "ring":
            return [Mark("ring"), Work("ch", n=n or 1, start=start, end=end)]
        places = _from_hook(places)
        spots: list[Place | None] = [*places] or [None]
        for place in spots:
            here = self._one(n, key, place, number, after, start, end)
            if len(spots) > 1 and place is not None and place.kind == "first":
                for work in works_in(here):
                    work.order = 1
            nodes.extend(here)
        if len(places) == 2 and places[0].kind == "hook" and places[0].each and places[1].kind == "next" and n is None:
            along = replace(places[1], hook=places[0].n)  # "start in 2nd ch, sc in next 4": four or five?
            nodes = [Choice([nodes, self._one(n, key, along, number, after, start, end)], "start and behind it")]
        for node in works_in(nodes):
            node.loops = loops or (places[0].loops if places and places[0] else None)
            node.colour = colour
            node.bare = stitch is None
            node.placed = bool(places)
            if len(places) == 1 and places[0].n == 1 and places[0].kind in ("next", "one", "first", "last", "same"):
                node.one_place = "all" if places[0].all_in else "one"
            node.tip = bool(places) and places[-1].kind == "last"
            node.first = len(places) == 1 and places[0].kind == "first"
        if spread is not None:
            for node in works_in(nodes):
                node.spread = True
                node.last = spread.last
        for times in often:
            nodes = _multiplied(nodes, times)
        if stitch is not None and isinstance(stitch.value, Doubt) and amount is not None and after:
            first = Work(MAYBE_TWO[stitch.value][0], start=start, end=end)
            # "sc inc 1" is a plain one and an increase, "hdc inc 4" mostly four of the one
            return [Choice([[first, *nodes], nodes], "two stitches or one")]
        if stitch is not None and isinstance(stitch.value, Doubt) and amount is None:
            plain = Work(MAYBE_TWO[stitch.value][0], start=start, end=end)
            return [Choice([nodes, [plain, *nodes]], "one stitch or two")]
        if stitch is not None and isinstance(stitch.value, Doubt) and amount is not None and not after:
            named, shapes = MAYBE_TWO[stitch.value]
            plain = Work(named, n=amount.value[0], start=start, end=end, number=number)
            single = self.worked(None, Chunk("ST", shapes, stitch.start, stitch.end), modifiers, False)
            ways = [nodes, [plain, *cast(list[Node], single)]]
            if amount.value[0] == 2 and stitch.value == "inc":
                ways.append(cast(list[Node], single))
            if len(places) == 1 and places[0].kind == "fill" and not places[0].hook:
                # "1 sc inc around": nobody counts the one increase that goes all the way round
                return [Choice([ways[1], ways[0], *ways[2:]], "two stitches or one")]
            return [Choice(ways, "one stitch or two")]
        return cast(list[Item], nodes)

    def _one(
        self,
        n: int | None,
        key: str,
        place: Place | None,
        number: tuple[int, int] | None,
        after: bool,
        start: int,
        end: int,
    ) -> list[Node]:
        entry = self.entry(key)
        amount = n if n is not None else 1
        shrinks = entry.uses >= 2

        def work(**more: Any) -> Work:
            return Work(
                key, start=start, end=end, number=more.pop("number", number), noun=place.noun if place else "", **more
            )

        if place is None or key == "ch":
            plain = work(n=amount, alone=n is None and key not in ("ch", "sl st", "join"))
            if after and key == "inc" and amount in (3, 4, 5):
                several = Work("sc", n=1, per=amount, start=start, end=end, number=number)
                return [Choice([[plain], [several]], "increases or stitches in one")]
            if after and key in ("dec", "inv dec") and amount == 3:
                return [
                    Choice(
                        [[plain], [Work("sc3tog", start=start, end=end, number=number)]],
                        "decreases or stitches together",
                    )
                ]
            return [plain]
        if place.kind == "every":
            joined = key if entry.uses == place.n else f"{key}{place.n}tog" if place.together else ""
            if joined == key or joined in TABLE:
                return [Work(joined, fill=True, start=start, end=end)]
            if entry.makes < 2:
                return [work(n=place.n, per=amount, number=place.number)]
            place = Place("nth", n=place.n)
        if place.together:
            joined = f"{key}{place.n}tog"
            if joined in TABLE:
                return [work(n=amount) if joined == key else Work(joined, n=amount, start=start, end=end)]
            return [work(n=1)]
        kind = place.kind
        if kind == "last" and place.n > 1:
            kind = "next"
        if kind == "next" and place.hook:
            first = work(n=1, per=amount, base="hook", hook=place.hook, number=None)
            return [first, work(n=place.n - 1, per=amount, number=None)] if place.n > 1 else [first]
        if kind == "next":
            m = place.n
            if shrinks and place.over and m == 3 and n in (None, 1) and key in ("dec", "inv dec"):
                return [Work("sc3tog", start=start, end=end)]
            if shrinks:
                if m == 1:
                    return [work(n=amount)]
                if place.each and m % entry.uses:
                    return [work(n=m, number=place.number)]
                if m % entry.uses == 0 and n in (None, 1, m // entry.uses):
                    return [
                        Choice([[work(n=m // entry.uses)], [work(n=m, number=place.number)]], "places or decreases")
                    ]
                return [work(n=amount * 1)] if n else [work(n=m, number=place.number)]
            if n is None or n == 1:
                return [work(n=m, number=place.number or number)]
            if m == 1:
                return [work(n=amount)] if entry.makes >= 2 else [work(n=1, per=amount)]
            if place.each:
                return [work(n=m, per=amount, number=place.number)]
            if m == amount or entry.makes >= 2:
                return [Choice([[work(n=amount)], [work(n=m, per=amount, number=place.number)]], "spread or in each")]
            return [Choice([[work(n=m, per=amount, number=place.number)], [work(n=amount)]], "in each or spread")]
        if kind == "ends":
            middle = Work(entry.of if entry.of in TABLE else "sc", fill=True, start=start, end=end)
            if place.noun == "one":
                return [work(n=1, number=None), middle] if place.n == 1 else [middle, work(n=1, number=None)]
            return [work(n=1, number=None), middle, work(n=1, number=None)]
        if kind == "order":
            return [
                work(
                    n=amount if shrinks or entry.makes >= 2 else 1, per=1 if entry.makes >= 2 else amount, order=place.n
                )
            ]
        if kind == "evenly":
            if place.last:
                return [work(n=1, evenly=1, result=place.last)]
            return [work(n=place.n, evenly=place.n)]
        if kind == "piece":
            if place.n > 1:  # "in each of the 12 sts of the first leg"
                return [work(n=place.n * amount if place.each or n is None else amount, base="piece")]
            if place.each:
                return [work(n=1, per=amount, base="piece", fill=True)]
            return [work(n=amount, base="piece", fill=n is None)]
        if kind == "chain":
            if place.n > 1:
                return [work(n=place.n * amount if place.each or n is None else amount, base="bridge")]
            if place.each:
                return [work(n=1, per=amount, base="bridge", fill=True)]
            return [work(n=amount, base="bridge", fill=n is None)]
        if kind == "one" and place.noun == "top":
            return [Choice([[work(n=1, per=amount)], [work(n=amount, base="same")]], "beside the counted")]
        if kind in ("one", "first", "last"):
            if entry.makes >= 2 or shrinks:
                return [work(n=amount)]
            return [work(n=1, per=amount)]
        if kind == "same":
            if place.noun:  # "3 dc in same sp": where the slip stitch or the chain before it went
                return [work(n=amount, base="same")]
            if amount >= 2 and entry.makes == 1 and not shrinks:
                return [Choice([[work(n=amount, base="same")], [work(n=1, per=amount)]], "same or next")]
            return [work(n=amount, base="same")]
        if kind == "skipped":
            each = n is None or amount == 1 or place.each
            return [work(n=amount * place.n if each else max(amount, place.n), base="skipped")]
        if kind == "ring":
            return [work(n=amount, base="ring")]
        if kind == "hook":
            if entry.makes >= 2 and amount > 1:
                return [work(n=amount, base="hook", hook=place.n)]
            if place.each and amount > 1:
                along: list[Node] = [work(n=1, base="hook", hook=place.n, number=None), work(n=amount - 1, number=None)]
                return [Choice([along, [work(n=1, per=amount, base="hook", hook=place.n)]], "all told or in each")]
            return [work(n=1, per=amount, base="hook", hook=place.n)]
        if kind == "space":
            if place.n > 1:
                return [work(n=place.n * amount, base="space", places=place.n)]
            return [work(n=amount, base="space")]
        if kind == "nth" and shrinks and place.n >= entry.uses:
            before = Work(entry.of if entry.of in TABLE else "sc", n=place.n - entry.uses, start=start, end=end)
            every: list[Node] = [Rep([before, work(n=1)] if before.n else [work(n=1)], fill=True, nth=True)]
            # "dec every 3rd" mostly takes in the third; some mean that it stands behind three others, less one
            behind = Work(before.key, n=before.n + 1, start=start, end=end)
            return [Choice([every, [Rep([behind, work(n=1)], fill=True, nth=True)]], "every so manieth")]
        if kind == "apart":
            apart = [n for n in (place.n, place.n - 2, place.n - 1) if n >= 0 and (shrinks or n != place.n - 2)]
            between_them = [Work(entry.of if entry.of in TABLE else "sc", n=n, start=start, end=end) for n in apart]
            spaced: list[list[Node]] = [
                [Rep([p, work(n=1)] if p.n else [work(n=1)], fill=True, nth=True)] for p in between_them
            ]
            return [Choice(spaced, "every so many")]
        if kind == "nth":
            if place.noun:
                return [Rep([work(n=1, per=amount), Skip(0, gaps=place.n - 1)], fill=True)]
            if entry.makes < 2 and amount < 2:
                passing: list[Node] = [Rep([work(n=1), Skip(place.n - 1)], fill=True)]
                if entry.of in ("", key):
                    return passing
                # "a bobble in every third st": it adorns a round of plain stitches, and mostly none is passed over
                among = Work("sc", n=place.n - 1, start=start, end=end)
                return [Choice([[Rep([among, work(n=1)], fill=True, nth=True)], passing], "adorned")]
            between = Work(entry.of if entry.of in TABLE else "sc", n=place.n - 1, start=start, end=end)
            return [Rep([between, work(n=1, per=1 if entry.makes > 1 else amount)], fill=True, nth=True)]
        # a fill
        if place.hook:
            if amount > 1 and not place.each:
                return [work(n=1, base="hook", hook=place.hook, number=None), work(n=amount - 1, number=None)]
            first = work(n=1, per=amount, base="hook", hook=place.hook, number=None)
            return [first, work(n=1, per=amount, fill=True, last=place.last, number=None)]
        if place.last and shrinks:
            return [Choice([[work(n=1, fill=True, last=place.last)], [work(n=1, fill=True)]], "kept back or left")]
        if amount > 1 and (not place.each or amount > 2) and (entry.makes >= 2 or shrinks):
            spread = work(n=amount, evenly=amount) if not place.last else work(n=amount)
            ways: list[list[Node]] = [[work(n=amount)], [spread], [work(n=1, fill=True, last=place.last)]]
            return [Choice(ways, "all told or spread")]  # "6 inc around (30)": never six in each stitch
        filled = work(n=1, per=amount, fill=True, last=place.last)
        if amount > _MOST_IN_EACH and not place.each:
            return [work(n=amount)]
        if amount > _MOST_IN_EACH and place.noun in _ANY_STITCH:  # "18 sc in each st": so many, and one goes into each
            return [Choice([[work(n=amount)], [filled]], "spread or in each")]
        if amount > 1 and not place.each:
            return [Choice([[work(n=amount)], [filled]], "all told or in each")]
        return [filled]


def _from_hook(places: list[Place]) -> list[Place]:
    """ "along the chain starting in 2nd ch": two places that are one."""
    if len(places) == 2 and places[1].kind == "hook" and places[0].kind in ("one", "fill", "next", "chain"):
        along, hook = places
        along.kind = "fill" if along.kind in ("one", "chain") else along.kind
        along.hook = hook.n
        return [along]
    if len(places) == 1 and places[0].hook and places[0].kind in ("one", "space"):
        places[0].kind = "fill"
    return places


def _multiplied(nodes: list[Node], times: Times) -> list[Node]:
    """ "... x 6" behind one stitch."""
    if times.fill:
        for node in works_in(nodes):
            node.spread = True
            node.last = times.last
        return nodes
    n = times.n + (1 if times.more else 0)
    for node in works_in(nodes):
        if node.fill:
            node.times = times.n  # "sc around once more" is one round, as one stood before it
        if not node.fill:
            if node.n == 1 and node.per == 1:
                node.number = times.number
            node.n *= n
            node.alone = False
            node.times = n
    return nodes
