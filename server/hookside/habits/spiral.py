"""Joined rounds worked as a spiral: no slip stitch at the end, no chain at the start, the marker instead.

Only single crochet, unturned, and no designed stripes; a ch 1 that counts becomes a stitch; one slip stitch levels an
open end; places "at the seam" no longer hold (common practice, no source).
"""

from __future__ import annotations

import re
from typing import TypeGuard

from hookside.habits.worked import Worked, groups, listed, named
from hookside.pattern import Course, Cue, Group, Node, Pattern, Piece, Terms
from hookside.stitches import TABLE, full_name, plural

COUNTS = "counts as a stitch"  # as reading says it of a chain that stands for one
FIRST = re.compile(r"(?:same|first|1st)\b.{0,30}$", re.IGNORECASE)
SEAM = re.compile(r"\bseam\b(?! allowance)|\bfrom the join\b|\bat the join\b|\bover the join\b", re.IGNORECASE)
LEVEL = "One slip stitch levels the step where a spiral ends. It is not counted."


def spiralled(piece: Piece, pattern: Pattern) -> Worked:
    """The piece with its joined rounds as a spiral, where that is allowed."""
    joined = [course for course in piece.courses if _is_joined(course)]
    if not joined:
        return Worked(piece)
    why = _why_joined(piece, pattern.terms)
    if why:
        return Worked(piece, stays=[why])
    done = Worked(piece, changes=[named(course) for course in joined])
    last = joined[-1]
    level = last is piece.courses[-1] and _open_end(piece, last)
    courses = [_spiral(course, level and course is last) if _is_joined(course) else course for course in piece.courses]
    cues = [*piece.cues, _levelled(last)] if level else list(piece.cues)
    done.piece = piece.model_copy(update={"courses": courses, "cues": cues})
    told = [text for one in pattern.pieces for text in (*(c.text for c in one.courses), *(c.text for c in one.cues))]
    at_seam = next((text for text in (*told, *pattern.notes) if SEAM.search(text)), "")
    if at_seam:
        done.mind.append(f"A spiral has no seam: count stitches instead where the text says “{at_seam.strip()}”")
    return done


def _is_joined(course: Course) -> bool:
    ends = course.body[-1] if course.body else None
    return (
        course.kind == "round"
        and course.read
        and isinstance(ends, Group)
        and ends.stitch == "join"
        and course.makes != 0
    )


def _why_joined(piece: Piece, terms: Terms) -> str:
    """Why a piece must stay joined, as a sentence; "" where it need not."""
    unread = [named(course) for course in piece.courses if not course.read]
    if unread:
        return f"It stays joined: {listed(unread)} could not be read."
    rows = [course for course in piece.courses if course.kind == "row" and course.makes]
    if rows or any(group.stitch == "turn" for course in piece.courses for group in groups(course.body)):
        return "It stays joined: the work is turned, and a spiral only ever goes on."
    for course in piece.courses:
        other = _not_single(course, terms)
        if other:
            return (
                f"It stays joined: {named(course)} has {other}. Only {full_name(TABLE['sc'], terms)} runs on without a "
                "step that shows."
            )
    if any(group.colour for course in piece.courses for group in groups(course.body)) or any(
        cue.kind == "colour" and cue.after != "0" for cue in piece.cues
    ):
        return "It stays joined: its colours change, and in a spiral stripes would not meet."
    return ""


def _not_single(course: Course, terms: Terms) -> str:
    """What in a course is no single crochet, and has a place in no spiral; "" where there is nothing."""
    inside = list(groups(course.body[:-1] if _is_joined(course) else course.body))
    for group in inside:
        entry = TABLE.get(group.stitch)
        if entry is None:
            return f"“{group.stitch}”"
        if group.makes and group.stitch != "ch" and (entry.of != "sc" or entry.height != 1):
            return plural(full_name(entry, terms))
    first = next((i for i, group in enumerate(inside) if group.makes and group.into != COUNTS), len(inside))
    for group in inside[:first]:
        if group.stitch == "ch" and group.length > 1 and (group.into == COUNTS or course.uses):
            return f"{group.length} chains at its start, as taller stitches have them"
    other = next((group.stitch for group in inside[first:] if not group.makes), None)
    if other is None:
        return ""
    named_so = {"ch": "chains among its stitches", "skip": "stitches passed over", "join": "a join among its stitches"}
    return named_so.get(other) or plural(full_name(TABLE[other], terms))


def _open_end(piece: Piece, last: Course) -> bool:
    """Whether the end of a piece stays open and is fastened off: there one slip stitch levels the step."""
    kinds = {cue.kind for cue in piece.cues if cue.course_id == last.id}
    return "fasten" in kinds and "close" not in kinds


def _spiral(course: Course, level: bool) -> Course:
    """A joined round without its join and its starting chain; a chain that counts is a stitch."""
    body: list[Node] = list(course.body[:-1])
    at = 1 if isinstance(body[0], Group) and body[0].stitch == "ring" else 0
    if at < len(body) and _starting_chain(chain := body[at]):
        body.pop(at)
        if chain.into == COUNTS:
            place = _into(body[at]) if at < len(body) and not chain.uses else None
            body.insert(at, Group(stitch="sc", uses=chain.uses, makes=1, steps=1, into=place))
    body = _merged(body)
    if level:
        body.append(Group(stitch="sl st", uses=0, makes=0, steps=1, into="next st"))
    counted = list(groups(body))
    plain = len(body) == 1 and counted[0].stitch == "sc" and counted[0].uses == 1 and not counted[0].into
    return course.model_copy(update={"body": body, "spiral": True, "plain": course.plain or plain})


def _starting_chain(node: Node) -> TypeGuard[Group]:
    """Whether a node is the chain a joined round begins with, and not a foundation."""
    return isinstance(node, Group) and node.stitch == "ch" and node.length == 1 and node.into in (COUNTS, None)


def _into(node: Node) -> str | None:
    return next((group.into for group in groups([node])), None)


def _merged(body: list[Node]) -> list[Node]:
    """The body with its first stitch as a spiral has it: in the next stitch, not in the place of the join."""
    out: list[Node] = []
    for node in body:
        before = out[-1] if out else None
        if isinstance(node, Group) and node.into and FIRST.match(node.into):
            opened = all(isinstance(one, Group) and not one.uses and not one.makes for one in out)
            if node.uses and opened:
                node = node.model_copy(update={"into": None})
            elif (
                isinstance(before, Group) and before.stitch == node.stitch == "sc" and not node.uses
                and before.uses == before.count == node.count == 1
            ):  # fmt: skip
                out[-1] = Group(stitch="inc", uses=1, makes=2, steps=2)
                continue
        if isinstance(before, Group) and isinstance(node, Group) and _alike(before, node):
            out[-1] = before.model_copy(update={"count": before.count + node.count})
            continue
        out.append(node)
    return out


def _alike(one: Group, other: Group) -> bool:
    if one.stitch in ("ring", "ch", "join"):
        return False
    leave = {"count", "words"}
    return one.model_dump(exclude=leave) == other.model_dump(exclude=leave)


def _levelled(last: Course) -> Cue:
    return Cue(
        address=f"{last.id}/level.0", after=last.label, course_id=last.id, at=last.makes, kind="other", text=LEVEL,
        basis="worked out", weight="whisper", line=last.line,
    )  # fmt: skip
