"""What a round starts from and what it comes to, behind its work: "Increase in each st: 7 -> 14.", "..., from 14 to 21"
-> "(7 -> 14)", as it is printed elsewhere."""

from __future__ import annotations

import re

from hookside.notation.page.edits import Edit, put

HINTS = ("->", "\u2192", "=>", "from ")
_FROM_TO = re.compile(
    r"(?:[:,;=][ ]?|(?<=[)a-z])[ ](?=from))(?:(?:from )?(?P<a>\d{1,3}) ?(?:->|=>|\u2192) ?|from (?P<a2>\d{1,3}) to )"
    r"(?P<b>\d{1,3})(?: sts?| stitches)?(?=[ ]?[.!]?[ ]*$)",
    re.I | re.M,
)
_FEWEST = 2  # lines that end so


def told(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such counts in brackets, and the way back."""
    found = list(_FROM_TO.finditer(text))
    if len(found) < _FEWEST:
        return text, offsets
    edits: list[Edit] = [(*m.span(), f" ({m['a'] or m['a2']} -> {m['b']})") for m in found]
    return put(text, offsets, edits)
