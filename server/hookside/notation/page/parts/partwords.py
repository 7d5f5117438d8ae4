"""Words in front of the names of parts that only count them: "ITEM A - BUOY", "Part two, the back", "Sig. CROWN".

What the word is may be anything; where it stands in front of one part after the other and what is behind it counts up,
or is nothing, it belongs to no name. The sign of a heading takes its place, the length stays.
"""

from __future__ import annotations

import re
from itertools import groupby

from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.heads.headings import PARTS
from hookside.notation.page.tables.columns import STITCH
from hookside.notation.vocabulary import COUNT_WORDS, NUMBER_WORDS, number_of

_COUNTED = re.compile(
    rf"^(?P<lead>[ ]{{0,8}})(?P<number>(?P<word>(?!{COURSE}s?\b)[A-Za-z][A-Za-z/]{{1,8}})\.?[ ]"
    rf"(?P<n>\d{{1,2}}|[A-H]|I{{1,3}}|IV|(?:{COUNT_WORDS})(?=,))"
    r"(?:[ ]{0,2}[-:.,)|\u2013\u2014][ ]{1,3}|[ ](?=[A-Z]{3})))"
    r"(?P<name>[A-Za-z][^\n]{1,60})$",
    re.M | re.I,
)
_ALIKE = re.compile(
    r"^(?P<lead>[ ]{0,8})(?P<number>(?P<word>(?!No|St|Dr|Mr|Rnd?|Rd)[A-Z][a-z]{1,4}\.)[ ])"
    r"(?P<name>[A-Z][A-Z ]{2,24})$", re.M
)
# "(a) Shell", "(b) Belly", "(c) Head"
_LETTERED = re.compile(r"^(?P<lead>[ ]{0,8})(?P<number>\((?P<n>[a-h])\)[ ])(?P<name>[A-Za-z][^\n.:]{1,40})$", re.M)
_ROUND = re.compile(
    rf"^[ ]{{0,8}}(?:{COURSE}\.?[ ]?#?(?:\d{{1,3}}|{COUNT_WORDS})\b|\d{{1,3}}(?:[ ]?[.:)-]|[ ]{{2}}))", re.I | re.M
)
_NO_WORD = frozenset(
    ["make", "step", "ch", "chain", "hook", "size", "week", "day", "page", "sheet", "leaflet", "pattern"]
)
_SECOND = re.compile(r"^[ ]{0,8}[A-Za-z/]{2,9}\.?[ ](?:2|B|II|two)[ ]{0,2}[-:.,)|\u2013\u2014A-Z]", re.M | re.I)


def _place(n: str) -> int:
    roman = {"I": 1, "II": 2, "III": 3, "IV": 4}
    if n.isdecimal() or n.lower() in NUMBER_WORDS:
        return number_of(n)
    return roman.get(n.upper()) or ord(n.upper()) - ord("A") + 1


def nameless(text: str) -> str:
    """The page with such words out of its names, where rounds stand behind the first of them and another one."""
    found: list[re.Match[str]] = []
    if _SECOND.search(text) is not None:
        counted = [m for m in _COUNTED.finditer(text) if _may_count(m)]
        for _, same in groupby(counted, key=lambda m: m["word"].lower()):
            run = list(same)
            if [_place(m["n"]) for m in run] == list(range(1, len(run) + 1)) and _have_rounds(text, run):
                found += run
    lettered = [m for m in _LETTERED.finditer(text) if not STITCH.search(m["name"])] if "(b) " in text else []
    places = [_place(m["n"]) for m in lettered]
    if lettered and places == list(range(1, len(places) + 1)) and _have_rounds(text, lettered):
        found += lettered
    for _, same in groupby(_ALIKE.finditer(text), key=lambda m: m["word"]):
        run = list(same)
        if _have_rounds(text, run):
            found += run
    for match in found:
        start, end = match.span("number")
        text = f"{text[:start]}{'#'.ljust(end - start)}{text[end:]}"
    return text


def _may_count(match: re.Match[str]) -> bool:
    word = match["word"].lower()
    return word not in PARTS and f"{word}s" not in PARTS and word not in _NO_WORD and not STITCH.search(match["name"])


def _have_rounds(text: str, run: list[re.Match[str]]) -> bool:
    ends = [*(m.start() for m in run[1:]), len(text)]
    rounds = [_ROUND.search(text, m.end(), end) is not None for m, end in zip(run, ends, strict=True)]
    return len(run) > 1 and rounds[0] and (sum(rounds) > 1 or all(m["name"][:3].isupper() for m in run))
