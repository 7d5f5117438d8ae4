"""What of the maker's habits a pattern allows, piece by piece, with the reasons; and a piece as she works it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from pydantic import Field

from hookside.habits.decreases import Kind, decreased
from hookside.habits.spiral import spiralled
from hookside.habits.worked import Worked, listed
from hookside.pattern import Pattern, Piece, Record, Terms

Decreases = Literal["plain", "invisible"]


class Allowed(Record):
    """What comes of one habit.

    changes  what would be worked otherwise, by piece: "rounds 5 to 9 of Body"; none: the habit changes nothing
    stays    sentences on what stays as it is written, and why
    mind     sentences on what no longer holds where it is worked so
    """

    changes: list[str] = Field(default_factory=list)
    stays: list[str] = Field(default_factory=list)
    mind: list[str] = Field(default_factory=list)


class Habits(Record):
    """The terms a text is written in and by what evidence, and what its pieces allow."""

    terms: Terms
    because: str
    plain: Allowed
    invisible: Allowed
    spiral: Allowed


def worked(piece: Piece, pattern: Pattern, spiral: bool, decreases: Decreases | None) -> Piece:
    """The piece with the habits in it, as far as it allows them. Courses keep ids and counts, cues their addresses."""
    if spiral:
        piece = spiralled(piece, pattern).piece
    return decreased(piece, pattern, decreases).piece if decreases else piece


def habits(pattern: Pattern) -> Habits:
    """What a pattern allows. Its pieces are asked as they are written."""

    def of_decreases(kind: Kind) -> Allowed:
        return _together(pattern, lambda piece: decreased(piece, pattern, kind))

    return Habits(
        terms=pattern.terms,
        because=pattern.terms_because,
        plain=of_decreases("plain"),
        invisible=of_decreases("invisible"),
        spiral=_together(pattern, lambda piece: spiralled(piece, pattern)),
    )


def _together(pattern: Pattern, work: Callable[[Piece], Worked]) -> Allowed:
    found = Allowed()
    for piece in pattern.pieces:
        made = work(piece)
        of = f" of {piece.name}" if piece.name else ""
        found.changes += [f"{listed(made.changes)}{of}"] if made.changes else []
        found.stays += [f"{piece.name}: {why}" if piece.name else why for why in made.stays]
        found.mind += [f"{piece.name}: {what}" if piece.name else what for what in made.mind]
    return found
