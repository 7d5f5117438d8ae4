"""A sign or a blank that is set again and again: what is left of a drawing, a ruled line, leader dots; blanks that are
set double all through a text."""

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

_DOUBLE = re.compile(r"(?<=[^\s]) (?= [^\s])")
_SINGLE = re.compile(r"(?<=[^\s]) (?=[^\s])")
_A_LINE = 3  # double blanks in a line, on the average: a table has fewer columns
_FEWEST_DOUBLE = 20


def doubled(text: str) -> list[tuple[int, int]]:
    """One of two blanks, where a text sets two between all its words."""
    if text.count("  ") < _FEWEST_DOUBLE:
        return []
    found = [m.span() for m in _DOUBLE.finditer(text)]
    lines = sum(1 for line in text.split("\n") if line.strip())
    if len(found) < max(_FEWEST_DOUBLE, _A_LINE * lines) or len(found) < 4 * len(_SINGLE.findall(text)):
        return []
    return found


def cut(text: str) -> list[tuple[int, int]]:
    """What is beyond the first of such a run. A pattern that looks for its end would do so from each of its signs."""
    if not any(sign * _LONGEST in text for sign in _SIGNS):
        return []
    return [(match.start() + _LONGEST, match.end()) for match in _RUN.finditer(text)]
