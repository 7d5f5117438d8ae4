"""Decreases as the maker works them: invisible, through two front loops, or plain, two stitches together.

Invisible only plain single crochet decreases, right side facing, unturned, through both loops, and not where another
round needs those front loops (common practice, no source). Plain is always possible.
"""

from __future__ import annotations

import re
from typing import Literal

from hookside.habits.worked import Worked, groups, listed, named
from hookside.pattern import Node, Pattern, Piece, Repeat

Kind = Literal["plain", "invisible"]

PLAIN = ("dec", "sc2tog")
INVISIBLE = "inv dec"

_LOOPS_OF = re.compile(
    r"\b(?:front|free|unworked|unused|remaining)\s+(?:front\s+)?loops?\s+(?:left\s+)?(?:of|in|from|on)\s+"
    r"(?:the\s+)?(?:rounds?|rnds?|rows?|r)\.?\s*(\d+)",
    re.IGNORECASE,
)


def decreased(piece: Piece, pattern: Pattern, kind: Kind) -> Worked:
    """The piece with its decreases of this kind, where that is allowed."""
    return _plain(piece, pattern) if kind == "plain" else _invisible(piece, pattern)


def _plain(piece: Piece, pattern: Pattern) -> Worked:
    everywhere = [group.stitch for one in pattern.pieces for course in one.courses for group in groups(course.body)]
    key = next((stitch for stitch in everywhere if stitch in PLAIN), PLAIN[0])
    done = Worked(piece)
    courses = []
    for course in piece.courses:
        if any(group.stitch == INVISIBLE for group in groups(course.body)):
            done.changes.append(named(course))
            course = course.model_copy(update={"body": _as(course.body, (INVISIBLE,), key)})
        courses.append(course)
    done.piece = piece.model_copy(update={"courses": courses})
    return done


def _invisible(piece: Piece, pattern: Pattern) -> Worked:
    done = Worked(piece)
    needed = _needed(piece, pattern)
    refused: dict[str, list[str]] = {}
    courses = []
    for index, course in enumerate(piece.courses):
        if any(group.stitch in PLAIN and group.uses == 2 for group in groups(course.body)):
            why = _why_plain(piece, index, needed)
            if why:
                refused.setdefault(why, []).append(named(course))
            else:
                done.changes.append(named(course))
                course = course.model_copy(update={"body": _as(course.body, PLAIN, INVISIBLE)})
        courses.append(course)
    done.stays += [
        f"{listed(where).capitalize()} stay{'s' * (len(where) == 1)} plain: {why}." for why, where in refused.items()
    ]
    done.piece = piece.model_copy(update={"courses": courses})
    return done


def _why_plain(piece: Piece, index: int, needed: frozenset[str]) -> str:
    """Why the decreases of a course must stay plain; "" where they need not."""
    course = piece.courses[index]
    if course.kind == "row":
        return "an invisible decrease shows on the other side of turned rows"
    if _turned(piece, index):
        return "the work is turned there, and an invisible decrease is one on the right side only"
    if any(group.loops for group in groups(course.body)):
        return "it is worked into one loop, and an invisible decrease goes through the front ones"
    following = piece.courses[index + 1] if index + 1 < len(piece.courses) else None
    if following and any(group.loops == "front" for group in groups(following.body)):
        return f"{named(following)} goes into the front loops"
    if course.label in needed or (index and piece.courses[index - 1].label in needed):
        return "its front loops are needed later"
    return ""


def _turned(piece: Piece, index: int) -> bool:
    """Whether the wrong side may face in a course: the work was turned somewhere before its end."""
    before = piece.courses[: index + 1]
    ids = {course.id for course in before[:-1]}
    return any(group.stitch == "turn" for course in before for group in groups(course.body)) or any(
        cue.kind == "turn" and (cue.course_id is None or cue.course_id in ids) for cue in piece.cues
    )


def _needed(piece: Piece, pattern: Pattern) -> frozenset[str]:
    """Labels of the courses whose front loops another course or a job asks for."""
    told: list[str] = [cue.text for one in pattern.pieces for cue in one.cues]
    told += [course.text for one in pattern.pieces for course in one.courses]
    return frozenset(found[1] for text in told for found in _LOOPS_OF.finditer(text))


def _as(body: list[Node], stitches: tuple[str, ...], stitch: str) -> list[Node]:
    """The body with other decreases: what each uses and makes stays as it is."""
    return [
        Repeat(body=_as(node.body, stitches, stitch), times=node.times)
        if isinstance(node, Repeat)
        else node.model_copy(update={"stitch": stitch})
        if node.stitch in stitches and node.uses == 2
        else node
        for node in body
    ]
