"""The courses of one piece, summed from the first to the last: each on what the one below it makes."""

from __future__ import annotations

import re
from dataclasses import replace

from hookside.notation.arithmetic.choosing import Chosen, choose
from hookside.notation.arithmetic.ground import Ground, Reading
from hookside.notation.bodies.turnchains import for_turn
from hookside.notation.courses.ahead import goes_plain, next_course, on_ground, told_between
from hookside.notation.courses.countbehind import of_another_part, settle_count
from hookside.notation.courses.edge import Edge
from hookside.notation.courses.entries import Entries
from hookside.notation.courses.onward import carried
from hookside.notation.courses.parts import lent_by_name
from hookside.notation.courses.rising import rise
from hookside.notation.courses.sameness import settle_same
from hookside.notation.courses.settling import astray
from hookside.notation.courses.sheet import MOST_PARTS, Account, Sheet
from hookside.notation.courses.spaces import spaces
from hookside.notation.courses.waiting import Before, Parsed, Part, Waiting, in_ring, lead_chain, stretches
from hookside.notation.lines.layout import RawText
from hookside.pattern import Course, Piece, makes, uses
from hookside.pattern import Node as Made

# "Rnd 7: sc evenly around (40)", behind rows of 14
_AROUND_EDGE = re.compile(
    r"\b(?:evenly (?:spaced )?(?:all )?(?:a?round|along|on)|a?round (?:the |all |whole |entire |outer |outside )*"
    r"(?:edges?|piece|outside|sides?|flap|square|panel|work)|along (?:the |all |both )*(?:edges?|sides?|row ends))\b",
    re.I,
)

# "3 ch (counts as 1 tr), 11 tr, ss in 3rd ch", "Ch 3 (counts as dc), 11 dc, join"
_STANDS_FOR_ONE = re.compile(
    r"\W*(?:ch(?:ain)? ?[2-4]|[2-4] ?ch)\s?[(,]\s?(?:counts?|counting|counted|is|as|=)[^()\n]{3,40}[),]"
    r"[^\n]{3,80}?\b(?:join|ss|sl ?st|slip)",
    re.I,
)


class Walk(Entries):
    """One piece. `queue`: its courses and the sentences between; `ring`: a magic ring stands on a line of its own;
    `notes`: lines elsewhere that may ask by its courses."""

    def __init__(
        self,
        sheet: Sheet,
        piece: Piece,
        stem: str,
        queue: list[Waiting | RawText],
        ring: bool,
        notes: list[tuple[int, int]],
    ) -> None:
        super().__init__(sheet, piece, stem, queue, ring)
        self.notes = notes
        there = carried(sheet, piece, queue)
        self.edge = Edge(there, there is None)
        self.below: Waiting | None = None  # the course below, as it waited
        self.last: Course | None = None  # ... and as it was written down
        self.judge.printed = {t.label for t in queue if isinstance(t, Waiting) and t.raw.label is not None}
        self.ends = 0  # where the last of them waits
        self.until_met: set[int] = set()  # rows that were to be repeated until so many stitches were left

    def run(self) -> None:
        """Sums the whole line, one course upon the other."""
        rise(self.queue, self.sheet.turning)
        self.ends = max((at for at, item in enumerate(self.queue) if isinstance(item, Waiting)), default=0)
        for index, item in enumerate(self.queue):
            self.cues.more = index < self.ends
            if isinstance(item, RawText):
                self.cues.text(item, self.last)
            elif item.foundation:
                self.found(item, index)
            else:
                self.renumber(item)
                if item.until is None or self.goes_on_until(item, item.until, index):
                    self.work(item, index)
                    if item.until not in (None, self.edge.there) and self.tried_last(item, index):
                        self.judge.never(item, self.last)
        self.cues.noted(self.notes)
        self.cues.without_told_again()
        self.leave()

    def found(self, todo: Waiting, index: int) -> None:
        made = self.founded(todo, self.last, self.below)
        if todo.parsed is not None and todo.parsed.phrases.counts_as is not None:
            self.counts_ahead = todo.parsed.phrases.counts_as
        if made is None:
            return
        self.ahead.extend(made.body)
        if self.edge.there is None:
            self.edge.chain, self.edge.first = self.foundation_chains(made, self.queue, index), True
            self.edge.for_turn = for_turn(todo.text)

    def renumber(self, todo: Waiting) -> None:
        """The courses before it were as many as it took, not as many as there might be."""
        told = todo.raw.label is not None and not todo.raw.label.relative
        if not told and self.below is not None and todo.label > self.below.label + 1:
            todo.label = self.below.label + 1

    def goes_on_until(self, todo: Waiting, until: int, index: int) -> bool:
        """Is a row that is repeated until so many stitches are left to be worked once more?"""
        if id(todo.raw) in self.until_met:
            return False  # as of hundreds that were laid out for it
        there, below, last = self.edge.there, self.below, self.last
        again = below is not None and below.raw is todo.raw
        if there == until and not self.ends_block(todo, index):
            self.until_met.add(id(todo.raw))
            return False
        if again and astray(self.piece.courses, until):
            self.until_met.add(id(todo.raw))
            self.judge.never(todo, last)
            return False
        if there is None:
            return False
        return not (again and there < until and last is not None and (last.uses or 0) > there)

    def tried_last(self, todo: Waiting, index: int) -> bool:
        """Is it the last of the courses that were laid out for "until you have 600 stitches"?"""
        behind = next((t for t in self.queue[index + 1 : index + 2] if isinstance(t, Waiting)), None)
        return behind is None or behind.raw is not todo.raw

    def closes_ring(self, todo: Waiting) -> bool:
        """ "Rnd 1: 3 ch (counts as 1 tr), 11 tr, ss in 3rd ch", with nothing below it.

        The chain stands for a stitch, so that only a ring is left that the text tells elsewhere or takes for granted.
        """
        if todo.parsed is None or todo.kind != "round" or self.edge.there:
            return False
        return _STANDS_FOR_ONE.match(todo.parsed.body) is not None

    def work(self, todo: Waiting, index: int) -> None:
        """One course on what the one below it made."""
        first = self.last is None and todo.parsed is not None and lead_chain(todo.parsed.tree.items)
        if first and todo.parsed is not None and (self.ring_ahead or self.closes_ring(todo)):
            todo.parsed = in_ring(todo.parsed)
        ring = self.ring_ahead and not (todo.parsed is not None and stretches(todo.parsed))
        self.judge.label(todo, self.below, self.seen, bool(self.ahead) or ring)
        if todo.upon:
            edge = self.edge
            edge.there, edge.maybe, edge.chain, edge.first = self.made_at(todo.upon), None, 0, False
        taken, ground = self.summed(todo, index)
        before, below, said = self.last, self.below, len(self.sheet.findings)
        course = self.course(todo, taken, ground, below)
        self.judge.weigh(todo, taken, ground, course, said, self.queue, index)
        self.judge.tired(todo, course)
        self.piece.courses.append(course)
        if self.sheet.keep:
            self.sheet.accounts.append(Account(self.piece, todo, taken, ground, below, course))
        self.cues.of_course(todo, taken, course, before)
        if self.cues.later:
            self.cues.come_due(course)
        legs = todo.parsed is not None and todo.parsed.phrases.elsewhere
        self.bridge = 0
        if legs and taken is not None and taken.reading.makes == taken.reading.stitches:
            self.bridge = taken.reading.chains
        self.edge = self.edge.above(todo, taken, ground, course)
        self.below, self.last = todo, course

    def summed(self, todo: Waiting, index: int) -> tuple[Chosen | None, Ground]:
        """The reading of a course on the edge at hand, and the ground it was read on."""
        edge, own = self.edge, self.sheet.own
        ground = edge.ground(todo.declared, self.below)
        if ground.there is None and not edge.chain and self.on_fabric(todo, index):
            ground.first = False
        rows = self.below is not None and self.below.kind == "row" and todo.kind == "round" and not edge.chain
        around = rows and _AROUND_EDGE.search(todo.text) is not None and todo.declared not in (None, edge.there)
        if around:
            ground.there, ground.first = None, False  # all round the edges of rows: its own count tells how many
        if self.judge.doubt is None and of_another_part(todo, ground, self.sheet):
            todo.declared = ground.declared = todo.declared_at = None
        settle_count(self.sheet, todo, ground)
        same = settle_same(todo, edge.there, self.queue, index, own)
        if todo.parsed is not None and todo.parsed.phrases.elsewhere:
            by_name = lent_by_name(todo.parsed.tree, self.sheet.parts)
            ground.lend = by_name or self.lent(self.page.text[todo.start : todo.end])
        try:
            taken, ground = self.take(todo, ground, self.printed_below(todo, ground, index), self.queue, index)
            if taken is not None and taken.fits:
                self.step = abs(taken.reading.makes - (ground.there or 0)) or self.step
            if around and taken is not None and taken.fits:
                taken = replace(taken, why=[*taken.why, "around the edges"])
            if same and taken is not None and taken.fits:
                taken = replace(taken, why=[*taken.why, same])
            if taken is not None and taken.reading.spaces and todo.parsed is not None:
                taken, ground = spaces(todo, taken, ground, next_course(self.queue, index), own)
            if taken is not None and not taken.reading.unknown and not comes_to(taken.reading, self.ahead):
                todo.failed, taken = "own-steps", None
        except Exception as trouble:  # as in Reader.parse: the course is unread, and said
            self.sheet.fell.append((todo.text, trouble))
            todo.failed, taken = "unread", None
        return taken, ground

    def printed_below(self, todo: Waiting, ground: Ground, index: int) -> int | None:
        """What the course below prints and does not make, where this one may stand on it.

        A plain course whose count is only copied from there may not, unless a later one needs that number: what is
        worked is what there is.
        """
        edge, own = self.edge, self.sheet.own
        if edge.maybe is None or not edge.sound or ground.there is None or todo.parsed is None or todo.borrowed:
            return edge.maybe  # "2 rounds of 18": where only the count is told, it is all there is
        if todo.declared != edge.maybe or not goes_plain(self.alone(todo.parsed, ground), ground.there):
            return edge.maybe
        told = told_between(self.queue, index, ground.there, edge.maybe, own)
        return edge.maybe if told == edge.maybe else None

    def alone(self, parsed: Parsed, ground: Ground) -> Reading:
        """A body on what there is, whatever count is printed."""
        return on_ground(parsed, ground.but(declared=None), self.sheet.own).reading

    def leave(self) -> None:
        """What the piece leaves to those behind it: the stitches of its last course, and how far its numbers went."""
        if self.below is None:
            return
        there = self.edge.there
        part = Part(self.slug, there, self.below.kind, self.judge.doubt is None)
        self.sheet.parts.extend([part] * self.piece.make)
        del self.sheet.parts[:-MOST_PARTS]
        first_label = next((t.label for t in self.queue if isinstance(t, Waiting)), 0)
        told = self.sheet.before
        earlier = told.counts if told is not None and first_label == told.label + 1 else {}
        counts = earlier | {int(c.label): c.makes for c in self.piece.courses if c.label.isdecimal()}
        self.sheet.before = Before(self.below.label, there, self.piece.make, self.piece.name, counts)

    def ends_block(self, todo: Waiting, index: int) -> bool:
        """ "Repeat rows 3 and 4 until 3 sts remain. Next row: ...": behind row 3 the plain row 4 is worked too."""
        below, there = self.below, self.edge.there
        if below is None or below.raw is not todo.raw or todo.parsed is None:
            return False
        if not any(isinstance(t, Waiting) and t.raw is not todo.raw for t in self.queue[index:]):
            return False  # nothing behind them that a plain row would lead to
        begins = next(t for t in self.queue if isinstance(t, Waiting) and t.raw is todo.raw)
        taken = choose(todo.parsed.tree, Ground(there, 0, False, None), self.sheet.own)
        return begins.source != todo.source and taken.fits and taken.reading.makes == there


def comes_to(reading: Reading, ahead: list[Made]) -> bool:
    """Do the steps of a course, behind what was made `ahead` of it, come to its own sums?

    The books of a reading (`arithmetic/ledger`) and its steps are written side by side. Where a new way of writing
    has them fall apart, the hands would be shown another number of stitches than the screen counts.
    """
    body = [*ahead, *reading.body]
    return (uses(body), makes(body)) == (reading.uses, reading.makes)
