"""How many courses a label and its words stand for: "3 rounds even", "(five rnds)", "that is six rounds"."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from hookside.notation.askings.colournames import is_colour
from hookside.notation.courses.growing import Growing, stitches_of
from hookside.notation.courses.sameness import plain_like
from hookside.notation.courses.waiting import Waiting, name_of
from hookside.notation.courses.waitlist import Every, Printed, Spot
from hookside.notation.findings.table import finding
from hookside.notation.labels import growth, howlong, references, stretches
from hookside.notation.labels.label import Label
from hookside.notation.labels.roundstold import rounds_beside
from hookside.notation.lines.layout import RawText

# "sc around x 24": rounds, or so many stitches
AROUND_AMOUNT = re.compile(
    r"\b(?:all )?(?:the way )?a?round,? (?=(?:x|\*) ?\d{1,3}\b(?! ?(?:r|times)))", re.I
)
_IN_DC = re.compile(r"\b(?:dc|d\.c|double crochets?)\b", re.I)
# "R4-8: even, 4 rounds"
_SO_MANY_ROUNDS = re.compile(
    rf"[\s,;(\[x-]{{1,4}}(?P<n>\d{{1,3}}|{references.SMALL}) (?:rounds|rnds|rows|rds)\b(?! more)", re.I
)
# "ch 5, (4 sc, turn) 6 rows": rows that a strip in one line asks for
_IN_CHAIN = re.compile(r"\W*(?:[a-z]+ ){0,3}(?:ch|chain)s?\b", re.I)
_OF_CHAIN = re.compile(r"\bch(?:ain)?s?\b", re.I)
_SO_MANY_ROWS = re.compile(
    r"(?<!after )(?<!every )(?<!between )(?<!last )\b(?:[2-9]|\d{2,3}|two|three|four|five|six|seven|eight|nine|ten)"
    r" (?:more )?(?:rows|rnds|rounds)\b(?! (?:up|down|below|above|apart|away|before))",
    re.I,
)
# "Rnds 4-8 (five rnds):"
_ASIDE_ROUNDS = re.compile(
    rf"\s*(?:x ?(\d{{1,3}})|(\d{{1,3}}|{references.SMALL}) ?(?:(?:plain |even )?(?:rounds?|rnds?|rows?)|x|times)"
    r"(?: in (?:all|total)| altogether)?)\s*$",
    re.I,
)
# "Do this three times." below a last round speaks of none by name
_OF_ROUNDS = re.compile(r"\b(?:rounds?|rnds?|rows?|r\d)\b", re.I)
_SENTENCE = re.compile(r"(?:are|have|is|has|also|all|too)\b", re.I)  # "Rounds 5-7 are the same"
_EVEN: re.Match[str] = references.EVEN.match("even")  # type: ignore[assignment]
MOST_ALIKE = 500  # courses of one range


class Lengths(Growing):
    """Lays out so many courses as are told, and holds against each other what is told twice."""

    def stretch(self, spot: Spot, label: Label | None, body: str) -> bool:
        """ "Continue for 4 rounds.", "The next 3 rounds are the same.": behind the last course, where the label
        below leaves room for them."""
        at = spot.start if label is None else label.start
        told = stretches.stretch(self.page.text[at : spot.end])
        if label is not None and not (label.relative or _SENTENCE.match(body)):
            at, told = spot.start, stretches.shade_alone(body)
            if told is None or label.numbers[:1] != [self.last_label() + 1]:
                return False
            told = replace(told, upto=label.numbers[-1])
        even = references.EVEN.match(body)
        if even is not None and any(even[n] for n in ("n", "n2", "n3", "n4")) and not even["rest"].strip(" ."):
            return False  # "Work 3 rounds": plain ones
        numbers = self.behind_the_last(spot, told) if told is not None else []
        if told is None or not numbers:
            return False
        last = self.by_label[numbers[0] - 1]
        shapes = last.parsed is not None and plain_like(self.sheet, last.parsed) is not None
        alone = told.shade is not None and not (told.same or told.on)
        if label is not None and alone:
            where: dict[str, Any] = {"piece": self.piece.name, "course": str(numbers[0])}
            where |= {"Course": name_of(numbers[0], spot.kind).capitalize()}
            self.sheet.findings.append(finding(self.page, "colour-alone", spot.at, spot.end, **where))
        if told.shade is not None:
            self.waiting.append(RawText(at + told.shade[0], at + told.shade[1], "colour"))
        n, ahead = 0, None
        if told.count is not None:
            n, ahead = told.count[0], (told.count[0], at + told.count[1], at + told.count[2])
        if (alone and shapes) or (not told.same and (told.plain or 0 < n == last.declared)):
            self.plain_courses(spot, numbers, _EVEN, ahead, len(numbers))
        elif shapes and told.on and not told.same:  # as many stitches, or as much shaping: the count tells
            if not n or not self.grow(spot, numbers, growth.Growth("", n, len(numbers), None, False)):
                self.unknown(numbers, spot, ahead, "unread", body.strip())
        else:
            which = f"repeat round {told.of}" if told.of else "repeat last round" if told.itself else "the same"
            match = references.REFERENCE.match(which if told.more else f"{which} {told.n} times")
            if match is None:
                return False
            self.refer(spot, numbers if told.more else [], match)
        return True

    def behind_the_last(self, spot: Spot, told: stretches.Stretch) -> list[int]:
        """The numbers of the courses of such a sentence; none where they are no further ones, or have no room."""
        last, after = self.last_label(), self.following(spot.raw)
        then = after.label.numbers[:1] if after is not None and after.label is not None else []
        if not last or then == [last + 1]:
            return []
        if told.first and told.first != last + 1 and not (told.itself and told.first == last):
            return []
        upto = told.upto - (then == [told.upto]) if told.upto else last + told.n
        return list(range(last + 1, upto + 1)) if upto <= last + MOST_ALIKE else []

    def asks_for_more(self, spot: Spot, number: int, body: str) -> None:
        """ "ch 5, (4 sc, turn) 6 rows" without a label: one row is laid out, and the others are said."""
        asked = _SO_MANY_ROWS.search(body) if _IN_CHAIN.match(body) else None
        if asked is not None:
            where: dict[str, Any] = {"piece": self.piece.name, "course": str(number), "words": asked[0].strip()}
            where |= {"Course": name_of(number, spot.kind).capitalize()}
            self.sheet.findings.append(finding(self.page, "rows-beside", spot.at, spot.end, **where))

    def is_amount(self, spot: Spot, number: int, told: int) -> bool:
        """ "sc around x 24": so many stitches and no rounds, where the label of the next round leaves room for none, or
        where the round below makes as many."""
        if AROUND_AMOUNT.search(self.page.text, spot.start, spot.end) is None:
            return False
        after = self.following(spot.raw)
        if after is not None and after.label is not None and after.label.numbers:
            return after.label.numbers[0] == number + 1
        below = next((w.declared for w in reversed(self.waiting) if isinstance(w, Waiting)), None)
        return below == told

    def on_a_chain(self, spot: Spot, numbers: list[int], said: int) -> bool:
        """ "Sc around for 3 rounds" right on a chain that is joined; where the label that follows counts it as one, or
        its words tell of the chain, it is one, which is said."""
        if not any(isinstance(t, Waiting) and t.foundation for t in self.waiting):
            return False
        after = self.following(spot.raw)
        to = after.label.numbers[:1] if after is not None and after.label is not None else []
        if to in ([], [said + 1]) and not _OF_CHAIN.search(self.page.text, spot.start, spot.end):
            return True
        self.at_odds(numbers, said, spot.at, spot.start)
        return False

    def times_all(self, spot: Spot, numbers: list[int], body: str) -> howlong.Length | None:
        """ "sc 12, two times" on 12: two rounds, where the label of the next one leaves room for both."""
        last = self._shaping.among(self.waiting)
        there = self.told_before()
        if there is None and isinstance(last, Waiting) and last.parsed is not None:
            there = stitches_of(last.parsed)
        told = howlong.times_all(body, there, max(1, len(numbers)))
        if told is None or len(numbers) != 1:
            return told
        after = self.following(spot.raw)
        to = after.label.numbers[:1] if after is not None and after.label is not None else []
        return told if to in ([], [numbers[0] + told.n]) else None

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
            return last - first + 1 if first < last < first + MOST_ALIKE else 0
        or_more = told.or_more or (told.further and label is not None)
        likely = told.n + (not told.in_all)
        open_ = or_more and apart not in (told.n, told.n + 1)
        many = min(told.n + (or_more and (likely if open_ else apart) != told.n), MOST_ALIKE)
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
                    numbers.extend(range(numbers[0] + 1, numbers[0] + min(said, MOST_ALIKE)))
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
        bare = references.BEHIND_EVEN.match(even["rest"])
        if bare is not None and ahead is None:
            ahead = int(bare["n"]), rest_at + bare.start("n"), rest_at + bare.end("n")
        printed = references.printed(even["rest"], rest_at) or ahead
        self.put(numbers, spot, plain, borrowed=True, printed=printed)
        self.rest_cues(even["rest"], rest_at)

    def put_change(self, spot: Spot, numbers: list[int], count: re.Match[str], alone: re.Match[str]) -> None:
        """A row of a table that tells a count and how many more or fewer that is: spread evenly."""
        words = "sc in each st around" if self.sheet.terms == "US" else "dc in each st around"
        if alone["sign"]:
            words = f"{'inc' if alone['sign'] == '+' else 'dec'} {alone['n']} evenly"
        elif alone["ring"]:
            words = f"{count['n']} {words[:2]} in magic ring"
        printed = int(count["n"]), spot.start + count.start("n"), spot.start + count.end("n")
        self.put(numbers or [self.last_label() + 1], spot, self.sheet.parse(words), borrowed=True, printed=printed)
