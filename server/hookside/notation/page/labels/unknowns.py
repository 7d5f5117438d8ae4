"""Rounds as the values of an unknown: "n = 3: 6·(3s + i)   N = 30", "k = 4..6: 18 sc   S = 18".

Where such lines count up they become labels, and what they come to a printed count; the length stays.
"""

from __future__ import annotations

import re
from itertools import groupby, pairwise

_LINE = re.compile(
    r"^(?P<gap>[ ]{0,8})(?P<head>(?P<letter>[a-z])[ ]?=[ ]?(?P<first>\d{1,3})"
    r"(?:[ ]?(?:\.{2,3}|\u2026|-|\u2013|to)[ ]?(?P<last>\d{1,3}))?[ ]?[:;)])(?P<body>[^\n]*?)"
    r"(?P<sum>[ ,;]{1,40}[A-Z](?:[ ]?\([a-z\d]{1,3}\))?[ ]?=[ ]?(?P<count>\d{1,4}))?(?P<end>[ ]*)$",
    re.M,
)
_DOT = re.compile(r"(?<=\d)[ ]?[\u00b7\u22c5\u2219\u2022*][ ]?(?=[(\[])")
_FEWEST = 3  # lines that count up


def labelled(text: str) -> str:
    """The page with such lines as rounds."""
    for _, same in groupby(_LINE.finditer(text), key=lambda m: m["letter"]):
        lines = list(same)
        spans = [(int(m["first"]), int(m["last"] or m["first"])) for m in lines]
        steps = sum(after[0] in (before[1] + 1, 0, 1) for before, after in pairwise(spans))
        if len(lines) < _FEWEST or spans[0][0] > 1 or steps < len(lines) - 1:
            continue
        for match, (first, last) in zip(lines, spans, strict=True):
            label = f"R{first}-{last}:" if last > first else f"R{first}:" if first else ""
            body = _DOT.sub(lambda m: "x".center(len(m[0])), match["body"])
            count = f"= {match['count']}".rjust(len(match["sum"])) if match["sum"] else ""
            told = f"{match['gap']}{label.ljust(len(match['head']))}{body}{count}{match['end']}"
            text = f"{text[: match.start()]}{told}{text[match.end() :]}"
    return text
