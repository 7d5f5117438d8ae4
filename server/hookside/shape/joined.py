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
    before: dict[str, list[int]] = {}  # pieces so far, by the noun of their names
    last: int | None = None
    for number, piece in enumerate(pattern.pieces):
        if not piece.courses:
            continue
        if last is not None and not _begins_anew(piece):
            named = sorted(n for noun in _told(piece) for n in before.get(noun, ()))
            if named:
                found[number] = named
            elif (piece.courses[0].uses or 0) > 0 and not _ended(pattern.pieces[last]):
                found[number] = [last]
        last = number
        noun = _noun(piece.name)
        if noun:
            before.setdefault(noun, []).append(number)
    return found


def _begins_anew(piece: Piece) -> bool:
    return any(group.stitch == "ring" or group.into == "ring" for group, _ in groups(piece.courses[0].body))


def _noun(name: str) -> str:
    """ "Left legs" -> "leg"; empty where there is none."""
    words = re.findall(r"[a-z]+", name.lower())
    return words[-1].removesuffix("s") if words else ""


def _told(piece: Piece) -> set[str]:
    """The words of the first round and of what is said before it, each as it is and for one of several."""
    told = [piece.courses[0].text, *(cue.text for cue in piece.cues if cue.course_id is None)]
    words = {word for line in told for word in re.findall(r"\w+", line.lower())}
    return words | {word.removesuffix("s") for word in words}


def _ended(piece: Piece) -> bool:
    last = piece.courses[-1].id
    return any(cue.kind in _ENDS and cue.course_id == last for cue in piece.cues)
