"""Parts that go on in one another: two legs that become a body, a body that becomes a head."""

from __future__ import annotations

import re

from hookside.pattern import Pattern, Piece
from hookside.shape.fabric import groups

_ENDS = frozenset({"fasten", "close", "sew"})


def goes_on_from(pattern: Pattern) -> dict[int, list[int]]:
    """For each piece whose first round is worked into other pieces: their numbers, as far as the text tells.

    Told by their names in that round, or by the loop that the piece before it keeps. A piece that begins in a ring or
    on a chain of its own goes on from none.
    """
    found: dict[int, list[int]] = {}
    for number, piece in enumerate(pattern.pieces):
        before = [n for n in range(number) if pattern.pieces[n].courses]
        if not before or not piece.courses or _begins_anew(piece):
            continue
        named = [n for n in before if _named(pattern.pieces[n].name, piece)]
        if named:
            found[number] = named
        elif (piece.courses[0].uses or 0) > 0 and not _ended(pattern.pieces[before[-1]]):
            found[number] = before[-1:]
    return found


def _begins_anew(piece: Piece) -> bool:
    return any(group.stitch == "ring" or group.into == "ring" for group, _ in groups(piece.courses[0].body))


def _named(name: str, piece: Piece) -> bool:
    """Whether the first round, or what is said before it, speaks of a piece."""
    words = re.findall(r"[a-z]+", name.lower())
    if not words:
        return False
    noun = words[-1].removesuffix("s")
    told = [piece.courses[0].text, *(cue.text for cue in piece.cues if cue.course_id is None)]
    said = [low for line in told if noun in (low := line.lower())]
    return any(re.search(rf"\b{noun}s?\b", low) for low in said)


def _ended(piece: Piece) -> bool:
    last = piece.courses[-1].id
    return any(cue.kind in _ENDS and cue.course_id == last for cue in piece.cues)
