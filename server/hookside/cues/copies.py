"""What a text says of one copy of a piece and not of the others: "Fasten off the first leg only"."""

from __future__ import annotations

import re

from hookside.cues.because import because
from hookside.pattern import Cue, Pattern, Piece

_ORDINALS = {
    "first": 1, "1st": 1, "second": 2, "2nd": 2, "third": 3, "3rd": 3, "fourth": 4, "4th": 4, "other": 2,
    "last": -1, "final": -1, "1": 1, "2": 2, "3": 3, "4": 4, "one": 1, "two": 2, "three": 3, "four": 4,
}  # fmt: skip
ALL_OTHERS = 0  # the copies that are not named where one is
_KINDS = frozenset({"fasten", "hold", "tail", "close", "other"})
_WHICH = r"\b(?P<which>first|second|third|fourth|1st|2nd|3rd|4th|other|last|final)"
_CLAUSES = re.compile(r"\s*[;,.]\s*(?:(?:but|and|then)\s+)?|\s+but\s+")
_KEEPS = re.compile(r"\b(?:not|don't|without|keep|uncut|live)\b", re.IGNORECASE)
_VERB = re.compile(r"\b(?:fasten|finish) off\b|\bcut the yarn\b", re.IGNORECASE)
_BRACKETED = re.compile(r"^\((.*)\)\.?$")
_ONLY = re.compile(r"\bonly\b", re.IGNORECASE)
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
    told = {
        cue.address: _told(cue, piece)
        for cue in piece.cues
        if cue.course_id == last.id and cue.basis == "written" and cue.kind in _KINDS
    }
    if not any(told.values()):
        return piece
    kept: list[Cue] = []
    taken: list[Cue] = []
    for cue in piece.cues:
        clauses = told.get(cue.address, {})
        mine = clauses.get(own, clauses.get(ALL_OTHERS))
        if not clauses:
            kept.append(cue)
        elif mine is not None:
            kept.append(mine)
        else:
            taken.append(cue)
    # "Fasten off. (Do not fasten off on the second leg.)": what is said of all is not said of that one.
    own_kinds = {clauses[own].kind for clauses in told.values() if own in clauses}
    other = {"hold": "fasten", "fasten": "hold"}
    against = {other[kind] for kind in own_kinds if kind in other}
    kept = [cue for cue in kept if told.get(cue.address, True) or cue.kind not in against]
    if taken and not any(c.course_id == last.id and c.kind in _KINDS and c.at is None for c in kept):
        kept.append(_kept_or_asked(pattern, number, piece, taken[0]))
    return piece.model_copy(update={"cues": kept})


def _told(cue: Cue, piece: Piece) -> dict[int, Cue]:
    """What a sentence says of which copies, by their number, and under ALL_OTHERS of the rest; {} where it speaks of
    all alike."""
    name = _name(piece)
    noun = rf"\s+(?:ones?|piece|part|side|half|{name})\b"
    named = re.compile(
        rf"{_WHICH}(?:{noun}|(?=\s*(?:only\b|[.,;:)]|$)))|\b{name}\s+(?P<no>[1-4]|one|two|three|four)\b", re.IGNORECASE
    )
    found: dict[int, str] = {}
    verb = ""
    whole = _BRACKETED.sub(r"\1", cue.text.strip())
    for clause in _CLAUSES.split(whole.rstrip(".")):
        told = clause
        if re.match(r"not\b", clause, re.IGNORECASE) and verb:
            told = f"do not {verb}{clause[3:]}"
        does = _VERB.search(clause)
        verb = verb or (does[0].lower() if does else "")
        which = {_ORDINALS[(match["which"] or match["no"]).lower()] for match in named.finditer(clause)}
        for one in which or ({ALL_OTHERS} if does else set()):
            found[piece.make if one == -1 else one] = told
    if not found.keys() - {ALL_OTHERS}:
        return {}
    if len(found) == 1:
        found = dict.fromkeys(found, whole)
    return {one: _as_told(cue, text) for one, text in found.items()}


def _as_told(cue: Cue, text: str) -> Cue:
    kept = cue.kind == "fasten" and _KEEPS.search(text) and ("not" in text or not _ONLY.search(text))
    return cue.model_copy(update={"text": f"{text[:1].upper()}{text[1:]}", "kind": "hold" if kept else cue.kind})


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
    cut = not _KEEPS.search(other.text)
    said = f'"{other.text.rstrip(".")}"'
    why = because(
        f"the text cuts another one off: {said}" if cut else f"the text says only of another {_name(piece)}: {said}"
    )
    goes = f" {joins} goes on from this one." if joins and cut else ""
    return Cue(
        address=f"{last.id}/loop.0",
        after=last.label,
        course_id=last.id,
        kind="hold" if cut else "other",
        text=f"Do not cut the yarn of this {_name(piece)}." if cut else "Keep this loop, or cut the yarn?",
        advice=f"{why}{goes} {_MARKED}" if cut else f"{why} If nothing starts from this one, cut it.",
        basis="worked out",
        weight="stop",
        line=other.line,
    )
