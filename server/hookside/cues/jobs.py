"""Jobs that need an open piece: stuffing, eyes, the face. Where they are due, as against where they are printed.

A cue that is in time silences ours; one that is printed when the piece is already shut is never trusted: ours asks in
time, and the printed one is only shown, in passing, where it stands.
"""

from __future__ import annotations

import re

from hookside.cues.because import because
from hookside.cues.filling import Filling
from hookside.cues.openings import FINGERS, HAND, TOP_UP, Opened
from hookside.cues.stuffing import named_parts, stuffing
from hookside.cues.worked import Worked, course_name, open_after, stem, told_of
from hookside.notation.askings.when import when
from hookside.pattern import Cue, Pattern, Piece
from hookside.shape.joined import goes_on_from
from hookside.words.eyes import BEADS

BEYOND = 2  # rounds past its own before an eye is pushed through: the fabric is steady there (common practice)
SENTENCE = 400  # letters
STITCHED = 1  # the same for what is embroidered

_PLACE = re.compile(
    r"\b(?:between|btwn?|betw)\.?\s+(?:the\s+)?(?:rounds?|rnds?|r|rows?)?\.?\s*(\d+)(?:st|nd|rd|th)?\s*(?:and|&|-|\u2013|to)\s*(?:rounds?|rnds?|r|rows?)?\.?\s*(\d+)"
    r"|\b(?:in|at|on|over|into|level with)\s+(?:the\s+)?(?:rounds?|rnds?|rows?|r)\.?\s*(\d+)"
    r"(?:\s*(?:and|&|-|\u2013|to)\s*(\d+))?"
    r"|\b(?:in|at|on|over|into|level with)\s+(?:the\s+)?(\d+)(?:st|nd|rd|th)\s+(?:rounds?|rnds?|rows?)\b",
    re.IGNORECASE,
)
# What goes into the hollow of a piece, by the text's own words: "inside the ball before you close it"
_INTO = re.compile(
    r"\b(?:put|add|place|insert|push|tuck|slip|drop|fit|pop)\b(?![^.;]*\b(?:ends?|tails?)\b)[^.;]*(?:"
    r"\b(?:inside|into)\b[^.;]*\bbefore (?:you |it is |it's |they are )?(?:finally )?(?:clos|shut|sew|draw|stuff)\w*"
    r"|\binside (?:of )?(?:the|your|its)\b)",
    re.IGNORECASE,
)
_NEEDLE = re.compile(
    r"\bembroider|\bstitch (?:the |on )?(?:eyes|face|mouth|nose)|\bsew (?:the |on )?eyes|\bfelt\b|\bglue", re.IGNORECASE
)
_MOST_FACES = 100
# "eyes here between last 2": the two rounds that stand above it
_LAST_TWO = re.compile(r"\b(?:between|btwn?) (?:the |those |these )?last (?:2|two)\b", re.IGNORECASE)
_BY_THE_EYES = re.compile(
    r"\b(?:between|below|under|beneath|beside|above|over|around) (?:the |his |her |its |both |two )*eyes\b",
    re.IGNORECASE,
)
_OF_THEM = re.compile(r"\b(?:them|they|backs?|washers?)\b", re.IGNORECASE)
_FACE = re.compile(
    r"\b(?:face|cheeks?|lash(?:es)?|freckles|nose|mouth|snout|muzzle|eyes?|eyebrows?|beak|whiskers)\b", re.IGNORECASE
)


def jobs(pattern: Pattern, pieces: dict[int, Opened]) -> Worked:
    """Stops for what has to be done while a piece is open, where the text prints it too late or not at all. `pieces`:
    those worked in rounds, by their number, as `opened` found them."""
    worked = Worked()
    faces = 0
    for number, of in enumerate(pattern.pieces):
        for cue in of.cues:
            faces += cue.kind in ("eyes", "embroider")
            if faces > _MOST_FACES:
                break  # whoever asks for eyes at every round gets them where they are printed
            if cue.kind == "eyes" or (cue.kind == "embroider" and _FACE.search(cue.text)):
                _face(pattern, pieces, number, cue, worked)
            elif not of.courses and cue.kind not in ("stuff", "weave") and _goes_in(cue.text):
                _inside(pattern, pieces, cue, worked)
    filling = Filling(pattern)
    for number, piece in pieces.items():
        stuffing(filling, number, piece, worked)  # where it is due with an eye, the eye goes in first
    begun = goes_on_from(pattern)
    for number, piece in pieces.items():
        if number not in begun:
            _starting_tail(number, piece, worked)
    return worked


_LAST_CHANCE = f"Is the starting tail inside? This is the last good chance. {because('the hole gets small')}"


# -- the tail of the start --------------------------------------------------


def _starting_tail(number: int, piece: Opened, worked: Worked) -> None:
    """Asked with the first stuffing, before which it has to go in; where nothing is stuffed so far, a whisper at the
    last round from which it can still be drawn to the inside."""
    if (
        not piece.shuts
        or piece.piece.courses[0].uses
        or any("tail" in cue.text.lower() and "start" in cue.text.lower() for cue in piece.piece.cues)
    ):
        return
    last = piece.last_open(FINGERS, piece.reach(0))
    if last is None or last >= len(piece.across) - 1:
        return
    written = [cue for cue in piece.piece.cues if cue.kind == "stuff" and cue.address not in worked.late]
    ours = worked.cues.get(number, [])
    spots = [(at, cue) for cue in [*written, *ours] if cue.kind == "stuff" and (at := piece.index(cue)) is not None]
    goes = [(at, cue) for at, cue in spots if 0 <= at <= piece.reach(0)[1] and open_after(piece, at) >= TOP_UP]
    first = min(goes, key=lambda go: go[0], default=None)
    asked = "First: is the starting tail inside?"
    if first is None:
        worked.put(number, piece, last, "weave", "whisper", _LAST_CHANCE)
    elif first[1] in written:
        worked.advised[first[1].address] = f"{asked} {because('stuffing hides it')}"
    else:
        ours[ours.index(first[1])] = first[1].model_copy(update={"advice": f"{first[1].advice} {asked}".strip()})


# -- eyes and face ----------------------------------------------------------


def _face(pattern: Pattern, pieces: dict[int, Opened], number: int, cue: Cue, worked: Worked) -> None:
    if BEADS.match(cue.text):
        return  # they are sewn on from outside, whatever is shut
    round_ = _round_named(cue) or (cue.after if cue.course_id and _LAST_TWO.search(cue.text) else "")
    target = number if _belongs(pattern, pieces, number, cue, round_) else _meant(pattern, pieces, cue, round_, worked)
    if target is None:
        return
    piece = pieces[target]
    washers = cue.kind == "eyes" and not _NEEDLE.search(cue.text)
    filled = target != number and any(other.kind == "stuff" for other in piece.piece.cues)
    narrow = open_after(piece, len(piece.across) - 1) < FINGERS
    at = piece.index(cue) if target == number else len(piece.across) - 1
    row = _index(piece, round_) if round_ else _widest(piece, cue.text, at)
    if at is None or row is None:
        return
    ahead = at == -1  # below the heading: there is nothing yet to put it on
    if not (piece.shuts or ahead) and not (washers and (filled or narrow)):
        return  # its inside stays in reach
    reach = piece.reach(row)
    if not ahead and open_after(piece, at) >= FINGERS and at <= max(reach[1], row) and not (filled and not piece.shuts):
        return
    wide = piece.last_open(HAND if washers else FINGERS, reach)
    wide = piece.widest_in(reach) if wide is None else wide
    past = BEYOND if washers else min(STITCHED, max(0, _colour_changes(piece, row) - 1 - row))
    due = min(row + past, max(row, wide), len(piece.across) - 1)
    if not washers and (not round_ or _BY_THE_EYES.search(cue.text)):  # told by the eyes, which have to be there
        due = max(due, _eyes_in(piece, target, worked))
    first = row if round_ else 0  # where no round is named, the row is no more than a guess
    if target == number and first <= at and (at <= due or open_after(piece, at) >= open_after(piece, due)):
        return  # printed at its own round, where the piece is no narrower than where we should ask
    worked.move(target, piece, due, cue, "stop" if washers else "pause")
    for beside in _told_with(pattern.pieces[number], cue) if washers else []:
        worked.move(target, piece, due, beside, "pause")
        worked.late[beside.address] = course_name(piece, due)
    what = "The eyes are printed" if washers else "The face is printed"
    name = piece.piece.name or "the piece"
    open_end = f"when {name} is already {'stuffed' if filled else 'too narrow for fingers'}"
    narrow = open_after(piece, at) < FINGERS
    still_open = not piece.shuts or (narrow and at < len(piece.across) - 1)
    if ahead:
        open_end, still_open = "before the piece is begun", True
    elif target == number and round_ and at < row:
        open_end, still_open = f"before round {round_} is made", True
    worked.came_late(cue, piece, course_name(piece, due), what, narrow, open_end if still_open else "")


def _eyes_in(piece: Opened, target: int, worked: Worked) -> int:
    """The last course of a piece behind which its eyes are asked for; -1 where they are not."""
    asked = [*(cue for cue in piece.piece.cues if cue.address not in worked.late), *worked.cues.get(target, [])]
    return max((at for cue in asked if cue.kind == "eyes" and (at := piece.index(cue)) is not None), default=-1)


def _told_with(of: Piece, eyes: Cue) -> list[Cue]:
    """ "Pull hard on them before you put the backs on." right behind the eyes, which goes where they go."""
    at = of.cues.index(eyes)
    behind = of.cues[at + 1 : at + 2]
    return [cue for cue in behind if cue.kind == "other" and cue.line == eyes.line and _OF_THEM.search(cue.text)]


def _goes_in(text: str) -> bool:
    """Whether a sentence, of no more letters than one has, puts something into the hollow of a piece."""
    return len(text) <= SENTENCE and _INTO.search(text) is not None


def _inside(pattern: Pattern, pieces: dict[int, Opened], cue: Cue, worked: Worked) -> None:
    """What a section of sewing up puts into a piece that is shut by then: at its last round that fingers pass."""
    low = cue.text.lower()
    named = [n for n in pieces if told_of(stem(pattern.pieces[n].name), low)]
    target = named[0] if len(named) == 1 else None
    if target is None or not pieces[target].shuts:
        return
    piece = pieces[target]
    last = piece.last_open(FINGERS)
    due = max(last, piece.widest) if last is not None else piece.widest
    worked.move(target, piece, due, cue, "stop")
    worked.came_late(cue, piece, course_name(piece, due), "What goes inside is printed")


def _widest(piece: Opened, text: str, at: int | None) -> int:
    """Where a face goes that names no round: the widest of the part it names, else of what is called a head, else of
    the part in which it is printed."""
    necks = piece.necks()
    names = named_parts(piece.piece, len(necks) + 1)
    place = next((i for i, name in enumerate(names) if name and stem(name) in text.lower()), None)
    if place is None:
        place = next((i for i, name in enumerate(names) if "head" in name), None)
    if place is None:
        return piece.widest if at is None or at < 0 else piece.widest_in(piece.reach(at))
    return piece.widest_in(piece.reach(necks[place].before if place < len(necks) else len(piece.across) - 1))


def _colour_changes(piece: Opened, row: int) -> int:
    """The next course at whose end the color changes: a face is stitched before, not beside it."""
    changes = [at for cue in piece.piece.cues if cue.kind == "colour" and (at := piece.index(cue)) is not None]
    return min((at for at in changes if at > row), default=len(piece.across))


def _round_named(cue: Cue) -> str:
    """The round at which it goes in, or else the one behind which it is told: "eyes after R6"."""
    found = _PLACE.search(cue.text)
    if found:
        return found[2] or found[4] or found[3] or found[5]
    told = next((told for told in when(cue.text, cue.kind) if told.course and not told.before), None)
    return str(told.course) if told is not None else ""


def _belongs(pattern: Pattern, pieces: dict[int, Opened], number: int, cue: Cue, round_: str) -> bool:
    """Whether a job is of the piece in which it stands. Behind the last round of a text's last piece, without a heading
    of its own, may stand what is done to all: it names another piece there, or a round that this one has not."""
    if number not in pieces:
        return False
    own = pieces[number]
    if own.index(cue) != len(own.across) - 1 or any(of.courses for of in pattern.pieces[number + 1 :]):
        return True
    if round_ and _index(own, round_) is None:
        return False
    low, mine = cue.text.lower(), stem(pattern.pieces[number].name)
    named = [stem(of.name) for n, of in enumerate(pattern.pieces) if n != number and of.courses]
    of_another = any(name and re.search(rf"\b(?:of|on|into?) (?:the |your )?{re.escape(name)}", low) for name in named)
    return not of_another or told_of(mine, low)


def _meant(pattern: Pattern, pieces: dict[int, Opened], cue: Cue, round_: str, worked: Worked) -> int | None:
    """The piece a job in a section of sewing up belongs to: the one it names, else a head, else one with that round,
    else, for a face, the one that has the eyes, or the only one that is made once."""
    can = [n for n, piece in pieces.items() if not round_ or _index(piece, round_) is not None]
    low = cue.text.lower()
    for n in can:
        if told_of(stem(pattern.pieces[n].name), low):
            return n
    for n in can:
        if "head" in pattern.pieces[n].name.lower():
            return n
    if len(can) == 1 or not _FACE.search(cue.text):
        return can[0] if len(can) == 1 else None
    cues = {n: [*pattern.pieces[n].cues, *worked.cues.get(n, [])] for n in can}
    faced = [n for n in can if any(other.kind == "eyes" for other in cues[n])]
    found = faced or [n for n in can if pattern.pieces[n].make == 1]
    return found[0] if len(found) == 1 else None


# -- what they share ---------------------------------------------------------


def _index(piece: Opened, label: str) -> int | None:
    return next((i for i, course in enumerate(piece.piece.courses) if course.label == label), None)


def shown_only(piece: Piece, late: dict[str, str], advised: dict[str, str]) -> Piece:
    """The piece with its late cues as whispers that say where they were due, and with what is asked with others."""
    cues = [
        cue.model_copy(update={"weight": "whisper", "advice": f"Printed here; it was due at {late[cue.address]}."})
        if cue.address in late
        else cue.model_copy(update={"advice": f"{cue.advice} {advised[cue.address]}".strip()})
        if cue.address in advised
        else cue
        for cue in piece.cues
    ]
    return piece if cues == piece.cues else piece.model_copy(update={"cues": cues})
