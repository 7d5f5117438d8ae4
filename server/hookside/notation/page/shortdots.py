"""Dots of short forms within "work next 2 sts. together", "2 d.c. tog. all round": old leaflets put one behind each.

"F.O." loses its first too: a sentence that ended there would ask for an "F" and leave an "O" unread.
"""

from __future__ import annotations

import re

HINTS = (". tog", "tog.", "h. ", "F.", "f.")
_BEFORE = re.compile(r"\b(?:sts?|ch|[ds]\.c|h\.?tr|tr|[hd]?dc|sc)\.(?= (?:tog\b|together\b|as one\b))")
_BEHIND = re.compile(r"\btog\.(?=[;,)\]]| (?:all|to|round|around|across|along|twice|once|[\d(]))")

_CHAINS = re.compile(r"(?:^|(?<=[.,;:)] ))[Cc]h\.(?= \d{1,3}\.\s*$)", re.M)  # "EARS. Make 2. Gray. Ch. 4."

_OFF = re.compile(r"(?<![\w.])[Ff](?P<dot>\. ?)[Oo]\b(?!\.\w)")


def dots(text: str) -> list[tuple[int, int]]:
    """Where such dots stand: what is between the two is one phrase, and no sentence ends there."""
    found: list[tuple[int, int]] = []
    for rule in (_BEFORE, _BEHIND, _CHAINS):
        for match in rule.finditer(text):
            found += [(at, at + 1) for at in range(*match.span()) if text[at] == "."]
    return found + [match.span("dot") for match in _OFF.finditer(text)]
