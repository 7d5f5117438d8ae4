"""Fifth stage: phrases -> tree. Where a phrase can mean two things the tree holds a Choice, first meaning first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, cast

from lark import Lark, Transformer, UnexpectedInput
from lark.lexer import Lexer

from hookside.notation.bodies.chunks import Chunk, Doubt, Phrases, Place, Times
from hookside.stitches import TABLE, Stitch

MOST_REPEATS = 500
MOST_NESTED = 8
MOST_STITCHES = 2000
_SHARING = frozenset({"sc", "hdc", "dc", "tr", "dtr", "sl st", "esc"})


@dataclass(slots=True)
class Work:
    """`n` times `per` stitches in one place; `fill`: as often as it goes, `last` places kept back."""

    key: str
    n: int = 1
    per: int = 1
    base: str = "next"  # next, same, ring, hook, space
    hook: int = 0
    fill: bool = False
    last: int = 0
    loops: str | None = None
    colour: str | None = None
    start: int = 0
    end: int = 0
    number: tuple[int, int] | None = None
    times: int | None = None  # a multiplier printed behind it, which may have been meant for more than it
    spread: bool = False  # "around" behind a stitch that already has its place
    bare: bool = False
    noun: str = ""
    alone: bool = False  # a stitch without amount or place
    evenly: int = 0  # so many of it with plain stitches between
    places: int = 1  # spaces it goes into
    order: int = 0  # "in the third st": its number, counted from the start of its list
    one_place: str = ""  # its words name one stitch to go into: "one", or "all" where several are told to
    placed: bool = False  # its words name a place
    tip: bool = False  # it goes into the last stitch


@dataclass(slots=True)
class Rep:
    """Nodes again and again."""

    body: list[Node]
    times: int = 1
    fill: bool = False
    last: int = 0
    nth: bool = False  # "inc in every 3rd st": the plain stitches between are only meant
    uses: int | None = None
    base: str = "next"
    loops: str | None = None
    colour: str | None = None
    start: int = 0
    end: int = 0
    number: tuple[int, int] | None = None


@dataclass(slots=True)
class One:
    """Several stitches in one place, `n` places."""

    body: list[Node]
    n: int = 1
    fill: bool = False
    last: int = 0
    base: str = "next"
    hook: int = 0
    loops: str | None = None
    colour: str | None = None


@dataclass(slots=True)
class Skip:
    n: int


@dataclass(slots=True)
class Mark:
    """ring, join, turn, "other side", "closed ring"; `how` "either": a join that may be a stitch."""

    name: str
    how: str | None = None


@dataclass(slots=True)
class Tone:
    """From here on: loops or colour."""

    loops: str | None = None
    colour: str | None = None
    sets_loops: bool = False


@dataclass(slots=True)
class CueAt:
    index: int


@dataclass(slots=True)
class Choice:
    """One of several meanings; `why` names the double meaning."""

    options: list[list[Node]]
    why: str
    index: int = -1


@dataclass(slots=True)
class _StarOpen:
    pass


@dataclass(slots=True)
class _StarClose:
    modifiers: list[Chunk]


@dataclass(slots=True)
class _Again:
    times: Times
    star: bool


@dataclass(slots=True)
class _And:
    """ "and" between two stitches: they may share the place behind the second."""


Node = Work | Rep | One | Skip | Mark | Tone | CueAt | Choice
Item = Node | _StarOpen | _StarClose | _Again | _And


@dataclass(slots=True)
class Tree:
    """A body as a tree. `choices[i].index == i`."""

    items: list[Node] = field(default_factory=list)
    choices: list[Choice] = field(default_factory=list)
    failed: str = ""


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


class Builder(Transformer[Any, list[Node]]):
    """Tree callbacks. Each rule returns a list of items, joined and folded by its parent."""

    def __init__(self, own: dict[str, Stitch]) -> None:
        super().__init__(visit_tokens=False)
        self.own = own

    def entry(self, key: str) -> Stitch:
        return self.own.get(key) or TABLE[key]

    def start(self, children: list[Any]) -> list[Node]:
        nodes = fold(_joined(children))
        worked = [n for n in nodes if not _is_lead(n) and not isinstance(n, Mark)]
        if len(worked) == 1 and isinstance(worked[0], Work) and worked[0].alone:
            worked[0].fill = True  # "Rnd 4: sc" is sc all the way round
        return nodes

    def pending(self, _: list[Any]) -> list[Item]:
        return [_StarOpen()]

    def starred(self, children: list[Chunk]) -> list[Item]:
        return [_StarClose(children[1:])]

    def repfrom(self, children: list[Chunk]) -> list[Item]:
        return [_Again(children[0].value, True)]

    def repall(self, children: list[Chunk]) -> list[Item]:
        return [_Again(children[0].value, False)]

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
        return [Skip(children[0].value[0])]

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
        return self.worked(
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
        return self.worked(amount, stitch, modifiers, after)

    def worked(self, amount: Chunk | None, stitch: Chunk | None, modifiers: list[Chunk], after: bool) -> list[Item]:
        """One amount of one stitch, wherever its words stood."""
        key = stitch.value if stitch else "sc"
        n = amount.value[0] if amount else None
        number = (amount.value[1], amount.value[2]) if amount else None
        start = min(c.start for c in (amount, stitch, *modifiers) if c is not None)
        end = max(c.end for c in (amount, stitch, *modifiers) if c is not None)
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
            and places[0].n == 1
            and places[0].kind in ("next", "one", "first", "last", "same")
            and modifiers.index(next(c for c in modifiers if c.type == "TIMES"))
            < modifiers.index(next(c for c in modifiers if c.type == "PLACE" or c.type == "ANDPLACE"))
        ):
            n, number = often.pop().n, None  # "sc 3 times in next st": three in that one
        spread: Place | None = None
        first_and = next((i for i, c in enumerate(modifiers) if c.type == "ANDPLACE"), None)
        if len(places) == 2 and first_and is None and places[1].kind == "fill" and places[0].kind != "fill":
            spread = places.pop()
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
            nodes.extend(self._one(n, key, place, number, after, start, end))
        for node in _works(nodes):
            node.loops = loops or (places[0].loops if places and places[0] else None)
            node.colour = colour
            node.bare = stitch is None
            node.placed = bool(places)
            if len(places) == 1 and places[0].n == 1 and places[0].kind in ("next", "one", "first", "last", "same"):
                node.one_place = "all" if places[0].all_in else "one"
            node.tip = bool(places) and places[-1].kind == "last"
        if spread is not None:
            for node in _works(nodes):
                node.spread = True
                node.last = spread.last
        for times in often:
            nodes = _multiplied(nodes, times)
        if stitch is not None and isinstance(stitch.value, Doubt) and amount is None:
            plain = Work("sc", start=start, end=end)
            return [Choice([nodes, [plain, *nodes]], "one stitch or two")]
        if stitch is not None and isinstance(stitch.value, Doubt) and amount is not None and not after:
            plain = Work("sc", n=amount.value[0], start=start, end=end, number=number)
            single = self.worked(None, Chunk("ST", str(stitch.value), stitch.start, stitch.end), modifiers, False)
            ways = [nodes, [plain, *cast(list[Node], single)]]
            if amount.value[0] == 2 and stitch.value == "inc":
                ways.append(cast(list[Node], single))
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
            return [work(n=1, number=None), middle, work(n=1, number=None)]
        if kind == "order":
            return [
                work(
                    n=amount if shrinks or entry.makes >= 2 else 1, per=1 if entry.makes >= 2 else amount, order=place.n
                )
            ]
        if kind == "evenly":
            return [work(n=place.n, evenly=place.n)]
        if kind == "piece":
            return [work(n=amount, base="piece", fill=n is None)]
        if kind == "chain":
            return [work(n=amount, base="bridge", fill=n is None)]
        if kind == "one" and place.noun == "top":
            return [Choice([[work(n=1, per=amount)], [work(n=amount, base="same")]], "beside the counted")]
        if kind in ("one", "first", "last"):
            if entry.makes >= 2 or shrinks:
                return [work(n=amount)]
            return [work(n=1, per=amount)]
        if kind == "same":
            if amount >= 2 and entry.makes == 1 and not shrinks:
                return [Choice([[work(n=amount, base="same")], [work(n=1, per=amount)]], "same or next")]
            return [work(n=amount, base="same")]
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
            return [Rep([before, work(n=1)] if before.n else [work(n=1)], fill=True, nth=True)]
        if kind == "nth":
            if entry.makes < 2 and amount < 2:
                return [Rep([work(n=1), Skip(place.n - 1)], fill=True)]
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
        filled = work(n=1, per=amount, fill=True, last=place.last)
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


def _works(nodes: list[Node]) -> Iterator[Work]:
    for node in nodes:
        if isinstance(node, Work):
            yield node
        elif isinstance(node, Choice):
            for option in node.options:
                yield from _works(option)


def _multiplied(nodes: list[Node], times: Times) -> list[Node]:
    """ "... x 6" behind one stitch."""
    if times.fill:
        for node in _works(nodes):
            node.spread = True
            node.last = times.last
        return nodes
    n = times.n + (1 if times.more else 0)
    for node in _works(nodes):
        if node.fill:
            node.times = n
        if not node.fill:
            if node.n == 1 and node.per == 1:
                node.number = times.number
            node.n *= n
            node.alone = False
            node.times = n
    return nodes


def _joined(children: list[Any]) -> list[Item]:
    out: list[Item] = []
    for child in children:
        if isinstance(child, list):
            out.extend(child)
        elif isinstance(child, Chunk) and child.type == "SEP" and child.value == "and":
            out.append(_And())
    return out


def _count(times: Times) -> int:
    return times.n + (1 if times.more else 0)


_ACTIONS = (Mark, CueAt, Tone)


def _is_lead(node: Node) -> bool:
    """What stands before the stitches of a course and is not repeated with them."""
    if isinstance(node, Mark):
        return node.name != "other side"
    if isinstance(node, Choice):
        return node.why == "join or stitch"
    return isinstance(node, CueAt | Tone) or (isinstance(node, Work) and node.key == "ch" and node.n <= 4)


def fold(items: list[Item]) -> list[Node]:
    """Resolves stars and "repeat"s, and multipliers that may reach further back than one stitch."""
    out: list[Any] = []
    for item in _picots(_shared(items)):
        if isinstance(item, _StarClose):
            at = _last_star(out)
            if at is None:
                continue
            body = cast(list[Node], out[at + 1 :])
            del out[at:]
            out.extend(repeated(body, item.modifiers, 0, 0, bracket=False))
        elif isinstance(item, _Again):
            at = _last_star(out)
            if at is None:
                at = -1
                while at + 1 < len(out) and _is_lead(out[at + 1]):
                    at += 1
                body = cast(list[Node], out[at + 1 :])
                del out[at + 1 :]
            else:
                body = cast(list[Node], out[at + 1 :])
                del out[at:]
            out.extend(_again(body, item.times))
        else:
            out.append(item)
    nodes = cast(list[Node], [i for i in out if not isinstance(i, _StarOpen)])
    return _levelled(_reach_back(_among(nodes)))


def _among(nodes: list[Node]) -> list[Node]:
    """ "sc in each st, inc in every 6th st": the shaping is among those stitches, not behind them."""
    for at in range(len(nodes) - 1):
        plain, shaped = nodes[at], nodes[at + 1]
        if (
            isinstance(plain, Work)
            and plain.fill
            and plain.per == 1
            and isinstance(shaped, Rep)
            and shaped.nth
            and isinstance(shaped.body[0], Work)
        ):
            shaped.body[0].key = plain.key
            return [*nodes[:at], *nodes[at + 1 :]]
    return nodes


def _levelled(nodes: list[Node]) -> list[Node]:
    """A bare "sl st" behind a stretch that goes all the way closes the round; it may yet be a stitch of its own."""
    if len(nodes) < 2:
        return nodes
    last = nodes[-1]
    if not isinstance(last, Work) or last.key != "sl st" or last.placed or last.number or last.n != 1 or last.fill:
        return nodes
    if not any(isinstance(n, Work | Rep | One) and n.fill for n in _flat(nodes[:-1])):
        return nodes
    return [*nodes[:-1], Choice([[Mark("join")], [last]], "join or stitch")]


def _flat(nodes: list[Node]) -> Iterator[Node]:
    for node in nodes:
        if isinstance(node, Choice):
            for option in node.options:
                yield from _flat(option)
        else:
            yield node


def _may_share(node: Item) -> bool:
    """A few plain stitches of one kind, and no place behind them."""
    return (
        isinstance(node, Work)
        and not (node.placed or node.fill or node.evenly or node.times)
        and node.n * node.per <= 3
        and node.key in _SHARING
    )


def _shared(items: list[Item]) -> list[Item]:
    """ "sc and hdc in next st", "sc, hdc, dc all in next st": several stitches in the one place that is named."""
    out: list[Item] = []
    for at, item in enumerate(items):
        if not isinstance(item, _And):
            last = (
                item.one_place
                if isinstance(item, Work) and item.key in _SHARING and item.base in ("next", "same")
                else ""
            )
            behind = bool(last) and at > 0 and isinstance(items[at - 1], _And)
            first = len(out)
            if last == "all":
                while first and _may_share(out[first - 1]):
                    first -= 1
            elif behind and out and _may_share(out[-1]):
                first -= 1
                back = at - 1
                while first and back >= 2 and isinstance(items[back - 2], _And) and _may_share(out[first - 1]):
                    first -= 1
                    back -= 2
            if first < len(out) and isinstance(item, Work):
                apart = cast(list[Node], [*out[first:], item])
                del out[first:]
                one: list[Node] = [One(apart, base="same" if item.base == "same" else "next")]
                out.append(Choice([one, apart], "together or apart") if last != "all" else one[0])
                continue
            out.append(item)
    return out


def _picots(nodes: list[Item]) -> list[Item]:
    """ "ch 3, sl st in 3rd ch from hook" is a picot written out: no stitch of the course below, none for the next."""
    out: list[Item] = []
    used = 0
    for node in nodes:
        before = out[-1] if out else None
        if isinstance(node, Work) and node.order:
            if node.order - 1 > used:
                out.append(Skip(node.order - 1 - used))
            used = max(used, node.order)
        elif isinstance(node, Work) and not node.fill and node.base == "next" and node.key in TABLE:
            used += TABLE[node.key].uses * node.n
        elif isinstance(node, Skip):
            used += node.n
        elif isinstance(node, _StarOpen):
            used = 0
        if (
            isinstance(node, Work)
            and isinstance(before, Work)
            and node.key == "sl st"
            and node.base == "hook"
            and before.key == "ch"
            and before.n == node.hook
            and 2 <= node.hook <= 6
        ):
            out[-1] = Work("picot", start=before.start, end=node.end, loops=node.loops, colour=node.colour)
        else:
            out.append(node)
    return out


def _last_star(out: list[Any]) -> int | None:
    for at in range(len(out) - 1, -1, -1):
        if isinstance(out[at], _StarOpen):
            return at
    return None


def _again(body: list[Node], times: Times) -> list[Node]:
    body = [n for n in body if not isinstance(n, _StarOpen)]
    if not body:
        return []
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


def repeated(body: list[Node], modifiers: list[Chunk], start: int, end: int, bracket: bool) -> list[Item]:
    """A bracket or a starred stretch with what stands behind it."""
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
    if place is None:
        if not times:
            if any(isinstance(n, Work) and (n.fill or n.spread) for n in worked):
                result = [Rep(body, **span)]
            else:
                result = [Choice([[Rep(body, **span)], [Rep(body, fill=True, **span)]], "missing multiplier")]
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
        return cast(list[Item], result)
    kind = place.kind
    if kind == "fill":
        whole: list[Node] = [Rep(body, fill=True, last=place.last, **span)]
        if place.each:
            result = [Choice([[One(body, fill=True, last=place.last, **tone)], whole], "in each or along")]
        else:
            result = whole
    elif kind == "ring":
        result = [Rep(body, base="ring", **span)]
    elif kind == "hook":
        result = [One(body, base="hook", hook=place.n, **tone)]
    elif kind == "next" and place.n > 1:
        one: list[Node] = [One(body, n=place.n, **tone)]
        along: list[Node] = [Rep(body, uses=place.n, **span)]
        result = [Choice([one, along] if place.each else [along, one], "in each or along")]
    else:
        result = [One(body, base="same" if kind == "same" else "space" if kind == "space" else "next", **tone)]
    for often in times:
        if not often.fill:
            result = [Rep(result, times=_count(often), number=often.number, start=start, end=end)]
        else:
            result = [Rep(result, fill=True, last=often.last, start=start, end=end)]
    return cast(list[Item], result)


def _plain(work: Work, **changes: Any) -> Work:
    values = {name: getattr(work, name) for name in Work.__slots__}
    values.update(changes)
    return Work(**values)


def _reach_back(nodes: list[Node]) -> list[Node]:
    if any(isinstance(n, Choice) and n.why == "one stitch or two" for n in nodes):
        ways: list[list[Node]] = [[], [], []]
        most = 2
        for node in nodes:
            if isinstance(node, Choice) and node.why == "one stitch or two":
                most = max(most, len(node.options))
                for at, way in enumerate(ways):
                    way.extend(node.options[min(at, len(node.options) - 1)])
            else:
                for way in ways:
                    way.append(node)
        return [Choice([_reach(way) for way in ways[:most]], "one stitch or two")]
    return _reach(nodes)


def _reach(nodes: list[Node]) -> list[Node]:
    """ "2 sc, inc x 6" may mean that both are worked six times; "sc in next, inc in next around" surely does."""
    if not nodes:
        return nodes
    at = len(nodes) - 1
    while at >= 0 and (_is_lead(nodes[at]) or isinstance(nodes[at], Mark)):
        at -= 1
    if at < 0:
        return nodes
    last = nodes[at]
    if not isinstance(last, Work):
        if isinstance(last, Choice) and any(w.spread for w in _works([last])):
            for work in _works([last]):
                work.fill = True
        return nodes
    first = 0
    while first < at and _is_lead(nodes[first]):
        first += 1
    before = nodes[first:at]
    simple = before and all(
        (isinstance(n, Work) and not n.fill and n.key != "ch") or isinstance(n, Skip) for n in before
    )
    if last.spread:
        alone = _plain(last, fill=True, n=1, spread=False)
        if not before or not simple:
            return [*nodes[:at], alone, *nodes[at + 1 :]]
        both: list[Node] = [Rep([*before, _plain(last, spread=False, last=0)], fill=True, last=last.last)]
        return [*nodes[:first], Choice([both, [*before, alone]], "what goes around"), *nodes[at + 1 :]]
    if last.fill and not last.last and last.noun == "" and simple and last.base == "next":
        each = Rep([*before, _plain(last, fill=False, n=1)], fill=True)
        options: list[list[Node]] = [[each], [*before, last]]
        if last.key in ("sc", "hdc", "dc", "tr") and last.per == 1:
            options.reverse()
        return [*nodes[:first], Choice(options, "what goes around"), *nodes[at + 1 :]]
    if last.times is not None and last.times > 1 and simple:
        single = _plain(last, n=max(1, last.n // last.times), times=None, number=None)
        both = [Rep([*before, single], times=last.times, number=last.number)]
        return [*nodes[:first], Choice([[*before, last], both], "what is multiplied"), *nodes[at + 1 :]]
    return nodes


_PARSERS: dict[int, Lark] = {}


def _parser() -> Lark:
    if not _PARSERS:
        _PARSERS[0] = _grammar()
    return _PARSERS[0]


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
        elif isinstance(node, Rep | One):
            deepest = max(deepest, _number(node.body, into, depth + 1))
    return deepest


def build(phrases: Phrases, own: dict[str, Stitch]) -> Tree:
    """The tree of a body; `failed` says why there is none."""
    depth = 0
    for chunk in phrases.chunks:
        depth += (chunk.type == "OPEN") - (chunk.type == "CLOSE")
        if depth > MOST_NESTED:
            return Tree(failed="nesting")
    try:
        parsed = _parser().parse(cast(Any, phrases.chunks))
    except UnexpectedInput:
        return Tree(failed="order")
    items = Builder(own).transform(parsed)
    tree = Tree(items)
    if _number(items, tree.choices) > MOST_NESTED:
        return Tree(failed="nesting")
    return tree
