"""A piece that begins on the last course of the piece before it: sides on a bottom, a brim on its crown."""

from __future__ import annotations

import re
from typing import Any

from hookside.notation.arithmetic.choosing import choose
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.waiting import Before, Waiting, stretches, title_of
from hookside.notation.findings.table import finding
from hookside.notation.lines.heads.parts import MAIN_PARTS
from hookside.notation.lines.layout import RawText
from hookside.pattern import Piece
from hookside.stitches import singular

# "go on from the base, do not cut the yarn", "SIDES (worked on from the base)": ahead of the first course
_SAID = re.compile(
    r"(?:\b(?:go|going|goes|carry|carrying|continue[sd]?|continuing|work(?:ed|ing)?)\b"
    r"(?: (?:on|straight|directly|up)){0,2} from (?:the )?[a-z]|"
    r"\b(?:don'?t|do not|without) (?:cut|break|fasten)[a-z]*\b)",
    re.I,
)
_OF_SEVERAL = re.compile(r"\b(?:both|legs|arms|parts|pieces|join\w*|together|each (?:leg|arm|piece))\b", re.I)
_AHEAD = 240  # letters in which that is said


def _said(sheet: Sheet, first: Waiting) -> bool:
    """Do the words ahead of a piece, in its own paragraph, say that it goes on from the one before?"""
    text = sheet.page.text
    begins = max(text.rfind("\n\n", max(0, first.start - _AHEAD), first.start), first.start - _AHEAD, 0)
    return _SAID.search(text, begins, first.start) is not None


def _as_often(sheet: Sheet, piece: Piece, first: Waiting, before: Before) -> bool:
    """ "Boot", whose numbers and count go on from "Leg (make 2)": as many are made of it, where that is all that its
    first count leaves open."""
    if piece.make > 1 or first.label < 2 or first.label != before.label + 1 or first.declared is None:
        return False
    if first.parsed is None or first.parsed.phrases.elsewhere or before.makes is None:
        return False
    words = {singular(word) for word in re.findall(r"[a-z]+", piece.name.lower())}
    if words & MAIN_PARTS - {singular(word) for word in re.findall(r"[a-z]+", before.name.lower())}:
        return False  # a body goes on from all the legs there are; "Upper leg" is of each leg
    upon = choose(first.parsed.tree, Ground(before.makes, 0, False, first.declared), sheet.own)
    if not upon.fits or _OF_SEVERAL.search(first.text) is not None:
        return False
    piece.make = before.make
    where: dict[str, Any] = {"piece": piece.name, "course": str(first.label), "name": piece.name}
    told = finding(
        sheet.page, "copies-carried", first.start, first.end, Course=title_of(first), n=before.make, **where
    )
    sheet.findings.append(told)
    return True


def carried(sheet: Sheet, piece: Piece, queue: list[Waiting | RawText]) -> int | None:
    """Stitches of the piece before, where the numbers go on from it, or where its words and its count need them."""
    first = next((t for t in queue if isinstance(t, Waiting)), None)
    before = sheet.before
    if first is None or first.foundation or before is None or first.raw.label is None:
        return None
    if first.parsed is None or any(c.type == "MARK" and c.value[0] == "ring" for c in first.parsed.phrases.chunks):
        return None
    if before.make != piece.make and not _as_often(sheet, piece, first, before):
        return None
    if first.label >= 2 and first.label == before.label + 1:
        return before.makes
    if first.label != 1 or before.makes is None or first.parsed.phrases.unknown:
        return None
    said = stretches(first.parsed) and _said(sheet, first)
    if first.declared is None and not said:
        return None
    alone = choose(first.parsed.tree, Ground(None, 0, True, first.declared), sheet.own)
    upon = choose(first.parsed.tree, Ground(before.makes, 0, False, first.declared), sheet.own)
    if said and upon.fits:
        return before.makes
    if first.declared is None or alone.fits or not upon.fits or not stretches(first.parsed):
        return None
    told = finding(
        sheet.page,
        "onward",
        first.start,
        first.end,
        piece=piece.name,
        course=str(first.label),
        found=before.makes,
        Course=title_of(first),
    )
    sheet.findings.append(told)
    return before.makes
