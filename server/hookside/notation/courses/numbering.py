"""Which numbers courses have: those that a dash leaves open, those without one, those corrected, those out of place."""

from __future__ import annotations

import re
from collections import Counter
from typing import Any

from hookside.notation.courses import numbered
from hookside.notation.courses.lengths import Lengths
from hookside.notation.courses.waiting import Waiting, name_of
from hookside.notation.findings.table import finding
from hookside.notation.labels.label import Label
from hookside.notation.lines.layout import RawCourse
from hookside.notation.lines.unlabelled.alone import begins_ring

_BEGUN = re.compile(
    r"\W*(?:begin(?:ning)?|start)(?: (?:off )?(?:with|in|by) [^:\n]{1,40})?\s*[:-]|\W*to (?:begin|start)\s*[,:-]", re.I
)
_ALONG_CHAIN = re.compile(r"\b(?:2nd|second|3rd|third|4th|fourth) ch", re.I)
_LEARNT = 2  # dashes behind a label that were no ranges, after which one like them is none


class Numbering(Lengths):
    """Numbers courses by their labels and by what stands around them."""

    def dashed(self, raw: RawCourse, numbers: list[int]) -> tuple[int, list[int]]:
        """ "Rnd 1 - 6 sc in MR" or "Rnd 1-6 sc around": which? By what follows: the next label, the number's space."""
        label = raw.label
        assert label is not None
        assert label.second is not None
        second, past = label.second
        first = numbers[0]
        following = self.following(raw)
        single = False
        if following is not None and following.label is not None and following.label.numbers:
            after = following.label.numbers[0]
            single = first < after <= numbers[-1] or after == first > 1  # a number met twice is a slip, no range of 19
            if after == numbers[-1] + 1 > first + 2:
                return raw.start, numbers  # "r16 - 19 30 sc" in front of "r20"
        between = self.page.text[label.number_spans[0][0] : second]
        rest = self.page.text[past : raw.end].strip()
        told = re.match(r"\d+ ?(?:ch|sc|[hd]?dc|h?tr|inc|dec)\b", rest) is not None  # "row 2 - 4 1ch turn 5dc"
        if told and following is None:
            return raw.start, numbers
        if self.named_many(label) and not single and numbers[-1] > first and not begins_ring(rest):
            return raw.start, numbers
        if numbers[-1] <= first or (re.search(r"\s-\s", between) and following is None):
            single = True
        if first == 1 and following is None and begins_ring(rest):
            single = True  # "r1- 6sc in mr" and no round behind it: a ring is not drawn shut six times
        alike = re.match(r"(?:same|as|like|rep|repeat|even|plain|work even)\b", rest, re.I) is not None
        behind = following.label.numbers[:1] if following is not None and following.label is not None else []
        goes_on = behind == [numbers[-1] + 1]
        listed = numbers[-1] == first + 1 and (goes_on or alike)  # "rd5,6 same" in front of "rd7"
        if "," in between and not re.search(r"^\s*[:.\-]", rest) and not listed:
            single = True
        if (
            not single
            and re.search(r"\s-\s", between)
            and numbers[-1] - first > 1
            and not re.match(r"(?:sc|dc|hdc|htr|tr|work|in|with|around)\b", rest)
        ):
            single = True
        sign = re.sub(r"\d+", "", between)
        # "R2-5 sc (5)" behind "R1-5 sc in MR (5)": it may be both, so that one before it tells
        learnt = 1 if re.search(rf"[(\[=-] ?{numbers[-1]}\b\W*$", rest) else _LEARNT
        single = single or (self.dashes[sign, True] >= learnt and not self.dashes[sign, False])  # as all before it
        self.dashes[sign, single] += 1
        return (second, [first]) if single else (raw.start, numbers)

    def named_many(self, label: Label) -> bool:
        """ "Rounds 5 - 8 sc in each st": several by their name, where no dash before was one in front of a body."""
        if not self.page.text[label.start : label.number_spans[0][0]].rstrip(" .#").lower().endswith("s"):
            return False
        dashed = Counter(id(t.raw) for t in self.waiting if isinstance(t, Waiting) and t.raw.label and t.raw.label.dash)
        return all(n > 1 for n in dashed.values())

    def unnumbered(self, raw: RawCourse, body: str) -> int:
        """The number of a course without one: 0 before numbered ones; 1 before none, "next 5 rows", or where it begins
        what goes on with 2: "Begin: ..."."""
        if any(isinstance(t, Waiting) and not t.foundation for t in self.waiting):
            return self.last_label() + 1
        after = self.following(raw)
        none = after is not None and not after.foundation and not (after.label is not None and after.label.numbers)
        second = after is not None and after.label is not None and after.label.numbers[:1] == [2]
        line = self.page.text[self.page.text.rfind("\n", 0, raw.end) + 1 : raw.end]
        next_ones = after is not None and after.label is not None and after.label.relative > 0  # "Next 5 rows: ..."
        first = begins_ring(body) or _ALONG_CHAIN.search(body) is not None
        begun = first or _BEGUN.match(line) is not None
        return 1 if (second and begun) or ((none or after is None) and first) or next_ones else 0

    def replace_last(self, raw: RawCourse, numbers: list[int]) -> None:
        """ "R3 (corrected): ...": the courses of those numbers just before it are gone, and that is said."""
        courses = [t for t in self.waiting if isinstance(t, Waiting)]
        old = courses[-len(numbers) :]
        if [t.label for t in old] != numbers:
            return
        gone = {id(t) for t in old}
        self.waiting[:] = [t for t in self.waiting if id(t) not in gone]
        where: dict[str, Any] = {"piece": self.piece.name, "course": str(numbers[0])}
        where["Course"] = name_of(numbers[0], raw.kind or self.kind).capitalize()
        self.sheet.findings.append(finding(self.page, "corrected", old[0].at, old[-1].end, **where))

    def put_right(self) -> None:
        """The courses in the order of their numbers; a line that stood out of its place is told."""
        late = numbered.slipped(self.waiting)
        if late is not None:
            where: dict[str, Any] = {"piece": self.piece.name, "course": str(late.label), "found": late.label}
            where |= {"Course": name_of(late.label, late.kind).capitalize()}
            where |= {"before": name_of(late.label + 1, late.kind), "expected": late.label + 1}
            self.sheet.findings.append(finding(self.page, "label-slipped", late.at, late.start, **where))
        self.waiting = numbered.in_order(self.waiting)
