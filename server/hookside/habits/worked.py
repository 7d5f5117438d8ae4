"""A piece as one habit leaves it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from hookside.pattern import Course, Group, Node, Piece


@dataclass(slots=True)
class Worked:
    """`changes`: courses worked otherwise, "round 5". `stays`, `mind`: sentences, see Allowed."""

    piece: Piece
    changes: list[str] = field(default_factory=list)
    stays: list[str] = field(default_factory=list)
    mind: list[str] = field(default_factory=list)


def groups(body: list[Node]) -> Iterator[Group]:
    """Every group of a body, each once."""
    for node in body:
        if isinstance(node, Group):
            yield node
        else:
            yield from groups(node.body)


def named(course: Course) -> str:
    """ "round 5" """
    return f"{course.kind} {course.label}"


def listed(names: list[str]) -> str:
    """ "round 5", "rounds 5 and 6", "rounds 5, 7 to 9 and 12": courses of one kind, as `named` names them."""
    if len(names) == 1:
        return names[0]
    kind = names[0].partition(" ")[0]
    parts = _runs([name.partition(" ")[2] for name in names])
    return f"{kind}s {', '.join(parts[:-1])} and {parts[-1]}" if len(parts) > 1 else f"{kind}s {parts[0]}"


def _runs(labels: list[str]) -> list[str]:
    """Labels with three or more that follow on one another as "7 to 9"."""
    parts: list[list[str]] = []
    for label in labels:
        last = parts[-1][-1] if parts else ""
        if last.isdecimal() and label.isdecimal() and int(label) == int(last) + 1:
            parts[-1].append(label)
        else:
            parts.append([label])
    return [name for run in parts for name in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else run)]
