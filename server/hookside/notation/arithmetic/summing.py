"""Sixth stage: a tree and the stitches there are -> groups, with their sums."""

from __future__ import annotations

from collections.abc import Sequence

from hookside.notation.arithmetic.ground import Ground, Reading
from hookside.notation.arithmetic.stitches import V_STITCH, Stitches, group, into_chain, ordinal
from hookside.notation.bodies.wording.places import SPACE
from hookside.notation.trees.nodes import BESIDE, PLACED, CueAt, Mark, Node, One, Rep, Skip, Tone, Tree, Work
from hookside.notation.vocabulary import ROW_ENDS
from hookside.pattern import Node as Made
from hookside.pattern import Repeat, makes, unchecked
from hookside.stitches import Stitch

_HEIGHTS = {"hdc": 2, "dc": 3, "tr": 4}


def joined_chain(lead: Sequence[Node]) -> list[Mark]:
    """ "ch 4, join; ch 3, 11 dc in ring", "..., dc in each ch around": the join between two chains."""
    if len(lead) < 4 or not isinstance(lead[1], Mark) or lead[1].name != "join":
        return []
    before, behind, works = lead[0], lead[2], lead[3]
    chains = all(isinstance(n, Work) and n.key == "ch" for n in (before, behind))
    ringed = isinstance(works, Work) and (works.base == "ring" or (works.fill and into_chain(works)))
    return [lead[1]] if chains and ringed else []


def stands_in(corner: list[Node]) -> bool:
    """ "(ch 3, 2 dc, ch 2, 3 dc) in the same space": does a chain of a stitch's height stand in front of such ones?"""
    chain, tall = corner if len(corner) == 2 else (None, None)
    if not isinstance(chain, Work) or chain.key != "ch" or not isinstance(tall, Work):
        return False
    return chain.n == _HEIGHTS.get(tall.key)


def in_ring(node: Node) -> bool:
    """Does it begin in the ring: "dc in ring", "(dc in ring, ch 1) x 11", "(dc, ch 1) 11 times in ring"?"""
    while isinstance(node, Rep) and node.body and node.base != "ring":
        node = node.body[0]
    return isinstance(node, (Work, Rep)) and node.base == "ring"


def in_row_ends(node: Node) -> bool:
    """Does it begin along the edge of a piece in rows, as a round picked up from a band does?"""
    return isinstance(node, Work) and node.base == "piece" and node.noun == ROW_ENDS


def _no_makes(body: list[Made]) -> None:
    for node in body:
        if isinstance(node, Repeat):
            _no_makes(node.body)
        else:
            node.makes = 0


class Sum(Stitches):
    """Walks one tree under one set of picks."""

    def run(self) -> Reading:
        items = self.chosen(self.tree.items)
        self.turning(items)
        self.level(items, self.result.body)
        result = self.result
        result.chain = self.chain_size
        result.chain_left = self.chain_left if self.base == "chain" else 0
        result.stitches = result.makes
        if self.gaps:
            self.sizes(result.body, 1, {id(made): chains for made, chains in self.gaps})
        if self.ground.mode and self.gaps:
            self.count_spaces(self.ground.mode)
        return result

    def sizes(self, body: list[Made], times: int, chains: dict[int, int]) -> None:
        """How many spaces of each size there are."""
        for node in body:
            if isinstance(node, Repeat):
                self.sizes(node.body, times * node.times, chains)
            elif id(node) in chains:
                size = chains[id(node)]
                each = node.count if node.stitch == V_STITCH else 1
                self.result.sizes[size] = self.result.sizes.get(size, 0) + times * each

    def count_spaces(self, mode: str) -> None:
        """Makes the spaces count as the next course needs it."""
        if mode == "spaces":
            _no_makes(self.result.body)
        for made, chains in self.gaps:
            if self.ground.only and chains not in self.ground.only:
                continue
            if made.stitch == V_STITCH:
                made.makes += 1
            elif mode == "chains":
                made.makes = 1
            else:
                made.count, made.makes, made.steps = 1, 1, max(1, chains)
        self.result.makes = makes(self.result.body)

    def turning(self, items: list[Node]) -> None:
        """A chain at the start that counts as a stitch, when the text says so (or its height makes it so)."""
        ground = self.ground
        lead = [n for n in items if not isinstance(n, BESIDE) and not (isinstance(n, Mark) and n.name == "turn")]
        lead = [n for n in lead if not (isinstance(n, Work) and n.base == "travel")]
        while lead and isinstance(lead[0], Mark) and lead[0].name == "join":
            lead = lead[1:]  # "join in any corner, ch 3, ..."
        closed = [n for n in lead if isinstance(n, Mark) and n.name in ("closed ring", "ring")]
        closed = closed or joined_chain(lead)
        if closed:
            lead = lead[lead.index(closed[-1]) + 1 :]
        corner = lead[0].body[:2] if lead and isinstance(lead[0], One) and lead[0].n == 1 else []
        if stands_in(corner) and (ground.counts_as or (ground.counts_as is None and self.tree_counts)):
            self.counted = next(n for n in corner if isinstance(n, Work))
            return
        if (
            not lead
            or not isinstance(lead[0], Work)
            or lead[0].key != "ch"
            or (ground.there is None and not ground.first and not ground.counts_as)
        ):
            return
        chain = lead[0]
        if len(lead) > 1 and isinstance(lead[1], PLACED) and lead[1].base == "hook" and not ground.first:
            return  # "ch 8, dc in 4th ch from hook": what is passed of it may count, and is asked there
        ringed = bool(closed) or (len(lead) > 1 and (in_ring(lead[1]) or in_row_ends(lead[1])))
        told = bool(ground.counts_as) and not ground.first and chain.n <= 5  # "ch 3 (counts as dc)" on unknown ground
        if ground.there is None and not ringed and not told:
            return
        if ground.counts_as is False or len(lead) < 2:
            return
        if ground.counts_as or self.tree_counts:
            self.counted = chain
            follows: Node = lead[1]
            first = next((n for n in lead[1:] if not isinstance(n, Skip)), follows)  # "ch 4, skip 2, *dc in next, ..."
            while isinstance(first, Rep) and first.body:
                first = first.body[0]
            height = _HEIGHTS.get(first.key, chain.n) if isinstance(first, Work) else chain.n
            self.counted_over = chain.n - height if height < chain.n else 0
            # "ch 3, 4 dc in first st": the chain stands on that stitch as well
            shared = isinstance(follows, Work) and follows.first and chain.n > 1
            if shared and isinstance(follows, Work) and follows.per == 1:
                self.result.shared = True
                shared = not ground.apart
            # "ch 3, (dc, ch 2, 2 dc) in same space": it stands in a space as well
            aside = isinstance(follows, PLACED) and follows.base in ("same", "space") and not ground.spaces
            aside = aside and SPACE.search(getattr(follows, "noun", "")) is not None
            aside = aside and (ground.gaps > 0 or ground.there is None)  # else between two stitches, and is one
            skips = isinstance(follows, Skip) and follows.n > 0  # "ch 4, skip next st"
            skips = skips and not (isinstance(follows, Skip) and follows.behind and self.counted_over)
            around = isinstance(follows, Work) and follows.fill and into_chain(follows)  # "dc in each ch around"
            self.counted_uses = 0 if (ringed and not around) or shared or aside or skips else 1

    def level(self, items: list[Node], out: list[Made]) -> None:
        for at, node in enumerate(items):
            if isinstance(node, CueAt):
                self.result.cues.append((node.index, self.result.makes))
            elif isinstance(node, Tone):
                if node.sets_loops:
                    self.loops = node.loops
                if node.colour is not None:
                    self.colour = node.colour or None  # "": put away, and not told for what
            elif isinstance(node, Mark):
                self.mark(node, out)
            elif isinstance(node, Skip):
                n = self.passed(node)
                below = not self.take(n, 0)
                if n:
                    out.append(group("skip", n, int(below), 0, 0, None, None, None))
            elif isinstance(node, Work):
                self.work(node, items, at, out)
            elif isinstance(node, One):
                self.one(node, items, at, out)
            elif isinstance(node, Rep):
                self.rep(node, items, at, out)

    def mark(self, node: Mark, out: list[Made]) -> None:
        name = node.name
        if name == "other side":
            self.side_ahead = bool(self.chain_size)
            if self.chain_size:
                self.base = "chain"
                self.chain_left = max(0, self.chain_size - max(0, self.hook - 1) - 1)
            return
        own = self.ground.first and not self.ground.chain and self.base == "chain"
        if own and not (self.hook or self.result.makes):
            self.circle = self.chain_size
        if name == "closed ring":
            self.result.ring = True
            self.base = "ring"
            self.chain_size = self.chain_left = 0
            out.append(group("join", 1, 0, 0, 1, None, "ring", None))
            return
        if name == "ring" and self.result.ring:
            return
        if name == "ring":
            self.result.ring = True
            self.base = "ring"
            out.append(group("ring", 1, 0, 0, 1, None, None, None))
            return
        if name == "turn":
            self.result.turned = True
        else:
            self.result.joined = True
        out.append(group(name, 1, 0, 0, 1, None, None, None))

    def one(self, node: One, items: list[Node], at: int, out: list[Made]) -> None:
        inner = self.measure_all(node.body)
        if inner is None:
            self.result.unknown = True
            return
        n = node.n
        counted = self.ground.spaces
        if node.fill and node.base == "space":
            n, counted = self.room(node.noun)
            if not n:
                self.result.unknown = True
                return
        elif node.fill:
            done = self.amount(items, at, node.last, 1, inner[1])
            if done is None:
                self.result.unknown = True
                return
            n = done[0]
            self.result.uneven += done[1]
            if n == 0:
                return
        if node.base == "hook":
            self.from_hook(node.hook, out)
        free = node.base in ("same", "ring") or (node.base == "space" and not counted)
        if node.base == "same" and self.ground.spaces and self.ground.there == self.ground.gaps:
            free = self.result.uses > 0  # right after the join, the same space is the first one of the course below
        in_chain = self.take(0 if free else n, inner[1] * n)
        body: list[Made] = []
        first = not free and not in_chain
        into = {"hook": f"{ordinal(node.hook)} ch from hook", "ring": "ring"}.get(node.base, "same st")
        for part in self.in_one_stitch(node.body):
            if part is self.counted and isinstance(part, Work):
                self.result.makes += 1
                body.append(group("ch", 1, 0, 1, part.n, None, "counts as a stitch", self.colour))
            elif isinstance(part, Work):
                key = part.key
                entry = self.entry(key)
                count = part.n * part.per
                single = Work(key, loops=node.loops or part.loops, colour=node.colour or part.colour)
                if first and entry.uses:
                    body.append(self.made(single, 1, None, False, uses=1))
                    first = False
                    count -= 1
                if count and key == "ch":
                    space = self.made(single, count, None, False, uses=0)
                    self.gaps.append((space, count))
                    self.result.spaces += n
                    self.result.chains += n * count
                    body.append(space)
                elif count:
                    body.append(self.made(single, count, into if entry.uses else None, False, uses=0))
            elif isinstance(part, Mark):
                self.mark(part, body)
        if n == 1:
            out.extend(body)
        else:
            out.append(unchecked(Repeat, body=body, times=n))

    def rep(self, node: Rep, items: list[Node], at: int, out: list[Made]) -> None:
        inner = self.measure_all(node.body)
        body_nodes = self.chosen(node.body)
        times = node.times
        if node.base == "ring":
            self.base = "ring"
        if node.fill or node.uses is not None:
            if inner is None or (inner[0] <= 0 and inner[1] <= 0):
                self.result.unknown = True
                return
            if node.uses is not None:
                if inner[0] <= 0 or node.uses % inner[0]:
                    self.result.unknown = True
                    return
                times = node.uses // inner[0]
            elif node.base == "piece":
                if inner[0] <= 0 or self.lent >= len(self.ground.lend):
                    self.result.unknown = True
                    return
                times, over = divmod(self.ground.lend[self.lent], inner[0])
                self.lent += 1
                self.result.uneven += over
            else:
                done = self.amount(items, at, node.last, inner[0], inner[1])
                if done is None:
                    self.result.unknown = True
                    return
                times, over = done
                self.result.uneven += over
            if times <= 0:
                if node.uses is None and (self.left() or 0) > 0:
                    self.result.uneven += self.left() or 0
                behind = at > 0 or self.result.uses > 0  # the head of a bracket is behind what was worked before
                self.result.empty = self.result.empty or (node.uses is None and self.left() == 0 and behind)
                return
        saved = (self.loops, self.colour)
        if node.loops:
            self.loops = node.loops
        if node.colour:
            self.colour = node.colour
        if times == 1:
            self.level(body_nodes, out)
            self.loops, self.colour = saved if node.loops or node.colour else (self.loops, self.colour)
            return
        if inner is None:
            self.result.unknown = True
            return
        body: list[Made] = []
        before = (self.result.uses, self.result.makes, self.chain_left)
        gaps = (self.result.spaces, self.result.chains)
        cues = len(self.result.cues)
        self.inside += 1
        self.level(body_nodes, body)
        self.inside -= 1
        self.result.spaces += (self.result.spaces - gaps[0]) * (times - 1)
        self.result.chains += (self.result.chains - gaps[1]) * (times - 1)
        used = self.result.uses - before[0]
        made = self.result.makes - before[1]
        chain = before[2] - self.chain_left
        self.result.uses += used * (times - 1)
        self.result.makes += made * (times - 1)
        if self.base == "chain" and chain > 0:
            self.chain_left -= chain * (times - 1)
            if self.chain_left < 0:
                self.result.over_chain = -self.chain_left
        del self.result.cues[cues:]
        self.loops, self.colour = saved if node.loops or node.colour else (self.loops, self.colour)
        out.append(unchecked(Repeat, body=body, times=times))


def read_as(
    tree: Tree, picks: tuple[int, ...], ground: Ground, own: dict[str, Stitch], counted: bool = False
) -> Reading:
    """One reading of a tree."""
    walk = Sum(tree, picks, ground, own)
    walk.tree_counts = counted
    return walk.run()
