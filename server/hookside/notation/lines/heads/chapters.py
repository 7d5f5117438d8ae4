"""Parts that a text numbers: "Part 1: the point", "--- Part two: the lean ---", "Section B"."""

from __future__ import annotations

import re
from functools import lru_cache

_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_ROMAN = ("i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x")
_LETTERS = ("a", "b", "c", "d", "e", "f", "g", "h")
_CHAPTER = re.compile(
    r"[^\w\n]{0,6}(?P<word>part|section|chapter|stage|step) (?:no\.? ?)?"
    rf"(?P<n>\d{{1,2}}|{'|'.join(_WORDS)}|[ivx]{{1,4}}|[a-h])(?=\s*(?:[:.)\]=-]|$))",
    re.I,
)
_LONGEST = 80


@lru_cache(4096)
def chapter(line: str) -> tuple[str, int] | None:
    """ "Part two: the lean" -> ("part", 2); None for a line that numbers no part."""
    match = _CHAPTER.match(line) if len(line) <= _LONGEST else None
    if match is None:
        return None
    n = match["n"].lower()
    if n.isdecimal():
        return match["word"].lower(), int(n)
    for row in (_WORDS, _ROMAN, _LETTERS):
        if n in row:
            return match["word"].lower(), row.index(n) + 1
    return None


@lru_cache(8)
def has_second(text: str, word: str) -> bool:
    """Is there a "Part 2" in a text, so that "Part 1" numbers its parts?"""
    return re.search(rf"\n[^\w\n]{{0,6}}{word} (?:2|two|ii|b)\b", text, re.I) is not None
