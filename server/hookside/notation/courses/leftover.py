"""Stitches that a course leaves unworked: their number against what there is, and who works them after all."""

from __future__ import annotations

import re

from hookside.notation.arithmetic.choosing import Chosen
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.courses.waiting import Waiting
from hookside.notation.vocabulary import COUNT_WORDS, number_of

# "sc 12, leave 5 unworked", "leaving four": at the end of a body, so that no stitches go on behind them
_LEFT = re.compile(
    rf"\bleav(?:e|ing) (?:the )?(?:(?:very|last|final|other|remaining) )*(?P<n>\d{{1,3}}|{COUNT_WORDS})"
    r"(?: (?:sts?|stitch(?:es)?|sc))?(?: un-?worked| unused| free)?(?: at the end)?"
    r"(?=[ .,;]{0,3}(?:(?:and )?turn\b[ .]{0,2})?(?:[(\[]\d{1,4}[)\]][ .]{0,2})?$)",
    re.I,
)
# "sc around, the unworked ones as well": then it is told that they are worked again
_TAKEN_UP = re.compile(
    r"\b(?:unworked|unused|left|skipped|remaining|rest|again|including|both|missed|all (?:the |of the )?\d{1,3})\b",
    re.I,
)


def told_left(body: str) -> tuple[int, int, int] | None:
    """How many stitches a body leaves at its end, and where it says so."""
    told = _LEFT.search(body.rstrip()) if "leav" in body or "Leav" in body else None
    return (number_of(told["n"].lower()), *told.span()) if told is not None else None


def left_by(todo: Waiting, taken: Chosen, ground: Ground) -> int:
    """Stitches of the course below that a course does not work, by its own words; 0 where it has none of those."""
    if todo.parsed is None or not todo.parsed.phrases.unworked or not taken.fits or ground.there is None:
        return 0
    apart = todo.parsed.phrases.elsewhere or ground.layers or ground.gaps or ground.chain or taken.reading.spaces
    return 0 if apart else max(0, ground.there - taken.reading.uses)


def takes_up(words: str) -> bool:
    """Do the words of a course tell that it works what was left?"""
    return _TAKEN_UP.search(words) is not None
