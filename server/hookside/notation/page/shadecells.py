"""The column of a table that tells each row's colour, behind its work: "5 | sc around | 24 | grey".

What stands there is the colour of the row itself, so it goes in front of the work, "5: (grey) sc around = 24", as a
column in front of the work is read. The writers of tables set `MARK` before such a cell; `brought_forward` moves it.
"""

from __future__ import annotations

import re

from hookside.colours import COLOURS, SHADES

MARK = "\ue002"
_TITLE = re.compile(r"(?:the |in )?(?:yarns?|colou?rs?|shades?)(?: (?:used|yarn))?\W*", re.I)
_LETTER = re.compile(r"(?:(?:yarn|colou?r) )?[A-H]|[MC]C\d?", re.I)
_NAME = re.compile(r"[A-Za-z]+(?:[ -][A-Za-z]+){0,2}")
# "BLO", "start in grey", "stuff before starting": a note on how its row begins, and nothing to do behind it
_LEADS = re.compile(
    r"(?:(?:in |through |work in )?(?:the )?(?:[bf]lo?|(?:back|front) (?:loops?|lps?))(?: only)?|"
    r"(?:start|begin)(?:ing)? (?:in|with) [a-z][a-z -]{1,24}|"
    r"[a-z][a-z ]{2,30} before (?:starting|beginning|you (?:start|begin)|this|it)"
    r"(?: (?:the |this )?(?:row|round|rnd))?)"
    r"[.!]?",
    re.I,
)
_WORDS = re.compile(r"[a-z]+")
_FEWEST = 2  # rows whose cells name a colour, where no title says so
_LABEL = re.compile(r"[ ]{0,40}[^:\n\ue002]{1,40}:")
_ROW = re.compile(rf"(?P<row>(?:^[^\n{MARK}]*\n)?^[^\n{MARK}]*){MARK}(?P<cell>[^\n={MARK}]*)", re.M)


def _is_shade(cell: str) -> bool:
    words = _WORDS.findall(cell.lower())
    named = bool(words) and all(word in COLOURS or word in SHADES for word in words)
    return (named and _NAME.fullmatch(cell) is not None) or _LETTER.fullmatch(cell) is not None


def shade_columns(titles: list[str], rows: list[list[str]]) -> frozenset[int]:
    """The columns that hold colours: their title says so, or nothing else stands in them."""
    found = set()
    for column in range(min(map(len, rows), default=0)):
        filled = [row[column] for row in rows if row[column]]
        titled = column < len(titles) and _TITLE.fullmatch(titles[column]) is not None
        worded = titled and all(re.search(r"[A-Za-z]", cell) for cell in filled)
        if worded or (len(filled) >= _FEWEST and all(_is_shade(cell) for cell in filled)):
            found.add(column)
    return frozenset(found)


def is_name(cell: str) -> bool:
    """May this be the name of one yarn: "grey", "sea green", "A"?"""
    return _NAME.fullmatch(cell) is not None


def leads(cell: str) -> bool:
    """Is this a note on how its row begins? It stands before the work, as a colour does."""
    return _LEADS.fullmatch(cell) is not None


def told_by(cell: str, work: str) -> bool:
    """Are these several colours, each of which the work of the row names at its stitches?"""
    words = _WORDS.findall(cell.lower())
    return len(words) > 1 and set(words) <= set(_WORDS.findall(work.lower()))


def brought_forward(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such cells in brackets before the work of their rows -> (text, the way back).

    A cell with more than a name, "grey, then black", is a note below its row.
    """
    parts: list[str] = []
    way: list[int] = []
    at = 0

    def keep(end: int) -> None:
        nonlocal at
        parts.append(text[at:end])
        way.extend(range(at, end))
        at = end

    for match in _ROW.finditer(text):
        cell = match["cell"].strip()
        starts = [match.start("row"), text.rfind("\n", 0, match.end("row")) + 1]
        label = next((m for m in (_LABEL.match(text, s, match.end("row")) for s in reversed(starts)) if m), None)
        if label is None or not (is_name(cell) or leads(cell)):
            keep(match.end("row"))
            parts.append("\n")
            way.append(at)
            at += 1
            continue
        keep(label.end())
        told = f" ({cell}) "
        parts.append(told)
        way.extend([at] * len(told))
        keep(match.end("row"))
        blank = " " * (match.end() - match.end("row"))
        parts.append(blank)
        way.extend(range(at, at + len(blank)))
        at = match.end()
    keep(len(text))
    return "".join(parts), way if offsets is None else [offsets[i] for i in way]
