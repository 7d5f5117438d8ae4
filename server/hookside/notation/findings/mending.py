"""What a course that does not come out was most likely meant to be: edits of its numbers that make it come out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from hookside.notation.arithmetic.choosing import choose
from hookside.notation.arithmetic.ground import Ground, Reading, fits
from hookside.notation.arithmetic.summing import read_as
from hookside.notation.courses.waiting import Parsed
from hookside.notation.trees.nodes import Choice, Mark, Node, One, Rep, Tone, Tree, Work
from hookside.stitches import TABLE, Stitch


@dataclass(slots=True)
class Edit:
    """One number of the body, written anew; or a bracket set around its list. `was`: what the number meant."""

    start: int
    end: int
    value: int | str
    was: int | None = None

    def written(self, text: str) -> str:
        """What comes in place of `text`: "4 more times" are five, and six of them "5 more times"."""
        if self.was is None or not isinstance(self.value, int) or not text.isdecimal():
            return str(self.value)
        return str(self.value + int(text) - self.was)


@dataclass(slots=True)
class Mend:
    """Edits that make a course come out, and what it then makes. `count`: the printed count changes as well."""

    edits: list[Edit]
    makes: int
    count: bool


@dataclass(slots=True)
class _Slot:
    node: Work | Rep
    name: str
    start: int
    end: int
    bare: bool = False  # "sc": no number is written there yet

    def get(self) -> int:
        return int(getattr(self.node, self.name))

    def edit(self, value: int) -> Edit:
        return Edit(self.start, self.end, f"{value} ") if self.bare else Edit(self.start, self.end, value, self.get())

    def set(self, value: int) -> None:
        setattr(self.node, self.name, value)


def _slots(nodes: list[Node], found: list[_Slot], picks: tuple[int, ...]) -> None:
    for node in nodes:
        if isinstance(node, Choice):
            _slots(node.options[picks[node.index]] if node.index < len(picks) else node.options[0], found, picks)
        elif isinstance(node, Work):
            if node.number and not node.fill and node.key != "ch":
                name = "per" if node.per > 1 and node.n == 1 else "n"
                found.append(_Slot(node, name, *node.number))
        elif isinstance(node, Rep):
            _slots(node.body, found, picks)
            if node.number and not node.fill:
                found.append(_Slot(node, "times", *node.number))
        elif isinstance(node, One):
            _slots(node.body, found, picks)


def _bare(nodes: list[Node], found: list[_Slot]) -> None:
    """Stitches of a repeat that stand without a number: "(sc, inc) x 6", meant as "(2 sc, inc) x 6"."""
    for node in nodes:
        if isinstance(node, Rep):
            works = [n for n in node.body if isinstance(n, Work)]
            plain = [n for n in works if n.n == n.per == 1 and n.number is None and not n.fill and not n.placed]
            found.extend(_Slot(n, "n", n.start, n.start, True) for n in plain if n.key in _PLAIN)


_PLAIN = frozenset(["sc", "hdc", "dc", "tr"])


def _values(now: int, there: int) -> Iterator[int]:
    for step in range(1, 13):
        yield now + step
        if now - step >= 1:
            yield now - step
    for value in range(1, min(there, 60) + 1):
        if there % value == 0 and abs(value - now) > 12:
            yield value


def _worth(slot: _Slot, tree: Tree, reading: Reading, ground: Ground, own: dict[str, Stitch]) -> list[int]:
    """The values that may bring a course to what is there, or is printed: it grows evenly with each of its numbers."""
    assert ground.there is not None
    now = slot.get()
    values = list(_values(now, ground.there))
    if reading.filled or reading.chain:
        return values
    here, then = (_with(slot, value, tree, reading, ground, own) for value in (now, now + 1))
    slot.set(now)
    missing, each = ground.there - here.uses, then.uses - here.uses
    if ground.free or not each:
        if ground.declared is None:
            return values if ground.free else []
        missing, each = ground.declared - here.makes, then.makes - here.makes
    counted = (missing, missing - 1)  # a turning chain may count, and use one
    wanted = {now + m // each for m in counted if each and m % each == 0}
    return [value for value in values if value in wanted]


def _with(slot: _Slot, value: int, tree: Tree, reading: Reading, ground: Ground, own: dict[str, Stitch]) -> Reading:
    slot.set(value)
    return read_as(tree, reading.picks, ground, own)


def mends(tree: Tree, reading: Reading, ground: Ground, own: dict[str, Stitch], most: int = 3) -> list[Mend]:
    """Edits of one number, or of one number and a multiplier, after which the course uses all that is there.

    Nearest to the printed text first; those that also make the printed count before those that need a new count.
    """
    if ground.there is None:
        return _for_count(tree, reading, ground, own, most)
    slots: list[_Slot] = []
    _slots(tree.items, slots, reading.picks)
    open_ground = ground.but(declared=None)
    found: list[tuple[tuple[int, int, int], Mend]] = []

    def try_edits(edits: list[tuple[_Slot, int]]) -> None:
        before = [(slot, slot.get()) for slot, _ in edits]
        written = [slot.edit(value) for slot, value in edits]
        for slot, value in edits:
            slot.set(value)
        try:
            taken = choose(tree, open_ground, own)
            if taken.fits and taken.reading.picks == reading.picks and taken.reading.makes > 0:
                right = ground.declared is None or taken.reading.makes == ground.declared
                if not right and (edits[0][0].bare or not _bears(taken.reading.makes, ground.declared)):
                    return
                distance = sum(abs(value - old) for (_, value), (_, old) in zip(edits, before, strict=True))
                mend = Mend(written, taken.reading.makes, not right)
                found.append(((0 if right else 1, len(edits), distance), mend))
        finally:
            for slot, value in before:
                slot.set(value)

    bare: list[_Slot] = []
    if ground.declared is not None:
        _bare(tree.items, bare)
    if len(slots) + len(bare) <= 12:
        for slot in [*slots, *bare]:
            now = slot.get()
            for value in _worth(slot, tree, reading, ground, own):
                if value != now:
                    try_edits([(slot, value)])
        for times in slots:
            if times.name != "times":
                continue
            inner: list[_Slot] = []
            assert isinstance(times.node, Rep)
            _slots(times.node.body, inner, reading.picks)
            for slot in inner:
                if slot.name != "n" or not isinstance(slot.node, Work):
                    continue
                unit = TABLE[slot.node.key].uses if slot.node.key in TABLE else 1
                per = (ground.there // times.get()) if times.get() else 0
                for value in range(max(1, times.get() - 3), times.get() + 4):
                    if value == times.get() or ground.there % value or unit == 0 or not per:
                        continue
                    change = ground.there // value - _per(times, reading)
                    new = slot.get() + change // unit
                    if change % unit == 0 and new >= 1 and new != slot.get():
                        try_edits([(slot, new), (times, value)])
    around = _around(tree, open_ground, own)
    if around is not None:
        found = [f for f in found if f[0][2] <= _NEAR]  # "1 sc, 11 inc" is not what was meant by "1 sc, 1 inc"
        right = ground.declared is None or around.makes == ground.declared
        around.count = not right
        found.append(((0 if right else 1, 0, 0), around))
    found.sort(key=lambda f: f[0])
    out: list[Mend] = []
    seen: set[tuple[tuple[int, int | str], ...]] = set()
    for _, mend in found:
        key = tuple((e.start, e.value) for e in mend.edits)
        if key not in seen and not any(
            m.makes == mend.makes and len(m.edits) <= len(mend.edits) and len(out) > 1 for m in out
        ):
            seen.add(key)
            out.append(mend)
    return out[:most]


def moved(parsed: Parsed, reading: Reading, ground: Ground, own: dict[str, Stitch]) -> list[Mend]:
    """Where all is used and the printed count is not made: a stitch moved from one group to the other.

    "2 sc in each of next 5, 1 sc in last (12)" on 6: 6 and none in last, or 2 sc in last. What they come to is only
    meant here; whoever offers them reads them anew.
    """
    tree, body = parsed.tree, parsed.body
    if ground.declared is None or reading.filled:
        return []
    missing = ground.declared - reading.makes
    works = [n for n in tree.items if isinstance(n, (Work, Rep))]
    slots: list[_Slot] = []
    _slots(tree.items, slots, reading.picks)
    found: list[Mend] = []
    for slot in slots[:_MOST_MOVED]:
        node = slot.node
        if isinstance(node, Work) and node.n == node.per == 1 and 0 < missing <= _NEAR and node.key in _PLAIN:
            found.append(Mend([slot.edit(1 + missing)], ground.declared, False))
    tops = [s for s in slots[:_MOST_MOVED] if any(s.node is n for n in works) and s.name != "per"]
    for more in tops:
        for less in tops:
            each, other = (_each(s, reading, ground, own) for s in (more, less))
            if more is less or not each[0] or not other[0] or each[0] % other[0]:
                continue
            gain = each[1] - other[1] * each[0] // other[0]  # of one more here, and as many fewer there
            n = missing // gain if gain and missing % gain == 0 else 0
            left = less.get() - n * each[0] // other[0]
            if not 0 < n <= _NEAR or left < 0:
                continue
            gone = less.edit(left) if left else _without(body, less, works)
            if gone is not None:
                found.append(Mend([more.edit(more.get() + n), gone], ground.declared, False))
    return found


def _each(slot: _Slot, reading: Reading, ground: Ground, own: dict[str, Stitch]) -> tuple[int, int]:
    """What one time of a group uses and makes."""
    now = slot.get()
    alone = _with(slot, 1, Tree([slot.node]), reading, ground.but(there=None, free=True, declared=None), own)
    slot.set(now)
    return alone.uses, alone.makes


def _without(body: str, slot: _Slot, works: list[Work | Rep]) -> Edit | None:
    """Takes the last group of a list away, with the comma before it; None where it is not the last."""
    at = max(works, key=lambda n: n.end)
    comma = body.rfind(",", 0, slot.node.start)
    if at is not slot.node or comma < 0 or body[comma + 1 : slot.node.start].strip():
        return None
    return Edit(comma, at.end, "")


_MOST_MOVED = 6  # numbers of one course between which stitches are moved
_NEAR = 2


def _bears(makes: int, declared: int | None) -> bool:
    """May a printed count be a slip for this one? Two to three is as far as a slip goes ("2 inc = 24" is no 48)."""
    return declared is None or (2 * makes <= 3 * declared and 2 * declared <= 3 * makes)


def _around(tree: Tree, ground: Ground, own: dict[str, Stitch]) -> Mend | None:
    """ "1 sc, 1 inc" on 12: the list in a bracket, worked as often as it goes into what is there; else None."""
    items = [n for n in tree.items if not isinstance(n, (Mark, Tone))]
    works = [n for n in items if isinstance(n, Work) and not n.fill and n.key != "ch" and n.base == "next"]
    if len(works) < 2 or len(works) != len(items) or tree.choices or not ground.there:
        return None
    each = read_as(Tree(list(works)), (), ground.but(there=None, free=True), own)
    times = ground.there // each.uses if each.uses else 0
    if times < 2 or ground.there % each.uses:
        return None
    taken = choose(Tree([Rep(list(works), times=times)]), ground, own)
    if not taken.fits:
        return None
    start, end = min(n.start for n in works), max(n.end for n in works)
    return Mend([Edit(start, start, "("), Edit(end, end, f") x {times}")], taken.reading.makes, False)


def _per(times: _Slot, reading: Reading) -> int:
    assert isinstance(times.node, Rep)
    total = 0
    for node in times.node.body:
        if isinstance(node, Choice):
            node = node.options[reading.picks[node.index]][0]
        if isinstance(node, Work):
            total += (TABLE[node.key].uses if node.key in TABLE else 1) * node.n
        elif isinstance(node, Rep):
            total += _per(_Slot(node, "times", 0, 0), reading) * node.times
        elif not isinstance(node, Choice) and hasattr(node, "n"):
            total += int(node.n)
    return total


def _for_count(tree: Tree, reading: Reading, ground: Ground, own: dict[str, Stitch], most: int) -> list[Mend]:
    """Where nothing is known of the course below: edits of one number that give the printed count."""
    if ground.declared is None:
        return []
    slots: list[_Slot] = []
    _slots(tree.items, slots, reading.picks)
    out: list[Mend] = []
    for slot in slots[:12]:
        now = slot.get()
        for value in _values(now, 0):
            slot.set(value)
            taken = choose(tree, ground, own)
            slot.set(now)
            if taken.fits and fits(taken.reading, ground) and taken.reading.picks == reading.picks:
                out.append(Mend([slot.edit(value)], taken.reading.makes, False))
                break
    return out[:most]
