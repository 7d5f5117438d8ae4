"""The colours that a heading, or a sentence below it, tells: each before the first course worked in it."""

from __future__ import annotations

import re

from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.striped import striped
from hookside.notation.courses.waiting import Waiting
from hookside.notation.findings.table import finding
from hookside.notation.lines.layout import RawPiece, RawText
from hookside.pattern import Piece

Items = list[Waiting | RawText]


def with_colours(sheet: Sheet, piece: Piece, raw: RawPiece, queue: Items) -> Items:
    """The courses with the later colours of the heading where they begin; one that has no place there is said."""
    told = raw.colours
    page = sheet.page
    if told is None:
        out = list(queue)
        for dyed in striped(page.text, queue, sheet.front):
            before = _place(out, dyed.course)
            if before is not None:
                out.insert(before, RawText(dyed.start, dyed.end, "colour"))
        return out
    what = page.quote(told.start, told.end)
    if not told.plain:
        sheet.findings.append(finding(page, "colors-mixed", told.start, told.end, what=what, piece=piece.name))
    out = list(queue)
    for start, end, course in told.later:
        at = _place(out, course)
        if at is not None:
            out.insert(at, RawText(start, end, "colour"))
        elif course is not None or not _named(raw, page.text, page.text[start:end]):
            shade = page.text[start:end].lower() if end - start > 1 else page.text[start:end]
            spot = finding(page, "colors-where", start, end, what=what, shade=shade, piece=piece.name)
            sheet.findings.append(spot)
    return out


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
