"""Rounds that work copies of one part together, told without a label or under the heading of those copies."""

from __future__ import annotations

import re

_PARTS = r"(?:legs?|feet|foot|arms?|ears?|wings?|fins?|flippers?|halves|pieces?|parts?|tubes?)"
_MENTIONS = re.compile(rf"\b{_PARTS}\b|\bl(?:eg)? ?[12]\b", re.I)
_UPON = r"\b(?:around|round|on|onto|of|along|across|over|in|into|from|at|to|through|with|and|then) (?:the )?"
_ALL = re.compile(rf"{_UPON}(?:both|all|two|2)(?: of)?(?: the)? {_PARTS}\b", re.I)
_FIRST = re.compile(
    rf"{_UPON}(?:(?:first|1st|left|one)(?: of the)? {_PARTS}|{_PARTS} (?:1|one|a))\b|\b(?:leg|l) ?1\b", re.I
)
_OTHER = re.compile(
    rf"{_UPON}(?:(?:second|2nd|right|other|next)(?: of the)? {_PARTS}|{_PARTS} (?:2|two|b))\b|\b(?:leg|l) ?2\b", re.I
)
_AMOUNT = re.compile(
    r"\b(?:\d{1,3} ?(?:sc|[hd]?dc|h?tr|ch|chains?)|(?:sc|[hd]?dc|h?tr|ch|chain) ?\d{1,3}|"
    r"(?:sc|[hd]?dc|h?tr)(?= (?:in (?:each|every|all)|around|along|on)\b))\b",
    re.I,
)
_WORKED = re.compile(r"\b(?:\d{1,3} ?)?(?:sc|[hd]?dc|h?tr)\b", re.I)
_COUNTED = re.compile(r"(?:[(\[{=-]|\btotal(?: of)?)\s*\d{1,3}(?: (?:sts?|stitches|sc|dc))?\s*[)\]}]?\W*$", re.I)
_SEAM = re.compile(r"[.:;]\s+|\s-+\s+")
_NAME = re.compile(
    r"\W*(?:the |body )*(?:join|connect|attach)(?:ing|ed|ion)?(?: (?:the |both |two |legs?|round|rnd|row)+)*\W*", re.I
)
_LONGEST = 300  # letters of such a line


def several(text: str) -> bool:
    """Do these words go over two copies of one part: "around the first leg ... the second", "both legs"?"""
    if len(text) > _LONGEST or not _MENTIONS.search(text):
        return False
    return _ALL.search(text) is not None or (_FIRST.search(text) is not None and _OTHER.search(text) is not None)


def round_told(line: str) -> int | None:
    """Where the round begins in "Join legs: 12 sc around the first, ch 2, ... (28)"; None where none is told."""
    if len(line) > _LONGEST or not _MENTIONS.search(line) or not _COUNTED.search(line):
        return None
    first = _AMOUNT.search(line)
    if first is None or not several(line) or not _WORKED.search(line):
        return None
    return max((m.end() for m in _SEAM.finditer(line, 0, first.start())), default=0)


def names_round(words: str) -> bool:
    """ "Joining round:" and nothing else: what the round is called, and nothing to do."""
    return _NAME.fullmatch(words) is not None
