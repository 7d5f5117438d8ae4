"""Copies that are worked in part: "For the small wheels stop here.", "Make 1 mum (R1-R5) and 3 babies (R1-R3)."."""

from __future__ import annotations

import re

from hookside.notation.askings.kinds import classify
from hookside.notation.vocabulary import COPIES

_LONGEST = 120  # letters of such a line
_STOPS = re.compile(
    r"\b(?:stop|end|finish(?: off)?|fasten off|f\.?o\.?|cut(?: the)?(?: yarn)?) here\b|\bgo no further\b", re.I
)
# "Stop here and put the one big eye in.": only to do something
_TO_DO = re.compile(r"\b(?:stop|end|finish) here,? (?:and|to) (?!(?:fasten|cut|close|finish|f\.?o)\b)", re.I)
_SOME = re.compile(
    r"\b(?:small(?:er)?|large(?:r)?|big(?:ger)?|little|tiny|mini|short(?:er)?|baby|babies|medium|other) [a-z]{2,}", re.I
)
_DIGIT = re.compile(r"\d")
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
    if _STOPS.search(line) is None or _SOME.search(line) is None:
        return False
    return _TO_DO.search(line) is None or classify(line.split(". ")[0]) in (None, "other", "fasten")


def each_its_rounds(line: str) -> bool:
    """Does a line ask for so many with these rounds, and so many with those?"""
    if len(line) > _LONGEST or _DIGIT.search(line) is None:
        return False
    return _EACH_ITS.fullmatch(line.strip()) is not None
