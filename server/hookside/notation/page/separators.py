"""Signs of an author's own between the number of a round and its stitches: "1 >> 6 sc", "R4 ~ inc x 6"."""

from __future__ import annotations

import itertools
import re

_KIND = r"(?:(?:rounds?|rnds?|rows?|rds?|r)\.?[ ]*)?"
_TO = r"[ ]*(?:[-\u2010-\u2015\u2212,&]|to|and)[ ]*"
_SIGN = (
    r"(?:[\u00bb\u203a\u25b8\u25ba\u25b6\u279c\u2794\u00b7\u2022\u2219\u2192\u21d2\u27a1\u2218\u25e6\u2605\u2606]{1,2}|"
    r">{1,3}|[-=]{1,2}>|~{1,2}|::|\\|\^|;)"
)
_LINE = re.compile(
    rf"^(?P<lead>[ \t]{{0,8}}(?:[^\w\s\[(]{{1,2}}[ ])?{_KIND}(?P<first>\d{{1,3}})(?:{_TO}{_KIND}(?P<last>\d{{1,3}}))*"
    rf"[ ]?)(?P<sign>{_SIGN})(?=[ ]*[^\s\d]|[ ]+\d|(?<=;)\d{{1,3}}[ ]?[a-z])",
    re.I | re.M,
)
_FEWEST = 3  # lines that count up


def separated(text: str) -> str:
    """Such signs become colons where the lines they stand in count up; the length stays."""
    lines = list(_LINE.finditer(text))
    if len(lines) < _FEWEST:
        return text
    steps = sum(
        int(after["first"]) in (1, int(before["last"] or before["first"]) + 1)
        for before, after in itertools.pairwise(lines)
    )
    if 2 * steps < len(lines):
        return text
    return _LINE.sub(lambda m: m["lead"] + ":".ljust(len(m["sign"])), text)
