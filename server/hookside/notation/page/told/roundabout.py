"""The word "round" that is no noun: "12 round the first leg", "R2: 16 round (16)" go around, and are no 16 rounds."""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import Edit, put

HINTS = (" round",)
# In front of what is gone around; "3 round the same" tells of rounds
_PREPOSITION = re.compile(
    r"(?<=\d )round(?= (?:the (?!same\b)|leg\b|arm\b|each (?!of |in |with )[a-z]|both\b|it\b|its\b|this\b|to the\b|"
    r"and round\b))",
    re.I,
)
# Behind a label, where it is the stitches that are printed: "4 rounds" have another count
_OF_COUNT = re.compile(
    rf"^[^\w\n]{{0,6}}(?:{COURSE}\.? ?#?\d{{1,3}}|\d{{1,3}}) ?[:.)-]+ ?(?P<n>\d{{1,3}}) (?P<round>round)"
    r"(?= ?[(\[=]+ ?(?P=n)\b)",
    re.I | re.M,
)


def told(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with "around" for such a word, and the way back."""
    edits: list[Edit] = [(*m.span(), "around") for m in _PREPOSITION.finditer(text)]
    edits += [(*m.span("round"), "around") for m in _OF_COUNT.finditer(text)]
    return put(text, offsets, sorted(edits)) if edits else (text, offsets)
