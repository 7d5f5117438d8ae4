"""Labels and references -> the line of courses of one piece: "Rnds 9-12" becomes four, "rep rnd 6" what it names."""

from __future__ import annotations

import re
from collections import Counter
from typing import Any

from hookside.notation.askings.colournames import is_colour
from hookside.notation.askings.kinds import classify
from hookside.notation.bodies import stacked
from hookside.notation.bodies.wording.places import LAYERS
from hookside.notation.courses import numbered
from hookside.notation.courses.besidecolour import beside_colour
from hookside.notation.courses.growing import Growing
from hookside.notation.courses.lastslips import last_slips, last_turn
from hookside.notation.courses.ofrange import of_range
from hookside.notation.courses.roundness import kind_by_work
from hookside.notation.courses.shadelong import open_lengths
from hookside.notation.courses.waiting import Parsed, Waiting, name_of, once_round, rounds_told, trim, works
from hookside.notation.courses.waitlist import Every, Printed, Spot
from hookside.notation.findings.table import finding
from hookside.notation.labels import forsome, gains, growth, howlong, references
from hookside.notation.labels.label import CourseKind, Label
from hookside.notation.labels.loops import left_loops
from hookside.notation.labels.ordinary import AMOUNT_AROUND, BETWEEN_LAYERS, ordinary
from hookside.notation.labels.ownloops import own_loops
from hookside.notation.labels.roundstold import rounds_beside
from hookside.notation.lines.alone import begins_ring, stitches_in_ring
from hookside.notation.lines.layout import RawCourse, RawText

_SENTENCE_END = re.compile(r"[.!]\s+(?=[A-Z])")
_CORRECTED = re.compile(r"\s*(?:corrected|correction|revised|fixed|new|erratum)(?: version)?\s*", re.I)
# "R5-7: 24 sc each": each of these rounds
_EACH_ROUND = re.compile(
    r"(?:(?<=\d sc)|(?<=\d dc)|(?<=\d hdc)|(?<=\d sts)) (?:in )?each"
    r"(?: (?:of (?:these|them)|time|round|rnd|row))?\W*$|(?<=\d) each\W*$",
    re.I,
)
# "sc around x 24": rounds, or so many stitches
_AROUND_AMOUNT = re.compile(
    r"\b(?:all )?(?:the way )?a?round,? (?=(?:x|\*) ?\d{1,3}\b(?! ?(?:r|times)))", re.I
)
# "R 4 = in back loops.": a plain round, whose loops alone are told
_LOOPS_ALONE = re.compile(
    r"\s*(?:(?:all )?(?:in|into|through) (?:the )?)?(?:blo|flo|(?:back|front) loops?(?: only)?)"
    r"(?: (?:a?round|across))?\W*",
    re.I,
)
_IN_DC = re.compile(r"\b(?:dc|d\.c|double crochets?)\b", re.I)
_PLAIN_IN = {"US": "sc in each st around", "UK": "dc in each st around"}
_NO_WORDS = re.compile(r"[\d\W]*(?:(?:sts?|stitches|rounds?|rnds?|rows?|x|times|sc|dc)\b\W*)?")  # "4 rounds"
_BEGUN = re.compile(
    r"\W*(?:begin(?:ning)?|start)(?: (?:off )?(?:with|in|by) [^:\n]{1,40})?\s*[:-]|\W*to (?:begin|start)\s*[,:-]", re.I
)
_ALONG_CHAIN = re.compile(r"\b(?:2nd|second|3rd|third|4th|fourth) ch", re.I)
# "In a magic ring:" on a line above the first round
_IN_RING = re.compile(
    r"\W*(?:(?:work(?:ing|ed)?|start(?:ing)?|begin(?:ning)?) )?(?:in|into|inside) (?:an? |the |your )?"
    r"(?:magic |adjustable |sliding |yarn |thread )?(?:ring|circle|loop)\W*",
    re.I,
)
# "R4-8: even, 4 rounds"
_SO_MANY_ROUNDS = re.compile(
    rf"[\s,;(\[x-]{{1,4}}(?P<n>\d{{1,3}}|{references.SMALL}) (?:rounds|rnds|rows|rds)\b(?! more)", re.I
)
# "ch 5, (4 sc, turn) 6 rows": rows that a strip in one line asks for
_IN_CHAIN = re.compile(r"\W*(?:[a-z]+ ){0,3}(?:ch|chain)s?\b", re.I)
_SO_MANY_ROWS = re.compile(
    r"(?<!after )(?<!every )(?<!between )(?<!last )\b(?:[2-9]|\d{2,3}|two|three|four|five|six|seven|eight|nine|ten)"
    r" (?:more )?(?:rows|rnds|rounds)\b(?! (?:up|down|below|above|apart|away|before))",
    re.I,
)
_ROUND = re.compile(r"\b(?:rounds?|rnds?|rds?|laps?|tiers?)\b|^[a-z]{3}", re.I)
# "Rnds 4-8 (five rnds):"
_ASIDE_ROUNDS = re.compile(
    rf"\s*(?:x ?(\d{{1,3}})|(\d{{1,3}}|{references.SMALL}) ?(?:(?:plain |even )?(?:rounds?|rnds?|rows?)|x|times)"
    r"(?: in (?:all|total)| altogether)?)\s*$",
    re.I,
)
_NEAR = 60  # what stands behind a round may tell what its last words are
_LEARNT = 2  # dashes behind a label that were no ranges, after which one like them is none
# "Do this three times." below a last round speaks of none by name
_OF_ROUNDS = re.compile(r"\b(?:rounds?|rnds?|rows?|r\d)\b", re.I)
_MOST_ALIKE = 500  # courses of one range


class Lineup(Growing):
    """Walks the items of a piece from the first to the last."""

    def run(self) -> list[Waiting | RawText]:
        """The courses of the piece in the order in which they are worked, with the sentences between them."""
        self.kind = self.guess_kind()
        begins = any(
            isinstance(i, RawCourse) and i.label is not None and i.label.numbers[:1] == [1] for i in self.raw.items
        )
        for item in self.raw.items:
            if self.sheet.full:
                break
            written_out = begins and isinstance(item, RawText)
            if not written_out and self.copied(item):
                behind = self.work_behind(item) if isinstance(item, RawText) else []
                besides = self.besides(item, behind) if isinstance(item, RawText) else []
                self.waiting.extend(besides)
                self.otherwise(besides, behind)
                for course in behind:
                    self.expand(course)
            elif isinstance(item, RawText):
                rest = self.on_to(item)
                self.waiting.extend([item] if rest is None else rest)
            elif item.foundation:
                self.found(item)
            else:
                self.with_label(item)
        for every in self.every:
            while every.upto and self.last_label() + 2 <= every.upto + 1:
                before = self.last_label()
                self.between(before + 2)
                if self.last_label() == before:
                    break
        self.stand_alone()
        self.put_right()
        for start, end in open_lengths(self.page.text, self.raw.items):
            words = self.page.quote(start, end).strip()
            told = finding(self.page, "shades-so-many", start, end, piece=self.piece.name, words=words)
            self.sheet.findings.append(told)
        kind = kind_by_work(self.waiting, self.spelled())
        for todo in self.waiting if kind is not None else []:
            if isinstance(todo, Waiting):
                todo.kind = kind or todo.kind
        return self.waiting

    def spelled(self) -> bool:
        """Does any label say in so many letters that it is a round? "R1", "#1" and a number alone do not."""
        labels = [i.label for i in self.raw.items if isinstance(i, RawCourse) and i.label is not None]
        return any(_ROUND.search(self.page.text[label.start : label.end]) for label in labels)

    def put_right(self) -> None:
        """The courses in the order of their numbers; a line that stood out of its place is told."""
        late = numbered.slipped(self.waiting)
        if late is not None:
            where: dict[str, Any] = {"piece": self.piece.name, "course": str(late.label), "found": late.label}
            where |= {"Course": name_of(late.label, late.kind).capitalize()}
            where |= {"before": name_of(late.label + 1, late.kind), "expected": late.label + 1}
            self.sheet.findings.append(finding(self.page, "label-slipped", late.at, late.start, **where))
        self.waiting = numbered.in_order(self.waiting)

    def guess_kind(self) -> CourseKind:
        kinds = [i.kind for i in self.raw.items if isinstance(i, RawCourse) and i.kind]
        if kinds:
            return kinds[0]
        text = " ".join(
            self.page.text[i.start : i.end].lower() for i in self.raw.items[:12] if isinstance(i, RawCourse)
        )
        return "row" if re.search(r"\bturn\b", text) and not re.search(r"magic|\bmr\b|ring|around", text) else "round"

    def found(self, raw: RawCourse) -> None:
        """Chains on a line of their own: kept for the next course, which is worked into them."""
        start, end = trim(self.page.text, raw.start, raw.end)
        parsed = self.sheet.parse(self.page.text[start:end])
        text = self.page.quote(start, end)
        self.waiting.append(
            Waiting(0, raw.kind or self.kind, start, end, raw.start, raw, parsed, text=text, foundation=True)
        )

    def stand_alone(self) -> None:
        """Chains with no course behind them are all there is to work: a cord. They are a course then."""
        if not any(isinstance(t, Waiting) and not t.foundation for t in self.waiting):
            for todo in self.waiting:
                if isinstance(todo, Waiting):
                    todo.foundation = False
                    self.sheet.courses += 1

    def expand(self, raw: RawCourse) -> None:
        """One label and its body -> a course for each number, or what its words point to."""
        sheet = self.sheet
        text = self.page.text
        label = raw.label
        last = self.last_label()
        start = raw.start
        numbers: list[int] = []
        if label is not None:
            numbers = list(label.numbers)
            if numbers and label.aside and _CORRECTED.fullmatch(label.aside):
                self.replace_last(raw, numbers)
            if numbers:
                self.between(numbers[0])
            if label.relative:
                numbers = list(range(last + 1, last + 1 + label.relative))
            if label.dash and label.second and len(numbers) >= 2:
                start, numbers = self.dashed(raw, numbers)
        body_start, body_end = trim(text, start, raw.end)
        all_alike = _EACH_ROUND.search(text, body_start, body_end) if len(numbers) > 1 else None
        if all_alike is not None and gains.gain_behind(text[body_start:body_end]) is None:
            body_end = all_alike.start()
        body = text[body_start:body_end]
        led_by = self.told_by_label(label, body) if label is not None and label.aside else None
        if led_by is not None:
            body_start, body = led_by[0], led_by[1].ljust(body_start - led_by[0]) + body
        if "\n" in body:
            line = text.rfind("\n", 0, body_start) + 1
            body = stacked.parted(body, body_start - line, sheet.names)
        beside = self.on_to(raw) if label is None else None
        if beside is not None:
            self.waiting.extend(beside)
            return
        each = self.count_for_each(raw, body_start, body) if len(numbers) > 1 else []
        for one in each:
            self.expand(one)
        if each:
            return
        if label is None and not self.waiting and _IN_RING.fullmatch(body):
            self.ring_ahead = True
            return
        spot = Spot(raw, raw.kind or self.kind, body_start, body_end, label.start if label is not None else start)
        many = 0
        further = len(numbers) > 1 or (label is not None and label.aside)
        if further or not (sheet.given_up(body) or ordinary(body)):
            told_beside = self.beside_stitches(spot, label, numbers, body, last)
            if told_beside is None:
                return
            body, many = told_beside
        if numbers and self.in_kind(spot, numbers, body):
            return
        single = numbers or [self.unnumbered(raw, body) or int(any(isinstance(t, Waiting) for t in self.waiting))]
        if (label is None or label.numbers) and self.by_count(spot, single, body):
            return
        behind = of_range(sheet, body, numbers)
        body = behind.body
        if behind.odds:
            self.unknown(numbers, spot, None, "unread", behind.odds)
            return
        parsed = sheet.parse(body)
        lost = body not in sheet.passed_by and (parsed.phrases.unknown or not works(parsed))
        ring = stitches_in_ring(body) if lost else 0
        if ring:
            words = f"{ring} {'sc' if sheet.terms == 'US' else 'dc'} in magic ring"
            printed_behind: Printed | None = None
            if parsed.phrases.counts and len(re.findall(r"\d+", body)) > 1:
                n, a, b = parsed.phrases.counts[-1]
                printed_behind = n, body_start + a, body_start + b
            self.put(single, spot, sheet.parse(words), borrowed=True, printed=printed_behind)
            return
        if _LOOPS_ALONE.fullmatch(body) and label is not None and last:
            self.put(single, spot, sheet.parse(f"{_PLAIN_IN[sheet.terms]} {body.strip(' .')}"), borrowed=True)
            return
        if raw.label is not None and not works(parsed):
            sheet.nothing_in(body)
        if sheet.watch:
            line = self.page.line(body_start)
            sheet.see("label", self.page.line(spot.at), text[spot.at : start].strip(), numbers)
            sheet.see("tokens", line, body, [repr(c) for c in parsed.phrases.chunks])
            sheet.see("tree", line, body, parsed.tree.failed or [repr(i) for i in parsed.tree.items])
        said = many or parsed.phrases.rounds or 1
        if not numbers:
            if raw.label is None and not works(parsed) and not parsed.phrases.unknown:
                self.no_course(spot, parsed)
                return
            numbers = [self.unnumbered(raw, body)]
            if raw.label is None and said > 1 and last:
                numbers = list(range(last + 1, last + 1 + min(said, _MOST_ALIKE)))
        elif len(numbers) > 1 or (label is not None and label.aside):
            self.check_rounds(label, many or parsed.phrases.rounds, numbers, spot.at, start)
        elif said > 1 and label is not None:
            numbers = list(range(numbers[0], numbers[0] + min(said, _MOST_ALIKE)))
        if label is not None and label.every:
            self.every.append(Every(numbers[0], label.upto, spot, parsed))
            if numbers[0] > last + 1:
                return  # told ahead: "all even rounds: sc around"
        told = rounds_told(parsed)
        if told > 1 and len(numbers) == 1 and self.is_amount(spot, numbers[0], told):
            parsed = sheet.parse(_AROUND_AMOUNT.sub(lambda m: " " * len(m[0]), body))
        elif told > 1 and told != len(numbers) > 1 and told not in (n for n, _, _ in parsed.phrases.counts):
            self.at_odds(numbers, told, spot.at, start)
        elif told > 1 and len(numbers) == 1:
            numbers = list(range(numbers[0], numbers[0] + min(told, _MOST_ALIKE)))
            parsed = Parsed(parsed.phrases, once_round(parsed.tree), body)
        self.check_beside(label, numbers, spot, body_start)
        if raw.label is None and len(numbers) == 1 and not last:
            self.asks_for_more(spot, numbers[0], self.page.text[body_start:body_end])
        slips = self.slips_at_its_end(spot, body, parsed, len(numbers) > 1)
        printed = None
        if behind.last is not None:
            printed = behind.last[0], body_start + behind.last[1], body_start + behind.last[2]
        self.put(numbers, spot, parsed, slips=slips, printed=printed, of_last=printed is not None)

    def asks_for_more(self, spot: Spot, number: int, body: str) -> None:
        """ "ch 5, (4 sc, turn) 6 rows" without a label: one row is laid out, and the others are said."""
        asked = _SO_MANY_ROWS.search(body) if _IN_CHAIN.match(body) else None
        if asked is not None:
            where: dict[str, Any] = {"piece": self.piece.name, "course": str(number), "words": asked[0].strip()}
            where |= {"Course": name_of(number, spot.kind).capitalize()}
            self.sheet.findings.append(finding(self.page, "rows-beside", spot.at, spot.end, **where))

    def beside_stitches(
        self, spot: Spot, label: Label | None, numbers: list[int], body: str, last: int
    ) -> tuple[str, int] | None:
        """What the words of a body tell beside its stitches: like which it is, how often, in whose loops, a job behind.

        -> the body that is left to read, and for how many courses it stands (0: not told); None where all is laid out.
        """
        raw, body_start = spot.raw, spot.start
        parts = howlong.parted(body)
        if parts is not None and len(numbers) <= 1:
            behind = RawCourse(None, body_start + parts[1], raw.end, raw.kind)
            raw.end = body_start + parts[0]
            self.expand(raw)
            self.expand(behind)
            return None
        plain = howlong.plain_behind(body)
        if plain is not None and label is not None:
            behind = RawCourse(None, body_start + plain, raw.end, raw.kind)
            raw.end = body_start + plain
            self.expand(raw)
            self.expand(behind)
            return None
        shuts = self.shuts(body)
        if shuts is not None:
            rest = RawText(*trim(self.page.text, body_start + shuts, spot.end))
            raw.end = body_start + shuts
            self.expand(raw)
            self.waiting.append(rest)
            return None
        self.for_some(spot, label, body)
        if len(numbers) > 1 and numbers[0] == 1 and self.lists_counts(body):
            self.unknown(numbers, spot, None, "unread", body)
            return None
        first = references.COUNT_FIRST.match(body)
        at = first.end() if first else 0
        led = references.COLOUR_LEAD.match(body, at)
        past = led.end() if led else at
        way = references.EDGE_LEAD.match(body, past) if led else None
        past = way.end() if way else past
        if led and (references.REFERENCE.match(body, past) or references.EVEN.match(body, past)):
            coloured = classify(led["words"]) == "colour"
            if coloured:
                self.waiting.append(RawText(body_start + led.start(), body_start + led.end("words")))
            at = led.end() if coloured or not (led["alone"] or led["joined"]) else at
        edge = references.EDGE_LEAD.match(body, at)
        way_in = ""
        if edge and (references.REFERENCE.match(body, edge.end()) or references.EVEN.match(body, edge.end())):
            way_in, at = body[at : edge.end()], edge.end()
        alone = references.CHANGE_ALONE.match(body, at) if first and at < len(body) else None
        if first and alone:
            self.put_change(spot, numbers, first, alone)
            return None
        reference = references.REFERENCE.match(body, at)
        if reference is not None and references.of_no_course(reference):
            on = numbers or self.as_far_as(reference["rest"])
            further = growth.growth(body, bool(on))
            far = further is not None and (further.until or further.rounds or on)
            if further is not None and far and self.grow(spot, on, further):
                return None
        if reference is not None:
            self.refer(spot, numbers, reference)
            return None
        long = howlong.length(body)
        many = self.as_long(spot, (numbers or [last + 1])[0], long) if long is not None else 0
        if long is not None and many:
            body = f"{body[: long.start]}{' ' * (long.end - long.start)}{body[long.end :]}".rstrip()
        amount = AMOUNT_AROUND.search(body)
        if amount is not None:
            body = f"{body[: amount.end('n')]}{' ' * (amount.end() - amount.end('n'))}{body[amount.end() :]}"
        spot.own = own_loops(body, numbers)
        body = spot.own.body if spot.own is not None else body
        left = left_loops(body) if spot.own is None else None
        if left is not None and label is not None:
            spot.upon, body = left.upon, left.body
        even = references.EVEN.match(body, at)
        if even is not None and howlong.works_on(even["rest"]):
            self.unknown(numbers, spot, references.printed(body, body_start), "unread", body)
            return None
        if even is not None:
            ahead = (int(first["n"]), body_start + first.start("n"), body_start + first.end("n")) if first else None
            self.plain_courses(spot, numbers, even, ahead, many, way_in)
            return None
        grows = growth.growth(body, label is not None or many > 0)
        on = numbers or list(range(last + 1, last + 1 + many))
        if grows is not None and self.grow(spot, on, grows):
            return None
        return body, many

    def slips_at_its_end(self, spot: Spot, body: str, parsed: Parsed, many: bool) -> tuple[int, int, Parsed] | None:
        """Where slip stitches or a turn at the end are told, and the body without them, where it is as clear so."""
        past = spot.start + len(body)
        behind = self.page.text[past : past + _NEAR]
        after = self.following(spot.raw)
        ended = last_slips(body, behind, self.waiting, parsed, many=many, last=after is None)
        if ended is None and many and spot.kind == "round" and after is not None and after.kind == "row":
            ended = last_turn(body, self.waiting, parsed)
        if ended is None:
            return None
        without = self.sheet.parse(ended.body)
        if without.phrases.unknown or without.phrases.counts != parsed.phrases.counts:
            return None
        return spot.start + ended.start, spot.start + ended.end, without

    def is_amount(self, spot: Spot, number: int, told: int) -> bool:
        """ "sc around x 24": so many stitches and no rounds, where the label of the next round leaves room for none, or
        where the round below makes as many."""
        if _AROUND_AMOUNT.search(self.page.text, spot.start, spot.end) is None:
            return False
        after = self.following(spot.raw)
        if after is not None and after.label is not None and after.label.numbers:
            return after.label.numbers[0] == number + 1
        below = next((w.declared for w in reversed(self.waiting) if isinstance(w, Waiting)), None)
        return below == told

    def for_some(self, spot: Spot, label: Label | None, body: str) -> None:
        """ "R4: sc (first cone only)", "R3-5 (R3-7 for large)": said, and shown in front of the course."""
        spans = [(spot.start + a, spot.start + b) for a, b in forsome.for_some(body)]
        if label is not None and label.aside:
            at = label.aside_at
            spans += [(at + a, at + b) for a, b in forsome.for_some(label.aside)]
            if not spans and forsome.other_range(label.aside, label.numbers):
                spans.append((at, at + len(label.aside)))
        asked = [s for s in spans if classify(self.page.text[slice(*s)]) in (None, "other")]
        for start, end in sorted(asked):
            words = self.page.quote(start, end)
            self.sheet.findings.append(finding(self.page, "for-some", start, end, piece=self.piece.name, words=words))
            self.waiting.append(RawText(start, end, "other"))

    def told_by_label(self, label: Label, body: str) -> tuple[int, str] | None:
        """ "Rnd 4 (blo): ...", "Round 4 (in blue): ...": where the bracket begins, and it, where it tells of the work.

        In front of a reference, which takes its stitches from elsewhere, it stays an asking of its own.
        """
        start, end = label.aside_at - 1, label.aside_at + len(label.aside)
        words = self.page.text[start : end + 1]
        if words[:1] not in ("(", "[") or _NO_WORDS.fullmatch(label.aside):
            return None
        beside = beside_colour(label.aside, self.sheet.yarns)
        words = f"{words[: 1 + beside.shade]})" if beside is not None else words
        phrases = self.sheet.parse(words).phrases
        told = {c.type for c in phrases.chunks if c.type not in ("SEP", "OPEN", "CLOSE")}
        if phrases.unknown or not told or not told <= {"LOOPS", "COLOUR", "CUE"}:
            return None
        if references.REFERENCE.match(body) or references.EVEN.match(body):
            kind = classify(label.aside) or ("colour" if "COLOUR" in told else None)
            if kind is not None:
                self.waiting.append(RawText(start + 1, end, kind))
            return None
        return start, words

    def with_label(self, raw: RawCourse) -> None:
        """A course, and what the bracket of its label tells behind a color, in front of it or behind it."""
        label = raw.label
        beside = beside_colour(label.aside, self.sheet.yarns) if label is not None and label.aside else None
        if label is None or beside is None:
            self.expand(raw)
            return
        told = RawText(label.aside_at + beside.start, label.aside_at + beside.end, beside.kind)
        if beside.kind is None:
            self.sheet.passed.append((told.start, told.end))
        elif not beside.behind:
            self.waiting.append(told)
        self.expand(raw)
        if beside.kind is not None and beside.behind:
            self.waiting.append(told)

    def shuts(self, body: str) -> int | None:
        """Where "... (8). Press flat, sc 4 through both layers" ends as a round: what shuts the piece is none of it."""
        layers = LAYERS.search(body.lower()) if any(hint in body for hint in BETWEEN_LAYERS) else None
        ends = [m.end() for m in _SENTENCE_END.finditer(body, 0, layers.start())] if layers else []
        if not ends:
            return None
        head = self.sheet.parse(body[: ends[-1]].rstrip())
        return ends[-1] if works(head) and not head.phrases.unknown else None

    def put_change(self, spot: Spot, numbers: list[int], count: re.Match[str], alone: re.Match[str]) -> None:
        """A row of a table that tells a count and how many more or fewer that is: spread evenly."""
        words = "sc in each st around" if self.sheet.terms == "US" else "dc in each st around"
        if alone["sign"]:
            words = f"{'inc' if alone['sign'] == '+' else 'dec'} {alone['n']} evenly"
        elif alone["ring"]:
            words = f"{count['n']} {words[:2]} in magic ring"
        printed = int(count["n"]), spot.start + count.start("n"), spot.start + count.end("n")
        self.put(numbers or [self.last_label() + 1], spot, self.sheet.parse(words), borrowed=True, printed=printed)

    def between(self, number: int) -> None:
        """The course before `number` where "all even rows" has told it, and it is not there."""
        missing = self.last_label() + 1
        for every in self.every:
            on = (missing - every.first) % 2 == 0 and missing >= every.first
            if missing == number - 1 and on and (not every.upto or missing <= every.upto):
                self.put([missing], every.spot, every.parsed, borrowed=True)
                return

    def plain_courses(
        self,
        spot: Spot,
        numbers: list[int],
        even: re.Match[str],
        ahead: Printed | None = None,
        many: int = 0,
        way_in: str = "",
    ) -> None:
        """ "Work 3 rounds even": one plain stitch in each, so many times. `ahead`: a count before the words;
        `way_in`: a turn or a chain before them."""
        last = self.last_label()
        n = many or references.small(even["n"] or even["n2"] or even["n3"] or even["n4"] or "1")
        total = references.UNTIL_ROWS.search(even["rest"])
        if total is not None and not (even["n"] or even["n2"] or even["n3"] or even["n4"]):
            n = max(1, references.small(total["n"]) - (numbers[0] - 1 if numbers else last))
        if not numbers:
            numbers = list(range(last + 1, last + 1 + n))
        elif len(numbers) > 1:
            told = even["n"] or even["n2"] or even["n3"] or even["n4"]
            behind = None if told or many else _SO_MANY_ROUNDS.match(even["rest"])
            said = many or references.small(told or (behind["n"] if behind else "0"))
            if said > 1:
                self.check_rounds(spot.raw.label, said, numbers, spot.at, spot.start)
        elif n > 1:
            after = self.following(spot.raw)
            if after is None or after.label is None or not after.label.numbers or after.label.numbers[0] != last + 2:
                numbers = list(range(numbers[0], numbers[0] + n))
            else:  # "R4: 3 rounds sc (18)" in front of R5
                self.at_odds(numbers, n, spot.at, spot.start)
        rest_at = spot.start + even.start("rest")
        in_dc = _IN_DC.search(self.page.text, spot.start + even.start(), rest_at) is not None  # "3 rounds of dc"
        words = "sc in each st around" if self.sheet.terms == "US" and not in_dc else "dc in each st around"
        how = references.EVEN_HOW.match(even["rest"])
        if how is not None and how["loops"]:
            words = words.replace("each st", "blo" if how["loops"][0] in "bB" else "flo")
        elif how is not None and how["stitch"]:
            words = f"{how['stitch']} in each st around"
        elif how is not None and is_colour(how["shade"]):
            self.waiting.append(RawText(rest_at + how.start("shade"), rest_at + how.end("shade"), "colour"))
        plain = self.sheet.parse(way_in + words)
        if spot.raw.label is not None and spot.raw.label.every:
            self.every.append(Every(numbers[0], spot.raw.label.upto, spot, plain))
        for name in ("told", "of", "of2"):  # "same 12 for 4 rnds", "3 rounds of 24"
            if even[name]:
                ahead = (int(even[name]), spot.start + even.start(name), spot.start + even.end(name))
        printed = references.printed(even["rest"], rest_at) or ahead
        self.put(numbers, spot, plain, borrowed=True, printed=printed)
        self.rest_cues(even["rest"], rest_at)

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

    def no_course(self, spot: Spot, parsed: Parsed) -> None:
        """A line without a label and without work: a ring for the first course, or an asking."""
        if any(c.type == "MARK" and c.value[0] == "ring" for c in parsed.phrases.chunks):
            self.ring_ahead = True
            for clause in parsed.phrases.cues:
                self.waiting.append(RawText(spot.start + clause.start, spot.start + clause.end))
        else:
            self.waiting.append(RawText(spot.start, spot.end))

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
        single = single or (self.dashes[sign, True] >= _LEARNT and not self.dashes[sign, False])  # as all before it
        self.dashes[sign, single] += 1
        return (second, [first]) if single else (raw.start, numbers)

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

    def named_many(self, label: Label) -> bool:
        """ "Rounds 5 - 8 sc in each st": several by their name, where no dash before was one in front of a body."""
        if not self.page.text[label.start : label.number_spans[0][0]].rstrip(" .#").lower().endswith("s"):
            return False
        dashed = Counter(id(t.raw) for t in self.waiting if isinstance(t, Waiting) and t.raw.label and t.raw.label.dash)
        return all(n > 1 for n in dashed.values())

    def as_long(self, spot: Spot, first: int, told: howlong.Length) -> int:
        """So many courses from the number `first` on; where it can be one more, the label behind it decides."""
        label = spot.raw.label
        after = self.following(spot.raw)
        numbers = after.label.numbers if after is not None and after.label is not None else []
        if label is not None and len(label.numbers) > 1:
            numbers = [label.numbers[-1] + 1]
        apart = numbers[0] - first if numbers else 0
        if told.upto:
            last = told.upto - (numbers[:1] == [told.upto])  # "to round 8" includes it, unless it stands below
            return last - first + 1 if first < last < first + _MOST_ALIKE else 0
        or_more = told.or_more or (told.further and label is not None)
        likely = told.n + (not told.in_all)
        open_ = or_more and apart not in (told.n, told.n + 1)
        many = min(told.n + (or_more and (likely if open_ else apart) != told.n), _MOST_ALIKE)
        where: dict[str, Any] = {"piece": self.piece.name, "course": str(first), "noun": f"{spot.kind}s"}
        words = self.page.text[spot.start : spot.end].strip().rpartition("\n")[2]
        below = after is None and words != self.page.text[spot.start : spot.end].strip()
        if below and not _OF_ROUNDS.search(words):
            at = self.page.text.rindex(words, spot.start, spot.end)
            where |= {"name": self.piece.name, "found": many, "words": self.page.quote(at, at + len(words))}
            self.sheet.findings.append(finding(self.page, "rounds-or-copies", at, spot.end, **where))
        elif open_:
            where |= {"found": likely, "other": 2 * told.n + 1 - likely}
            where["Course"] = name_of(first, spot.kind).capitalize()
            self.sheet.findings.append(finding(self.page, "how-many", spot.start, spot.end, **where))
        return many

    def check_rounds(self, label: Label | None, said: int | None, numbers: list[int], at: int, start: int) -> None:
        if label is not None and label.aside:
            match = _ASIDE_ROUNDS.match(label.aside)
            if match:
                said = references.small(match[1] or match[2])
                if len(numbers) == 1 and said > 1:
                    numbers.extend(range(numbers[0] + 1, numbers[0] + min(said, _MOST_ALIKE)))
                    return
        if said is not None and said != len(numbers) and said > 0 and len(numbers) > 1:
            self.at_odds(numbers, said, at, start)

    def check_beside(self, label: Label | None, numbers: list[int], spot: Spot, start: int) -> None:
        """ "that is six rounds" behind or in front of the work: so many as the label says, or all up to here?"""
        body = self.page.text[start : spot.end]
        told = rounds_beside(body) if label is not None and numbers else None
        if told is None or told.n in (len(numbers), numbers[-1]):
            return
        counted = {int(n) for n in re.findall(r"\d+", body)}
        if not told.named and (len(numbers) == 1 or not counted or told.n in counted):
            return  # "That makes six." of a single round, or where no count is printed: as likely its stitches
        if not any(f.code == "range-count" and f.course == str(numbers[0]) for f in self.sheet.findings[-2:]):
            self.at_odds(numbers, told.n, spot.at, start)
