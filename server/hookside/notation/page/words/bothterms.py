"""Stitches named in both terms where each stands: "6 sc (UK dc) in magic ring", "2 hdc [htr in UK terms] in each".

The name in the bracket is taken out where the one in front of it is what that is called in the US; the length stays.
Where the UK name leads, the text may go on in UK terms alone: it stays as it is.
"""

from __future__ import annotations

import re

_UK = {"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr"}
_IN_UK = r"(?:in )?(?:the )?(?:uk|british)(?: (?:terms?|english|terminology))?"
_BOTH = re.compile(
    rf"(?P<us>(?<![a-z])(?:sc|hdc|dc|tr)) ?(?P<aside>[(\[](?:{_IN_UK}:? ?(?P<uk>dc|htr|dtr|tr)|"
    rf"(?P<uk2>dc|htr|dtr|tr):? {_IN_UK})[)\]])",
    re.I,
)
HINTS = ("(UK ", "[UK ", "UK)", "UK]", "UK terms", "UK:", "ritish", "(uk ", " uk)")


def in_one(text: str) -> str:
    """The page with such stitches in US terms."""
    return _BOTH.sub(_us, text)


def _us(match: re.Match[str]) -> str:
    told = (match["uk"] or match["uk2"]).lower()
    if _UK[match["us"].lower()] != told:
        return match[0]
    return match[0][: -len(match["aside"])] + " " * len(match["aside"])
