"""Tables that print what goes into a round and what comes out: "R3 | (1 X, I) x 3 | 6 | 9". The first is blanked; so is
a column for what is done ("done?" above "y", "y").

It is told from a column of anything else by the table itself: each row takes what the row above has left. The headings
of such sheets, "PART 2 | FIN | QTY 3 | red", become names with their copies.
"""

from __future__ import annotations

import re
from itertools import pairwise

_ROW = re.compile(
    r"^(?P<lead>[^\t|\n]{0,12}\d{1,3}(?:[ ]?-[^\t|\n]{0,6}\d{1,3})?[ ]*(?P<bar>[\t|])[^\t|\n]*[a-z][^\t|\n]*(?P=bar))"
    r"(?P<into>[ ]*(?:\d{1,3}|-)?[ ]*)(?P=bar)(?P<out>[ ]*(?P<n>\d{1,3})[ ]*)(?=(?P=bar)?[ ]*$)",
    re.M | re.I,
)
_HEAD = re.compile(
    r"^(?P<part>(?:part|piece|item)[ ]?\d{1,2}[ ]*[\t|][ ]*)(?P<name>[A-Za-z][A-Za-z' ]{1,30}?)(?P<bar>[ ]*[\t|][ ]*)"
    r"(?:qty|quantity|no\.?|make|x)[ .:]*(?P<n>\d{1,2})(?P<bar2>[ ]*[\t|]?[ ]*)(?P<shade>[a-z][a-z, ]{2,40})?$",
    re.M | re.I,
)
_TOP = re.compile(r"^[^\n]*\bin\b[ ]*[\t|][ ]*out\b[^\n]*$", re.M | re.I)  # what heads the columns
_TICKS = re.compile(r"^[^\n]*[\t|][ ]*(?:done|ok|ticks?|check(?:ed)?|made|worked)[ ]?\?*[ ]*(?=\|?[ ]*$)", re.M | re.I)
_TICKED = re.compile(r"(?<=[\t|])[ ]*(?:y|yes|x|ok|done|v)[ ]*(?=\|?[ ]*$)", re.M | re.I)
_FEWEST = 4  # rows that bear it out


def blanked(text: str) -> str:
    """The page without what goes into each round; the length stays."""
    if _TICKS.search(text) is not None:
        text = _TICKED.sub(lambda m: " " * len(m[0]), text)
    rows = list(_ROW.finditer(text))
    told = [(a["n"], b["into"].strip()) for a, b in pairwise(rows)]
    follows = sum(out == into for out, into in told)
    if len(rows) < _FEWEST or 4 * follows < 3 * len(told) or all(r["into"].strip() == r["n"] for r in rows):
        return text
    out, at = [], 0
    for row in rows:
        start, end = row.span("into")
        out += [text[at:start], " " * (end - start + 1)]  # and the bar behind it
        at = end + 1
    text = _TOP.sub(lambda m: " " * len(m[0]), "".join([*out, text[at:]]))
    return _HEAD.sub(_headed, text)


def _headed(match: re.Match[str]) -> str:
    """ "PART 2 | FIN | QTY 3 | red" -> "FIN (x3) - red", the yarn where it stands."""
    told = f"{match['name']} (x{match['n']})" + (" - " if match["shade"] else "")
    room = match.start("shade") - match.start() if match["shade"] else len(match[0])
    return told.rjust(room) + (match["shade"] or "") if len(told) <= room else match[0]
