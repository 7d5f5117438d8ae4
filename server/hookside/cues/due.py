"""Where a cue is due, as against where it is printed."""

from __future__ import annotations

from hookside.cues.loops import loop_changes
from hookside.pattern import Cue, Pattern, Piece
from hookside.words import in_last_stitch, in_the_join


def complete(pattern: Pattern) -> Pattern:
    """A copy of the pattern with each cue where it is due, and a pause where the loops change.

    Moved so far is what is certain: a change of colour "in the last stitch" of a course, printed after that course,
    is due before its last stitch is made, and one "in the joining slip stitch" before the join. That stitch is finished
    with the new colour (common practice, no source).
    """
    return pattern.model_copy(update={"pieces": [_piece(piece) for piece in pattern.pieces]})


def _piece(piece: Piece) -> Piece:
    makes = {course.id: course.makes for course in piece.courses if course.read}
    cues = [_in_time(cue, makes.get(cue.course_id or "")) for cue in piece.cues]
    cues += loop_changes(piece)
    return piece if cues == piece.cues else piece.model_copy(update={"cues": cues})


def _in_time(cue: Cue, made: int | None) -> Cue:
    if cue.kind != "colour" or cue.at is not None or not made:
        return cue
    if in_the_join(cue.text):
        return cue.model_copy(update={"at": made})
    return cue.model_copy(update={"at": made - 1}) if in_last_stitch(cue.text) else cue
