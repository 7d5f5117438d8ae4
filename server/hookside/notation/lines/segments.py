"""Stages two and three together: lines and labels -> the pieces of a text in order, bodies still unread."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour
from hookside.notation.askings.colourtalk import colour_talk
from hookside.notation.askings.kinds import classify
from hookside.notation.labels import within
from hookside.notation.labels.label import Label, at_line_start, bare_number
from hookside.notation.lines import alone, furniture, headings, sections
from hookside.notation.lines.definitions import DEFINES as _DEFINES
from hookside.notation.lines.definitions import is_definition, lists_several
from hookside.notation.lines.layout import MOST_LINES, MOST_TALK, Layout, RawCourse
from hookside.notation.lines.placing import Placing
from hookside.notation.lines.questions import BULLET, FOUNDATION
from hookside.notation.page.cleaning import Page
from hookside.notation.vocabulary import NUMBER_WORDS, number_of
from hookside.pattern import Terms

_GLUED = re.compile(
    r"(?P<name>[A-Z][A-Za-z' ]{1,24}(?:,? ?[(\[]?(?i:make|x) ?\w{1,6}[)\]]?|"
    r" \((?:two|three|four|five|six|eight|[2-8])\))?)(?:\s*:|\s+-|\.\s+-+|(?<=\))\.)\s*(?=\S)"
)
# A round told before "2nd round:"
_BEGINS_AT = re.compile(r"\W*(?:start|begin)\w* (?:at|from|with|in|by)\b", re.I)
_BEGUN = re.compile(r"(?:commence|begin|start|make|work|chain|ch\b|with\b|using\b|\d)", re.I)
# "Left fin: same as the right one"
_LIKE_ANOTHER = re.compile(
    r"(?:(?:make|work|crochet|do|repeat|follow|complete|exactly|just|worked|made|the)\s+)*(?:same|as|like|"
    r"identical|repeat|rounds? \d+\s*(?:-|to)\s*\d+ of)\b",
    re.I,
)
_GLUED_LIKE = re.compile(rf"(?P<name>[A-Z][A-Za-z' ]{{1,24}}\d)\s*[:-]\s*(?={_LIKE_ANOTHER.pattern})", re.I)
_MAKE_LINE = re.compile(
    r"\s*[(\[]?\s*(?:(?:make|crochet|you need|need)\s+|x\s*)(?P<n>\d{1,3}|"
    r"[a-z]+)\b(?P<rest>[^.\n]{0,40})[)\]]?[.:]?\s*$"
    r"|\s*[(\[]?\s*(?P<n2>\d{1,2}|two|three|four|five|six)\s*(?:pieces?|pcs|parts|details|x|times|of each|"
    r"alike)\s*[)\]]?[.:]?\s*$",
    re.I,
)
# "Make another piece in the same way.", behind its last course
_ONE_MORE = re.compile(
    r"(?:^|[.!]\s+)(?:now |then )?(?:make|work|crochet)\s+(?:(?:another|a\s+second)(?:\s+(?!rows?|rounds?|rnds?|chain|"
    r"ch\b|loop|ring|stitch|st\b|sc\b|knot)[a-z]+)?|(?P<n>one|two|three|1|2|"
    r"3)\s+more)(?:\s+(?:exactly\s+)?(?:the\s+same|"
    r"in\s+the\s+same\s+way|the\s+same\s+way|alike|like\s+(?:this|it|that)))?\s*[.!]?\s*$",
    re.I,
)
# The same told of the other one of two: "You need a pair.", "The second one is worked alike."
_TWO_OF_IT = re.compile(
    r"\s*(?:(?:you(?:'ll| will)? need|make) (?:a pair|two|2)(?: of (?:these|those|them))?|"
    r"(?:do|repeat|work|make) (?:all|everything|all (?:of )?(?:this|that)|the whole thing)"
    r"(?: again| once more| a second time)? for the (?:other|second) [a-z]+|"
    r"repeat(?: this| that)? for the (?:other|second) (?P<noun>[a-z]+)|"
    r"(?:the (?:second|other)(?: one| (?P<noun2>[a-z]+))?|its (?:twin|pair|partner|mate)) is "
    r"(?:worked|made|done|crocheted) (?:exactly )?(?:alike|(?:in )?the same(?: way)?|likewise|identically)|"
    r"(?:and |then |now )+(?:the (?:other|second) one|"
    r"(?:one more|another(?: one)?)(?: (?:just |exactly )?(?:the same|like (?:it|this|that)))?))\s*[.!]?\s*$",
    re.I,
)
# What a line was, where many of them in a row tell nothing of any course
_TALK = frozenset(["story", "cue", "notes", "materials", "abbreviations", "continuation", "gauge"])
_LISTS = ("materials", "yarn", "hook", "gauge", "abbreviations", "terms")
_BOOKISH = ("materials", "yarn", "hook", "gauge", "abbreviations", "notes", "terms")


_FIRST_LAP = re.compile(r"(?P<word>[A-Za-z]{3,10})\.? ?1 ?[:.)-]+\s*(?=\S)")
# A thing, a colon and what is told of it, in more than a name's words and with an end
_THING_TOLD = re.compile(
    r"\W*(?:the )?[A-Za-z][a-z]*(?: [a-z]+){0,2}\s*:\s+(?!(?:(?:make|work|crochet)\b|x ?\d|\d)[^.,]*$)"
    r"(?=(?:[^\s:]+\s+){2})[^:]*[a-z]\W*$"
)
_JOBS = ("close", "stuff", "weave", "eyes")  # "close" behind the last round is one, and no heading of the sewing up


class Cutter(Placing):
    """Walks the lines once."""

    def run(self) -> Layout:
        filled = talk = 0
        for index, (start, end) in enumerate(self.used_lines):
            line = self.text[start:end]
            if line and not line.isspace():
                filled += 1
                if filled > MOST_LINES:
                    self.out.bounds["too-many-lines"] = start
            if self.out.full:
                break
            if not line.strip():
                self.blank = True
                if self.course is not None and self._balanced(self.course):
                    self.course = None
                continue
            if self.furniture(start, end):
                self.out.roles.append((start, end, "furniture"))
                self.blank = self.blank or not any(c.isalnum() for c in line)  # a rule across the page parts
                continue
            if talk > MOST_TALK and not self.labels_near(index, start, end):
                self.out.bounds.setdefault("too-much-talk", start)
                continue
            role = self.line(index, start, end)
            talk = talk + 1 if role in _TALK else 0
            self.out.roles.append((start, end, role))
            self.blank = False
        self.out.named = any(p.name for p in self.out.pieces)
        return self.out

    def line(self, index: int, start: int, end: int) -> str:
        begin = BULLET.match(self.text, start, end)
        at = begin.end() if begin else start
        # a star at the start belongs to a repeat unless a label follows it
        first = self.text[start:at]
        label = at_line_start(self.text, at, end)
        if (
            "*" in first
            and label is None
            and not bare_number(self.text, at, end)
            and self.section in ("pattern", "assembly")
        ):
            at = start + len(first) - len(first.lstrip(" #>"))
            at = start + first.index("*")
        if label is not None and self.ends_sentence(label, at, end):
            if self.course is not None:
                self.course.end = end
                return "continuation"
            self.put_text(at, end)
            return "story"
        if label is not None and not self._mention(label, at, end):
            return self.labelled(label, end)
        following = self.next_line(index)
        bare = bare_number(self.text, at, end)
        if bare is not None and self.bare_is_label(bare, end):
            return self.labelled(bare, end)
        listed = bare is not None and bare.numbers[:1] == [1] and len(bare.numbers) > 1
        if bare is not None and listed and self._under_heading() and _LIKE_ANOTHER.match(self.text, bare.end, end):
            return self.labelled(bare, end)  # "1.-4. as stem A"
        if label is None and (lap := self.first_of_laps(at, end, following)) is not None:
            return self.labelled(lap, end)
        spaced = self.spaced_number(at, end)
        if spaced is not None:
            return self.labelled(spaced, end)
        text = self.text[at:end]
        if self.job_alone(text, following):
            self.put_job(at, end)
            return "cue"
        if self.ring_told(at, end, following):
            return self.labelled(Label(at, at, [1], "round", explicit=False), end)
        if self.letter_of_yarn(text, following):
            self.put_colour(at, end)
            return "cue"
        if self.first_as(at, end, following):
            return "reference"
        if self.bare_course(at, end, following):
            return self.unlabelled(at, end)
        if skipped := self.led_on(text, at, end):
            return self.unlabelled(at + skipped, end)
        defines = is_definition(text, self.terms) or lists_several(text)
        if defines and not self.any_course and sections.section_of(text) is None:
            self.define(text)
            return "abbreviations"
        if self.founds(at, end, following):
            return self.foundation(at, end)
        foundation = FOUNDATION.match(self.text, at, end)
        if foundation is not None and self.section not in _BOOKISH and self.stitchy(foundation.end(), end):
            return self.unlabelled(foundation.end(), end)
        section = sections.section_of(text)
        part = text.strip(" #*_:=-~").lower()
        if section is not None and not (part in headings.PARTS and following and self.opens_course(*following)):
            return self.open_section(self.meant(section[0], text), at + section[1], end, text)
        if self.any_course:
            inline = sections.sewing_up_inline(text)
            if inline is not None and self._asks(at + inline, end):
                return self.open_section("assembly", at + inline, end, text)
            ends = following is not None and not self.opens_course(*following) and not self.counts_on(*following)
            job = ends and classify(text) in _JOBS and (text.islower() or not self._asks(*(following or (at, at))))
            if ends and not job and ">" not in first and sections.sewing_up(text):
                return self.open_section("assembly", end, end, text)
        if not self.any_course and re.match(r"\W*(?:gauge|tension)\b[^\n]{0,40}\d", text, re.I):
            self.out.gauge = f"{self.out.gauge} {self.page.quote(at, end)}".strip()
            return "gauge"
        if self.any_course and furniture.finishes_off(text):
            self.put_text(at, end)
            return "cue"
        if self.runs_on(text, following):
            return "furniture"
        if self.edging(at, end, following):
            return "cue"
        glued = self.heading_before_course(at, end, index)
        if glued is not None:
            return glued
        inside = within.within(self.text, at, end)
        if not inside and end - at > 60 and self.section not in ("materials", "abbreviations"):
            number = within.FIRST_NUMBER.search(self.text, at, end)
            if number and self.stitchy(number.end(), min(end, number.end() + 60)):
                inside = [Label(number.start("n"), number.end(), [1], None, explicit=False)]
        if inside:
            return self.glued(at, inside, end, index)
        make = _MAKE_LINE.match(text)
        if (
            make
            and self.piece is not None
            and not any(isinstance(i, RawCourse) for i in self.piece.items)
            and ((n := make["n"] or make["n2"]).isdecimal() or n.lower() in NUMBER_WORDS)
        ):
            self.piece.make = number_of(n)
            told = headings.colour_told(text)
            if told is not None:
                self.put_text(at + told[0], at + told[1])
            return "make"
        if self.so_many(text):
            return "make"
        if self.course is not None and not self.blank and self.continues(at, end):
            self.course.end = end
            return "continuation"
        if (
            self.course is not None
            and not self._balanced(self.course)
            and self.stitchy(at, end)
            and headings.heading(text, self.blank, False) is None
        ):
            self.course.end = end
            return "continuation"
        if (
            self.piece is not None
            and not self.piece.items
            and self.piece.headed
            and re.fullmatch(r"\s*[(\[][^()\[\]]{2,80}[)\]][.:]?\s*", text)
        ):
            self.put_text(at, end)
            return "story"
        head = self.heading(text, at, end, following, index)
        if head is not None:
            for span in (headings.colour_told(text), headings.stuffing_told(text)):
                if span is not None:
                    self.put_text(at + span[0], at + span[1])
            return head
        opens = self.piece is None and following is not None and self.opens_course(*following)
        if opens and (self.begins_in(text) or (self.section == "front" and classify(text) == "tail")):
            self.ensure_piece(at)
            self.put_text(at, end)
            return "cue"
        if self.section in ("materials", "yarn", "hook", "gauge", "abbreviations", "notes", "terms") and not (
            self.blank and self.piece is not None and self.section == "notes" and self._asks(at, end)
        ):
            return self.in_section(text, at, end)
        if self.piece is not None and self.two_of_it(text, following):
            self.piece.make = 2
            return "make"
        more = _ONE_MORE.search(text) if self.piece is not None and self.piece.make == 1 else None
        if more and self.piece is not None and any(isinstance(i, RawCourse) for i in self.piece.items):
            self.piece.make += number_of(more["n"] or "1")
            if more.start():
                self.put_text(at, at + more.start() + 1)
            return "make"
        if self.section == "front" and (self.names_all(text, following) or not self._opens_plainly(at, end)):
            return self.front(text, at, end)
        if self._opens_plainly(at, end):
            return self.unlabelled(at, end)
        self.put_text(at, end)
        return "cue" if self._asks(at, end) else "story"

    def two_of_it(self, text: str, following: tuple[int, int] | None) -> bool:
        """Does the line tell that the piece at hand, which ends here, is one of two?"""
        match = _TWO_OF_IT.match(text)
        if match is None or self.piece is None or self.piece.make != 1:
            return False
        if not any(isinstance(i, RawCourse) for i in self.piece.items):
            return False
        if following is not None and self.opens_course(*following):
            return False
        noun = (match["noun"] or match["noun2"] or "one").lower()
        return noun == "one" or noun.rstrip("s") in (self.piece.name or "").lower()

    def first_of_laps(self, at: int, end: int, following: tuple[int, int] | None) -> Label | None:
        """ "Tour 1 : 6 ms" in front of "Tour 2 : 6 inc": a first round, whatever its words are."""
        told = _FIRST_LAP.match(self.text, at, end)
        if told is None or following is None or not self.opens_course(*following):
            return None
        if not re.match(rf"{told['word']}\.? ?2\b", self.text[following[0] : following[1]], re.I):
            return None
        return Label(at, told.end(), [1], "round")

    def heading_before_course(self, at: int, end: int, index: int) -> str | None:
        """ "Wing (make 2): 5 sc in a magic ring" or "Loop: Ch 10.": a heading with an unnumbered course behind it."""
        match = _GLUED.match(self.text, at, end) or _GLUED_LIKE.match(self.text, at, end)
        if not match:
            return None
        inside = within.within(self.text, match.end(), end)
        told = self.text[match.end() : inside[0].start].strip() if inside else ""
        loud = match["name"].split("(")[0].isupper() and _BEGUN.match(told)
        if inside and not (told and (loud or inside[0].numbers[:1] == [1])):
            return None
        head = headings.heading(match["name"], True, True)
        words = re.findall(r"[a-z]+", match["name"].lower())
        if head is None or not (head[1] > 1 or any(w in headings.PARTS for w in words) or match["name"].isupper()):
            return None
        if inside:
            if len(words) > 4 or not self.text[match.end() : inside[0].start].rstrip().endswith((".", ":", ";", ",")):
                return None
            self.new_piece(head[0], head[1], at)
            return self.glued(match.end(), inside, end, index)
        rest = self.text[match.end() : end]
        if self.any_course and _LIKE_ANOTHER.match(rest):
            self.new_piece(head[0], head[1], at)
            self.put_text(match.end(), end)
            return "reference"
        chains = furniture.foundation(rest) is not None
        if not chains and not self._opens_plainly(match.end(), end):
            return None
        self.new_piece(head[0], head[1], at)
        return self.foundation(match.end(), end) if chains else self.unlabelled(match.end(), end)

    def begins_at(self, line: tuple[int, int]) -> bool:
        """ "Starting at the beak with B" in front of a first course: where a part begins, below its name."""
        after = self.line_after(line) if _BEGINS_AT.match(self.text, *line) else None
        return after is not None and self.begins(*after)

    def heading(
        self, text: str, at: int, end: int, following: tuple[int, int] | None, index: int
    ) -> str | None:
        leads = following is not None and (
            self.opens_course(*following)
            or bool(_MAKE_LINE.match(self.text[following[0] : following[1]]))
            or self.founds(*following, self.line_after(following))
            or alone.ring(self.text[following[0] : following[1]])
            or self.begins_at(following)
        )
        hashed = bool(re.match(r"\s*#", self.text[at - 2 : at + 1]))
        first = following is not None and self.begins(*following)
        head = headings.narrated(text) if leads and (first or text.rstrip().endswith(":")) else None
        if head is not None and not (self._under_heading() and re.match(r"\W*(?:start|begin)", text, re.I)):
            self.new_piece(head[0], head[1], at)
            return "heading"
        # "Fork bar / With slate. / Rnd 1": a name that no list has, above its colour
        shaded = self.any_course and self.blank and not leads and self._coloured(following)
        # "POT", right behind a list
        loud = self.blank and text.strip().isupper() and len(text.split()) > 1
        below = not leads and self.section in _LISTS and (loud or self._coloured(following)) and self.leads_soon(index)
        head = headings.heading("# " + text if hashed else text, self.blank, leads or shaded or below)
        if head is None or self._works_stitches(text, at, end) or (self._under_heading() and _LIKE_ANOTHER.match(text)):
            return None
        if self.goes_on(following) and head[1] == 1 and not hashed and _THING_TOLD.match(text):
            return None  # "Cheeks: pink thread, three stitches under each eye." between two rounds
        if self._under_heading() and head[1] == 1 and _BEGINS_AT.match(text):
            return None  # "Head / Starting at the nose with B"
        if is_colour(text) and (self.piece is not None or (leads and self.out.title)):
            self.ensure_piece(at)
            return None  # "Navy:" before a round is a colour
        on = self.goes_on(following)
        talks = self.piece is not None and head[1] == 1 and colour_talk(text, self.yarns())
        dressed = self.blank and leads and headings.dressed(text)  # "Watering can, in grey"
        if talks and (on or not (dressed or self.names_more(head[0]))):
            return None  # "Back to red!"
        if leads and head[1] == 1 and self._shade_below(text):
            return None
        if head[1] == 1 and len(text.split()) <= 2 and classify(text) in ("stuff", "close", "fasten", "weave"):
            return None  # "Stuffing" between two rounds
        if head[1] == 1 and len(text.split()) > 2 and not text.strip().isupper() and text.strip()[-1:] != ":":
            asked = classify(text)
            if asked is not None and asked not in ("other", "join", "colour", "turn"):
                return None
        marked = (
            bool(re.match(r"\s*#", text))
            or hashed
            or "**"
            in self.page.original[self.page.back(at) - 3 if self.page.back(at) >= 3 else 0 : self.page.back(at) + 1]
        )
        words = {w.lower() for w in re.findall(r"[A-Za-z]+", head[0])}
        known = bool(words & headings.PARTS) or (self.blank and headings.dressed(text))
        if on and not marked and not self.finished() and self.spoken_of(text):
            return None
        if on and not known and not marked and head[1] == 1 and not text.strip().isupper() and not self.finished():
            return None  # its rounds go on in number and no part is named: no piece begins here
        defines = not marked and bool(_DEFINES.match(text)) and bool(re.search(r"[:=\-]\s*\w", text))
        if self.section == "abbreviations" and defines and not (leads and first and known and self.blank):
            return None
        named = known or text.strip().isupper()
        part = known and len(words) == 1  # "Torso" under the title and a list of what one needs
        front = self._coloured(following) or (bool(self.out.title) and (part or (named and self.section != "front")))
        stands = not leads and (known or head[1] > 1) and self.blank and (self.any_course or front)
        if below or ((stands or shaded) and self.leads_soon(index)):
            self.new_piece(head[0], head[1], at)
            return "heading"
        if (
            not self.out.title
            and not self.any_course
            and not self.out.pieces
            and self.section == "front"
            and not (leads and (known or head[1] > 1))
        ):
            return None
        if (
            self.section in ("front", "materials", "abbreviations", "gauge", "hook", "notes", "yarn", "terms")
            and not leads
            and not (head[1] > 1 and self.section == "front")
            and not (marked and known)
        ):
            asks = following is not None and self._asks(*following) and self.any_course
            if not (
                known
                and self.section in ("notes", "front")
                and following is not None
                and (self.stitchy(*following) or asks)
            ):
                return None
        if (
            self.section in ("pattern", "assembly")
            and self.any_course
            and not leads
            and not marked
            and head[1] == 1
            and not known
            and not text.strip().isupper()
            and not text.strip().endswith(":")
        ):
            return None
        if (
            text.strip().endswith(":")
            and not leads
            and not known
            and not marked
            and head[1] == 1
            and self._asks(at, end)
        ):
            return None
        self.new_piece(head[0], head[1], at)
        return "heading"


def cut(page: Page, terms: Terms) -> Layout:
    """The layout of a page. Linear in its length."""
    return Cutter(page, terms).run()
