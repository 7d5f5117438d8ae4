"""What a line that is no course was taken for, and why."""

from __future__ import annotations

from hookside.notation.courses.sheet import Sheet
from hookside.notation.lines.keys.definitions import definitions
from hookside.pattern import Cue, CueKind, Pattern, Piece

_ROLES = {
    "title": ("The title", "It stands before anything else and is neither a section nor a course."),
    "notes": ("A note", "It stands among the notes, so nothing in it is worked."),
    "materials": ("Materials", "It stands under the materials, so nothing in it is worked."),
    "yarn": ("Yarn", "It tells the yarn."),
    "hook": ("The hook", "It tells the hook."),
    "gauge": ("The gauge", "It tells how large stitches come out."),
    "terms": ("The terms", "It tells in which terms the pattern speaks."),
    "furniture": ("Part of the page, not of the pattern", "It looks like a page number, a rule or a line of rights."),
    "make": ("How many to make", "It says how many copies the piece above it has."),
    "continuation": ("The rest of the course above", "The line above it was not finished."),
    "reference": ("A piece worked like another one", "Its words point to a piece before it."),
    "numbered": ("Left out", "It has the number of the next course, and I could not read what stands behind it."),
    "story": ("Story", "It asks the hands for nothing."),
    "cue": ("Something to do", "It begins as an asking does."),
    "abbreviations": ("Abbreviations", "It stands in the list of what is shortened."),
    "heading": ("A heading", "It stands alone, is short and names a part."),
    "section": ("The heading of a section", "It names what follows it."),
}
_KINDS: dict[CueKind, str] = {
    "stuff": "stuffing",
    "tail": "a tail",
    "close": "closing",
    "colour": "a change of colour",
    "eyes": "the eyes",
    "shape": "shaping",
    "weave": "weaving in",
    "sew": "sewing",
    "turn": "turning",
    "fasten": "fastening off",
    "marker": "the marker",
    "hold": "setting the work aside",
    "join": "joining",
    "pin": "pinning",
    "embroider": "embroidery",
    "count": "counting",
    "other": "something of the hands",
}
_WEIGHTS = {
    "stop": "nothing goes on until it is answered",
    "pause": "shown, and the next move answers it",
    "whisper": "one line, which waits for nothing",
}


def role_of(line: int, role: str, words: str, pattern: Pattern, sheet: Sheet) -> tuple[str, list[str]]:
    """A title for the line, whose cleaned text is `words`, and sentences that say why."""
    piece = next((p for p in pattern.pieces if p.line == line), None)
    if role in ("heading", "course", "foundation", "reference") and piece is not None:
        copies = f" It asks for {piece.make} of them." if piece.make > 1 else ""
        return f"The heading of {piece.name}", [f"It names a piece.{copies}"]
    if role == "abbreviations":
        return _abbreviations(words, sheet)
    title, because = _ROLES.get(role, ("Not a course", "It holds no stitches that I could read."))
    return title, [because]


def _abbreviations(words: str, sheet: Sheet) -> tuple[str, list[str]]:
    title, because = _ROLES["abbreviations"]
    says = [because]
    for name, what in definitions(words):
        own = sheet.own.get(name)
        if own is not None:
            says.append(f'"{name}" is the text\'s own stitch: each uses {own.uses} and makes {own.makes}.')
        else:
            says.append(f'"{name}" stands for "{what}".')
    return title, says


def asked(piece: Piece, cue: Cue) -> str:
    """ "It asks for stuffing, due after round 22 of Body (a stop: nothing goes on until it is answered)." """
    course = next((c for c in piece.courses if c.id == cue.course_id), None)
    if course is None:
        when = f"before the first course of {piece.name}" if piece.courses else f"under {piece.name}"
    elif cue.at is not None:
        when = f"inside {course.kind} {course.label} of {piece.name}, once {cue.at} stitches are made"
    else:
        when = f"after {course.kind} {course.label} of {piece.name}"
    due = "due" if cue.basis == "written" else "which has to be done earlier than it is printed: due"
    return f'It asks for {_KINDS[cue.kind]}, {due} {when} (a {cue.weight}: {_WEIGHTS[cue.weight]}): "{cue.text}"'
