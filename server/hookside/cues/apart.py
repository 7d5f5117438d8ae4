"""Two jobs that were read as one sentence: a tail that stands behind the work which closes an end.

"Fold flat, sc through both 5" and, on the next line, "leave tail for sewing": each waits for itself, and the tail has a
length of its own.
"""

from __future__ import annotations

import re

from hookside.pattern import Cue, Pattern

_KINDS = frozenset({"shape", "other"})
_TAIL = re.compile(
    r"(?P<work>\S.*?)[\s,;.]+(?P<tail>(?:and\s+)?leav(?:e|ing)\b[^.;]*\b(?:tail|end)s?\b.*)", re.IGNORECASE
)


def apart(pattern: Pattern) -> Pattern:
    """A copy of the pattern in which such a tail is a cue of its own, behind the work."""
    pieces = [
        piece.model_copy(update={"cues": [one for cue in piece.cues for one in _each(cue)]})
        if any(len(_each(cue)) > 1 for cue in piece.cues)
        else piece
        for piece in pattern.pieces
    ]
    return pattern.model_copy(update={"pieces": pieces})


def _each(cue: Cue) -> list[Cue]:
    found = _TAIL.fullmatch(cue.text.strip()) if cue.kind in _KINDS and cue.basis == "written" else None
    if found is None:
        return [cue]
    tail = re.sub(r"^and\s+", "", found["tail"], flags=re.IGNORECASE)
    told = {
        "address": f"{cue.address}.tail",
        "kind": "tail",
        "text": f"{tail[:1].upper()}{tail[1:]}",
        "weight": "pause",
    }
    return [cue.model_copy(update={"text": found["work"].rstrip(" ,;")}), cue.model_copy(update=told)]
