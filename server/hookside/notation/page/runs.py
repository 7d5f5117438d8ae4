"""A sign or a blank that is set again and again: what is left of a drawing, a ruled line, leader dots."""

from __future__ import annotations

import re

_LONGEST = 200  # times in a row, on one line: no column is that far from the next
_SIGNS = " .-_*=~#:;,'\"|/\\+!?<>&()[]{}"
_RUN = re.compile(rf"([^\w\n])\1{{{_LONGEST},}}")


_MOST_LINES = 20_000  # with something on them or not: some three for each that is read (`MOST_LINES` in `lines/layout`)


def first_lines(text: str) -> str:
    """As much of a text as has no more lines than can be the text of what is read; what is beyond is said there."""
    if text.count("\n") <= _MOST_LINES:
        return text
    return "\n".join(text.split("\n", _MOST_LINES)[:_MOST_LINES])


def cut(text: str) -> list[tuple[int, int]]:
    """What is beyond the first of such a run. A pattern that looks for its end would do so from each of its signs."""
    if not any(sign * _LONGEST in text for sign in _SIGNS):
        return []
    return [(match.start() + _LONGEST, match.end()) for match in _RUN.finditer(text)]
