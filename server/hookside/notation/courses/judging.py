"""Findings about one course: its label, its words, its sums against what is there and what is printed."""

from __future__ import annotations

import re
from typing import Any

from hookside.notation.arithmetic.choosing import Chosen
from hookside.notation.arithmetic.ground import Ground, Reading, goes_astray
from hookside.notation.courses.ahead import goes_plain, on_ground
from hookside.notation.courses.countable import counts_chains, scalloped, stands_first, trails_off
from hookside.notation.courses.meanings import BY_CUSTOM, HABITS, meaning
from hookside.notation.courses.offers import Offers
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.spaces import said_apart
from hookside.notation.courses.waiting import Waiting, name_of, title_of
from hookside.notation.findings.table import finding, spell, stitches
from hookside.notation.labels.label import Label
from hookside.notation.trees.asked import every
from hookside.notation.trees.nodes import Rep
from hookside.pattern import Course, Group, Piece, Repeat, Suggestion, makes, uses

_MOST_SAID = 12  # courses of one shared body that each say they could not be read
_LONGEST_QUOTE = 160  # letters of what could not be read that a sentence repeats

_ABOUT = 2  # chains by which such a number misses the chain


def all_in_one(reading: Reading) -> bool:
    """ "Ch 10. 2nd ch from hook, 10 sc": as many in one chain, by its words, as would go along all the chain, about."""
    many = [n.makes for n in reading.body if isinstance(n, Group) and n.into is not None and "from hook" in n.into]
    return any(n > _ABOUT + 1 and abs(n - 1 - reading.chain_left) <= _ABOUT for n in many)


class Judge:
    """Speaks of the courses of one piece. `doubt`: the last course whose count is not sure and not confirmed since."""

    def __init__(self, sheet: Sheet, piece: Piece) -> None:
        self.sheet = sheet
        self.page = sheet.page
        self.piece = piece
        self.offers = Offers(sheet)
        self.doubt: Waiting | None = None
        self.left = 0  # stitches that the course below leaves unworked by its own words
        self.promised: set[int] = set()  # what the course below makes by the lines offered there
        self.kinds: dict[int, str] = {}  # of the labels so far
        self.printed: set[int] = set()  # all labels of the piece, those to come as well

    def label(self, todo: Waiting, below: Waiting | None, seen: dict[int, int], begun: bool = False) -> None:
        """What its number says. `begun`: chains or a ring on a line of their own, which may be the first course."""
        if todo.raw.label is None or todo.raw.label.relative:
            return
        label = todo.label
        if not todo.first_of:  # "Rnds 3/6": where no rounds between them are told elsewhere
            if below is None or below.raw is not todo.raw:
                return
            if label > below.label:
                self.gap(todo, below)
                return  # ... while in "R4-R3" and "R4-4" the last one stands as another round of its number
        where: dict[str, Any] = {"piece": self.piece.name, "course": str(label)}
        name = name_of(label, todo.kind)
        other = self.kinds.get(label, todo.kind) != todo.kind  # "Row 1" behind round 1: rows are counted by themselves
        self.kinds[label] = todo.kind
        if other or (label == 1 and below is not None and below.kind != todo.kind):
            return
        chains = below is None or not below.label  # nothing below it but what has no number, as chains
        if label in seen:
            suggestions = []
            twice = todo.first_of and below is not None and below.label == label
            if todo.raw.label.number_spans and twice:
                start, end = first_number(self.page.text, todo.raw.label)
                first, last = self.page.span(start, end)
                suggestions = [
                    Suggestion(
                        label=f"{todo.kind.capitalize()} {label + 1}", start=first, end=last, replacement=str(label + 1)
                    )
                ]
            self.sheet.findings.append(
                finding(
                    self.page,
                    "label-again",
                    todo.at,
                    todo.start,
                    suggestions=suggestions,
                    found=label,
                    Course=name.capitalize(),
                    **where,
                )
            )
        elif below is None and label > 2 and self.piece.make > 1 and self.goes_on(todo):
            if any(f.code == "copies-carried" for f in self.sheet.findings[-1:]):
                return  # it is made as often as the part before, which is said
            where |= {"Course": name.capitalize(), "name": self.piece.name, "found": self.piece.make}
            self.sheet.findings.append(finding(self.page, "copies-go-on", todo.at, todo.start, **where))
        elif chains and label > (2 if begun or below else 1) and not self.goes_on(todo):
            self.sheet.findings.append(
                finding(
                    self.page,
                    "label-late",
                    todo.at,
                    todo.start,
                    found=label,
                    Course=name.capitalize(),
                    missing=f"{todo.kind} 1 is" if label == 2 else f"{todo.kind}s 1 to {label - 1} are",
                    **where,
                )
            )
        elif below is not None and below.label and label < below.label:
            self.sheet.findings.append(
                finding(
                    self.page,
                    "label-order",
                    todo.at,
                    todo.start,
                    found=label,
                    expected=below.label + 1,
                    Course=name.capitalize(),
                    before=name_of(below.label, below.kind),
                    **where,
                )
            )
        elif below is not None and below.label:
            self.gap(todo, below)

    def gap(self, todo: Waiting, below: Waiting) -> None:
        """Says where numbers are missing between a course and the one below it."""
        label = todo.label
        if label <= below.label + 1 or self.printed.issuperset(range(below.label + 1, label)):
            return  # ... or they stand out of their order, and that is said of them
        gap = label - below.label - 1
        missing = (
            f"{todo.kind} {below.label + 1} is" if gap == 1 else f"{todo.kind}s {below.label + 1} to {label - 1} are"
        )
        self.sheet.findings.append(
            finding(
                self.page,
                "label-gap",
                todo.at,
                todo.start,
                expected=below.label + 1,
                found=label,
                before=name_of(below.label, below.kind),
                this=name_of(label, todo.kind),
                missing=missing,
                piece=self.piece.name,
                course=str(label),
            )
        )

    def goes_on(self, todo: Waiting) -> bool:
        """Do the numbers of this piece go on from those of the piece before?"""
        before = self.sheet.before
        return before is not None and todo.label == before.label + 1

    def unread(self, todo: Waiting, where: dict[str, Any]) -> None:
        shared = todo.raw.label.numbers if todo.raw.label is not None else []
        if not todo.first_of and todo.label - (shared[0] if shared else todo.label) >= _MOST_SAID:
            return
        body = self.page.text[todo.start : todo.end]
        name = name_of(todo.label, todo.kind)
        start, end = todo.start, todo.end
        if todo.failed == "reference":
            self.sheet.findings.append(
                finding(self.page, "reference", start, end, Course=title_of(todo), what=todo.what, **where)
            )
            return
        if todo.failed == "own-steps":
            self.sheet.findings.append(finding(self.page, "own-steps", start, end, Course=title_of(todo), **where))
            return
        if todo.failed in ("nesting", "too-many-stitches", "too-many-repeats", "no-times", "long-course"):
            found = end - start if todo.failed == "long-course" else None
            if todo.failed == "too-many-repeats" and todo.parsed is not None:
                found = max((n.times for n in every(todo.parsed.tree) if isinstance(n, Rep)), default=0)
            self.sheet.findings.append(
                finding(
                    self.page, todo.failed, start, end, Course=title_of(todo), found=found, **{**where, "this": name}
                )
            )
            return
        if todo.parsed is not None and todo.parsed.phrases.unknown and not todo.borrowed:
            first, last = todo.parsed.phrases.unknown[0]
            start, end = todo.start + first, todo.start + last
            what = body[first:last]
            if len(what) > _LONGEST_QUOTE:
                what = what[:_LONGEST_QUOTE].rsplit(" ", 1)[0] + " ..."
        else:
            what = " ".join(body.split())[:80]
        then = "you tell me how many stitches you have"
        if todo.declared is not None:
            then = f"I go on from the {todo.declared} that are printed"
        told: dict[str, Any] = {"what": what, "this": name, "then": then}
        self.sheet.findings.append(finding(self.page, "unread", start, max(end, start), **told, **where))

    def sums(self, todo: Waiting, taken: Chosen, ground: Ground, below: Waiting | None, where: dict[str, Any]) -> None:
        """Findings about the sums of one course."""
        reading = taken.reading
        add = self.sheet.findings.append
        if taken.why and taken.fits:
            unsaid = ("slip stitch levels", "join or stitch", *(("trails off",) if trails_off(todo) else ()))
            telling = [w for w in taken.why if w not in unsaid]
            terse = telling == ["terse list"]  # no number is printed that could bear it out: the lists behind it do
            habit = bool(telling) and HABITS.issuperset(telling) and (terse or borne_out(todo, ground, reading))
            comes = "comes" if terse else "both numbers come"
            if telling and not (habit and self.sheet.habits.issuperset(telling)):
                self.sheet.habits.update(telling if habit else ())
                add(
                    finding(
                        self.page,
                        "chosen",
                        todo.start,
                        todo.end,
                        Course=title_of(todo),
                        meaning=meaning(telling[0]),
                        because="such words mostly mean that"
                        if telling[0] in BY_CUSTOM
                        else self.because(ground, reading),
                        again=f" So I do wherever it is written like this and {comes} out." if habit else "",
                        **where,
                    )
                )
        if taken.bounded and not taken.fits and todo.first_of:
            add(finding(self.page, "bounded", todo.start, todo.end, Course=title_of(todo), **where))
        if reading.over_chain:
            add(
                finding(
                    self.page,
                    "chain",
                    todo.start,
                    todo.end,
                    Course=title_of(todo),
                    over=spell(reading.over_chain),
                    chain=reading.chain,
                    room=spell(max(0, reading.chain - 1)),
                    mends="",
                    **where,
                )
            )
            return
        if taken.fits:
            self.promised = self.promised if goes_plain(reading, ground.there) else set()
            if self.part_joined(todo, ground, reading):
                add(
                    finding(
                        self.page,
                        "part-joined",
                        todo.start,
                        todo.end,
                        expected=ground.there,
                        found=reading.uses,
                        Course=title_of(todo),
                        there=ground.there,
                        **where,
                    )
                )
            if (
                reading.chain_left > 0
                and (ground.chain or reading.chain)
                and ((todo.kind == "row" and todo.declared is not None) or all_in_one(reading))
                and not ground.free
                and reading.uses == 0
                and not (todo.parsed is not None and reading.chain_left <= stands_first(todo.parsed.tree))
            ):
                add(
                    finding(
                        self.page,
                        "chain-left",
                        todo.start,
                        todo.end,
                        Course=title_of(todo),
                        over=spell(reading.chain_left),
                        found=reading.chain_left,
                        **where,
                    )
                )
            if todo.declared is not None and counts_chains(reading, todo.declared):
                spaces: dict[str, Any] = {"Course": title_of(todo), "expected": reading.makes, "found": todo.declared}
                add(finding(self.page, "chains-counted", todo.start, todo.end, **spaces, **where))
            if todo.first_of and (how := said_apart(todo, ground, reading)):
                apart: dict[str, Any] = {"Course": title_of(todo), "n": reading.stitches, "how": how}
                add(finding(self.page, "spaces-counted", todo.start, todo.end, **apart, **where))
            if trails_off(todo) and ("trails off" in taken.why or reading.uses != ground.there):
                again = meaning("trails off", int("trails off" in taken.why))
                dots: dict[str, Any] = {"Course": title_of(todo), "found": reading.makes, "meaning": again}
                add(finding(self.page, "trails-off", todo.start, todo.end, **dots, **where))
            if todo.declared is None and todo.first_of and todo.parsed is not None and scalloped(todo.parsed.tree):
                told: dict[str, Any] = {"Course": title_of(todo), "n": reading.makes}
                add(finding(self.page, "slips-counted", todo.start, todo.end, **told, **where))
            return
        uses_wrong = goes_astray(reading, ground)
        uses_wrong = uses_wrong or (ground.there is not None and not ground.free and reading.uneven != 0)
        if uses_wrong:
            assert ground.there is not None
            over = reading.uses - ground.there
            # What comes out once the course below is mended is not wrong itself: mended, it would move the fault on
            waits = self.waits(todo, ground)
            found_mends = [] if waits else self.offers.mend(todo, taken, ground)
            self.promised = waits or {m.makes for m in found_mends}
            code = "overrun" if over > 0 else "left-over"
            if over == 0 and reading.uneven == 0:
                code = "count"
            below_name = name_of(below.label, below.kind) if below is not None else "the course below"
            left = abs(over) if over else reading.uneven
            own_sums = todo.declared is not None and reading.makes == todo.declared and not reading.filled
            add(
                finding(
                    self.page,
                    code,
                    todo.start,
                    todo.end,
                    expected=ground.there,
                    found=reading.uses,
                    # its own numbers come out: then it is the course below, already spoken of, that is off
                    severity="warning" if own_sums and self.doubt is not None else None,
                    suggestions=self.offers.suggestions(todo, found_mends),
                    Course=title_of(todo),
                    works=self.works(reading),
                    below=below_name,
                    there=ground.there,
                    over=f"{spell(left)} {'are' if left != 1 else 'is'}" if code == "left-over" else spell(left),
                    mends=f" It comes out once {below_name} is mended."
                    if waits
                    else self.offers.told(todo, found_mends, ground),
                    **where,
                )
            )
        elif todo.declared is not None and todo.declared not in reading.counts():
            doubtful = self.doubt is not None and self.doubt.declared == todo.declared
            copied = doubtful and goes_plain(reading, ground.there)
            if copied and below is not None and below.raw is todo.raw:
                return  # one line for several courses, one word about its count
            found_mends = self.offers.mend(todo, taken, ground)
            add(
                finding(
                    self.page,
                    "count",
                    *(todo.declared_at or (todo.start, todo.end)),
                    expected=reading.makes,
                    found=todo.declared,
                    severity="note" if copied else None,  # the mistake is where it is printed first
                    suggestions=[
                        *self.offers.count_suggestion(todo, reading.makes, ground),
                        *self.offers.suggestions(todo, [m for m in found_mends if not m.count]),
                    ],
                    Course=title_of(todo),
                    makes=self.made(reading),
                    declared=todo.declared,
                    mends="",  # the offered lines tell them, behind the verdict of what comes next
                    **where,
                )
            )

    def waits(self, todo: Waiting, ground: Ground) -> set[int]:
        """What a course makes where it comes out on what the one below makes by a line that is offered there."""
        if todo.parsed is None:
            return set()
        parsed, own = todo.parsed, self.sheet.own
        ways = [on_ground(parsed, ground.but(there=n), own) for n in self.promised]
        return {way.reading.makes for way in ways if way.fits}

    def tired(self, todo: Waiting, course: Course) -> None:
        """Says once that from here on nothing is searched for."""
        patience = self.sheet.patience
        passed_by = todo.parsed is not None and todo.parsed.body in self.sheet.passed_by
        if patience.said or not (patience.refused or passed_by):
            return
        patience.said = True
        where: dict[str, Any] = {"piece": self.piece.name, "course": course.label, "course_id": course.id}
        self.sheet.findings.append(finding(self.page, "too-much-doubt", todo.at, todo.start, **where))

    def part_joined(self, todo: Waiting, ground: Ground, reading: Reading) -> bool:
        """Does it go on over another part, so that nothing tells whether all the stitches below were used?"""
        if todo.parsed is None or not todo.parsed.phrases.elsewhere or todo.parsed.phrases.unworked:
            return False
        open_sum = todo.declared is None and ground.there is not None and reading.uses != ground.there
        return open_sum and not reading.chains  # legs joined over a chain have stitches of their own

    def because(self, ground: Ground, reading: Reading) -> str:
        if ground.declared is not None and ground.there is not None:
            there = f"the {ground.there} stitches there"
            if reading.uses != ground.there and not ground.free and not ground.layers:
                there = f"the {reading.uses} stitches printed for the course below"  # which makes another number
            return f"only so does it use {there} and make the {ground.declared} that are printed"
        if ground.declared is not None:
            return f"only so does it make the {ground.declared} that are printed"
        if ground.there is not None and reading.uses == ground.there:
            return f"only so does it use the {ground.there} stitches there"
        return "the next course needs it so"

    def works(self, reading: Reading) -> str:
        body = [n for n in reading.body if not (isinstance(n, Group) and n.stitch in ("ch", "turn", "join"))]
        if len(body) == 1 and isinstance(body[0], Repeat):
            each = uses(body[0].body)
            return f"works {stitches(each)} {often(body[0].times)} = {reading.uses}"
        return f"uses {stitches(reading.uses)}"

    def made(self, reading: Reading) -> str:
        body = [n for n in reading.body if not (isinstance(n, Group) and n.stitch in ("ch", "turn", "join"))]
        if len(body) == 1 and isinstance(body[0], Repeat):
            each = makes(body[0].body)
            return f"makes {stitches(each)} {often(body[0].times)} = {reading.makes}"
        return f"makes {stitches(reading.makes)}"


def borne_out(todo: Waiting, ground: Ground, reading: Reading) -> bool:
    """Do both numbers agree with a reading, the stitches below and the printed count, and are no spaces in play?"""
    if todo.declared is None or todo.declared != reading.makes or reading.spaces or ground.gaps or ground.free:
        return False
    return reading.uses == ground.there if ground.there is not None else ground.first


def first_number(text: str, label: Label) -> tuple[int, int]:
    """Where the first number of a label is printed; all of "5-6", where only 6 is left of it."""
    start, end = label.number_spans[0]
    match = re.match(r"\d+", text[start:end])
    whole = len(label.numbers) == 2 or match is None
    return (start, end) if match is None or (whole and len(label.numbers) > 1) else (start, start + match.end())


def often(times: int) -> str:
    return {1: "once", 2: "twice"}.get(times, f"{spell(times)} times")
