"""Courses that work into other parts: what goes into each part is held against its last count, the rest against
the course below."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from hookside.notation.arithmetic.ground import Ground, Reading
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.waiting import Part, Waiting, name_of, title_of
from hookside.notation.findings.table import finding, spell, stitches
from hookside.notation.trees.nodes import Tree, Work
from hookside.pattern import Finding, groups, in_order
from hookside.stitches import TABLE, plural, singular

_WHICH = {
    "first": "1", "1st": "1", "one": "1", "a": "1", "1": "1", "second": "2", "2nd": "2", "two": "2", "b": "2", "2": "2",
    "third": "3", "3rd": "3", "three": "3", "3": "3", "fourth": "4", "4th": "4", "four": "4", "4": "4",
    "left": "left", "right": "right", "front": "front", "back": "back", "other": "other",
}  # fmt: skip
_NAMED = re.compile(r"(?:around )?(?:the )?(?:(?P<which>\w+) )?(?P<what>[a-z]{3,}?)s?(?: (?P<no>\d|one|two|a|b))?")


@lru_cache(maxsize=2048)  # a text has a thousand parts at most, and each of them may be asked about each
def _words(slug: str) -> frozenset[str]:
    return frozenset(singular(word) for word in slug.split("-"))


@lru_cache(maxsize=2048)
def _order(slug: str) -> frozenset[str | None]:
    """What tells a part from its like: "1" of "leg-1" and "first-leg"."""
    return frozenset(_WHICH.get(word) for word in slug.split("-"))


@dataclass(frozen=True, slots=True)
class Told:
    """A part as a course names it. `which`: "1", "left", "other", "" where its words do not tell it from its like."""

    what: str
    which: str

    def alike(self, parts: Iterable[Part]) -> list[Part]:
        return [p for p in parts if self.what in _words(p.slug)]

    def among(self, parts: Iterable[Part]) -> list[Part]:
        """The parts that can be meant: the latest of that very name, else all of that noun."""
        alike = self.alike(parts)
        named = [p for p in alike if self.which and self.which in _order(p.slug)]
        return named[-1:] or alike


def told(into: str | None) -> Told | None:
    """ "around the first leg", "leg 1": the part that stitches go into; None for a chain, a space, a side."""
    match = _NAMED.fullmatch(into or "")
    if match is None or (match["which"] and match["which"] not in _WHICH):
        return None
    return Told(singular(match["what"]), _WHICH.get(match["no"] or match["which"] or "", ""))


def lent_by_name(tree: Tree, parts: list[Part]) -> tuple[int, ...]:
    """Stitches of the parts that are gone around whole, as the course names them one by one; () where it does not."""
    out = []
    for node in tree.items:
        if isinstance(node, Work) and node.base == "piece" and node.fill:
            named = told(node.noun)
            found = {p.makes for p in named.among(parts)} if named is not None and named.which else set()
            there = found.pop() if len(found) == 1 else None
            if there is None:
                return ()
            out.append(there)
    return tuple(out)


@dataclass(slots=True)
class Into:
    """What a course works into one part. `words`: how it names it; `more`: "around it", whose part is a guess."""

    words: str
    used: int = 0
    more: int = 0


@dataclass(slots=True)
class Joined:
    """One course, summed. `others`: the parts before its own; `own`: its own as it stands below the course."""

    sheet: Sheet
    todo: Waiting
    reading: Reading
    ground: Ground
    below: Waiting | None
    others: list[Part]
    own: Part | None = None

    def findings(self, where: dict[str, Any]) -> Iterator[Finding]:
        """Where what goes into a part, or into the course below, is not what is there."""
        if self.todo.parsed is None or self.reading.unknown:
            return
        where = where | {"Course": title_of(self.todo)}
        into = self.into() if self.others else {}
        yield from self.of_parts(into, where)
        if self.below is not None and self.ground.there is not None:
            yield from self.of_below(self.below, self.ground.there, into, where)

    @property
    def parts(self) -> list[Part]:
        return [*self.others, self.own] if self.own is not None else self.others

    def into(self) -> dict[Told, Into]:
        """Stitches of each part that the course uses."""
        found: dict[Told, Into] = {}
        last: dict[str, Told] = {}
        for group in in_order(self.reading.body):
            named = told(group.into)
            if named is None or group.uses or not named.alike(self.parts):
                continue
            entry = self.sheet.own.get(group.stitch) or TABLE.get(group.stitch)
            used = group.count * (entry.uses if entry is not None else 1)
            if not named.which and named.what in last:  # "join to the first leg with a sc, 13 sc around it"
                found[last[named.what]].more += used
                continue
            last[named.what] = named
            words = str(group.into).removeprefix("around ").removeprefix("the ")
            found.setdefault(named, Into(words)).used += used
        return found

    def placeless(self) -> int:
        """Stitches that may go into any of the parts: "sc into the first leg, sc in the next 11 sts"."""
        if self.below is not None and self.reading.uses <= (self.ground.there or 0):
            return 0  # they go into the course below
        groups = [g for g in in_order(self.reading.body) if g.into is None and g.stitch not in ("ch", "join", "turn")]
        return sum(g.count for g in groups)

    def of_parts(self, into: dict[Told, Into], where: dict[str, Any]) -> Iterator[Finding]:
        over = set()
        any_part = self.placeless()
        for named, here in into.items():
            parts = self.meant(named, into)
            if not named.which or not parts:
                continue
            most, least = max(p.makes or 0 for p in parts), min(p.makes or 0 for p in parts)
            part = here.words if here.words[-1:].isdecimal() else f"the {here.words}"
            if here.used > most:
                over.add(named.what)
                yield self.too_many(here.used, most, part, "that ends", parts, where)
            elif here.used + here.more + any_part < least:
                used = here.used + here.more
                facts: dict[str, Any] = {"expected": least, "found": used, "over": _are(least - used)}
                facts |= {"part": part, "sts": stitches(used)}
                yield finding(self.sheet.page, "part-left", self.todo.start, self.todo.end, **facts, **where)
        for what in {named.what for named in into} - over:
            told_apart = [named for named in into if named.what == what and named.which]
            alike = told_apart[0].alike(self.parts) if told_apart else []
            used, there = sum(into[named].used for named in told_apart), sum(p.makes or 0 for p in alike)
            if 1 < len(told_apart) == len(alike) and used > there and self.known(alike):
                yield self.too_many(used, there, f"the {plural(what)}", "those end", alike, where)

    def too_many(
        self, used: int, there: int, part: str, ends: str, parts: list[Part], where: dict[str, Any]
    ) -> Finding:
        facts: dict[str, Any] = {"expected": there, "found": used, "over": spell(used - there), "sts": stitches(used)}
        facts |= {"part": part, "ends": ends, "severity": None if all(p.sure for p in parts) else "warning"}
        return finding(self.sheet.page, "part-over", self.todo.start, self.todo.end, **facts, **where)

    def meant(self, named: Told, into: dict[Told, Into]) -> list[Part]:
        """The parts that can be meant, where the last counts of all of them are known."""
        parts = named.among(self.parts)
        if named.which == "other":
            first = [other.among(self.parts) for other in into if other.what == named.what and other != named]
            if not first and self.own is not None:
                first = [[self.own]]
            parts = [p for p in parts if [p] not in first] or parts
        return parts if self.known(parts) else []

    @staticmethod
    def known(parts: list[Part]) -> bool:
        return all(p.makes is not None and p.kind == "round" for p in parts)  # rows have edges to go into as well

    def of_below(
        self, below: Waiting, there: int, into: dict[Told, Into], where: dict[str, Any]
    ) -> Iterator[Finding]:
        """What goes into the course below. Where a part is laid on it, each stitch through both goes into it too."""
        phrases = self.todo.parsed.phrases if self.todo.parsed is not None else None
        laid_on = phrases is not None and (phrases.through or phrases.over_part)
        if phrases is None or not (into or laid_on):
            return
        uses = self.reading.uses
        chained = any(group.stitch == "ch" for group in groups(self.reading.body))
        room = there
        if not phrases.through:  # what stands beside the parts may go into them, or into the chains between
            taken = sum(here.used + here.more for here in into.values())
            room += 2 * self.reading.chain + 2 * self.reading.chains + max(0, self.lying_there() - taken)
        doubtful = phrases.over_part and not phrases.through  # "join the arm with 4 sc": through both, or into the arm?
        start, end = self.todo.start, self.todo.end
        facts: dict[str, Any] = {"expected": there, "found": uses, "there": there}
        facts |= {"below": name_of(below.label, below.kind)}
        if doubtful and (self.todo.declared is None or not self.lying_there()):
            return
        if uses > (there if doubtful else room):
            facts |= {"works": f"uses {stitches(uses)}", "over": spell(uses - there), "mends": ""}
            facts |= {"severity": "warning" if uses <= room else None}
            yield finding(self.sheet.page, "overrun", start, end, **facts, **where)
        elif 0 < uses < there and self.todo.declared is not None and not (phrases.unworked or chained):
            yield finding(self.sheet.page, "below-left", start, end, over=_are(there - uses), **facts, **where)

    def lying_there(self) -> int:
        """Stitches of all the parts that its words name."""
        said = _words("-".join(re.findall(r"[a-z]+", self.todo.text.lower())))
        return sum(p.makes or 0 for p in self.others if _words(p.slug) & said)


def _are(n: int) -> str:
    return f"{spell(n)} {'are' if n != 1 else 'is'}"
