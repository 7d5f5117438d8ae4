"""Rounds that are closed, every one of them: "Round 2: 2 sc into every sc, close. - 16".

What stands at the end of one round after the other is its join and closes no piece, so that it is put as a join; at a
last round of decreases it may be both and stays. The length stays.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE

_LABELLED = re.compile(rf"^[^\w\n]{{0,6}}(?:{COURSE}s?\.?[ ]?#?\d{{1,3}}|\d{{1,3}}[.:)])[^\n]{{0,300}}$", re.I | re.M)
_CLOSE = re.compile(r"(?<=[,;] )close(?=[ ]?[.;]?[ ]*(?:[-=(\[\u2013\u2014][^\n]{0,16})?$)", re.I)
_SHRINKS = re.compile(r"\b(?:dec|tog|together|invdec|[a-z]{2,3}2tog)\b", re.I)
_FEWEST = 3


def joined(text: str) -> str:
    """The page with such ends of rounds as joins."""
    lines = list(_LABELLED.finditer(text))
    closed = [m for m in lines if _CLOSE.search(m[0])]
    if len(closed) < _FEWEST or 3 * len(closed) < 2 * len(lines):
        return text
    for line, after in zip(lines, [*lines[1:], None], strict=True):
        ends = after is None or re.search(r"\n[ ]*\n", text[line.end() : after.start()]) is not None
        if not (ends and _SHRINKS.search(line[0])):
            text = text[: line.start()] + _CLOSE.sub("join ", line[0]) + text[line.end() :]
    return text
