"""A number in the bracket of a heading that may be the stitches a part begins with, and no copies: "Ears (12)" above
"Dec x 6"."""

from __future__ import annotations

import re

from hookside.pattern import Piece, groups

_FEWEST = 5  # copies that are more than what comes in pairs, legs or wheels
_BARE = re.compile(r"[(\[]\s*(?P<n>\d{1,3})\s*[)\]]\W*$", re.M)
_LONGEST = 120  # letters of a heading


def begins_with(text: str, at: int, piece: Piece, bottomless: bool) -> bool:
    """Does the bracket of its heading, at text[at:], tell as many as the first course of the piece is worked on, or
    makes of nothing?

    Where that course has a ring or a chain of its own, it begins by itself, and the bracket tells copies."""
    above = text.rfind("\n", 0, max(0, text.rfind("\n", 0, at)))  # a title stands there, and no heading at it
    told = _BARE.search(text, max(above + 1, at - _LONGEST), at + _LONGEST)
    first = piece.courses[0] if piece.courses else None
    if told is None or first is None or piece.make < _FEWEST or int(told["n"]) != piece.make:
        return False
    if not first.read:
        return first.uses is None
    if any(g.into is not None or g.stitch in ("ring", "ch") for g in groups(first.body)):
        return False
    return bottomless or first.makes == piece.make
