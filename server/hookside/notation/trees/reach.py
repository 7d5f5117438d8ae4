"""How far back a multiplier, an "around" or an "and" reaches: "2 sc, inc x 6", "sc and hdc in next st"."""

from __future__ import annotations

import re
from typing import Any, cast

from hookside.notation.bodies.wording.places import CHAINS, CORNER, SPACE, STITCH_TOO, TO_SPACE
from hookside.notation.trees.nodes import (
    DOUBTS,
    PLACED,
    WORKING,
    And,
    Choice,
    CueAt,
    Item,
    Mark,
    Node,
    One,
    Rep,
    Skip,
    StarOpen,
    Work,
    flat,
    is_lead,
    leads_over,
    works_in,
)
from hookside.stitches import TABLE

_SHARING = frozenset({"sc", "hdc", "dc", "tr", "dtr", "sl st", "esc"})
_MOST_TURNING = 4  # chains up to the height of the next round
_RING_ROUND = 4  # stitches that are a first round; fewer are a leaf or a petal




def travelled(nodes: list[Node]) -> list[Node]:
    """ "Sl st in next 2 dc and in ch-2 sp, ch 3": slip stitches that only go to where a round starts, if so."""
    at = 0
    while at < len(nodes) and is_lead(nodes[at]) and not (isinstance(nodes[at], (Work, Choice))):
        at += 1
    first = at
    while at < len(nodes) and (_goes_on(nodes[at]) or (at > first and _slips_again(nodes[at]))):
        at += 1
    after = nodes[at : at + 2]
    if at == first:
        return nodes
    moved: list[Node] = [_plain(n, base="travel") for n in nodes[first:at] if isinstance(n, Work)]
    last = nodes[at - 1]
    to_space = isinstance(last, Work) and (
        last.base == "ring"
        or TO_SPACE.search(last.noun)
        or _LOOP.fullmatch(last.noun)  # "sl st into loop"
        or (CHAINS.search(last.noun) and _into_space(nodes[at:]))  # "sl st in next 2 chs, 5 sc in each ch-5 sp"
    )
    if to_space and not any(_goes_on(n) for n in flat(nodes[at:])):
        return [*nodes[:first], *moved, *nodes[at:]]
    if len(after) < 2 or not isinstance(after[0], Work) or after[0].key != "ch" or after[0].n > 4:
        return nodes
    if isinstance(after[1], PLACED) and after[1].base in ("same", "space"):
        return [*nodes[:first], *moved, *nodes[at:]]
    over: list[Node] = [_plain(n, base="slipped") for n in nodes[first:at] if isinstance(n, Work)]
    return [*nodes[:first], Choice([nodes[first:at], moved, over], "stitches or on the way"), *nodes[at:]]


def _goes_on(node: Node) -> bool:
    if not isinstance(node, Work) or node.key != "sl st" or not node.placed:
        return False
    return not node.fill and node.base in ("next", "space", "ring")


def _slips_again(node: Node) -> bool:
    """ "Sl st in first sp, sl st in same sp": it goes nowhere, and is no stitch either."""
    return isinstance(node, Work) and node.key == "sl st" and node.base == "same"


def _into_space(nodes: list[Node]) -> bool:
    """Does what is worked first go into a space?"""
    for node in nodes:
        if isinstance(node, (Choice, Rep)):
            return _into_space(node.options[0] if isinstance(node, Choice) else node.body)
        if isinstance(node, PLACED) and getattr(node, "key", "") != "ch":
            return SPACE.search(node.noun) is not None
    return False


_LOOP = re.compile(r"(?:ch(?:ain)?[- ]?)?(?:loops?|lps?|arch(?:es)?)")


def _into_spaces(nodes: list[Node]) -> list[Node]:
    """ "sc in each dc around, 3 sc in each ch-2 sp": the second goes into the spaces on the way, not behind.

    So does the first of "5 dc in each ch-3 sp and sc in each sc", where the stitches are told behind the spaces.
    """
    _before_stitches(nodes)
    filled = False
    for node in nodes:
        corner = _each_place(node)
        if isinstance(corner, One) and filled:
            corner.base = "space" if SPACE.search(corner.noun) or CORNER.search(corner.noun) else corner.base
        if isinstance(node, Work) and node.fill and node.base == "next":
            spaced = SPACE.search(node.noun) or _LOOP.fullmatch(node.noun) or CORNER.search(node.noun)
            if filled and spaced and not STITCH_TOO.search(node.noun):
                node.base = "space"
            filled = True
    return nodes


def _led(nodes: list[Node]) -> list[Node]:
    """ "In every loop work 1 sc, 3 dc, 1 sc": nothing is left behind a stretch, so all of it goes into each place."""
    at = next((i for i, n in enumerate(nodes) if isinstance(n, Work) and n.led and n.fill and not n.last), None)
    if at is None:
        return nodes
    end = at + 1
    while end < len(nodes) and _may_follow(nodes[end]):
        end += 1
    if end == at + 1 or any(not isinstance(n, (Mark, CueAt)) for n in nodes[end:]):
        return nodes
    first = nodes[at]
    assert isinstance(first, Work)
    body = [_plain(first, fill=False, n=first.per, per=1, noun="", led=False), *nodes[at + 1 : end]]
    return [*nodes[:at], One(body, fill=True, noun=first.noun), *nodes[end:]]


def _may_follow(node: Node) -> bool:
    return isinstance(node, Work) and not (node.placed or node.fill or node.times) and node.key in (*_SHARING, "ch")


def _before_stitches(nodes: list[Node]) -> None:
    """ "5 dc in each ch-3 sp, sc in each sc": spaces that a stretch into the stitches follows are gone into alone."""
    fills = [n for n in (_each_place(n) for n in nodes) if n is not None]
    for at, node in enumerate(fills[:-1]):
        spaced = SPACE.search(node.noun) and not STITCH_TOO.search(node.noun)
        behind = fills[at + 1].noun
        if spaced and node.base == "next" and behind and not (SPACE.search(behind) or CORNER.search(behind)):
            node.base = "space"


def _each_place(node: Node) -> Work | One | None:
    """What goes into each of the places it names, all the way."""
    if isinstance(node, Choice) and node.why == "in each or along":
        node = node.options[0][0]
    return node if isinstance(node, PLACED) and node.fill else None


def _among(nodes: list[Node]) -> list[Node]:
    """ "sc in each st, inc in every 6th st": the shaping is among those stitches, not behind them."""
    for at in range(len(nodes) - 1):
        plain, shaped = nodes[at], nodes[at + 1]
        if isinstance(plain, Work) and plain.fill and plain.per == 1 and isinstance(shaped, Work) and shaped.evenly:
            return [*nodes[:at], *nodes[at + 1 :]]  # "sc around, increasing 6 sts evenly"
        if isinstance(plain, Work) and plain.fill and isinstance(shaped, Rep) and not shaped.fill and shaped.times == 1:
            ahead = [n for n in shaped.body if isinstance(n, Work) and (n.first or n.order == 1)]
            if ahead:  # "sc around (inc in the first st)": told behind the others, and worked before them
                shaped.body = [n for n in shaped.body if n not in ahead]
                return [*nodes[:at], *ahead, plain, *([shaped] if shaped.body else []), *nodes[at + 2 :]]
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
    """A bare "sl st" that closes a round, or the one before: "..., sl st, ch 1"; it may yet be a stitch.

    Behind stitches all around it is none: nothing is left that it could be worked into, whatever the print comes to.
    """
    for at, node in enumerate(nodes):
        if isinstance(node, Choice) and node.why == "join or stitch" and any(_all_around(n) for n in nodes[:at]):
            nodes = [*nodes[:at], *node.options[0], *nodes[at + 1 :]]
            break
    first = nodes[0] if len(nodes) > 2 else None
    if first is not None and _bare_slip(first) and _few_chains(nodes[1]) and _whole(nodes[2:]):
        nodes = [Choice([[Mark("join")], [first]], "join or stitch"), *nodes[1:]]
    at = len(nodes) - 1
    while at > 1 and (isinstance(nodes[at], (Mark, CueAt)) or _few_chains(nodes[at])):
        at -= 1
    if at < 1 or not _bare_slip(nodes[at]):
        return nodes
    rises = any(isinstance(n, Work) for n in nodes[at + 1 :]) and not any(
        isinstance(n, Mark) and n.name == "turn" for n in nodes[at + 1 :]
    )
    if not _whole(nodes[:at], rises):
        return nodes
    before = reach_back(nodes[:at])  # "1 sc, inc x 6, ss, ch 1": what is multiplied stands in front of the join
    if any(_all_around(n) for n in nodes[:at]):
        return [*before, Mark("join"), *nodes[at + 1 :]]
    return [*before, Choice([[Mark("join")], [nodes[at]]], "join or stitch"), *nodes[at + 1 :]]


def _all_around(node: Node) -> bool:
    """Stitches into every stitch that is left: "inc around", "(sc, inc) all round"."""
    return isinstance(node, (Work, Rep)) and node.fill and not node.last and node.base == "next"


def _bare_slip(node: Node) -> bool:
    return (
        isinstance(node, Work)
        and node.key == "sl st"
        and not (node.placed or node.number or node.fill)
        and node.n == 1
    )


def _few_chains(node: Node) -> bool:
    return isinstance(node, Work) and node.key == "ch" and node.n <= _MOST_TURNING


def _whole(nodes: list[Node], rises: bool = False) -> bool:
    """Does it read as a whole round: a stretch all the way, a repeat at its end, from a turning chain or a ring on?

    `rises`: a chain that rises to the next round stands behind.
    """
    if any(isinstance(n, WORKING) and n.fill for n in flat(nodes)):
        return True
    last = nodes[-1]
    if isinstance(last, Rep) or (isinstance(last, Work) and (last.times or 1) > 1):
        return True
    ringed = rises or _few_chains(nodes[0]) or any(isinstance(n, Mark) and n.name == "ring" for n in nodes)
    return isinstance(last, Work) and last.key != "ch" and last.n >= _RING_ROUND and (ringed or last.base == "ring")


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
        if not isinstance(item, And):
            last = (
                item.one_place
                if isinstance(item, Work) and item.key in _SHARING and item.base in ("next", "same")
                else ""
            )
            behind = bool(last) and at > 0 and isinstance(items[at - 1], And)
            first = len(out)
            if last == "all":
                while first and _may_share(out[first - 1]):
                    first -= 1
            elif behind and out and _may_share(out[-1]):
                first -= 1
                back = at - 1
                while first and back >= 2 and isinstance(items[back - 2], And) and _may_share(out[first - 1]):
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
        elif isinstance(node, StarOpen):
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
        elif _closes_picot(node, out):
            chains = cast(Work, out.pop())
            stitch = cast(Work, node)
            picot = Work("picot", start=chains.start, end=stitch.end, loops=stitch.loops, colour=stitch.colour)
            out.append(Choice([[picot], [chains, stitch]], "closes a picot"))
        else:
            out.append(node)
    return out


def _closes_picot(node: Item, out: list[Item]) -> bool:
    """ "sc, ch 3, sl st in same st": is it the slip stitch that closes a few chains behind a stitch?"""
    if not isinstance(node, Work) or node.key != "sl st" or node.base != "same" or node.n != 1 or not out:
        return False
    chains, before = out[-1], out[-2] if len(out) > 1 else None
    if not (isinstance(chains, Work) and chains.key == "ch" and 2 <= chains.n <= 4):
        return False
    # "sc, (ch 3, sl st in same place, sc in next 3) twice": the stitch it closes to may stand before the bracket
    return before is None or (isinstance(before, (Work, Rep)) and getattr(before, "key", "") not in ("ch", "sl st"))


def _plain(work: Work, **changes: Any) -> Work:
    values = {name: getattr(work, name) for name in Work.__slots__}
    values.update(changes)
    return Work(**values)


def reach_back(nodes: list[Node]) -> list[Node]:
    doubt = next((n.why for n in nodes if isinstance(n, Choice) and n.why in DOUBTS), None)
    if doubt is not None:
        ways: list[list[Node]] = [[], [], []]
        most = 2
        for node in nodes:
            if isinstance(node, Choice) and node.why in DOUBTS:
                most = max(most, len(node.options))
                for at, way in enumerate(ways):
                    way.extend(node.options[min(at, len(node.options) - 1)])
            else:
                for way in ways:
                    way.append(node)
        return [Choice([_reach(way) for way in ways[:most]], doubt)]
    return _reach(nodes)


def _list_around(nodes: list[Node], at: int, last: Choice) -> list[Node] | None:
    """ "inc, sc 2 around": the two of them go around with what stands before; or they are all, or so many in each.

    None where nothing stands before that could go around with them.
    """
    first = next((i for i, node in enumerate(nodes[:at]) if not is_lead(node)), at)
    before = nodes[first:at]
    if not before or not all(
        isinstance(n, Skip)
        or (isinstance(n, Work) and not (n.fill or n.first) and n.base == "next" and n.key != "ch")
        for n in before
    ):
        return None
    told, each = last.options
    return [
        *nodes[:first],
        Choice([[Rep([*before, *told], fill=True)], [*before, *told], [*before, *each]], "the list or so many"),
        *nodes[at + 1 :],
    ]


def _reach(nodes: list[Node]) -> list[Node]:
    """ "2 sc, inc x 6" may mean that both are worked six times; "sc in next, inc in next around" surely does."""
    if not nodes:
        return nodes
    at = len(nodes) - 1
    while at >= 0 and (is_lead(nodes[at]) or isinstance(nodes[at], Mark)):
        at -= 1
    if at < 0:
        return nodes
    last = nodes[at]
    if isinstance(last, Choice) and last.why == "all told or in each":
        around = _list_around(nodes, at, last)
        if around is not None:
            return around
    if not isinstance(last, Work):
        if isinstance(last, Choice) and any(w.spread for w in works_in([last])):
            for work in works_in([last]):
                work.fill = True
        return nodes
    first = 0
    while first < at and is_lead(nodes[first]):
        first += 1
    if first and leads_over(nodes[first - 1], nodes[first]):
        first -= 1  # "ch 1, skip 1, sc in next, around": a mesh, whose chain goes around with it
    before = nodes[first:at]
    if before and isinstance(before[0], Work) and before[0].base == "same":
        return nodes  # "ch 3, dc in same, 2 dc in each around": that one is where the round starts
    simple = before and all(
        (isinstance(n, Work) and not n.fill and (n.key != "ch" or leads_over(n, then))) or isinstance(n, Skip)
        for n, then in zip(before, [*before[1:], last], strict=True)
    )
    if last.spread:
        alone = _plain(last, fill=True, n=1, spread=False)
        if not before or not simple:
            return [*nodes[:at], alone, *nodes[at + 1 :]]
        both: list[Node] = [Rep([*before, _plain(last, spread=False, last=0)], fill=True, last=last.last)]
        if last.times is not None:  # "sc 4, inc twice, around": an end of it that goes around has no "twice"
            return [*nodes[:first], *both, *nodes[at + 1 :]]
        return [*nodes[:first], Choice([both, [*before, alone]], "what goes around"), *nodes[at + 1 :]]
    spaced = last.fill and last.per == last.n == 1 and SPACE.search(last.noun) and not STITCH_TOO.search(last.noun)
    if spaced and simple and not any(isinstance(n, Skip) or n.placed for n in before if isinstance(n, (Work, Skip))):
        # "sc, 3 dc, sc in each ch-3 sp": what stands before has no place but this
        within = One([*before, _plain(last, fill=False, noun="")], fill=True, noun=last.noun)
        return [*nodes[:first], Choice([[within], [*before, last]], "together or apart"), *nodes[at + 1 :]]
    if last.fill and not last.last and last.noun == "" and simple and last.base == "next":
        each = Rep([*before, _plain(last, fill=False, n=1)], fill=True)
        only = [*before, last]
        skipping = last.number is not None and any(isinstance(n, Skip) for n in before)  # "skip 1, sc 1 around"
        listed = [(n.key, n.n, n.per) for n in before if isinstance(n, Work)] + [(last.key, 1, 1)]
        again = len(listed) > 3 and len(listed) % 2 == 0 and listed == listed[:2] * (len(listed) // 2)
        if again:
            each = Rep([before[0], _plain(last, fill=False, n=1)], fill=True)  # "inc, sc, inc, sc around"
        told = last.number is not None and not any(n.first for n in before if isinstance(n, Work))
        if last.key in ("sc", "hdc", "dc", "tr") and last.per == 1 and not (skipping or again or told):
            return [*nodes[:first], Choice([only, [each]], "last or all around"), *nodes[at + 1 :]]
        return [*nodes[:first], Choice([[each], only], "what goes around"), *nodes[at + 1 :]]
    if last.times is not None and last.times > 1 and simple:
        single = _plain(last, n=max(1, last.n // last.times), times=None, number=None)
        both = [Rep([*before, single], times=last.times, number=last.number)]
        return [*nodes[:first], Choice([[*before, last], both], "what is multiplied"), *nodes[at + 1 :]]
    return nodes
