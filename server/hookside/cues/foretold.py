"""Jobs printed ahead of the round they name: "Stuff after round 8." below a heading, "eyes at R6" behind round 3.

What is told so stands at its round, in the designer's own words; where it is printed there is nothing to do yet.
"""

from __future__ import annotations

from bisect import bisect_right

from hookside.cues.worked import stem, told_of
from hookside.notation.askings.marked import stitches_marked
from hookside.notation.askings.when import due_at, places, when
from hookside.pattern import Cue, Pattern, Piece


def at_their_rounds(pattern: Pattern) -> Pattern:
    """A copy of the pattern in which such a cue stands behind the round that it names, if its piece has one."""
    names = {name for piece in pattern.pieces if (name := stem(piece.name))}
    pieces = [_piece(piece, names - {stem(piece.name)}) if piece.courses else piece for piece in pattern.pieces]
    return pattern.model_copy(update={"pieces": pieces})


def _piece(piece: Piece, others: set[str]) -> Piece:
    place = places(piece.courses)
    staying: list[Cue] = []
    moving: list[tuple[int, Cue]] = []
    for cue in piece.cues:
        due = _due(piece, cue, place[cue.course_id], others)
        moving += [(at, cue) for at in due]
        if not due:
            staying.append(cue)
    if not moving:
        return piece
    for number, (at, cue) in enumerate(moving):
        course = piece.courses[at]
        told = {"address": f"{course.id}/told-{cue.kind}.{number}", "after": course.label, "course_id": course.id}
        spot = bisect_right([place[other.course_id] for other in staying], at)
        marked = [n for n in stitches_marked(cue.text) if n <= (course.makes or 0)] if cue.kind == "marker" else []
        for n in marked:  # "In round 8 put a marker in stitch 15": behind that stitch
            inside = {**told, "address": f"{told['address']}.{n}", "at": n}
            staying.insert(spot, cue.model_copy(update=inside))
        if not marked:
            staying.insert(spot, cue.model_copy(update=told))
    return piece.model_copy(update={"cues": staying})


def _due(piece: Piece, cue: Cue, here: int, others: set[str]) -> list[int]:
    """The courses behind which a cue is due, by number; none where it is printed at them, behind them or just before
    a place that it names, or where it speaks of another piece."""
    if cue.basis != "written" or cue.at is not None:
        return []
    low = cue.text.lower()
    if any(told_of(name, low) for name in others):
        return []
    found = [(told, due_at(piece, told)) for told in when(cue.text, cue.kind) if not told.left or here < 0]
    if any(at is not None and at <= here for _, at in found):
        return []
    return [at for told, at in found if at is not None and at > here + (told.place and here >= 0)]
