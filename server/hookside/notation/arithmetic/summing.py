"""Sixth stage: a tree and the stitches there are -> groups, with their sums; and the choice between readings."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import islice, product

from hookside.notation.trees.nodes import Choice, CueAt, Mark, Node, One, Rep, Skip, Tone, Tree, Work
from hookside.pattern import Group, Repeat, Words, makes
from hookside.pattern import Node as Made
from hookside.stitches import TABLE, Stitch

MOST_READINGS = 64
_SEVERAL = {
    ("sc", 2): "inc",
    ("sc", 3): "inc3",
    ("hdc", 2): "hdc inc",
    ("dc", 2): "dc inc",
    ("tr", 2): "tr inc",
    ("sl st", 2): "sl st inc",
}
_ORDINALS = {1: "1st", 2: "2nd", 3: "3rd"}


def ordinal(n: int) -> str:
    """2 -> "2nd"."""
    return _ORDINALS.get(n, f"{n}th")


@dataclass(slots=True)
class Ground:
    """What a course is worked into. `there`: stitches of the course below, None when not known."""

    there: int | None
    chain: int = 0  # chains of a foundation of their own, not yet worked into
    first: bool = False  # first course of its piece
    declared: int | None = None
    free: bool = False  # another piece's stitches are worked too: what is used cannot be checked
    counts_as: bool | None = None
    layers: bool = False  # two layers at once: every stitch goes into two
    mode: str = ""  # what is worked into of the course to be summed: "" its stitches, "spaces", "both", "chains"
    spaces: bool = False  # the spaces of the course below are among `there`
    both_sides: bool = False  # a chain worked along one side and, past its last chain, back along the other
    lend: tuple[int, ...] = ()  # stitches of the pieces that can be worked into, the next one first


@dataclass(slots=True)
class Reading:
    """One way to read a body, summed."""

    picks: tuple[int, ...]
    body: list[Made] = field(default_factory=list)
    uses: int = 0
    makes: int = 0
    unknown: bool = False  # a stretch "around" whose length cannot be known
    uneven: int = 0  # stitches over in a repeat "around" that does not come out even
    over_chain: int = 0
    chain_left: int = 0
    chain: int = 0
    ring: bool = False
    joined: bool = False
    turned: bool = False
    cues: list[tuple[int, int]] = field(default_factory=list)  # cue index, stitches made before it
    filled: bool = False
    empty: bool = False  # a stretch came to nothing, though it was told: its words are not understood
    branches: int = 0  # chains inside the course that are worked back along
    spaces: int = 0  # chain spaces made
    chains: int = 0  # chains in them
    stitches: int = 0  # stitches made, spaces apart

    def counts(self) -> tuple[int, ...]:
        """What a designer may print as the count of this course."""
        if not self.spaces:
            return (self.makes,)
        return self.makes, self.stitches, self.spaces, self.stitches + self.spaces, self.stitches + self.chains


def group(
    key: str, count: int, uses: int, makes: int, steps: int, loops: str | None, into: str | None, colour: str | None
) -> Group:
    """A Group without the checks: every value here is made of checked parts."""
    return Group.model_construct(
        type="group",
        stitch=key,
        count=count,
        uses=uses,
        makes=makes,
        steps=steps,
        loops=loops,
        into=into,
        colour=colour,
        words=Words.model_construct(short="", full="", spoken=""),
    )


def _no_makes(body: list[Made]) -> None:
    for node in body:
        if isinstance(node, Repeat):
            _no_makes(node.body)
        else:
            node.makes = 0


def _goes_round(node: Node) -> bool:
    """Has the stretch before already gone all the way, so that no other one can follow it?"""
    return (isinstance(node, Work) and node.fill and not node.last) or (isinstance(node, CueAt | Tone))


class Sum:
    """Walks one tree under one set of picks."""

    def __init__(self, tree: Tree, picks: tuple[int, ...], ground: Ground, own: dict[str, Stitch]) -> None:
        self.tree = tree
        self.ground = ground
        self.own = own
        self.picks = picks
        self.result = Reading(picks)
        self.base = "round"
        self.chain_size = ground.chain
        self.chain_left = ground.chain
        self.hook = 0
        self.loops: str | None = None
        self.colour: str | None = None
        self.layer = 2 if ground.layers else 1
        self.wrapped = False
        self.open_chain = False  # worked into a chain whose length nobody told
        self.lent = 0
        self.gaps: list[tuple[Group, int]] = []
        self.first_chain = ground.chain > 0
        self.side_ahead = False  # the next stitches are the first along the other side of the chain
        if ground.first and ground.chain:
            self.base = "chain"
        elif ground.first and ground.there is None:
            self.base = "start"

    def entry(self, key: str) -> Stitch:
        return self.own.get(key) or TABLE[key]

    def chosen(self, nodes: list[Node]) -> list[Node]:
        out: list[Node] = []
        for node in nodes:
            if isinstance(node, Choice):
                out.extend(self.chosen(node.options[self.picks[node.index]]))
            else:
                out.append(node)
        return out

    # -- measures: stitches of the base below used, stitches made; None for a fill --------------------------------
    def measure(self, node: Node) -> tuple[int, int] | None:
        if isinstance(node, Work):
            if node.fill:
                return None
            entry = self.entry(node.key)
            made = entry.makes * node.per * node.n
            if node.base == "space" and self.ground.spaces:
                return node.places, made
            if node.base in ("same", "ring", "space", "piece", "bridge"):
                return 0, made
            if node.evenly:
                return None
            return entry.uses * node.n * self.layer, made
        if isinstance(node, Skip):
            return node.n, 0
        if isinstance(node, Rep):
            if node.fill or node.uses is not None:
                return None
            inner = self.measure_all(node.body)
            if inner is None:
                return None
            return (0 if node.base == "ring" else inner[0] * node.times), inner[1] * node.times
        if isinstance(node, One):
            if node.fill:
                return None
            inner = self.measure_all(node.body)
            if inner is None:
                return None
            free = node.base in ("same", "ring") or (node.base == "space" and not self.ground.spaces)
            return (0 if free else node.n * self.layer), inner[1] * node.n
        return 0, 0

    def measure_all(self, nodes: list[Node]) -> tuple[int, int] | None:
        used = made = 0
        size = branch = 0  # a chain among them, and what is left of it to work back along
        for node in self.chosen(nodes):
            part = self.measure(node)
            if part is None:
                return None
            if isinstance(node, Work) and node.key == "ch" and node.n >= 2:
                size = node.n
            elif isinstance(node, Work | One) and node.base == "hook" and size:
                branch = size - node.hook
                part = 0, part[1]
            elif branch > 0 and part[0]:
                taken = min(branch, part[0])
                branch -= taken
                part = part[0] - taken, part[1]
            used += part[0]
            made += part[1]
        return used, made

    # -- the walk -------------------------------------------------------------------------------------------------
    def run(self) -> Reading:
        items = self.chosen(self.tree.items)
        self.turning(items)
        self.level(items, self.result.body)
        result = self.result
        result.chain = self.chain_size
        result.chain_left = self.chain_left if self.base == "chain" else 0
        result.stitches = result.makes
        if self.ground.mode and self.gaps:
            self.count_spaces(self.ground.mode)
        return result

    def count_spaces(self, mode: str) -> None:
        """Makes the spaces count as the next course needs it."""
        if mode == "spaces":
            _no_makes(self.result.body)
        for made, chains in self.gaps:
            if mode == "chains":
                made.makes = 1
            else:
                made.count, made.makes, made.steps = 1, 1, max(1, chains)
        self.result.makes = makes(self.result.body)

    def turning(self, items: list[Node]) -> None:
        """A chain at the start that counts as a stitch, when the text says so (or its height makes it so)."""
        self.counted: Work | None = None
        self.counted_uses = 0
        ground = self.ground
        lead = [n for n in items if not isinstance(n, CueAt | Tone) and not (isinstance(n, Mark) and n.name == "turn")]
        closed = [n for n in lead if isinstance(n, Mark) and n.name in ("closed ring", "ring")]
        if closed:
            lead = lead[lead.index(closed[-1]) + 1 :]
        if (
            not lead
            or not isinstance(lead[0], Work)
            or lead[0].key != "ch"
            or (ground.there is None and not ground.first)
        ):
            return
        chain = lead[0]
        ringed = bool(closed) or (len(lead) > 1 and isinstance(lead[1], Work) and lead[1].base == "ring")
        if ground.there is None and not ringed:
            return
        if ground.counts_as is False or len(lead) < 2:
            return
        if ground.counts_as or self.tree_counts:
            self.counted = chain
            follows = lead[1]
            self.counted_uses = 0 if ringed or isinstance(follows, Skip) else 1

    tree_counts = False
    inside = 0  # depth of repeats

    def left(self) -> int | None:
        if self.base == "chain" and self.open_chain:
            return None
        if self.base == "chain":
            return self.chain_left
        if self.ground.there is None or self.base == "start":
            return None
        return self.ground.there - self.result.uses

    def take(self, used: int, made: int) -> bool:
        """Accounts for stitches; True when they go into a chain (and so use none of the course below)."""
        if self.base == "start":
            self.result.makes += made
            return True
        if self.base == "chain":
            if (
                self.chain_left <= 0
                and used > 0
                and not (self.ground.first or self.ground.there is None)
                and self.ground.there
            ):
                self.base = "round"
            elif used > 0 and self.open_chain:
                self.result.makes += made
                return True
            elif used > 0:
                if self.chain_left <= 0 and self.ground.both_sides and self.hook and not self.wrapped:
                    self.wrapped = True
                    self.chain_left = max(0, self.chain_size - (self.hook - 1) - 1)
                self.chain_left -= used
                if self.chain_left < 0:
                    self.result.over_chain = max(self.result.over_chain, -self.chain_left)
                self.result.makes += made
                return True
            else:
                self.result.makes += made
                return True
        self.result.uses += used
        self.result.makes += made
        return False

    def after(self, items: list[Node], at: int) -> tuple[int, int, bool]:
        """Fixed uses and makes of what follows, and whether another fill follows, as far as the base lasts."""
        used = made = 0
        for node in items[at + 1 :]:
            if isinstance(node, Mark) and node.name == "other side":
                break
            if isinstance(node, Work | One) and node.base == "hook":
                break
            part = self.measure(node)
            if part is None:
                if isinstance(node, Rep) and node.uses is not None:
                    used += node.uses
                    continue
                return used, made, True
            used += part[0]
            made += part[1]
        return used, made, False

    def amount(self, items: list[Node], at: int, last: int, per_uses: int, per_makes: int) -> tuple[int, int] | None:
        """How often a fill goes: (times, stitches over)."""
        used, made, more = self.after(items, at)
        left = self.left()
        self.result.filled = True
        if left is None:
            declared = self.ground.declared
            if declared is None or more or per_makes <= 0:
                return None
            rest = declared - self.result.makes - made
            return (rest // per_makes, rest % per_makes) if rest >= 0 else None
        room = left - (last if last else used)
        if per_uses <= 0 or room < 0:
            return None if per_uses <= 0 else (0, 0)
        if more:
            return room // per_uses, 0
        return room // per_uses, room % per_uses

    def level(self, items: list[Node], out: list[Made]) -> None:
        for at, node in enumerate(items):
            if isinstance(node, CueAt):
                self.result.cues.append((node.index, self.result.makes))
            elif isinstance(node, Tone):
                if node.sets_loops:
                    self.loops = node.loops
                if node.colour is not None:
                    self.colour = node.colour
            elif isinstance(node, Mark):
                self.mark(node, out)
            elif isinstance(node, Skip):
                self.take(node.n, 0)
                if node.n:
                    out.append(group("skip", node.n, 0 if self.base == "chain" else 1, 0, 0, None, None, None))
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

    def made(self, node: Work, n: int, into: str | None, in_chain: bool, uses: int | None = None) -> Group:
        """The group of `n` of a Work."""
        key = node.key
        entry = self.entry(key)
        per = node.per
        if per > 1 and (key, per) in _SEVERAL and key not in self.own:
            key = _SEVERAL[key, per]
            entry = TABLE[key]
            per = 1
        used = entry.uses * self.layer if uses is None else uses
        if in_chain:
            used = 0
        steps = entry.steps * per
        return group(key, n, used, entry.makes * per, steps, node.loops or self.loops, into, node.colour or self.colour)

    def work(self, node: Work, items: list[Node], at: int, out: list[Made]) -> None:
        entry = self.entry(node.key)
        if node.key == "ch":
            rest = [n for n in items[at + 1 :] if not isinstance(n, CueAt | Tone)]
            ends = not self.inside and (not rest or (isinstance(rest[0], Mark) and rest[0].name == "turn"))
            self.chain_work(node, out, ends)
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
            and self.base == "round"
            and self.ground.there
            and self.counted is None
        ):
            # right after the join, "the same stitch" is the first one of the course below
            self.take(1, entry.makes * node.per * node.n)
            out.append(self.made(Work(node.key, loops=node.loops, colour=node.colour), 1, "same st", False, uses=1))
            if node.n > 1:
                out.append(
                    self.made(
                        Work(node.key, loops=node.loops, colour=node.colour), node.n - 1, "same st", False, uses=0
                    )
                )
            return
        if node.base in ("piece", "bridge"):
            self.lend(node, out)
            return
        if node.evenly:
            self.spread(node, out)
            return
        if node.base == "space" and self.ground.spaces and node.places == 1:
            made = entry.makes * node.per * node.n
            self.take(1, made)
            one = Work(node.key, loops=node.loops, colour=node.colour)
            out.append(self.made(one, 1, node.noun or "space", False, uses=1))
            if node.n > 1:
                out.append(self.made(one, node.n - 1, node.noun or "space", False, uses=0))
            return
        if node.base == "space" and self.ground.spaces:
            self.take(node.places, entry.makes * node.per * node.n)
            each = Work(node.key, loops=node.loops, colour=node.colour)
            inner = [self.made(each, 1, node.noun or "space", False, uses=1)]
            if node.n > node.places:
                inner.append(self.made(each, node.n // node.places - 1, node.noun or "space", False, uses=0))
            out.append(Repeat.model_construct(type="repeat", body=inner, times=node.places))
            return
        if node.base in ("same", "space"):
            self.result.makes += entry.makes * node.per * node.n
            out.append(
                self.made(node, node.n, "same st" if node.base == "same" else node.noun or "space", False, uses=0)
            )
            return
        if node.fill:
            done = self.amount(items, at, node.last, entry.uses * self.layer, entry.makes * node.per)
            if done is None or done[0] < 0:
                self.result.unknown = True
                return
            n, over = done
            self.result.uneven += over
            if n == 0:
                self.result.empty = self.result.empty or (at > 0 and _goes_round(items[at - 1]))
                return
        else:
            n = node.n
            if n == 0:
                return
        chained = self.base == "chain" and not self.open_chain
        in_chain = self.take(entry.uses * n * self.layer, entry.makes * node.per * n)
        spot: str | None = None
        if in_chain and chained:
            spot = "other side" if self.side_ahead else "last ch" if node.tip and n == 1 else None
            self.side_ahead = False
        out.append(self.made(node, n, spot, in_chain))

    def lend(self, node: Work, out: list[Made]) -> None:
        """Stitches into another piece, or into the chain between two: they use none of the course below."""
        n = node.n
        if node.fill:
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
        out.append(Repeat.model_construct(type="repeat", body=body, times=node.n))
        if over:
            out.append(self.made(plain, over, None, False))
        self.take(left, left + (entry.makes - entry.uses) * node.n)

    def chain_work(self, node: Work, out: list[Made], ends: bool) -> None:
        """Chains: a start, a turning chain, a strand to work back along, or (`ends` not) a space."""
        if node is self.counted:
            self.result.uses += self.counted_uses
            self.result.makes += 1
            out.append(group("ch", 1, self.counted_uses, 1, max(1, node.n), None, "counts as a stitch", self.colour))
            return
        leads = self.result.makes == 0 and self.result.uses == 0
        made = group("ch", node.n, 0, 0, 1, None, None, node.colour or self.colour)
        if not ends and not (leads and not self.inside) and self.base != "chain":
            self.gaps.append((made, node.n))
            self.result.spaces += 1
            self.result.chains += node.n
            out.append(made)
            if node.n >= 2:
                self.chain_size = node.n
            return
        if (self.result.makes == 0 and self.ground.first) or node.n >= 2:
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

    def one(self, node: One, items: list[Node], at: int, out: list[Made]) -> None:
        inner = self.measure_all(node.body)
        if inner is None:
            self.result.unknown = True
            return
        n = node.n
        if node.fill:
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
        free = node.base in ("same", "ring") or (node.base == "space" and not self.ground.spaces)
        in_chain = self.take(0 if free else n, inner[1] * n)
        body: list[Made] = []
        first = not free and not in_chain
        into = {"hook": f"{ordinal(node.hook)} ch from hook", "ring": "ring"}.get(node.base, "same st")
        for part in self.chosen(node.body):
            if isinstance(part, Work):
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
            out.append(Repeat.model_construct(type="repeat", body=body, times=n))

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
        out.append(Repeat.model_construct(type="repeat", body=body, times=times))


def read_as(
    tree: Tree, picks: tuple[int, ...], ground: Ground, own: dict[str, Stitch], counted: bool = False
) -> Reading:
    """One reading of a tree."""
    walk = Sum(tree, picks, ground, own)
    walk.tree_counts = counted
    return walk.run()


def fits(reading: Reading, ground: Ground) -> bool:
    """Does a reading agree with all that is known: stitches there, printed count?"""
    if reading.unknown or reading.uneven or reading.over_chain:
        return False
    if ground.declared is not None and ground.declared not in reading.counts():
        return False
    return ground.there is None or ground.free or reading.uses == ground.there


def misfit(reading: Reading, ground: Ground) -> tuple[int, int]:
    """How far a reading is off: smaller is nearer."""
    if reading.unknown:
        return (9, 10**6)
    wrong = distance = 0
    if ground.declared is not None and ground.declared not in reading.counts():
        wrong += 1
        distance += abs(reading.makes - ground.declared)
    if ground.there is not None and not ground.free and reading.uses != ground.there:
        wrong += 1
        distance += abs(reading.uses - ground.there)
    if reading.uneven or reading.over_chain:
        wrong += 1
        distance += reading.uneven + reading.over_chain
    return wrong, distance


@dataclass(slots=True)
class Chosen:
    """The reading taken. `why`: the double meaning decided against its first meaning; `bounded`: not all were tried."""

    reading: Reading
    fits: bool
    why: list[str] = field(default_factory=list)
    bounded: bool = False
    others: list[Reading] = field(default_factory=list)
    counted: bool = False


def choose(tree: Tree, ground: Ground, own: dict[str, Stitch]) -> Chosen:
    """The first meaning when it fits; else the first other one that fits; else the nearest. At most 64 are tried."""
    first = (0,) * len(tree.choices)
    if ground.counts_as is None and ground.declared is None and ground.there and _grows_at_start(tree):
        grown = read_as(tree, first, ground, own, True)
        if fits(grown, ground):
            return Chosen(grown, True, ["turning chain counts"], False, [], True)
    reading = read_as(tree, first, ground, own)
    if fits(reading, ground):
        return Chosen(reading, True)
    best = reading
    best_misfit = misfit(reading, ground)
    best_counted = False
    tried = 1
    others: list[Reading] = []
    turning = _may_count(tree, ground)
    sizes = [range(len(c.options)) for c in tree.choices]
    total = 1
    for size in sizes:
        total *= len(size)
    combos = sorted(islice(product(*sizes), 4096), key=lambda p: (sum(p), p)) if tree.choices else [()]
    bridged = ground.free and reading.spaces > 0
    ways = [(False, ground)]
    if turning:
        ways.append((True, ground))
    if bridged and not ground.mode:
        ways.append((False, replace(ground, mode="chains")))
    if reading.over_chain and ground.declared is not None:
        ways.append((False, replace(ground, both_sides=True)))
    for counted, below in ways:
        for picks in combos:
            if picks == first and not counted and below is ground:
                continue
            if tried >= MOST_READINGS:
                break
            tried += 1
            other = read_as(tree, picks, below, own, counted)
            if fits(other, ground):
                why = [tree.choices[i].why for i, p in enumerate(picks) if p]
                if counted:
                    why.append("turning chain counts")
                if below is not ground:
                    why.append("back along the chain" if below.both_sides else "bridge counts")
                return Chosen(other, True, why, False, others, counted)
            others.append(other)
            off = misfit(other, ground)
            if off < best_misfit:
                best, best_misfit, best_counted = other, off, counted
    why = [tree.choices[i].why for i, p in enumerate(best.picks) if p]
    if best_counted:
        why.append("turning chain counts")
    return Chosen(best, False, why, total > MOST_READINGS, others, best_counted)


_HEIGHTS = {"hdc": 2, "dc": 3, "tr": 4}


def _grows_at_start(tree: Tree) -> bool:
    """ "ch 3, dc in same st, 2 dc in each st": the chain and its neighbour are the first increase (common practice)."""
    items = [n for n in tree.items if not isinstance(n, CueAt | Tone | Mark)]
    if len(items) < 3 or not all(isinstance(n, Work) for n in items[:3]):
        return False
    chain, same, rest = items[:3]
    assert isinstance(chain, Work) and isinstance(same, Work) and isinstance(rest, Work)  # noqa: PT018
    return (
        chain.key == "ch"
        and same.base == "same"
        and same.n * same.per == 1
        and chain.n == _HEIGHTS.get(same.key)
        and rest.fill
        and (rest.per == 2 or (rest.key in TABLE and TABLE[rest.key].makes == 2))
    )


def _may_count(tree: Tree, ground: Ground) -> bool:
    if ground.counts_as is not None:
        return False
    for node in tree.items:
        if isinstance(node, Work):
            if node.key == "ch" and node.n >= 1:
                return True
            if node.base == "hook" and node.hook >= 3:
                return True
    return False
