"""Says where a text tells, among other words, that its increase or decrease is of other stitches than the table's, and
no key was taken from it: "I like mine strong, so every inc here has three stitches in one"."""

from __future__ import annotations

from collections.abc import Collection

from hookside.notation.findings.table import finding
from hookside.notation.lines.layout import sentences
from hookside.notation.page.cleaning import Page
from hookside.notation.page.words.ownshapings import untaken
from hookside.pattern import Finding, Pattern, groups

_WORK = ("course", "heading", "continuation")
_LONGEST = 600  # characters of a line that is looked at
_LINES = 400
_COMMON = {"inc": ("inc", "increase"), "dec": ("dec", "invdec", "decrease")}


def keys_untaken(
    page: Page, roles: list[tuple[int, int, str]], names: Collection[str], pattern: Pattern
) -> list[Finding]:
    """`names`: those that the text was found to explain itself."""
    known = {name[:3].lower() for name in names}
    told: dict[str, tuple[int, int]] = {}
    for start, end, role in roles[:_LINES]:
        if role in _WORK or end - start > _LONGEST:
            continue
        for at, stop in sentences(page.text, start, end):
            seen = untaken(page.text, at, stop)
            if seen is not None and seen[0] not in known:
                told.setdefault(seen[0], seen[1:])
    if not told:
        return []
    worked = {g.stitch for piece in pattern.pieces for course in piece.courses for g in groups(course.body)}
    return [
        finding(page, "own-key", *span, name=name, words=page.quote(*span))
        for name, span in told.items()
        if not worked.isdisjoint(_COMMON[name])
    ]
