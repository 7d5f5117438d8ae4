"""Two columns of a page side by side, as a leaflet prints them: the left one is read down, then the right one.

A gutter is a place where, line for line, two blanks or more end and something starts. It needs two lines that hold the
label of a course on both of its sides. A line outside such a block stands for itself.
"""

from __future__ import annotations

import re
from collections import Counter

_LABEL = r"(?:(?:rounds?|rnds?|rows?|rds?|r)\.?[ ]?\d{1,3}(?:[ ]?-[ ]?\d{1,3})?|\d{1,3}(?:-\d{1,3})?)[ ]?[:.)]"
_BOTH = re.compile(rf"^[ ]{{0,12}}{_LABEL}[^\n]{{2,200}}?[ ]{{2,}}(?P<right>(?={_LABEL}[ ]?\S))", re.I | re.M)
_FEWEST = 2
_BLANKS = 2
_INDENT = 12  # blanks by which a heading may stand inside its column


def _place(line: str, at: int) -> str:
    """Where does a line stand to a gutter at `at`: "both", "left", "right", "blank" or "" (it runs across)."""
    if not line.strip():
        return "blank"
    if len(line.rstrip()) <= at - _BLANKS:
        return "left"
    if line[max(0, at - _BLANKS) : at].strip() or line[at : at + 1] == "":
        return ""
    if line[at] == " " and (line[at : at + _INDENT].strip() == "" or line[max(0, at - 2 * _BLANKS) : at].strip()):
        return ""  # a heading set into the middle of its column has more blanks before it
    return "both" if line[:at].strip() else "right"


def _block(places: list[str]) -> tuple[int, int] | None:
    """The stretch of lines that stand in two columns: from the first with a right side to the last of either side."""
    filled = [i for i, place in enumerate(places) if place in ("both", "right")]
    if not filled:
        return None
    end = filled[-1] + 1
    while end < len(places) and places[end] == "left":
        end += 1
    return filled[0], end


def spans(text: str) -> list[tuple[int, int]] | None:
    """The stretches of the page in the order they are read, or None where it has one column only."""
    found = Counter(m.start("right") - (text.rfind("\n", 0, m.start()) + 1) for m in _BOTH.finditer(text))
    gutters = [at for at, n in found.items() if n >= _FEWEST]
    if not gutters:
        return None
    rows: list[tuple[int, int]] = []
    at = 0
    for line in text.split("\n"):
        rows.append((at, at + len(line)))
        at += len(line) + 1
    gutter = max(gutters, key=lambda g: found[g])
    order: list[tuple[int, int]] = []
    places = [_place(text[a:b], gutter) for a, b in rows]
    here = 0
    while here < len(rows):
        end = here
        while end < len(rows) and places[end]:
            end += 1
        block = _block(places[here:end])
        if block is None:
            order.extend(rows[here : max(end, here + 1)])
            here = max(end, here + 1)
            continue
        first, last = here + block[0], here + block[1]
        order.extend(rows[here:first])
        order.extend((a, min(b, a + gutter)) for a, b in rows[first:last])
        order.append((rows[last - 1][1], rows[last - 1][1]))
        order.extend((min(b, a + gutter), b) for a, b in rows[first:last])
        here = last
    return order


def unfold(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with its columns one below the other -> (text, the way back)."""
    order = spans(text)
    if order is None:
        return text, offsets
    chars: list[str] = []
    way: list[int] = []
    for start, end in order:
        chars.append(text[start:end])
        way.extend(range(start, end))
        chars.append("\n")
        way.append(end)
    back = way if offsets is None else [offsets[at] if at < len(offsets) else offsets[-1] + 1 for at in way]
    return "".join(chars), back
