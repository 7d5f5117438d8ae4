"""Lines that open a section of the page: what one needs, notes, the sewing up."""

from __future__ import annotations

import re

from hookside.notation.askings.kinds import classify
from hookside.notation.lines import furniture, sections
from hookside.notation.lines.copies.asked import copies_of_the_cut
from hookside.notation.lines.copies.somecopies import SomeCopies
from hookside.notation.lines.heads import headings
from hookside.notation.lines.rungs.asked import BOOKISH, Asked

# "Fasten off, leave a tail (x2)": no two tails
_CUTS = re.compile(r"\W{0,3}(?:f\.?/?o\b|fasten|finish|cut|break|leave|weave|close)", re.I)
_GAUGE = re.compile(r"\W*(?:gauge|tension)\b[^\n]{0,40}\d", re.I)
# "close", "finish off" behind the last round are jobs, and no headings of the sewing up
_JOBS = ("close", "stuff", "weave", "eyes", "fasten")


class Chapters(SomeCopies):
    """Is it the heading of a section, or does it only look like one?"""

    def section_named(self, line: Asked) -> str | None:
        named = sections.section_of(line.text)
        if named is None:
            return None
        section, behind = named
        at, end, following = line.at, line.end, line.following
        if self.ends_in(line.text, at):
            if self.course is None:
                return None
            self.course.end = end
            return "continuation"
        if section == "notes" and self.tip(at + behind, end):
            self.put_text(at + behind, end)
            return "cue"
        if section == "assembly" and following is not None and self.counts_on(*following):
            number = self.number_at(*following)
            if number is not None and number.numbers[0] > 1:
                self.put_text(at, end)  # "joining the tail" above "5) ..." of the tail
                return "cue"
        below = following is not None and self.opens_course(*following)
        if section in ("yarn", "materials") and behind and below and self.yarn_of_part(line.text[behind:]):
            if self.no_round_yet():
                self.put_colour(at + behind, end)
            else:
                self.put_text(at, end)  # "Yarn: grey." between two rounds
            return "cue"
        if below and line.text.strip(" #*_:=-~").lower() in headings.PARTS:
            return None
        return self.open_section(self.meant(section, line.text), at + behind, end, line.text)

    def sewing_up(self, line: Asked) -> str | None:
        if not self.any_course:
            return None
        text, at, end, following = line.text, line.at, line.end, line.following
        inline = sections.sewing_up_inline(text)
        if inline is not None and self._asks(at + inline, end):
            return self.open_section("assembly", at + inline, end, text)
        if following is None or self.opens_course(*following) or self.counts_on(*following):
            return None
        job = classify(text) in _JOBS and (
            text.islower() or not self._asks(*following) or self.courses_soon(line.index)
        )
        if job or ">" in line.first or not sections.sewing_up(text):
            return None
        return self.open_section("assembly", end, end, text)

    def gauge_told(self, line: Asked) -> str | None:
        if self.any_course or _GAUGE.match(line.text) is None:
            return None
        self.out.gauge = f"{self.out.gauge} {self.page.quote(line.at, line.end)}".strip()
        return "gauge"

    def finishing_off(self, line: Asked) -> str | None:
        if not self.any_course:
            return None
        if not furniture.finishes_off(line.text) and not (_CUTS.match(line.text) and copies_of_the_cut(line.text)):
            return None
        self.put_text(line.at, line.end)
        return "cue"

    def book_line(self, line: Asked) -> str | None:
        if self.section not in BOOKISH:
            return None
        noted = self.blank and self.piece is not None and self.section == "notes"
        return None if noted and self._asks(line.at, line.end) else self.in_section(line.text, line.at, line.end)
