"""Lines that name a part, and those below a name that tell its copies, its color, where it begins."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import only_shades
from hookside.notation.askings.kinds import classify
from hookside.notation.askings.when import may_tell
from hookside.notation.lines.colours.headcolours import colours_told
from hookside.notation.lines.colours.ownyarns import own_shade
from hookside.notation.lines.copies.asked import copies, made_often
from hookside.notation.lines.copies.others import again
from hookside.notation.lines.copies.somecopies import SomeCopies
from hookside.notation.lines.copies.sorts import sorts
from hookside.notation.lines.heads import headings
from hookside.notation.lines.heads.framedjob import FRAMED
from hookside.notation.lines.heads.parts import is_part
from hookside.notation.lines.layout import RawCourse, RawText, spans_of_sentences
from hookside.notation.lines.refusals.copies import LIKE_IN_BRACKETS
from hookside.notation.lines.refusals.named import MAKE_LINE
from hookside.notation.lines.refusals.rounds import GOES_ON_FROM
from hookside.notation.lines.rungs.asked import Asked
from hookside.notation.lines.unlabelled.alone import ring_led
from hookside.notation.vocabulary import NUMBER_WORDS, number_of

# "Make another piece in the same way.", behind its last course
_LONGEST_LEAD = 90  # characters of a line that tells from where a part goes on
_IN_BRACKETS = re.compile(r"\s*[(\[][^()\[\]]{2,80}[)\]][.:]?\s*")  # "(worked from the head down)" below a name

# "Use coral yarn. Make 4.", "Hello! Worked in rounds. Make two.": what a part is made with, or how
_WITH_WHAT = re.compile(
    r"(?:[^.!?~]{2,16}[.!?~] ?)?(?:(?:please|now),? )?(?:use|using|with|in|work(?:ed|ing)?|made|crochet(?:ed)?|"
    r"they are|these are)\b",
    re.I,
)


_NAME_LEADS = re.compile(
    r"(?:the )?(?P<name>[a-z]{3,})(?:,? ?[(\[]?(?:x ?\d{1,2}|\d{1,2} ?x|make \w+)[)\]]?\W*$|"
    r": (?=ch ?\d|chain \d|\d+ sc in))",
    re.I,
)


def _names_a_part(text: str) -> bool:
    """ "EARS x2", "nose: ch 3, sl st" right below a round: the name of a part, its number or its work behind it."""
    named = _NAME_LEADS.match(text)
    return named is not None and is_part(named["name"].lower())


class NamedParts(SomeCopies):
    """Is it the name of a part, the rest of a course, or told of the part above?"""

    def _rest_in_small(self, line: Asked) -> bool:
        """Does a line that begins with a small letter go on with the course above?"""
        small = self.course is not None and not self.blank and line.text[:1].islower()
        return small and self.continues(line.at, line.end)

    def _unworked(self) -> bool:
        """Has the piece at hand no course yet?"""
        return self.piece is not None and not any(isinstance(item, RawCourse) for item in self.piece.items)

    def runs_over_pages(self, line: Asked) -> str | None:
        if self._rest_in_small(line) or not self.runs_on(line.text, line.following):
            return None
        return None if self.chapter_goes_on(line.text) else "furniture"

    def edge_of_part(self, line: Asked) -> str | None:
        return "cue" if self.edging(line.at, line.end, line.following) else None

    def heading_and_job(self, line: Asked) -> str | None:
        return self.heading_with_job(line.at, line.end, line.following)

    def heading_and_course(self, line: Asked) -> str | None:
        named = self.round_by_name(line.at, line.end)
        if named is not None:
            return self.labelled(named, line.end)
        return self.heading_before_course(line.at, line.end, line.index)

    def labels_inside(self, line: Asked) -> str | None:
        inside = self.inside(line.at, line.end)
        return self.glued(line.at, inside, line.end, line.index) if inside else None

    def copies_among_sentences(self, line: Asked) -> str | None:
        """ "Use a 3 mm hook and coral yarn. Make 4." below a name: how many, told behind what it is made with."""
        spans = spans_of_sentences(self.text, line.at, line.end)
        asked = [span for span in spans[1:] if MAKE_LINE.match(self.text[slice(*span)])]
        if len(asked) != 1 or line.following is None or not self.begins(*line.following):
            return None
        made = copies(self.text[slice(*asked[0])])[1]
        if made < 2 or not _WITH_WHAT.match(line.text) or any(self.stitchy(*span) for span in spans):
            return None
        if self.piece is None and self.section == "front":
            self.ensure_piece(line.at)
        if self.piece is None or not self._unworked():
            return None
        self.piece.make = made
        for span in spans:
            if span not in asked:
                self.put_text(*span)
        return "make"

    def heading_of_sentence(self, line: Asked) -> str | None:
        return self.heading_in_sentence(line.at, line.end, line.following)

    def copies_below_name(self, line: Asked) -> str | None:
        """ "Make 2.", "You need four of these." below a name."""
        make = MAKE_LINE.match(line.text)
        if self.piece is None and line.following is not None and self._begins_below(line.text, line.following):
            self.ensure_piece(line.at)  # "Paddle / Make 2. / Rnd 1: ...": the title names the piece
        if self.piece is None or not self._unworked():
            return None
        many = (make["n"] or make["n2"] or make["n3"]) if make else ""
        if many.isdecimal() or many.lower() in NUMBER_WORDS:
            self.piece.make = max(number_of(many), copies(line.text)[1])  # "(make 2 grey, 2 pink)"
        elif often := made_often(line.text):
            self.piece.make = max(self.piece.make, often)
        else:
            return None
        self.colour_of_copies(line.text, line.at)
        return "make"

    def _begins_below(self, text: str, following: tuple[int, int]) -> bool:
        """Does a line that tells copies stand right above the first course of a text with nothing but a title?"""
        if self.section != "front" or not (made_often(text) or (MAKE_LINE.match(text) and copies(text)[1] > 1)):
            return False
        return self.opens_course(*following) and self.begins(*following)

    def copies_in_words(self, line: Asked) -> str | None:
        return "make" if self.so_many(line.text) else None

    def other_copies(self, line: Asked) -> str | None:
        if self.piece is None or not self.tells_of_others(line.text, line.at, line.following):
            return None
        # its copies are counted where all of the piece is known: `told_of_others`
        self.piece.items.append(RawText(line.at, line.end, "other" if again(line.text) else None))
        self.course = None
        return "story"

    def goes_on_below(self, line: Asked) -> str | None:
        """The rest of the course above, told by its words or by a bracket that is still open."""
        if self.course is None or _names_a_part(line.text):
            return None
        if not self.blank and FRAMED.fullmatch(line.text) is None and self.continues(line.at, line.end):
            self.course.end = line.end
            return "continuation"
        open_bracket = not self._balanced(self.course) and self.stitchy(line.at, line.end)
        if not open_bracket or headings.heading(line.text, self.blank, False) is not None:
            return None
        self.course.end = line.end
        return "continuation"

    def shade_by_itself(self, line: Asked) -> str | None:
        if not self.shade_below(line.text):
            return None
        self.put_colour(line.at, line.end)
        return "cue"

    def where_it_goes_on(self, line: Asked) -> str | None:
        """ "Still on the second leg:"."""
        if self.piece is None or not self.no_round_yet() or not GOES_ON_FROM.match(line.text):
            return None
        if len(line.text) >= _LONGEST_LEAD or classify(line.text) is not None or self.stitchy(line.at, line.end):
            return None
        self.piece.items.append(RawText(line.at, line.end, "other"))
        return "cue"

    def aside_below_name(self, line: Asked) -> str | None:
        if not self.no_round_yet() or _IN_BRACKETS.fullmatch(line.text) is None:
            return None
        self.put_text(line.at, line.end)
        return "story"

    def name_of_part(self, line: Asked) -> str | None:
        head = self.heading(line.text, line.at, line.end, line.following, line.index)
        if head is not None and head != "cue":
            self._told_by_heading(line.text, line.at)
        return head

    def _told_by_heading(self, text: str, at: int) -> None:
        """What a heading tells besides a name: colors, sorts, work, another part it is like, jobs."""
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
        self.put_jobs(at, text)
        own = own_shade(text, materials) if shade is None and several is None else None
        if own is not None:
            self.called_before(text[: own[0]])
            self.put_colour(at + own[0], at + own[1])
        elif shade is None and several is None and headings.stuffing_told(text) is None:
            word = headings.word_aside(text)
            if word is not None:
                self.put_word_aside(at + word[0], at + word[1])

    def before_first_name(self, line: Asked) -> str | None:
        """A line of the title's own part, right above its first course: "Begin with a long tail.", "Red, white"."""
        text, following = line.text, line.following
        if self.piece is not None or following is None or not self.opens_course(*following) or ring_led(text):
            return None
        told = self.section == "front" and classify(text) in ("tail", "fasten", "hold")
        lettered = self.calls_its_yarn(text) or (only_shades(text) and not may_tell(text))
        if not told and not lettered and not self.begins_in(text):
            return None
        self.ensure_piece(line.at)
        if lettered:
            self.put_colour(line.at, line.end)
        else:
            self.put_text(line.at, line.end)
        return "cue"
