"""Jobs that the notes tell by their round: "Stuff the body after round 8.", above the first round or behind the last.

Each is asked behind that round. Of several pieces it belongs to the one it names, else to the only one that has such a
round; where neither tells, it stays among the notes, and `findings.omitted` says so.
"""

from __future__ import annotations

import re

from hookside.notation.askings.roundshades import counts_shades, turns_shades
from hookside.notation.askings.when import due_at, may_tell_ahead, names_round, places, when
from hookside.notation.courses.waiting import slug
from hookside.notation.lines.layout import Layout, RawCourse, RawPiece, sentences
from hookside.notation.lines.sections import section_of
from hookside.pattern import Course, Cue, CueKind, Piece
from hookside.stitches import singular

_LONGEST = 600  # characters of such a line
_MOST = 60  # of them in a text
_NOTES = ("notes", "materials", "section", "abbreviations")
_SECTIONS = ("notes", "materials", "yarn", "gauge", "hook")
_WORD = re.compile(r"[a-z]{3,}")
_NUMBER = re.compile(r"\d{1,3}")

Spans = list[tuple[int, int]]


def note_lines(text: str, layout: Layout) -> Spans:
    """The lines of notes, materials and yarns, each without the heading before it."""
    found: Spans = []
    for start, end, role in layout.roles:
        headed = role in ("section", "title", "cue")  # "Colours: R1-2 red, R3 blue" as the first line
        if not (headed or role in _NOTES) or end - start > _LONGEST:
            continue
        section = section_of(text[start:end]) if headed else None
        told = role == "title" and names_round(text[start:end])  # "Stuffing: after Rnd 8" as the first line
        if headed and not told:
            if section is None or section[0] not in _SECTIONS:
                continue
            start += section[1]
        if text[start:end].strip():
            found.append((start, end))
    return found


_OF_THOSE = re.compile(
    r"\s*(?:they|these|it|those) (?:all |both |should |must )?(?:go|goes|sit|sits|come|comes|belong)\b", re.I
)


def told_in(text: str, lines: Spans) -> Spans:
    """The sentences of some lines: "Don't forget the eyes! They go between R3 and R4." is one of them."""
    found: Spans = []
    for span in (span for line in lines for span in sentences(text, *line)):
        if found and _OF_THOSE.match(text, *span) and not text[found[-1][1] : span[0]].strip():
            found[-1] = found[-1][0], span[1]
        else:
            found.append(span)
    return found


def foretold(text: str, noted: Spans, pieces: list[RawPiece]) -> list[Spans]:
    """For each piece the lines of notes that may tell its jobs and colours by their rounds."""
    lines = [(a, b) for a, b in noted if _may_tell(text[a:b])][:_MOST]
    own: list[Spans] = [[] for _ in pieces]
    if not lines:
        return own
    worked = [n for n, raw in enumerate(pieces) if any(isinstance(i, RawCourse) for i in raw.items)]
    if len(worked) == 1:
        own[worked[0]] = lines
        return own
    names = [{singular(word) for word in slug(pieces[n].name).split("-")} for n in worked]
    rounds = [_rounds(pieces[n]) for n in worked]
    for start, end in told_in(text, lines):
        low = text[start:end].lower()
        words = {singular(word) for word in _WORD.findall(low)}
        named = [n for n, name in zip(worked, names, strict=True) if not name.isdisjoint(words)]
        if not named and counts_shades(low):
            named = [n for n in worked if pieces[n].at <= start < _first(pieces[n])][-1:] or worked[:1]
        if not named:
            numbers = [int(n) for n in _NUMBER.findall(low)]
            named = [n for n, own_ones in zip(worked, rounds, strict=True) if not own_ones.isdisjoint(numbers)]
        if len(named) == 1:
            own[named[0]].append((start, end))
    return own


def _may_tell(line: str) -> bool:
    return may_tell_ahead(line) or counts_shades(line) or turns_shades(line)


def _first(raw: RawPiece) -> int:
    """Where its first course stands."""
    return next(i.start for i in raw.items if isinstance(i, RawCourse))


def _rounds(raw: RawPiece) -> set[int]:
    return {n for i in raw.items if isinstance(i, RawCourse) and i.label is not None for n in i.label.numbers}


def asked_near(piece: Piece, cues: list[Cue], kind: CueKind, at: int, timed: bool) -> bool:
    """Does one of these cues ask for the same about that course already, in words of its own?

    "Stuff after round 12. Top up after round 13.": two jobs, since each is `timed` by a course of its own.
    """
    place = places(piece.courses)
    return any(
        cue.kind == kind and abs(place[cue.course_id] - at) <= 1 and not (timed and _due_elsewhere(piece, cue, at))
        for cue in cues
    )


def _due_elsewhere(piece: Piece, cue: Cue, at: int) -> bool:
    """Does a cue name the time at which it is due, and is that another than this?"""
    due = [due_at(piece, told) for told in when(cue.text, cue.kind) if not told.place]
    return bool(due) and at not in due


def put_in_place(piece: Piece, at: int) -> None:
    """The cue that was written last, among the others in the order of their courses.

    It nearly always belongs to one of the last courses, so that only what stands behind it is looked through."""
    later = {course.id for course in piece.courses[at + 1 :]}
    cue = piece.cues.pop()
    end = len(piece.cues)
    while end and piece.cues[end - 1].course_id in later:
        end -= 1
    piece.cues.insert(end, cue)


def place_of(piece: Piece, course: Course | None) -> int:
    """The number in the piece of a course, which is mostly the last; -1 in front of the first."""
    if course is None:
        return -1
    return next(at for at in range(len(piece.courses) - 1, -1, -1) if piece.courses[at].id == course.id)
