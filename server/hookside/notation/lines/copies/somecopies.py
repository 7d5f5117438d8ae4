"""Lines that tell something of some copies of a piece alone: their color, one of their rounds, where they end."""

from __future__ import annotations

import re

from hookside.colours import COLOURS
from hookside.notation.labels.forsome import of_one_copy
from hookside.notation.lines.copies.behind import Behind
from hookside.notation.lines.copies.inpart import each_its_rounds, stops_here
from hookside.notation.lines.copies.ofsome import of_some, one_each
from hookside.notation.lines.heads import headings
from hookside.notation.lines.layout import RawCourse, RawText


class SomeCopies(Behind):
    """Puts such lines in front of the rounds that they go for."""

    def shades_of_copies(self, text: str, at: int, following: tuple[int, int] | None) -> bool:
        """ "The first in hazel, the second in oat.": what "Make three: one lime, ..." tells besides is no color."""
        each = one_each(text)
        if each is None or any(c.isalpha() for c in text[: each[0]]):
            return False
        if self.piece is None and not (following is not None and self.opens_course(*following)):
            return False
        self.ensure_piece(at)
        self.put_colour(at + each[0], at + each[1])
        return True

    def colour_of_copies(self, text: str, at: int) -> None:
        """ "Work three in gray." below a name: their color stands in front of their rounds."""
        each = one_each(text)
        if each is not None:
            self.put_colour(at + each[0], at + each[1])
            return
        told = headings.colour_told(text)
        if told is not None and of_some(text) is not None:
            self.put_colour(at + told[0], at + told[1])
        elif told is not None:
            self.put_text(at + told[0], at + told[1])

    def worked_in_part(self, at: int, end: int) -> bool:
        """ "For the small wheels stop here.", "Make 1 mum (R1-R5) and 3 babies (R1-R3).": shown, and said."""
        line = self.text[at:end]
        if not (each_its_rounds(line) or (self.last_number and stops_here(line))):
            return False
        self.out.in_part.append((at, end))
        if self.piece is not None:
            self.piece.items.append(RawText(at, end, "other"))
            self.course = None
        return True

    def for_one_copy(self, at: int, end: int) -> bool:
        """ "Second ear: work R3 in cream." behind the rounds of "Ear (make 2)": words in front of that round of it."""
        piece = self.piece
        told = of_one_copy(self.text[at:end]) if piece is not None and piece.make > 1 and self.last_number else None
        if piece is None or told is None or told[0].removesuffix("s") not in piece.name.lower():
            return False
        n = told[1]
        if n > self.last_number + 1 or any(t.kind == "stitch" for t in self.tokens(self.text[at:end])):
            return False  # "Second ear: R1: 6 sc in MR": rounds of its own
        courses = ((i, item.label) for i, item in enumerate(piece.items) if isinstance(item, RawCourse))
        there = next((i for i, label in courses if label is not None and n in label.numbers), len(piece.items))
        dyed = COLOURS.intersection(re.findall(r"[a-z]+", self.text[at:end].lower()))
        piece.items.insert(there, RawText(at, end, "colour" if dyed else "other"))
        self.course = None
        return True
