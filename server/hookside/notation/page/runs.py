"""A sign or a blank that is set again and again: what is left of a drawing, a ruled line, leader dots."""

from __future__ import annotations

import re

_LONGEST = 200  # times in a row, on one line: no column is that far from the next
_SIGNS = " .-_*=~#:;,'\"|/\\+!?<>&()[]{}"
_RUN = re.compile(rf"([^\w\n])\1{{{_LONGEST},}}")


def cut(text: str) -> list[tuple[int, int]]:
    """What is beyond the first of such a run. A pattern that looks for its end would do so from each of its signs."""
    if not any(sign * _LONGEST in text for sign in _SIGNS):
        return []
    return [(match.start() + _LONGEST, match.end()) for match in _RUN.finditer(text)]
