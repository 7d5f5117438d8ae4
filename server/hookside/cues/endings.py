"""What becomes of the loop when a piece is done, where the text does not say: asked, never worked out."""

from __future__ import annotations

from hookside.cues.tails import sewing
from hookside.pattern import Cue, Pattern, Piece
from hookside.shape.gauge import Gauge

_SAID = frozenset({"fasten", "close", "hold", "join", "sew", "tail"})


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
                "The text does not say. Does the next part start from it? Then keep it, with a marker in it. If not, "
                f"cut and leave a tail: {sewing(last.makes or 0, gauge)} cm to sew this piece on, 20 to close a hole."
            ),
            basis="worked out",
            weight="stop",
            line=last.line,
        )
    return found


def _told(piece: Piece) -> bool:
    last = piece.courses[-1].id
    return any(cue.kind in _SAID and cue.course_id == last for cue in piece.cues)
