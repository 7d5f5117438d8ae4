"""The cues of one piece: what its sentences ask for, each with an address that stays the same while the text does."""

from __future__ import annotations

import re
from itertools import takewhile

from hookside.notation.arithmetic.choosing import Chosen
from hookside.notation.askings.askings import askings
from hookside.notation.askings.attached import of_another
from hookside.notation.askings.byround import told_by_round
from hookside.notation.askings.clauses import FILLED_AHEAD
from hookside.notation.askings.colourtalk import colour_talk, only_a_yarn
from hookside.notation.askings.dyedpart import DYED_BEHIND, PART_DYED, stitches_dyed
from hookside.notation.askings.marked import stitches_marked
from hookside.notation.askings.roundshades import lists_shades
from hookside.notation.askings.unsorted import names_plainly
from hookside.notation.askings.when import due_at, in_figures, may_tell, when, without_round
from hookside.notation.courses.foretold import asked_near, place_of, put_in_place, told_in
from hookside.notation.courses.inrange import due_in, led_by_course
from hookside.notation.courses.inturn import in_turn
from hookside.notation.courses.shadenotes import ShadeNotes
from hookside.notation.courses.thisround import ThisRound, this_round
from hookside.notation.courses.waiting import Waiting, first_stitch
from hookside.notation.findings.omitted import holds_work
from hookside.notation.findings.table import finding
from hookside.notation.lines.layout import RawText, sentences
from hookside.pattern import Course, CueKind, in_order

# "The eyes belong here. Attach them now."
_THEM = re.compile(
    r"\W*(?:now |then )?(?:attach|fix|put|place|insert|set|push|fit|add|sew|glue)\w*\s+(?:them|these|both)\b", re.I
)
# "Rounds 4 and 5, five stitches apart."
_PLACE_ALONE = re.compile(
    r"\W*(?:they (?:go|sit) )?(?:(?:between|in|at|over|on) )?(?:the )?(?:rounds?|rnds?|rows?|r)\.? ?\d{1,3}"
    r"(?:(?: ?(?:and|&|-|to) ?)(?:r\.? ?)?\d{1,3})?\b(?!\s*:)(?![^.;]*\b(?:inc|dec|sc|hdc|dc) \d)",
    re.I,
)
# "(stuff before you do this one!)" behind a round: what it tells is done while that is still open
_ENDS_PIECE = ("fasten", "hold", "tail", "close", "colour")  # by another number they are told wrong, or of another part
_TIMED = re.compile(r"\b(?:after|once|when|as soon as|before)\b", re.I)
_BEFORE_IT: tuple[CueKind, ...] = ("stuff", "eyes", "embroider", "shape", "pin", "weave", "hold")
_BEFOREHAND = re.compile(
    r"\b(?:before|ahead of|prior to) (?:(?:you|we|i) )?(?:(?P<does>do|doing|work|working|make|making|start|starting|"
    r"begin|beginning) )?(?:on )?(?:this|(?(does)it|(?!)))\b(?: (?:one|round|rnd|row|line|step))?"
    r"(?! (?:part|piece|end|hole))"
    r"|\bbeforehand\b|\b(?:stuff|fill|eyes|them|it) (?:in )?first(?! (?:round|rnd|row|few|half|part|\d))(?![a-z])",
    re.I,
)
# "R6 (stuff after this): ...": told in front of the work, and done behind it
_AFTERWARDS = re.compile(
    r"\b(?:after(?:wards)?|(?:after|behind|at the end of) (?:this|it|that)(?: (?:one|round|rnd|row))?)[)\]\s]*$", re.I
)
Asked = tuple[CueKind, int, int]  # the kind of an asking, and where it stands in its sentence

_BEFORE = re.compile(r"\b(?:before|prior to)\b", re.I)


_MOST_BEHIND = 1_000  # sentences behind a course, ten times the most that a text was met with


class CueNotes(ShadeNotes):
    """Writes them down in the order of the text."""

    def text(self, item: RawText, course: Course | None) -> None:
        """What a stretch of text between two courses asks, sentence by sentence."""
        text = self.sheet.page.text
        if item.along is not None:
            self._along(item, item.along, course)
            return
        if item.job == "colour" and (item.start, item.end) in self.sheet.dyed:
            return
        if item.job is not None:
            told = text[item.start : item.end]
            dyed = item.job == "other" and "," not in told and colour_talk(told, self.sheet.yarns)  # "Start in (W)."
            kind: CueKind = "colour" if dyed else item.job
            if dyed or not self._by_round(kind, item.start, item.end, course, below=True):
                self.add(kind, item.start, item.end, course)
            if item.back:
                self.back(item.back)
            return
        for start, stop in sentences(text, item.start, item.end):
            if (start, stop) in self.sheet.dyed:
                continue
            if not self._looked_at(course, start, stop):
                return
            asked = self._asked(text[start:stop], course)
            if not asked and self.of_eyes and self._where_they_go(start, stop):
                continue
            if not asked:
                told, yarns = text[start:stop], self.sheet.yarns
                alone = item.start == start and not text[stop : item.end].strip() and course is not None
                if self._tells_shade(told) or (alone and only_a_yarn(told, yarns)):
                    asked = [("colour", 0, stop - start)]
                elif course is not None and names_plainly(told) and not holds_work(told):
                    asked = [("other", 0, stop - start)]
            elif [a[0] for a in asked] == ["other"] and self._tells_shade(text[start:stop]):
                asked = [("colour", 0, stop - start)]  # "Start in (W)."
            self.sheet.see(
                "sentence", self.sheet.page.line(start), text[start:stop].strip(), [a[0] for a in asked] or "story"
            )
            if not asked:
                self.sheet.passed.append((start, stop))
            if self.of_eyes and _THEM.match(text, start, stop):
                asked = [("eyes" if kind in ("sew", "other") else kind, first, last) for kind, first, last in asked]
            self.of_eyes = "eyes" in text[start:stop].lower()
            for kind, first, last in self._one_by_one(asked, start, course):
                below = course is not None and self.sheet.page.line(start) != course.line
                if kind == "colour" and course is not None and not below and self._for_this(start, stop, course):
                    break
                if course is None and self._told_early(kind, start + first, start + last):
                    continue
                if self._told_late(kind, start + first, start + last, course):
                    continue
                if self._by_round(kind, start + first, start + last, course, below):
                    continue
                if not (below and self._told_behind(kind, start + first, start + last, course)):
                    self.add(kind, start + first, start + last, course)
                    self.standing.add(self.piece.cues[-1].address)

    def _asked(self, told: str, course: Course | None) -> list[Asked]:
        """The askings of a sentence; in front of the first course each with the time that it shares with another."""
        asked = askings(told)
        beside = told_by_round(told) if course is None and len(asked) > 1 and may_tell(told) else []
        if beside and all(one.sure for one in beside):
            return [(one.kind, one.start, one.end) for one in beside]
        return asked

    def _tells_shade(self, told: str) -> bool:
        return colour_talk(told, self.sheet.yarns) or bool(lists_shades(told))

    def _looked_at(self, course: Course | None, start: int, stop: int) -> bool:
        """Is a sentence among the first thousand behind its course? Where none behind them is looked at, it is said."""
        self.behind, self.sentences = course, self.sentences + 1 if course is self.behind else 1
        if self.sentences == _MOST_BEHIND + 1:
            self.sheet.findings.append(finding(self.sheet.page, "too-much-behind", start, stop, piece=self.piece.name))
        return self.sentences <= _MOST_BEHIND

    def _along(self, item: RawText, kinds: frozenset[CueKind], course: Course | None) -> None:
        """What the words of another part, which this one is like, ask for here as well."""
        text = self.sheet.page.text
        asked = [(item.job, item.start, item.end)] if item.job is not None else []
        for start, stop in [] if asked else sentences(text, item.start, item.end):
            told = askings(text[start:stop])
            if not told and colour_talk(text[start:stop], self.sheet.yarns):
                told = [("colour", 0, stop - start)]
            asked += [(kind, start + first, start + last) for kind, first, last in told]
        for kind, first, last in asked:
            if kind in kinds and not self._by_round(kind, first, last, course, below=True):
                self.add(kind, first, last, course)

    def _one_by_one(self, asked: list[Asked], start: int, course: Course | None) -> list[Asked]:
        """ "Change to oat, and to hazel again after round 5.": two changes, each at a course of its own."""
        found: list[Asked] = []
        for kind, first, last in asked:
            words = self.sheet.page.text[start + first : start + last]
            turns = in_turn(words, course, self.sheet.yarns) if kind == "colour" else None
            if turns is None:
                found.append((kind, first, last))
                continue
            found.append((kind, first, first + turns.end))
            if turns.rounds:
                due = len(self.piece.courses) + turns.rounds
                self.later.append((due, start + first + turns.start, start + last))
            else:
                found.append((kind, first + turns.start, last))
        return found

    def come_due(self, course: Course) -> None:
        """The second of such changes, where the first one's rounds have been worked."""
        due = [one for one in self.later if one[0] == len(self.piece.courses)]
        for one in due:
            self.later.remove(one)
            self.add("colour", one[1], one[2], course)

    def _told_early(self, kind: CueKind, start: int, end: int) -> bool:
        """ "Add the eyes after round 7." below the heading of a part: asked behind that course, once it is there."""
        words = self.sheet.page.text[start:end]
        if of_another(words, kind, self.piece.name):
            return False
        if kind == "colour" and in_figures(words) == words:
            return False  # `settle_shades` knows how long it lasts
        told = when(words, kind)
        placed = kind != "stuff" and not led_by_course(words)  # "the eyes are at Rnd 6", and no time
        if not told or any(one.narrows or (placed and one.place) for one in told):
            return False
        self.early.append((kind, start, end))
        return True

    def _early(self) -> None:
        """What was told in front of the first course, at its courses; in front of them all where there is none such."""
        for kind, start, end in self.early:
            told = [due_at(self.piece, one) for one in when(self.sheet.page.text[start:end], kind)]
            due = [at for at in told if at is not None]
            for at in due or [-1]:
                self.add(kind, start, end, self.piece.courses[at] if at >= 0 else None)
                put_in_place(self.piece, at)

    def _told_late(self, kind: CueKind, start: int, end: int, course: Course | None) -> bool:
        """ "Before starting R9, stuff firmly." below R9: asked in front of that course, where its words put it."""
        words = self.sheet.page.text[start:end]
        if course is None or kind not in _BEFORE_IT or _BEFORE.search(words) is None:
            return False
        told = when(words, kind, ordinals=False)
        at = due_at(self.piece, told[0]) if len(told) == 1 and told[0].before else None
        if at is None or at >= place_of(self.piece, course):
            return False
        self.add(kind, start, end, self.piece.courses[at] if at >= 0 else None)
        put_in_place(self.piece, at)
        return True

    def _told_behind(self, kind: CueKind, start: int, end: int, course: Course | None) -> bool:
        """ "After round 3 add the rattle." below round 8: asked behind each course that it names, as notes are."""
        words = self.sheet.page.text[start:end]
        if course is None or kind in _ENDS_PIECE or not may_tell(words) or of_another(words, kind, self.piece.name):
            return False
        if _TIMED.search(words) is None or (kind == "other" and holds_work(without_round(words))):
            return False  # "Run elastic through row 1.": a place
        told = when(words, kind)
        places = [due_at(self.piece, one) for one in told if one.course and not one.place]
        behind = [at for at in places if at is not None and at < place_of(self.piece, course)]
        if not told or len(behind) < len(told):
            return False
        for at in behind:
            self.add(kind, start, end, self.piece.courses[at] if at >= 0 else None)
            put_in_place(self.piece, at)
        return True

    def _where_they_go(self, start: int, stop: int) -> bool:
        """ "Rounds 4 and 5, five stitches apart." right behind an asking for the eyes: said together with it."""
        page = self.sheet.page
        last = self.piece.cues[-1] if self.piece.cues else None
        if last is None or (last.kind, last.basis) != ("eyes", "written"):
            return False
        if not _PLACE_ALONE.match(page.text, start, stop):
            return False
        last.text = f"{last.text.rstrip('.')}. {page.quote(start, stop).strip(' -*,;')}"
        self.sheet.asked.append((start, stop))
        return True

    def noted(self, lines: list[tuple[int, int]]) -> None:
        """What lines of notes ask by the courses of this piece, each behind its course when all are written down."""
        self.settle_shades()
        self._early()
        text = self.sheet.page.text
        for start, end in told_in(text, lines):
            if (start, end) in self.sheet.dyed:
                continue
            for kind, first, last, sure in told_by_round(text[start:end]):
                if not sure or (kind == "other" and holds_work(without_round(text[start + first : start + last]))):
                    continue
                told_before = list(self.piece.cues)  # two goes of one asking are two, however near
                for due in when(text[start + first : start + last], kind):
                    if due.narrows and any(cue.kind == kind for cue in told_before):
                        continue
                    at = due_at(self.piece, due)
                    here = self.piece.courses[at] if at is not None and due.place else None
                    if here is not None and self._marks(kind, start + first, start + last, here):
                        continue
                    if at is not None and not asked_near(self.piece, told_before, kind, at, not due.place):
                        self.add(kind, start + first, start + last, self.piece.courses[at] if at >= 0 else None)
                        put_in_place(self.piece, at)

    def of_course(self, todo: Waiting, taken: Chosen | None, course: Course, before: Course | None) -> None:
        """The askings printed inside a course; `before` is the course below it in this piece."""
        if todo.parsed is None or (todo.borrowed and not todo.along):
            return
        text, yarns = self.sheet.page.text, self.sheet.yarns
        limited = this_round(text, todo.at, todo.end, yarns) if not todo.borrowed else None
        dyed = next((g.colour for g in in_order(course.body)), None) is not None
        if dyed and before is not None:
            self.goes_on_in_another(before, None)
        if limited is not None and limited.names and todo.first_of and not dyed:
            self.add("colour", limited.start, limited.end, before)
        self._clauses(todo, taken, course, before, limited)
        if limited is not None and todo.last_of and (limited.names or dyed or self._led_in(course, before)):
            self._ends_here(limited, course)

    def _led_in(self, course: Course, before: Course | None) -> bool:
        """Does a change of color, printed with a course, stand in front of it?"""
        there = before.id if before is not None else None
        return any((c.kind, c.course_id, c.line) == ("colour", there, course.line) for c in self.piece.cues[-3:])

    def _ends_here(self, limited: ThisRound, course: Course) -> None:
        """A color that was for this course alone: behind it comes the one before, unless another is told there."""
        told = (c for c in self.piece.cues[-3:] if (c.kind, c.course_id) == ("colour", course.id))
        if self.more and not any(c.at in (None, course.makes) for c in told):
            self.add("colour", limited.start, limited.end, course)
            self.back(int(course.label) + 1)

    def _for_this(self, start: int, end: int, course: Course) -> bool:
        """ "This round is worked in black." behind the work of a course: due in front of it."""
        limited = this_round(self.sheet.page.text, start, end, self.sheet.yarns)
        if limited is None or not limited.names:
            return False
        at = place_of(self.piece, course) - 1
        self.add("colour", start, end, self.piece.courses[at] if at >= 0 else None)
        put_in_place(self.piece, at)
        self._ends_here(limited, course)
        return True

    def _clauses(
        self, todo: Waiting, taken: Chosen | None, course: Course, before: Course | None, limited: ThisRound | None
    ) -> None:
        if todo.parsed is None:
            return
        clauses = todo.parsed.phrases.cues
        cut = next((clause for clause in clauses if clause.kind == "fasten"), None)
        led = 0  # where slip stitches in front of the cut begin: they are one job with it
        if todo.slips is not None and todo.last_of:
            first, last, _ = todo.slips
            if cut is not None and not self.sheet.page.text[last : todo.start + cut.start].strip(" ,.;&-adehnt"):
                led = first
            else:
                self.add("other", first, last, course, weight="pause")
        if not clauses:
            return
        placed = dict(taken.reading.cues) if taken is not None and course.read else {}
        for index, clause in enumerate(clauses):
            first, last = todo.start + clause.start, todo.start + clause.end
            named = limited is not None and limited.names and limited.start < last <= limited.end + 1
            if named and clause.kind == "colour" and limited is not None and first < limited.end:
                continue  # asked in front of the course
            made = placed.get(index)
            body = self.sheet.page.text[todo.start + clause.start : todo.start + clause.end]
            asked = askings(body)
            some = clause.kind == "marker" and bool(stitches_marked(body))
            low = body.lower() if clause.kind == "colour" else ""
            some = some or PART_DYED.fullmatch(low) is not None or DYED_BEHIND.fullmatch(low) is not None
            if clause.leads or some or not asked or [kind for kind, _, _ in asked] == ["other"]:
                asked = [(clause.kind, 0, len(body))]  # the clause was known by more than its words
            for kind, first, last in asked if not todo.borrowed else [a for a in asked if a[0] in todo.along]:
                begin = todo.start + clause.start + first
                begin, led = (led, 0) if led and clause is cut and kind == "fasten" else (begin, led)
                self._inside(
                    todo,
                    course,
                    before,
                    kind,
                    begin,
                    todo.start + clause.start + last,
                    made,
                    0 if clause.leads else clause.start,
                    clause.joins and kind == "colour",
                )

    def _inside(
        self,
        todo: Waiting,
        course: Course,
        before: Course | None,
        kind: CueKind,
        start: int,
        end: int,
        made: int | None,
        at: int,
        joins: bool,
    ) -> None:
        """One asking printed inside a course: before it, inside it or after it."""
        if todo.parsed is None:
            return
        if not (todo.first_of and todo.last_of) and todo.raw.label is not None:
            span = start, end, kind
            if span not in self.ranged:  # the same for each course of the range
                words = self.sheet.page.text[start:end]
                self.ranged[span] = bool(due_in(words, kind, todo.raw.label.numbers, self.sheet.yarns))
            if self.ranged[span]:
                if todo.last_of and not self._by_round(kind, start, end, course, below=False):
                    self.add(kind, start, end, course)
                return
        within = made is not None and course.makes is not None and 0 < made < course.makes
        if not within and kind in ("marker", "other") and stitches_marked(self.sheet.page.text[start:end]):
            if todo.first_of and todo.last_of and self._marks(kind, start, end, course):
                return
            if todo.first_of and not todo.last_of:  # of which round of the range, nobody knows: told ahead of them
                self.add("marker", start, end, before)
            if not (todo.first_of and todo.last_of):
                return
        if not within and kind == "colour" and self._dyes_part(start, end, course, before):
            return
        behind = _AFTERWARDS.search(self.sheet.page.text, start, end) is not None
        leads = (at <= first_stitch(todo.parsed.phrases) and not behind) or self._done_first(kind, start, end, within)
        if leads and kind != "count":
            if todo.first_of:
                self.add(kind, start, end, before)
        elif made is not None and course.makes is not None and 0 < made < course.makes:
            self.add(kind, start, end, course, made, inside=True)
        elif joins and course.makes:
            self.add(kind, start, end, course, course.makes, inside=True)
        elif todo.last_of:
            self.add(kind, start, end, course)

    def _done_first(self, kind: CueKind, start: int, end: int, within: bool) -> bool:
        """ "dec x 6 (6) (stuff before you do this one!)", "dec x 9 (after stuffing)": told in a course, done ahead."""
        text = self.sheet.page.text
        if kind == "stuff" and FILLED_AHEAD.match(text, start, end):
            return True
        return kind in _BEFORE_IT and not within and _BEFOREHAND.search(text, start, end) is not None

    def _marks(self, kind: CueKind, start: int, end: int, course: Course) -> bool:
        """A marker that goes into some stitch of a course other than the first: it stands behind that stitch."""
        marked = stitches_marked(self.sheet.page.text[start:end]) if kind in ("marker", "other") else []
        marked = [n for n in marked if n <= (course.makes or 0)]
        for n in marked:
            self.add("marker", start, end, course, n, inside=True)
            put_in_place(self.piece, place_of(self.piece, course))
        return bool(marked)

    def _dyes_part(self, start: int, end: int, course: Course, before: Course | None) -> bool:
        """A color for some stitches of a course: it begins with the first of them, and behind the last it ends."""
        words = self.sheet.page.text[start:end]
        makes = course.makes or 0
        part = stitches_dyed(words, makes)
        if part is None:
            if PART_DYED.fullmatch(words.lower()) is None:
                return False
            self.add("other", start, end, before)  # "half in white": which half, nobody knows: told with the course
            self.piece.cues[-1].weight = "pause"
            return True
        first, last = part
        self.add("colour", start, end, course if first > 1 else before, first - 1, inside=first > 1)
        put_in_place(self.piece, place_of(self.piece, course if first > 1 else before))
        if PART_DYED.fullmatch(words.lower()) and not first == last == makes:
            self.add("colour", start, end, course, last, inside=last < makes)
            cue = self.piece.cues[-1]
            cue.advice = f'Worked out: "{cue.text}" tells no color behind stitch {last}.'
            cue.text, cue.basis = "Change back to the color you had before.", "worked out"
        return True

    def _run(self, course: Course | None) -> list[Course]:
        """The courses that were printed in one line with this last one, as a range: no number is met twice."""
        run: dict[str, Course] = {}
        for one in reversed(self.piece.courses) if course is not None else ():
            if course is None or (one.line, one.text) != (course.line, course.text) or one.label in run:
                break
            run[one.label] = one
        return list(run.values())[::-1]

    def _by_round(self, kind: CueKind, start: int, end: int, course: Course | None, below: bool) -> bool:
        """An asking in the words of a range, or below it, that is one course's of it: does it stand there now?"""
        words = self.sheet.page.text[start:end]
        if below and of_another(words, kind, self.piece.name):
            return False
        run = self._run(course)
        labels = [int(course.label) for course in run]
        placed = [str(one.course) for one in when(words, kind, ordinals=False) if one.place]
        here = [course for course in run if course.label in placed[:1]] if kind == "marker" else []
        if here and self._marks(kind, start, end, here[0]):
            return True
        told = due_in(words, kind, labels, self.sheet.yarns, below=below, more=self.more)
        first = len(self.piece.courses) - len(run)
        for due in told:
            at = first + due.behind
            if kind == "colour" and self._dyed_there(at, due.back):
                continue
            a, b = (due.start, due.end) if due.end else (0, len(words))
            self.add(kind, start + a, start + b, self.piece.courses[at] if at >= 0 else None)
            if due.back:
                self.back([*labels, labels[-1] + 1][due.behind + 1])
            elif self.piece.cues[-1].weight == "whisper":
                self.piece.cues[-1].weight = "pause"  # it names its course: it is more than a word in passing
            put_in_place(self.piece, at)
        return bool(told)

    def _dyed_there(self, at: int, back: bool) -> bool:
        """Where one color ends and another begins, only that one is told: is it there already?"""
        later = {course.id for course in self.piece.courses[max(at, 0) :]} if at >= 0 else None
        behind = takewhile(lambda cue: later is None or cue.course_id in later, reversed(self.piece.cues))
        there = self.piece.courses[at].id if at >= 0 else None
        last = list(behind)[::-1]
        here = [cue for cue in last if cue.kind == "colour" and cue.course_id == there]
        if not back:
            gone = {id(cue) for cue in here if cue.basis == "worked out"}
            self.piece.cues[len(self.piece.cues) - len(last) :] = [cue for cue in last if id(cue) not in gone]
        return back and bool(here)
