"""The line of courses that wait to be summed, and how a course is put into it with its printed count."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from typing import Any

from hookside.notation.courses.latest import Latest
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.waiting import Parsed, Waiting, in_loops, name_of
from hookside.notation.findings.table import finding
from hookside.notation.labels.countlist import Told, count_list, in_label
from hookside.notation.labels.counts import for_each
from hookside.notation.labels.label import CourseKind
from hookside.notation.labels.ownloops import OwnLoops
from hookside.notation.lines.layout import MOST_COURSES, RawCourse, RawPiece, RawText
from hookside.pattern import Piece

# Behind a sentence that spells no stitches out: "inc 6 each round (24, 30, 36)", "[24-30-36 sts]"
_LIST_BEHIND = re.compile(
    r"(?P<sign>[(\[{=,:]) ?(?P<list>\d{1,4}(?:(?: ?[,/;&-] ?|,? and )\d{1,4})+)"
    r"(?: ?(?:sts|stitches|sc|dc))? ?[)\]}]?[ .;]*$"
)
_ASIDE_COUNT = re.compile(r"\s*(\d{1,4})\s*(?:sts?|stitches|sc|dc)?\s*$")

Printed = tuple[int, int, int]  # a count, and where its digits stand in the page


@dataclass(slots=True)
class Spot:
    """Where a course is printed: its body text[start:end], its label from `at` on."""

    raw: RawCourse
    kind: CourseKind
    start: int
    end: int
    at: int
    upon: int = 0  # the number of the course whose loops are worked into, where the words name one
    own: OwnLoops | None = None  # courses of the range that go into loops of their own


@dataclass(slots=True)
class Every:
    """A course that is told once for every other one: its first number, the last (0 where none is told)."""

    first: int
    upto: int
    spot: Spot
    parsed: Parsed


class Waitlist:
    """Courses and the sentences between them, in the order in which they are worked."""

    def __init__(self, sheet: Sheet, piece: Piece, raw: RawPiece) -> None:
        self.sheet = sheet
        self.page = sheet.page
        self.piece = piece
        self.raw = raw
        self.waiting: list[Waiting | RawText] = []
        self.by_label: dict[int, Waiting] = {}
        self.every: list[Every] = []
        self._last = Latest[Waiting | RawText](lambda item: isinstance(item, Waiting) and not item.foundation)
        self._after: dict[int, RawCourse | None] = {}  # behind each item, by its identity
        self.kind: CourseKind = "round"
        self.dashes: Counter[tuple[str, bool]] = Counter()  # behind labels, by their signs; True: no range was meant
        self.ring_ahead = False  # "Make a magic ring." on a line of its own: the first course starts with it

    def room(self, start: int, end: int) -> bool:
        """Is there room for one course more? Said once where there is none."""
        sheet = self.sheet
        if sheet.courses < MOST_COURSES:
            sheet.courses += 1
            return True
        if not sheet.full:
            sheet.full = True
            sheet.findings.append(finding(self.page, "too-many-courses", start, end))
        return False

    def append(self, todo: Waiting) -> None:
        self.waiting.append(todo)
        self.by_label[todo.label] = todo

    def last_label(self) -> int:
        """The number of the last course so far."""
        last = self._last.among(self.waiting)
        return last.label if isinstance(last, Waiting) else 0

    def following(self, raw: RawCourse | RawText) -> RawCourse | None:
        if len(self._after) != len(self.raw.items):
            after: RawCourse | None = None
            for item in reversed(self.raw.items):
                self._after[id(item)] = after
                after = item if isinstance(item, RawCourse) else after
        return self._after.get(id(raw))

    def put(
        self,
        numbers: list[int],
        spot: Spot,
        parsed: Parsed | None,
        *,
        borrowed: bool = False,
        printed: Printed | None = None,
        cycle: list[Parsed] | None = None,
        sources: list[str] | None = None,
        until: int | None = None,
        failed: str = "",
        what: str = "",
        plain: Parsed | None = None,
        slips: tuple[int, int, Parsed] | None = None,
        of_last: bool = False,
    ) -> None:
        """One course for each number, all with one body, or with those of `cycle` in turn.

        `sources` names what borrowed bodies are taken from, in turn as well.
        `printed` is a count found outside the body, `of_last` where it is that of the last course alone; `failed` says
        why there is no body, and `what` it names.
        """
        start, end = spot.start, spot.end
        count = printed or self.printed_in(spot, None if borrowed else parsed)
        declared, declared_at = (count[0], (count[1], count[2])) if count else (None, None)
        text = self.page.quote(start, end)
        each: list[Told | None] = []  # "(24, 30, 36)": a count for every course of a range
        label = spot.raw.label
        self.sheet.sized = self.sheet.sized or (parsed is not None and bool(parsed.phrases.sizes))
        listed = None if self.sheet.sized else count_list(self.page.text[start:end], numbers)
        at = start
        if listed is None and label is not None and label.aside and not self.sheet.sized:
            listed, at = in_label(label.aside, numbers), label.aside_at
        if listed is not None and listed.each:
            each = list(listed.each)
        elif listed is not None:
            self.counts_at_odds(spot, numbers, listed.many)
        elif told_each := for_each(self.page.text[start:end], numbers):
            each = [Told(*one) for one in told_each]
        if each and (last_told := next((one for one in reversed(each) if one is not None), None)) is not None:
            declared, declared_at = last_told.n, (at + last_told.start, at + last_told.end)
        elif declared_at is None and len(numbers) > 1:
            behind = _LIST_BEHIND.search(self.page.text, start, end)
            if behind is not None and behind["sign"] in "([{=":  # its last count is that of the last course
                declared, declared_at = int(re.split(r"\D+", behind["list"])[-1]), behind.span("list")
        for index, number in enumerate(numbers):
            if not self.room(spot.at, start):
                return
            final = index == len(numbers) - 1
            shown = declared if final or (not of_last and (not cycle or len(cycle) == 1)) else None
            own = each[index] if each else None
            told = declared if shown is None and not of_last else None
            body = cycle[index % len(cycle)] if cycle else parsed
            if body is not None and spot.own is not None and number in spot.own.courses:
                body = in_loops(body, spot.own.side)
            self.append(
                Waiting(
                    number,
                    spot.kind,
                    start,
                    end,
                    spot.at,
                    spot.raw,
                    body,
                    own.n if own is not None else None if each else shown,
                    (at + own.start, at + own.end) if own is not None else declared_at,
                    index == 0,
                    final,
                    borrowed,
                    failed,
                    what,
                    text,
                    until,
                    source=sources[index % len(sources)] if sources else "",
                    printed=told,
                    plain=plain,
                    upon=spot.upon if index == 0 else 0,
                    slips=slips,
                    own_count=bool(each),
                )
            )

    def counts_at_odds(self, spot: Spot, numbers: list[int], many: int) -> None:
        """A range prints more or fewer counts than it has courses."""
        where: dict[str, Any] = {"piece": self.piece.name, "course": str(numbers[0]), "found": many}
        where |= {"expected": len(numbers), "Course": name_of(numbers[0], spot.kind).capitalize()}
        self.sheet.findings.append(finding(self.page, "range-counts", spot.start, spot.end, **where))

    def at_odds(self, numbers: list[int], said: int, at: int, start: int) -> None:
        """The words tell of more or fewer courses than the numbers in front of them."""
        where: dict[str, Any] = {"piece": self.piece.name, "course": str(numbers[0]), "found": said}
        where |= {"expected": len(numbers), "Course": name_of(numbers[0], self.kind).capitalize()}
        self.sheet.findings.append(finding(self.page, "range-count", at, start, **where))

    def printed_in(self, spot: Spot, parsed: Parsed | None) -> Printed | None:
        """The count printed in a body, or in a bracket behind its label."""
        if parsed is not None and parsed.phrases.counts:
            counts = parsed.phrases.counts
            stretches = any(c.type == "ST" and counts[0][1] < c.start < counts[-1][1] for c in parsed.phrases.chunks)
            # "sc around leg 2 (12), ch 3, sc around leg 1 (12), sc in 3 ch (30)": the last counts the whole
            n, first, last = counts[-1] if stretches and counts[-1][0] > counts[0][0] else counts[0]
            marks = (c for c in parsed.phrases.chunks if c.type == "MARK")
            side = next((c.start for c in marks if c.value[0] == "other side"), None)
            if side is not None and len(counts) == 2 and counts[0][1] < side < counts[1][1]:
                # a count for each side of the chain, or the second for both
                n, first, last = counts[1]
                n += counts[0][0] if n <= counts[0][0] else 0
            return n, spot.start + first, spot.start + last
        label = spot.raw.label
        match = _ASIDE_COUNT.match(label.aside) if label is not None and label.aside else None
        if label is None or match is None:
            return None
        return int(match[1]), label.aside_at + match.start(1), label.aside_at + match.end(1)
