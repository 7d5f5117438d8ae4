"""Yarn: how thick, how long a gram is, and the hook that makes a dense toy fabric of it.

Weights and their hooks: Craft Yarn Council, Standard Yarn Weight System. Length for 100 g: trade tables (a UK dyer 2024
and retail charts), their middle. A ball band knows better than any of them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import sqrt

from hookside.shape.lengths import MM, NUMBER, number, tidied, unit


@dataclass(frozen=True, slots=True)
class Weight:
    """One yarn weight. Hooks in mm are those of the standard; metres for 100 g; `names` as printed."""

    name: str
    names: tuple[str, ...]
    hooks: tuple[float, float]
    metres: float


# Hook for a fabric that hides stuffing, mm, times the root of the yarn's metres for 100 g (a yarn is as thick as the
# root of 1 / metres): the middle of the published stuffed pieces that print both (tests/shape). It lies 0.5 to 1.5 mm
# below the standard's for worsted, DK and sport, as makers say; of fingering the standard's own hooks begin below it.
DENSE = 51.0


def toy_hook(metres: float) -> float:
    """For a yarn of so many metres for 100 g, a quarter of a millimetre at a time."""
    return round(DENSE / sqrt(metres) * 4) / 4


WEIGHTS = (
    Weight("lace", ("lace", "cobweb", "thread", "10-count"), (2.25, 2.25), 700),
    Weight("super fine", ("super fine", "superfine", "fingering", "sock", "4 ply", "4-ply", "3 ply"), (2.25, 3.5), 400),
    Weight("fine", ("sport", "fine", "5 ply", "baby"), (3.5, 4.5), 300),
    Weight("light", ("dk", "double knit", "double knitting", "light worsted", "8 ply", "light"), (4.5, 5.5), 225),
    Weight("medium", ("worsted", "aran", "afghan", "10 ply", "medium"), (5.5, 6.5), 165),
    Weight("super bulky", ("super bulky", "super chunky", "roving"), (9.0, 15.0), 65),
    Weight("bulky", ("bulky", "chunky", "rug", "12 ply"), (6.5, 9.0), 110),
    Weight("jumbo", ("jumbo",), (16.0, 20.0), 35),
)
FAR = 0.5  # mm above the largest hook of its weight: nobody works fingering with more, least of all a toy (a guess)
_UNIT = r"(metres?|meters?|yards?|yds?|m)\b"
_PER = re.compile(
    rf"(\d+)\s*g\w*\s*(?:balls?|skeins?|hanks?)?\s*[=:/(,]*\s*(?:approx\.?|about|ca\.?)?\s*({NUMBER})\s*{_UNIT}",
    re.IGNORECASE,
)
_FOR = re.compile(rf"({NUMBER})\s*{_UNIT}\s*(?:/|per|for|=|in|to|\()?\s*(?:an?\s+)?(\d+)\s*g", re.IGNORECASE)

_STRANDS = re.compile(r"\b([2-4]|two|three|four)\s+strands\b|\bheld\s+(?:double|triple)\b", re.IGNORECASE)
_BESIDES = re.compile(r"needle|sew|embroid|floss|stuffing|fib(?:re|er)s?\s*fill|filling|\beyes\b|marker", re.IGNORECASE)
ITEMS = re.compile(r"\s*[,;]\s+|\s+(?:and|&)\s+")
_HELD = {"double": 2, "triple": 3, "two": 2, "three": 3, "four": 4}


def weight(text: str, hook: float | None = None) -> Weight | None:
    """The yarn weight a text names, the one named first and longest; None where it names none.

    A number of plies counts only where nothing else does: "4 ply worsted" is worsted. In the US worsted itself is sold
    as "4-ply", so that one worked with a `hook`, mm, far above those for fingering is taken as worsted.
    """
    low = " ".join(text.lower().split())
    found: list[tuple[bool, int, int, Weight]] = []
    for one in WEIGHTS:
        for name in one.names:
            at = re.search(rf"(?<![\w-]){re.escape(name)}(?![\w-])", low) if name in low else None
            if at:
                found.append(("ply" in name, at.start(), -len(name), one))
    if not found:
        return None
    plies, _, _, one = min(found, key=lambda f: f[:3])
    worsted = plies and one.name == "super fine" and hook is not None and hook > one.hooks[1] + FAR
    return next(w for w in WEIGHTS if w.name == "medium") if worsted else one


def metres_per_100_g(text: str) -> float | None:
    """What a ball band says ("100 g = 320 m", "50g/125 yds", "170 m per 100 g") as metres for 100 g."""
    plain = tidied(text)
    per = _PER.search(plain)
    if per:
        grams, long, of = float(per[1]), per[2], per[3]
    else:
        other = _FOR.search(plain)
        if other is None:
            return None
        grams, long, of = float(other[3]), other[1], other[2]
    metres = number(long) * MM[unit(of)] / 1000
    per_hundred = metres / grams * 100 if grams else 0.0
    return per_hundred if 10 <= per_hundred <= 3000 else None


def metres(materials: list[str], hook: float | None = None) -> float | None:
    """Metres for 100 g of what the first yarn of a list is worked with, strands held together counted; by its band,
    else by its weight; None where no line tells. `hook`, mm: what it is worked with, where that is known."""
    for line in working(materials):
        band = metres_per_100_g(line)
        if band is None and (known := weight(line, hook)) is not None:
            band = known.metres
        if band is not None:
            return band / strands(line)
    return None


def working(materials: list[str]) -> list[str]:
    """What may name the yarn that is crocheted with, line by line: no "fine needle", no "thread to sew on". Where all
    stands in one line ("DK yarn, a 3 mm hook, stuffing"), what is left of that line."""
    lines = [", ".join(part for part in ITEMS.split(line) if not _BESIDES.search(part)) for line in materials]
    return [line if _BESIDES.search(whole) else whole for line, whole in zip(lines, materials, strict=True) if line]


def nearest(metres: float) -> Weight:
    """The weight whose metres for 100 g are nearest, as a share."""
    return min(WEIGHTS, key=lambda one: max(one.metres / metres, metres / one.metres))


def strands(text: str) -> int:
    """Strands held together as a text says it ("3 strands", "held double"); 1 where it says nothing."""
    told = _STRANDS.search(text)
    if told is None:
        return 1
    words = told[0].lower().split()
    return next((_HELD[word] for word in words if word in _HELD), 0) or int(words[0])
