"""Courses that a sentence asks for without spelling them out: one plain stitch more between the increases each time."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from itertools import islice
from typing import Any

from hookside.notation.arithmetic.choosing import choose
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.courses.borrowing import Borrowing
from hookside.notation.courses.latest import Latest
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.waiting import Parsed, Waiting, name_of
from hookside.notation.courses.waitlist import Spot
from hookside.notation.findings.table import finding
from hookside.notation.labels import alike, counts, references
from hookside.notation.labels.changes import Change
from hookside.notation.labels.growth import Growth, shaped_every
from hookside.notation.lines.layout import RawCourse, RawPiece, RawText, sentences
from hookside.notation.lines.unlabelled import alone
from hookside.notation.trees.asked import every, once, walk
from hookside.notation.trees.nodes import Rep, Tree, Work
from hookside.pattern import Piece
from hookside.stitches import TABLE, Stitch

_MOST_GROWN = 60  # courses that such a sentence may stand for
_NEAR = 300  # courses behind the last shaping that may go on with it: more than anyone works plain between


@once
def _shape_of(tree: Tree) -> str:
    """ "inc" or "dec", where a body has a repeat that does nothing else beside plain stitches."""
    ways: set[str] = set()
    for node in every(tree):
        if isinstance(node, Work) and node.key in TABLE and node.key != "ch":
            entry = TABLE[node.key]
            made = entry.makes * node.per - entry.uses
            if entry.uses and made:
                ways.add("inc" if made > 0 else "dec")
    repeated = any(isinstance(n, (Rep, Work)) and (n.fill or (n.times or 1) > 1 or getattr(n, "n", 1) > 1)
                   for n in every(tree))
    return ways.pop() if len(ways) == 1 and repeated else ""


def _shape(parsed: Parsed) -> str:
    return _shape_of(parsed.tree)


def _summed(parsed: Parsed, each: Callable[[Stitch, int], int]) -> int:
    """A figure of its stitches, summed over repeats and amounts; 0 where that depends on what there is."""
    found = 0
    for node in parsed.tree.items:
        often = node.times or 0 if isinstance(node, Rep) else 1
        for work in walk(node.body if isinstance(node, Rep) else [node]):
            if isinstance(work, Work) and work.key in TABLE and TABLE[work.key].uses:
                figure = each(TABLE[work.key], work.per)
                if figure and (work.fill or not often):
                    return 0
                found += figure * often * work.n * (work.times or 1)
    return found


def _steps(parsed: Parsed) -> int:
    """How many shapings its repeats and amounts come to."""
    return _summed(parsed, lambda entry, per: abs(entry.makes * per - entry.uses))


def stitches_of(parsed: Parsed) -> int:
    """How many stitches its repeats and amounts come to."""
    return _summed(parsed, lambda entry, per: entry.makes * per)


def plain_round(parsed: Parsed) -> bool:
    """One stitch all the way, and neither more nor fewer for it."""
    works = [n for n in every(parsed.tree) if isinstance(n, Work)]
    ways = {TABLE[n.key].makes * n.per - TABLE[n.key].uses for n in works if n.key in TABLE}
    return bool(works) and ways == {0} and len(works) == 1


def _tells_count(text: str) -> Callable[[Waiting | RawText], bool]:
    """Is it a course that says how many stitches it comes to, or no plain one? Not asked of the piece that holds who
    asks: a circle would keep all that was read until the collector comes (`uncollected`)."""

    def tells(item: Waiting | RawText) -> bool:
        if not isinstance(item, Waiting):
            return False
        return bool(item.declared) or not references.EVEN.match(text, item.start, item.end)

    return tells


_RING_FIRST = re.compile(
    r"\s*[(\[](?:start|begin)(?:s|ning|ing)? (?:with|in|from|by) (?:an? )?(?P<ring>[^()\[\]]+)[)\]]\W*$", re.I
)
# Between the bodies of a range
_SEAMS = [re.compile(rf"\s*{sign}\s+") for sign in ("/", r"\|", ";", r"(?<=[)\]\d]),", r"\.", ",")]
# "12 sc. 12 sts" has its count behind it
_OF_STITCHES = re.compile(r"\b(?:\d{1,2})?(?:sc|[hd]?dc|h?tr|(?:inc|dec)(?:\b|reas))", re.I)
_SUMMED = 12  # courses without a printed count that are summed for it
_LONGEST_EACH = 600  # letters


class Growing(Borrowing):
    """Goes on with the last shaping of the piece."""

    def __init__(self, sheet: Sheet, piece: Piece, raw: RawPiece) -> None:
        super().__init__(sheet, piece, raw)
        self._shaping = Latest[Waiting | RawText](_tells_count(self.page.text))

    def by_count(self, spot: Spot, numbers: list[int], body: str) -> bool:
        """ "Rnd 2: 12", "12 sc (inc in each)": lays out what makes that count; False for any other body."""
        each = shaped_every(body, numbers)
        if each:
            told_each = [self.sheet.parse(w if self.sheet.terms == "US" else w.replace("sc ", "dc ")) for w in each]
            printed = references.printed(body, spot.start)
            self.put(numbers, spot, told_each[0], borrowed=True, printed=printed, cycle=told_each)
            return True
        told = counts.told(body, self.told_before())
        if told is None:
            return False
        if told.more:
            name = name_of(numbers[0], spot.kind).capitalize()
            shaped = f"{abs(told.more)} {'in' if told.more > 0 else 'de'}creases"
            where: dict[str, Any] = {"piece": self.piece.name, "course": str(numbers[0])}
            where |= {"Course": name, "shaped": shaped}
            self.sheet.findings.append(finding(self.page, "count-alone", spot.start, spot.end, **where, found=told.n))
        printed = told.n, spot.start + told.start, spot.start + told.end
        plain = f"{'sc' if self.sheet.terms == 'US' else 'dc'} in each st around"
        parsed = self.sheet.parse(told.words or plain)
        # "R4-6 24" behind 18: the first of them comes to 24, the others stay there
        cycle = [parsed] + [self.sheet.parse(plain)] * (len(numbers) - 1) if told.more and len(numbers) > 1 else None
        self.put(numbers, spot, parsed, borrowed=True, printed=printed, cycle=cycle)
        return True

    def count_for_each(self, raw: RawCourse, start: int, body: str) -> list[RawCourse]:
        """ "Rounds 1-4: 6, 12, 18, 24": a count for every round of the range -> the rounds one by one; else none."""
        label = raw.label
        listed = counts.LISTED.fullmatch(body)
        if label is None or listed is None or label.relative or label.every:
            return []
        spans = [(start + m.start(), start + m.end()) for m in re.finditer(r"\d+", body)]
        if len(spans) == len(label.numbers) + 1 and body[-1:] in ")]}" and counts.LAST_AGAIN.search(body):
            spans.pop()  # "6, 12, 18 (18)"
        before = self.told_before()
        first = int(self.page.text[slice(*spans[0])])
        if len(spans) != len(label.numbers) or (before and not (before + 1) // 2 <= first <= 2 * before):
            return []
        if before is None and label.numbers[0] != 1:
            return []
        each = zip(label.numbers, spans, strict=True)
        return [RawCourse(replace(label, numbers=[n]), *span, raw.kind) for n, span in each]

    def body_for_each(self, raw: RawCourse, start: int, body: str) -> list[RawCourse]:
        """ "R4-6: dec, sc 16 / dec, sc 15 / dec, sc 14": a body for every round of the range, each of which fits upon
        the one before it -> the rounds one by one; else none."""
        label = raw.label
        if label is None or label.relative or label.every:
            return []
        ring = _RING_FIRST.search(body) if label.numbers[0] == 1 else None
        if ring is not None and alone.stitches_in_ring(ring["ring"]):  # "R1-10: 4 sc (start with MR 4)"
            at, end = ring.span("ring")
            first = RawCourse(replace(label, numbers=[1]), start + at, start + end, raw.kind)
            rest = replace(label, numbers=label.numbers[1:])
            return [first, RawCourse(rest, start, start + ring.start(), raw.kind)]
        ways = [list(sign.finditer(body)) for sign in _SEAMS] if len(body) <= _LONGEST_EACH else []
        seams = next((way for way in ways if len(way) == len(label.numbers) - 1), [])
        starts, ends = [0, *(m.end() for m in seams)], [*(m.start() for m in seams), len(body)]
        begins = label.numbers[0] == 1 and bool(seams) and alone.stitches_in_ring(body[: ends[0]]) > 0
        if seams and not begins and seams == ways[-1]:
            return []  # "R4-5: sc around, inc 3 evenly": each of them, as likely
        there = self.summed_before() if seams and not begins else None
        if there is None and not begins:
            return []  # "R1-2: 6 sc in mr, inc in each" begins with its ring
        for at, end in zip(starts, ends, strict=True):
            parsed = self.sheet.parse(body[at:end])
            declared = parsed.phrases.counts[-1][0] if parsed.phrases.counts else None
            chosen = choose(parsed.tree, Ground(there, first=there is None, declared=declared), self.sheet.own)
            told = _OF_STITCHES.search(body, at, end) is not None and not parsed.phrases.unknown
            if not told or not chosen.fits or not chosen.reading.makes:
                return []
            there = chosen.reading.makes
        each = zip(label.numbers, starts, ends, strict=True)
        return [RawCourse(replace(label, numbers=[n]), start + at, start + end, raw.kind) for n, at, end in each]

    def lists_counts(self, body: str) -> bool:
        """ "Rounds 1-7: 6, 12, 18, 24": counts with nothing below them, more or fewer than there are rounds."""
        return counts.LISTED.fullmatch(body) is not None and self.told_before() is None

    def summed_before(self) -> int | None:
        """How many stitches the course before makes, summed up from the last one whose count is printed, if need be."""
        there: int | None = None
        near = [t for t in islice(reversed(self.waiting), _SUMMED) if isinstance(t, Waiting) and not t.foundation]
        counted = next((i for i, t in enumerate(near) if t.declared is not None), None)
        for item in reversed(near[: counted + 1] if counted is not None else near):
            if item.declared is not None:
                there = item.declared
            elif item.parsed is not None:
                chosen = choose(item.parsed.tree, Ground(there), self.sheet.own)
                there = chosen.reading.makes if chosen.fits and not item.parsed.phrases.unknown else None
        return there

    def told_before(self) -> int | None:
        """How many stitches the course before makes, as far as its own words tell."""
        last = self._shaping.among(self.waiting)
        if not isinstance(last, Waiting) or last.foundation:
            return None
        if last.declared is not None:
            return last.declared
        body = self.page.text[last.start : last.end]
        ends = counts.then_a_job(body)
        return counts.alone(body if ends is None else body[: ends.count]) or alone.stitches_in_ring(body) or None

    def on_to(self, item: RawCourse | RawText) -> list[RawText] | None:
        """ "Work like this up to and including round 9.", behind a plain round: laid out; else None."""
        text = self.page.text
        spans = sentences(text, item.start, item.end)
        upto = alike.on_to(text[slice(*spans[0])]) if spans else 0
        if not upto:
            return None
        last = self.last_label()
        before = next((t for t in reversed(self.waiting) if isinstance(t, Waiting)), None)
        if before is None or before.parsed is None or not last < upto <= last + _MOST_GROWN:
            return None
        after = self.following(item)
        numbers = after.label.numbers if after is not None and after.label is not None else []
        upto -= numbers[:1] == [upto]
        if not plain_round(before.parsed) or (numbers and numbers[0] != upto + 1):
            return None
        raw = RawCourse(None, *spans[0], before.kind)
        spot = Spot(raw, before.kind, raw.start, raw.end, raw.start)
        self.put(list(range(last + 1, upto + 1)), spot, before.parsed, borrowed=True,
                 sources=[name_of(before.label, before.kind)])
        return [RawText(spans[0][1], item.end)] if len(spans) > 1 else []

    def grow(self, spot: Spot, numbers: list[int], told: Growth) -> bool:
        """Lays out what a sentence like "continue increasing until you have 36 sts" asks for; False where it can't."""
        told_last = (t for t in reversed(self.waiting) if isinstance(t, Waiting) and not t.foundation and t.parsed)
        before = list(islice(told_last, _NEAR))
        source = next((t for t in before if t.parsed and _shape(t.parsed)), None)
        turned = source if told.mirrored and source is not None and source.parsed is not None else None
        if source is not None and source.parsed and told.shape and _shape(source.parsed) != told.shape:
            source = None
        last = self.last_label()
        count = len(numbers) or told.rounds or _MOST_GROWN
        bodies = self.grown(source.parsed if source is not None else None, told, count)
        if not bodies and turned is not None and turned.parsed is not None:
            source, bodies = turned, self.turned_round(turned.parsed, count)
        if not bodies:
            return False
        plain_last = bool(before) and before[0] is not source
        sources = [name_of(source.label, spot.kind) + ", one step on each time"] if source is not None else []
        if told.other:
            plain = self.sheet.parse("sc in each st around" if self.sheet.terms == "US" else "dc in each st around")
            mixed: list[Parsed] = []
            for body in bodies:
                mixed += [body, plain] if plain_last else [plain, body]
            bodies = mixed[:count] if numbers or told.rounds else mixed
        if not numbers:
            numbers = list(range(last + 1, last + 1 + len(bodies)))
        printed = references.printed(self.page.text[spot.start : spot.end], spot.start)
        if told.until is not None and printed is None and spot.raw.label is not None:
            printed = (told.until, spot.start, spot.start)
        self.put(
            numbers[: len(bodies)],
            spot,
            bodies[0],
            borrowed=True,
            printed=printed if spot.raw.label is not None else None,
            cycle=bodies,
            sources=sources,
            until=told.until if spot.raw.label is None else None,
        )
        return True

    def turned_round(self, source: Parsed, count: int) -> list[Parsed]:
        """The last round of increases with decreases in their place, and a stitch fewer between them each time."""
        first = self.changed(source, Change(old="inc", new="dec"), 1) if _shape(source) == "inc" else None
        found = [first] if first is not None else []
        while first is not None and len(found) < count:
            body = self.changed(first, Change(plain=-1, each=True), len(found))
            if body is None:
                break
            found.append(body)
        return found

    def grown(self, source: Parsed | None, told: Growth, count: int) -> list[Parsed]:
        """The bodies of the shaping courses, one after the other."""
        found: list[Parsed] = []
        steps = _steps(source) if source is not None and told.step and told.shape else 0
        if steps and steps != told.step:
            source = None  # "inc 1 each round" behind (2 sc, inc) x 6: one, and not six more
        if source is not None:
            sign = 1 if _shape(source) == "inc" else -1
            for turn in range(1, count + 1):
                body = self.changed(source, Change(plain=sign, each=True), turn)
                if body is None:
                    break
                found.append(body)
                if stitches_of(body) == told.until:
                    break  # what mirrors them later begins at the last of them
        if not found and told.step and told.shape:
            found = [self.sheet.parse(f"{told.shape} {told.step} evenly")] * count
        return found
