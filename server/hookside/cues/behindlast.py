"""What is told behind "Make a second one": jobs of the copies that follow, and those that need both."""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.pattern import Cue, Piece

_BARE = frozenset(["", "this time"])
_OF_THE_LOOP = frozenset(["fasten", "hold", "tail", "close", "other"])  # of which a copy is told its own already
_TOGETHER = re.compile(r"\b(?:together|to each other)\b", re.IGNORECASE)


@lru_cache(maxsize=64)
def _another(name: str) -> re.Pattern[str]:
    """ "Make a second one, don't fasten off this time": what stands behind it goes for that one."""
    return re.compile(
        r"(?:(?:and|now|then)\s+)?(?:(?:make|work|crochet|do)\s+|(?:the\s+)?(?:same|repeat)\s+(?:for|with)\s+)"
        r"(?:another|the\s+other|(?:an?|the)\s+(?:second|2nd)|(?:one|two|three|\d)\s+more)"
        rf"(?:\s+(?:one|piece|part|copy|half|{name})s?)?"
        r"(?:,?\s+(?:exactly\s+|just\s+)?(?:(?:in\s+)?the\s+same(?:\s+way)?|alike|like\s+(?:this|the\s+first)(?:\s+one)?))?"
        r"(?P<ended>\s*(?:[,;:.!-]|$)|(?=\s+(?:but|and|then|only|this|do|don't|leav|keep|with)))"
        r"\s*(?:(?:but|and|then|only)\s+)?",
        re.IGNORECASE,
    )


def another(text: str, name: str) -> str | None:
    """What a sentence that asks for another copy tells of it besides; None where it asks for none."""
    match = _another(name).match(text)
    if match is None:
        return None
    rest = text[match.end() :].strip()
    return "" if rest.rstrip(".!").lower() in _BARE else rest


@lru_cache(maxsize=64)
def _of_both(name: str) -> re.Pattern[str]:
    """ "Sew the two together", "hold both legs together", "through both pieces": of copies of the piece of that name.

    "Sew both sides together" is done to each."""
    pieces = rf"(?:pieces|parts|halves|copies|of (?:them|these)|{name}s?)"
    both = rf"(?:both|the two)(?: {pieces})?\b(?! (?!together|to|with|by|and|along|on|at|using|all)[a-z])"
    return re.compile(
        rf"\b{both}[^.]{{0,20}}\b(?:together|to each other)\b|"
        rf"\b(?:together|through|around|join|attach|sew|seam)\b[^.]{{0,24}}\b{both}|"
        rf"\b(?:both|two|the) {pieces} (?:together|to each other)\b",
        re.IGNORECASE,
    )


def held(piece: Piece, name: str) -> set[str]:
    """Addresses of what is told behind the last course and can be done only when the last of two copies is worked."""
    last = piece.courses[-1].id
    if piece.make != 2:
        return set()
    sentences: list[list[Cue]] = [[]]
    for cue in piece.cues:
        if cue.course_id == last and cue.basis == "written" and cue.at is None:
            sentences[-1].append(cue)
            if cue.text.rstrip().endswith((".", "!", ")")):
                sentences.append([])
    found: set[str] = set()
    asked = False  # behind "Make another", whatever is brought together is the two of them
    for sentence in sentences:
        asks = any(another(cue.text, name) is not None for cue in sentence)
        asked = asked or asks
        if found or any(_of_both(name).search(c.text) or (asked and _TOGETHER.search(c.text)) for c in sentence):
            found |= {cue.address for cue in sentence if not asks or cue.kind not in _OF_THE_LOOP}
    return found
