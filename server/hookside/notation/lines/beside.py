"""What is told beside the rounds of a piece: edgings, lines upon the fabric, tips, how many of it to make."""

from __future__ import annotations

import re

from hookside.notation.askings.kinds import classify
from hookside.notation.askings.weights import EDGING
from hookside.notation.labels import within
from hookside.notation.lines.layout import RawCourse, RawText, spans_of_sentences
from hookside.notation.lines.prose import Prose
from hookside.notation.lines.questions import SENTENCE_END
from hookside.notation.lines.unlabelled import alone

# What ends such a row: "sc evenly around, FO"
_CUT = re.compile(
    r"(?<=[.,;!)]) +(?:then |and )?(?=(?:fasten(?:ing)? off|f\.?o\b|finish off|end off|break|cut|snip|weave)\b)", re.I
)
_ON_SURFACE = re.compile(r"\bsurface (?:sl(?:ip)?\.?[ -]?st|ss\b|crochet\b)", re.I)
# What a "tip" between two rounds is heard for: jobs that are too late behind the last round
_TIPS = frozenset(["stuff", "eyes", "pin", "embroider", "close", "sew", "marker", "tail", "fasten"])


class Beside(Prose):
    """Lines without a label that are no round upon the last one."""

    def edging(self, at: int, end: int, following: tuple[int, int] | None) -> bool:
        """ "border: white, sc all round", on the edges of what is there: a job in words, no round upon the last one."""
        match = EDGING.match(self.text, at, end)
        if match is None or not self.any_course or self.section != "pattern" or self.piece is None:
            return False
        if not any(t.kind == "stitch" for t in self.tokens(self.text[match.end() : end])):
            return False
        goes_on = following is not None and self.label_at(*following) is not None
        if goes_on or self.label_at(match.end(), end) is not None or within.within(self.text, match.end(), end):
            return False  # "Border: sc around / Rnd 2: ...", "Edge: Rnd 3. Ch 1, sc around"
        cut = _CUT.search(self.text, match.end(), end)
        stop = cut.end() if cut is not None else end
        self.piece.items.append(RawText(at, stop, "other"))
        if stop < end:
            self.piece.items.append(RawText(stop, end))
        self.course = None
        return True

    def on_surface(self, at: int, end: int) -> bool:
        """ "With red, surface sl st around rnd 2.", in no round: a line drawn upon the fabric, a job in words."""
        told = _ON_SURFACE.search(self.text, at, end) if self.any_course else None
        if told is None or self.piece is None or within.within(self.text, at, end):
            return False
        stop = next((stop for _, stop in spans_of_sentences(self.text, at, end)), end)
        if told.start() >= stop:
            return False
        self.piece.items.append(RawText(at, stop, "other"))
        if stop < end:
            self.put_text(stop, end)
        self.course = None
        return True

    def so_many(self, text: str) -> bool:
        """ "Make 2." right below the rounds of a piece: so many copies of it."""
        made = alone.copies(text)
        if not made or self.piece is None or self.piece.make > 1 or self.blank or self.section != "pattern":
            return False
        if any(isinstance(i, RawCourse) for i in self.piece.items):
            self.piece.make = made
            return True
        return False

    def tip(self, at: int, end: int) -> bool:
        """ "TIP: stuff the snout first" among the rounds of a piece: a job, and no chapter of notes."""
        items = self.piece.items if self.piece is not None and self.section == "pattern" else []
        if not any(isinstance(i, RawCourse) for i in items):
            return False
        return classify(SENTENCE_END.split(self.text[at:end])[0]) in _TIPS
