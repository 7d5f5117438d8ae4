"""Round or row, where the words of the labels and the work itself disagree."""

from __future__ import annotations

from hookside.notation.courses.waiting import Parsed, Waiting, lead_chain
from hookside.notation.labels.label import CourseKind
from hookside.notation.lines.layout import RawText
from hookside.notation.trees.asked import every
from hookside.notation.trees.nodes import PLACED, WORKING, Mark, Work

_TIP = 3  # stitches in the last chain that turn the corner to its other side


def _marks(parsed: Parsed) -> set[str]:
    return {n.name for n in every(parsed.tree) if isinstance(n, Mark)}


def _closed(parsed: Parsed) -> bool:
    """Does it begin in a ring, or go along both sides of a chain?"""
    nodes = every(parsed.tree)
    if _marks(parsed) & {"ring", "closed ring", "other side"}:
        return True
    ringed = any(isinstance(n, WORKING) and n.base == "ring" for n in nodes)
    works = [n for n in nodes if isinstance(n, Work)]
    hooked = any(n.base == "hook" for n in works)
    return ringed or (hooked and any(n.tip and n.per >= _TIP for n in works))


def _turned(parsed: Parsed) -> bool:
    """Does it turn, or begin with a chain as rows do without saying that they are turned?"""
    marks = _marks(parsed)
    return "turn" in marks or (lead_chain(parsed.tree.items) > 0 and "join" not in marks)


def kind_by_work(waiting: list[Waiting | RawText], spelled: bool) -> CourseKind | None:
    """What the courses of a piece are by how they are worked; None where that says nothing else than their labels.

    Machines and some tongues have one word for both, so that a ring comes with "Row 1": all around and never turned
    it is worked in rounds. A lone strip along a chain and back is a row, whatever it is called; so are several of them
    that are never joined, where no label spells that they are rounds (`spelled`).
    """
    courses = [t for t in waiting if isinstance(t, Waiting) and not t.foundation]
    bodies = [t.parsed for t in courses if t.parsed is not None]
    if not bodies or len(bodies) < len(courses):
        return None
    if len(courses) > 1 and all(t.kind == "row" for t in courses):
        return "round" if _closed(bodies[0]) and not any(_turned(b) for b in bodies[1:]) else None
    if len(courses) > 1 and not spelled and all(t.kind == "round" for t in courses):
        hooked = any(isinstance(n, Work) and n.base == "hook" and n.per == 1 for n in every(bodies[0].tree))
        flat = hooked and not _closed(bodies[0]) and not any("join" in _marks(b) for b in bodies)
        return "row" if flat else None
    if len(courses) == 1 and courses[0].kind == "round":
        hooked = any(isinstance(n, PLACED) and n.base == "hook" for n in every(bodies[0].tree))
        return "row" if hooked and not _closed(bodies[0]) and "join" not in _marks(bodies[0]) else None
    return None
