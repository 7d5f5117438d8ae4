"""What is asked of a line, in order: the first question that knows where it belongs answers for all behind it.

An answer is the role of the line, a place behind which the line is to be looked at again, or None. The order is the
meaning: a label goes before a heading, a heading before talk; a question may rely on all before it having said no.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from hookside.notation.labels.label import at_line_start, bare_number
from hookside.notation.lines.questions import BULLET
from hookside.notation.lines.rungs.asked import Asked
from hookside.notation.lines.rungs.chapters import Chapters
from hookside.notation.lines.rungs.labelled import Labelled
from hookside.notation.lines.rungs.named import NamedParts
from hookside.notation.lines.rungs.stitches import Stitches
from hookside.notation.lines.rungs.talk import Talk
from hookside.notation.page.tables.shadecells import NOTE

_REPEATS = re.compile(r"\b(?:rep|repeat|from)\b", re.I)


class Rungs(Labelled, Stitches, Chapters, NamedParts, Talk):
    """Puts a line where it belongs, and tells its role."""

    def line(self, index: int, start: int, end: int) -> str:
        """The role of a line, as `hookside compile --trace` shows it."""
        if self.text[start : start + 1] == NOTE:
            return self.note_of_row(start + 1, end)
        begin = BULLET.match(self.text, start, end)
        at = begin.end() if begin else start
        if self.for_one_copy(at, end) or self.worked_in_part(at, end):
            return "cue"
        asked = self.as_asked(index, start, at, end)
        for rung in _BY_ITS_LABEL:
            if (answer := rung(self, asked)) is not None:
                return self.line(index, answer, end) if isinstance(answer, int) else answer
        asked.following = self.next_line(index)
        asked.bare = bare_number(self.text, asked.at, end)
        for rung in _BY_ITS_WORDS:
            if (answer := rung(self, asked)) is not None:
                return self.line(index, answer, end) if isinstance(answer, int) else answer
        return self.talk(asked)

    def as_asked(self, index: int, start: int, at: int, end: int) -> Asked:
        """The line, with the label in front of it."""
        first = self.text[start:at]
        label = at_line_start(self.text, at, end)
        if label is not None and label.named and not self.worked_on():
            label = None  # "Inc row: (sc, inc) across", ahead of the rounds: what they mean by it
        # a star at the start belongs to a repeat unless a label follows it
        if (
            "*" in first
            and label is None
            and not self.number_at(at, end)
            and self.section in ("pattern", "assembly")
            and not self.starred_list(index)
        ):
            at = start + first.index("*")
        return Asked(index, start, at, end, first, self.text[at:end], label)


    def starred_list(self, index: int) -> bool:
        """Is the star of this line the sign of a list: the line above or below begins with one, and none of them
        closes it?"""
        lines = [self.text[slice(*line)].strip() for line in self.used_lines[max(0, index - 1) : index + 2]]
        starred = [line for line in lines if line[:2] == "* "]
        return len(starred) > 1 and not any("*" in line[1:] or _REPEATS.search(line) for line in starred)


_Table = tuple[Callable[[Rungs, Asked], str | int | None], ...]
_BY_ITS_LABEL: _Table = (
    Rungs.label_in_sentence,
    Rungs.label_of_ways,
    Rungs.step_with_job,  # "Step 3. Stuff"
    Rungs.own_label,  # "Rnd 3: ..."
    Rungs.key_goes_on,
    Rungs.key_line,
    Rungs.shade_before_label,  # "(A) Rnd 3: ..."
    Rungs.shade_for_label,  # "One round white: ..."
)
_BY_ITS_WORDS: _Table = (
    Rungs.title_once_more,
    Rungs.rest_of_sentence,
    Rungs.onward,  # "Row 10 onward: rep row 2 until 2 sts remain."
    Rungs.stretch_told,
    Rungs.shaped_on,
    Rungs.number_alone,  # "3. ..."
    Rungs.numbers_like_another,  # "1.-4. as stem A"
    Rungs.lap,  # "Tour 1 : 6 ms"
    Rungs.number_and_blanks,  # "3   sc, inc"
    Rungs.rest_of_course,
    Rungs.round_told_below,
    Rungs.rounds_by_number,  # "Continue for 4 rounds."
    Rungs.count_of_course,  # "(18)"
    Rungs.among_spaced,
    Rungs.noted_course,
    Rungs.missing_number,
    Rungs.joined_parts,
    Rungs.behind_made,  # "Make two. In moss, make a slip ring."
    Rungs.job_by_itself,
    Rungs.ring_or_chain_told,
    Rungs.shades_by_copies,  # "The first in hazel, the second in oat."
    Rungs.yarn_by_letter,
    Rungs.first_like_another,
    Rungs.own_stitch,  # "Shell = 3 dc in one st"
    Rungs.surface_work,
    Rungs.course_without_label,  # "6 sc in a magic ring"
    Rungs.definition,  # "sc = single crochet"
    Rungs.foundation_chain,  # "Chain 12."
    Rungs.tie,  # "Chain 40 for a tie, fasten off."
    Rungs.chain_in_sentences,  # "Begin at the toe. Chain 12."
    Rungs.chain_and_course,  # "Ch 8, sc in second ch from hook"
    Rungs.section_named,  # "MATERIALS"
    Rungs.sewing_up,
    Rungs.gauge_told,
    Rungs.finishing_off,
    Rungs.runs_over_pages,
    Rungs.edge_of_part,
    Rungs.heading_and_job,
    Rungs.heading_and_course,  # "Ears: ch 4, ..."
    Rungs.labels_inside,  # "Head. Rnd 1: ... Rnd 2: ..."
    Rungs.copies_among_sentences,  # "Use coral yarn. Make 4."
    Rungs.heading_of_sentence,
    Rungs.copies_below_name,  # "Make 2."
    Rungs.copies_in_words,
    Rungs.other_copies,  # "Make another in the same way."
    Rungs.goes_on_below,
    Rungs.shade_by_itself,
    Rungs.where_it_goes_on,  # "Still on the second leg:"
    Rungs.aside_below_name,  # "(worked from the head down)"
    Rungs.name_of_part,  # "EARS (make 2)"
    Rungs.before_first_name,
    Rungs.book_line,
    Rungs.front_matter,
    Rungs.even_rounds_ahead,
    Rungs.plain_work,
    Rungs.even_rounds_behind,
)
