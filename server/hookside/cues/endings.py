"""What becomes of the loop when a piece is done, where the text does not say: asked, never worked out."""

from __future__ import annotations

import re

from hookside.cues.because import because
from hookside.cues.tails import sewing
from hookside.pattern import Cue, Pattern, Piece
from hookside.shape.gauge import Gauge

_SAID = frozenset({"fasten", "close", "hold", "join", "tail"})
# "Sew the opening shut" ends it; "sew the beak on" says nothing of this loop.
_SHUT = re.compile(r"\b(?:shut|closed?|up|hole|opening|gap|edges|together)\b", re.IGNORECASE)
_LOOP = re.compile(r"\bleav(?:e|ing)\b[^.;]*\b(?:tail|end)s?\b|\bfasten(?:ing)? off\b|\bcut the yarn\b", re.IGNORECASE)


def endings(pattern: Pattern, gauge: Gauge) -> dict[int, Cue]:
    """A stop for each piece whose last course no word about its loop follows, by the number of the piece.

    A cut is never worked out: the next part may start from this very loop.
    """
    told_for_all = any(cue.kind == "fasten" for piece in pattern.pieces if not piece.courses for cue in piece.cues)
    found = {}
    for number, piece in enumerate(pattern.pieces):
        if not piece.courses or told_for_all or _told(piece):
            continue
        after = next((p for p in pattern.pieces[number + 1 :] if p.courses), None)
        if after is not None and (after.courses[0].uses or 0) > 0:
            continue  # the next part says itself that it goes on from here
        last = piece.courses[-1]
        found[number] = Cue(
            address=f"{last.id}/loop.0",
            after=last.label,
            course_id=last.id,
            kind="other",
            text="Keep this loop, or cut the yarn?",
            advice=(
                f"{because('the text does not say')} Does the next part start from it? Then keep it, with a marker in "
                f"it. If not, cut and leave a tail: {sewing(last.makes or 0, gauge)} cm to sew this piece on, 20 to "
                "close a hole."
            ),
            basis="worked out",
            weight="stop",
            line=last.line,
        )
    return found


def _told(piece: Piece) -> bool:
    last = piece.courses[-1].id
    here = [cue for cue in piece.cues if cue.course_id == last]
    return any(
        cue.kind in _SAID or (cue.kind == "sew" and _SHUT.search(cue.text)) or _LOOP.search(cue.text) for cue in here
    )


def with_ending(cues: list[Cue], asked: Cue) -> list[Cue]:
    """The question among the cues of its piece: before what is sewn behind its last course, else last."""
    at = next((i for i, cue in enumerate(cues) if cue.kind == "sew" and cue.course_id == asked.course_id), len(cues))
    return [*cues[:at], asked, *cues[at:]]
