"""Copies of one piece each of its own color or sort: "One brown, one white", "Work 2 like this, then a third in grey",
"2 outer, 2 inner"."""

from __future__ import annotations

import re

from hookside.colours import COLOURS
from hookside.notation.lines import sorts
from hookside.pattern import Cue, Piece

_NUMBERS = {"the other": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_SOME = re.compile(
    rf"\b(?P<n>{'|'.join(_NUMBERS)}|\d)x? (?:in |of |with )?(?:the )?(?:yarn )?"
    r"(?P<shade>[a-z]+(?: [a-z]+){0,2}?)(?: yarn)?(?=\s*(?:[,;/&+.]|\band\b|$))",
    re.IGNORECASE,
)
_LAST = re.compile(
    r"\b(?:like this|alike)\b.*\b(?:second|third|fourth|more|other|another)(?: one)? (?:in|with|of) "
    r"(?P<shade>[a-z]+(?: [a-z]+){0,2})\W*$",
    re.IGNORECASE,
)


def in_its_shade(piece: Piece, own: int) -> Piece:
    """The piece as its copy `own` is begun, where one line tells of all copies what each is; else the piece itself."""
    kept: list[Cue] = []
    for cue in piece.cues:
        shades = _shades(cue.text, piece.make) if cue.kind == "colour" and cue.after == "0" else []
        each = _sorts(cue.text, piece.make) if cue.kind in ("colour", "other") and cue.after == "0" else []
        if cue.kind == "other" and each:
            kept.append(cue.model_copy(update={"text": f"This one: {each[own - 1]}"}))
        elif not (shades := each or shades):
            kept.append(cue)
        elif shade := shades[own - 1]:
            kept.append(cue.model_copy(update={"text": shade[:1].upper() + shade[1:]}))
    return piece if kept == piece.cues else piece.model_copy(update={"cues": kept})


def _sorts(text: str, make: int) -> list[str]:
    """The sort of each copy; [] where the line does not tell as many as there are."""
    told = sorts.told(text)
    each = sorts.of_copies(told) if told is not None else []
    return each if len(each) == make else []


def _shades(text: str, make: int) -> list[str]:
    """The colour of each copy, "" where none is told; [] where the line does not tell them one by one."""
    last = _LAST.search(text)
    if last is not None and _is_shade(last["shade"]):
        return ["" for _ in range(make - 1)] + [last["shade"]]
    found = [(m["n"].lower(), m["shade"]) for m in _SOME.finditer(text) if _is_shade(m["shade"])]
    shades = [shade for n, shade in found for _ in range(_NUMBERS.get(n) or int(n))]
    return shades if len(found) > 1 and len(shades) == make else []


def _is_shade(name: str) -> bool:
    return name.lower().split()[-1] in COLOURS or (len(name) == 1 and name.isupper())
