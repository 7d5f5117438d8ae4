"""Brackets behind the stitches of a round that are work all the same: "sc around (leave the last 3 unworked)".

Such a bracket is read as if a comma stood in its place; whatever else of a round was passed over is looked through for
work (`passed_over`), so that nothing which might be stitches goes without a word.
"""

from __future__ import annotations

import re

from hookside.notation.vocabulary import number_of

_N = r"(?:\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten|twelve)"
_WHICH = rf"(?:the |these |your )?(?:very )?(?:last|first|final|next|remaining|other) {_N}\b"
_STITCHES = r"(?:sts?|stitch(?:es)?|[hd]?dc|sc|h?tr|inc|dec|blo|flo|bl|fl)"
# How far it goes, what is otherwise at an end, how often: no bracket that is repeated, and no count, begins so
_QUALIFIES = re.compile(
    r"[(\[](?=(?:"
    rf"(?:but |and )?leav(?:e|ing) (?:off )?(?:{_WHICH}|{_N} {_STITCHES}? ?(?:at the end|unworked|free|over))|"
    rf"(?:all )?(?:but|except|excepting|skip|skipping|not|minus) {_WHICH}|"
    rf"stop(?:ping)? {_N} {_STITCHES} (?:before|short)|"
    rf"{_WHICH} {_STITCHES}? ?(?:unworked|in|are|is|with|as|to|through|into|free)\b|"
    rf"{_STITCHES} (?:at the|for the|over the) (?:end|start|beginning|last|first|final|middle|center|centre)\b"
    r"))(?P<inner>[^()\[\]{}\n]{4,80})[)\]](?!\s*(?:[x*\u00d7]|\d|times|twice|thrice|rep))",
    re.I,
)
_ROUNDS = r"(?:rounds?|rnds?|rows?)"
_WORK = re.compile(
    rf"\b(?:(?:last|first|final|next) {_N}|(?:{_N}|next|{_N} more) (?:times|{_ROUNDS}(?! (?:below|down|of)))|twice|"
    rf"thrice|once more|unworked|sts? \d|stitch(?:es)? \d|(?:r|rd|{_ROUNDS}) ?\d|"
    rf"every (?:\d|other|second|third|fourth)|{_N} (?:inc|dec|sts? (?:more|less|fewer))|"
    rf"(?:not|except|save) (?:(?:on|in|for|at) )?(?:the )?(?:very )?(?:last|first|final)|{_N} short|odd|even rounds?|"
    r"(?:inc|dec)(?:rease)? (?:in|at|over|once)|(?:back|front) loops? (?:only|for|over)|[bf]lo (?:for|over|in))\b",
    re.I,
)
_TOLD = re.compile(r"\b(?:you|your|they|these|this|those|it|i|we|makes?|is|are|was|should|count|=)\b|=", re.I)


def unwrapped(body: str) -> str:
    """The body, as long as it was, with a comma where a bracket opens that tells how the round before it goes."""
    if "(" not in body and "[" not in body:
        return body
    return _QUALIFIES.sub(_set_apart, body)


def _set_apart(told: re.Match[str]) -> str:
    if not told.start():
        return told[0]
    goes_on = told.string[told.end() : told.end() + 3].strip()[:1].isalnum()  # "(leave last 2 unworked) ch 1, turn"
    return f",{told['inner']}{',' if goes_on else ' '}"


# "leave the last 3 unworked", "(leaving 3 sts free)"
_LEFT = re.compile(
    rf"\bleav(?:e|ing) (?:the )?(?:very )?(?:last |next |final |other |remaining )?(?P<n>{_N})\b[^.,;()\[\]\d]{{0,24}}"
    r"\b(?:unworked|unused|free)\b",
    re.I,
)


def left_over(body: str) -> tuple[int, int, int] | None:
    """How many stitches a body leaves unworked, and where it says so."""
    told = _LEFT.search(body) if "leav" in body or "Leav" in body else None
    return (number_of(told["n"].lower()), *told.span()) if told is not None else None


def passed_over(body: str, asides: list[tuple[int, int]]) -> tuple[int, int] | None:
    """Where the first words of a body stand that were passed over and may ask for stitches; None where none do."""
    for start, end in asides:
        words = body[start:end]
        if _WORK.search(words) is not None and _TOLD.search(words) is None and not words.endswith(":"):
            return start, end
    return None
