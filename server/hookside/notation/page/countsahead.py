"""Counts printed in front of the label: "18 - Rnd 3: (sc, inc) x 6". They go behind the round, where counts stand."""

from __future__ import annotations

import re
from itertools import pairwise

from hookside.notation.labels.patterns import COURSE

_FEWEST = 3  # rounds written so; one may be a line of a list
_LED = re.compile(
    rf"^(?P<lead>[ \t]{{0,8}}(?P<n>\d{{1,4}})(?: ?(?:sts?|stitches))? ?(?:[-=|]|\)) ?)(?=(?:{COURSE})\.? ?#?\d)"
    r"(?P<rest>[^\n]{1,300})$",
    re.I | re.M,
)
_LABELLED = re.compile(rf"^[^\w\n]{{0,6}}(?:{COURSE})\.? ?#?\d", re.I | re.M)
_COUNTED = re.compile(r"[(\[{][ ]?\d{1,4}(?: ?(?:sts?|stitches|sc))?[ ]?[)\]}]\W*$")


def put_behind(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such counts in brackets behind their rounds, and the way back; where every round has one."""
    led = list(_LED.finditer(text))
    if len(led) < _FEWEST or _LABELLED.search(text) or any(_COUNTED.search(m["rest"]) for m in led):
        return text, offsets
    counts = [int(m["n"]) for m in led]
    if all(b == a + 1 for a, b in pairwise(counts)):
        return text, offsets  # the lines of a list are numbered
    way = list(range(len(text))) if offsets is None else offsets
    parts: list[str] = []
    back: list[int] = []
    at = 0
    for match in led:
        start, end = match.span("n")
        blank = " " * (match.end("lead") - match.start("lead"))
        parts += [text[at : match.start()], blank, match["rest"], f" ({match['n']})"]
        back += way[at : match.end()]
        back += [way[start], way[start], *way[start:end], way[end - 1]]
        at = match.end()
    parts.append(text[at:])
    back += way[at:]
    return "".join(parts), back
