"""A pattern and the maker's choices -> the runs of a making and their strands."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from hookside.compile.numbering import numbered
from hookside.cues import of_copy
from hookside.follow import MOST_COPIES, Order, Strand
from hookside.habits import Decreases, worked
from hookside.joining import parts_first
from hookside.pattern import CueKind, Pattern, Piece, Record, Terms
from hookside.shape import Asked
from hookside.words import dress_piece

VERSION = "16"  # part of every strand's id: raise it when the same text comes to lie differently on its strand


class Choices(Record):
    """What the maker chose before the first stitch.

    terms    the words she wants to work in; None: the text's own
    hand     the hand that holds the hook
    order    the order of work for copies
    copies   how many to make of a piece, by its number as the runs count it; a piece not named: as printed
    gauge    what she says of her own fabric. `lay` takes a pattern that was read with it
    kinds_off  kinds of cue she wants none of: what was worked out is left out, what the text says is only shown
    spiral   joined rounds as a spiral, where a piece allows it
    decreases  invisible or plain, where a course allows it; None: as the text has them
    anyway   work it although something in it can't be followed: courses that could not be read are
             instructions, printed counts stand as they are
    """

    terms: Terms | None = None
    hand: Literal["right", "left"] = "right"
    order: Order = Order()
    copies: dict[int, int] = Field(default_factory=dict)
    gauge: Asked | None = None
    kinds_off: list[CueKind] = Field(default_factory=list)
    spiral: bool = False
    decreases: Decreases | None = None
    anyway: bool = False


@dataclass(frozen=True, slots=True)
class Laid:
    """One run and its strand. Copies of a piece share one strand, but for those that the text tells apart."""

    run: str  # "p1.c2": piece 1, copy 2, both counted from 1 in the pattern's order
    piece: str  # its name
    copy: int
    copies: int
    strand: Strand


class CannotBeFollowed(ValueError):
    """The pattern cannot be worked as it is; the message is a sentence for the maker."""


def lay(pattern: Pattern, text: str, choices: Choices) -> list[Laid]:
    """The runs of a making, in the order of the pattern's pieces, copies of a piece one after another; a piece that is
    worked into another one stands before it, wherever it is printed.

    `pattern` is `text` as `read` gave it, by the gauge chosen. Pieces with neither courses nor cues have no run.
    CannotBeFollowed where a finding is an error and the choice is not to go on anyway, for a number of copies that is
    not 1 to 99, or for copies of a piece that is not there.
    """
    if not pattern.can_be_followed and not choices.anyway:
        first = next(f for f in pattern.findings if f.severity == "error")
        raise CannotBeFollowed(f"Line {first.line} can't be followed yet. {first.message}")
    digest = hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
    laid: list[Laid] = []
    for number in choices.copies:
        if not 1 <= number <= len(pattern.pieces):
            raise CannotBeFollowed(f"There is no piece {number} to make copies of. Reload the page and begin again.")
    for number in parts_first(pattern):
        piece = pattern.pieces[number - 1]
        if not piece.courses and not piece.cues:
            continue
        copies = choices.copies.get(number, piece.make)
        if not 1 <= copies <= MOST_COPIES:
            asked = "You asked" if number in choices.copies else f"Line {piece.line} says"
            raise CannotBeFollowed(
                f"{asked} to make {copies} of {piece.name or 'this piece'}; "
                f"Hookside follows 1 to {MOST_COPIES}. Choose another number and begin again."
            )
        alike: dict[int, Strand] = {}
        for copy in range(1, copies + 1):
            told = of_copy(pattern, number, copy, copies)
            which = 0 if told is piece else (copy - 1) % piece.make + 1
            if which not in alike:
                alike[which] = _strand(pattern, told, number, digest, choices)
            laid.append(Laid(f"p{number}.c{copy}", piece.name, copy, copies, alike[which]))
    return laid


def _strand(pattern: Pattern, piece: Piece, number: int, digest: str, choices: Choices) -> Strand:
    terms = choices.terms or pattern.terms
    dressed = dress_piece(worked(piece, pattern, choices.spiral, choices.decreases), pattern, terms)
    courses, cues, end = numbered(dressed, pattern, terms, frozenset(choices.kinds_off))
    strand = Strand(id="", piece=piece.name, terms=terms, length=end, courses=courses, cues=cues)
    made_from = {
        "text": digest,
        "read_in": pattern.terms,
        "piece": number,
        "choices": {"terms": terms},  # hand and order change no step; what the others change, the strand has
        "version": VERSION,
        "strand": strand.model_dump(mode="json", exclude={"id"}),  # one id never stands for two lines of steps
    }
    canonical = json.dumps(made_from, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return strand.model_copy(update={"id": hashlib.sha256(canonical.encode()).hexdigest()[:32]})
