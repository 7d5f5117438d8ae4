"""Courses that have the body of an earlier one of their piece: "repeat rounds 5 and 6 three more times"."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import takewhile
from typing import Any

from hookside.notation.askings.kinds import classify
from hookside.notation.bodies.wording.tails import tail
from hookside.notation.courses import inkind, oneyarn
from hookside.notation.courses.departing import plain_body
from hookside.notation.courses.ofanother import OfAnother
from hookside.notation.courses.sameness import plain_like, plain_of, widens, with_the_rest
from hookside.notation.courses.waiting import Parsed, Waiting, name_of, ringed
from hookside.notation.courses.waitlist import Spot
from hookside.notation.findings.table import finding
from hookside.notation.labels import changes, gains, howlong, references
from hookside.notation.labels.label import numbers_of
from hookside.notation.lines.layout import RawText
from hookside.notation.page.inwords import NTH, WORD, value
from hookside.notation.trees.changing import changed
from hookside.pattern import CueKind

CHANGED = ", with the change that its words ask for"
_MOST_UNTIL = 500  # rounds of "repeat until 12 sts remain" that are laid out to be tried
_MOST_AGAIN = 1000
_MOST_NAMED = 20  # courses that are not there, of which a message names the numbers
_COUNT_OR_ROUND = re.compile(r"^(?P<first>\d{1,3}) - (?P<n>\d{1,4})$")
# "3 more times"; "(12)" alone is the count of the one round that is meant
_AGAIN = re.compile(
    r"(?!\W*[(\[{]\s*\d{1,3}\s*[)\]}])"
    r"\W*(?:for |a |another |total of |x ?(?=\d))*(?P<n>\d{1,3}(?![\da-wyz])|one|two|three|four|five|six|seven|eight|"
    r"nine|ten|twelve|once\b|twice\b)\s*(?:more\s+)?(?:times?|x)?",
    re.I,
)
# "until they have been worked 3 times"
_WORKED_SO_OFTEN = re.compile(
    rf"\W*(?:until|till) (?:they|it|these|you|all)(?: (?:are|is|have|has|been|worked|made|done|them|it|these)){{1,4}}"
    rf" (?:a total of )?(?P<n>\d{{1,2}}|{references.SMALL}) times\b",
    re.I,
)
_IN_ALL = re.compile(
    r"\W*(?:for )?(?:a )?total of (?!\w+ (?:rounds|rnds|rows)\b)|"
    r"[^.;\n]{0,20}\b(?:x|times|twice|thrice|x ?\d+|\d+ ?x) (?:in (?:all|total)|altogether|total)\b|"
    r"\W*(?:until|till)\b[^.;\n]{0,60}\btimes\b",
    re.I,
)
_TIMES = re.compile(r"\W*(?:for )?(?:x ?\d|\d{1,2} ?x\b|(?:once|twice)\b|[a-z\d]{1,6} (?:more )?times)", re.I)
# "three times", where the first of them may be what stands above
_SO_OFTEN = re.compile(
    rf"\W*(?:twice|thrice|(?:\d{{1,2}}|{references.SMALL}) times|x ?\d{{1,2}})"
    r"(?! (?:more|in all|in total|altogether|total))\b",
    re.I,
)
_WORKS = re.compile(r"\W*(?:(?:now|then|you|and|we) )*(?:work|make|do|crochet)\b", re.I)
_REPEATS = re.compile(r"\W{0,3}(?:rep|repeat|work|as)\b", re.I)  # "alternate rows 2 and 3" may end with either
_TO_ROW = re.compile(
    r"\b(?:until|to|through|till)\s+(?:and including\s+)?"
    # "until you have finished row 35", "until you reach the end of row 9", "until the 8th row is done"
    r"(?:(?:you|we)(?:'ve|\s+have)?\s+(?:just\s+)?(?:reach(?:ed)?|come to|get to|got to|finish(?:ed)?|"
    r"completed?|worked|done|made|ended)\s+)?(?:(?:the\s+)?end of\s+)?(?:the\s+)?"
    rf"(?:(?:row|round|rnd|r)\s*(?P<n>\d{{1,4}}|{WORD})(?![\w-])|(?P<nth>{NTH})\s+(?:row|round|rnd)\b)",
    re.I,
)
# "rows 2 and 3 to row 9": the last is no row to repeat, where it is not there yet
_AS_FAR_AS = re.compile(r"(?P<named>.*\d)\s*(?:to|through|thru)\s*(?:\D{0,8}\s)?(?P<last>\d{1,4})$", re.I)
# "as R3 but in red", "same as R3, with white yarn": the yarn of all these courses
_YARN_BEHIND = re.compile(
    r"\s*,?\s*(?:(?:but|only|this time|now|still|stay(?:ing)?|keep(?:ing)?|remain(?:ing)?|all|it|do)\s+)*"
    r"(?P<yarn>(?:in|with|using|keep(?:ing)? to)\s+(?:the\s+)?"
    r"(?![^.;]*\b(?:st|sts|sc|[hd]?dc|h?tr|inc|incs|dec|decs|"
    r"stitch\w*|increas\w+|decreas\w+|between|more|extra|fewer|less|loops?|hook)\b)[^.,;:()\[\]\n\d=]{1,30}?)"
    r"(?=\s*(?:[.,;(\[=]|- ?\d|$))",
    re.I,
)
_KEEP_TO = re.compile(r"keep(?:ing)? to\s+", re.I)


def _row(told: re.Match[str]) -> int:
    """The number of the course that "until row 9" names."""
    return value(told["n"] or told["nth"])

# What is asked behind a reference: ". Stuff now", ", changing to A at the end", "and stuff (12)", "(eyes go in here)"
_BEHIND_REFERENCE = re.compile(
    r"[.;]\s*(?P<sentence>[A-Za-z][^.;]*)|(?:,|\band\b|\s-\s|[(\[])\s*(?:and )?(?P<clause>[A-Za-z][^.;,()\[\]]*)"
)
_CHANGES = re.compile(r"(?:chang|switch|swap)\w*\b", re.I)
_TAKES_UP = re.compile(r"(?:join(?:ing)?|end(?:ing)? with) ", re.I)
_IN_A_CLAUSE: tuple[CueKind, ...] = ("stuff", "eyes", "embroider", "tail", "fasten", "close", "marker", "colour")


class Borrowing(OfAnother):
    """Bodies taken over from courses that were read before, of this piece and of others."""

    def refer(self, spot: Spot, numbers: list[int], match: re.Match[str]) -> None:
        """ "repeat rounds 5 and 6 three more times": the bodies those courses have, again."""
        last = self.last_label()
        rest = references.up_to(match["rest"] or "")
        rest_at = spot.start + match.start("rest")
        printed = references.printed(rest, rest_at)
        behind = tail(rest)
        rest = rest if behind is None else rest[: behind.at]
        rest = inkind.plainly(rest, last)
        wanted = self.wanted(match, last)[: max(len(numbers), _MOST_AGAIN + 1)]
        if all(w in self.by_label and self.by_label[w].in_kind for w in wanted):
            wanted = [last]
        dashed = _COUNT_OR_ROUND.match(match["numbers"] or "")
        if dashed is not None and wanted[-1] not in self.by_label and int(dashed["first"]) in self.by_label:
            at = spot.start + match.start("numbers")  # "same as rnd 7 - 17": rounds 8 to 17 are not there yet
            printed = int(dashed["n"]), at + dashed.start("n"), at + dashed.end("n")
            wanted = [int(dashed["first"])]
        far = _AS_FAR_AS.fullmatch(match["numbers"] or "") if wanted[-1] not in self.by_label and not numbers else None
        if far is not None and int(far["last"]) > last:
            wanted = numbers_of(far["named"])
            numbers = list(range(last + 1, min(int(far["last"]), last + _MOST_AGAIN) + 1))
        sources = [self.by_label[w].parsed for w in wanted] if all(w in self.by_label for w in wanted) else []
        cycle = [s for s in sources if s is not None]
        if not cycle or len(cycle) < len(wanted):
            noun = "rows" if spot.kind == "row" else "rounds"
            named = ", ".join(map(str, wanted[:_MOST_NAMED])) + (", ..." if len(wanted) > _MOST_NAMED else "")
            self.unknown(numbers, spot, printed, "reference", f"{noun} {named}")
            return
        told = gains.gain(rest)
        of_last = False
        if told is not None and all(widens(c, self.sheet.own) == told.n for c in cycle):
            rest = " " * told.end + rest[told.end :]
            if told.after is not None and printed is None:
                printed = told.after[0], rest_at + told.after[1], rest_at + told.after[2]
            of_last = told.after is not None
        yarn = _YARN_BEHIND.match(rest)
        if yarn is not None and classify(_KEEP_TO.sub("in ", yarn["yarn"])) != "colour":
            yarn = None
        same_yarn = yarn or oneyarn.SAME_YARN.match(rest)
        if same_yarn is not None:
            rest = " " * same_yarn.end() + rest[same_yarn.end() :]
            cycle = [oneyarn.in_one_yarn(c) for c in cycle]
        edge = changes.at_an_end(rest) if len(cycle) == 1 and plain_body(cycle[0]) else None
        if edge is not None:
            made = self.sheet.parse(edge if self.sheet.terms == "US" else edge.replace("sc ", "dc "))
            source = name_of(wanted[0], spot.kind) + CHANGED
            self.put(numbers or [last + 1], spot, made, borrowed=True, printed=printed, sources=[source])
            return
        of_it = howlong.jobless(rest)
        change = changes.change_of(of_it, self.sheet.terms)
        if change is None and changes.changes(of_it):
            # a reference that changes what it repeats is left to the maker: the words are shown as they stand
            self.unknown(numbers, spot, printed, "unread", match[0].strip())
            return
        if yarn is not None:
            self.waiting.append(RawText(rest_at + yarn.start("yarn"), rest_at + yarn.end("yarn"), "colour"))
        until = references.UNTIL.search(rest)
        if change is None and howlong.works_on(rest[until.end() :] if until is not None else rest):
            self.unknown(numbers, spot, printed, "unread", match[0].strip())
            return
        then = references.THEN.search(rest)
        same = not (match["numbers"] or match["ordinal"] or match["last"] or match["repeat"])
        if same and change is None and len(cycle) == 1 and ringed(cycle[0]):
            cycle = [plain_of(self.sheet, cycle[0])]  # "Work 8 more rounds." behind a ring: none of them goes into it
        plain = plain_like(self.sheet, cycle[0]) if same and change is None and until is None and then is None else None
        if then is not None and until is None and change is None:
            listed = self.listed(wanted, numbers, rest, then, last)
            if listed is None:
                self.unknown(numbers, spot, printed, "unread", match[0].strip())
                return
            wanted = listed
            rest = rest[: then.start()]
            cycle = [p for w in wanted if (p := self.by_label[w].parsed) is not None]
            numbers = numbers or list(range(last + 1, last + 1 + len(cycle)))
        on = until is not None and self.open_end(spot, numbers)
        if on and numbers:
            numbers = list(range(numbers[0], numbers[0] + _MOST_UNTIL))
        if len(numbers) > 1 and until is None and then is None and far is None:
            self.holds_against(spot, numbers, rest, len(cycle))
        if len(numbers) == 1 and references.and_again(rest):
            self.at_odds(numbers, 1 + references.and_again(rest), spot.at, spot.start)
        if len(numbers) == 1 and until is None:
            far_on = self.as_far(spot, numbers[0], rest)
            numbers = far_on if len(far_on) > 1 else self.as_often(spot, numbers[0], rest, len(cycle))
        if not numbers:
            total = references.many(match) or self.how_many(rest, last, len(cycle), until is not None)
            if until is None and _SO_OFTEN.match(rest):
                total = self.with_the_first(spot, total, len(cycle))
            total += references.and_again(rest) * len(wanted)
            numbers = list(range(last + 1, last + 1 + min(total, _MOST_AGAIN)))
        cycle = with_the_rest(cycle, len(numbers)) if len(cycle) > 1 else cycle
        if change is not None:
            turns = -(-len(numbers) // len(cycle))
            if change.plain and turns > 1:
                change = replace(change, each=True)  # "three times, working one more sc between": each time one more
            other = [self.changed(c, change, turn) for turn in range(1, turns + 1) for c in cycle]
            if not any(t is not None for t in other):
                self.unknown(numbers, spot, printed, "unread", match[0].strip())
                return
            cycle = [t or c for t, c in zip(other, cycle * turns, strict=True)]
        self.put(
            numbers,
            spot,
            cycle[0],
            borrowed=True,
            printed=printed if not until else None,
            cycle=cycle,
            sources=[name_of(w, spot.kind) + (CHANGED if change is not None else "") for w in wanted],
            until=int(until["n"]) if until and on else None,
            plain=plain,
            what=name_of(wanted[0], spot.kind) if plain is not None else "",
            of_last=of_last,
        )
        if len(wanted) == 1 and wanted[0] in self.by_label and self.by_label[wanted[0]].in_kind:
            self.of_its_kind(numbers)
        self.rest_cues(rest, rest_at)

    def in_kind(self, spot: Spot, numbers: list[int], body: str) -> bool:
        """ "Fpdc around each fpdc and bpdc around each bpdc": the round below, again."""
        below = self.by_label.get(self.last_label())
        if below is None or spot.kind != "round" or not inkind.again(body, below.parsed, self.sheet.names.key):
            return False
        source = [name_of(below.label, spot.kind)]
        printed = references.printed(body, spot.start)
        self.put(numbers, spot, below.parsed, borrowed=True, printed=printed, sources=source)
        self.of_its_kind(numbers)
        return True

    def of_its_kind(self, numbers: list[int]) -> None:
        """Notes that these courses work every stitch into its like."""
        for number in numbers:
            self.by_label[number].in_kind = True

    def as_often(self, spot: Spot, first: int, rest: str, cycle: int) -> list[int]:
        """ "R5: repeat R4 3 times" in front of R8, or of nothing: three rounds from R5 on; else that one round."""
        again = _AGAIN.match(rest)
        n = references.small(again["n"]) * cycle if again is not None and _TIMES.match(rest) else cycle
        after = self.following(spot.raw)
        then = after.label.numbers[:1] if after is not None and after.label is not None else []
        if not 1 < n <= _MOST_AGAIN or (then and then[0] not in (first + 1, first + n)):
            return [first]
        if then == [first + 1]:
            where: dict[str, Any] = {"piece": self.piece.name, "course": str(first), "noun": f"{spot.kind}s"}
            where |= {"Course": name_of(first, spot.kind).capitalize(), "found": 1, "other": n}
            self.sheet.findings.append(finding(self.page, "how-many", spot.start, spot.end, **where))
            return [first]
        return list(range(first, first + n))

    def as_far(self, spot: Spot, first: int, rest: str) -> list[int]:
        """ "R5: repeat R4 until R7": the courses from that label to the one that is told, or to the one in front of it
        where it stands below."""
        row, after = _TO_ROW.search(rest), self.following(spot.raw)
        then = after.label.numbers[:1] if after is not None and after.label is not None else []
        upto = _row(row) if row is not None else first
        upto -= then == [upto]
        return list(range(first, max(first, min(upto, first + _MOST_AGAIN)) + 1)) if then != [first + 1] else [first]

    def with_the_first(self, spot: Spot, total: int, cycle: int) -> int:
        """ "Work these two rounds three times" in front of R10: with those that stand above it, R4 and R5; what
        is "repeated" so often is further rounds, unless the label behind leaves room for fewer."""
        first, after = self.last_label() + 1, self.following(spot.raw)
        then = after.label.numbers[:1] if after is not None and after.label is not None else []
        if then == [first + total - cycle]:
            return total - cycle
        if then == [first + total] or not _WORKS.match(self.page.text, spot.start):
            return total
        where: dict[str, Any] = {"piece": self.piece.name, "course": str(first), "noun": f"{spot.kind}s"}
        where |= {"Course": name_of(first, spot.kind).capitalize(), "found": total, "other": total + cycle}
        self.sheet.findings.append(finding(self.page, "how-many", spot.start, spot.end, **where))
        return total - cycle

    def holds_against(self, spot: Spot, numbers: list[int], rest: str, cycle: int) -> None:
        """ "R7-12: repeat R4-6 3 times": six rounds by the label, nine by the words; "R7-9: repeat R4-5" breaks off."""
        again = _AGAIN.match(rest) if _TIMES.match(rest) else None
        told = references.small(again["n"]) * cycle if again is not None else 0
        where: dict[str, Any] = {"piece": self.piece.name, "course": str(numbers[0]), "found": told}
        where |= {"Course": f"{name_of(numbers[0], spot.kind)} to {numbers[-1]}".capitalize(), "expected": len(numbers)}
        if told and told != len(numbers):
            self.sheet.findings.append(finding(self.page, "range-count", spot.start, spot.end, **where))
        elif told or len(numbers) % cycle == 0 or spot.raw.label is None:
            return
        elif _REPEATS.match(self.page.text, spot.start):
            where |= {"found": cycle}
            self.sheet.findings.append(finding(self.page, "breaks-off", spot.start, spot.end, **where))

    def open_end(self, spot: Spot, numbers: list[int]) -> bool:
        """Does nothing but its "until" say how far it goes: no label, or "Row 20: ... until ..." before row 26?"""
        if spot.raw.label is None:
            return True
        after = self.following(spot.raw)
        then = after.label.numbers[:1] if after is not None and after.label is not None else []
        return len(numbers) == 1 and then != [numbers[0] + 1]

    def listed(
        self, wanted: list[int], numbers: list[int], rest: str, then: re.Match[str], last: int
    ) -> list[int] | None:
        """The courses of "rows 2 and 3 twice, then row 2 once more" one by one; None where they can't be told."""
        more = numbers_of(then["numbers"])
        if any((w not in self.by_label or self.by_label[w].parsed is None) for w in more):
            return None
        if then["ends"]:
            final = wanted[(len(numbers) - 1) % len(wanted)] if numbers else None
            return wanted if more == [final] else None
        before = self.how_many(rest[: then.start()], last, len(wanted), until=False)
        after = self.how_many(then["rest"], last, len(more), until=False)
        if before + after > _MOST_AGAIN:
            return None
        if numbers and "." in rest[: then.start() + 2] and not then["ends"]:
            before = len(numbers)  # a sentence of its own, behind the courses that the label names
            numbers.extend(range(numbers[-1] + 1, numbers[-1] + 1 + after))
        told = [wanted[i % len(wanted)] for i in range(before)] + [more[i % len(more)] for i in range(after)]
        return told if len(numbers) in (0, len(told)) else None

    def wanted(self, match: re.Match[str], last: int) -> list[int]:
        """The numbers of the courses that a reference names; `last` is the number of the course before it."""
        if match["numbers"]:
            return numbers_of(match["numbers"])
        if match["ordinal"]:
            return numbers_of(references.ordinals(match["ordinal"]))
        both = (match["last"] or "").lower().startswith("both")
        n = 2 if both else references.small(match["lastn"] or "1")
        wanted = list(range(max(1, last - n + 1), last + 1))
        return [w for w in wanted if w in self.by_label] if last and len(wanted) > 1 else wanted

    def how_many(self, rest: str, last: int, cycle: int, until: bool) -> int:
        """Courses that a reference without a number of its own makes, `cycle` being those it goes through each time."""
        again = _WORKED_SO_OFTEN.match(rest) or _AGAIN.match(rest)
        times = references.small(again["n"]) if again else 1
        if again and _IN_ALL.match(rest) and "more" not in again[0]:
            times = max(1, times - 1)  # "three times in total": the first of them is what it points to
        row = _TO_ROW.search(rest)
        rows = references.UNTIL_ROWS.search(rest)
        if rows and rows["such"]:
            return max(0, references.small(rows["n"]) - self.plain_so_far())
        if row or rows:
            return max(0, (_row(row) if row else references.small(rows["n"]) if rows else 0) - last)
        return _MOST_UNTIL if until else times * cycle

    def as_far_as(self, rest: str) -> list[int]:
        """The numbers of the courses to come, where a sentence goes on "to round 8"; none where it does not say."""
        row, last = _TO_ROW.search(rest), self.last_label()
        return list(range(last + 1, min(_row(row), last + _MOST_AGAIN) + 1)) if row is not None else []

    def plain_so_far(self) -> int:
        """How many courses with the body of the last one stand in a row."""
        bodies = (t.parsed for t in reversed(self.waiting) if isinstance(t, Waiting) and not t.foundation)
        words = (" ".join(p.body.lower().split()) if p is not None else "" for p in bodies)
        last = next(words, None)
        return 0 if last is None else 1 + len(list(takewhile(lambda body: body == last, words)))

    def changed(self, parsed: Parsed, change: changes.Change, again: int) -> Parsed | None:
        tree = changed(parsed.tree, change, again)
        return None if tree is None else Parsed(parsed.phrases, tree, parsed.body)

    def rest_cues(self, rest: str, at: int) -> None:
        """What is asked behind a reference, in sentences of its own or in a clause: "As R3 and stuff (12)"."""
        for match in _BEHIND_REFERENCE.finditer(rest):
            told = match["sentence"] or match["clause"]
            kind = classify(told) or ("colour" if _CHANGES.match(told) else None)
            if match["sentence"] is None and kind == "colour" and not (_CHANGES.match(told) or _TAKES_UP.match(told)):
                continue  # "in the opposite direction", "with a sl st in the first st"
            if kind is not None and (match["sentence"] is not None or kind in _IN_A_CLAUSE):
                within = match["sentence"] is None
                start, end = match.span("clause" if within else "sentence")
                self.waiting.append(RawText(at + start, at + end, kind if within else None))
