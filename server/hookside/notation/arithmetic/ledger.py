"""The books of one reading: stitches there, used, made and left; chains and their ends; how far "around" goes."""

from __future__ import annotations

from hookside.notation.arithmetic.ground import Ground, Reading
from hookside.notation.bodies.wording.places import sizes_in
from hookside.notation.bodies.wording.stretches import LAST_TOLD
from hookside.notation.trees.nodes import GROUPS, PLACED, Choice, Mark, Node, One, Rep, Skip, Tree, Work
from hookside.pattern import Group
from hookside.stitches import TABLE, Stitch

MOST_IN_ONE = 100  # stitches and chains


def ends_with(node: Node, key: str) -> bool:
    """ "(inc, sc) x 6, ending with sc": is that what stands last already?"""
    while isinstance(node, GROUPS) and node.body:
        worked = [n for n in node.body if isinstance(n, GROUPS) or (isinstance(n, Work) and n.key != "ch")]
        node = (worked or node.body)[-1]
    return isinstance(node, Work) and node.key == key


class Ledger:
    """What is there, used, made and left while one tree is walked under one set of picks."""

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
        self.circle = 0  # chains of this course that were joined to a ring before anything was worked into them
        self.open_chain = False  # worked into a chain whose length nobody told
        self.lent = 0
        self.gaps: list[tuple[Group, int]] = []
        self.first_chain = ground.chain > 0
        self.side_ahead = False  # the next stitches are the first along the other side of the chain
        self.inside = 0  # depth of repeats
        self.tree_counts = False  # does a starting chain count, for this try?
        self.counted: Work | None = None  # the chain that counts as a stitch
        self.counted_over = 0  # its chains beyond the height of one: "ch 4 (counts as dc and ch 1)" is also a space
        self.counted_uses = 0
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

    def in_one_stitch(self, nodes: list[Node]) -> list[Node]:
        """As `chosen`, for what goes into one stitch: a bracket within it, or more that goes into the same, is nothing
        but its parts one after the other."""
        out: list[Node] = []
        for node in self.chosen(nodes):
            if isinstance(node, Rep) and not node.fill and node.uses is None:
                out.extend(self.in_one_stitch(node.body) * min(node.times, MOST_IN_ONE))
            elif isinstance(node, One) and not node.fill:
                out.extend(self.in_one_stitch(node.body) * min(node.n, MOST_IN_ONE))
            else:
                out.append(node)
            if len(out) > MOST_IN_ONE:  # no stitch holds so many, and hostile brackets hold many more
                self.result.unknown = True
                return out[:MOST_IN_ONE]
        return out

    def measure(self, node: Node) -> tuple[int, int] | None:
        if isinstance(node, Work):
            entry = self.entry(node.key)
            if node.base == "travel":
                return 0, 0
            if node.base == "slipped":
                return entry.uses * node.n, 0
            if node.fill and node.base == "space":
                gaps, counted = self.room(node.noun)
                used = self.ground.chained or (gaps if counted else 0)
                return (used, entry.makes * node.per * gaps) if gaps else None
            if node.fill:
                return None
            made = entry.makes * node.per * node.n
            if node.base == "space" and (each := self.ground.of_space()):
                return node.places * each, made
            if node.base in ("same", "skipped", "ring", "space", "piece", "bridge"):
                return 0, made
            if node.evenly:
                return None
            return entry.uses * node.n * self.layer * node.layers, made
        if isinstance(node, Skip):
            return self.passed(node), 0
        if isinstance(node, Rep):
            if node.fill or node.uses is not None:
                return None
            inner = self.measure_all(node.body)
            if inner is None:
                return None
            return (0 if node.base == "ring" else inner[0] * node.times), inner[1] * node.times
        if isinstance(node, One):
            inner = self.measure_all(node.body)
            if node.fill and node.base == "space" and inner is not None:
                gaps, counted = self.room(node.noun)
                return (gaps if counted else 0, inner[1] * gaps) if gaps else None
            if node.fill or inner is None:
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
            elif isinstance(node, PLACED) and node.base == "hook" and size:
                branch = size - node.hook
                part = 0, part[1]
            elif branch > 0 and part[0]:
                taken = min(branch, part[0])
                branch -= taken
                part = part[0] - taken, part[1]
            used += part[0]
            made += part[1]
        return used, made

    def room(self, noun: str) -> tuple[int, bool]:
        """Spaces of the course below that a place names, and whether they are counted among its stitches."""
        sizes = self.ground.sizes
        named = sizes_in(noun) & set(sizes)
        if not named and len(sizes) > 1 and "corner" in noun:
            named = {max(sizes)}  # the chains that turn the corner are the longest
        if not named:
            return self.ground.gaps, self.ground.spaces
        counted = not self.ground.kept or named <= set(self.ground.kept)
        return sum(sizes[size] for size in named), self.ground.spaces and counted

    def passed(self, node: Skip) -> int:
        """Of what is there, so many are passed over: a space counts where spaces are among it."""
        return node.n + node.gaps * self.ground.of_space()

    def hangs(self) -> bool:
        """Is the chain at hand one that was hung on to a course, and worked back along?"""
        first = self.ground.first or self.ground.there is None or self.ground.both_sides
        return bool(self.hook) and not (first or self.open_chain)

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
                if (
                    self.chain_left <= 0
                    and self.ground.both_sides
                    and bool(self.hook) != self.ground.oval
                    and not self.wrapped
                ):
                    self.wrapped = True
                    self.chain_left = max(0, self.chain_size - max(0, self.hook - 1) - 1)
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
            if isinstance(node, PLACED) and node.base == "hook":
                break
            if isinstance(node, Work) and node.noun == LAST_TOLD and ends_with(items[at], node.key):
                continue  # "(sc, inc) around, ending with inc": its own last one
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
        if self.base == "chain" and self.chain_left <= 0 and self.hangs():
            self.base = "round"  # "ch 8, sc in 2nd ch and next 6 ch, sc in each sc across"
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
        if per_uses <= 0:  # "*20 sc along the side, 3 sc in the corner; rep from * around": as the print has it
            rest = (self.ground.declared or 0) - self.result.makes - made
            times = rest // per_makes if rest > 0 and not more and per_makes > 0 else 0
            return (times, rest % per_makes) if times > 1 else None
        if room < 0:
            return 0, 0
        if more:
            return room // per_uses, 0
        return room // per_uses, room % per_uses
