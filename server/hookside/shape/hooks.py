"""Hook sizes: the shaft's diameter in mm, from whatever is printed."""

from __future__ import annotations

import re

from hookside.shape.lengths import NUMBER, number, tidied

# US letter and number -> mm: Craft Yarn Council's list as two or more retail charts confirm it. A bare "7" (4.5 mm or
# a steel 1.65 mm) and single letters that charts disagree on are left out.
US = {
    "b1": 2.25, "c2": 2.75, "d3": 3.25, "e4": 3.5, "f5": 3.75, "g6": 4.0, "h8": 5.0, "i9": 5.5, "j10": 6.0,
    "k10.5": 6.5, "l11": 8.0, "d": 3.25, "e": 3.5, "f": 3.75, "h": 5.0, "j": 6.0, "k": 6.5, "l": 8.0,
}  # fmt: skip
# Letters on which charts disagree (hooks.md gives both): their middle, good enough for a guess and for nothing else.
ABOUT = {"B": 2.25, "C": 2.65, "G": 4.1, "I": 5.5, "M": 9.0, "N": 9.5, "P": 11.5, "Q": 16.0}
SMALLEST, LARGEST = 0.5, 30.0  # mm: steel 14 is 0.75, the largest sold about 25

_MM = re.compile(rf"({NUMBER})\s*-?\s*mm\b", re.IGNORECASE)
_LESS = re.compile(r"\s*[-\u2212]\s*\d")  # less than nothing
_LETTER = re.compile(r"\b([B-L])\s*(?:[-/]?\s*(10\.5|1[01]|[1-9]))?(?![\w.])", re.IGNORECASE)
_KIND = r"(?:(?:crochet|steel|aluminum|aluminium|plastic)\s+)*"
_ABOUT = re.compile(
    rf"\b([BCGIMNPQ])[- ]?(?:sized?\s+)?{_KIND}hooks?\b|\b[Ss]ize\s*:?\s*(?:US\s*)?([BCGIMNPQ])\b|^\s*([BCGIMNPQ])\s*$"
)
# "hook 2", "2.5 hook" with no unit: mm, as lists outside the US have it; in the US a letter stands beside the number.
_NUMBERED = re.compile(
    r"\bhooks?\s*(?:size|no\.?|number|#|:)?\s*(\d(?:[.,]\d+)?)(?![\w.,/])|(?<![\w.,/-])(\d[.,]\d+)\s+hook\b",
    re.IGNORECASE,
)
LARGEST_NUMBERED = 6.5  # mm: a 7 and more is likely a number of the US
_BARE = re.compile(rf"\s*({NUMBER})\s*")


def size(text: str) -> float | None:
    """The diameter in mm that a text names ("3.25 mm", "G-6 hook", "2.75"); None where it names none for sure.

    Millimetres are trusted before letters, which differ between makers.
    """
    plain = re.sub(r"10\s*1/2", "10.5", tidied(text))
    if _LESS.match(plain):
        return None
    if re.search(r"\bUS\s*(?:size\s*|#\s*)?7\b(?!\.)", plain, re.IGNORECASE) and "steel" not in plain.lower():
        return 4.5  # the only common US yarn hook with no letter
    if plain.strip() == "7":  # a US yarn hook of 4.5 mm, a steel one of 1.65 mm, or 7 mm
        return None
    found = _MM.search(plain) or _BARE.fullmatch(plain)
    if found:
        try:
            mm = number(found[1])
        except ValueError:
            return None
        return mm if SMALLEST <= mm <= LARGEST else None
    for letter in _LETTER.finditer(plain):
        if letter[2] or re.search(r"hook|size|crochet", plain, re.IGNORECASE) or letter[0].strip() == plain.strip():
            mm = US.get(f"{letter[1].lower()}{letter[2] or ''}", 0.0)
            if mm:
                return mm
    return None


def about(text: str) -> float | None:
    """The diameter in mm for a guess: as `size`, else a number that stands at the hook without a unit, else the middle
    of what charts say of a letter they disagree on."""
    sure = size(text)
    if sure is not None:
        return sure
    if numbered := _NUMBERED.search(text):
        mm = number((numbered[1] or numbered[2]).replace(",", "."))
        return mm if 1 <= mm <= LARGEST_NUMBERED else None
    found = _ABOUT.search(text)
    return ABOUT[found[1] or found[2] or found[3]] if found else None
