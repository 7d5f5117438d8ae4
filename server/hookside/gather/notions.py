"""The small things: what their names are in a list, and which jobs ask for them.

Which job asks for what: common practice, no source.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.pattern import Cue, CueKind, Piece
from hookside.unstuffed import NOT_STUFFED

NEEDLEWORK = re.compile(r"\bembroider|\bstitch(?:ed)? the eyes|\bsew the eyes|\bsatin stitch|\bfrench knots?", re.I)
_CUT = re.compile(r"\bcut|\bfasten(?:ed)? off|\bbreak (?:off )?(?:the )?yarn|\bsnip|\btrim", re.I)
THREAD = re.compile(
    r"\bembroidery\b|\bfloss\b|\byarn for (?:the )?(?:face|eyes|nose|mouth|details)",
    re.I,
)


@dataclass(frozen=True, slots=True)
class Notion:
    """One small thing. `names`: how a list names it. `kinds`: the jobs that ask for it."""

    id: str
    name: str
    names: re.Pattern[str]
    kinds: tuple[CueKind, ...] = ()

    def asked_by(self, cue: Cue) -> bool:
        """Whether a job asks for it. What is only asked back ("is the tail inside?") asks for nothing."""
        if cue.kind not in self.kinds or (cue.weight == "whisper" and cue.basis == "worked out"):
            return False
        match self.id:
            case "eyes":  # one that is only shown where it is printed is asked for elsewhere
                return cue.weight != "whisper" and not NEEDLEWORK.search(cue.text)
            case "thread":
                return cue.kind == "embroider" or bool(NEEDLEWORK.search(cue.text))
            case "stuffing":
                return not NOT_STUFFED.search(cue.text)
            case "scissors":
                return cue.kind == "fasten" or bool(_CUT.search(cue.text))
            case _:
                return True


NOTIONS = (
    Notion("thread", "yarn or thread to embroider with", THREAD, ("embroider", "eyes")),
    Notion("eyes", "eyes", re.compile(r"\beyes?\b", re.I), ("eyes",)),
    Notion(
        "stuffing",
        "stuffing",
        re.compile(r"\bstuffing|\bfib(?:re|er)\s?-?fill|\bpoly-?fill|\btoy filling|\bfilling\b|\bwadding", re.I),
        ("stuff",),
    ),
    Notion("needle", "yarn needle", re.compile(r"\bneedles?\b", re.I), ("sew", "weave", "close", "embroider")),
    Notion("marker", "stitch marker", re.compile(r"\bmarkers?\b|\bsafety pins?\b", re.I), ("marker", "hold")),
    Notion("pins", "pins", re.compile(r"\bpins?\b", re.I), ("pin",)),
    Notion("scissors", "scissors", re.compile(r"\bscissors\b|\bsnips\b", re.I), ("fasten", "colour", "close", "tail")),
)


def asks(notion: Notion, pieces: list[Piece]) -> tuple[Piece, Cue] | None:
    """The first job of a pattern that asks for a notion."""
    return next(((piece, cue) for piece in pieces for cue in piece.cues if notion.asked_by(cue)), None)


def spiral(pieces: list[Piece]) -> tuple[Piece, str] | None:
    """The first piece that is worked in a spiral, and the round from which on a marker is needed; None without one."""
    for piece in pieces:
        for before, course in zip(piece.courses, piece.courses[1:], strict=False):
            if before.spiral and before.makes and course.kind == "round":
                return piece, course.label
    return None


def implied(piece: Piece, cue: Cue) -> str:
    """Where a job is asked for: 'implied by round 19 of Buoy: "Stuff it firmly"'."""
    words = " ".join(cue.text.split())
    words = words if len(words) <= 70 else words[:70].rsplit(" ", 1)[0] + " …"
    return f"implied by {place(piece, cue)}: “{words}”"


def place(piece: Piece, cue: Cue) -> str:
    """ "round 19 of Buoy", "the start of Buoy", "Making up" """
    name = piece.name or "the piece"
    if not piece.courses:
        return name
    course = next((c for c in piece.courses if c.id == cue.course_id), None)
    return f"{course.kind} {course.label} of {name}" if course else f"the start of {name}"
