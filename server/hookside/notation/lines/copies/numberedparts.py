"""Numbers behind a name that count the parts and no copies: "Fin - 1", "Fin - 2", "Fin - 3", "Leg (1)", "Leg (2)"."""

from __future__ import annotations

import re
from itertools import groupby

from hookside.notation.lines.layout import RawCourse, RawPiece

# No word beside the number says how many are made
_NUMBER = re.compile(
    r"[^\W\d][^\d\n]{0,40}?(?: ?[-:\u2013\u2014] ?| ?[(\[] ?| x ?)(?P<n>\d{1,2}) ?[)\]]?[ .:]{0,3}$"
)
_HOW_MANY = re.compile(r"\b(?:mak|mad|need|piece|pcs|cop|set|pair|crochet|work)", re.I)
_LONGEST = 60  # letters of such a heading


def numbered_parts(pieces: list[RawPiece], text: str) -> list[RawPiece]:
    """Gives parts of one name that are numbered from one their numbers, each made once; those it was done for."""
    found: list[RawPiece] = []
    for _, several in groupby(pieces, key=lambda piece: piece.name.lower() if piece.headed else ""):
        alike = list(several)
        if len(alike) < 2 or not _worked(alike[0]) or [p.make for p in alike] != list(range(1, len(alike) + 1)):
            continue
        if all(_number(p, text) == n for n, p in enumerate(alike, 1)):
            for n, piece in enumerate(alike, 1):
                piece.name, piece.make = f"{piece.name} {n}", 1
            found.extend(alike)
    return found


def _number(piece: RawPiece, text: str) -> int:
    end = text.find("\n", piece.at)
    line = text[piece.at : min(end if end >= 0 else len(text), piece.at + _LONGEST)]
    told = _NUMBER.search(line.strip()) if any(c.isdecimal() for c in line) else None
    return int(told["n"]) if told is not None and _HOW_MANY.search(line) is None else 0


def _worked(piece: RawPiece) -> bool:
    return any(isinstance(item, RawCourse) for item in piece.items)
