"""Rounds told as one speaks, in lines that stand as notes: "then three rounds of just eighteen", in front of the first
round that was read. Nothing there was followed, so that a whole part would go with them in silence."""

from __future__ import annotations

import re

from hookside.notation.page.inwords import N, value
from hookside.notation.page.told.talkclauses import RING

_HINT = re.compile(r"then|now|next|after that|magic|ring|circle|loop", re.I)
_NUMBER = re.compile(rf"\b{N}\b", re.I)
# "then three rounds of just eighteen", "now decrease all the way, six", "then one single one decrease"
_ON = re.compile(
    r"[^\w\n]{0,6}(?:and |so |ok |okay ){0,2}(?:then|now|next|after that)\b,? (?:you |we |it's |do |work |make |just )*"
    rf"(?:{N} (?:more )?(?:plain |straight )?(?:rounds?|rows?|rnds?)\b|"
    rf"{N} (?:single|sc|double|dc|plain|inc|dec|increases?|decreases?)\b|"
    rf"(?:sc|(?:in|de)crease|inc|dec)\b[^.\n]{{0,24}}?(?:\ball (?:the way|around|round|the stitches)\b|"
    rf"\b(?:to|times|in (?:each|every))\b|\b{N}\b))",
    re.I,
)
# "you do a magic ring with six then increase all the way so twelve"
_RING = re.compile(
    rf"\b(?:ring|circle)\W{{1,3}}(?:with|of|and|put|do)?\W{{0,3}}{N}\b[^\n]{{0,40}}?"
    r"\b(?:then|increases?|inc|double)\b",
    re.I,
)


def tells_rounds(line: str) -> bool:
    if _HINT.search(line) is None:
        return False
    return _ON.match(line) is not None or _RING.search(line) is not None or _doubled(line)


def _doubled(line: str) -> bool:
    """ "Six into a loop. Then two into each = 12.", "12 dc in ring, then 24 dc": stitches in a ring, behind them twice
    as many."""
    for ring in RING.finditer(line):
        twice = 2 * value(ring["a"] or ring["b"] or ring["c"])
        if any(value(told[0]) == twice for told in _NUMBER.finditer(line, ring.end())):
            return True
    return False
