"""A text set in nothing but capitals: the rest of a round on a line of its own ("TO FIRST ST; 14 STS") is set small, so
that it is not taken for a name. In other texts capitals tell one from the other; the length stays."""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE

_STITCHES = re.compile(r"\b(?:STS?|STITCH(?:ES)?|SC|H?DC|INC|DEC|SC2TOG)\b")
_LABELLED = re.compile(
    rf"[^\w\n]{{0,6}}(?:(?:{COURSE})\.?[ ]?#?\d|\d{{1,3}}[ ]?(?:[-.:)\u2013=]|TO\b|ST|ND|RD|TH))", re.I
)
_SMALL = re.compile(r"[a-z]")
_LETTERS = 120  # a text has at least so many


def lowered(text: str) -> str:
    """The page with such lines in small letters, where they follow a line that ends no sentence."""
    if len(text) < _LETTERS or len(_SMALL.findall(text, 0, 4000)) * 50 > min(len(text), 4000):
        return text
    lines = text.split("\n")
    for n in range(1, len(lines)):
        line, before = lines[n], lines[n - 1].rstrip()
        open_ = before != "" and before[-1] not in ".:!?" and (_STITCHES.search(before) or _LABELLED.match(before))
        if open_ and _STITCHES.search(line) and _LABELLED.match(line) is None and len(line.lower()) == len(line):
            lines[n] = line.lower()
    return "\n".join(lines)
