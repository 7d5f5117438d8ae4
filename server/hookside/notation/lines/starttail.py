"""A tail that is to be left before the first stitch, told ahead of all parts: "Leave a long tail at the start."."""

from __future__ import annotations

import re

from hookside.notation.lines.layout import spans_of_sentences

_TAIL = re.compile(
    r"\b(?:leav\w*|keep(?:ing)? an?|have|(?:start|begin)\w* (?:off )?with)\b[^.!?;]{0,40}?"
    r"\b(?:tail|(?:long|yarn|thread|loose) end)\b",
    re.I,
)
_START = re.compile(
    r"\b(?:start|starting|begin|beginning|before (?:the|your) (?:magic )?(?:ring|circle|loop|first))\b|"
    r"\bat (?:the|your) (?:magic )?(?:ring|circle|loop)\b",
    re.I,
)
# Told of all parts, or on a condition: no job of the first one alone
_GENERAL = re.compile(
    r"\b(?:each|every|all|parts|pieces|always|unless|whenever|if|when|both|tails|ends|not|never|legs|arms|ears)\b|n't\b",
    re.I,
)
_LONGEST = 240  # letters of such a line


def starting_tails(text: str, at: int, end: int) -> list[tuple[int, int]]:
    """The sentences of a line that tell such a tail."""
    if end - at > _LONGEST or _TAIL.search(text, at, end) is None:
        return []
    return [
        (a, b)
        for a, b in spans_of_sentences(text, at, end)
        if _TAIL.search(text, a, b) and _START.search(text, a, b) and not _GENERAL.search(text, a, b)
    ]
