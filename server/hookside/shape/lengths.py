"""Lengths as people write them: "4.6 cm", "2 1/4 in", '4"', "46 mm"."""

from __future__ import annotations

import re

MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "yd": 914.4}  # international inch and yard (1959)

_FRACTIONS = {"¼": ".25", "½": ".5", "¾": ".75", "⅓": ".3333", "⅔": ".6667", "⅛": ".125"}
_UNITS = {
    "mm": "mm", "millimetre": "mm", "millimeter": "mm", "cm": "cm", "centimetre": "cm", "centimeter": "cm",
    "in": "in", "inch": "in", "inche": "in", '"': "in", "”": "in", "″": "in", "''": "in",
    "m": "m", "metre": "m", "meter": "m", "yd": "yd", "yard": "yd",
}  # fmt: skip

NUMBER = r"(?:\d+(?:[.,]\d+)?(?:\s+\d+/\d+)?|\d+/\d+)"
UNIT = (
    r"(?:millimet(?:re|er)s?|centimet(?:re|er)s?|met(?:re|er)s?|inch(?:es)?|yards?|yds?"
    r"|mm|cm|in|m|''|[\"”″])(?![a-z])"
)
# "chain 18 in rust" tells no inches
LENGTH = re.compile(rf"(?<!chain )(?<!ch )(?<!\d)({NUMBER})[\s-]*({UNIT})", re.IGNORECASE)


def tidied(text: str) -> str:
    """Printed fractions as decimals: "2½" -> "2.5", "½" -> "0.5"."""
    for sign, digits in _FRACTIONS.items():
        text = re.sub(rf"(\d)\s?{sign}", rf"\g<1>{digits}", text).replace(sign, f"0{digits}")
    return text


def number(text: str) -> float:
    """ "2.5", "2,5", "2 1/4" or "3/4" as a number. ValueError for anything else, and for a division by nothing."""
    whole, _, part = text.replace(",", ".").strip().rpartition(" ")
    top, slash, bottom = part.partition("/")
    if not slash:
        return float(part)
    if float(bottom) == 0:
        raise ValueError(text)
    return float(whole or 0) + float(top) / float(bottom)


def unit(text: str) -> str:
    """The key in `MM` of a printed unit."""
    low = text.lower()
    return _UNITS.get(low) or _UNITS[low.rstrip("s")]


def millimetres(text: str) -> float | None:
    """The first length in a text, in mm; None where there is none."""
    found = LENGTH.search(tidied(text))
    if found is None:
        return None
    try:
        return number(found[1]) * MM[unit(found[2])]
    except ValueError:
        return None
