"""Lines that no question before knew: the front of a page, work in plain words, jobs, talk."""

from __future__ import annotations

from hookside.notation.labels.references import EVEN
from hookside.notation.lines.copies.somecopies import SomeCopies
from hookside.notation.lines.layout import spans_of_sentences
from hookside.notation.lines.rungs.asked import Asked
from hookside.notation.lines.unlabelled.alone import hook_ahead


class Talk(SomeCopies):
    """Where does a line go that is no course by its label and names nothing?"""

    def front_matter(self, line: Asked) -> str | None:
        if self.section != "front":
            return None
        if self._opens_plainly(line.at, line.end) and not self.names_all(line.text, line.following):
            return None
        return self.front(line.text, line.at, line.end)

    def even_rounds_ahead(self, line: Asked) -> str | None:
        if line.following is None or not self.even_ahead(line.text, line.following):
            return None
        self.put_text(line.at, line.end)
        return "story"

    def plain_work(self, line: Asked) -> str | None:
        if not self._opens_plainly(line.at, line.end):
            return None
        tools = hook_ahead(line.text)
        if tools:
            self.put_text(line.at, line.at + tools)
        return self.unlabelled(line.at + tools, line.end)

    def even_rounds_behind(self, line: Asked) -> str | None:
        """ "Go on in a spiral. Work 6 rounds even.": rounds that are told behind a sentence."""
        if self.piece is None or self.section != "pattern" or not self.last_number:
            return None
        for start, stop in spans_of_sentences(self.text, line.at, line.end)[1:]:
            told = EVEN.match(self.text[start:stop])
            if told is not None and (told["n"] or told["n2"]):
                self.put_text(line.at, start)
                return self.unlabelled(start, line.end)
        return None

    def talk(self, line: Asked) -> str:
        self.put_text(line.at, line.end)
        if self._asks(line.at, line.end):
            return "cue"
        return "numbered" if line.bare is not None and self.next_in_number(line.bare) else "story"
