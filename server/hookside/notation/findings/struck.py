"""What a page strikes out or hides is not followed; here that is said, with the words."""

from __future__ import annotations

from hookside.notation.findings.table import finding
from hookside.notation.page.beside.struck import quoted
from hookside.notation.page.cleaning import Page
from hookside.pattern import Finding


def struck_out(page: Page) -> list[Finding]:
    """One note for each struck or hidden stretch that holds words, at its place in the original."""
    original = Page(page.original, page.original, None, page.breaks)
    return [
        finding(original, "struck", start, end, line=original.line(start), words=words, how=how)
        for start, end, how in page.struck
        if (words := quoted(page.original, start, end))
    ]
