"""Counts between the work of a round and what is told behind it: "(sc, dec) x 6 12 stuff now", "inc x 6 12 brown",
"dc in each st. 12 (stuff as you go)".

What a round works is whole behind "around", "in each", "x 6", "in mr"; a number there and then words that are no
stitches is what it comes to. It gets the brackets and the full stop that others print.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import put
from hookside.notation.page.stages import Way

_STITCH = r"(?:[su]?[sc]c|[hd]?dc|h?tr|dtr|sts?|ss|sl|ch|inc|dec|tog|invdec|fpdc|bpdc|flo|blo|pb|stitch(?:es)?)"
# What a round works, to its end: "around", "in each st", "(...) x 6", "6 x dec", "6 times", "in mr", "mr, 6 sc"
_WHOLE = (
    r"(?:\baround|\b(?:each|every|all|ea)(?: (?:st|stitch|sc|dc|one)s?)?(?: around)?|"
    r"[)\]a-z*][ ]?[x*][ ]?\d{1,2}|\b\d{1,2}[ ]?[x*][ ]?(?:inc|dec|\([^()\n]{3,40}\))|\b\d{1,2} times|"
    r"\b(?:ring|circle|loop|mr|mc)(?:, \d{1,2} (?:sc|dc))?)"
)
# No count where one is printed behind it, and none of stitches, rounds or places
_NO_COUNT = (
    rf"(?![^\n]*[(\[{{=][ ]?\d)(?!(?:{_STITCH}s?|times?|more|x|to|and|or|of|rounds?|rnds?|rows?|plain|even|in|a?round|"
    r"each|cm|mm|inch(?:es)?|loops?|chains?|per|at|on|sides?|through|with|for|single|double|half|treble)\b|inc|dec)"
)
_LINE = re.compile(rf"^[^\w\n]{{0,6}}(?:(?:{COURSE})\.? ?#?\d{{1,3}}|\d{{1,3}}[.:)])[^\n]{{4,300}}$", re.I | re.M)
_COUNT = re.compile(
    rf"{_WHOLE}(?:,?[ ]+(?P<n>\d{{1,3}})(?P<behind>,?[ ]+(?:[-+|] )?{_NO_COUNT}(?=[a-z]{{2,}}))|"
    r"[.,]?[ ]+(?P<bare>\d{1,3})(?P<aside>[ ])(?=\([a-z]{2,}[^\d)]*\)))",
    re.I,
)
# "(1 sc, inc) 6x 18": behind how often, at the end
_BEHIND_TIMES = re.compile(r"[)\]a-z\d] (?P<times>\d{1,2}) ?x (?P<n>\d{1,3})[ .]*$", re.M)
# Where such a count may stand: lines with nothing like it are not looked into
_MAY = re.compile(rf" \d{{1,3}},? +(?:[-+|] )?(?!(?i:{_STITCH}s?)\b)[a-zA-Z(]|\d ?x \d{{1,3}}[ .]*$", re.M)
_TOLD = (("n", "behind"), ("bare", "aside"))  # the count, and what stands behind it


def bracketed(text: str, way: Way) -> tuple[str, Way]:
    """The page with such counts in brackets, and the way back."""
    starts = dict.fromkeys(text.rfind("\n", 0, may.end()) + 1 for may in _MAY.finditer(text))
    lines = [line for start in starts if (line := _LINE.match(text, start)) is not None]
    found = [m for line in lines if (m := _COUNT.search(text, line.start(), line.end())) is not None]
    edits = [(m.start(n), m.start(rest) + 1, f"({m[n]}). ") for m in found for n, rest in _TOLD if m[n] is not None]
    last = [m for line in lines if (m := _BEHIND_TIMES.search(text, line.start(), line.end())) is not None]
    edits += [(*m.span("n"), f"({m['n']})") for m in last if int(m["n"]) >= int(m["times"])]
    return put(text, way, sorted(edits)) if edits else (text, way)
