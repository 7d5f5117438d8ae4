"""What of a heading's rounds is made how often: the upper of two bootees twice, the body on two legs once."""

from __future__ import annotations

import re

from hookside.notation.askings.kinds import classify
from hookside.notation.lines.copies.joined import several
from hookside.notation.lines.layout import RawCourse, RawPiece, RawText

# No piece by itself where its numbers go on from what is made more than once (common practice, no source)
_STRETCH = re.compile(
    r"(?:the )?(?:uppers?|soles?|sides?|walls?|base|bottom|top|brim|rim|edge|edging|cuffs?|toes?|heels?|insteps?|"
    r"border)",
    re.I,
)
# "LEGS (2 pieces), then the BODY"
_THEN = re.compile(r"[,;]? (?:and )?then (?:the |a )?(?P<name>[A-Za-z]{2,}(?: [a-z]+)?)\W*$", re.I)


def parted(pieces: list[RawPiece], text: str) -> list[RawPiece]:
    """The pieces, what is worked on two of a kind apart from these, by its name where their heading tells one."""
    out: list[RawPiece] = []
    for piece in pieces:
        out.append(piece)
        begins = _joins(piece, text) if piece.make > 1 else None
        if begins is None:
            continue
        told = _THEN.search(text[piece.at : piece.at + 200].split("\n", 1)[0])
        rest = RawPiece(told["name"].capitalize() if told else "", 1, piece.items[begins].start, piece.items[begins:])
        rest.headed = told is not None
        rest.copies_of = "" if told else piece.name
        del piece.items[begins:]
        out.append(rest)
    return out


def _joins(piece: RawPiece, text: str) -> int | None:
    """Where the rounds of a part begin to go over two copies of it, with what is told of joining them before."""
    courses = [at for at, item in enumerate(piece.items) if isinstance(item, RawCourse) and not item.foundation]
    for at in courses[1:]:
        if several(text[piece.items[at].start : piece.items[at].end]):
            while isinstance(above := piece.items[at - 1], RawText):
                if classify(text[above.start : above.end]) != "join":
                    break
                at -= 1
            return at
    return None


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
