"""What of a heading's rounds is made how often: the upper of two bootees twice, the body on two legs once."""

from __future__ import annotations

import re

from hookside.notation.lines.layout import RawCourse, RawPiece

# No piece by itself where its numbers go on from what is made more than once (common practice, no source)
_STRETCH = re.compile(
    r"(?:the )?(?:uppers?|soles?|sides?|walls?|base|bottom|top|brim|rim|edge|edging|cuffs?|toes?|heels?|insteps?|"
    r"border)",
    re.I,
)
# "LEGS (2 pieces), then the BODY"
_THEN = re.compile(r"[,;]? (?:and )?then (?:the |a )?(?P<name>[A-Za-z]{2,}(?: [a-z]+)?)\W*$", re.I)
# "from the second leg 3 ch, 14 sc along the first leg": both are in hand
_BOTH = re.compile(
    r"\b(?:first|1st|second|2nd|other) (?P<part>[a-z]+)\b.*\b(?:first|1st|second|2nd|other) (?P=part)\b", re.I
)


def parted(pieces: list[RawPiece], text: str) -> list[RawPiece]:
    """The pieces, what is worked on two of a kind apart from these where their heading names it."""
    out: list[RawPiece] = []
    for piece in pieces:
        out.append(piece)
        told = _THEN.search(text[piece.at : piece.at + 200].split("\n", 1)[0]) if piece.make > 1 else None
        if told is None:
            continue
        for at, item in enumerate(piece.items):
            if at and isinstance(item, RawCourse) and item.label and _BOTH.search(text, item.start, item.end):
                rest = RawPiece(told["name"].capitalize(), 1, item.label.start, piece.items[at:])
                del piece.items[at:]
                out.append(rest)
                break
    return out


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
