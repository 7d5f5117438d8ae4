"""The stitch marker: where a spiral has no seam, it alone tells one round from the next."""

from __future__ import annotations

from hookside.cues.because import because
from hookside.notation.askings.marked import stitches_marked
from hookside.pattern import Cue, Piece


def markers(piece: Piece) -> list[Cue]:
    """A whisper at the start of each round that a spiral runs on into.

    The marker goes into the first stitch of the new round after that stitch is made (common practice, no source).
    Told at the round's end, it lands in the last stitch or on the loop, so the sentence names the first stitch.
    It stands before that stitch, to be said as the round begins. A text that says it itself there is left alone.
    """
    marks = [cue for cue in piece.cues if cue.kind == "marker" and cue.at is None]
    written = {cue.course_id for cue in marks if not stitches_marked(cue.text)}
    found = []
    for before, course in zip(piece.courses, piece.courses[1:], strict=False):
        starts_here = not before.makes  # only a chain lies below: this is the first round
        if not before.spiral or starts_here or course.kind != "round" or before.id in written:
            continue
        found.append(
            Cue(
                address=f"{course.id}/marker.0",
                after=before.label,
                course_id=before.id,
                kind="marker",
                text=f"Work the first stitch of round {course.label}, then put the marker into it.",
                basis="worked out",
                weight="whisper",
                line=course.line,
                advice=because("a spiral has no seam that tells one round from the next"),
            )
        )
    return found
