"""Names set with a blank between their letters: "S H E L L", "T O   F I N I S H", "L E G S  (four)"."""

from __future__ import annotations

import re

_MAY = re.compile(r"[A-Z] [A-Z] [A-Z]")
_SPACED = re.compile(
    r"^[^\w\n]{0,6}(?P<name>[A-Z](?: [A-Z]){1,14}(?: {2,4}[A-Z](?: [A-Z]){1,14}){0,3})"
    r"(?=$|[ ]?[:.]|[ ]{1,4}[(\[x-])",
    re.M,
)
_GAP = re.compile(r"(?<=[A-Z]) (?=[A-Z])|(?<=[A-Z] ) +(?=[A-Z])")
_FEWEST = 2  # such lines: one alone may be the colors of a stripe
_YARNS = frozenset("ABCDEF ")


def gaps(text: str) -> list[tuple[int, int]]:
    """Where the blanks stand that part the letters of a name, and all but one of those that part its words."""
    if _MAY.search(text) is None:
        return []
    found = [m for m in _SPACED.finditer(text) if len(m["name"]) > _FEWEST * 2]
    if len(found) < _FEWEST or all(_YARNS.issuperset(m["name"]) for m in found):
        return []
    return [gap.span() for m in found for gap in _GAP.finditer(text, *m.span("name"))]
