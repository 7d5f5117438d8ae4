"""A PDF with text in it, as lines. A page that is only a picture is named."""

from __future__ import annotations

import io
from typing import Any

from hookside.intake.layout import Word, body, lines, mixed, whole, without_furniture
from hookside.intake.taken import CannotTake, Taken

MOST_PAGES = 200


def text_of(data: bytes, name: str) -> Taken:
    """The text of a PDF. CannotTake for one that is locked, damaged, too long, or holds pictures only."""
    from pypdf import PdfReader
    from pypdf.errors import PyPdfError

    try:
        reader = PdfReader(io.BytesIO(data), strict=False)
        if reader.is_encrypted and not reader.decrypt(""):
            raise CannotTake(f"{name} is locked with a password: open it, print it to a new PDF, and take that.")
        count = len(reader.pages)
    except CannotTake:
        raise
    except (PyPdfError, ValueError, KeyError, TypeError, RecursionError, OSError) as e:
        raise CannotTake(f"{name} is a damaged PDF: open it in a viewer and save or print it anew.") from e
    if count > MOST_PAGES:
        raise CannotTake(f"{name} has {count} pages, and {MOST_PAGES} are the most: save the pattern's pages alone.")
    pages: list[list[str]] = []
    empty: list[int] = []
    small: dict[str, None] = {}
    aslant: dict[str, None] = {}
    for number in range(count):
        try:
            page, edge, marks = _page(reader.pages[number])
            small.update(dict.fromkeys(edge))
            aslant.update(dict.fromkeys(marks))
        except (PyPdfError, ValueError, KeyError, TypeError, IndexError, RecursionError, AttributeError):
            page = []
        if not any(page):
            empty.append(number + 1)
        pages.append(page)
    if len(empty) == count:
        raise CannotTake(
            f"{name} holds pictures of pages and no text. Hookside reads no pictures: look for the pattern as text, or "
            "let a scanner's software add the text first."
        )
    pages, furniture = without_furniture(pages, small)
    said = []
    if empty:
        where = ", ".join(map(str, empty[:12])) + (" and more" if len(empty) > 12 else "")
        said.append(f"No text was found on page {where}: perhaps a picture or a chart. Look whether it holds rounds.")
    if furniture:
        said.append(f"Left out, as it stands on every page: {'; '.join(f[:60] for f in furniture[:4])}.")
    if small:
        said.append(f"Left out, in small print at the edge of a page: {'; '.join(f[:60] for f in list(small)[:4])}.")
    if aslant:
        said.append(f"Left out, as it stands aslant on the page: {'; '.join(f[:60] for f in list(aslant)[:4])}.")
    crossed = [number + 1 for number, page in enumerate(pages) if mixed(page)]
    if crossed:
        where = ", ".join(map(str, crossed[:12]))
        said.append(
            f"On page {where} lines hold two rounds each: perhaps columns that could not be told apart. Compare with "
            "the file, or paste one column after the other."
        )
    return Taken(whole(pages), "pdf", said)


def _page(page: Any) -> tuple[list[str], list[str], list[str]]:
    """Its lines; what stood in small print at head and foot; what stood aslant across it, as water marks do."""
    width = float(page.mediabox.width)
    height = float(page.mediabox.height)
    words: list[Word] = []
    slanted: list[Word] = []

    def visit(text: str, matrix: list[float], text_matrix: list[float], font: Any, size: float) -> None:
        if not text or not text.strip():
            return
        a, b, c, d, e, f = text_matrix
        ma, mb, mc, md, me, mf = matrix
        x, y = ma * e + mc * f + me, mb * e + md * f + mf
        scale = abs(a * ma + b * mc) or abs(c * mb + d * md) or 1.0
        letters = abs(size * scale) or 10.0
        along, up = a * ma + b * mc, a * mb + b * md
        into = slanted if abs(up) > 0.1 * abs(along) else words
        for part in text.split("\n"):
            if part.strip():
                into.append(Word(x, height - y, letters, part))
                y -= letters * 1.2

    page.extract_text(visitor_text=visit)
    if len(slanted) > len(words):  # a page that is laid on its side as a whole
        words, slanted = words + slanted, []
    kept, edge = body(words, height)
    return lines(kept, width), edge, [" ".join(word.text.split()) for word in slanted]
