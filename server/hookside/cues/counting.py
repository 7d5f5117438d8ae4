"""When to count: after the first three rounds, and after the rounds that shape until three of those are done."""

from __future__ import annotations

from hookside.pattern import Cue, Piece

FIRST = 3
SHAPED = 3
HOW = " Count the Vs, not the loop on the hook."  # said once, at the first course


def counts(piece: Piece) -> list[Cue]:
    """A whisper after each of the first three courses and of the next three that make another number than they use
    (common practice, no source). A course whose count the text has the maker check already is left alone."""
    written = {cue.course_id for cue in piece.cues if cue.kind == "count"}
    found: list[Cue] = []
    shaped = 0
    for index, course in enumerate(piece.courses[:-1]):
        made = course.makes
        if not course.read or not made or course.id in written:
            continue
        if index >= FIRST:
            if course.uses == made or shaped >= SHAPED:
                continue
            shaped += 1
        found.append(
            Cue(
                address=f"{course.id}/count.0", after=course.label, course_id=course.id, kind="count",
                text=f"Count now: {made} in {course.kind} {course.label}." + HOW * (index == 0),
                basis="worked out", weight="whisper", line=course.line,
            )
        )  # fmt: skip
    return found
