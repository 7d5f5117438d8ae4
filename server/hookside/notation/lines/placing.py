"""Where a line goes once it is known: into a course, a piece, a section, the front matter."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour
from hookside.notation.askings.colourtalk import colour_talk
from hookside.notation.askings.kinds import classify
from hookside.notation.labels import within
from hookside.notation.labels.label import Label, at_line_start, bare_number, numbers_of
from hookside.notation.lines import alone, furniture, headings, sections
from hookside.notation.lines.definitions import definitions, is_definition
from hookside.notation.lines.goingon import GoingOn
from hookside.notation.lines.layout import (
    MOST_COURSES,
    MOST_PIECES,
    RawCourse,
    RawPiece,
    RawText,
    hook_part,
    spans_of_sentences,
    text_start,
)
from hookside.notation.vocabulary import number_of

MOST_NAMES = 1000  # that a text explains; those beyond are words that nobody knows
# A row in front of row 1 that has a name and no number
_EDGING = re.compile(r"(?:for )?(?:the )?(?P<name>(?:outer )?(?:border|edge|edging|trim))\b\s*(?::|\s-)\s*(?=\S)", re.I)
_GROUND_ROW = re.compile(r"(?:foundation|set[ -]?up|base|beginning|starting)\b", re.I)
_SO_MANY_ROUNDS = re.compile(r"(?P<n>\d{1,2}) ?(?:rnds|rounds|rows)\b", re.I)
_HOOK = re.compile(r"[^\n.;]{0,30}?\b(\d{1,2}(?:[.,]\d{1,2})?\s*mm)\b[^\n.;,]{0,30}", re.I)

# "Begin by working 6 sc in a magic ring (6 sc).": a first round told in a sentence
_INTO_RING = re.compile(
    r"(?:(?:to )?(?:begin|start)\w*,? (?:off )?(?:by |with )?)?(?:(?:work|mak|crochet)(?:e|ing)? )?\d{1,2} "
    r"(?:sc|dc|single crochets?|double crochets?) (?:in|into) (?:a|the|your)? ?(?:magic|adjustable|sliding)? ?"
    r"(?:ring|circle|loop)\b|"
    r"\W*(?:commenc|begin|start)\w* (?:with )?(?:2|3|two|three) ch(?:ain)?s?\.?,? (?:and |then )*(?:work(?:ing)? )?"
    r"\d{1,2} (?:sc|dc|[ds]\.c\.|single crochets?|double crochets?) (?:in|into) (?:the )?(?:first|1st|second|2nd)\b",
    re.I,
)

_SHORT_LINE = 45  # letters of a line that the page's margin did not end
_LEADS_ON = re.compile(
    r"\b(?:a|an|and|or|then|your|with|but|so|if|when|for|both|each)$", re.I
)
# "Begin as for the body and work the first three rounds. 4th round: ..."
_FIRST_OF = re.compile(
    r"\W*(?:begin|start|commence|work)\w* (?:exactly )?"
    r"(?P<as>(?:as|like|the same as) (?:for )?(?:the )?[a-z][a-z ]{1,30}?)"
    r"(?:,? (?:and|by) |, )(?:(?:work|do|mak|crochet)(?:e|ing)? )?(?:for )?(?:the |its )?first "
    r"(?P<n>\d{1,2}|two|three|four|five|six|seven|eight|nine|ten) (?:rounds|rnds|rows)\b",
    re.I,
)
# "Using navy, work the first 5 rounds as given for the head (30 sts.).": the same, the other way round
FIRST_AS = re.compile(
    r"(?:^|(?<=[.!?:] ))(?P<lead>(?:using|with|in) [^.,;:()\n\d]{3,30},? )?(?:now )?"
    r"(?:work|make|crochet|follow|repeat|do) (?:the |its )?first "
    r"(?P<n>\d{1,2}|two|three|four|five|six|seven|eight|nine|ten) (?:rounds|rnds|rows) "
    r"(?P<as>(?:exactly )?(?:as|of|like)(?: (?:given|described|written|worked|set out))?(?: (?:for|in|on|of))? "
    r"(?:the )?[a-z][a-z ]{1,30}?)(?=\s*[(\[.,;=-]|$)",
    re.I,
)
LONGEST_TOLD = 2_000  # characters of a sentence over several lines; each line more is asked with all before it


class Placing(GoingOn):
    """Puts courses, headings and sentences where they belong."""

    def meant(self, section: str, text: str) -> str:
        """ "Construction" tells how it is built in front of the pieces, and how to put them together behind them."""
        built = section == "notes" and self.any_course and re.match(r"\W*construction\b", text, re.I)
        return "assembly" if built else section

    def edging(self, at: int, end: int, following: tuple[int, int] | None) -> bool:
        """ "border: white, sc all round", on the edges of what is there: a job in words, no round upon the last one."""
        match = _EDGING.match(self.text, at, end)
        if match is None or not self.any_course or self.section != "pattern" or self.piece is None:
            return False
        if not any(t.kind == "stitch" for t in self.tokens(self.text[match.end() : end])):
            return False
        goes_on = following is not None and at_line_start(self.text, *following) is not None
        if goes_on or within.within(self.text, match.end(), end):
            return False  # "Border: sc around / Rnd 2: ..."
        self.piece.items.append(RawText(at, end, "other"))
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

    def _coloured(self, following: tuple[int, int] | None) -> bool:
        """Is the next line a colour and nothing else: "With white:"?"""
        return following is not None and classify(self.text[following[0] : following[1]]) == "colour"

    def _shade_below(self, text: str) -> bool:
        """ "Wing (2x) / Petrol / Rnd 1: ...": one plain word below a part's name is its yarn, whatever the shade is."""
        if self.piece is None or not self._under_heading() or not text.strip().isalpha() or text.isupper():
            return False
        named = set(re.findall(r"[a-z]+", self.piece.name.lower())) & headings.PARTS
        return bool(named or self.piece.make > 1) and text.strip().lower().rstrip("s") not in headings.PARTS

    def ensure_piece(self, at: int) -> RawPiece:
        if self.piece is None:
            self.piece = RawPiece("", 1, at, headed=False)
            self.out.pieces.append(self.piece)
        return self.piece

    def labelled(self, label: Label, end: int) -> str:
        if label.relative == 1 and not self.last_number and _GROUND_ROW.match(self.text, label.start):
            label.numbers, label.relative = [0], 0
        if self.counts_rounds(label, end):
            label.numbers, label.relative = [], label.numbers[0]
        rest = within.within(self.text, label.end, end)
        if not rest and not label.explicit:
            rest = self.numbers_within(label, end)
        here = label
        for nxt in [*rest, None]:
            stop = nxt.start if nxt is not None else end
            name = chains = None
            if nxt is not None and (not nxt.numbers or nxt.numbers[0] <= (here.numbers[-1] if here.numbers else 0)):
                cut, name, chains = self.heading_tail(here.end, stop)
                stop = cut
            self.add_course(here, here.end, stop)
            if nxt is None or self.out.full:
                break
            if name is not None:
                self.new_piece(name[0], name[1], stop)
            if chains is not None:
                self.foundation(*chains)
            here = nxt
        return "course"

    def counts_rounds(self, label: Label, end: int) -> bool:
        """ "4 rnds: sc around" behind round 4, or in front of round 9: four rounds, and none of that number."""
        told = _SO_MANY_ROUNDS.match(self.text, label.start, label.end)
        if told is None or not self.last_number or label.numbers != [n := int(told["n"])]:
            return False
        following = self.line_after((label.start, end))
        after = at_line_start(self.text, *following) if following is not None else None
        goes_on = after is not None and after.numbers[:1] == [self.last_number + n + 1]
        return goes_on or 1 < n <= self.last_number

    def numbers_within(self, label: Label, end: int) -> list[Label]:
        """ "1. 6 sc in MR (6) 2. inc x 6 (12)": numbers that go up by one, each behind a full stop or a count."""
        found: list[Label] = []
        expected = label.numbers[0 if label.dash else -1] + 1
        for match in within.NUMBER_WITHIN.finditer(self.text, label.end, end):
            numbers = numbers_of(match["numbers"])
            if numbers and numbers[0] in (expected, 1):
                found.append(Label(match.start("numbers"), match.end(), numbers, None, explicit=False))
                expected = numbers[-1] + 1
        return found

    def heading_tail(self, start: int, stop: int) -> tuple[int, tuple[str, int] | None, tuple[int, int] | None]:
        """ "... Fasten off. ARMS (make 2): Ch 8." -> where the heading starts, the heading, the chains."""
        chains = None
        seams = [m.end() for m in re.finditer(r"[.!:)\]}]\s*", self.text[start:stop])][-4:]
        for seam in [0, *seams]:
            tail = self.text[start + seam : stop]
            if tail.strip() and furniture.foundation(tail) is not None:
                chains = (start + seam, stop)
                stop = start + seam
                break
        text = self.text[start:stop]
        for match in reversed([m for m in re.finditer(r"[.!)\]}]\s*", text)][-3:]):
            bare = text[match.end() :].strip()
            if not bare or (bare[0].islower() and text[:1] != bare[0]):
                continue  # "... 6 dc into the first. 2nd round:"
            head = headings.heading(bare, True, True) or (
                headings.heading(bare.rstrip("."), True, True) if len(bare.split()) <= 6 else None
            )
            if head is not None:
                return start + match.end(), head, chains
        return stop, None, chains

    def add_course(self, label: Label, start: int, end: int) -> None:
        if not self.any_course or self.section != "assembly":
            self.section = "pattern"
        numbers = label.numbers
        if numbers:
            first = numbers[0]
            if (
                self.piece is not None
                and first == 1
                and self.last_number >= 1
                and any(isinstance(i, RawCourse) and i.label for i in self.piece.items)
            ):
                founded = []
                while isinstance(last := self.piece.items[-1], RawCourse) and last.foundation:
                    founded.append(self.piece.items.pop())
                self.new_piece("", 1, label.start, headed=False)
                self.piece.items.extend(reversed(founded))
            elif (
                self.piece is not None
                and self.piece.assembly
                and first == 1
                and not any(isinstance(i, RawCourse) for i in self.piece.items)
            ):
                self.piece.assembly = False
            self.last_number = numbers[-1]
        elif label.relative:
            self.last_number += label.relative
        piece = self.ensure_piece(label.start)
        self.section = "pattern"
        course = RawCourse(label, start, end, label.kind)
        self.put_course(piece, course)
        self.course = course
        self.any_course = True

    def glued(self, at: int, inside: list[Label], end: int, index: int) -> str:
        """A line whose first label stands in its middle: a heading glued to its course, or a whole text in one line."""
        before = self.text[at : inside[0].start]
        cut, name, chains = self.heading_tail(at, inside[0].start)
        if chains is not None:
            before = self.text[at : chains[0]]
            cut = min(cut, chains[0])
        if name is None:
            head = headings.heading(before.strip(), True, True)
            if head is not None and self.piece is not None and (is_colour(before) or colour_talk(before)):
                head = None  # "[Blue] Rnd 7:"
            if head is not None:
                name, cut = head, at
            elif not self.out.title and not self.any_course and len(before.split()) <= 8:
                self.out.title = headings.tidy_name(before)
                cut = at
        if cut > at:
            self.loose(at, cut, inside[0].numbers[0] if name is None and inside[0].numbers else 0)
        if name is not None:
            self.new_piece(name[0], name[1], cut)
        if chains is not None:
            self.foundation(*chains)
        self.labelled(inside[0], end)
        return "course"

    def loose(self, at: int, end: int, follows: int = 0) -> None:
        """Text before the first label of a line: front matter, or sentences between courses.

        `follows`: the number of that label; where it is a second round, a ring told here is the first one.
        """
        for start, stop in spans_of_sentences(self.text, at, end):
            sentence = self.text[start:stop].strip()
            begun = self.piece is not None and any(isinstance(i, RawCourse) for i in self.piece.items)
            if follows == 2 and not begun and _INTO_RING.match(sentence):
                self.labelled(Label(start, start, [1], "round"), stop)
                continue
            alike = _FIRST_OF.match(self.text, start, stop) if not begun and follows else None
            if alike is not None and follows == number_of(alike["n"]) + 1:
                at_name, behind = alike.span("as")
                self.labelled(Label(at_name, at_name, list(range(1, follows)), "round"), behind)
                continue
            if furniture.foundation(sentence) is not None:
                self.foundation(start, stop)
                continue
            if self.any_course or self.piece is not None:
                self.put_text(start, stop)
                continue
            if is_definition(sentence, self.terms):
                self.define(sentence)
                continue
            section = re.match(r"(materials|gauge|tension|hook|yarn|abbreviations|notes?|terms)\s*:\s*", sentence, re.I)
            if section:
                found = sections.section_of(sentence[: section.end()])
                if found:
                    self.open_section(found[0], start + section.end(), stop, sentence)
                    continue
            if not self.out.title and len(sentence.split()) <= 8:
                self.out.title = headings.tidy_name(sentence)
            else:
                self.in_section(sentence, start, stop) if self.section != "front" else self.out.notes.append(
                    self.page.quote(start, stop)
                )

    def first_as(self, at: int, end: int, following: tuple[int, int] | None) -> bool:
        """Rounds of another part worked first, on a line above "6th round:": they are placed, with their colour."""
        if self.piece is None or following is None or any(isinstance(i, RawCourse) for i in self.piece.items):
            return False
        match = FIRST_AS.search(self.text[at:end])
        if match is None:
            return False
        n = number_of(match["n"])
        after = at_line_start(self.text, *following) or bare_number(self.text, *following)
        if after is None or after.numbers[:1] != [n + 1]:
            return False
        begins = at + match.start("as")
        if told := self.text[at : at + (match.end("lead") if match["lead"] else match.start())].rstrip(", "):
            self.put_text(at, at + len(told))
        self.labelled(Label(begins, begins, list(range(1, n + 1)), "round"), end)
        return True

    def new_piece(self, name: str, make: int, at: int, headed: bool = True) -> None:
        self.piece = RawPiece(name, make, at, headed=headed)
        self.out.pieces.append(self.piece)
        if len(self.out.pieces) > MOST_PIECES:
            self.out.bounds.setdefault("too-many-pieces", at)
        self.course = None
        self.last_number = 0
        self.section = "pattern"

    def foundation(self, at: int, end: int) -> str:
        at += furniture.foundation(self.text[at:end]) or 0
        piece = self.ensure_piece(at)
        piece.items.append(RawCourse(None, at, end, None, foundation=True))
        self.course = None
        if self.section != "assembly":
            self.section = "pattern"
        return "foundation"

    def put_course(self, piece: RawPiece, course: RawCourse) -> None:
        piece.items.append(course)
        self.courses += 1
        if self.courses > MOST_COURSES:
            self.out.bounds.setdefault("too-many-courses", course.start)

    def unlabelled(self, at: int, end: int) -> str:
        piece = self.ensure_piece(at)
        course = RawCourse(None, at, end, None)
        self.put_course(piece, course)
        self.course = course
        self.any_course = True
        if self.section != "assembly":
            self.section = "pattern"
        return "course"

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
            and classify(re.split(r"[,.;]", self.text[at:end])[0]) not in (None, "other")
        )

    def put_job(self, at: int, end: int) -> None:
        """ "stuff" on a line of its own."""
        if self.piece is not None:
            self.piece.items.append(RawText(at, end, alone.job(self.text[at:end])))
        self.course = None

    def put_colour(self, at: int, end: int) -> None:
        """The letter of a yarn on a line of its own."""
        if self.piece is not None:
            self.piece.items.append(RawText(at, end, "colour"))
        self.course = None

    def open_section(self, section: str, at: int, end: int, text: str) -> str:
        self.course = None
        rest = self.text[at:end].strip()
        if section == "pattern":
            self.section = "pattern" if self.any_course else "front-pattern"
            self.section = "pattern"
            return "section"
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
        if self.section == "gauge":
            self.out.gauge = f"{self.out.gauge} {quote}".strip()
            return "gauge"
        if self.section == "abbreviations":
            self.define(text)
            return "abbreviations"
        if self.section == "notes" and "=" in text:
            self.define(text)
        self.out.notes.append(quote)
        return "notes"

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
        self.out.notes.append(self.page.quote(at, end))
        return "notes"
