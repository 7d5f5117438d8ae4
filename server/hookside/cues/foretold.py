"""Jobs printed ahead of the round they name: "Stuff after round 8." below a heading, "eyes at R6" behind round 3.

What is told so stands at its round, in the designer's own words; where it is printed there is nothing to do yet.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from operator import is_

from hookside.cues.worked import stem, told_of
from hookside.notation.askings.attached import of_another, without_thing
from hookside.notation.askings.marked import stitches_marked
from hookside.notation.askings.when import When, due_at, places, when
from hookside.pattern import Cue, CueKind, Pattern, Piece


def at_their_rounds(pattern: Pattern) -> Pattern:
    """A copy of the pattern in which such a cue stands behind the round that it names, if its piece has one."""
    # "Making up" has no round for a job to be due at, and its name is in "before you close up"
    names = {name for piece in pattern.pieces if piece.courses and (name := stem(piece.name))}
    pieces = [_piece(piece, names - {stem(piece.name)}) if piece.courses else piece for piece in pattern.pieces]
    return pattern.model_copy(update={"pieces": pieces})


def _piece(piece: Piece, others: set[str]) -> Piece:
    place = places(piece.courses)
    staying: list[Cue] = []
    moving: list[tuple[int, Cue]] = []
    filled: int | None = None  # behind which course it is filled first
    for cue in piece.cues:
        due = _due(piece, cue, place[cue.course_id], others)
        if cue.kind == "stuff" and cue.basis == "written" and filled is None:
            filled = due[0] if due else place[cue.course_id]
        elif filled is not None and not due and _too_late(cue):
            _put_before_filling(piece, cue, staying, filled)
            continue
        moving += [(at, cue) for at in due]
        if not due or _begun(piece, cue, place[cue.course_id]):
            staying.append(cue)
    if not moving and len(staying) == len(piece.cues) and all(map(is_, staying, piece.cues)):
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


# "Embroider the cheeks before stuffing.", printed behind the filling
_FIRST = re.compile(
    r"\bbefore (?:(?:you|we) )?(?:stuff|fill)(?:ing)?\b(?! (?:is|it is) (?:done|finished|closed))|"
    r"\bbefore (?:the )?(?:stuffing|filling)\b",
    re.IGNORECASE,
)
_WORKED_IN: tuple[CueKind, ...] = ("eyes", "embroider", "sew", "other", "join")


def _too_late(cue: Cue) -> bool:
    return cue.kind in _WORKED_IN and cue.basis == "written" and cue.at is None and _FIRST.search(cue.text) is not None


def _put_before_filling(piece: Piece, cue: Cue, staying: list[Cue], filled: int) -> None:
    """Puts a cue right in front of the first one that asks for filling."""
    spot = next(at for at, other in enumerate(staying) if other.kind == "stuff")
    course = piece.courses[filled] if filled >= 0 else None
    told: dict[str, str | None] = {"address": f"{cue.address}.first", "after": None, "course_id": None}
    if course is not None:
        told = {"address": f"{course.id}/told-{cue.kind}.first{spot}", "after": course.label, "course_id": course.id}
    staying.insert(spot, cue.model_copy(update=told))


# "Stuff now and again after round 8", "a little here, the rest after R9"
_NOW = re.compile(r"\b(?:now|here|at this point)\b[^.;]*\b(?:after|before|when|once|at the end of)\b", re.IGNORECASE)
_GOES: tuple[CueKind, ...] = ("stuff", "join")  # what is done in several goes, each at a round of its own


def _due(piece: Piece, cue: Cue, here: int, others: set[str]) -> list[int]:
    """The courses behind which a cue is due, by number; none where it is printed at them, behind them or just before
    a place that it names, or where it speaks of another piece. Of several goes those that are still to come."""
    if cue.basis != "written" or cue.at is not None:
        return []
    low = without_thing(cue.text.lower(), cue.kind)  # "Attach the arm (R7)" in the body: where the arm has its round
    if of_another(cue.text, cue.kind, piece.name) or any(told_of(name, low) for name in others):
        return []
    found = _named(piece, cue, here)
    later = [at for told, at in found if at > here + (told.place and here >= 0)]
    if cue.kind == "colour" and found and all(at < here for _, at in found) and _told_late(piece, cue, found[0][1]):
        return [found[0][1]]
    if any(at <= here for _, at in found):
        return [at for at in later if cue.kind in _GOES and not _told_there(piece, cue, at)]
    return later


# "Once Rnd 5 is done, join the oat" behind round 6: it says when, and no sentence tells in it what was done then
_WHEN_DONE = re.compile(
    r"\W*(?:once|when|after|behind|as soon as|at the end of|from|starting|beginning|in|on|with)\b", re.IGNORECASE
)
_WAS = re.compile(r"\b(?:changed|switched|joined|was|were|did|had|should have|already)\b", re.IGNORECASE)


def _told_late(piece: Piece, cue: Cue, at: int) -> bool:
    """Is a change printed behind the course that it begins with its time, where none is told there?"""
    course = piece.courses[at].id if at >= 0 else None
    there = any(other.kind == "colour" and other.course_id == course for other in piece.cues)
    return not there and _WHEN_DONE.match(cue.text) is not None and _WAS.search(cue.text) is None


def _named(piece: Piece, cue: Cue, here: int) -> list[tuple[When, int]]:
    told = [one for one in when(cue.text, cue.kind) if not (one.left or one.ends or one.narrows) or here < 0]
    return [(one, at) for one in told if (at := due_at(piece, one)) is not None]


def _begun(piece: Piece, cue: Cue, here: int) -> bool:
    """Is there something to do where a cue is printed, though it names a later course as well?"""
    if here < 0 or cue.kind not in _GOES:
        return False
    return _NOW.search(cue.text) is not None or any(at <= here for _, at in _named(piece, cue, here))


def _told_there(piece: Piece, cue: Cue, at: int) -> bool:
    """Has every go of a job been put at its course already, as those in the words of a range are?"""
    course = piece.courses[at].id
    return any((other.course_id, other.kind, other.text) == (course, cue.kind, cue.text) for other in piece.cues)
