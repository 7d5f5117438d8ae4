"""What reading found wrong with a course, told before its first stitch to whoever started anyway."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator

from hookside.pattern import Course, Cue, Finding, Piece

NOT_FOLLOWED = "can't be followed"
# What is wrong in so few words that they can stand on the screen of the round before.
_IN_SHORT = {
    "count": "and its count differ",
    **dict.fromkeys(("left-over", "overrun", "chain", "part-over"), "does not add up"),
}


def doubts(piece: Piece, findings: Iterable[Finding]) -> Iterator[Cue]:
    """A pause before each course of a piece that can't be followed as it is, with the sentence of the read-through.

    It stands behind the course before, behind what the text asks for there.
    """
    wrong: dict[str | None, list[Finding]] = defaultdict(list)
    for found in findings:
        if found.severity == "error":
            wrong[found.course_id].append(found)
    if not wrong:
        return
    before: Course | None = None
    for course in piece.courses:
        if found_here := wrong.get(course.id):
            name = f"{course.kind.title()} {course.label}" if course.label != "0" else f"The first {course.kind}"
            yield Cue(
                address=f"{course.id}/doubt.0",
                after=before.label if before else "0",
                course_id=before.id if before else None,
                kind="other",
                text=f"{name} {_IN_SHORT.get(found_here[0].code, NOT_FOLLOWED)}",
                basis="worked out",
                weight="pause",
                line=course.line,
                advice=" ".join(dict.fromkeys(_bare(found.message) for found in found_here)),
            )
        before = course


def _bare(message: str) -> str:
    """A finding's sentence without the mended lines that it quotes: those are taken where the text is read."""
    sums, quoted, rest = message.partition(' "')
    if not quoted:
        return message
    behind = rest.rpartition('"')[2].partition(". ")[2]
    return f"{sums} {behind}".strip()
