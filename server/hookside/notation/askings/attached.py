"""What is put to what: "Attach the arm to the body at R7"."""

from __future__ import annotations

import re

from hookside.notation.lines.heads.parts import PARTS
from hookside.pattern import CueKind
from hookside.stitches import singular

_NOUN = re.compile(r"[a-z]{3,}")
_THING = re.compile(
    r"\W{0,4}(?:then |now )*(?:attach|join|sew|stitch|fix)(?: on)? (?:the |your |this |each |both )?"
    r"(?:first |second |other )?(?P<thing>[a-z]{3,12})\b"
)
_WHERE = re.compile(r"\b(?:to|onto|of|on|into) (?:the |its |his |her |your )?(?P<where>[a-z]{3,12})\b")


def of_another(words: str, kind: CueKind, name: str) -> bool:
    """Is the round of "Attach the arm (R7)" in the arm, or of "join to the body at R7", another piece's?"""
    if kind not in ("sew", "join"):
        return False
    own = {singular(word) for word in _NOUN.findall(name.lower())}
    low = words.lower()
    thing = _THING.match(low)
    if thing is not None and singular(thing["thing"]) in own:
        return True
    named = [singular(told["where"]) for told in _WHERE.finditer(low, thing.end() if thing is not None else 0)]
    return any(where in PARTS and where not in own for where in named)


def without_thing(low: str, kind: CueKind) -> str:
    """Such words, in small letters, without the part that is put there: what is left names where it goes."""
    thing = _THING.match(low) if kind in ("sew", "join") else None
    return low[thing.end() :] if thing is not None else low
