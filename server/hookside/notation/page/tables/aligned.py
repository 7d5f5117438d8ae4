"""A table set with blanks alone whose second column is the count: "Rnd  Stitches  How" above " 2   12   inc 6".

A column of changes, "+6", may stand behind or between. Bars take the place of the gaps, so that it is read as any
other table; the length stays.
"""

from __future__ import annotations

import re

from hookside.notation.page.tables.columns import LABEL_CELL

_HEAD = re.compile(
    r"^[ ]{0,12}(?:rnds?|rounds?|rows?|rds?|no|nr|#)\.?[ ]{2,12}(?:sts?|stitch(?:es)?|count|total|number)\.?"
    r"(?: count)?(?:[ ]{2,20}(?:inc\w*\.?[ ]?/[ ]?dec\w*\.?|changes?|[+][ ]?/[ ]?-|difference))?"
    r"[ ]{2,20}[a-z][a-z ]{1,30}[ ]*$",
    re.I | re.M,
)
_ROW = re.compile(
    rf"^(?P<lead>[ ]{{0,12}}(?:{LABEL_CELL}))(?P<gap>[ ]{{2,16}})(?P<count>\d{{1,4}})(?P<gap2>[ ]{{2,40}})"
    r"(?P<before>(?:[+-][ ]?\d{1,2}|\u00b1[ ]?0|0)[ ]{2,20})?(?=\S)"
    r"(?P<work>[^\n]*?)(?P<change>[ ]{2,20}\((?:[+-][ ]?\d{1,2}|no change|even|same|0)\))?[ ]*$",
    re.I,
)
_LONGEST = 60  # rows below one head


def barred(text: str) -> str:
    """The page with such tables in bars."""
    if _HEAD.search(text) is None:
        return text
    lines = text.split("\n")
    left = 0
    for n, line in enumerate(lines):
        if _HEAD.fullmatch(line):
            left = _LONGEST
            lines[n] = re.sub(r"(?<=\S)[ ]([ ]+)(?=\S)", r"|\1", line)
        elif not line.strip():
            left = 0
        elif left and (row := _ROW.match(line)) is not None:
            left -= 1
            chars = list(line)
            chars[row.start("gap")] = chars[row.start("gap2")] = "|"
            for change in ("before", "change"):  # the count tells it too
                if row[change]:
                    chars[slice(*row.span(change))] = " " * len(row[change])
            lines[n] = "".join(chars)
    return "\n".join(lines)
