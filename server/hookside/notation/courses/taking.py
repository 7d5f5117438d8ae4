"""Which reading one course gets, by all that is known around it."""

from __future__ import annotations

import re
from dataclasses import replace

from hookside.notation.arithmetic.choosing import Chosen, choose
from hookside.notation.arithmetic.ground import Ground, fits
from hookside.notation.arithmetic.summing import read_as
from hookside.notation.bodies.shapedby import numbered
from hookside.notation.courses.ahead import (
    Ahead,
    Own,
    look_ahead,
    next_course,
    on_nothing_known,
    shaping_behind,
    stands,
    told_free,
    turns_short,
    undecided,
)
from hookside.notation.courses.countbehind import up_to_jobs
from hookside.notation.courses.going_round import counted_bare, last_number, plain_between, terse
from hookside.notation.courses.laid import behind, laid
from hookside.notation.courses.patience import FOUND, IN_VAIN
from hookside.notation.courses.rowends import kept_back, passed_over
from hookside.notation.courses.settling import (
    as_it_stands,
    may_be_left,
    over_bridge,
    settle,
    skipping,
    too_much,
    widened,
)
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.spaces import SPACES, between
from hookside.notation.courses.twoinone import TWO_IN_ONE, two_in_one
from hookside.notation.courses.waiting import (
    Parsed,
    Waiting,
    first_height,
    from_hook,
    lead_chain,
    stretches,
    works,
)
from hookside.notation.lines.layout import RawText
from hookside.notation.trees.asked import every
from hookside.notation.trees.nodes import Rep, Work
from hookside.stitches import TABLE

_NAMED = re.compile(r"\b\d* ?(?:sc|hdc|dc|h?tr)\b", re.I)
_NONE_OF = re.compile(r"(?<![-+\d])\b0 [a-z]", re.I)  # "0 sc, inc x 6": a slip of the pen
_PLUS = re.compile(r"^[^\w\n]{0,6}\w{1,7} ?\d{0,3}[ :.]{1,4}\+ ?\d", re.M)


class Taking:
    """What the courses of one piece have settled for those above them: how a body was read, what its chains are."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.page = sheet.page
        self.ways: dict[int, tuple[tuple[int, ...], bool]] = {}  # how a body was read where it stood first
        self.customary: set[int] = set()  # chains taken for a stitch though nothing says that they are one
        self.bridge = 0  # chains between two pieces, made in the course below
        self.counts_ahead: bool | None = None  # what a foundation says of its own chain
        self.turning = dict(sheet.turning)
        self.by_count: dict[int, bool] = {}  # did a turning chain of that height count by the last count printed?
        self.between = False  # does it write "2 inc x 6" for (2 sc, inc) x 6?
        self.terse = False  # are its rounds bare lists that go round?
        self.twos = False  # does it write "2sc" for two in one stitch, without a count?
        self.step = 0  # how many stitches its last shaping added or took
        self.left: set[int] = set()  # bodies of which words were left out, and whose numbers came out

    def _words_above(self, todo: Waiting, queue: list[Waiting | RawText], index: int) -> str:
        """What stands between the course before and this one, as far as it is near."""
        before = next((t.end for t in reversed(queue[:index]) if isinstance(t, Waiting)), todo.start)
        return self.page.text[max(before, todo.start - 160) : todo.start]

    def take(
        self, todo: Waiting, ground: Ground, maybe: int | None, queue: list[Waiting | RawText], index: int
    ) -> tuple[Chosen | None, Ground]:
        """The reading of one course, by all that is known around it."""
        own = self.sheet.own
        if todo.slips is not None:
            ended = choose(todo.slips[2].tree, ground.but(), own)
            if ended.fits and not ended.reading.empty:
                todo.parsed = todo.slips[2]
            else:
                todo.slips = None
        parsed = todo.parsed
        if parsed is None:
            return None, ground
        phrases = parsed.phrases
        ground.at_most = phrases.all_but and not phrases.elsewhere and not phrases.layers
        ground.free = phrases.unworked or phrases.elsewhere or turns_short(parsed, ground, queue, index, own)
        if not ground.free and ground.declared is not None and todo.kind == "row":
            ground.free = told_free(self._words_above(todo, queue, index), parsed, ground, own)
        left = not ground.free and todo.kind == "row" and kept_back(parsed, ground, own)
        ground.free = ground.free or left
        if phrases.into_spaces == SPACES and ground.gaps and not ground.spaces:
            if stretches(parsed):
                ground = between(ground)
            else:
                ground.free = True
        if ground.for_turn and not from_hook(parsed):
            ground.chain -= ground.for_turn
        lost = ground.there is None and not ground.first and ground.declared is None
        if lost and (self.is_less(todo, parsed, ground) or self.is_less_alone(todo, parsed)):
            todo.failed = "unknown-length"  # "-6" of nobody knows how many: no round of six
            return None, ground
        ground.layers = phrases.layers
        height = lead_chain(parsed.tree.items)
        if phrases.counts_as is not None:
            ground.counts_as = self.turning[height] = phrases.counts_as
        elif height in self.turning or (0 in self.turning and (height > 1 or (height and not self.turning[0]))):
            counts = self.turning.get(height, self.turning.get(0))
            told = choose(parsed.tree, ground.but(counts_as=counts), own)
            ground.counts_as = counts if told.fits else None
        elif height == 1 and ground.declared is None and ground.there is not None and self.counts_ahead is None:
            ground.counts_as = False  # a single chain is hardly ever a stitch: no row is made to come out by it
        unread = phrases.unknown or not works(parsed)
        problem = parsed.tree.failed or ("unread" if unread else too_much(parsed.tree))
        if problem == "unread" and phrases.unknown and works(parsed):
            spare = may_be_left(phrases, parsed.body or self.page.text[todo.start : todo.end])
            known = skipping(parsed, ground, own, id(parsed) in self.left) if spare else None
            if known is not None:
                self.left.add(id(parsed))
                todo.skipped = [] if todo.borrowed else phrases.unknown  # said where the words stand
                return known, ground
        if parsed.told or problem:
            counted = self.counted_bare(todo, ground) or self.told_so(todo, ground, problem)
            if counted is not None:
                return counted
            todo.failed = problem or "unread"
            return None, ground
        if self.counts_ahead is not None and ground.counts_as is None:
            ground.counts_as = self.counts_ahead
        self.counts_ahead = None
        known_by = (ground.there, ground.chain, ground.first, ground.declared, ground.free, ground.counts_as)
        below = (ground.spaces, ground.gaps, ground.chained, tuple(ground.sizes.items()), ground.kept)
        key = (id(parsed), *known_by, ground.layers, ground.lend, *below, maybe)
        known = self.sheet.sums.get(key)
        if known is None:
            known = self.sheet.sums[key] = self.settled(parsed, ground, maybe)
        chosen = replace(known, why=[*known.why, "rest left"]) if left and ground.declared is None else known
        if ground.layers:
            since = self.page.text[behind(queue, index) : todo.end]
            upon = laid(parsed, chosen, ground, since, own)
            if upon is not None:
                return upon, ground.but(layers=False)
        counted = None if chosen.fits else self.counted_bare(todo, ground)
        if counted is not None:
            return counted
        self.between = self.between or (chosen.fits and "plain between" in chosen.why)
        if self.between and ground.declared is None:
            so_again = plain_between(parsed, ground, own)  # "(2 dec) x6" on 24, behind "(3 dec) x6" on 30
            if so_again is not None:
                return so_again, ground
        miscounted = self.miscounted(parsed, ground) if self.between and not chosen.fits else None
        if miscounted is not None:
            return miscounted, ground
        if not chosen.fits and ground.declared is None:
            chosen = self.two_in_one(parsed, ground, next_course(queue, index)) or chosen
        listed = None if chosen.fits else self.listed(todo, ground, queue, index)
        if listed is not None:
            return listed, ground
        over = over_bridge(parsed, chosen, ground, self.bridge, own) if self.bridge else None
        if over is not None:
            return over
        spread = "shaping spread" in chosen.why  # "increase in the first three, then the rest plain": told where
        unsettled = spread or not chosen.fits or chosen.reading.empty
        sentence = self.told_so(todo, ground) if unsettled else None
        if sentence is not None:
            return sentence
        if chosen.reading.empty:
            todo.failed = "unread"  # a stretch that came to nothing was meant for something
            return None, ground
        if ground.declared is None and ground.counts_as is None and chosen.fits and not chosen.counted:
            stood = stands(parsed, ground, chosen, next_course(queue, index), own)
            chosen = stood or self.as_above(parsed, ground, height, own) or chosen
            rises = first_height(parsed.tree.items) or height  # "4 dc in 4th ch from hook": three chains are a stitch
            if stood is not None and rises and rises not in self.turning:
                self.turning[rises] = True  # what stands for a stitch once does so all along a piece, and is said
                self.customary.add(rises)
        elif ground.declared is not None and ground.counts_as is None and chosen.fits:
            self.by_count[height] = chosen.counted
        elif height in self.customary and ground.counts_as and chosen.fits and self.matters(chosen, parsed, ground):
            chosen = replace(chosen, why=[*chosen.why, "turning chain stands"], counted=True)
        if ground.declared is None and chosen.fits and todo.kind == "row" and ground.there is not None:
            chosen = passed_over(parsed, chosen, ground, next_course(queue, index), own) or chosen
        if ground.declared is None:
            way = self.ways.get(id(parsed))
            if way is not None:  # read once, the same words are read the same way again
                same = read_as(parsed.tree, way[0], ground, own, way[1])
                if fits(same, ground):
                    return Chosen(same, True, counted=way[1]), ground
        if chosen.fits:
            self.ways.setdefault(id(parsed), (chosen.reading.picks, chosen.counted))
        shared = not todo.last_of and not todo.own_count
        if not chosen.fits and shared and ground.declared is not None and self.sheet.patience.left:
            # the count of a range that shapes is the count after its last course
            quiet = settle(parsed, ground.but(declared=None), maybe, own)
            if quiet.fits and quiet.reading.makes != quiet.reading.uses:
                todo.declared = None
                return quiet, ground.but(declared=None)
        if not chosen.fits and maybe is not None and ground.there is not None and chosen.reading.uses == maybe:
            ground = ground.but(there=maybe)
        if (
            chosen.fits
            and ground.declared is None
            and chosen.others == []
            and parsed.tree.choices
            and ground.there is not None
        ):
            chosen = look_ahead(parsed, chosen, ground, next_course(queue, index), own)
        if chosen.fits and ground.declared is None and ground.there is not None:
            chosen = undecided(parsed, chosen, ground, next_course(queue, index), own, self.step)
            if phrases.ones_and_twos:
                chosen = replace(chosen, why=["ones and twos"])
        if chosen.fits and ground.declared is not None and ground.there is None and not ground.first:
            chosen = on_nothing_known(parsed, chosen, ground, own)
        return chosen, ground

    def settled(self, parsed: Parsed, ground: Ground, maybe: int | None) -> Chosen:
        """The reading that fits best, by wider meanings where it does not come out as it stands."""
        own, patience = self.sheet.own, self.sheet.patience
        chosen = as_it_stands(parsed, ground, own)
        if chosen.fits or not patience.allows():
            return chosen
        chosen = widened(parsed, chosen, ground, maybe, own)
        patience.took(FOUND if chosen.fits else IN_VAIN)
        return chosen

    def as_above(self, parsed: Parsed, ground: Ground, height: int, own: Own) -> Chosen | None:
        """ "ch 3, turn, dc in the same st, ..." without a count, in a piece whose counts need such a chain."""
        if height < 2 or not self.by_count.get(height):
            return None
        counted = read_as(parsed.tree, (0,) * len(parsed.tree.choices), ground, own, True)
        return Chosen(counted, True, ["turning chain stands"], counted=True) if fits(counted, ground) else None

    def two_in_one(self, parsed: Parsed, ground: Ground, after: Ahead | None) -> Chosen | None:
        """ "2sc x6" on 6 without a count, where the text writes so elsewhere or the next comes out so too."""
        own = self.sheet.own
        taken = two_in_one(parsed, ground, own)
        if taken is None or self.twos or TWO_IN_ONE in self.sheet.habits:
            return taken
        on = Ground(taken.reading.makes, 0, False, after.declared) if after is not None else None
        self.twos = after is not None and on is not None and two_in_one(after.parsed, on, own) is not None
        return taken if self.twos and after is not None and not after.on(taken.reading.makes, own).fits else None

    def miscounted(self, parsed: Parsed, ground: Ground) -> Chosen | None:
        """ "2 dec x6 20" on 24, in a piece that writes (2 sc, dec) x 6 so: that it is, and the 20 a slip for 18."""
        there, own = ground.there, self.sheet.own
        if there is None or ground.declared is None:
            return None
        times = {n.times for n in every(parsed.tree) if isinstance(n, (Work, Rep)) and n.times}
        for n in sorted(times):
            for makes in (there - n, there + n):
                taken = plain_between(parsed, ground.but(declared=makes), own)
                if taken is not None:
                    return Chosen(taken.reading, False, taken.why)
        return None

    def listed(self, todo: Waiting, ground: Ground, queue: list[Waiting | RawText], index: int) -> Chosen | None:
        """A bare list that goes round, in a piece that writes its rounds so: the next one comes out on it as well."""
        if todo.parsed is None or ground.declared is not None or todo.kind != "round" or ground.free:
            return None
        own = self.sheet.own
        taken = terse(todo.parsed, ground, own)
        if taken is None or self.terse:
            return taken
        makes = taken.reading.makes
        behind = shaping_behind(queue, index, makes, own)
        if behind is None or behind.declared is not None:
            return None
        self.terse = terse(behind.parsed, Ground(makes), own) is not None
        return taken if self.terse else None

    def told_so(self, todo: Waiting, ground: Ground, problem: str = "") -> tuple[Chosen, Ground] | None:
        """A course told in a sentence that names no stitches: what comes out as it says, or with every stitch there."""
        parsed = todo.parsed
        if parsed is None or problem not in ("", "unread", "order", "no-times"):
            return None
        if not parsed.told and parsed.body not in self.sheet.told and not self.sheet.patience.allows():
            return None
        if _NONE_OF.search(parsed.body) or (not problem and numbered(parsed.body) != parsed.body):
            return None  # "increase all around, five increases" is not bent to six
        if any(isinstance(n, Work) and self.by_key(n.key) for n in every(parsed.tree)):
            return None
        named = not parsed.told and _NAMED.search(parsed.body) is not None
        known = [parsed, *parsed.others] if parsed.told else self.sheet.in_sentences(parsed.body)
        less = not parsed.told and self.is_less(todo, parsed, ground)
        if less:
            known = self.sheet.in_sentences(f"-{parsed.body}")
        printed = None if parsed.told and parsed.phrases.counts else ground.declared
        for at, other in enumerate(known):
            counts = other.phrases.counts
            n = counts[0][0] if counts else printed
            if printed not in (None, n) or (n is None and named):
                continue  # what stitches are named for is not bent to the round below, where no count bears it out
            on = ground.but(declared=n)
            chosen = choose(other.tree, on, self.sheet.own)
            reading = chosen.reading
            whole = n is not None or reading.uses == (ground.there or 0)
            if not chosen.fits or not whole or reading.unknown or reading.empty:
                continue
            todo.parsed = other
            if less:  # the dash belongs to the round
                todo.start, todo.text = todo.start - 1, f"-{todo.text}"
            todo.skipped = [] if todo.borrowed else other.phrases.unknown
            if counts:
                todo.declared = n
                todo.declared_at = todo.start + counts[0][1], todo.start + counts[0][2]
            guessed = at > 0 or any(isinstance(n, Work) and n.evenly for n in other.tree.items)
            return (replace(chosen, why=[*chosen.why, "told in a sentence"]) if guessed else chosen), on
        return None

    def by_key(self, key: str) -> bool:
        """ "dec = 3 sc together", "dec = sc3tog" in the text's own key: sentences know of twos alone."""
        entry = self.sheet.own.get(key) or TABLE.get(key)
        return entry is not None and (key in self.sheet.own or (entry.uses > 2 and entry.makes == 1))

    def is_less(self, todo: Waiting, parsed: Parsed, ground: Ground) -> bool:
        """ "R7: -6": is the dash a minus, where a plus stands so in the text, or a count bears it out?"""
        before = self.page.text[max(0, todo.start - 2) : todo.start]
        signed = before[-1:] == "-" and before[:1] in (" ", ":") and parsed.body[:1].isdecimal()
        if not signed or todo.borrowed:
            return False
        return ground.declared is not None or _PLUS.search(self.page.text) is not None

    def is_less_alone(self, todo: Waiting, parsed: Parsed) -> bool:
        """ "Round 5: - 6", and nothing else in its line, where a plus stands so in the text."""
        before = self.page.text[max(0, todo.start - 3) : todo.start]
        dashed = before.endswith("- ") and parsed.body.strip().isdecimal()
        return dashed and _PLUS.search(self.page.text) is not None

    def matters(self, chosen: Chosen, parsed: Parsed, ground: Ground) -> bool:
        """Would the course come to another number if its first chain were no stitch?"""
        other = choose(parsed.tree, ground.but(counts_as=False), self.sheet.own)
        return not other.fits or other.reading.makes != chosen.reading.makes

    def counted_bare(self, todo: Waiting, ground: Ground) -> tuple[Chosen, Ground] | None:
        """A course whose last number is its count, though no sign says so; else None."""
        parsed = todo.parsed
        if parsed is None or todo.declared is not None or todo.borrowed or not self.sheet.patience.left:
            return None
        chunks, body = parsed.phrases.chunks, parsed.body
        past = up_to_jobs(chunks)
        told = last_number(body[: chunks[past - 1].end] if 0 < past < len(chunks) else body)
        if told is None:
            return None
        jobs = body[told[2] :] if past < len(chunks) else ""
        short = self.sheet.parse(f"{told[0].ljust(told[2])}{jobs}" if jobs else told[0])
        if not works(short):
            return None
        n = int(body[told[1] : told[2]])
        like = ("bare", n, *ground.told())
        taken = counted_bare(short, n, ground, self.sheet.own) if like not in short.kept else None
        if taken is None:
            short.kept[like] = None
            return None
        todo.parsed, todo.declared = short, n
        todo.declared_at = todo.start + told[1], todo.start + told[2]
        self.sheet.counts_behind["," if body[: told[1]].rstrip()[-1:] == "," else ""] += 1
        return taken, ground.but(declared=n)
