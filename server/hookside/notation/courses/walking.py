"""The courses of one piece, summed from the first to the last: each on what the one below it makes."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from hookside.notation.arithmetic.choosing import Chosen, choose
from hookside.notation.arithmetic.ground import Ground, Reading, fits
from hookside.notation.arithmetic.stitches import group
from hookside.notation.arithmetic.summing import read_as
from hookside.notation.courses.ahead import look_ahead, next_course, stands, turns_short, undecided
from hookside.notation.courses.countbehind import settle_count
from hookside.notation.courses.cue_notes import CueNotes
from hookside.notation.courses.doubting import Doubting
from hookside.notation.courses.going_round import counted_bare, last_number
from hookside.notation.courses.onward import carried
from hookside.notation.courses.sameness import settle_same
from hookside.notation.courses.settling import astray, may_be_left, over_bridge, settle, skipping, too_much
from hookside.notation.courses.sheet import Account, Sheet
from hookside.notation.courses.spaces import BOTH, CHAINED, SPACES, between, spaces
from hookside.notation.courses.waiting import Before, Waiting, lead_chain, ringed, stretches, title_of, walk, works
from hookside.notation.findings.table import finding
from hookside.notation.labels import loops
from hookside.notation.lines.layout import RawText
from hookside.notation.trees.nodes import MOST_STITCHES, Work
from hookside.pattern import Course, Group, Piece, Words
from hookside.pattern import Node as Made

_HIGHEST = 4  # chains that go up to the height of a course, and are no base
_TWO_OF_THEM = re.compile(r"\b(?:first|1st|other)\b.*\b(?:second|2nd|other)\b|\b(?:second|2nd)\b.*\b(?:first|1st)\b")


# "Rnd 7: sc evenly around (40)", behind rows of 14
_AROUND_EDGE = re.compile(
    r"\b(?:evenly (?:spaced )?(?:all )?(?:a?round|along|on)|a?round (?:the |all |whole |entire |outer |outside )*"
    r"(?:edges?|piece|outside|sides?|flap|square|panel|work)|along (?:the |all |both )*(?:edges?|sides?|row ends))\b",
    re.I,
)


class Walk:
    """One piece. `queue`: its courses and the sentences between; `ring`: a magic ring stands on a line of its own."""

    def __init__(self, sheet: Sheet, piece: Piece, stem: str, queue: list[Waiting | RawText], ring: bool) -> None:
        self.sheet = sheet
        self.page = sheet.page
        self.piece = piece
        self.slug = stem
        self.queue = queue
        self.ring_ahead = ring
        self.cues = CueNotes(sheet, piece, stem)
        self.judge = Doubting(sheet, piece)
        self.ways: dict[int, tuple[tuple[int, ...], bool]] = {}  # how a body was read where it stood first
        self.customary: set[int] = set()  # chains taken for a stitch though nothing says that they are one
        self.bridge = 0  # chains between two pieces, made in the course below
        self.counts_ahead: bool | None = None  # what a foundation says of its own chain
        self.ahead: list[Made] = []  # chains on a line of their own, for the next course to begin with
        self.turning = dict(sheet.turning)
        self.left: set[int] = set()  # bodies of which words were left out, and whose numbers came out

    def run(self) -> None:
        """Sums the whole line, one course upon the other."""
        there: int | None = carried(self.sheet, self.piece, self.queue)
        maybe: int | None = None  # what the course below prints, where that is something else
        chain = 0
        below: Waiting | None = None
        course: Course | None = None
        seen: dict[int, int] = {}
        until_met: set[int] = set()
        first = there is None
        spaced = False
        gaps = 0
        sizes: dict[int, int] = {}
        kept: tuple[int, ...] = ()
        chained = 0
        queue = self.queue
        for index, item in enumerate(queue):
            if isinstance(item, RawText):
                self.cues.text(item, course)
                continue
            todo = item
            if todo.foundation:
                made = self.founded(todo, course, below)
                if todo.parsed is not None and todo.parsed.phrases.counts_as is not None:
                    self.counts_ahead = todo.parsed.phrases.counts_as
                if made is not None:
                    self.ahead.extend(made.body)
                    if there is None:
                        chain, first = self.foundation_chains(made, queue, index), True
                continue
            if (
                (todo.raw.label is None or todo.raw.label.relative)
                and below is not None
                and todo.label > below.label + 1
            ):
                todo.label = (
                    below.label + 1
                )  # the courses before it were as many as it took, not as many as there might be
            if todo.until is not None:
                met = there == todo.until and not self.ends_block(todo, below, there, index)
                if id(todo.raw) in until_met or met:
                    until_met.add(id(todo.raw))
                    continue
                if below is not None and below.raw is todo.raw and astray(self.piece.courses, todo.until):
                    until_met.add(id(todo.raw))
                    self.judge.never(todo, course)
                    continue
                if there is None or (
                    below is not None
                    and below.raw is todo.raw
                    and there < todo.until
                    and course is not None
                    and (course.uses or 0) > there
                ):
                    continue
            ring = self.ring_ahead and not (todo.parsed is not None and stretches(todo.parsed))
            self.judge.label(todo, below, seen, bool(self.ahead) or ring)
            if todo.upon:
                there, maybe, chain, first = self.made_at(todo.upon), None, 0, False
            ground = Ground(
                there,
                chain,
                first or (there is None and chain > 0 and (below is None or below.label == 0)),
                todo.declared,
                spaces=spaced,
                gaps=gaps,
                sizes=sizes,
                kept=kept,
                chained=chained,
            )
            if ground.there is None and not chain and self.on_fabric(todo, index):
                ground.first = False
            edge = below is not None and below.kind == "row" and todo.kind == "round" and not chain
            if edge and _AROUND_EDGE.search(todo.text) and todo.declared is not None and todo.declared != there:
                ground.there, ground.first = None, False  # all round the edges of rows: its own count tells how many
            else:
                edge = False
            settle_count(self.sheet, todo, ground)
            same = settle_same(todo, there, queue, index, self.sheet.own)
            if todo.parsed is not None and todo.parsed.phrases.elsewhere:
                ground.lend = self.lent(self.page.text[todo.start : todo.end])
            try:
                taken, ground = self.take(todo, ground, maybe, queue, index)
                if edge and taken is not None and taken.fits:
                    taken = replace(taken, why=[*taken.why, "around the edges"])
                if same and taken is not None and taken.fits:
                    taken = replace(taken, why=[*taken.why, same])
                if taken is not None and taken.reading.spaces and todo.parsed is not None:
                    taken, ground = spaces(todo, taken, ground, next_course(queue, index), self.sheet.own)
            except Exception as trouble:  # as in Reader.parse: the course is unread, and said
                self.sheet.fell.append((todo.text, trouble))
                todo.failed, taken = "unread", None
            spaced = ground.mode in (SPACES, BOTH)
            gaps = taken.reading.spaces if taken is not None else 0
            sizes = taken.reading.sizes if taken is not None else {}
            kept = ground.only
            if taken is not None and ground.only:
                gaps = sum(taken.reading.sizes.get(size, 0) for size in ground.only)
            chained = taken.reading.chains if taken is not None and ground.mode == CHAINED else 0
            before = course
            said = len(self.sheet.findings)
            course = self.course(todo, taken, ground, below, seen)
            self.judge.weigh(todo, taken, ground, course, said, queue, index)
            self.piece.courses.append(course)
            if self.sheet.keep:
                self.sheet.accounts.append(Account(self.piece, todo, taken, ground, below, course))
            self.cues.of_course(todo, taken, course, before)
            chain = 0
            maybe = None
            legs = todo.parsed is not None and todo.parsed.phrases.elsewhere
            self.bridge = 0
            if legs and taken is not None and taken.reading.makes == taken.reading.stitches:
                self.bridge = taken.reading.chains
            if taken is not None and course.read:
                reading = taken.reading
                only_chain = reading.makes == 0 and reading.chain > 0
                there = None if (reading.makes == 0 and reading.uses == 0) else ground.stands or reading.makes
                chain = reading.chain if only_chain else 0
                if reading.makes == 0 and reading.uses > 0:
                    there = None
                if todo.declared is not None and todo.declared != reading.makes:
                    maybe = todo.declared
                elif ground.there is not None and 0 < reading.uses < ground.there and reading.makes:
                    maybe = reading.makes + ground.there - reading.uses  # what it left may be worked again
            else:
                there = todo.declared
            first = first and todo.label == 0 and there is None
            below = todo
        if there is not None and below is not None:
            self.sheet.ends.extend([(self.slug, there)] * self.piece.make)
        if below is not None:
            first_label = next((t.label for t in queue if isinstance(t, Waiting)), 0)
            told = self.sheet.before
            earlier = told.counts if told is not None and first_label == told.label + 1 else {}
            counts = earlier | {int(c.label): c.makes for c in self.piece.courses if c.label.isdecimal()}
            self.sheet.before = Before(below.label, there, self.piece.make, counts)

    def ends_block(self, todo: Waiting, below: Waiting | None, there: int | None, index: int) -> bool:
        """ "Repeat rows 3 and 4 until 3 sts remain. Next row: ...": behind row 3 the plain row 4 is worked too."""
        if below is None or below.raw is not todo.raw or todo.parsed is None:
            return False
        if not any(isinstance(t, Waiting) and t.raw is not todo.raw for t in self.queue[index:]):
            return False  # nothing behind them that a plain row would lead to
        begins = next(t for t in self.queue if isinstance(t, Waiting) and t.raw is todo.raw)
        taken = choose(todo.parsed.tree, Ground(there, 0, False, None), self.sheet.own)
        return begins.source != todo.source and taken.fits and taken.reading.makes == there

    def on_fabric(self, todo: Waiting, index: int) -> bool:
        """Does a first course go into what is there: by its words, by the line above, or as one chain is no base?"""
        if loops.on_fabric(self.page.text[todo.start : todo.end]):
            return True
        height = lead_chain(todo.parsed.tree.items) if todo.parsed is not None else 0
        if todo.parsed is None or not height or ringed(todo.parsed):
            return False
        above = self.queue[index - 1] if index else None
        told = isinstance(above, RawText) and loops.joined_above(self.page.text[above.start : above.end])
        return height == 1 or (told and height <= _HIGHEST)

    def made_at(self, label: int) -> int | None:
        """How many stitches the course of that number has, None where there is none."""
        named = [c for c in self.piece.courses if c.label == str(label)]
        first = next((t.label for t in self.queue if isinstance(t, Waiting)), 0)
        if not named and label < first and self.sheet.before is not None:
            return self.sheet.before.counts.get(label)  # the numbers go on from the piece before
        return named[-1].makes if named else None

    def foundation_chains(self, made: Reading, queue: list[Waiting | RawText], index: int) -> int:
        """Chains to work into: those of a strand, or of a ring that is worked chain by chain."""
        if not (made.joined or made.ring):
            return made.chain
        if not self.on_chains(queue, index):
            return 0 if made.joined else made.chain
        chains = [g.count for g in made.body if isinstance(g, Group) and g.stitch == "ch"]
        return max([made.chain, *chains])  # "ch 12, join, ch 1": the last one only goes up

    def on_chains(self, queue: list[Waiting | RawText], index: int) -> bool:
        """Is a closed chain worked along its chains ("sc in each ch around"), and not into the ring it makes?"""
        after = next_course(queue, index)
        works = walk(after.parsed.tree.items) if after is not None else []
        return any(isinstance(n, Work) and n.fill and n.noun in ("ch", "chain", "chs", "chains") for n in works)

    def lent(self, body: str) -> tuple[int, ...]:
        """Stitches of the pieces a course works into: those it names, else the last two."""
        words = set(re.findall(r"leg|arm|foot|fin|wing|flipper|ear|tube|half|piece", body.lower()))
        named_so = [n for slug_, n in self.sheet.ends if any(w in slug_ for w in words)]
        if len(named_so) == 1 and _TWO_OF_THEM.search(body.lower()):
            named_so *= 2  # "make a second one": told in a sentence, and made like the first
        return tuple(named_so or [n for _, n in self.sheet.ends[-2:]])

    def founded(self, todo: Waiting, before: Course | None, below: Waiting | None) -> Reading | None:
        """The chains a course is worked into; where they cannot be read, their words are asked as they stand."""
        taken, ground = self.take(todo, Ground(None, 0, True, None), None, [], 0)
        if self.sheet.keep:
            self.sheet.accounts.append(Account(self.piece, todo, taken, ground, below, None))
        if taken is None or taken.reading.unknown:
            self.cues.add("other", todo.start, todo.end, before)
            return None
        for clause in todo.parsed.phrases.cues if todo.parsed is not None else []:
            self.cues.add(clause.kind, todo.start + clause.start, todo.start + clause.end, before)
        return taken.reading

    def take(
        self, todo: Waiting, ground: Ground, maybe: int | None, queue: list[Waiting | RawText], index: int
    ) -> tuple[Chosen | None, Ground]:
        """The reading of one course, by all that is known around it."""
        parsed = todo.parsed
        if parsed is None:
            return None, ground
        own = self.sheet.own
        phrases = parsed.phrases
        ground.free = phrases.unworked or phrases.elsewhere or turns_short(parsed, ground, queue, index, own)
        if phrases.into_spaces == SPACES and ground.gaps and not ground.spaces:
            if stretches(parsed):
                ground = between(ground)
            else:
                ground.free = True
        ground.layers = phrases.layers
        height = lead_chain(parsed.tree.items)
        if phrases.counts_as is not None:
            ground.counts_as = self.turning[height] = phrases.counts_as
        elif height in self.turning or (0 in self.turning and (height > 1 or (height and not self.turning[0]))):
            counts = self.turning.get(height, self.turning.get(0))
            told = choose(parsed.tree, replace(ground, counts_as=counts), own)
            ground.counts_as = counts if told.fits else None
        problem = (
            parsed.tree.failed or ("unread" if phrases.unknown or not works(parsed) else "") or too_much(parsed)
        )
        if problem == "unread" and phrases.unknown and works(parsed):
            left = may_be_left(phrases, parsed.body or self.page.text[todo.start : todo.end])
            known = skipping(parsed, ground, own, id(parsed) in self.left) if left else None
            if known is not None:
                self.left.add(id(parsed))
                todo.skipped = [] if todo.borrowed else phrases.unknown  # said where the words stand
                return known, ground
        if problem:
            counted = self.counted_bare(todo, ground)
            if counted is not None:
                return counted
            todo.failed = problem
            return None, ground
        if self.counts_ahead is not None and ground.counts_as is None:
            ground.counts_as = self.counts_ahead
        self.counts_ahead = None
        known_by = (ground.there, ground.chain, ground.first, ground.declared, ground.free, ground.counts_as)
        below = (ground.spaces, ground.gaps, ground.chained, tuple(ground.sizes.items()), ground.kept)
        key = (id(parsed), *known_by, ground.layers, ground.lend, *below, maybe)
        known = self.sheet.sums.get(key)
        if known is None:
            known = settle(parsed, ground, maybe, own) if self.sheet.patient else choose(parsed.tree, ground, own)
            self.sheet.misfits += not known.fits
            self.sheet.sums[key] = known
        chosen = known
        counted = None if chosen.fits else self.counted_bare(todo, ground)
        if counted is not None:
            return counted
        over = over_bridge(parsed, chosen, ground, self.bridge, own) if self.bridge else None
        if over is not None:
            return over
        if chosen.reading.empty:
            todo.failed = "unread"  # a stretch that came to nothing was meant for something
            return None, ground
        if ground.declared is None and ground.counts_as is None and chosen.fits and not chosen.counted:
            chosen = stands(parsed, ground, chosen, next_course(queue, index), own) or chosen
            if chosen.counted and height and height not in self.turning:
                self.turning[height] = True  # what stands for a stitch once does so all along a piece, and is said
                self.customary.add(height)
        elif height in self.customary and ground.counts_as and chosen.fits:
            chosen = replace(chosen, why=[*chosen.why, "turning chain stands"], counted=True)
        if ground.declared is None:
            way = self.ways.get(id(parsed))
            if way is not None:  # read once, the same words are read the same way again
                same = read_as(parsed.tree, way[0], ground, own, way[1])
                if fits(same, ground):
                    return Chosen(same, True, counted=way[1]), ground
        if chosen.fits:
            self.ways.setdefault(id(parsed), (chosen.reading.picks, chosen.counted))
        if not chosen.fits and not todo.last_of and ground.declared is not None and self.sheet.patient:
            # the count of a range that shapes is the count after its last course
            quiet = settle(parsed, replace(ground, declared=None), maybe, own)
            if quiet.fits and quiet.reading.makes != quiet.reading.uses:
                todo.declared = None
                return quiet, replace(ground, declared=None)
        if not chosen.fits and maybe is not None and ground.there is not None and chosen.reading.uses == maybe:
            ground = replace(ground, there=maybe)
        if (
            chosen.fits
            and ground.declared is None
            and chosen.others == []
            and parsed.tree.choices
            and ground.there is not None
        ):
            chosen = look_ahead(parsed, chosen, ground, next_course(queue, index), own)
            chosen = chosen if chosen.why else undecided(parsed, chosen, ground, own)
        return chosen, ground

    def counted_bare(self, todo: Waiting, ground: Ground) -> tuple[Chosen, Ground] | None:
        """A course whose last number is its count, though no sign says so; else None."""
        parsed = todo.parsed
        if parsed is None or todo.declared is not None or todo.borrowed or not self.sheet.patient:
            return None
        told = last_number(parsed.body)
        short = self.sheet.parse(told[0]) if told is not None else parsed
        if told is None or not works(short):
            return None
        n = int(parsed.body[told[1] : told[2]])
        taken = counted_bare(short, n, ground, self.sheet.own)
        if taken is None:
            return None
        todo.parsed, todo.declared = short, n
        todo.declared_at = todo.start + told[1], todo.start + told[2]
        return taken, replace(ground, declared=n)

    def course(
        self, todo: Waiting, taken: Chosen | None, ground: Ground, below: Waiting | None, seen: dict[int, int]
    ) -> Course:
        n = seen.get(todo.label, 0)
        seen[todo.label] = n + 1
        if self.ring_ahead and taken is not None and not seen.get(-1):
            seen[-1] = 1
            if (
                not any(isinstance(g, Group) and g.stitch == "ring" for g in taken.reading.body)
                and taken.reading.uses == 0
            ):
                taken.reading.body.insert(0, group("ring", 1, 0, 0, 1, None, None, None))
        ahead, self.ahead = self.ahead, []
        suffix = "" if n == 0 else chr(ord("a") + n) if n < 26 else f"x{n}"
        ident = f"{self.slug}.{todo.label}{suffix}"
        reading = taken.reading if taken is not None else None
        read = reading is not None and not reading.unknown
        where: dict[str, Any] = {"piece": self.piece.name, "course": str(todo.label), "course_id": ident}
        for f in reversed(self.sheet.findings[-2:]):
            if f.course == str(todo.label) and f.course_id is None and f.piece == self.piece.name:
                f.course_id = ident
        if reading is not None and reading.unknown and taken is not None:
            if todo.first_of:
                self.sheet.findings.append(
                    finding(self.page, "unknown-length", todo.start, todo.end, Course=title_of(todo), **where)
                )
        elif reading is None:
            self.judge.unread(todo, where)
        elif taken is not None and reading.makes > MOST_STITCHES:
            self.sheet.findings.append(
                finding(self.page, "too-many-stitches", todo.start, todo.end, Course=title_of(todo), **where)
            )
            read = False
        elif taken is not None:
            self.judge.sums(todo, taken, ground, below, where)
        spiral = (
            todo.kind == "round"
            and reading is not None
            and not reading.joined
            and not reading.turned
            and not joins(reading.body)
        )
        return Course.model_construct(
            id=ident,
            label=str(todo.label),
            kind=todo.kind,
            uses=reading.uses if read and reading else None,
            makes=reading.makes if read and reading else None,
            declared=todo.printed if reading is not None and todo.printed == reading.makes else todo.declared,
            text=todo.text,
            line=self.page.line(todo.at),
            body=[*ahead, *reading.body] if read and reading else [],
            read=read,
            spiral=bool(read and spiral),
            plain=bool(read and reading and is_plain(reading)),
            words=Words(),
        )


def joins(body: list[Made]) -> bool:
    return any(isinstance(n, Group) and n.stitch in ("join", "turn") for n in body)


def is_plain(reading: Reading) -> bool:
    groups = [n for n in reading.body if not (isinstance(n, Group) and (n.stitch in ("ch", "join", "turn")))]
    if len(groups) != 1 or not isinstance(groups[0], Group):
        return False
    only = groups[0]
    return only.uses == 1 and only.makes == 1 and only.count > 1
