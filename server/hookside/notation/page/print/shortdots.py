"""Dots of short forms within "work next 2 sts. together", "2 d.c. tog. all round": old leaflets put one behind each.

"F.O." loses its first too: a sentence that ended there would ask for an "F" and leave an "O" unread. "s.c." loses both,
but for the one that ends a sentence too: "6 s.c. Join."
"""

from __future__ import annotations

import re

from hookside.notation.sought import Sought

HINTS = (". tog", "tog.", "h. ", "F.", "f.", "s.c", "S.c", "S.C")
_BEFORE = Sought(
    (". tog", ". as one"), r"\b(?:sts?|ch|[ds]\.c|h\.?tr|tr|[hd]?dc|sc)\.(?= (?:tog\b|together\b|as one\b))"
)
_BEHIND = Sought(("tog.",), r"\btog\.(?=[;,)\]]| (?:all|to|round|around|across|along|twice|once|[\d(]))")

_CHAINS = Sought(("ch. ",), r"(?:^|(?<=[.,;:)] ))[Cc]h\.(?= \d{1,3}\.\s*$)", re.M)  # "EARS. Make 2. Gray. Ch. 4."

_OFF = Sought(("f.o", "f. o"), r"(?<![\w.])[Ff](?P<dot>\. ?)[Oo]\b(?!\.\w)")

# ... and no "d.c.": its dots tell what a scan made of it ("d.o.", "d,c.")
_STITCH = Sought(("s.c", "s. c"), r"(?<![\w.])s\.[ ]?c\b\.?", re.I)
_SENTENCE_ENDS = re.compile(r"\s*$|\s*\n|[ ]+(?:[A-Z][a-z]|\d{1,3}\.[ ])")


def dots(text: str) -> list[tuple[int, int]]:
    """Where such dots stand: what is between the two is one phrase, and no sentence ends there."""
    found: list[tuple[int, int]] = []
    for rule in (_BEFORE, _BEHIND, _CHAINS):
        for match in rule.finditer(text):
            found += [(at, at + 1) for at in range(*match.span()) if text[at] == "."]
    for match in _STITCH.finditer(text):
        end = match.end() - (text[match.end() - 1] == "." and _SENTENCE_ENDS.match(text, match.end()) is not None)
        found += [(at, at + 1) for at in range(match.start(), end) if text[at] in ". "]
    return found + [match.span("dot") for match in _OFF.finditer(text)]
