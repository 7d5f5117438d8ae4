"""The cues of a piece as they are written down, and what is known of its colors only when all are: which is told again,
and where one ends that was told for some rounds.
"""

from __future__ import annotations

from hookside.notation.askings.weights import weight_of
from hookside.notation.askings.when import may_tell
from hookside.notation.courses.foretold import put_in_place
from hookside.notation.courses.inrange import dyed_in
from hookside.notation.courses.shadelong import for_so_long, for_this_alone
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.waiting import slug
from hookside.pattern import NO_WORDS, Course, Cue, CueKind, Piece, Weight, colours, unchecked

_MOST_SETTLED = 300  # of one part: what is told of some courses behind them stays where it is told
_AROUND = " -*,;=~<>|_"  # the frame of "=== EYES ===", which is not to be spoken


class ShadeNotes:
    """Keeps the cues of one piece, and settles its colors behind the last course."""

    def __init__(self, sheet: Sheet, piece: Piece, stem: str | None = None) -> None:
        self.sheet = sheet
        self.piece = piece
        self.slug = stem or slug(piece.name)
        self.counts: dict[str, int] = {}
        self.later: list[tuple[int, int, int]] = []  # after how many courses a change is due, and where it stands
        self.early: list[tuple[CueKind, int, int]] = []  # told by its course in front of the first, and where
        self.ranged: dict[tuple[int, int, CueKind], bool] = {}  # is an asking in a range due at some course of it?
        self.more = False  # do more courses follow?
        self.spans: dict[str, tuple[int, int]] = {}  # where the words of a cue stand, by its address
        self.standing: set[str] = set()  # the cues between two courses that stand where they were told
        self.behind: Course | None = None  # the course behind which sentences were last looked at
        self.sentences = 0  # ... and how many
        self.of_eyes = False  # the sentence before spoke of eyes

    def add(
        self,
        kind: CueKind,
        start: int,
        end: int,
        course: Course | None,
        at: int | None = None,
        inside: bool = False,
        weight: Weight | None = None,
    ) -> None:
        """One cue at text[start:end] of the page: behind `course`, or `inside` it once `at` stitches are made."""
        self.sheet.asked.append((start, end))
        if kind == "colour" and course is not None:
            self.goes_on_in_another(course, at if inside else None)
        label = course.label if course is not None else "0"
        base = course.id if course is not None else f"{self.slug}.0"
        stem = f"{base}/{kind}"
        n = self.counts.get(stem, 0) + 1
        self.counts[stem] = n
        text = self.sheet.page.quote(start, end).strip(_AROUND)
        text = text[:1].upper() + text[1:]
        self.spans[f"{stem}.{n}"] = start, end
        self.piece.cues.append(
            unchecked(
                Cue,
                address=f"{stem}.{n}",
                after=label,
                course_id=course.id if course is not None else None,
                at=at if inside else None,
                kind=kind,
                text=text,
                basis="written",
                weight=weight or weight_of(kind, text),
                line=self.sheet.page.line(start),
                words=NO_WORDS,
            )
        )

    def goes_on_in_another(self, course: Course, at: int | None) -> None:
        """Where a color ends and another one begins, nothing is gone back to."""
        ended = ("colour", "worked out", course.id, at)
        last = self.piece.cues[-3:]  # thousands may stand before them
        self.piece.cues[-3:] = [cue for cue in last if (cue.kind, cue.basis, cue.course_id, cue.at) != ended]

    def without_told_again(self) -> None:
        """Where a column names the yarn of every course, one that is in the hands already is no change."""
        in_hand = ""
        kept: list[Cue] = []
        for cue in self.piece.cues:
            told = cue.text.casefold().rstrip(".") if cue.kind == "colour" else in_hand
            again = told == in_hand and told.isalpha() and cue.kind == "colour" and cue.at is None
            if not again:
                kept.append(cue)
            in_hand = told
        if len(kept) == len(self.piece.cues):
            return
        if any(len(colours(course.body)) > 1 for course in self.piece.courses):
            return  # a change within a course, and nobody says which yarn it ends with
        self.piece.cues[:] = kept

    def settle_shades(self) -> None:
        """Puts what is told of some courses at them, wherever between two others it was told: it begins before the
        first of them, and behind the last the color before it comes back, unless another is told until then."""
        place = {None: -1} | {course.id: at for at, course in enumerate(self.piece.courses)}
        shades = [cue for cue in self.piece.cues if cue.kind == "colour" and cue.basis == "written" and cue.at is None]
        labels = [int(course.label) for course in self.piece.courses]
        counted = bool(labels) and labels == sorted(set(labels))  # no label stands for two of them
        for cue in shades[:_MOST_SETTLED]:
            by_number = counted and cue.address in self.standing
            if not by_number or not self._by_number(cue, place[cue.course_id], labels):
                self._so_long(cue, place[cue.course_id])
        for at, course in enumerate(self.piece.courses[:-1]):
            dyed = len(colours(course.body)) == 1 and self._is_dyed(at) and not self._is_dyed(at + 1)
            words = for_this_alone(course.text) if dyed else ""
            if words and not self._there(at):
                self.add("colour", 0, 0, course)
                self.piece.cues[-1].text, self.piece.cues[-1].line = words, course.line
                self.back(int(self.piece.courses[at + 1].label))
                put_in_place(self.piece, at)

    def _by_number(self, cue: Cue, here: int, labels: list[int]) -> bool:
        """ "Rounds 4 and 5 are red.", ahead of them or below them."""
        start, end = self.spans[cue.address]
        words = self.sheet.page.text[start:end]
        if not may_tell(words):
            return False
        for first in (here + 1, 0):
            told = dyed_in(words, labels[first:], self.sheet.yarns)
            due = [one._replace(behind=one.behind + first) for one in told]
            if due and not any(self._is_dyed(one.behind + 1) for one in due):
                break
        else:
            return False
        if [one.behind for one in due] == [here]:
            return True
        if due[0].behind != here:
            self.piece.cues[:] = [one for one in self.piece.cues if one is not cue]
        for one in due:
            if one.back:
                self._goes_back(start, end, one.behind)
            elif one.behind != here:
                span = (start + one.start, start + one.end) if one.end else (start, end)
                self.add("colour", *span, self._at(one.behind))
                self.piece.cues[-1].weight = "pause"
                put_in_place(self.piece, one.behind)
        return True

    def _so_long(self, cue: Cue, here: int) -> None:
        """ "One round white:" between two courses."""
        n = for_so_long(cue.text)
        behind = here + n
        if not n or any(self._is_dyed(at) for at in range(here + 1, behind + 2)) or len(self._there(here)) > 1:
            return
        if not any(self._there(at) for at in range(here + 1, behind)):
            self._goes_back(*self.spans[cue.address], behind)

    def _at(self, behind: int) -> Course | None:
        return self.piece.courses[behind] if 0 <= behind < len(self.piece.courses) else None

    def _is_dyed(self, at: int) -> bool:
        """Does a course name the color of its stitches itself?"""
        return at < len(self.piece.courses) and any(colours(self.piece.courses[at].body))

    def _there(self, behind: int) -> list[Cue]:
        """The changes behind a course."""
        course = self._at(behind)
        there = course.id if course is not None else None
        return [cue for cue in self.piece.cues if cue.kind == "colour" and cue.course_id == there]

    def _goes_back(self, start: int, end: int, behind: int) -> None:
        """Behind a course the color before comes back, unless it is the last or one is told there."""
        if behind + 1 < len(self.piece.courses) and not self._there(behind):
            self.add("colour", start, end, self._at(behind))
            self.back(int(self.piece.courses[behind + 1].label))
            put_in_place(self.piece, behind)

    def back(self, course: int) -> None:
        """The cue that was written last becomes one of ours: a color is told for some rounds and none behind them."""
        cue = self.piece.cues[-1]
        cue.advice = f'Worked out: "{cue.text}" tells no color from number {course} on.'
        cue.text, cue.basis = "Change back to the color you had before.", "worked out"
