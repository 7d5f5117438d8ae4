"""Copies that are worked in part: "For the small wheels stop here.", "Make 1 mum (R1-R5) and 3 babies (R1-R3)."."""

from __future__ import annotations

import re

from hookside.notation.vocabulary import COPIES

_LONGEST = 120  # letters of such a line
_STOPS = re.compile(
    r"\b(?:stop|end|finish(?: off)?|fasten off|f\.?o\.?|cut(?: the)?(?: yarn)?) here\b|\bgo no further\b", re.I
)
_SOME = re.compile(
    r"\b(?:small(?:er)?|large(?:r)?|big(?:ger)?|little|tiny|mini|short(?:er)?|baby|babies|medium|other) [a-z]{2,}", re.I
)
_ROUNDS = (
    r"(?:(?:r|rounds?|rnds?|rows?)\.? ?\d{1,3} ?(?:-|to) ?(?:[a-z]{1,6}\.? ?)?\d{1,3}|"
    r"all (?:the )?(?:rounds|rnds|rows))"
)
_EACH_ITS = re.compile(
    rf"\W{{0,3}}(?:make |work |crochet )?{COPIES} [a-z]+(?: [a-z]+)? ?[(\[:] ?{_ROUNDS}[)\]]?"
    rf"(?:,? (?:and |plus )?{COPIES} [a-z]+(?: [a-z]+)? ?[(\[:] ?{_ROUNDS}[)\]]?){{1,4}}\W*",
    re.I,
)


def stops_here(line: str) -> bool:
    """Does a line between rounds tell that some copies end there?"""
    if len(line) > _LONGEST or not ("here" in line.lower() or "further" in line.lower()):
        return False
    return _STOPS.search(line) is not None and _SOME.search(line) is not None


def each_its_rounds(line: str) -> bool:
    """Does a line ask for so many with these rounds, and so many with those?"""
    if len(line) > _LONGEST or not any(c.isdigit() for c in line):
        return False
    return _EACH_ITS.fullmatch(line.strip()) is not None
