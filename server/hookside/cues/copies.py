"""What a text says of one copy of a piece and not of the others: "Fasten off the first leg only"."""

from __future__ import annotations

import re

from hookside.pattern import Cue, Pattern, Piece

_ORDINALS = {
    "first": 1, "1st": 1, "second": 2, "2nd": 2, "third": 3, "3rd": 3, "fourth": 4, "4th": 4, "other": 2,
    "last": -1, "final": -1,
}  # fmt: skip
_KINDS = frozenset({"fasten", "hold", "tail", "close", "other"})
_WHICH = r"\b(?P<which>first|second|third|fourth|1st|2nd|3rd|4th|other|last|final)"
_CLAUSES = re.compile(r"\s*[;,.]\s*(?:(?:but|and|then)\s+)?|\s+but\s+")
_KEEPS = re.compile(r"\b(?:not|don't|without|keep|uncut|live)\b", re.IGNORECASE)
_MARKED = "Put a marker into the live loop, so that it cannot run."


def of_copy(pattern: Pattern, number: int, copy: int, copies: int) -> Piece:
    """Piece `number` as it is told for its copy `copy` of `copies`; the piece itself where nothing tells them apart.

    Several toys' copies go round: of four legs for two toys, the third is a first one. A copy of whose loop nothing is
    left to be said keeps it where the text cuts off others, and is asked where it keeps others: a cut is never worked
    out.
    """
    piece = pattern.pieces[number - 1]
    if copies == 1 or piece.make == 1 or not piece.courses:
        return piece
    own = (copy - 1) % piece.make + 1
    last = piece.courses[-1]
    kept: list[Cue] = []
    taken: list[Cue] = []
    for cue in piece.cues:
        ends = cue.course_id == last.id and cue.basis == "written" and cue.kind in _KINDS
        clauses = _told(cue, piece) if ends else {}
        if not clauses:
            kept.append(cue)
        elif own in clauses:
            kept.append(clauses[own])
        else:
            taken.append(cue)
    if not any(_told(cue, piece) for cue in piece.cues if cue.course_id == last.id and cue.kind in _KINDS):
        return piece
    if taken and not any(c.course_id == last.id and c.kind in _KINDS and c.at is None for c in kept):
        kept.append(_kept_or_asked(pattern, number, piece, taken[0]))
    return piece.model_copy(update={"cues": kept})


def _told(cue: Cue, piece: Piece) -> dict[int, Cue]:
    """What a sentence says of which copies, by their number; {} where it speaks of all."""
    noun = rf"\s+(?:ones?|piece|part|side|half|{_name(piece)})\b"
    named = re.compile(rf"{_WHICH}(?:{noun}|(?=\s*(?:only\b|[.,;]|$)))", re.IGNORECASE)
    found: dict[int, Cue] = {}
    verb = ""
    for clause in _CLAUSES.split(cue.text.strip().rstrip(".")):
        which = {_ORDINALS[match["which"].lower()] for match in named.finditer(clause)}
        told = clause
        if re.match(r"not\b", clause, re.IGNORECASE) and verb:
            told = f"do {clause[:1].lower()}{clause[1:4].strip()} {verb} {clause[4:]}".replace("  ", " ")
        verb = verb or " ".join(re.findall(r"fasten off|cut the yarn|finish off", clause.lower())[:1])
        for one in which:
            kind = "hold" if _KEEPS.search(told) and cue.kind == "fasten" else cue.kind
            text = f"{told[:1].upper()}{told[1:]}"
            found[piece.make if one == -1 else one] = cue.model_copy(update={"text": text, "kind": kind})
    if len(found) == 1:  # all of the sentence is for that copy
        return {one: cue for one in found}
    return found


def _name(piece: Piece) -> str:
    """How a piece of several is called: "leg" of "Legs", "Leg (make 2)"."""
    words = re.findall(r"[a-z]+", re.sub(r"\([^)]*\)", " ", piece.name.lower()))
    last = words[-1] if words else "piece"
    return re.escape(last.removesuffix("s") if not last.endswith("ss") else last)


def _kept_or_asked(pattern: Pattern, number: int, piece: Piece, other: Cue) -> Cue:
    last = piece.courses[-1]
    joins = next(
        (pattern.pieces[j.piece - 1].name for j in pattern.joinings for part in j.parts if part.number == number), ""
    )
    said = f'"{other.text.rstrip(".")}".'
    cut = not _KEEPS.search(other.text)
    goes = f" {joins} goes on from this one." if joins and cut else ""
    return Cue(
        address=f"{last.id}/loop.0",
        after=last.label,
        course_id=last.id,
        kind="hold" if cut else "other",
        text=f"Do not cut the yarn of this {_name(piece)}." if cut else "Keep this loop, or cut the yarn?",
        advice=(
            f"The text cuts another one off: {said}{goes} {_MARKED}"
            if cut
            else f"The text says of another {_name(piece)}: {said} If nothing starts from this one, cut it."
        ),
        basis="worked out",
        weight="stop",
        line=other.line,
    )
