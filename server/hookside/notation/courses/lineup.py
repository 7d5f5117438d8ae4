"""Labels and references -> the line of courses of one piece: "Rnds 9-12" becomes four, "rep rnd 6" what it names."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import SHADE
from hookside.notation.askings.kinds import classify
from hookside.notation.bodies import stacked
from hookside.notation.bodies.orders import orders
from hookside.notation.bodies.wording.places import LAYERS
from hookside.notation.courses.besidecolour import beside_colour
from hookside.notation.courses.lastslips import last_slips, last_turn
from hookside.notation.courses.lengths import AROUND_AMOUNT, MOST_ALIKE
from hookside.notation.courses.numbering import Numbering
from hookside.notation.courses.ofrange import of_range
from hookside.notation.courses.roundness import kind_by_work
from hookside.notation.courses.shadelong import open_lengths
from hookside.notation.courses.waiting import Parsed, Waiting, once_round, rounds_told, trim, works
from hookside.notation.courses.waitlist import Every, Printed, Spot
from hookside.notation.findings.table import finding
from hookside.notation.labels import counts, forsome, gains, growth, howlong, references
from hookside.notation.labels.label import CourseKind, Label
from hookside.notation.labels.loops import left_loops
from hookside.notation.labels.ordinary import AMOUNT_AROUND, BETWEEN_LAYERS, ordinary
from hookside.notation.labels.ownloops import own_loops
from hookside.notation.lines.layout import RawCourse, RawText
from hookside.notation.lines.unlabelled.alone import stitches_in_ring

_SENTENCE_END = re.compile(r"[.!]\s+(?=[A-Z])")
_CORRECTED = re.compile(r"\s*(?:corrected|correction|revised|fixed|new|erratum)(?: version)?\s*", re.I)
# "R5-7: 24 sc each": each of these rounds
_EACH_ROUND = re.compile(
    r"(?:(?<=\d sc)|(?<=\d dc)|(?<=\d hdc)|(?<=\d sts)) (?:in )?each"
    r"(?: (?:of (?:these|them)|time|round|rnd|row))?\W*$|(?<=\d) each\W*$",
    re.I,
)
# "R 4 = in back loops.": a plain round, whose loops alone are told
_SHADE_LEADS = re.compile(rf"(?:start(?:ing)?(?: with| in)? )?(?P<shade>{SHADE})[ ,:-]+(?=\d)", re.I)
_LOOPS_ALONE = re.compile(
    r"\s*(?:(?:all )?(?:in|into|through) (?:the )?)?(?:blo|flo|(?:back|front) loops?(?: only)?)"
    r"(?: (?:a?round|across))?\W*",
    re.I,
)
_PLAIN_IN = {"US": "sc in each st around", "UK": "dc in each st around"}
_NO_WORDS = re.compile(r"[\d\W]*(?:(?:sts?|stitches|rounds?|rnds?|rows?|x|times|sc|dc)\b\W*)?")  # "4 rounds"
# "In a magic ring:" on a line above the first round
_IN_RING = re.compile(
    r"\W*(?:(?:work(?:ing|ed)?|start(?:ing)?|begin(?:ning)?) )?(?:in|into|inside) (?:an? |the |your )?"
    r"(?:magic |adjustable |sliding |yarn |thread )?(?:ring|circle|loop)\W*",
    re.I,
)
_ROUND = re.compile(r"\b(?:rounds?|rnds?|rds?|laps?|tiers?)\b|^[a-z]{3}", re.I)
_NEAR = 60  # what stands behind a round may tell what its last words are
_SEEN_AGAIN = 4  # items back
_YARN_TOLD = re.compile(r" (?:in|with|using) [A-Za-z][^.,;:()\d]{0,30}(?=\s*(?:[.,;]|$))")  # "Ch 11 in N."


class Lineup(Numbering):
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
        body = self.page.text[start:end]
        parsed = self.sheet.parse(body)
        if parsed.phrases.unknown:
            parsed = self.sheet.parse(_YARN_TOLD.sub(lambda m: " " * len(m[0]), body))
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
        each = each or (self.body_for_each(raw, body_start, body) if len(numbers) > 1 else [])
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
        alike = self.times_all(spot, numbers, body) if not many else None
        if alike is not None:
            body, many = f"{body[: alike.start]}{' ' * (alike.end - alike.start)}{body[alike.end :]}".rstrip(), alike.n
        if numbers and self.in_kind(spot, numbers, body):
            return
        single = numbers or [self.unnumbered(raw, body) or int(any(isinstance(t, Waiting) for t in self.waiting))]
        if (label is None or label.numbers) and self.by_count(spot, single, body):
            return
        ends = counts.then_a_job(body) if label is not None and label.numbers else None
        if ends is not None and self.by_count(spot, single, body[: ends.count]):
            self.waiting.append(RawText(body_start + ends.job, body_end, ends.kind))
            return
        if ends is not None and sheet.parse(body).phrases.unknown:
            raw.end = body_start + ends.count
            self.expand(raw)
            self.waiting.append(RawText(body_start + ends.job, body_end, ends.kind))
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
            led = _SHADE_LEADS.match(body)  # "R1 yellow 6 mr"
            words = f"{led['shade']} {words}" if led is not None else words
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
            if raw.label is None and said > 1 and (last or self.on_a_chain(spot, numbers, said)):
                numbers = list(range(last + 1, last + 1 + min(said, MOST_ALIKE)))
        elif len(numbers) > 1 or (label is not None and label.aside):
            self.check_rounds(label, many or parsed.phrases.rounds, numbers, spot.at, start)
        elif said > 1 and label is not None:
            numbers = list(range(numbers[0], numbers[0] + min(said, MOST_ALIKE)))
        if label is not None and label.every:
            self.every.append(Every(numbers[0], label.upto, spot, parsed))
            if numbers[0] > last + 1:
                return  # told ahead: "all even rounds: sc around"
        told = rounds_told(parsed)
        if told > 1 and len(numbers) == 1 and self.is_amount(spot, numbers[0], told):
            parsed = sheet.parse(AROUND_AMOUNT.sub(lambda m: " " * len(m[0]), body))
        elif told > 1 and told != len(numbers) > 1 and told not in (n for n, _, _ in parsed.phrases.counts):
            self.at_odds(numbers, told, spot.at, start)
        elif told > 1 and len(numbers) == 1:
            numbers = list(range(numbers[0], numbers[0] + min(told, MOST_ALIKE)))
            parsed = Parsed(parsed.phrases, once_round(parsed.tree), body)
        self.check_beside(label, numbers, spot, body_start)
        if raw.label is None and len(numbers) == 1 and not last:
            self.asks_for_more(spot, numbers[0], self.page.text[body_start:body_end])
        slips = self.slips_at_its_end(spot, body, parsed, len(numbers) > 1)
        printed = None
        if behind.last is not None:
            printed = behind.last[0], body_start + behind.last[1], body_start + behind.last[2]
        self.put(numbers, spot, parsed, slips=slips, printed=printed, of_last=printed is not None)

    def beside_stitches(
        self, spot: Spot, label: Label | None, numbers: list[int], body: str, last: int
    ) -> tuple[str, int] | None:
        """What the words of a body tell beside its stitches: like which it is, how often, in whose loops, a job behind.

        -> the body that is left to read, and for how many courses it stands (0: not told); None where all is laid out.
        """
        raw, body_start = spot.raw, spot.start
        if self.stretch(spot, label, body):
            return None
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
            near = self.waiting[-_SEEN_AGAIN:]  # the body may have been laid out in two, its label met again
            if not told and orders(label.aside) and not any(t.start == start + 1 for t in near):
                self.waiting.append(RawText(start + 1, end, classify(label.aside) or "other"))
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

    def no_course(self, spot: Spot, parsed: Parsed) -> None:
        """A line without a label and without work: a ring for the first course, or an asking."""
        if any(c.type == "MARK" and c.value[0] == "ring" for c in parsed.phrases.chunks):
            self.ring_ahead = True
            for clause in parsed.phrases.cues:
                self.waiting.append(RawText(spot.start + clause.start, spot.start + clause.end))
        else:
            self.waiting.append(RawText(spot.start, spot.end))
