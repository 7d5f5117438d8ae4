"""Lines that a label opens, or a number, a yarn, a noun that does the work of one."""

from __future__ import annotations

import re

from hookside.notation.askings.askings import askings
from hookside.notation.askings.roundshades import lists_shades
from hookside.notation.askings.short import named_behind
from hookside.notation.labels.growth import growth
from hookside.notation.labels.label import Label, kind_of
from hookside.notation.labels.patterns import COURSE
from hookside.notation.labels.stretches import stretches
from hookside.notation.lines import sections
from hookside.notation.lines.copies.joined import names_round
from hookside.notation.lines.copies.somecopies import SomeCopies
from hookside.notation.lines.layout import RawCourse, RawText
from hookside.notation.lines.refusals.copies import LIKE_ANOTHER
from hookside.notation.lines.rungs.asked import Asked
from hookside.notation.vocabulary import number_of

# "Row 10 onward: Rep row 2 until 2 sts remain."
_ONWARD = re.compile(rf"(?:from )?(?:the )?{COURSE}\.? ?#?(?P<n>\d{{1,3}}) ?(?:and )?(?:onwards?|on)\s*[:,-]\s*", re.I)
_STEP = re.compile(r"step ?\d{1,2}\b ?[.:)-]*\s*", re.I)
_JOBS = ("stuff", "eyes", "embroider", "close", "fasten", "weave", "sew", "tail", "pin", "shape")
_FIRST_LAP = re.compile(r"(?P<word>[A-Za-z]{3,10})\.? ?1 ?[:.)-]+\s*(?=\S)")


class Labelled(SomeCopies):
    """Is it a course, by what stands in front of it?"""

    def label_in_sentence(self, line: Asked) -> str | None:
        """ "... until the end of / round 5.": the words of a label, and the rest of the sentence above."""
        if line.label is None or not self.ends_sentence(line.label, line.at, line.end):
            return None
        if self.course is not None:
            self.course.end = line.end
            return "continuation"
        self.put_text(line.at, line.end)
        return "story"

    def label_of_ways(self, line: Asked) -> str | None:
        listed = line.text[:1] in ("(", "[") and lists_shades(line.text) > 1  # "(R1-3: green; R4-6: red)"
        if not listed and (line.label is None or not self.ways_alone(line.label, line.at, line.end, line.index)):
            return None
        if self.piece is None:
            return "notes"
        self.put_text(line.at, line.end)
        return "story"

    def own_label(self, line: Asked) -> str | None:
        if line.label is None or self._mention(line.label, line.at, line.end):
            return None
        return self.labelled(line.label, line.end)

    def step_with_job(self, line: Asked) -> str | None:
        """ "Step 2. Stuff" between rounds with labels of their own: the number of a step, and no round."""
        step = _STEP.match(self.text, line.at, line.end)
        if step is None or self.piece is None or self.numbered_name(step.end(), line.end):
            return None  # "Step 3. Tail" above its rounds
        worked = [i.label for i in self.piece.items if isinstance(i, RawCourse) and i.label is not None]
        if not worked or any(_STEP.match(self.text, one.start) for one in worked):
            return None
        told = self.text[step.end() : line.end]
        alone = named_behind(told)
        if self.stitchy(step.end(), line.end) or not (alone or any(kind in _JOBS for kind, _, _ in askings(told))):
            return None
        self.piece.items.append(RawText(step.end(), line.end, alone))
        self.course = None
        return "cue"

    def key_goes_on(self, line: Asked) -> str | None:
        return "abbreviations" if self.defines_on(line.index, line.end) else None

    def key_line(self, line: Asked) -> str | None:
        """A line of a list of own words, wherever on the page the list stands."""
        if line.start not in self.keyed:
            return None
        whole = self.text[line.start : line.end]
        heads = sections.section_of(whole)
        if heads is not None and heads[0] != "notes":
            return None
        self.define(whole)
        self.course = None
        return "abbreviations"

    def shade_before_label(self, line: Asked) -> int | None:
        """ "(A) Rnd 3: ...": the line is looked at again behind the shade."""
        if line.label is not None:
            return None
        shaded = self.before_label(line.at, line.end)
        if shaded is None:
            return None
        self.ensure_piece(line.at)
        self.put_colour(*shaded.span("shade"))
        return shaded.end()

    def shade_for_label(self, line: Asked) -> str | None:
        """ "One round white:"."""
        dyed = self.round_by_colour(line.at, line.end)
        if dyed is None:
            return None
        self.put_colour(*dyed.span("shade"))
        many = number_of(dyed["many"] or "1")
        return self.labelled(Label(line.at, dyed.end(), [], kind_of(dyed["kind"]), relative=many), line.end)

    def title_once_more(self, line: Asked) -> str | None:
        return "furniture" if self.title_again(line.text, line.following) else None

    def rest_of_sentence(self, line: Asked) -> str | None:
        return "continuation" if self.sentence_below(line.index) or self.rest_below(line.at, line.end) else None

    def onward(self, line: Asked) -> str | None:
        onward = _ONWARD.match(self.text, line.at, line.end)
        if onward is None or int(onward["n"]) != self.last_number + 1 or self.piece is None:
            return None
        return self.unlabelled(onward.end(), line.end)

    def shaped_on(self, line: Asked) -> str | None:
        """ "Decrease 6 sts per round until 6 sts remain." below a round that is whole: further ones."""
        if not self.last_number or self.piece is None or self.course is None:
            return None
        told = growth(line.text, False)
        far = told is not None and bool(told.shape) and bool(told.until or told.rounds)
        return self.unlabelled(line.at, line.end) if far and line.text[:1].isupper() else None

    def rounds_by_number(self, line: Asked) -> str | None:
        """ "Continue for 4 rounds.", "2 rounds green, then stuff, 2 rounds white.": told by how many they are, and
        jobs between them."""
        told = stretches(line.text) if self.last_number and self.piece is not None else []
        if not told or not self._room_for_more(line, any(one.shade for _, _, one in told if one is not None)):
            return None
        for at, end, one in told:
            if one is not None:
                self.unlabelled(line.at + at, line.at + end)
            else:
                self.put_text(line.at + at, line.at + end)
        return "course"

    def _room_for_more(self, line: Asked, dyed: bool) -> bool:
        """No label below is that of the next round, and what tells a color stands above no work that it may go for."""
        if line.following is None:
            return True
        label = self.label_at(*line.following)
        if label is not None:
            return label.numbers[:1] != [self.last_number + 1]
        works = self.opens_course(*line.following) or self._opens_plainly(*line.following)
        return not dyed or not works or bool(stretches(self.text[slice(*line.following)]))

    def stretch_told(self, line: Asked) -> str | None:
        if line.following is None or not self.stretch_ahead(line.text, line.following):
            return None
        self.put_text(line.at, line.end)
        return "story"

    def number_alone(self, line: Asked) -> str | None:
        if line.bare is None or not self.bare_is_label(line.bare, line.end):
            return None
        return self.labelled(line.bare, line.end)

    def numbers_like_another(self, line: Asked) -> str | None:
        """ "1.-4. as stem A"."""
        bare = line.bare
        if bare is None or bare.numbers[:1] != [1] or len(bare.numbers) < 2 or not self._under_heading():
            return None
        return self.labelled(bare, line.end) if LIKE_ANOTHER.match(self.text, bare.end, line.end) else None

    def lap(self, line: Asked) -> str | None:
        """ "Tour 1 : 6 ms" in front of "Tour 2 : 6 inc": a first round, whatever its words are."""
        told = _FIRST_LAP.match(self.text, line.at, line.end) if line.label is None else None
        if told is None or line.following is None or not self.opens_course(*line.following):
            return None
        if not re.match(rf"{told['word']}\.? ?2\b", self.text[line.following[0] : line.following[1]], re.I):
            return None
        return self.labelled(Label(line.at, told.end(), [1], "round"), line.end)

    def number_and_blanks(self, line: Asked) -> str | None:
        spaced = self.spaced_number(line.at, line.end)
        return self.labelled(spaced, line.end) if spaced is not None else None

    def rest_of_course(self, line: Asked) -> str | None:
        if self.course is None or not self.again_below(line.at, line.end):
            return None
        self.course.end = line.end
        return "continuation"

    def round_told_below(self, line: Asked) -> str | None:
        begins = self.round_below(line.at, line.end) if self.course is not None else None
        return self.unlabelled(begins, line.end) if begins is not None else None

    def count_of_course(self, line: Asked) -> str | None:
        if self.course is None or self.blank:
            return None
        if not (self.counts_below(line.at, line.end) or self.stacked(line.at, line.end)):
            return None
        self.course.end = line.end
        return "continuation"

    def among_spaced(self, line: Asked) -> str | None:
        if not self.between_spaced(line.following):
            return None
        self.put_text(line.at, line.end)
        return "cue" if self._asks(line.at, line.end) else "story"

    def noted_course(self, line: Asked) -> str | None:
        """A line of a page whose rounds are short notes in columns."""
        noted = self.noted.get(line.start)
        if noted is None:
            return None
        if not noted.numbers:
            self.put_aside(line.at, line.end)
            return "cue"
        if noted.shade:
            self.put_colour(line.at, noted.shade)
        self.labelled(Label(noted.start, noted.start, noted.numbers, "round", explicit=False), noted.end)
        if noted.job < line.end:
            self.put_job(noted.job, line.end)
        self.course = None  # it ends in its count: what stands below is no rest of it
        return "course"

    def missing_number(self, line: Asked) -> str | None:
        gap = self.gap_filled(line.at, line.end, line.following)
        return self.labelled(*gap) if gap is not None else None

    def joined_parts(self, line: Asked) -> str | None:
        joins = self.joined(line.at, line.end, line.following)
        if joins is None:
            return None
        ahead = self.text[line.at : joins.start]
        if ahead.strip() and not names_round(ahead):
            self.put_text(line.at, joins.start)
        return self.labelled(joins, line.end)

    def behind_made(self, line: Asked) -> int | None:
        """ "Make 2. Rnd 1: ..."."""
        return self.made_first(line.at, line.end)
