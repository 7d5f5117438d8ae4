"""The colours that a heading, or a sentence below it, tells: each before the first course worked in it."""

from __future__ import annotations

import re
from typing import Any

from hookside.notation.askings.colournames import SHADE, is_colour
from hookside.notation.courses.shaderanges import Dyed, by_number
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.striped import open_list, striped
from hookside.notation.courses.waiting import Waiting
from hookside.notation.findings.table import finding
from hookside.notation.lines.layout import RawPiece, RawText
from hookside.pattern import Piece

Items = list[Waiting | RawText]
_SHADE = re.compile(rf"(?<![\w-])(?:{SHADE})", re.I)
_ANY_PLACE = re.compile(r"\d|\b(?:first|last|every|odd|even)\b", re.I)
# "A: red, B: cream" in a heading: what the letters in its rounds mean
_KEY = re.compile(r"(?P<letter>[A-H]) ?[:=-] ?(?P<shade>[A-Za-z]{3,14}(?: [a-z]{3,14})?)(?:[,;/] ?| and |$)")


def _is_key(what: str, bodies: list[str]) -> bool:
    """Is that a key of letters, and does each of them stand in the rounds?"""
    told = list(_KEY.finditer(what.strip(" ()[]")))
    if len(told) < 2 or sum(len(m[0]) for m in told) < len(what.strip(" ()[]")):
        return False
    lettered = {letter for body in bodies for letter in re.findall(r"\b[A-H]\b", body)}
    return all(is_colour(m["shade"]) and m["letter"] in lettered for m in told)


def with_colours(sheet: Sheet, piece: Piece, raw: RawPiece, queue: Items, notes: list[tuple[int, int]]) -> Items:
    """The courses with the later colours of the heading where they begin; one that has no place there is said.

    `notes`: lines elsewhere that may tell them by the courses of this piece.
    """
    told = raw.colours
    page = sheet.page
    if told is None:
        out = list(queue)
        dyes, said = striped(page.text, queue, notes, sheet.yarns, piece.make)
        sheet.asked.extend(said)
        which = None if dyes else open_list(page.text, out, notes, piece.make)
        if which is not None:
            words = page.quote(*which).strip()
            sheet.findings.append(finding(page, "shades-listed", *which, piece=piece.name, words=words))
        sheet.dyed.update(said)
        ended = next((dyed for dyed in dyes if dyed.ends), None)
        begun = _before(out, dyes, said)
        if ended is not None and not begun:
            _says_where_it_ends(sheet, piece, ended)
        for dyed in dyes:
            before = _place(out, dyed.course)
            if before is not None and (begun or not dyed.ends):
                out.insert(before, RawText(dyed.start, dyed.end, "colour", back=dyed.course if dyed.ends else 0))
        return out
    what = page.quote(told.start, told.end)
    if (placed := _by_their_rounds(sheet, queue, told.start, told.end)) is not None:
        return placed
    if not told.plain and not _is_key(what, [page.text[t.start : t.end] for t in queue if isinstance(t, Waiting)]):
        sheet.findings.append(finding(page, "colors-mixed", told.start, told.end, what=what, piece=piece.name))
    out = list(queue)
    for start, end, course in told.later:
        at = _place(out, course)
        if at is not None:
            out.insert(at, RawText(start, end, "colour"))
        elif course is not None or not _named(raw, page.text, page.text[start:end]):
            shade = _plainly(page.text[start:end])
            spot = finding(page, "colors-where", start, end, what=what, shade=shade, piece=piece.name)
            sheet.findings.append(spot)
    return out


def _before(queue: Items, dyes: list[Dyed], told: list[tuple[int, int]]) -> bool:
    """Is a yarn in hand before the first course that sentences, `told`, give another one: of the courses in front of
    it, or told ahead of them?"""
    first = next((at for at, item in enumerate(queue) if isinstance(item, Waiting)), len(queue))
    if dyes and first < (_place(queue, dyes[0].course) or 0):
        return True
    ahead = (item for item in queue[:first] if isinstance(item, RawText) and item.job == "colour")
    return any(not any(start <= item.start < end for start, end in told) for item in ahead)


def _by_their_rounds(sheet: Sheet, queue: Items, start: int, end: int) -> Items | None:
    """ "White; black in rounds 3 and 5": the courses with the second color where it begins, and with the first one
    where it ends; None where the heading does not tell a color of all and one of some."""
    text = sheet.page.text
    labels = sorted({item.label for item in queue if isinstance(item, Waiting) and not item.foundation})
    dyes = by_number(text, start, end, labels, sheet.yarns)
    if dyes and dyes[0].course == labels[0] and not any(dyed.ends for dyed in dyes):
        return _each_at_its_course(queue, dyes, start, end)  # "rounds 4-6 red, the rest green"
    if not any(dyed.ends for dyed in dyes) or len({_plainly(text[d.start : d.end]) for d in dyes}) > 1:
        return None
    ahead = next((item for item in queue if isinstance(item, RawText) and item.job == "colour"), None)
    main = _SHADE.search(text, ahead.start if ahead is not None and ahead.start < start else start, end)
    if main is None or main.end() > dyes[0].start or _ANY_PLACE.search(text, start, max(start, main.end())):
        return None
    first = min(start, main.start())
    out = [item for item in queue if not (isinstance(item, RawText) and first <= item.start and item.end <= end)]
    for dyed in reversed(dyes):
        at = _place(out, dyed.course)
        if at is None:
            return None
        span = main.span() if dyed.ends else (dyed.start, dyed.end)
        out.insert(at, RawText(*span, "colour"))
    begun = next((at for at, item in enumerate(out) if isinstance(item, Waiting)), 0)
    out.insert(begun, RawText(*main.span(), "colour"))
    return out


def _each_at_its_course(queue: Items, dyes: list[Dyed], start: int, end: int) -> Items | None:
    out = [item for item in queue if not (isinstance(item, RawText) and start <= item.start and item.end <= end)]
    for dyed in reversed(dyes):
        at = _place(out, dyed.course)
        if at is None:
            return None
        out.insert(at, RawText(dyed.start, dyed.end, "colour"))
    return out


def _says_where_it_ends(sheet: Sheet, piece: Piece, dyed: Dyed) -> None:
    """ "Rounds 5-8 are in cream.", and no word of the ninth: it is not for us to choose what comes then."""
    shade = _plainly(sheet.page.text[dyed.start : dyed.end])
    where: dict[str, Any] = {"piece": piece.name, "course": str(dyed.course)}
    told = finding(sheet.page, "colors-end", dyed.start, dyed.end, shade=shade, n=dyed.course, **where)
    sheet.findings.append(told)


def _plainly(shade: str) -> str:
    return shade.lower() if len(shade) > 1 else shade


def _place(queue: Items, course: int | None) -> int | None:
    """Before which item the course of that number stands, if it does."""
    if course is None:
        return None
    found = (i for i, item in enumerate(queue) if isinstance(item, Waiting) and item.label == course)
    return next((i for i in found if not _founds(queue[i])), None)


def _founds(item: Waiting | RawText) -> bool:
    return isinstance(item, Waiting) and item.foundation


def _named(raw: RawPiece, text: str, shade: str) -> bool:
    """Does the text of the piece itself name that colour further down?"""
    letter = len(shade) == 1
    word = re.compile(rf"\b{re.escape(shade)}\b", 0 if letter else re.I)
    told = raw.colours
    return any(word.search(text, item.start, item.end) for item in raw.items if told is None or item.start >= told.end)
