"""Stitches that go one into one, in use everywhere and in no list of ours: loop stitch, fur stitch, waistcoat stitch.

A text that does not explain them is taken at their name: one stitch used and one made.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookside.notation.sought import Sought

_KINDS = ("loop", "lp", "fur", "waistcoat", "herringbone", "camel", "astrakhan", "linked")
# "loop stitch in next 8", "10 fur sts"; not "the loop stitches make the mane"
_WORKED = Sought(
    tuple(f"{kind}{sign}st" for kind in _KINDS for sign in " -"),
    rf"\b(?P<kind>{'|'.join(_KINDS)})[ -]st(?:s|itch(?:es)?)?\b"
    r"(?=\.? (?:in(?:to)?|across|all|around|round|to|every|each|for|x|\d|until)\b|[ ]?[,;)\]*(\[]|\.?[ ]?$)",
    re.I | re.M,
)


def unlisted(text: str) -> Iterator[tuple[str, int, int]]:
    """The kind of each such stitch that is worked, and where it stands first."""
    seen: set[str] = set()
    for match in _WORKED.finditer(text):
        kind = match["kind"].lower().replace("lp", "loop")
        if kind not in seen:
            seen.add(kind)
            yield kind, match.start(), match.end()


def dresses(kind: str) -> list[str]:
    """How its name is printed: "loop stitch", "loop sts", "lp st"."""
    kinds = [kind, "lp"] if kind == "loop" else [kind]
    return [f"{one} {noun}" for one in kinds for noun in ("stitch", "stitches", "st", "sts")]
