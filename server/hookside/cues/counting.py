"""When to count: as a piece begins, after every course that shapes, and before stuffing hides what is wrong."""

from __future__ import annotations

from hookside.cues.because import because
from hookside.pattern import Cue, Group, Piece

FIRST = 3
HOW = " Count the Vs, not the loop on the hook."  # said once, at the first course
SHUT = " Then draw the ring shut."


def counts(piece: Piece) -> list[Cue]:
    """A whisper after each of the first three courses, of each that makes another number than it uses, and of each
    behind which it is stuffed (common practice, no source). A course whose count the text has the maker check already
    is left alone. Which of them a maker whose counts agree still needs the page decides: it knows what she counted."""
    shapes = [course.read and course.uses != course.makes for course in piece.courses]
    stuffed = {cue.course_id for cue in piece.cues if cue.kind == "stuff" and cue.weight == "stop" and cue.at is None}
    written = {cue.course_id for cue in piece.cues if cue.kind == "count"}
    ring = bool(piece.courses) and any(
        isinstance(node, Group) and node.stitch == "ring" for node in piece.courses[0].body
    )
    told = HOW + SHUT * ring
    found: list[Cue] = []
    for index, course in enumerate(piece.courses[:-1]):
        made = course.makes
        if not course.read or not made or course.id in written:
            continue
        if index < FIRST:
            why = "a slip is found soonest while the piece is small"
        elif course.id in stuffed:
            why = "stuffing hides a slip"
        elif shapes[index]:
            why = f"this {course.kind} shapes: it makes {made} of {course.uses}"
        else:
            continue
        found.append(
            Cue(
                address=f"{course.id}/count.0", after=course.label, course_id=course.id, kind="count",
                text=f"Count now: {made} in {course.kind} {course.label}." + told * (index == 0),
                basis="worked out", weight="whisper", line=course.line, advice=because(why),
            )
        )  # fmt: skip
    return found
