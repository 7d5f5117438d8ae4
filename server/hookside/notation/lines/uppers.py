"""A stretch of a piece under a name of its own: the upper of bootees, of which two are made."""

from __future__ import annotations

import re

from hookside.notation.lines.layout import RawCourse, RawPiece

# No piece by itself where its numbers go on from what is made more than once (common practice, no source)
_STRETCH = re.compile(
    r"(?:the )?(?:uppers?|soles?|sides?|walls?|base|bottom|top|brim|rim|edge|edging|cuffs?|toes?|heels?|insteps?|"
    r"border)",
    re.I,
)


def joined(pieces: list[RawPiece]) -> list[RawPiece]:
    """The pieces, each stretch with the rounds that its numbers go on from, and so as often as these."""
    out: list[RawPiece] = []
    for piece in pieces:
        before = out[-1] if out else None
        if before is not None and before.make > 1 and piece.make == 1 and _STRETCH.fullmatch(piece.name.strip(" .:")):
            first = next((n for n in _numbers(piece)), None)
            last = max(_numbers(before), default=None)
            if first is not None and last is not None and first == last + 1:
                before.items.extend(piece.items)
                continue
        out.append(piece)
    return out


def _numbers(piece: RawPiece) -> list[int]:
    labels = [i.label for i in piece.items if isinstance(i, RawCourse) and i.label is not None]
    return [n for label in labels for n in label.numbers]
