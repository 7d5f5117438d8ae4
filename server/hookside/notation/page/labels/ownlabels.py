"""Labels that stand on a line of their own, over the work: "1." over "6 sc in a ring", "Rnd 2 [12]" over "inc x 6".

A number alone is one where such lines count up from one in every part and no line has a label in words. A label with
its count stands so in at least three lines. The line's end becomes a blank, so that the length stays.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE

_FEWEST = 3
_RANGE = r"(?:[ ]?(?:-|to|&|and)[ ]?\d{1,3})?"
_NUMBER = re.compile(
    r"^[ \t]{0,8}(?:[-*>\u2022][ ])?(?P<n>\d{1,3})(?:[ ]?-[ ]?(?P<last>\d{1,3}))?[ ]?[.:)]"
    r"(?P<count>[ ]?[(\[{]\d{1,4}(?: ?sts?)?[)\]}])?"
    r"[ \t]*(?P<gap>\n)(?=[ \t]*(?P<below>[^\s][^\n]+))",
    re.M,
)
_COUNTED = re.compile(
    rf"^[^\w\n]{{0,4}}{COURSE}\.?[ ]?#?\d{{1,3}}{_RANGE}[ ]?[.:]?[ ]?[(\[{{]\d{{1,4}}(?:[ ]?(?:sts?|stitches))?[)\]}}]"
    r"[ ]?[:.-]?[ \t]*(?P<gap>\n)(?=[ \t]*(?P<below>[^\s][^\n]+))",
    re.M | re.I,
)
_LABELLED = re.compile(rf"^[^\w\n]{{0,6}}(?:{COURSE})\.?[ ]?#?\d", re.I | re.M)
_ANY_LABEL = re.compile(rf"(?:{COURSE})\.?[ ]?#?\d|\d{{1,3}}[ ]?[.:)](?:\s|$)", re.I)


def joined(text: str) -> str:
    """The page with such labels in front of their work."""
    found = [m for m in _COUNTED.finditer(text) if _ANY_LABEL.match(m["below"]) is None]
    if len(found) < _FEWEST:
        found = list(_NUMBER.finditer(text))
        if len(found) < _FEWEST or not _counting_up(found) or _LABELLED.search(text):
            return text
    parts: list[str] = []
    at = 0
    for match in found:
        parts += [text[at : match.start("gap")], " "]
        at = match.end("gap")
    return "".join([*parts, text[at:]])


def _counting_up(found: list[re.Match[str]]) -> bool:
    """Does each go on from the one before it, or begin anew with one, and stand over something else than a number?"""
    before = 0
    for match in found:
        n = int(match["n"])
        if n not in (1, before + 1) or re.match(r"\d{1,4}[ .:)]*$|\|", match["below"]):
            return False
        before = int(match["last"] or n)
    return int(found[0]["n"]) == 1
