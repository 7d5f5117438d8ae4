"""The courses of another part, with what this one does otherwise: a round skipped, more plain ones, another body."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from itertools import groupby

from hookside.notation.courses.waiting import Parsed, Waiting
from hookside.notation.labels.departures import Departure
from hookside.notation.trees.asked import every
from hookside.notation.trees.nodes import One, Work
from hookside.stitches import TABLE, Stitch

MOST_COURSES_MORE = 200  # that a part may have more than the one it is like


@dataclass(slots=True)
class Kept:
    """What became of them: the courses, the departures that were kept, and those whose plain rounds were guessed."""

    courses: list[Waiting]
    kept: list[Departure] = field(default_factory=list)
    guessed: list[tuple[Departure, int, int]] = field(default_factory=list)  # plain ones there were, and are now


class Departing:
    """Goes through the departures of one part. `plain` and `read` give the body of a plain round, and that of words."""

    def __init__(
        self, courses: list[Waiting], plain: Callable[[], Parsed], read: Callable[[Departure, Waiting], Waiting | None]
    ) -> None:
        self.begins = [t for t in courses if t.foundation]
        self.courses = [t for t in courses if not t.foundation]
        self.plain = plain
        self.read = read
        self.own: set[int] = set()  # courses whose body this part alone has, with the count printed there, by identity
        self.counts_end: int | None = None  # from here on the counts that are printed there say nothing of this part

    def kept(self, told: list[Departure]) -> Kept:
        """As many of them as can be kept, each by the numbers of the other part."""
        out = Kept([])
        first = self.courses[0].label if self.courses else 1
        for one in told:
            before, were = list(self.courses), self.counts_end
            length = self._longest()
            if self._keep(one) and self.courses and len(self.courses) <= len(before) + MOST_COURSES_MORE:
                out.kept.append(one)
                if one.way in ("plain", "shorter", "longer") and not one.were:
                    out.guessed.append((one, length, length + len(self.courses) - len(before)))
            else:
                self.courses, self.counts_end = before, were
        numbered = [self._again(todo, at, first) for at, todo in enumerate(self.courses)]
        out.courses = [*self.begins, *(numbered if out.kept else self.courses)]
        return out

    def _again(self, todo: Waiting, at: int, first: int) -> Waiting:
        stale = self.counts_end is not None and at >= self.counts_end and id(todo) not in self.own
        again = replace(todo, label=first + at)
        if stale:
            again.declared = again.declared_at = None
        return again

    def _keep(self, one: Departure) -> bool:
        there = [t.label for t in self.courses]
        if one.way == "after" and one.numbers == (0,):
            return False
        beyond = [n for n in one.numbers if n not in there]
        if one.way == "reads":
            return self._reads(one, beyond)
        if one.way == "only" and len(one.numbers) > 1 and there and there[0] < one.numbers[0] in there:
            return self._run_as_long(there.index(one.numbers[0]), len(one.numbers))
        if beyond:
            return False
        if one.way in ("skip", "without last"):
            gone = set(one.numbers or there[-(one.n or 1) :])
            return self._without([at for at, label in enumerate(there) if label in gone])
        if one.way in ("stop", "only"):
            kept = {n for n in there if n <= one.numbers[-1]} if one.way == "stop" else set(one.numbers)
            return kept.issuperset(there) or self._without([at for at, label in enumerate(there) if label not in kept])
        if one.way == "long":
            return self._as_long([there.index(n) for n in one.numbers], one.n)
        if one.way in ("plain", "shorter", "longer"):
            return self._plain_ones(one)
        if one.way == "again":
            at = there.index(one.numbers[-1]) + 1
            return self._insert(at, [self.courses[there.index(n)] for n in one.numbers] * one.n)
        at = there.index(one.numbers[-1]) + 1 if one.numbers else len(there)
        last = self.courses[at - 1]
        body = self.plain() if one.plain or not is_plain(last) else last.parsed
        return self._insert(at, [replace(last, parsed=body, borrowed=True, source="", first_of=True)] * one.n)

    def _without(self, gone: list[int]) -> bool:
        if not gone or len(gone) >= len(self.courses):
            return False
        for at in gone:
            if at < len(self.courses) - 1 and not is_plain(self.courses[at]):
                self._count_no_more(at)
        self.courses = [t for at, t in enumerate(self.courses) if at not in set(gone)]
        return True

    def _as_long(self, at: list[int], n: int) -> bool:
        """So many of these courses, which are all alike; more of different ones nobody can tell."""
        here = [self.courses[i] for i in at]
        if at != list(range(at[0], at[0] + len(at))) or n < 1 or not all(_alike(here[0], t) for t in here):
            return False
        if not is_plain(here[0]):
            self._count_no_more(at[0])
        grown = [*here, *[here[-1]] * max(0, n - len(here))][:n]
        self.courses[at[0] : at[-1] + 1] = grown
        return True

    def _run_as_long(self, first: int, n: int) -> bool:
        """ "The same, but R3-7", where the other has R3-5: so many of the rounds that begin there and are all alike."""
        run = next((run for run in self._runs() if run[0] == first), (first, first))
        alike = [at for at in range(*run) if _alike(self.courses[first], self.courses[at])]
        return bool(alike) and self._as_long(list(range(first, alike[-1] + 1)), n)

    def _longest(self) -> int:
        return max((b - a for a, b in self._runs()), default=0)

    def _runs(self) -> list[tuple[int, int]]:
        """Where plain courses of one body stand one behind the other."""
        found: list[tuple[int, int]] = []
        at = 0
        for plain, group in groupby(self.courses, key=is_plain):
            n = len(list(group))
            found += [(at, at + n)] if plain else []
            at += n
        return found

    def _plain_ones(self, one: Departure) -> bool:
        """More or fewer of the plain rounds, where there is but one stretch of them, or one as long as is told."""
        runs = self._runs()
        several = [run for run in runs if run[1] - run[0] > 1]
        runs = [run for run in runs if run[1] - run[0] == one.were] if one.were else several or runs
        if len(runs) != 1:
            return False
        first, last = runs[0]
        by = {"longer": one.n, "shorter": -one.n}.get(one.way, one.n - (last - first))
        return last - first + by > 0 and self._as_long(list(range(first, last)), last - first + by)

    def _insert(self, at: int, more: list[Waiting]) -> bool:
        if not more or len(more) > MOST_COURSES_MORE:
            return False
        if not all(is_plain(t) for t in more):
            self._count_no_more(at)
        there = self.courses[at - 1].declared if all(is_plain(t) for t in more) else None
        self.courses[at:at] = [t if t.declared == there else replace(t, declared=None, declared_at=None) for t in more]
        return True

    def _reads(self, one: Departure, beyond: list[int]) -> bool:
        """Another body for these courses; for the one behind the last where it is that one's number."""
        there = [t.label for t in self.courses]
        if beyond and list(one.numbers) != [there[-1] + 1]:
            return False
        at = [there.index(n) for n in one.numbers] if not beyond else [len(there)]
        made = [self.read(one, self.courses[min(i, len(there) - 1)]) for i in at]
        if any(m is None for m in made):
            return False
        self._count_no_more(at[0])
        for i, body in zip(at, made, strict=True):
            if body is not None:
                self.own.add(id(body))
                self.courses[i : i + 1] = [body]
        return True

    def _count_no_more(self, at: int) -> None:
        self.counts_end = at if self.counts_end is None else min(at, self.counts_end)


def is_plain(todo: Waiting) -> bool:
    """One stitch in each all the way round, or so many single ones, none of them in a ring."""
    return todo.parsed is not None and plain_body(todo.parsed)


def plain_body(parsed: Parsed) -> bool:
    if parsed.phrases.unknown:
        return False
    nodes = every(parsed.tree)
    worked = [n for n in nodes if isinstance(n, Work) and n.key not in ("ch", "sl st")]
    if not worked or any(isinstance(n, One) for n in nodes):
        return False
    return all(n.base == "next" and n.per == 1 and n.key in TABLE and _one_in_one(TABLE[n.key]) for n in worked)


def _one_in_one(stitch: Stitch) -> bool:
    return (stitch.uses, stitch.makes) == (1, 1)


def _alike(one: Waiting, other: Waiting) -> bool:
    if one.parsed is None or other.parsed is None:
        return False
    return one.parsed is other.parsed or one.parsed.body.split() == other.parsed.body.split()
