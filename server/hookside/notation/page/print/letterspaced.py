"""Names set with a blank between their letters: "S H E L L", "T O   F I N I S H", "L E G S  (four)"; and so a typist's
abbreviations: "S C IN NEXT 2 S C".
"""

from __future__ import annotations

import re

_MAY = re.compile(r"[A-Z] [A-Z] [A-Z]")
_SPACED = re.compile(
    r"^[^\w\n]{0,6}(?P<name>[A-Z](?: [A-Z]){1,14}(?: {2,4}[A-Z](?: [A-Z]){1,14}){0,3})"
    r"(?=$|[ ]?[:.]|[ ]{1,4}[(\[x-])",
    re.M,
)
_GAP = re.compile(r"(?<=[A-Z]) (?=[A-Z])|(?<=[A-Z] ) +(?=[A-Z])")
_ABBREVIATED = re.compile(r"(?<![A-Z] )\b(?:S C|D C|H D C|T R|H T R|C H|S L S T|S L|S T)\b(?! [A-Z]\b)")
_ABBREVIATED_FEWEST = 4
_FEWEST = 2  # such lines: one alone may be the colors of a stripe
_YARNS = frozenset("ABCDEF ")


def gaps(text: str) -> list[tuple[int, int]]:
    """Where the blanks stand that part the letters of a name, and all but one of those that part its words."""
    short = list(_ABBREVIATED.finditer(text)) if " C" in text or "T R" in text else []
    typed = [gap.span() for m in short for gap in _GAP.finditer(text, *m.span())]
    typed = typed if len(short) >= _ABBREVIATED_FEWEST else []
    if _MAY.search(text) is None:
        return typed
    found = [m for m in _SPACED.finditer(text) if len(m["name"]) > _FEWEST * 2]
    if len(found) < _FEWEST or all(_YARNS.issuperset(m["name"]) for m in found):
        return typed
    return typed + [gap.span() for m in found for gap in _GAP.finditer(text, *m.span("name"))]
