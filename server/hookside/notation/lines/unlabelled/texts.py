"""Texts that label nothing: which lines are courses of their own, which are a job, where the first one hides."""

from __future__ import annotations

import re
from itertools import islice

from hookside.notation.askings.features import placed_at
from hookside.notation.askings.short import named_jobs
from hookside.notation.labels import counts, howlong, within
from hookside.notation.labels.label import Label
from hookside.notation.labels.references import EVEN
from hookside.notation.lines import furniture
from hookside.notation.lines.copies import joined
from hookside.notation.lines.layout import RawCourse, RawText
from hookside.notation.lines.questions import Questions
from hookside.notation.lines.unlabelled import alone, told
from hookside.notation.lines.unlabelled.noted import alone_in_gap

ONLY_COUNT = re.compile(r"\s*[(\[]?\s*\d{1,4}\s*[)\]]?(?:\s*[(\[]\s*\d{1,4}\s*[)\]])?\s*\.?\s*$")
_PRINTED = re.compile(r"(?:[(\[]\s*|\s[-=]\s?)(?P<n>\d{1,3})\s*[)\]]?\W*\Z")
_COUNT_WITHIN = 200  # characters before the end of a course
_LONGEST_OWN = 600  # characters of a course that may be nothing but "3 rounds plain", with what stands beside it
_MOST_BETWEEN = 200  # sentences between a course and a line that goes on from it
_NEAR = 8  # courses and sentences before a line that tell how they are written
_BLANK_ABOVE = re.compile(r"\n[ \t]{0,6}\n\s*\Z")
# It says of itself how many rounds it is, or which stitches
_NUMBERED = re.compile(r"\d|\b(?:an?other|one|two|three|four|five|six|more|sc|[hd]?dc|h?tr|inc|dec)\b", re.I)
_STRETCH = re.compile(
    r"\W*(?:the )?(?:increas(?:e|ing)|decreas(?:e|ing)|middle|cent(?:er|re)|straight|plain|even|upper|lower|first|"
    r"second|third|last|final|shaping) (?:section|half|part|portion)\W*",
    re.I,
)
_FEWEST = 3  # stitches of a ring; "Ring 2" is the second of some rings


class Unlabelled(Questions):
    """The small questions about them."""

    def _under_heading(self) -> bool:
        piece = self.piece
        if piece is None or not piece.headed:
            return False
        ends = self.text.find("\n", piece.at) if piece.items else 0
        return all(isinstance(item, RawText) and item.end <= ends for item in piece.items)  # its yarn: "BELLY (green)"

    def _first_by_count(self, label: Label, rest: str, end: int) -> bool:
        """ "1. 6" in front of "2. inc x 6": a first round of which only the count is told."""
        if label.numbers != [1] or not ONLY_COUNT.match(rest) or not self._under_heading():
            return False
        following = self.line_after((self.text.rfind("\n", 0, label.start) + 1, end))
        after = self.number_at(*following) if following is not None else None
        if following is None or after is None or after.numbers[0] != 2:
            return False
        return self.stitchy(after.end, following[1])

    def gap_filled(self, at: int, end: int, following: tuple[int, int] | None) -> tuple[Label, int] | None:
        """ "then blo 24, change to white" behind round 4 and in front of round 6, or of nothing: its label and end."""
        last = self.piece.items[-1] if self.piece is not None and self.piece.items else None
        if not isinstance(last, RawCourse) or not self.last_number or self.section != "pattern":
            return None
        printed = _PRINTED.search(self.text, max(last.start, last.end - _COUNT_WITHIN), last.end)
        gap = alone_in_gap(self.text[at:end], int(printed["n"])) if printed else None
        if gap is None or not gap[2]:  # "0 rounds of 36" are none
            return None
        a, b, rounds = gap
        numbers = [self.last_number + n for n in rounds]
        after = following and (self.label_at(*following) or self.number_at(*following))
        if after and after.numbers[:1] not in ([numbers[-1] + 1], [1]):
            return None
        return Label(at + a, at + a, numbers, "round", explicit=False), at + b

    def joined(self, at: int, end: int, following: tuple[int, int] | None) -> Label | None:
        """ "Join legs: 12 sc around leg 1, 12 sc around leg 2 (24)" where the labels leave room for a round."""
        begins = joined.round_told(self.text[at:end])
        if begins is None or self.piece is None or self.section != "pattern" or within.within(self.text, at, end):
            return None
        after = following and (self.label_at(*following) or self.number_at(*following))
        numbers = after.numbers[:1] if after else []
        bare = not any(isinstance(i, RawCourse) and not i.foundation for i in self.piece.items)
        number = numbers[0] - 1 if bare and numbers else self.last_number + 1
        if number < 1 or (numbers and numbers[0] not in (number + 1, 1)):
            return None
        return Label(at + begins, at + begins, [number], "round", explicit=False)

    def led_on(self, text: str, at: int, end: int) -> int:
        """How long a "Next:" or "then" in front of an unlabelled course is; 0 where the line is no such course."""
        nothing = self._labels_nothing()
        verb = told.lead(text) if nothing else 0
        if verb and (self._opens_plainly(at + verb, end) or told.in_loops(text, verb)):
            ended = self.course is None or self.blank or self._balanced(self.course)
            before = "" if self.course is None else self.text[self.course.start : self.course.end].rstrip()
            if ended and before[-1:] not in (",", ";"):
                return verb
        skipped = alone.lead(text)
        before = self.text[self.course.start : self.course.end] if self.course is not None else ""
        if skipped and nothing and text[:1].isupper() and told.ended(before) and self._opens_plainly(at + skipped, end):
            return skipped
        if not skipped or self.piece is None or not self._opens_plainly(at + skipped, end):
            return 0
        if self.course is None or self.blank:
            return skipped
        body = self.text[self.course.start : self.course.end].rstrip()
        if body[-1:] in (",", ";") and self._ends_all_round(body[:-1], text[skipped:]):
            return skipped
        parts = ":" in text[:skipped] and body[-1:] not in ",;" and self._balanced(self.course)
        whole = self.course.label is None and self._balanced(self.course)
        return skipped if parts or (whole and self.ends_here(body, text.lower(), at, end)) else 0

    @staticmethod
    def _ends_all_round(body: str, line: str) -> bool:
        """ "6 sc in the ring," and then "next: inc around,": a comma at the end of a line that goes all the way parts
        it from the next round, which is named as such."""
        return (alone.ring(body) or alone.all_round(body)) and alone.all_round(line) and not alone.closing(line)

    def ends_here(self, body: str, low: str, at: int, end: int) -> bool:
        """Where nothing has a label: is the course before this line whole, and does another stand in this one?"""
        assert self.course is not None
        skipped = alone.lead(low)
        whole = self.text[self.course.start : self.course.end]
        if body[-1:] in ",;" or not self._opens_plainly(at + skipped, end):
            return False
        if alone.turned(whole, low):
            return True
        if alone.closing(low):
            return False
        if counts.alone(whole) is not None and alone.counted(low):
            return True  # "12" is a round of its own in front of "(sc, dec) x 4 (8)"
        own = len(whole) <= _LONGEST_OWN and howlong.of_its_own(whole)
        if own and (alone.all_round(low) or self.stitchy(at + skipped, end)):
            return True  # "same 12 for 4 rds" in front of "dec all 6", "1 round plain" in front of "inc 6"
        return alone.ring(whole) or (alone.all_round(whole) and alone.all_round(low))

    def plain_above(self, body: str, low: str) -> bool:
        """Is "another plain round" the course before this line, which goes all the way itself?"""
        if self.course is None or not self._unnumbered(self.course.label) or body[-1:] in ",(":
            return False
        return alone.plain(self.text[self.course.start : self.course.end]) and alone.all_round(low)

    def ring_told(self, at: int, end: int, following: tuple[int, int] | None) -> bool:
        """ "Begin with 6 stitches in the ring." in front of "Rnd 2": a first round without label and stitch."""
        if following is None or self.section not in ("front", "pattern") or not alone.ring(self.text[at:end]):
            return False
        after = self.label_at(*following) or self.number_at(*following)
        begun = any(isinstance(i, RawCourse) for i in self.piece.items) if self.piece is not None else False
        if begun or self._opens_plainly(at, end):
            return False
        leads_on = after is not None and after.relative == 1 and not self.text[after.start :].lower().startswith("f")
        return after is not None and (after.numbers[:1] == [2] or leads_on)

    def in_chain_told(self, at: int, end: int, following: tuple[int, int] | None) -> bool:
        """ "Work 7 sc in 2nd chain from hook." between "Chain 2." and "Next rnd" or "Rnd 2": a first round."""
        last = self.piece.items[-1] if self.piece is not None and self.piece.items else None
        if following is None or not isinstance(last, RawCourse) or not last.foundation:
            return False
        after = self.label_at(*following) or self.number_at(*following)
        return (after is None or after.numbers[:1] != [1]) and alone.into_chain(self.text[at:end]) >= _FEWEST

    def ring_alone(self, at: int, end: int, following: tuple[int, int] | None) -> bool:
        """ "ring 6" in front of "inc: 12": the same where nothing at all has a label."""
        if following is None or self.section not in ("front", "pattern") or not alone.ring(self.text[at:end]):
            return False
        begun = any(isinstance(i, RawCourse) for i in self.piece.items) if self.piece is not None else False
        labelled = self.label_at(*following) or self.number_at(*following)
        if begun or labelled or self._opens_plainly(at, end):
            return False
        after = self.line_after(following)
        n = counts.alone(self.text[slice(*following)])
        if after is not None and n == alone.stitches_in_ring(self.text[at:end]):
            following = after  # "6 in MR", "6", "inc x6 (12)"
        line = self.text[following[0] : following[1]]
        goes_on = alone.all_round(line) and self._opens_plainly(*following) and furniture.foundation(line) is None
        goes_on = goes_on or howlong.of_its_own(line)
        return (goes_on or self._in_digits(following)) and alone.stitches_in_ring(self.text[at:end]) >= _FEWEST

    def job_alone(self, text: str, following: tuple[int, int] | None) -> bool:
        """ "stuff", "Safety eyes" between two courses of a piece: something to do, and no piece of its own."""
        after = following[0] if following is not None else len(self.text)
        ends = not self.blank and (following is None or _BLANK_ABOVE.search(self.text, max(0, after - 8), after))
        # "Tail" as the last line of a part
        kind = alone.job(text.lower() if ends and alone.cuts(text.lower()) else text)
        if 1 < placed_at(text) <= self.last_number:
            return True  # "Eyes: round 6, 5 sts apart." behind round 8
        named = named_jobs(text) if kind is None else []
        kind = named[0][0] if named else kind
        items = self.piece.items if self.piece is not None else []
        if kind is None or self.section != "pattern" or not any(isinstance(i, RawCourse) for i in items):
            return False
        sure = any(kind in ("stuff", "fasten") for kind, _, _ in named)
        if sure or re.match(r"\W*(?:\w+ )?(?:stuff|fill|safety)\b", text, re.I):
            return True
        if alone.cuts(text.lower()):  # "tail" above "mr 6" is a part
            below = self.text[slice(*following)] if following is not None else ""
            begins = following is not None and (self.opens_course(*following) or alone.ring(below))
            return not self.blank and not begins
        if following is None:
            return False
        label = self.label_at(*following) or self.number_at(*following)
        if label is not None and label.numbers:
            return label.numbers[0] > max(1, self.last_number)
        line = self.text[following[0] : following[1]]
        return self._opens_plainly(*following) and not alone.ring(line) and furniture.foundation(line) is None

    def even_ahead(self, text: str, following: tuple[int, int]) -> bool:
        """ "Straight now for a good while." in front of the very round it would be: it tells of what comes."""
        if not self.last_number or EVEN.match(text) is None or _NUMBERED.search(text):
            return False
        return self._next_labelled(following)

    def stretch_ahead(self, text: str, following: tuple[int, int]) -> bool:
        """ "DECREASE SECTION" above the row that goes on in number: what comes, and no part of its own."""
        ahead = bool(self.last_number) and self.piece is not None and self.piece.make == 1
        return ahead and _STRETCH.fullmatch(text) is not None and self._next_labelled(following)

    def _next_labelled(self, following: tuple[int, int]) -> bool:
        label = self.label_at(*following)
        return label is not None and label.explicit and label.numbers[:1] == [self.last_number + 1]

    def names_all(self, text: str, following: tuple[int, int] | None) -> bool:
        """ "One dec a round" in front of "R1: 6 sc in MR": a title, though it begins as a course does."""
        if self.piece is not None or self.any_course or following is None or re.search(r"\d", text):
            return False
        label = self.label_at(*following)
        return label is not None and label.numbers[:1] == [1]

    def bare_course(self, at: int, end: int, following: tuple[int, int] | None) -> bool:
        """Is a line without a stitch a course all the same, by those around it?"""
        alike = self.counts_alone(at, end, following) or self.plain_alone(at, end, following)
        alike = alike or self.dyed_alone(at, end)
        return self.ring_alone(at, end, following) or alike or self.even_alone(at, end) or self.digits_alone(at, end)

    def dyed_alone(self, at: int, end: int) -> bool:
        """ "orange: inc x6", below a course that has no label either: no part that is called orange."""
        dyed = told.shade_lead(self.text[at:end].lower()) > 0
        return dyed and self._labels_nothing() and self._opens_plainly(at, end)

    def digits_alone(self, at: int, end: int) -> bool:
        """ "2 in each (12)", below a course that has no label either."""
        items = self.piece.items if self.piece is not None and self.section == "pattern" else []
        last = items[-1] if items else None
        if not isinstance(last, RawCourse) or last.label is not None or last.foundation:
            return False
        return alone.in_digits(self.text[at:end])

    def _in_digits(self, line: tuple[int, int]) -> bool:
        """Is this line a round whose stitches are not named, or a number in front of one?"""
        text = self.text[line[0] : line[1]]
        if counts.alone(text) is None:
            return alone.in_digits(text)
        after = self.line_after(line)
        return after is not None and alone.in_digits(self.text[after[0] : after[1]])

    def plain_alone(self, at: int, end: int, following: tuple[int, int] | None) -> bool:
        """ "plain" between "5: ..." and "8: ...": a round whose number goes on by itself."""
        items = self.piece.items if self.piece is not None and self.section == "pattern" else []
        around = alone.around(self.text[at:end]) and self._labels_nothing()
        if not (around or alone.plain(self.text[at:end])) or not any(isinstance(i, RawCourse) for i in items):
            return False
        label = following and (self.label_at(*following) or self.number_at(*following))
        return not label or label.numbers[:1] != [self.last_number + 1]

    def even_alone(self, at: int, end: int) -> bool:
        """ "4 rounds straight", "next round BLO (12)", below a course that has no label either."""
        line = self.text[at:end]
        return self._labels_nothing() and (howlong.of_its_own(line) or alone.round_in_words(line))

    def _labels_nothing(self) -> bool:
        """Has the course before this line no label, with nothing but askings in between?"""
        items = self.piece.items if self.piece is not None and self.section == "pattern" else []
        last = self._last_course(items)
        return last is not None and not last.foundation and self._unnumbered(last.label)

    def _last_course(self, items: list[RawCourse | RawText]) -> RawCourse | None:
        """The last course of some, where no more than _MOST_BETWEEN sentences stand behind it.

        Asked of every line: from the end of what was walked through for one before it, the answer to that holds.
        """
        end, many, far, course = self.walked
        for behind, item in enumerate(islice(reversed(items), _MOST_BETWEEN)):
            if isinstance(item, RawCourse):
                far, course = behind, item
                break
            if item is end and len(items) - behind == many:
                far += behind
                break
        else:
            far, course = _MOST_BETWEEN, None
        if items:
            self.walked = items[-1], len(items), far, course
        return course if far < _MOST_BETWEEN else None

    @staticmethod
    def _unnumbered(label: Label | None) -> bool:
        """ "Next round: ..." tells no number either."""
        return label is None or (not label.numbers and label.relative == 1)

    def counts_alone(self, at: int, end: int, following: tuple[int, int] | None) -> bool:
        """ "mr 6 / 12 / 18": a number and nothing else, two or more of them below a course that has no label either.

        One by itself is a round where the course above it or below it has its count on its own line.
        """
        if counts.alone(self.text[at:end]) is None or self.section != "pattern" or self.piece is None:
            return False
        last = self.piece.items[-1] if self.piece.items else None
        if not isinstance(last, RawCourse) or last.label is not None or last.foundation:
            return False
        behind = self.text[following[0] : following[1]] if following is not None else ""
        if counts.alone(behind) is not None or alone.in_digits(behind):
            return True
        printed = _PRINTED.search(self.text, last.start, last.end)
        n = counts.alone(self.text[at:end])
        if printed and int(printed["n"]) == n:
            return True  # "6 sc in MR (6)" has its count: the 6 below it is a round
        whole = self.text[last.start : last.end]
        ringed = alone.ring(whole) and alone.stitches_in_ring(whole)
        goes_on = following is not None and alone.all_round(behind) and self._opens_plainly(*following)
        if ringed and n in (ringed, 2 * ringed) and goes_on:
            return True  # "MR 5", "5", "2 sc in each (10)"
        near = [self.text[i.start : i.end] for i in self.piece.items[-_NEAR:]]
        return any(counts.alone(told) or alone.in_digits(told) for told in near)
