"""Counts on lines of their own, each below its course: "Rnd 3: sc, inc" and "18" is "Rnd 3: sc, inc=18".

So a table comes out of a printed page whose columns are copied one cell after the other. The length stays.
"""

from __future__ import annotations

import itertools
import re

from hookside.notation.page.tables.columns import STITCH

_ALONE = re.compile(r"[ ]{0,20}(?P<n>\d{1,4})(?:[ ]?(?:sts?|stitches))?[ ]*\.?[ ]*")
_COUNTED = re.compile(
    r"(?:[(\[{][ ]*\d{1,4}[^()\[\]{}\n]{0,30}[)\]}]|[-=:][ ]*\d{1,4}(?:[ ]?(?:sts?|stitches|sc|dc))?)[ ]*\.?[ ]*$"
)
_FEWEST = 2  # courses with a number below them


def counts_below(text: str) -> str:
    """The page with such numbers written as counts, where nearly every course has one."""
    lines = text.split("\n")
    alone = [_ALONE.fullmatch(line) is not None for line in lines]
    if sum(alone) < _FEWEST:
        return text
    worked = [not a and STITCH.search(line) is not None for a, line in zip(alone, lines, strict=True)]
    below = [n for n in range(1, len(lines)) if alone[n] and worked[n - 1]]
    if len(below) < _FEWEST or any(_COUNTED.search(lines[n - 1]) for n in below):
        return text  # a number behind a count is something else: a page, or a round in which nothing is shaped
    if any(a and b for a, b in itertools.pairwise(alone)):
        return text
    numbers = [int(m["n"]) for n in below if (m := _ALONE.fullmatch(lines[n]))]
    if 2 * sum(b - a == 1 for a, b in itertools.pairwise(numbers)) >= len(numbers) - 1:
        return text  # these are the numbers of the courses
    told = [n for n in range(len(lines)) if worked[n] and not (n + 1 < len(lines) and worked[n + 1])]
    if 2 * len(below) <= len([n for n in told if not _COUNTED.search(lines[n])]):
        return text
    for n in reversed(below):
        lines[n - 1 : n + 1] = [f"{lines[n - 1]}={lines[n]}"]
    return "\n".join(lines)
