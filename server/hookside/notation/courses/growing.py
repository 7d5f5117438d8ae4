"""Courses that a sentence asks for without spelling them out: one plain stitch more between the increases each time."""

from __future__ import annotations

from hookside.notation.courses.borrowing import Borrowing
from hookside.notation.courses.waiting import Parsed, Waiting, name_of, walk
from hookside.notation.courses.waitlist import Spot
from hookside.notation.labels import references
from hookside.notation.labels.growth import Growth
from hookside.notation.labels.references import Change
from hookside.notation.trees.nodes import Rep, Work
from hookside.stitches import TABLE

_MOST_GROWN = 60  # courses that such a sentence may stand for


def _shape(parsed: Parsed) -> str:
    """ "inc" or "dec", where a body has a repeat that does nothing else beside plain stitches."""
    ways: set[str] = set()
    for node in walk(parsed.tree.items):
        if isinstance(node, Work) and node.key in TABLE and node.key != "ch":
            entry = TABLE[node.key]
            made = entry.makes * node.per - entry.uses
            if entry.uses and made:
                ways.add("inc" if made > 0 else "dec")
    repeated = any(isinstance(n, Rep | Work) and (n.fill or (n.times or 1) > 1 or getattr(n, "n", 1) > 1)
                   for n in walk(parsed.tree.items))
    return ways.pop() if len(ways) == 1 and repeated else ""


class Growing(Borrowing):
    """Goes on with the last shaping of the piece."""

    def grow(self, spot: Spot, numbers: list[int], told: Growth) -> bool:
        """Lays out what a sentence like "continue increasing until you have 36 sts" asks for; False where it can't."""
        before = [t for t in self.waiting if isinstance(t, Waiting) and not t.foundation and t.parsed is not None]
        source = next((t for t in reversed(before) if t.parsed and _shape(t.parsed)), None)
        if source is not None and source.parsed and told.shape and _shape(source.parsed) != told.shape:
            source = None
        last = self.last_label()
        count = len(numbers) or told.rounds or _MOST_GROWN
        bodies = self.grown(source.parsed if source is not None else None, told, count)
        if not bodies:
            return False
        plain_last = bool(before) and before[-1] is not source
        sources = [name_of(source.label, spot.kind) + ", one step on each time"] if source is not None else []
        if told.other:
            plain = self.sheet.parse("sc in each st around" if self.sheet.terms == "US" else "dc in each st around")
            mixed: list[Parsed] = []
            for body in bodies:
                mixed += [body, plain] if plain_last else [plain, body]
            bodies = mixed[:count] if numbers or told.rounds else mixed
        if not numbers:
            numbers = list(range(last + 1, last + 1 + len(bodies)))
        printed = references.printed(self.page.text[spot.start : spot.end], spot.start)
        if told.until is not None and printed is None and spot.raw.label is not None:
            printed = (told.until, spot.start, spot.start)
        self.put(
            numbers[: len(bodies)],
            spot,
            bodies[0],
            borrowed=True,
            printed=printed if spot.raw.label is not None else None,
            cycle=bodies,
            sources=sources,
            until=told.until if spot.raw.label is None else None,
        )
        return True

    def grown(self, source: Parsed | None, told: Growth, count: int) -> list[Parsed]:
        """The bodies of the shaping courses, one after the other."""
        found: list[Parsed] = []
        if source is not None:
            sign = 1 if _shape(source) == "inc" else -1
            for turn in range(1, count + 1):
                body = self.changed(source, Change(plain=sign, each=True), turn)
                if body is None:
                    break
                found.append(body)
        if not found and told.step and told.shape:
            found = [self.sheet.parse(f"{told.shape} {told.step} evenly")] * count
        return found
