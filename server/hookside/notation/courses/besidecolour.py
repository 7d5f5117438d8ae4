"""What the bracket of a label tells behind a color: "Rnd 4 (oat, back to hazel on the last yarn over): ...".

The color leads the course, as one alone does; the rest is asked behind the course where it speaks of its end, and in
front of it else. What asks for nothing is kept with what was left out, for somebody may have meant a job by it.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from hookside.notation.askings.colournames import is_colour
from hookside.notation.askings.colourtalk import colour_talk, only_a_yarn
from hookside.notation.askings.kinds import classify
from hookside.pattern import CueKind

_PARTED = re.compile(r"\s?[,;.:]\s?(?:and |but |then )*|\s-+\s")
_HEAD = re.compile(r"(?:(?:in|with|all in|using|(?:change|switch|swap) to) )?(?P<shade>[^\W\d][^,;.:()]{0,22}?)$", re.I)
_AT_ITS_END = re.compile(
    r"\b(?:last|final) (?:st|stitch|sc|dc|hdc|pull|yarn[- ]?over|yo|loop|one|step)|\bat (?:the|its) end|"
    r"\b(?:after|behind|when|once|afterwards|at last|for the next|again after)\b",
    re.I,
)


class Beside(NamedTuple):
    """Where its color ends and the rest stands in the words of the bracket; what that asks, if anything, and when."""

    shade: int
    start: int
    end: int
    kind: CueKind | None
    behind: bool


def beside_colour(aside: str, yarns: frozenset[str]) -> Beside | None:
    """The color and the rest of such a bracket; None where it holds but one of them."""
    parted = _PARTED.search(aside)
    head = _HEAD.match(aside[: parted.start()].strip()) if parted is not None else None
    if parted is None or head is None or not (is_colour(head["shade"]) or only_a_yarn(head["shade"], yarns)):
        return None
    told = aside[parted.end() :].rstrip(" .!")
    if not any(c.isalpha() for c in told) or only_a_yarn(told, yarns) or is_colour(told):
        return None  # "blue, white": two colors
    kind = classify(told) or ("colour" if colour_talk(told, yarns) else None)
    behind = _AT_ITS_END.search(told) is not None
    if kind == "colour" and not behind:
        return None
    return Beside(parted.start(), parted.end(), parted.end() + len(told), kind, behind)
