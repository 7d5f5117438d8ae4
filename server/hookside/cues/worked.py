"""What was worked out for a pattern: where a job is asked for, and what is said of the line that prints it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from hookside.cues.because import because
from hookside.cues.openings import HAND, Opened
from hookside.pattern import Cue, CueKind, Finding, Weight


@dataclass
class Worked:
    """What was found for a pattern: cues by the number of their piece, printed ones that come too late, notes."""

    cues: dict[int, list[Cue]] = field(default_factory=dict)
    late: dict[str, str] = field(default_factory=dict)  # address of a printed cue -> "round 16"
    findings: list[Finding] = field(default_factory=list)
    advised: dict[str, str] = field(default_factory=dict)  # what is asked with a printed cue, by its address

    def move(self, number: int, piece: Opened, at: int, cue: Cue, weight: Weight) -> None:
        """The designer's own words where they are due; that and why is added, and where they stand in print."""
        course = piece.piece.courses[at]
        moved = {
            "address": self._address(number, f"{course.id}/moved-{cue.kind}"), "after": course.label,
            "course_id": course.id, "at": None, "basis": "worked out", "weight": weight,
            "advice": f"Printed in line {cue.line}. {because('there the inside is out of reach, and here it is not')}",
        }  # fmt: skip
        self.cues.setdefault(number, []).append(cue.model_copy(update=moved))

    def put(self, number: int, piece: Opened, at: int, kind: CueKind, weight: Weight, text: str) -> None:
        """A sentence of ours after a course."""
        course = piece.piece.courses[at]
        self.cues.setdefault(number, []).append(
            Cue(
                address=self._address(number, f"{course.id}/due-{kind}"), after=course.label, course_id=course.id,
                kind=kind, text=text, basis="worked out", weight=weight, line=course.line,
            )
        )  # fmt: skip

    def came_late(self, cue: Cue, piece: Opened, where: str, what: str, shut: bool = True, why: str = "") -> None:
        """The printed cue is only shown, and the read-through says where it is due. `why`: of what is not shut."""
        self.late[cue.address] = where
        name = piece.piece.name or "the piece"
        why = why or (f"when {name} is already shut" if shut else "when a neck lies between")
        self.note(cue, piece, f"{what} here, {why}. You need that at {where}: Hookside asks you there.")

    def note(self, cue: Cue, piece: Opened, message: str) -> None:
        self.findings.append(
            Finding(severity="note", code="printed-late", line=cue.line, piece=piece.piece.name, message=message)
        )

    def _address(self, number: int, stem: str) -> str:
        """The next free address of a piece's cues that begin so: "head.16/due-stuff" -> "head.16/due-stuff.0"."""
        return f"{stem}.{sum(cue.address.startswith(f'{stem}.') for cue in self.cues.get(number, []))}"


def open_after(piece: Opened, at: int) -> float:
    """How wide it stands open after a course, mm; as wide as need be where nobody knows."""
    if at < 0:
        return 0.0
    here = piece.across[at]
    return here if here is not None else HAND


def course_name(piece: Opened, at: int) -> str:
    """As in "round 16"."""
    course = piece.piece.courses[at]
    return f"{course.kind} {course.label}"


def told_of(stem_: str, low: str) -> bool:
    """Whether a text in small letters names a piece, by the stem of its name at a word's beginning."""
    return bool(stem_) and stem_ in low and re.search(rf"\b{re.escape(stem_)}", low) is not None


def stem(name: str) -> str:
    """The word a text calls a piece by elsewhere: "Flippers" -> "flipper"."""
    words = re.findall(r"[a-z]+", name.lower())
    return words[-1].removesuffix("s") if words else ""
