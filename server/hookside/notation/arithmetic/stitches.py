"""Stitches in every place they can go: the next ones, a ring, a space, a chain, another piece, evenly spread."""

from __future__ import annotations

from dataclasses import replace

from hookside.notation.arithmetic.ledger import Ledger, ends_with
from hookside.notation.bodies.wording.places import SPACE
from hookside.notation.bodies.wording.stretches import LAST_TOLD
from hookside.notation.trees.nodes import BESIDE, PLACED, Mark, Node, One, Rep, Skip, Work
from hookside.notation.vocabulary import ROW_ENDS
from hookside.pattern import NO_WORDS, Group, Repeat, unchecked
from hookside.pattern import Node as Made
from hookside.stitches import TABLE

_SEVERAL = {
    ("sc", 2): "inc",
    ("sc", 3): "inc3",
    ("hdc", 2): "hdc inc",
    ("dc", 2): "dc inc",
    ("tr", 2): "tr inc",
    ("sl st", 2): "sl st inc",
}
_ORDINALS = {1: "1st", 2: "2nd", 3: "3rd"}
_FIELDS = set(Group.model_fields)


def ordinal(n: int) -> str:
    """2 -> "2nd"."""
    return _ORDINALS.get(n, f"{n}th")


def group(
    key: str, count: int, uses: int, makes: int, steps: int, loops: str | None, into: str | None, colour: str | None
) -> Group:
    """A Group without the checks: every value here is made of checked parts.

    Trying out readings makes a great many of them, so they are made as unpickling makes them, which is many times as
    fast. Words are never changed in place: all share the empty ones.
    """
    made = Group.__new__(Group)
    fields = {
        "type": "group",
        "stitch": key,
        "count": count,
        "uses": uses,
        "makes": makes,
        "steps": steps,
        "loops": loops,
        "into": into,
        "colour": colour,
        "words": NO_WORDS,
    }
    made.__setstate__(
        {
            "__dict__": fields,
            "__pydantic_extra__": None,
            "__pydantic_fields_set__": _FIELDS,
            "__pydantic_private__": None,
        }
    )
    return made


def into_chain(node: Work) -> bool:
    """ "sc in each ch around", "sc in next 3 ch": into chains by their name, and no chain space."""
    return node.noun.split(" ")[0] in ("ch", "chs", "chain", "chains") and not SPACE.search(node.noun)


def _goes_round(node: Node) -> bool:
    """Has the stretch before already gone all the way, so that no other one can follow it?"""
    return (isinstance(node, PLACED) and node.fill and not node.last) or (isinstance(node, BESIDE))


V_STITCH = "v-st"
ROUND_THE_HAND = 12  # chains; a shorter ring is the hole of a disc


class Stitches(Ledger):
    """One Work at a time, written into the books."""

    def made(self, node: Work, n: int, into: str | None, in_chain: bool, uses: int | None = None) -> Group:
        """The group of `n` of a Work."""
        key = node.key
        entry = self.entry(key)
        per = node.per
        if per > 1 and (key, per) in _SEVERAL and key not in self.own:
            key = _SEVERAL[key, per]
            entry = TABLE[key]
            per = 1
        used = entry.uses * self.layer * node.layers if uses is None else uses
        if in_chain:
            used = 0
        steps = entry.steps * per
        told = group(key, n, used, entry.makes * per, steps, node.loops or self.loops, into, node.colour or self.colour)
        if key == V_STITCH and key not in self.own:  # "(dc, ch 1, dc) in one st": each has a space in it
            self.gaps.append((told, 1))
            self.result.spaces += n
            self.result.chains += n
        return told

    def each_of_ring(self, node: Work) -> bool:
        """ "Ch 24, join. Sc in each st around": a ring so long goes round the hand, and each of its chains has one."""
        comes_to = self.circle * self.entry(node.key).makes * node.per
        told = self.ground.declared in (None, comes_to) and self.circle >= ROUND_THE_HAND
        begun = self.result.makes > (self.counted is not None)
        return told and node.fill and not node.last and node.base == "next" and not begun

    def work(self, node: Work, items: list[Node], at: int, out: list[Made]) -> None:
        entry = self.entry(node.key)
        if node.key == "ch":
            rest = [n for n in items[at + 1 :] if not isinstance(n, BESIDE)]
            ends = not self.inside and (not rest or (isinstance(rest[0], Mark) and rest[0].name == "turn"))
            holed = bool(rest) and isinstance(rest[0], Skip) and rest[0].n > 1 and node.n > 1
            before = items[at - 1] if at else None
            mesh = self.base == "chain" and self.hook > 0 and not ends
            mesh = mesh and any(isinstance(n, Skip) and n.n > 0 for n in (before, *rest[:1]))
            self.chain_work(node, out, ends, holed, mesh)
            return
        if node.base == "hook":
            self.from_hook(node.hook, out)
            self.take(1, entry.makes * node.per * node.n)
            into = f"{ordinal(node.hook)} ch from hook"
            if self.chain_size == 0 or self.chain_left < 0:
                self.result.over_chain = 0
            g = self.made(node, node.n, into, True)
            out.append(g)
            return
        if node.base in ("piece", "bridge") and self.lends(node):
            self.lend(node, items, at, out)
            return
        closing = node.key == "sl st" and node.base == "ring" and self.ground.first
        if closing and self.chain_size and not self.result.makes:
            # "4 ch and ss into a ring": it closes the chain, and is no stitch
            self.result.ring, self.base = True, "ring"
            self.chain_size = self.chain_left = 0
            out.append(group("join", 1, 0, 0, 1, None, "ring", None))
            return
        first = node.base == "same" and not self.result.makes and self.counted is None
        if self.circle and ((into_chain(node) and node.base == "next") or first or self.each_of_ring(node)):
            self.base, self.chain_size, self.chain_left, self.circle = "chain", self.circle, self.circle, 0
            self.chain_left -= self.counted_uses  # "ch 3 (counts), dc in each ch around": it stands on one of them
        if node.base == "ring" or self.base == "start" or (self.base == "ring" and self.ground.first):
            n = node.n
            if node.fill:
                done = self.amount(items, at, node.last, 1, entry.makes * node.per)
                if done is None:
                    self.result.unknown = True
                    return
                n = done[0]
            if not self.result.ring and node.base == "ring":
                if not self.chain_size and node.base == "ring":
                    out.append(group("ring", 1, 0, 0, 1, None, None, None))
                self.result.ring = True
                self.base = "ring"
            self.result.makes += entry.makes * node.per * n
            out.append(self.made(node, n, "ring" if self.base == "ring" else None, True))
            return
        if (
            node.base == "same"
            and self.result.uses == 0
            and self.result.makes == 0
            and ((self.base == "round" and self.ground.there) or (self.base == "chain" and not self.hook))
            and self.counted is None
        ):
            # right after the join, "the same stitch" is the first one of the course below
            below = not self.take(1, entry.makes * node.per * node.n)
            one = Work(node.key, loops=node.loops, colour=node.colour)
            out.append(self.made(one, 1, "same st", not below, uses=int(below)))
            if node.n > 1:
                out.append(
                    self.made(
                        Work(node.key, loops=node.loops, colour=node.colour), node.n - 1, "same st", False, uses=0
                    )
                )
            return
        if node.base == "travel":
            out.append(group(node.key, node.n, 0, 0, 1, None, "to the next place", node.colour or self.colour))
            return
        if node.base == "slipped":
            self.take(entry.uses * node.n, 0)
            out.append(group(node.key, node.n, entry.uses, 0, 1, None, None, node.colour or self.colour))
            return
        if node.base == "space" and node.fill:
            self.in_spaces(node, out)
            return
        if node.base in ("piece", "bridge"):
            self.lend(node, items, at, out)
            return
        if node.evenly:
            self.spread(node, out)
            return
        each_space = self.ground.of_space() if node.base == "space" else 0
        if each_space and node.places == 1:
            made = entry.makes * node.per * node.n
            self.take(each_space, made)
            one = Work(node.key, loops=node.loops, colour=node.colour)
            out.append(self.made(one, 1, node.noun or "space", False, uses=each_space))
            if node.n > 1:
                out.append(self.made(one, node.n - 1, node.noun or "space", False, uses=0))
            return
        if each_space:
            self.take(node.places * each_space, entry.makes * node.per * node.n)
            each = Work(node.key, loops=node.loops, colour=node.colour)
            inner = [self.made(each, 1, node.noun or "space", False, uses=each_space)]
            if node.n > node.places:
                inner.append(self.made(each, node.n // node.places - 1, node.noun or "space", False, uses=0))
            out.append(unchecked(Repeat, body=inner, times=node.places))
            return
        if node.noun == LAST_TOLD and self.left() == 0 and at:
            self.result.empty = self.result.empty or not ends_with(items[at - 1], node.key)
            return
        if node.base in ("same", "skipped", "space"):
            self.result.makes += entry.makes * node.per * node.n
            into = {"same": "same st", "skipped": "skipped st"}.get(node.base) or node.noun or "space"
            out.append(self.made(node, node.n, into, False, uses=0))
            return
        if node.fill:
            if self.runs_on(node, items, at):
                n = self.chain_left  # "ch 8, sc in 2nd ch from hook and across": along the chain and on over the row
                self.take(n, entry.makes * node.per * n)
                out.append(self.made(node, n, None, True))
            done = self.amount(items, at, node.last, entry.uses * self.layer, entry.makes * node.per)
            if done is None or done[0] < 0:
                self.result.unknown = True
                return
            n, over = done
            self.result.uneven += over
            if n == 0:
                if into_chain(node) and self.ground.chained:
                    return  # "sc around, working 1 sc in each ch": they are among those just told
                # No room is left for it: a plain rest may well be nothing, shaping was meant to be somewhere
                shapes = entry.makes * node.per != entry.uses
                behind = at > 0 and (shapes or _goes_round(items[at - 1]))
                # "sc around, sc 18" on 18: all of it is worked by what stands behind, and a round is lost
                ahead = not (self.result.uses or self.result.makes or node.last or self.inside)
                self.result.empty = self.result.empty or behind or ahead
                return
        else:
            n = node.n
            if n == 0:
                return
        chained = self.base == "chain" and not self.open_chain
        if chained and self.side_ahead and node.first:
            self.chain_left += 1  # "on the other side, sc in first ch": the end chain is worked from both its sides
        in_chain = self.take(entry.uses * n * self.layer * node.layers, entry.makes * node.per * n)
        spot: str | None = None
        if in_chain and chained:
            spot = "other side" if self.side_ahead else "last ch" if node.tip and n == 1 else None
            self.side_ahead = False
        out.append(self.made(node, n, spot, in_chain))

    def runs_on(self, node: Work, items: list[Node], at: int) -> bool:
        """Does a stretch go on from a chain hung on to the course below, as all that is told of it?"""
        if self.base != "chain" or self.chain_left <= 0 or not self.hangs() or into_chain(node) or self.inside:
            return False
        plain = self.entry(node.key).uses == 1 and not self.result.uses
        return plain and not any(isinstance(n, (Work, Rep, One, Skip)) for n in items[at + 1 :])

    def in_spaces(self, node: Work, out: list[Made]) -> None:
        """ "working 3 sc in each ch-2 sp": on the way round, so many in every space of the course below."""
        gaps, counted = self.room(node.noun)
        if not gaps:
            self.result.unknown = True
            return
        made = self.entry(node.key).makes * node.per
        chained = self.ground.chained // gaps if self.ground.chained % gaps == 0 else 0
        if self.ground.chained and not chained:
            self.result.unknown = True
            return
        uses = chained or int(counted)
        self.take(uses * gaps, made * gaps)
        one = Work(node.key, loops=node.loops, colour=node.colour)
        inner = [self.made(one, node.per, node.noun or "space", False, uses=0)]
        if uses:
            inner.insert(0, self.made(one, 1, node.noun or "space", False, uses=uses))
            inner[1].count -= 1
        out.append(unchecked(Repeat, body=[g for g in inner if g.count], times=gaps))

    def lends(self, node: Work) -> bool:
        """Is it known how many stitches another piece, or a chain, has for this?"""
        if not node.fill:
            return True
        if node.base == "bridge":
            return self.chain_size > 0
        return node.noun == ROW_ENDS or (node.noun != "loops" and self.lent < len(self.ground.lend))

    def lend(self, node: Work, items: list[Node], at: int, out: list[Made]) -> None:
        """Stitches into another piece, or into the chain between two: they use none of the course below."""
        n = node.n
        if node.fill and node.noun == ROW_ENDS:
            done = self.amount(items, at, node.last, 0, self.entry(node.key).makes * node.per)
            if done is None:
                self.result.unknown = True
                return
            n, over = done
            self.result.uneven += over
        elif node.fill:
            there = self.chain_size if node.base == "bridge" else 0
            if node.base == "piece" and self.lent < len(self.ground.lend):
                there = self.ground.lend[self.lent]
                self.lent += 1
            if not there:
                self.result.unknown = True
                return
            n = there
        self.result.makes += self.entry(node.key).makes * node.per * n
        out.append(self.made(node, n, node.noun or "chain", True))

    def spread(self, node: Work, out: list[Made]) -> None:
        """ "increase 6 evenly": the plain stitches between come out as even as whole numbers allow."""
        entry = self.entry(node.key)
        left = self.left()
        if node.result:
            n = abs(node.result - self.result.makes - left) if left is not None else 0
            grows = left is not None and node.result - self.result.makes > left
            if not n or grows != (entry.makes > entry.uses):
                self.result.unknown = True
                return
            node = replace(node, n=n)
        if left is None and self.ground.declared is not None:
            left = self.ground.declared - self.result.makes - (entry.makes - entry.uses) * node.n
        if left is None or left < node.n * entry.uses:
            self.result.unknown = True
            return
        plain = Work(entry.of if entry.of in TABLE else "sc")
        between, over = divmod(left - node.n * entry.uses, node.n)
        body: list[Made] = []
        if between:
            body.append(self.made(plain, between, None, False))
        body.append(self.made(node, 1, None, False))
        out.append(unchecked(Repeat, body=body, times=node.n))
        if over:
            out.append(self.made(plain, over, None, False))
        self.take(left, left + (entry.makes - entry.uses) * node.n)

    def chain_work(self, node: Work, out: list[Made], ends: bool, holed: bool, mesh: bool) -> None:
        """Chains: a start, a turning chain, a strand to work back along, (`ends` not) a space; `holed`: over a gap.

        `mesh`: over chains of the foundation that are passed over.
        """
        if node is self.counted:
            self.result.uses += self.counted_uses
            self.result.makes += 1
            over = self.counted_over
            steps = max(1, node.n - over)
            out.append(group("ch", 1, self.counted_uses, 1, steps, None, "counts as a stitch", self.colour))
            if over:
                space = group("ch", over, 0, 0, 1, None, None, node.colour or self.colour)
                self.gaps.append((space, over))
                self.result.spaces += 1
                self.result.chains += over
                out.append(space)
            return
        leads = self.result.makes == 0 and self.result.uses == 0 and not holed
        made = group("ch", node.n, 0, 0, 1, None, None, node.colour or self.colour)
        if mesh or (not ends and not (leads and not self.inside) and self.base != "chain"):
            self.gaps.append((made, node.n))
            self.result.spaces += 1
            self.result.chains += node.n
            out.append(made)
            if node.n >= 2 and not mesh:
                self.chain_size = node.n
            return
        turning = self.base == "chain" and self.ground.chain > node.n and node.n <= 4 and not self.hook
        turning = turning or (self.circle > node.n and node.n <= 4)
        if not turning and ((self.result.makes == 0 and self.ground.first) or node.n >= 2):
            self.chain_size = node.n
            self.chain_left = node.n
            self.hook = 0
            if self.ground.first and self.base != "ring" and not self.ground.free:
                self.base = "chain"
        out.append(made)

    def from_hook(self, hook: int, out: list[Made]) -> None:
        if self.gaps and out and self.gaps[-1][0] is out[-1]:
            self.result.spaces -= 1  # a chain worked back along is no space
            self.result.chains -= self.gaps.pop()[1]
            self.result.branches += 1
        self.base = "chain"
        self.hook = hook
        if self.chain_size:
            self.chain_left = self.chain_size - (hook - 1)
        else:
            self.open_chain = True
            self.chain_left = 1
        if (self.ground.counts_as or (self.ground.counts_as is None and self.tree_counts)) and hook >= 3:
            self.result.makes += 1
            out.append(group("ch", 1, 0, 1, 1, None, f"the {hook - 1} skipped ch", self.colour))
