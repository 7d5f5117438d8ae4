"""Lines that begin as a round or row does: which of them are one, and which only speak of one."""

from __future__ import annotations

from hookside.notation.askings.roundshades import lists_shades, tells_loops
from hookside.notation.labels.label import Label
from hookside.notation.lines.layout import RawCourse
from hookside.notation.lines.questions import BULLET, Questions

# What is a round or row besides "course" where a label opens it: "R5: repeat R4", chains, a name and its first round
_OTHERS_BY_LABEL = frozenset(["reference", "foundation", "heading"])


class ByLabel(Questions):
    """The small questions about them."""

    def tells_round(self, role: str, start: int, end: int) -> bool:
        """Was a line a round or row, by its label or its stitches?"""
        if role == "course" and self.course is not None and self.course.label is not None:
            return True  # as nearly all are, without asking again
        if role in _OTHERS_BY_LABEL:
            return self.opens_labelled(start, end)
        return role == "course" and (self.opens_labelled(start, end) or self.stitchy(start, end))

    def names_round(self, index: int, start: int, end: int) -> bool:
        """Would a line be a round or row by its label, or by a number with stitches behind it?

        "Round 9 is a plain one" begins as one does. Asked where too many lines were none: each costs what a round does.
        """
        begin = BULLET.match(self.text, start, end)
        at = begin.end() if begin else start
        label = self.label_at(at, end)
        if label is not None:
            return not self._mention(label, at, end) and not self.ways_alone(label, at, end, index)
        bare = self.number_at(at, end)
        return bare is not None and self.stitchy(bare.end, end)

    def ways_alone(self, label: Label, at: int, end: int, index: int) -> bool:
        """ "R1-2 brown, R3 white" above the rounds or below them: no rounds, but their colors or loops."""
        words = self.text[at:end]
        many = lists_shades(words)
        if many > 1 or (many and label.numbers and label.numbers[0] <= self.last_number):
            return True
        following = self.next_line(index)
        below = self.label_at(*following) if following is not None else None
        if many and below is not None and below.numbers[:1] == label.numbers[:1]:
            return True  # "R4-6: red" above "R4: ..."
        if self.piece is not None and any(isinstance(item, RawCourse) for item in self.piece.items):
            return False
        return below is not None and (bool(many) or (label.numbers[:1] != [1] and tells_loops(words)))
