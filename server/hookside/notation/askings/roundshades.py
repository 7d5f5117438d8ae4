"""Colors told by their rounds with no word that asks for them: "R5-6 yellow, R7 black", "white for R6", "black: R5"."""

from __future__ import annotations

import re

from hookside.colours import COLOURS, SHADES
from hookside.notation.labels.patterns import COURSE

# Of one round or several, in small letters
ROUNDS = rf"{COURSE}\.? ?#?\d{{1,3}}(?: ?(?:-|to|and|,|&|\+) ?(?:{COURSE}\.? ?)?\d{{1,3}}){{0,9}}"
_SHADE = rf"(?:(?:{'|'.join(sorted(SHADES))}) )*(?:{'|'.join(sorted(COLOURS, key=len, reverse=True))})\b"
_LINKS = r"(?:(?:onwards?|on|is|are|in|with|only|the|worked|made|to|using|then) )*"
_TOLD = re.compile(
    rf"(?<![a-z]){ROUNDS}(?: ?[:=-] ?| ){_LINKS}{_SHADE}|"
    rf"(?<![a-z]){_SHADE}(?: yarn)?(?: ?[:=-] ?| (?:at|in|for|on|from|over) )(?:the )?{ROUNDS}"
)
_HINT = re.compile(rf"(?<![a-z]){COURSE}\.? ?#?\d")


def shades_by_round(low: str) -> bool:
    """Does a clause in small letters tell a color of a round by its number?"""
    return _HINT.search(low) is not None and _TOLD.search(low) is not None
