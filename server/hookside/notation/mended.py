"""The mended lines that are offered, taken: one after the other, as long as each makes the pattern come out better."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from hookside.notation.reader import read
from hookside.pattern import Finding, Pattern, Suggestion, Terms

MOST_CHANGES = 200
MOST_READ = 400_000  # characters read in all while looking for what is best: one or two seconds of work
_UNREAD = frozenset(["unread", "reference", "unknown-length"])
_NEEDED = " What comes after it needs it so."

Key = tuple[str, str | None, str]  # a finding, known again in another reading of the text
Weight = tuple[int, int, int]  # what is left to look at: errors, warnings, notes


@dataclass(frozen=True, slots=True)
class Change:
    """One mended line. `line` counts from 1; `before` and `after` are the line as it was and as it is."""

    line: int
    before: str
    after: str
    why: str


@dataclass(frozen=True, slots=True)
class Stop:
    """A course that cannot be followed, behind which nothing of its piece was taken. `line` counts from 1."""

    line: int
    say: str


@dataclass(frozen=True, slots=True)
class Mended:
    """The text with all changes made, and what it says now. `more`: the bound was met, and there may be more."""

    text: str
    changes: list[Change]
    pattern: Pattern
    more: bool
    stops: list[Stop]


def mend(text: str, terms: Terms | None = None) -> Mended:
    """Takes the best suggestion of each finding, in the order of the text, until none is left that helps.

    Best is the one after which least is left to look at; the nearest to what is printed among equals. A suggestion
    that helps nowhere is left alone, and so is the text around every change. Behind a course that still cannot be
    followed nothing of that piece is taken: what is offered there rests on a number nobody knows, and would be made to
    fit a misreading.
    """
    return _Mending(text, terms).run()


class _Mending:
    def __init__(self, text: str, terms: Terms | None) -> None:
        self.text = text
        self.terms = terms
        self.characters = 0
        self.refused: set[Key] = set()  # findings whose suggestions did not help
        self.changes: list[Change] = []

    def read(self, text: str) -> Pattern:
        self.characters += len(text)
        return read(text, self.terms)

    def spent(self) -> bool:
        return self.characters + len(self.text) > MOST_READ or len(self.changes) >= MOST_CHANGES

    def run(self) -> Mended:
        pattern = self.read(self.text)
        while not self.spent():
            found = self.next(pattern)
            if found is None:
                return self.done(pattern, False)
            pattern = self.take(found, pattern)
        return self.done(pattern, self.next(pattern) is not None)

    def done(self, pattern: Pattern, more: bool) -> Mended:
        return Mended(self.text, self.changes, pattern, more, self.stops(pattern))

    def next(self, pattern: Pattern) -> Finding | None:
        """The first finding whose offers were not tried yet, none of those behind what cannot be followed."""
        behind = _behind(pattern, self.refused)
        return next((f for f in self.waiting(pattern) if f.course_id not in behind), None)

    def waiting(self, pattern: Pattern) -> list[Finding]:
        return [f for f in pattern.findings if f.suggestions and _key(f) not in self.refused]

    def stops(self, pattern: Pattern) -> list[Stop]:
        """Where it did not go on, though lines are offered behind."""
        behind = _behind(pattern, self.refused)
        left = Counter(id(behind[f.course_id]) for f in self.waiting(pattern) if f.course_id in behind)
        return [Stop(f.line, _halted(f, left[id(f)])) for f in pattern.findings if left[id(f)]]

    def take(self, found: Finding, pattern: Pattern) -> Pattern:
        """Tries what a finding offers; the reading of the text as it then is."""
        now = _weight(pattern)
        tried: list[tuple[Weight, int, Suggestion, Pattern]] = []
        for at, offered in enumerate(found.suggestions):
            if at and self.spent():
                break
            then = self.read(taken(self.text, offered))
            tried.append((_weight(then), at, offered, then))
        left, _, best, then = min(tried, key=lambda t: t[:2])
        if left >= now:
            self.refused.add(_key(found))
            return pattern
        needed = any(weight[0] > left[0] for weight, *_ in tried)
        self.changes.append(_change(self.text, best, found.message + (_NEEDED if needed else "")))
        self.text = taken(self.text, best)
        return then


def taken(text: str, offered: Suggestion) -> str:
    """The text with one suggestion taken."""
    return text[: offered.start] + offered.replacement + text[offered.end :]


def _key(found: Finding) -> Key:
    return found.code, found.course_id or f"line {found.line}", found.message


def _halted(found: Finding, left: int) -> str:
    """Where it stopped and why, in words."""
    behind = "The mended line that is offered" if left == 1 else f"The mended lines that are offered at {left} places"
    stays = "is" if left == 1 else "are"
    return f"Stopped at line {found.line}. {found.message} {behind} behind it {stays} not taken until that is clear."


def _behind(pattern: Pattern, refused: set[Key]) -> dict[str | None, Finding]:
    """Courses that rest on one which cannot be followed, each with what is the matter there.

    One that shapes and makes what it prints is firm ground again; a plain one only carries its number on.
    """
    barring: dict[str | None, Finding] = {}
    for found in reversed(pattern.findings):
        if found.severity == "error" or found.code in _UNREAD:
            barring[found.course_id] = found
    out: dict[str | None, Finding] = {}
    for piece in pattern.pieces:
        bar: Finding | None = None
        for course in piece.courses:
            here = barring.get(course.id)
            if bar is not None:
                out[course.id] = bar
            if here is None and course.read and course.declared == course.makes and not course.plain:
                bar = None
            elif bar is None and here is not None and (not here.suggestions or _key(here) in refused):
                bar = here
    return out


def _weight(pattern: Pattern) -> Weight:
    grave: Counter[str] = Counter()
    for found in pattern.findings:
        grave[found.severity] += found.found or 0 if found.code == "more-alike" else 1
    return grave["error"], grave["warning"], grave["note"]


def _change(text: str, offered: Suggestion, why: str) -> Change:
    after = taken(text, offered)
    start = text.rfind("\n", 0, offered.start) + 1
    end = text.find("\n", offered.end)
    end = len(text) if end < 0 else end
    return Change(
        text.count("\n", 0, offered.start) + 1,
        text[start:end].rstrip("\r"),
        after[start : end + len(after) - len(text)].rstrip("\r"),
        why,
    )
