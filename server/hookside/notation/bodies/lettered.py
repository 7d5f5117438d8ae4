"""Letters of colours glued to their amounts, as charts of colours are written out: "(A3, B4, A3) x 6, A inc"."""

from __future__ import annotations

import re

from hookside.colours import COLOURS
from hookside.notation.bodies.tongues import key_of
from hookside.stitches import by_name

# "A = charcoal, B = bone", "(A) charcoal; (B) bone", "Yarn A: charcoal"
_GIVEN = re.compile(
    r"(?<![A-Za-z\d])[(\[]?(?P<letter>[A-Z])[)\]]?\s?(?:[=:]|\s-|(?<=[)\]]))\s?"
    r"(?P<what>[A-Za-z]{3,14}(?: [a-z]{3,14}){0,2})"
)
_AMOUNT = re.compile(r"(?P<letter>[A-Z])(?<![A-Za-z\d].)\d{1,3}(?![A-Za-z\d])")
_FEWEST = 4  # such amounts in a text


def glued(text: str) -> frozenset[str]:
    """Such letters, small: given out together, one of them at least for a colour everybody knows; else none."""
    amounts = [m["letter"] for m in _AMOUNT.finditer(text)]
    if len(amounts) < _FEWEST or len(set(amounts)) < 2:
        return frozenset()
    told = {m["letter"]: m["what"].lower() for m in _GIVEN.finditer(text)}
    known = {letter for letter, what in told.items() if set(what.split()) & COLOURS}
    letters = {
        letter for letter, what in told.items() if letter in known or not (key_of(what) or what in by_name("US"))
    }
    printed = [letter for letter in amounts if letter in letters]
    if not known or not known & set(printed) or len(printed) < _FEWEST or len(set(printed)) < 2:
        return frozenset()
    return frozenset(letter.lower() for letter in letters & (known | set(printed)))
