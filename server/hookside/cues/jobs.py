"""Jobs that need an open piece: stuffing, eyes, the face. Where they are due, as against where they are printed.

A cue that is in time silences ours; one that is printed when the piece is already shut is never trusted: ours asks in
time, and the printed one is only shown, in passing, where it stands.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from hookside.cues.openings import FILLING, FINGERS, HAND, NOT_STUFFED, TOP_UP, Opened
from hookside.pattern import Cue, CueKind, Finding, Pattern, Piece, Weight

LONG = 8  # rounds of a narrow part before it is stuffed on the way
EVERY = 6  # rounds between two goes of it: every 5 to 8 (common practice, no source)
BEYOND = 2  # rounds past its own before an eye is pushed through: the fabric is steady there (common practice)

_PLACE = re.compile(
    r"\bbetween\s+(?:the\s+)?(?:rounds?|rnds?|r|rows?)?\.?\s*(\d+)\s*(?:and|&|-|\u2013|to)\s*(?:rounds?|rnds?|r|rows?)?\.?\s*(\d+)"
    r"|\b(?:in|at|on|over|into|level with)\s+(?:the\s+)?(?:rounds?|rnds?|rows?|r)\.?\s*(\d+)",
    re.IGNORECASE,
)
_NEEDLE = re.compile(
    r"\bembroider|\bstitch (?:the |on )?(?:eyes|face|mouth|nose)|\bsew (?:the |on )?eyes|\bfelt\b|\bglue", re.IGNORECASE
)
_FACE = re.compile(r"\b(?:face|nose|mouth|snout|muzzle|eyes?|eyebrows?|beak|whiskers)\b", re.IGNORECASE)


@dataclass
class Worked:
    """What was found for a pattern: cues by the number of their piece, printed ones that come too late, notes."""

    cues: dict[int, list[Cue]] = field(default_factory=dict)
    late: dict[str, str] = field(default_factory=dict)  # address of a printed cue -> "round 16"
    findings: list[Finding] = field(default_factory=list)

    def add(self, number: int, cue: Cue) -> None:
        self.cues.setdefault(number, []).append(cue)

    def address(self, number: int, stem: str) -> str:
        """The next free address of a piece's cues that begin so: "head.16/due-stuff" -> "head.16/due-stuff.0"."""
        return f"{stem}.{sum(cue.address.startswith(f'{stem}.') for cue in self.cues.get(number, []))}"


def jobs(pattern: Pattern, pieces: dict[int, Opened]) -> Worked:
    """Stops for what has to be done while a piece is open, where the text prints it too late or not at all. `pieces`:
    those worked in rounds, by their number, as `opened` found them."""
    worked = Worked()
    for number, piece in pieces.items():
        _stuffing(pattern, number, piece, worked)
        _starting_tail(number, piece, worked)
    for number, of in enumerate(pattern.pieces):
        for cue in of.cues:
            if cue.kind == "eyes" or (cue.kind == "embroider" and _FACE.search(cue.text)):
                _face(pattern, pieces, number, cue, worked)
    return worked


# -- stuffing ---------------------------------------------------------------


def _stuffing(pattern: Pattern, number: int, piece: Opened, worked: Worked) -> None:
    own = [cue for cue in piece.piece.cues if cue.kind == "stuff" or NOT_STUFFED.search(cue.text)]
    if any(NOT_STUFFED.search(cue.text) for cue in own) or _left_empty(pattern, number):
        return
    elsewhere = _named_elsewhere(pattern, number)
    if not own and not elsewhere and not (piece.shuts and _filled(pattern)):
        return
    last = piece.last_open(FINGERS)
    due = max(last, piece.widest) if last is not None else piece.widest
    if due >= len(piece.across) - 1 and not piece.shuts:
        due = len(piece.across) - 1  # it stays open: any time will do
    spots = [(piece.index(cue), cue) for cue in own]
    in_time = [i for i, _ in spots if i is not None and _open(piece, i) >= TOP_UP]
    if in_time or (not piece.shuts and spots):
        _on_the_way(number, piece, min(in_time, default=due), worked)
        return
    if not piece.shuts:
        return
    late = [cue for _, cue in spots] or elsewhere
    if late:
        _move(worked, number, piece, due, late[0], "stop")
    else:
        why = f"the text says nothing of stuffing, and after {_name(piece, due)} fingers hardly fit any more"
        text = f"Stuff now, while fingers still fit. Worked out, because {why}."
        _put(worked, number, piece, due, "stuff", "stop", text)
    _on_the_way(number, piece, due, worked)
    for cue in late:
        worked.late[cue.address] = _name(piece, due)
        worked.findings.append(_note(cue, piece, due, "The stuffing is printed"))


def _on_the_way(number: int, piece: Opened, due: int, worked: Worked) -> None:
    """Goes of stuffing in a long, narrow part: fingers do not reach to its tip from the far end."""
    narrow = [i for i, a in enumerate(piece.across) if a is not None and a < HAND]
    if len(narrow) < len(piece.across) or due <= LONG:
        return
    for at in range(EVERY, due - 2, EVERY):
        if not any(cue.kind == "stuff" and piece.index(cue) == at for cue in piece.piece.cues):
            text = "Stuff this stretch now. Worked out, because fingers do not reach the tip of a narrow part later."
            _put(worked, number, piece, at, "stuff", "pause", text)


def _left_empty(pattern: Pattern, number: int) -> bool:
    """Whether another part of the text says that this piece is not stuffed."""
    name = _stem(pattern.pieces[number].name)
    told = [cue.text for piece in pattern.pieces if not piece.courses for cue in piece.cues] + pattern.notes
    return bool(name) and any(NOT_STUFFED.search(line) and re.search(rf"\b{name}", line.lower()) for line in told)


def _filled(pattern: Pattern) -> bool:
    told = [*pattern.materials, *pattern.notes]
    return any(FILLING.search(line) and not NOT_STUFFED.search(line) for line in told) or any(
        cue.kind == "stuff" and not NOT_STUFFED.search(cue.text) for piece in pattern.pieces for cue in piece.cues
    )


def _named_elsewhere(pattern: Pattern, number: int) -> list[Cue]:
    """Stuffing of this piece that is printed in a section of sewing up."""
    name = _stem(pattern.pieces[number].name)
    return [
        cue
        for piece in pattern.pieces
        if not piece.courses
        for cue in piece.cues
        if cue.kind == "stuff" and name and name in cue.text.lower() and not NOT_STUFFED.search(cue.text)
    ]


# -- the tail of the start --------------------------------------------------


def _starting_tail(number: int, piece: Opened, worked: Worked) -> None:
    """A whisper at the last round from which the starting tail can still be drawn to the inside."""
    if not piece.shuts or any("tail" in cue.text.lower() and "start" in cue.text.lower() for cue in piece.piece.cues):
        return
    last = piece.last_open(FINGERS)
    if last is None or last >= len(piece.across) - 1:
        return
    text = "Is the starting tail inside? This is the last good chance. Worked out, because the hole gets small."
    _put(worked, number, piece, last, "weave", "whisper", text)


# -- eyes and face ----------------------------------------------------------


def _face(pattern: Pattern, pieces: dict[int, Opened], number: int, cue: Cue, worked: Worked) -> None:
    round_ = _round_named(cue.text)
    target = number if number in pieces else _meant(pattern, pieces, cue, round_)
    if target is None:
        return
    piece = pieces[target]
    if not piece.shuts:
        return  # its inside stays in reach
    at = piece.index(cue) if target == number else len(piece.across) - 1
    if at is None or (at >= 0 and _open(piece, at) >= FINGERS):
        return
    row = _index(piece, round_) if round_ else piece.widest
    if row is None or at == -1:
        return
    washers = cue.kind == "eyes" and not _NEEDLE.search(cue.text)
    wide = piece.last_open(HAND if washers else FINGERS)
    wide = piece.widest if wide is None else wide
    due = min(row + BEYOND, max(row, wide), len(piece.across) - 1)
    _move(worked, target, piece, due, cue, "stop" if washers else "pause")
    worked.late[cue.address] = _name(piece, due)
    worked.findings.append(_note(cue, piece, due, "The eyes are printed" if washers else "The face is printed"))


def _round_named(text: str) -> str:
    found = _PLACE.search(text)
    return (found[2] or found[3]) if found else ""


def _meant(pattern: Pattern, pieces: dict[int, Opened], cue: Cue, round_: str) -> int | None:
    """The piece a job in a section of sewing up belongs to: the one it names, else a head, else one with that round."""
    can = [n for n, piece in pieces.items() if not round_ or _index(piece, round_) is not None]
    low = cue.text.lower()
    for n in can:
        if (name := _stem(pattern.pieces[n].name)) and re.search(rf"\b{re.escape(name)}", low):
            return n
    for n in can:
        if "head" in pattern.pieces[n].name.lower():
            return n
    return can[0] if len(can) == 1 else None


# -- what they share --------------------------------------------------------


def _move(worked: Worked, number: int, piece: Opened, at: int, cue: Cue, weight: Weight) -> None:
    """The designer's own words where they are due; that and why is added, and where they stand in print."""
    course = piece.piece.courses[at]
    moved = {
        "address": worked.address(number, f"{course.id}/moved-{cue.kind}"), "after": course.label,
        "course_id": course.id, "at": None, "basis": "worked out", "weight": weight,
        "advice": f"Printed in line {cue.line}; Hookside asks you here, while the inside is in reach.",
    }  # fmt: skip
    worked.add(number, cue.model_copy(update=moved))


def _put(worked: Worked, number: int, piece: Opened, at: int, kind: CueKind, weight: Weight, text: str) -> None:
    course = piece.piece.courses[at]
    worked.add(
        number,
        Cue(
            address=worked.address(number, f"{course.id}/due-{kind}"), after=course.label, course_id=course.id,
            kind=kind, text=text, basis="worked out", weight=weight, line=course.line,
        ),
    )  # fmt: skip


def _note(cue: Cue, piece: Opened, due: int, what: str) -> Finding:
    return Finding(
        severity="note",
        code="printed-late",
        line=cue.line,
        piece=piece.piece.name,
        message=f"{what} here, when {piece.piece.name or 'the piece'} is already shut. You need that at "
        f"{_name(piece, due)}: Hookside asks you there.",
    )


def _open(piece: Opened, at: int) -> float:
    """How wide it stands open after a course, mm; as wide as need be where nobody knows."""
    if at < 0:
        return 0.0
    here = piece.across[at]
    return here if here is not None else HAND


def _index(piece: Opened, label: str) -> int | None:
    return next((i for i, course in enumerate(piece.piece.courses) if course.label == label), None)


def _name(piece: Opened, at: int) -> str:
    course = piece.piece.courses[at]
    return f"{course.kind} {course.label}"


def _stem(name: str) -> str:
    """The word a text calls a piece by elsewhere: "Flippers" -> "flipper"."""
    words = re.findall(r"[a-z]+", name.lower())
    return words[-1].removesuffix("s") if words else ""


def shown_only(piece: Piece, late: dict[str, str]) -> Piece:
    """The piece with its late cues as whispers that say where they were due."""
    cues = [
        cue.model_copy(update={"weight": "whisper", "advice": f"Printed here; it was due at {late[cue.address]}."})
        if cue.address in late
        else cue
        for cue in piece.cues
    ]
    return piece if cues == piece.cues else piece.model_copy(update={"cues": cues})
