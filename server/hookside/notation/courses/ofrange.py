"""What is said behind the work of a range: the counts of its courses, that of its last one, what each of them gains."""

from __future__ import annotations

from dataclasses import dataclass

from hookside.notation.courses.sameness import widens
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.waiting import works
from hookside.notation.courses.waitlist import Printed
from hookside.notation.labels import countlist, gains, oflast


@dataclass(frozen=True, slots=True)
class OfRange:
    """The body of a range without such words, of the same length; the count of the last, its place within the body.

    The counts of them all are read from the page, by `Waitlist.put`.
    """

    body: str
    last: Printed | None = None
    odds: str = ""  # words that tell another gain than the work has, which shapes as well


def of_range(sheet: Sheet, body: str, numbers: list[int]) -> OfRange:
    """A gain asks for nothing where the work widens by as much by itself; its words stay where the work is plain."""
    if len(numbers) < 2:
        return OfRange(body)
    listed = countlist.count_list(body, numbers) if not sheet.sized else None
    if listed is not None and listed.each:
        body = _without(body, listed.start, listed.end)
    last = oflast.of_last(body, numbers)
    count: Printed | None = None
    if last is not None:
        count = last.n, *last.digits
        body = _without(body, last.start, last.end)
    told = gains.gain_behind(body)
    if told is None:
        return OfRange(body, count)
    shorter = _without(body, told.start, told.end)
    parsed = sheet.parse(shorter)
    wider = widens(parsed, sheet.own) if works(parsed) else 0
    if wider == told.n:
        return OfRange(shorter, count or told.after)
    return OfRange(body, count, body[told.start : told.end].strip(" ,;.-(") if wider else "")


def _without(body: str, start: int, end: int) -> str:
    return body[:start] + " " * (end - start) + body[end:]
