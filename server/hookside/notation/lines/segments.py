"""Stages two and three together: lines and labels -> the pieces of a text in order, bodies still unread."""

from __future__ import annotations

import re

from hookside.notation.askings.clauses import HANGING
from hookside.notation.askings.kinds import classify
from hookside.notation.labels.label import Label, at_line_start, bare_number, kind_of
from hookside.notation.labels.patterns import COURSE
from hookside.notation.labels.references import EVEN
from hookside.notation.lines import furniture, sections
from hookside.notation.lines.colours.headcolours import colours_told
from hookside.notation.lines.colours.ownyarns import is_yarn, own_shade
from hookside.notation.lines.colours.titlecolours import title_colours
from hookside.notation.lines.copies.above import copies_above
from hookside.notation.lines.copies.asked import copies, copies_of_the_cut, made_often
from hookside.notation.lines.copies.joined import names_round
from hookside.notation.lines.copies.others import again
from hookside.notation.lines.copies.partslist import count_copies
from hookside.notation.lines.copies.somecopies import SomeCopies
from hookside.notation.lines.copies.sorts import sorts
from hookside.notation.lines.heads import headings
from hookside.notation.lines.heads.framedjob import FRAMED
from hookside.notation.lines.heads.headjobs import jobs_in_brackets
from hookside.notation.lines.keys.definitions import is_definition, lists_several, names_one
from hookside.notation.lines.keys.shapingtold import only_tells_shaping
from hookside.notation.lines.layout import (
    MOST_BARE,
    MOST_BESIDE,
    MOST_LINES,
    MOST_TALK,
    Layout,
    RawCourse,
    RawText,
    spans_of_sentences,
)
from hookside.notation.lines.questions import BULLET, FOUNDATION
from hookside.notation.lines.refusals.copies import LIKE_ANOTHER, LIKE_IN_BRACKETS
from hookside.notation.lines.refusals.named import MAKE_LINE
from hookside.notation.lines.refusals.rounds import GOES_ON_FROM
from hookside.notation.lines.unlabelled.alone import hook_ahead, ring_led
from hookside.notation.page.cleaning import Page
from hookside.notation.page.tables.shadecells import NOTE
from hookside.notation.vocabulary import NUMBER_WORDS, number_of
from hookside.pattern import Terms

# "Make another piece in the same way.", behind its last course
_ONE_MORE = re.compile(
    r"(?:^|[.!]\s+)(?:now |then )?(?:make|work|crochet)\s+(?:"
    r"(?P<other>(?!rows?|rounds?|rnds?|ch|another)[a-z]+) (?:number |no\.? ?)?(?:two|2|ii)\b[^.!]{0,30}|"
    r"(?:another|a\s+second)(?:\s+(?!rows?|rounds?|rnds?|chain|"
    r"ch\b|loop|ring|stitch|st\b|sc\b|knot)[a-z]+)?|"
    r"(?P<n>one|two|three|four|five|six|seven|eight|nine|ten|1[0-2]|"
    r"[1-9])\s+more)(?:\s+(?:(?:exactly|just)\s+)?(?:the\s+same|"
    r"in\s+the\s+same\s+way|the\s+same\s+way|alike|like\s+(?:this|it|that)))?"
    r"(?P<rest>,? (?:but |and |only )*(?:do not|don'?t|leave|leaving|keep|keeping|without|this time)\b[^.!]*)?"
    r"\s*[.!]?\s*$",
    re.I,
)
_WHOLE_TEXT = 200  # characters of a line from which it may hold a list of what is shortened and the rounds behind it
# What a line was, where many of them in a row tell nothing of any course
_TALK = frozenset(["story", "cue", "notes", "materials", "abbreviations", "continuation", "gauge"])
_BOOKISH = ("materials", "yarn", "hook", "gauge", "abbreviations", "notes", "terms")


# "Chain 40 for a tie, fasten off.": chains that hang from what is there, and no course
# "Row 10 onward: Rep row 2 until 2 sts remain."
_ONWARD = re.compile(rf"(?:from )?(?:the )?{COURSE}\.? ?#?(?P<n>\d{{1,3}}) ?(?:and )?(?:onwards?|on)\s*[:,-]\s*", re.I)
_LONGEST_LEAD = 90  # characters of a line that tells from where a part goes on
_IN_BRACKETS = re.compile(r"\s*[(\[][^()\[\]]{2,80}[)\]][.:]?\s*")  # "(worked from the head down)" below a name
_A_TIE = re.compile(
    r"\W*(?:now |then |and )?(?:ch(?:ain)?|make a chain of) ?\d{1,3}(?: ch(?:ain)?s?)?,? (?:(?:for|as|to make|to form) "
    rf"(?:an?|the) (?:[a-z]+ )?(?:{HANGING}|strap|handle)s?"
    # "Ch 12, sl st to the bottom edge of the body."
    r"\b(?! ?:)[^:]*$|(?:and |then )?(?P<put>sl\.? ?st|ss|slip[ -]?stitch|join|attach|sew)(?: it)?"
    r"(?: with (?:an? |1 )?(?:sl\.? ?st|ss|slip[ -]?stitch))? (?:on)?to (?:the |its |his |her )?"
    r"(?!first\b|next\b|same\b|last\b|close\b|form\b|make\b|beg|start|other end|join|ch\b|chain|\d|st\b|sts\b|stitch|"
    r"ring\b|sc\b|dc\b|top of)[a-z]{3,}(?: [a-z]{2,}){0,6}"
    r"(?P<cut>,? (?:and |then )?(?:fasten off|fo|cut[a-z ]{0,12}))?\W*$)",
    re.I,
)
# "Shell = 3 dc in one st" above the first course: what a name stands for, though the list knows a stitch of that name
_SPECIALS = "(?:shell|bobble|popcorn|puff|cluster|scallop|picot)"  # ... or, in any place, of such a one
_SPECIAL = re.compile(rf"\W{{0,3}}{_SPECIALS}\b", re.I)
_OWN_STITCH = re.compile(
    rf"\W{{0,3}}(?:[A-Za-z][A-Za-z -]{{0,13}}\s*=|{_SPECIALS}(?: st(?:itch)?)?(?: \([a-z]{{1,5}}\))?\s*(?::|=|-(?=\s)))"
    r"\s*(?:\d|[(\[])[^=]*\b(?:tog(?:ether)?|"
    r"in(?:to)? (?:the |one |a |same |next |1 |single )*(?:st|stitch|sc|dc|ch|chain|space|sp|place|loop))\b[^=]*$|"
    r"\W{0,3}picots?(?: \([a-z]{1,5}\))?\s*(?::|=|-(?=\s))\s*(?:make |work )?(?:ch(?:ain)? ?\d|\d ?ch)\b[^=]*$",
    re.I,
)
# "Fasten off, leave a tail (x2)": no two tails
_CUTS = re.compile(r"\W{0,3}(?:f\.?/?o\b|fasten|finish|cut|break|leave|weave|close)", re.I)
_FIRST_LAP = re.compile(r"(?P<word>[A-Za-z]{3,10})\.? ?1 ?[:.)-]+\s*(?=\S)")
_ONE_MORE_FORM = re.compile(r"\W{0,3}[A-Za-z]{1,12} ?= ?[a-z\d][^=]{3,80}$")
# "close", "finish off" behind the last round are jobs, and no headings of the sewing up
_JOBS = ("close", "stuff", "weave", "eyes", "fasten")


class Cutter(SomeCopies):
    """Walks the lines once."""

    def run(self) -> Layout:
        filled = talk = beside = bare = 0
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
            if start < self.taken:
                self.out.roles.append((start, end, "continuation"))
                continue
            counted = self.course is not None and not self.blank and self.counts_below(start, end)
            if not counted and self.furniture(start, end):
                self.out.roles.append((start, end, "furniture"))
                self.blank = self.blank or not any(c.isalnum() for c in line)  # a rule across the page parts
                continue
            if talk > MOST_TALK and not self.labels_near(index, start, end):
                self.out.bounds.setdefault("too-much-talk", start)
                self.course = None
                continue
            full = "too-much-beside" if beside > MOST_BESIDE else "too-many-bare" if bare > MOST_BARE else ""
            if full and not counted and not self.names_round(index, start, end):
                self.out.bounds.setdefault(full, start)
                self.course = None  # no line behind one that is left out is the rest of it
                continue
            told = self.again.role(line) if not counted and self.piece is not None and self.closed() else None
            if told is not None:
                self.out.bounds.setdefault("over-and-over", start)
                self.put_again(start, end)
            role = told or self.line(index, start, end)
            if told is None:
                self.again.learn(line, end, role, self.piece)
            talk = talk + 1 if role in _TALK else 0
            beside += not self.tells_round(role, start, end)
            bare += role == "course" and self.course is not None and self.course.label is None
            self.out.roles.append((start, end, role))
            self.blank = False
        if not self.page.whole and not self.out.full:
            self.out.bounds["too-many-lines"] = len(self.text)
        self.named_by_title()
        self.out.named = any(p.name for p in self.out.pieces)
        for piece in self.out.pieces:
            self.told_behind(piece)
        yarns = self.told_yarns()
        self.out.unread = count_copies(self.text, self.out.pieces, lambda what: is_yarn(what, yarns))
        copies_above(self.text, self.out)
        title_colours(self.text, self.out)
        return self.out

    def named_by_title(self) -> None:
        """ "Wings x2 (gold)" at the head of a text, talk below it: the title names the first part, and its copies."""
        first = self.out.pieces[0] if self.out.pieces else None
        if first is None or first.name or first.make > 1 or not self.out.title:
            return
        named = headings.heading(self.out.title, True, True)
        if named and named[1] > 1 and headings.PARTS.intersection(re.findall(r"[a-z]+", named[0].lower())):
            first.name, first.make = named

    def closed(self) -> bool:
        """Does the course above ask for no more?"""
        return self.course is None or self._balanced(self.course)

    def put_again(self, start: int, end: int) -> None:
        """A line whose like were words among the rounds some hundred times."""
        begin = BULLET.match(self.text, start, end)
        if self.piece is not None:
            self.piece.items.append(RawText(begin.end() if begin else start, end))
        self.course = None

    def lists_on(self, text: str) -> bool:
        """ "V = enlarge the nose" right below "X = short knit (sc)": one more of the list, whatever it is called."""
        above = self.out.roles[-1][2] if self.out.roles and not self.blank else ""
        return above == "abbreviations" and _ONE_MORE_FORM.match(text) is not None

    def line(self, index: int, start: int, end: int) -> str:
        if self.text[start : start + 1] == NOTE:
            return self.note_of_row(start + 1, end)
        begin = BULLET.match(self.text, start, end)
        at = begin.end() if begin else start
        # a star at the start belongs to a repeat unless a label follows it
        first = self.text[start:at]
        if self.for_one_copy(at, end):
            return "cue"
        if self.worked_in_part(at, end):
            return "cue"
        label = at_line_start(self.text, at, end)
        if label is not None and label.named and not self.worked_on():
            label = None  # "Inc row: (sc, inc) across", ahead of the rounds: what they mean by it
        if (
            "*" in first
            and label is None
            and not self.number_at(at, end)
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
        if label is not None and self.ways_alone(label, at, end, index):
            if self.piece is None:
                return "notes"
            self.put_text(at, end)
            return "story"
        if label is not None and not self._mention(label, at, end):
            return self.labelled(label, end)
        if self.defines_on(index, end):
            return "abbreviations"
        heads = sections.section_of(self.text[start:end]) if start in self.keyed else None
        if start in self.keyed and (heads is None or heads[0] == "notes"):
            self.define(self.text[start:end])
            self.course = None
            return "abbreviations"
        shaded = self.before_label(at, end) if self.text[at : at + 1] in ("(", "[") else None
        if shaded is not None:
            self.ensure_piece(at)
            self.put_colour(*shaded.span("shade"))
            return self.line(index, shaded.end(), end)
        dyed = self.round_by_colour(at, end)
        if dyed is not None:
            self.put_colour(*dyed.span("shade"))
            many = number_of(dyed["many"] or "1")
            return self.labelled(Label(at, dyed.end(), [], kind_of(dyed["kind"]), relative=many), end)
        following = self.next_line(index)
        if self.title_again(self.text[at:end], following):
            return "furniture"
        if self.sentence_below(index) or self.rest_below(at, end):
            return "continuation"
        onward = _ONWARD.match(self.text, at, end)
        if onward is not None and int(onward["n"]) == self.last_number + 1 and self.piece is not None:
            return self.unlabelled(onward.end(), end)
        if following is not None and self.stretch_ahead(self.text[at:end], following):
            self.put_text(at, end)
            return "story"
        bare = bare_number(self.text, at, end)
        if bare is not None and self.bare_is_label(bare, end):
            return self.labelled(bare, end)
        listed = bare is not None and bare.numbers[:1] == [1] and len(bare.numbers) > 1
        if bare is not None and listed and self._under_heading() and LIKE_ANOTHER.match(self.text, bare.end, end):
            return self.labelled(bare, end)  # "1.-4. as stem A"
        if label is None and (lap := self.first_of_laps(at, end, following)) is not None:
            return self.labelled(lap, end)
        spaced = self.spaced_number(at, end)
        if spaced is not None:
            return self.labelled(spaced, end)
        if self.course is not None and self.again_below(at, end):
            self.course.end = end
            return "continuation"
        if self.course is not None and (begins := self.round_below(at, end)) is not None:
            return self.unlabelled(begins, end)
        if self.course is not None and not self.blank and (self.counts_below(at, end) or self.stacked(at, end)):
            self.course.end = end
            return "continuation"
        text = self.text[at:end]
        if self.between_spaced(following):
            self.put_text(at, end)
            return "cue" if self._asks(at, end) else "story"
        if (noted := self.noted.get(start)) is not None:
            if not noted.numbers:
                self.put_aside(at, end)
                return "cue"
            if noted.shade:
                self.put_colour(at, noted.shade)
            self.labelled(Label(noted.start, noted.start, noted.numbers, "round", explicit=False), noted.end)
            if noted.job < end:
                self.put_job(noted.job, end)
            self.course = None  # it ends in its count: what stands below is no rest of it
            return "course"
        if (gap := self.gap_filled(at, end, following)) is not None:
            return self.labelled(*gap)
        if (joins := self.joined(at, end, following)) is not None:
            if text[: joins.start - at].strip() and not names_round(text[: joins.start - at]):
                self.put_text(at, joins.start)
            return self.labelled(joins, end)
        if (rest := self.made_first(at, end)) is not None:
            return self.line(index, rest, end)
        if self.job_alone(text, following):
            self.put_job(at, end)
            return "cue"
        if self.ring_told(at, end, following) or self.in_chain_told(at, end, following):
            return self.labelled(Label(at, at, [1], "round", explicit=False), end)
        if self.shades_of_copies(text, at, following):
            return "cue"
        if self.letter_of_yarn(text, following):
            self.put_colour(at, end)
            return "cue"
        if self.first_as(at, end, following):
            return "reference"
        if _OWN_STITCH.match(text) and (not self.any_course or _SPECIAL.match(text)):
            self.define(text)
            return "abbreviations"
        if not self.any_course and (names_one(text, self.terms) or only_tells_shaping(text)):
            self.define(text)
            return "abbreviations"
        if self.on_surface(at, end):
            return "cue"
        if self.bare_course(at, end, following):
            return self.unlabelled(at, end)
        if skipped := self.led_on(text, at, end):
            return self.unlabelled(at + skipped, end)
        defines = is_definition(text, self.terms) or lists_several(text)
        defines = defines or (bool(self.lists) and re.split("[ :=]", text, maxsplit=1)[0] in self.lists)
        defines = defines or self.lists_on(text)
        whole = end - at > _WHOLE_TEXT and bool(self.inside(at, end))
        defines = defines and not (self.any_course or self.chapter_goes_on(text))
        if defines and not whole and sections.section_of(text) is None:
            self.define(text)
            return "abbreviations"
        if self.founds(at, end, following):
            return self.foundation(at, end)
        if following is not None and self.founds_over(at, end, following):
            self.taken = following[1]
            return self.foundation(at, following[1])
        if self.any_course and (tie := _A_TIE.match(text)) is not None:
            if tie["put"] and not tie["cut"] and self.piece is not None:
                self.piece.items.append(RawText(at, end, "other"))
                self.course = None
            else:
                self.put_text(at, end)
            return "cue"
        parts = spans_of_sentences(self.text, at, end)
        if len(parts) > 1 and self.founds(*parts[0], following) and not any(
            t.kind == "stitch" for t in self.tokens(self.text[parts[1][0] : end])
        ):
            self.foundation(*parts[0])
            self.put_text(parts[1][0], end)
            return "foundation"
        if self.talk_then_chains(parts, following):
            self.put_text(at, parts[-2][1])
            return self.foundation(*parts[-1])
        foundation = FOUNDATION.match(self.text, at, end)
        if foundation is not None and self.section not in _BOOKISH and self.stitchy(foundation.end(), end):
            return self.unlabelled(foundation.end(), end)
        section = sections.section_of(text)
        if section is not None and self.ends_in(text, at):
            section = None
            if self.course is not None:
                self.course.end = end
                return "continuation"
        part = text.strip(" #*_:=-~").lower()
        if section is not None and section[0] == "notes" and self.tip(at + section[1], end):
            self.put_text(at + section[1], end)
            return "cue"
        on = section is not None and section[0] == "assembly" and following is not None and self.counts_on(*following)
        label = self.number_at(*following) if on and following is not None else None
        if label is not None and label.numbers[0] > 1:
            self.put_text(at, end)  # "joining the tail" above "5) ..." of the tail
            return "cue"
        listed = section is not None and section[0] in ("yarn", "materials")
        below = section[1] if listed and section is not None and following and self.opens_course(*following) else 0
        if below and self.yarn_of_part(text[below:]):
            if self.no_round_yet():
                self.put_colour(at + below, end)
            else:
                self.put_text(at, end)  # "Yarn: grey." between two rounds
            return "cue"
        if section is not None and not (part in headings.PARTS and following and self.opens_course(*following)):
            return self.open_section(self.meant(section[0], text), at + section[1], end, text)
        if self.any_course:
            inline = sections.sewing_up_inline(text)
            if inline is not None and self._asks(at + inline, end):
                return self.open_section("assembly", at + inline, end, text)
            ends = following is not None and not self.opens_course(*following) and not self.counts_on(*following)
            job = ends and classify(text) in _JOBS and (
                text.islower() or not self._asks(*(following or (at, at))) or self.courses_soon(index)
            )
            if ends and not job and ">" not in first and sections.sewing_up(text):
                return self.open_section("assembly", end, end, text)
        if not self.any_course and re.match(r"\W*(?:gauge|tension)\b[^\n]{0,40}\d", text, re.I):
            self.out.gauge = f"{self.out.gauge} {self.page.quote(at, end)}".strip()
            return "gauge"
        if self.any_course and (furniture.finishes_off(text) or (_CUTS.match(text) and copies_of_the_cut(text))):
            self.put_text(at, end)
            return "cue"
        small = self.course is not None and not self.blank and text[:1].islower()
        rest = small and self.continues(at, end)
        if not rest and self.runs_on(text, following) and not self.chapter_goes_on(text):
            return "furniture"
        if self.edging(at, end, following):
            return "cue"
        with_job = self.heading_with_job(at, end, following)
        if with_job is not None:
            return with_job
        glued = self.heading_before_course(at, end, index)
        if glued is not None:
            return glued
        inside = self.inside(at, end)
        if inside:
            return self.glued(at, inside, end, index)
        named = self.heading_in_sentence(at, end, following)
        if named is not None:
            return named
        make = MAKE_LINE.match(text)
        if self.piece is None and following is not None and self.begins_below(text, following):
            self.ensure_piece(at)  # "Paddle / Make 2. / Rnd 1: ...": the title names the piece
        if (
            make
            and self.piece is not None
            and not any(isinstance(i, RawCourse) for i in self.piece.items)
            and ((n := make["n"] or make["n2"] or make["n3"]).isdecimal() or n.lower() in NUMBER_WORDS)
        ):
            self.piece.make = max(number_of(n), copies(text)[1])  # "(make 2 grey, 2 pink)"
            self.colour_of_copies(text, at)
            return "make"
        unworked = self.piece is not None and not any(isinstance(i, RawCourse) for i in self.piece.items)
        often = made_often(text) if unworked else 0
        if often and self.piece is not None:
            self.piece.make = max(self.piece.make, often)
            self.colour_of_copies(text, at)
            return "make"
        if self.so_many(text) or self.has_others(text, following):
            return "make"
        if self.piece is not None and self.tells_of_others(text, at, following):
            # its copies are counted where all of the piece is known: `told_of_others`
            self.piece.items.append(RawText(at, end, "other" if again(text) else None))
            self.course = None
            return "story"
        lasts = self.course is not None and not self.blank and FRAMED.fullmatch(text) is None
        if self.course is not None and lasts and (rest if small else self.continues(at, end)):
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
        if self.shade_below(text):
            self.put_colour(at, end)
            return "cue"
        goes_on = self.no_round_yet() and GOES_ON_FROM.match(text) and len(text) < _LONGEST_LEAD
        if goes_on and self.piece is not None and classify(text) is None and not self.stitchy(at, end):
            self.piece.items.append(RawText(at, end, "other"))  # "Still on the second leg:"
            return "cue"
        if self.no_round_yet() and _IN_BRACKETS.fullmatch(text):
            self.put_text(at, end)
            return "story"
        head = self.heading(text, at, end, following, index)
        if head == "cue":
            return head
        if head is not None:
            materials = self.yarns_of_headings()
            several = colours_told(text, materials)
            shade = headings.colour_told(text) if several is None else None
            if several is not None:
                self.put_colours(at, several)
            elif shade is not None:
                self.put_colour(at + shade[0], at + shade[1])
            by_sort = sorts(text)
            if by_sort is not None and not by_sort.dyed and self.piece is not None:
                self.piece.items.append(RawText(at + by_sort.start, at + by_sort.end, "other"))  # "2 outer, 2 inner"
            work = headings.work_told(text)
            if work is not None and self.piece is not None:
                self.piece.items.append(RawText(at + work[0], at + work[1], "other"))  # shown, where it can't be read
            like = LIKE_IN_BRACKETS.search(text) if self.any_course else None
            if like is not None:
                self.put_text(at + like.start("like"), at + like.end("like"))
            stuffed = headings.stuffing_told(text)
            if stuffed is not None:
                self.put_text(at + stuffed[0], at + stuffed[1])
            for asked_at, asked_to in jobs_in_brackets(text):
                if stuffed is None or asked_to <= stuffed[0] or asked_at >= stuffed[1]:
                    self.put_text(at + asked_at, at + asked_to)
            own = own_shade(text, materials) if shade is None and several is None else None
            if own is not None:
                self.called_before(text[: own[0]])
                self.put_colour(at + own[0], at + own[1])
            elif shade is None and several is None and stuffed is None and (word := headings.word_aside(text)):
                self.put_word_aside(at + word[0], at + word[1])
            return head
        opens = self.piece is None and following is not None and self.opens_course(*following) and not ring_led(text)
        front = self.section == "front"
        if opens and (self.begins_in(text) or (front and classify(text) in ("tail", "fasten", "hold"))):
            self.ensure_piece(at)
            self.put_text(at, end)
            return "cue"
        if self.section in ("materials", "yarn", "hook", "gauge", "abbreviations", "notes", "terms") and not (
            self.blank and self.piece is not None and self.section == "notes" and self._asks(at, end)
        ):
            return self.in_section(text, at, end)
        if self.piece is not None and (made := self.one_of(text, following)):
            self.piece.make = made
            return "make"
        more = _ONE_MORE.search(text) if self.piece is not None and self.piece.make == 1 else None
        if more and self.piece is not None and any(isinstance(i, RawCourse) for i in self.piece.items):
            self.piece.make += number_of(more["n"] or "1")
            if more.start() or more["other"] or more["rest"]:  # "Make leg number two but keep going!" is told as well
                self.put_text(at, end if more["other"] or more["rest"] else at + more.start() + 1)
            return "make"
        if self.section == "front" and (self.names_all(text, following) or not self._opens_plainly(at, end)):
            return self.front(text, at, end)
        if following is not None and self.even_ahead(text, following):
            self.put_text(at, end)
            return "story"
        if self._opens_plainly(at, end):
            if tools := hook_ahead(text):
                self.put_text(at, at + tools)
            return self.unlabelled(at + tools, end)
        if (even := self.even_behind(at, end)) is not None:
            self.put_text(at, even)
            return self.unlabelled(even, end)
        self.put_text(at, end)
        if self._asks(at, end):
            return "cue"
        return "numbered" if bare is not None and self.next_in_number(bare) else "story"

    def begins_below(self, text: str, following: tuple[int, int]) -> bool:
        """Does a line that tells copies stand right above the first course of a text with nothing but a title?"""
        if self.section != "front" or not (made_often(text) or (MAKE_LINE.match(text) and copies(text)[1] > 1)):
            return False
        return self.opens_course(*following) and self.begins(*following)

    def even_behind(self, at: int, end: int) -> int | None:
        """ "Go on in a spiral. Work 6 rounds even.": where rounds begin that are told behind a sentence."""
        if self.piece is None or self.section != "pattern" or not self.last_number:
            return None
        for start, stop in spans_of_sentences(self.text, at, end)[1:]:
            told = EVEN.match(self.text[start:stop])
            if told is not None and (told["n"] or told["n2"]):
                return start
        return None

    def first_of_laps(self, at: int, end: int, following: tuple[int, int] | None) -> Label | None:
        """ "Tour 1 : 6 ms" in front of "Tour 2 : 6 inc": a first round, whatever its words are."""
        told = _FIRST_LAP.match(self.text, at, end)
        if told is None or following is None or not self.opens_course(*following):
            return None
        if not re.match(rf"{told['word']}\.? ?2\b", self.text[following[0] : following[1]], re.I):
            return None
        return Label(at, told.end(), [1], "round")



def cut(page: Page, terms: Terms) -> Layout:
    """The layout of a page. Linear in its length."""
    return Cutter(page, terms).run()
