"""What a text says of one copy of a piece and not of the others: "Fasten off the first leg only"."""

from __future__ import annotations

import re

from hookside.cues.because import because
from hookside.cues.behindlast import another, held
from hookside.cues.shares import in_its_shade
from hookside.pattern import Course, Cue, Pattern, Piece

_ORDINALS = {
    "first": 1, "1st": 1, "second": 2, "2nd": 2, "third": 3, "3rd": 3, "fourth": 4, "4th": 4, "other": 2,
    "last": -1, "final": -1, "1": 1, "2": 2, "3": 3, "4": 4, "one": 1, "two": 2, "three": 3, "four": 4,
}  # fmt: skip
ALL_OTHERS = 0  # the copies that are not named where one is
_KINDS = frozenset({"fasten", "hold", "tail", "close", "weave", "other"})
_OF_THE_LOOP = _KINDS - {"weave"}
_WHICH = r"\b(?P<which>first|second|third|fourth|1st|2nd|3rd|4th|other|last|final)"
_CLAUSES = re.compile(r"\s*[;,.]\s*(?:(?:but|and|then)\s+)?|\s+but\s+")
_KEEPS = re.compile(
    r"\b(?:not|don't|without|uncut|unfinished|live|attached)\b|"
    r"\b(?:leav|keep|stay|remain)\w*\b.*\bon (?:the|your) hook\b|"
    r"\bleav\w* (?:the |its |your )?(?:yarn|thread|wool) on\b|"
    r"\bkeep\w*(?! (?:an?|the|some|your) (?:\w+ )?(?:tail|end)s?\b)",
    re.IGNORECASE,
)
_VERB = re.compile(r"\b(?:fasten|finish) off\b|\bcut the yarn\b", re.IGNORECASE)
# "On the first leg, cut the yarn": a clause that only says which one belongs to the next
_ONLY_WHICH = re.compile(r"(?:(?:on|for|at|with|after|of)\s+)?(?:the\s+)?(?:\w+\s+)?\w+", re.IGNORECASE)
_BEHIND = r"(?=\s*(?:only\b|[.,;:)]|$|(?:on|uncut|unfinished|live|going|as|open|stays?|is|keep|leave|we|you|do)\b))"
_DOES = re.compile(r"(?:fasten|finish|cut|break|snip|leave|keep|do|don't|weave|close)\b", re.IGNORECASE)
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
    piece = in_its_shade(piece, own)
    last = piece.courses[-1]
    told = {
        cue.address: _told(cue, piece)
        for cue in piece.cues
        if cue.course_id == last.id and cue.basis == "written" and cue.kind in _KINDS
    }
    late = held(piece, _name(piece))
    if own < piece.make and late:
        piece = piece.model_copy(update={"cues": [cue for cue in piece.cues if cue.address not in late]})
    told = {address: clauses for address, clauses in told.items() if address not in late}
    if not any(told.values()):
        return piece
    _go_on(piece, told)
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
    if any(cue.kind in _OF_THE_LOOP for cue in taken) and not any(_of_the_loop(cue, last) for cue in kept):
        kept.append(_kept_or_asked(pattern, number, piece, next(cue for cue in taken if cue.kind in _OF_THE_LOOP)))
    return piece.model_copy(update={"cues": kept})


def _of_the_loop(cue: Cue, last: Course) -> bool:
    """Whether a cue behind the last course says what becomes of the loop: what is only shown in passing does not."""
    return cue.course_id == last.id and cue.kind in _OF_THE_LOOP and cue.at is None and cue.weight != "whisper"


def _go_on(piece: Piece, told: dict[str, dict[int, Cue]]) -> None:
    """ "Fasten off leg 1 and weave in the end": the rest is told to the copy that the beginning names."""
    name = _name(piece)
    before: Cue | None = None
    for cue in piece.cues:
        if before is not None and not told.get(cue.address, True) and not before.text.rstrip().endswith((".", "!")):
            asks = another(before.text, name) is not None
            told[cue.address] = {one: cue for one in (_nexts(piece) if asks else told[before.address]) if one}
        goes_on = cue.kind != "other" or another(cue.text, name) is not None
        before = cue if told.get(cue.address) and goes_on else None


def _nexts(piece: Piece) -> range:
    """Numbers of the copies that "make another" asks for."""
    return range(2, piece.make + 1)


def _told(cue: Cue, piece: Piece) -> dict[int, Cue]:
    """What a sentence says of which copies, by their number, and under ALL_OTHERS of the rest; {} where it speaks of
    all alike."""
    name = _name(piece)
    rest = another(cue.text, name)
    if rest is not None and not re.search(_WHICH, rest, re.IGNORECASE):
        # "Make a second one, don't fasten off this time": shown at the end of that one, where it is made
        return {one: _as_told(cue, rest, rest) for one in _nexts(piece)} if rest else {1: cue}
    noun = rf"\s+(?:ones?|piece|part|side|half|{name})\b"
    no = rf"\b{name}\s+(?:(?:number|no\.?|nr\.?)\s*|#\s?)?(?P<no>[1-4]|one|two|three|four)\b"
    named = re.compile(rf"{_WHICH}(?:{noun}|{_BEHIND})|{no}", re.IGNORECASE)
    found: dict[int, str] = {}
    verb = ""
    whole = _BRACKETED.sub(r"\1", cue.text.strip())
    place = ""
    for part in _CLAUSES.split(whole.rstrip(".!")):
        clause = f"{place}{part}"
        if _ONLY_WHICH.fullmatch(clause) and named.search(clause) and not _DOES.match(clause):
            place = f"{clause}, "
            continue
        place = ""
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
    return {one: _as_told(cue, text, whole if len(found) == 1 else text) for one, text in found.items()}


def _as_told(cue: Cue, clause: str, text: str) -> Cue:
    """What one copy is told: `clause` decides whether its loop is kept, `text` is shown."""
    kept = cue.kind == "fasten" and _KEEPS.search(clause) and ("not" in clause or not _ONLY.search(clause))
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
