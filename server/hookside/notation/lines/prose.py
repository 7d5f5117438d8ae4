"""Where words go that are no work: into a piece as told, a section, the front matter."""

from __future__ import annotations

import re

from hookside.notation.askings.askings import askings
from hookside.notation.askings.colournames import is_colour, is_patterned
from hookside.notation.askings.colourtalk import only_a_yarn
from hookside.notation.askings.kinds import classify
from hookside.notation.askings.short import named_behind, named_jobs
from hookside.notation.labels import references
from hookside.notation.lines.colours.headcolours import Colours, colours_told
from hookside.notation.lines.colours.ownyarns import is_yarn, own_shade
from hookside.notation.lines.colours.titlecolours import dyed_by, named_before
from hookside.notation.lines.copies.asked import copies
from hookside.notation.lines.heads import headings
from hookside.notation.lines.heads.headjobs import jobs_told
from hookside.notation.lines.keys.definitions import definitions
from hookside.notation.lines.keys.keyline import cut_short
from hookside.notation.lines.layout import RawCourse, RawPiece, RawText, hook_part, sentences, text_start
from hookside.notation.lines.starttail import starting_tails
from hookside.notation.lines.unlabelled import alone
from hookside.notation.lines.unlabelled.roundbelow import RoundBelow
from hookside.notation.vocabulary import ORDINAL_WORDS

MOST_NAMES = 1000  # that a text explains; those beyond are words that nobody knows
_HOOK = re.compile(r"[^\n.;]{0,30}?\b(\d{1,2}(?:[.,]\d{1,2})?\s*mm)\b[^\n.;,]{0,30}", re.I)
_SHORT_LINE = 45  # letters of a line that the page's margin did not end
_LEADS_ON = re.compile(
    r"\b(?:a|an|and|or|then|your|with|but|so|if|when|for|both|each)$", re.I
)
_FOR_A_THING = re.compile(r"(?:and |then )?for (?:the|his|her|its) [a-z]+", re.I)  # "for the mane cut pieces of yarn"
LONGEST_TOLD = 2_000  # characters of a sentence over several lines; each line more is asked with all before it

# What a leaflet or magazine prints above the name: "Leaflet No. 214", "Issue 12"
_IMPRINT = re.compile(r"\b(?:leaflet|booklet|pattern|design|issue|volume|vol|series|no)\b[^\d]{0,6}\d", re.I)
_NAME = re.compile(r"[A-Za-z][\w'&-]*(?: [\w'&-]+){0,5}")

# What stands under a gauge: "4 mm hook, worsted yarn, stuffing", as against "with a 4 mm hook", "over 10 rows"
_MATERIAL = re.compile(r"\b(?:yarn|wool|cotton|acrylic|stuffing|fib(?:er|re)fill|polyfill|eyes|needle|hook)\b", re.I)
_OF_GAUGE = re.compile(
    r"^\W*(?:with|using|on|in|over|if|use)\b|=|\b(?:gauge|tension|swatch|rows?|rounds?|rnds?|sts?|stitch(?:es)?|important)\b",
    re.I,
)


_YARN_SEAM = re.compile(r"\s*(?:,|&|\+|/|\band\b|\bthen\b)\s*", re.I)
_ENDS = frozenset(["fasten", "tail", "close", "stuff"])

# "EARS in" of "EARS in oat", "Body - starts in" of "Body - starts in snow"
_LEADS_IN = re.compile(r"(?:[\s-]\s*(?:start|beg[iu]n)[a-z]*)?\s(?:in|with|using)(?: the)?\s*$", re.I)

_SENTENCE = 4  # words of one, and no name


class Prose(RoundBelow):
    """Puts sentences where they belong."""

    def put_text(self, at: int, end: int) -> None:
        if self.piece is None:
            self.out.notes.append(self.page.quote(at, end))
            return
        last = self.piece.items[-1] if self.piece.items else None
        if (
            isinstance(last, RawText)
            and last.end - last.start < LONGEST_TOLD
            and not self.blank
            and self.text[last.start : last.end].rstrip()[-1:] not in ".!?:"
            and (
                self.text[at : at + 1].islower()
                or self.unfinished(at)
                or (last.end - last.start > 40 and not self._asks(at, end))
            )
            and not self.text[last.end : at].strip()  # a bullet begins a sentence of its own
            and (self._asks(last.start, last.end) or not self._asks(at, end))  # nor does a story go on in an asking
            and not self._second_job(last, at, end)
            and not (last.job == "colour" and references.LIKE_PIECE.match(self.text, at, end))  # below its yarn
        ):
            last.end = end
        else:
            self.piece.items.append(RawText(at, end))
        self.course = None

    def _second_job(self, last: RawText, at: int, end: int) -> bool:
        """ "fold flat / leave tail for sewing": two short lines that are a job each, and no sentence over two lines."""
        line = self.text[text_start(self.text, last.end) : last.end].strip()
        return (
            (len(line) <= _SHORT_LINE or not self.fills(last.end, at, end))
            and not self.unfinished(at)
            and line[-1:] not in ",-&+("
            and not _LEADS_ON.search(line)
            and self._asks(last.start, last.end)
            and (
                classify(re.split(r"[,.;]", self.text[at:end])[0]) not in (None, "other")
                or (_FOR_A_THING.match(self.text, at, end) is not None and self._asks(at, end))
            )
        )

    def put_job(self, at: int, end: int) -> None:
        """ "stuff" on a line of its own."""
        if self.piece is not None:
            first, *more = sentences(self.text, at, end) or [(at, end)]
            told = self.text[at:end]
            kind = alone.job(told) or alone.job(told.lower())
            named = named_jobs(told) if kind is None else []
            self.piece.items.extend(RawText(at + a, at + b, job) for job, a, b in named)
            if not named:
                self.piece.items.append(RawText(*first, kind))
            if more and not named:
                self.piece.items.append(RawText(more[0][0], end))
        self.course = None

    def put_aside(self, at: int, end: int) -> None:
        """ "eyes! 4 rows up 6 apart" between two rounds that are told by their counts: one thing to do, whole."""
        if self.piece is not None:
            text = self.text[at:end]
            first = alone.job(text.split()[0].strip(":!,."))
            self.piece.items.append(RawText(at, end, classify(text) or first or named_behind(text) or "other"))
        self.course = None

    def note_of_row(self, at: int, end: int) -> str:
        """ "eyes after R5" in the last column of a table: a thing to do or to know at its row, and never a part."""
        while self.text[at : at + 1] == " ":
            at += 1
        if self._asks(at, end):
            self.put_text(at, end)
        else:
            self.put_aside(at, end)
        self.course = None
        return "cue"

    def talk_then_chains(self, parts: list[tuple[int, int]], following: tuple[int, int] | None) -> bool:
        """ "This part is worked back and forth. Make 8 chains." above row 1: the chains stand last in their line."""
        if not parts:  # "...": a line without a sentence
            return False
        named = len(self.text[slice(*parts[0])].split()) < _SENTENCE  # "BODY. With brown make 3 ch"
        ahead = self.piece is None and self.section == "front" and not named  # below the title alone
        if len(parts) < 2 or following is None or not (self.begins(*following) and (ahead or self.no_round_yet())):
            return False
        if not self.founds(*parts[-1], following):
            return False
        told = self.tokens(self.text[parts[0][0] : parts[-2][1]])
        told = [t for t in told if t.text not in ORDINAL_WORDS]  # "Main colour: navy. Second: cream. Ch 11."
        return not any(t.kind == "number" or (t.kind == "stitch" and t.key not in ("ch", "turn")) for t in told)

    def put_colour(self, at: int, end: int) -> None:
        """The letter of a yarn on a line of its own."""
        if self.piece is not None:
            self.piece.items.append(RawText(at, end, "colour"))
        self.course = None

    def put_word_aside(self, at: int, end: int) -> None:
        """ "dove" of "Body (dove)": shown in front of the first round, as it may be a yarn."""
        if self.piece is not None and self.piece.headed:
            self.piece.items.append(RawText(at, end, "other"))

    def put_told(self, at: int, end: int) -> None:
        """The color and the jobs that a heading in front of its first round tells: "Leg (grey, fill it): R1 ..."."""
        text = self.text[at:end].rstrip(" :,-\n")
        self.put_jobs(at, text)
        several = colours_told(text, self.yarns_of_headings())
        if several is not None:
            self.put_colours(at, several)  # "Wheels (black, 4 pieces): R1 ..."
            return
        shade = headings.colour_told(text) or own_shade(text, self.yarns_of_headings())
        if shade is not None:
            self.put_colour(at + shade[0], at + shade[1])

    def put_jobs(self, at: int, text: str) -> None:
        """What the heading at `at` asks the hands: "Legs (make 4), stuff lightly", "Ears x2 (long tail!)"."""
        stuffed = headings.stuffing_told(text)
        if stuffed is not None:
            self.put_text(at + stuffed[0], at + stuffed[1])
        for first, stop in jobs_told(text):
            if stuffed is None or stop <= stuffed[0] or first >= stuffed[1]:
                self.put_text(at + first, at + stop)

    def called_before(self, text: str) -> None:
        """ "HEAD - " of "HEAD - A": the name of the piece at hand is what stands before its colour."""
        name = headings.tidy_name(_LEADS_IN.sub("", copies(text)[0]))
        if self.piece is not None and len(name) > 1 and self.piece.name.lower().startswith(name.lower()):
            self.piece.name = name

    def put_colours(self, at: int, told: Colours) -> None:
        """Several colours of the heading at `at`: the first before the first course, the others where they begin."""
        if self.piece is None:
            return
        self.called_before(self.text[at : at + told.start])
        self.piece.make = max(self.piece.make, told.copies)
        first, self.piece.colours = dyed_by(at, told, named_before(self.text[at : at + told.start]))
        if first is not None:
            self.put_colour(first.start, first.end)

    def _ends_part(self, rest: str) -> bool:
        """Is nothing told but what ends the part at hand, and no other part is put to it?"""
        begun = self.piece is not None and any(isinstance(i, RawCourse) for i in self.piece.items)
        kinds = [kind for told in re.split(r"[.;]", rest) for kind, _, _ in askings(told)] if begun else []
        return bool(kinds) and _ENDS.issuperset(kinds)

    def yarn_of_part(self, told: str) -> bool:
        """ "Yarn: blue", "Colors: A and B" below the name of a part: what this part is worked in, and no list."""
        names = [name for name in _YARN_SEAM.split(told.strip(" .")) if name]
        materials = self.told_yarns()
        each = names and all(is_colour(n) or is_yarn(n, materials) or only_a_yarn(n, self.yarns()) for n in names)
        return bool(each) or is_patterned(told)

    def open_section(self, section: str, at: int, end: int, text: str) -> str:
        self.course = None
        rest = self.text[at:end].strip()
        if section == "pattern":
            self.section = "pattern"
            return "section"
        if section == "assembly" and rest and self._ends_part(rest):
            self.put_text(at, end)  # "finish: fasten off, leave a tail." behind the rounds of a part
            return "cue"
        if section == "assembly":
            name = headings.tidy_name(
                re.split(r"[:\-]", self.text[at - 1 - (at - 1 - text_start(self.text, at)) : at], maxsplit=1)[0]
            )
            self.piece = RawPiece(name or "Assembly", 1, at, assembly=True)
            self.out.pieces.append(self.piece)
            self.section = "assembly"
            self.last_number = 0
            if rest:
                self.put_text(at, end)
            return "section"
        self.section = section
        if rest:
            self.in_section(self.text[at:end], at, end)
            if section in ("hook", "gauge", "terms"):
                self.section = "materials" if section == "hook" else section
        return "section"

    def in_section(self, text: str, at: int, end: int) -> str:
        quote = self.page.quote(at, end).strip(" -*•")
        if not quote:
            return "blank"
        if self.section in ("materials", "yarn", "hook"):
            if not self.out.hook and (self.section == "hook" or re.search(r"\bhook\b", text, re.I)):
                match = _HOOK.search(text)
                if match or self.section == "hook":
                    self.out.hook = hook_part(quote)
            self.out.materials.append(quote)
            return "materials"
        if self.section == "gauge" and self.out.gauge and _MATERIAL.search(text) and not _OF_GAUGE.search(text):
            self.section = "materials"
            return self.in_section(text, at, end)
        if self.section == "gauge":
            self.out.gauge = f"{self.out.gauge} {quote}".strip()
            return "gauge"
        if self.section == "abbreviations":
            self.define(text)
            return "abbreviations"
        if self.section == "notes" and "=" in text:
            self.define(text)
        self.noted_tail(at, end)
        self.out.notes.append(quote)
        return "notes"

    def noted_tail(self, at: int, end: int) -> None:
        """ "Leave a long tail at the start." ahead of all parts: asked for in front of the first round."""
        if not self.any_course:
            self.tails += starting_tails(self.text, at, end)

    def defines_on(self, index: int, end: int) -> bool:
        """The rest of a key whose line was full: "...; dec., work" above "2 d.c. together; inc., ..." is no round."""
        if self.any_course or self.blank or not index:
            return False
        above = self.text[slice(*self.used_lines[index - 1])]
        if not cut_short(above):
            return False
        self.define(f"{above.rstrip()} {self.text[self.used_lines[index][0] : end].strip()}")
        return True

    def define(self, text: str) -> None:
        if len(self.out.abbreviations) < MOST_NAMES:
            self.out.abbreviations.update(definitions(text))

    def front(self, text: str, at: int, end: int) -> str:
        quote = headings.tidy_name(self.page.quote(at, end))
        if (
            not self.out.title
            and quote
            and len(quote) <= 120
            and not (text.rstrip().endswith(".") and len(quote.split()) > 3)
            and not re.match(r"\s*[\w ]+\s=\s", text)
        ):
            self.out.title = quote
            return "title"
        if _IMPRINT.search(self.out.title) and not self.out.notes and _NAME.fullmatch(quote):
            self.out.notes.append(self.out.title)
            self.out.title = quote
            return "title"
        if re.search(r"^\s*[A-Za-z][\w \-/]{0,16}\s*=\s", text):
            self.define(text)
            return "abbreviations"
        if not self.out.hook:
            match = re.match(r"\s*(?:crochet )?hook\b", text, re.I)
            if match:
                self.out.hook = self.page.quote(at, end)
        if self.any_course or self.piece is not None:
            self.put_text(at, end)
            return "story"
        self.noted_tail(at, end)
        self.out.notes.append(self.page.quote(at, end))
        return "notes"
