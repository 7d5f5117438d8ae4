"""Which loops a course is worked through: a change is easily missed and hard to see once it is covered."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Literal

from hookside.cues.because import because
from hookside.pattern import Course, Cue, Node, Piece, Repeat

Loops = Literal["back", "front", "both"]

WHICH = {"back": "the back loops alone", "front": "the front loops alone", "both": "both loops"}
_SAYS_IT = re.compile(r"\bloops?\b|\b[bf]lo\b", re.IGNORECASE)


def loop_changes(piece: Piece) -> list[Cue]:
    """A pause before each course whose loops are not those of the course before, and before the first one that is
    worked through both again.

    Only whole courses count: a single stitch through one loop is said by its own words. A course of several kinds, or
    one that could not be read, says nothing, and the next is held against the last course that did. A text that says
    it itself there is left alone.
    """
    written = {cue.course_id for cue in piece.cues if cue.at is None and _SAYS_IT.search(cue.text)}
    found: list[Cue] = []
    loops: Loops = "both"
    for index, course in enumerate(piece.courses):
        here = loops_of(course)
        if here is None:
            continue
        before = piece.courses[index - 1] if index else None
        if here != loops and before is not None and before.id not in written:
            stays = index + 1 < len(piece.courses) and loops_of(piece.courses[index + 1]) == here
            found.append(_said(before, course, here, stays))
        loops = here
    return found


def loops_of(course: Course) -> Loops | None:
    """The loops all stitches of a course go through; None where they differ, or where nothing below has loops."""
    if not course.read or not course.uses:
        return None
    kinds = set(_loops(course.body))
    return kinds.pop() if len(kinds) == 1 else None


def _loops(body: list[Node]) -> Iterator[Loops]:
    for node in body:
        if isinstance(node, Repeat):
            yield from _loops(node.body)
        elif node.makes and node.uses and node.stitch != "ch":
            yield node.loops or "both"


def _said(before: Course, course: Course, loops: Loops, stays: bool) -> Cue:
    if loops == "both":
        text = "Both loops again."
    elif stays:
        text = f"{loops.capitalize()} loops only from here on."
    else:
        text = f"{loops.capitalize()} loops only in this {course.kind}."
    return Cue(
        address=f"{course.id}/loops.0",
        after=before.label,
        course_id=before.id,
        kind="other",
        text=text,
        basis="worked out",
        weight="pause",
        line=course.line,
        advice=because(f"{course.kind} {course.label} goes through {WHICH[loops]}, and the one before it did not"),
    )
