"""The column of a table that tells each row's colour, behind its work or in front of its number: "5 | sc around | 24 |
grey", "grey | 5 | sc around | 24".

What stands there is the colour of the row itself, so it goes in front of the work, "5: (grey) sc around = 24", as a
column in front of the work is read. The writers of tables set `MARK` before such a cell; `brought_forward` moves it.
"""

from __future__ import annotations

import re

from hookside.colours import COLOURS, SHADES

MARK = "\ue002"
ASIDE = "\ue005"  # before a cell of another column behind the work, which is a note on its row
END = "\ue003"  # where such a cell ends, if what stands behind it is of the row
NOTE = "\ue004"  # stands before a note that was a cell of a table, so that it is taken for no heading
_TITLE = re.compile(r"(?:the |in )?(?:yarns?|colou?rs?|cols?\.?|clrs?\.?|shades?)(?: (?:used|yarn))?\W*", re.I)
_LETTER = re.compile(r"(?:(?:yarn|colou?r) )?[A-H]|[MC]C\d?", re.I)
_NAME = re.compile(r"[A-Za-z]+(?:[ -][A-Za-z]+){0,2}")
# "BLO", "start in grey", "stuff before starting": a note on how its row begins, and nothing to do behind it
_LEADS = re.compile(
    r"(?:(?:in |through |work in )?(?:the )?(?:[bf]lo?|(?:back|front) (?:loops?|lps?))(?: only)?|"
    r"(?:start|begin)(?:ing)? (?:in|with) [a-z][a-z -]{1,24}|"
    r"(?:stuff|fill|insert|put|place|add|sew|attach|pin|change|switch|close)(?:ing)?(?: [a-z]+){0,5} first|"
    r"[a-z][a-z ]{2,30} before (?:starting|beginning|you (?:start|begin)|this|it)"
    r"(?: (?:the |this )?(?:row|round|rnd))?)"
    r"[.!]?",
    re.I,
)
# "yarn: red", "colour - sea green" in a column of notes
_YARN_TOLD = re.compile(r"(?:yarn|colou?r|wool)\s*[:=-]\s*(?P<shade>[A-Za-z]+(?:[ -][A-Za-z]+){0,2})", re.I)
_PARTED = re.compile(r"\s*(?:[/,&+]|\band\b)\s*")
_WORDS = re.compile(r"[a-z]+")
_FEWEST = 2  # rows whose cells name a colour, where no title says so
_LABEL = re.compile(r"[ ]{0,40}[^:\n\ue002\ue005]{1,40}:")
_CELL = re.compile(
    rf"(?P<mark>[{MARK}{ASIDE}])(?P<cell>[^{MARK}{ASIDE}{END}]*?)"
    rf"(?P<rest>{END}[^{MARK}{ASIDE}]*|=[ ]*[(\[]?\d{{1,4}}[)\]]?[ ]*)?(?=$|[{MARK}{ASIDE}])"
)
_ANY = re.compile(f"[{MARK}{ASIDE}]")
_AHEAD = re.compile(rf"[ ]{{0,8}}(?P<cell>[^:\n{MARK}{ASIDE}{END}]{{1,40}}){END}")


def _is_shade(cell: str) -> bool:
    words = _WORDS.findall(cell.lower())
    named = bool(words) and all(word in COLOURS or word in SHADES for word in words)
    return (named and _NAME.fullmatch(cell) is not None) or _LETTER.fullmatch(cell) is not None


def _several(cell: str) -> bool:
    """ "A/B", "grey + white": of a row that is worked in more than one."""
    return len(parts := _PARTED.split(cell.strip())) > 1 and all(map(_is_shade, parts))


def shade_columns(titles: list[str], rows: list[list[str]]) -> frozenset[int]:
    """The columns that hold colours: their title says so, or nothing else stands in them."""
    found = set()
    for column in range(min(map(len, rows), default=0)):
        filled = [row[column] for row in rows if row[column]]
        titled = column < len(titles) and _TITLE.fullmatch(titles[column]) is not None
        worded = titled and all(re.search(r"[A-Za-z]", cell) for cell in filled)
        alone = sum(map(_is_shade, filled))
        if worded or (alone >= _FEWEST and all(_is_shade(cell) or _several(cell) for cell in filled)):
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

    A cell with more than a name, "grey, then black" or "eyes after R5", is a note below its row.
    """
    parts: list[str] = []
    way: list[int] = []
    at = 0
    for line in text.split("\n"):
        ahead = _AHEAD.match(line) if END in line else None
        begins = ahead.end() if ahead is not None else 0
        marked = _ANY.search(line, begins)
        told = [(line[begins:], at + begins, False)]
        if ahead is not None or marked is not None:
            told = _row(line[begins:], marked.start() - begins if marked else len(line) - begins, at + begins, ahead)
        for words, start, new in told:
            parts.append(words)
            way.extend([start] * len(words) if new else range(start, start + len(words)))
        at += len(line) + 1
        parts.append("\n")
        way.append(at - 1)
    return "".join(parts)[:-1], way[:-1] if offsets is None else [offsets[i] for i in way[:-1]]


def _row(line: str, first: int, at: int, ahead: re.Match[str] | None) -> list[tuple[str, int, bool]]:
    """One row of a table: its label, the cells that stand before its work, the work, the notes below it.

    Each stretch with where it stands, and whether it is put there anew. `ahead`: the cell in front of its label.
    """
    label = _LABEL.match(line, 0, first)
    begins = label.end() if label is not None else first
    before = [] if label is not None else [(":", at + first, True)]  # the cell stood right behind the label
    if ahead is not None:
        before.append((f" ({ahead['cell'].strip()}) ", at - len(ahead[0]), True))
    work, below = [(line[:begins], at, False)], []
    if not _ANY.search(line):
        work.append((line[begins:], at + begins, False))
    for n, match in enumerate(_CELL.finditer(line)):
        if not n:
            work.append((line[begins : match.start()], at + begins, False))
        cell, start = match["cell"].strip(), at + match.start("cell")
        yarn = _YARN_TOLD.fullmatch(cell)
        if yarn is not None and _is_shade(yarn["shade"]):
            cell, start = yarn["shade"], start + yarn.start("shade")
        named = is_name(cell) if match["mark"] == MARK else _is_shade(cell)
        if named or leads(cell):
            before.append((f" ({cell}) ", start, True))
        elif cell:
            below.append((f"\n{NOTE}", start - 1, True))
            below.append((match["cell"], start, False))
        if match["rest"]:
            work.append((match["rest"].replace(END, " "), at + match.start("rest"), False))
    return [work[0], *before, *work[1:], *below]
