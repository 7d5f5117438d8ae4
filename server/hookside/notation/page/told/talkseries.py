"""Several kinds of stitches in a row as one round of a letter: "(2 sc, dec) three times", "3 hdc, 6 sc for one round".

They are one round where it is told how often they go, or where they use up what is there; else each may be a round.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.notation.page.inwords import value
from hookside.notation.page.told.talkclauses import REACH, N

_STITCH = (
    r"(?:sc|[hd]dc|dc|h?tr|sl ?st|(?:single|double|half double|half treble|treble) crochets?|singles|doubles)(?![a-z])"
)
_NEXT = rf"(?: in (?:each of )?(?:the )?next(?: {N})?(?: (?:stitches|stitch|sts?)(?![a-z]))?)?"
_ELEMENT = (
    rf"(?:(?:two|2)(?: {_STITCH})? in(?:to)? (?:the |one )?(?:next|same)?(?: (?:stitch|st|one)(?![a-z]))?(?! \d)|"
    rf"(?:{_STITCH}|inc|dec) \d{{1,2}}(?! ?(?:x|times)\b)|"
    rf"(?:(?:{N}|an?) )?(?:{_STITCH}|(?:inc|dec)(?:rease)?s?(?![a-z]))){_NEXT}"
)
_SEAM = r"(?:\s*(?:,|&|\+)\s*(?:and )?|\s+(?:and|plus)\s+|\s+(?=an? |\d|inc|dec|\w+ (?:inc|dec)))"
_SERIES = re.compile(
    rf"(?:(?:a|one|the) (?:round|rnd|row) of )?(?P<open>[(\[])?\s*(?P<work>{_ELEMENT}(?:{_SEAM}{_ELEMENT}){{1,9}})"
    rf"(?(open)\s*[)\]])",
    re.I,
)
_OFTEN = re.compile(REACH, re.I)
_ONE_ROUND = re.compile(r"[\s,]*(?:for|over) (?:one|1|a|the|a single) (?:round|rnd|row)\b", re.I)
_PART = re.compile(_ELEMENT, re.I)
_MANY = re.compile(rf"(?<![a-z]){N}", re.I)


@dataclass(slots=True)
class Series:
    """Where it ends, its work in short, and how many stitches once through it uses and makes."""

    end: int
    work: str
    uses: int
    makes: int
    times: str | None  # "three times", "all the way round"; None where it is one round as it stands


def _element(words: str) -> tuple[str, int, int]:
    low = words.lower()
    shaping = re.search(r"inc|dec|^(?:two|2)(?: [a-z ]+)? in(?:to)? (?:the |one )?(?:next|same)\b", low)
    told = _MANY.findall(low)
    if shaping is None:
        n = value(told[0]) if told else 1
        stitch = re.search(_STITCH, low)
        name = stitch[0] if stitch is not None else "sc"
        return f"{n} {name}", n, n
    if shaping[0] not in ("inc", "dec"):
        return "inc", 1, 2
    n = value(told[0]) if told else 1
    work = shaping[0] if n == 1 else f"{n} {shaping[0]}"
    return (work, n, 2 * n) if shaping[0] == "inc" else (work, 2 * n, n)


def series(text: str, at: int, end: int, there: int) -> Series | None:
    """Such a round at `at`, where so many stitches are there (0: not known)."""
    match = _SERIES.match(text, at, end)
    if match is None:
        return None
    parts = [_element(m[0]) for m in _PART.finditer(match["work"])]
    uses, makes = sum(p[1] for p in parts), sum(p[2] for p in parts)
    work = ", ".join(p[0] for p in parts)
    often = _OFTEN.match(text, match.end(), end)
    if often is not None:
        return Series(often.end(), f"({work})", uses, makes, often["times"] or often["reach"])
    once = _ONE_ROUND.match(text, match.end(), end)
    if once is not None or uses == there:
        return Series(once.end() if once is not None else match.end(), work, uses, makes, None)
    return None
