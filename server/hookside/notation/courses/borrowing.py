"""Courses that have the body of another one: "repeat rounds 5 and 6 three more times", "as the first fin"."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import chain, islice, takewhile
from typing import Any

from hookside.notation.askings.askings import askings
from hookside.notation.askings.kinds import classify
from hookside.notation.bodies.wording.tails import tail
from hookside.notation.courses import inkind, oneyarn
from hookside.notation.courses.departing import plain_body
from hookside.notation.courses.likeness import Likeness, clauses_in
from hookside.notation.courses.sameness import plain_like, widens, with_the_rest
from hookside.notation.courses.takenalong import TakenAlong
from hookside.notation.courses.waiting import Parsed, Waiting, name_of, slug, trim, works
from hookside.notation.courses.waitlist import Printed, Spot
from hookside.notation.findings.omitted import holds_work
from hookside.notation.findings.table import finding
from hookside.notation.labels import departures, gains, howlong, references
from hookside.notation.labels.label import at_line_start, numbers_of
from hookside.notation.lines.heads.headings import PARTS
from hookside.notation.lines.layout import RawCourse, RawText, sentences
from hookside.notation.page.inwords import NTH, WORD, value
from hookside.notation.trees.changing import changed

_THE_ONE_BEFORE = ("first", "1st", "first-one", "other", "other-one", "previous", "previous-one", "one-before")
CHANGED = ", with the change that its words ask for"
_MOST_UNTIL = 500  # rounds of "repeat until 12 sts remain" that are laid out to be tried
_MOST_AGAIN = 1000
# "Start as the knob.", "Same beginning as the knob": as far as the round that is told below
_BEGINS_AS = re.compile(r"\W*(?:it |they |exactly |just |the |same )*(?:start|begin(?:ning)?)s?\b", re.I)
_COUNT_OR_ROUND = re.compile(r"^(?P<first>\d{1,3}) - (?P<n>\d{1,4})$")
_MOST_PIECES = 200  # the last ones, among which a name is looked for that is not printed alike
# ... and "(12)" alone is the count of the one round that is meant
_AGAIN = re.compile(
    r"(?!\W*[(\[{]\s*\d{1,3}\s*[)\]}])"
    r"\W*(?:for |a |another |total of |x ?(?=\d))*(?P<n>\d{1,3}(?![\da-wyz])|one|two|three|four|five|six|seven|eight|"
    r"nine|ten|twelve|once\b|twice\b)\s*(?:more\s+)?(?:times?|x)?",
    re.I,
)
_TIMES = re.compile(r"\W*(?:for )?(?:x ?\d|\d{1,2} ?x\b|(?:once|twice)\b|[a-z\d]{1,6} (?:more )?times)", re.I)
_REPEATS = re.compile(r"\W{0,3}(?:rep|repeat|work|as)\b", re.I)  # "alternate rows 2 and 3" may end with either
_LAST_COURSE = re.compile(
    rf"(?:{references.EARLIER_ONES})\.? (?:(?:\d{{1,2}}|{references.SMALL}) )?"
    r"(?:rounds?|rnds?|rows?|rds?)\b",
    re.I,
)
# "Make another the same.", "Repeat.", "As above": the piece before, without its name
_OTHERWISE = re.compile(r"\b(?:but|except\w*|without|skip\w*|omit\w*)\b", re.I)  # "like A but R2: inc x 3"
_UP_TO = re.compile(r"\b(?:until|till|up to|to|through|thru)\b", re.I)
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


# "..., then work 2 rounds even", "..., plus one more round: sc around", ". Then sc around"
_BEHIND = re.compile(
    r"(?:(?<=[.;])\s+|,?\s+)(?:(?:and then|and|then|plus|followed by|ending with)\b\s*)+|(?<=[.;])\s+", re.I
)
_LEADS_ON = re.compile(r"[\s,;]*(?:\b(?:and|then|plus|followed by|ending with)\b\W*)*$", re.I)
_ALL_ROUND = re.compile(r"\b(?:a?round|across|in (?:each|every|all)(?: of the)? (?:sts?|stitch(?:es)?|sc))\b", re.I)


def _told_behind(text: str, start: int, end: int) -> list[tuple[int, int]]:
    """Where the clauses behind "as ear A" stand."""
    cuts = list(_BEHIND.finditer(text, start, end))
    ends = [*(cut.start() for cut in cuts), end][1:]
    return [trim(text, cut.end(), stop) for cut, stop in zip(cuts, ends, strict=True)]


def _without_colour(parsed: Parsed) -> Parsed:
    """A body without the yarn it is worked with: "with fawn make 2 ch", of a piece worked in another colour."""
    kept = [c for c in parsed.phrases.cues if classify(parsed.body[c.start : c.end]) != "colour"]
    return Parsed(replace(parsed.phrases, cues=kept), parsed.tree, parsed.body)


def _row(told: re.Match[str]) -> int:
    """The number of the course that "until row 9" names."""
    return value(told["n"] or told["nth"])


class Borrowing(Likeness):
    """Bodies taken over from courses that were read before."""

    def piece_named(self, words: str) -> list[Waiting | RawText] | None:
        """The courses of an earlier piece that a text points to by name: "as first fin", "same as leg 1"."""
        name = words[: references.name_ends(words)].strip()
        if not any(c.isalnum() for c in name):
            return None  # "as row 2": a course, and no piece
        wanted = slug(name)
        wanted = re.sub(r"^(?:the|for|for-the|in|in-the|a)-", "", wanted)
        plain = re.sub(r"^(?:first|1st|second|2nd|third|3rd|other|previous|last)-", "", wanted)
        if wanted in self.sheet.done:
            return self.sheet.done[wanted]
        if wanted in _THE_ONE_BEFORE and self.sheet.done:
            before = next(reversed(self.sheet.done))
            kin = set(slug(self.piece.name).split("-")) & set(before.split("-")) - {"the"}
            return self.sheet.done[before] if kin else None
        done = list(islice(reversed(self.sheet.done.items()), _MOST_PIECES))
        for name, waiting in done:
            if wanted and (name == wanted or name.rstrip("s") == wanted.rstrip("s")):
                return waiting
        for name, waiting in done:
            if wanted and (
                wanted in ("previous", "other", "last-one") or set(wanted.split("-")) <= set(name.split("-"))
            ):
                return waiting
        return next((w for name, w in done if wanted and name.rstrip("s") == plain.rstrip("s")), None)

    def copied(self, raw: RawCourse | RawText) -> bool:
        """ "Work as first fin": its courses again, here."""
        text = self.page.text[raw.start : raw.end]
        self.nothing_behind()
        if isinstance(raw, RawCourse) and not references.of_another(text):
            return False
        if self.partners(raw, text):
            return True
        match = references.LIKE_PIECE.match(text)
        if match is not None and (_LAST_COURSE.match(match["name"]) or text.rstrip().endswith(":")):
            match = None  # "repeat previous round": of this piece; "exactly like the lid:" is written out below
        alike = references.same_again(text) if not self.last_label() else None
        if not match and not alike:
            return False
        waiting = self.piece_named(match["name"]) if match else None
        if waiting is None and alike and self.sheet.done:
            waiting = next(reversed(self.sheet.done.values()))
        if waiting is None:
            return False
        named = alike.end() if match is None and alike else 0
        if match is not None:
            named = match.start("name") + references.name_ends(text[match.start("name") :])
        limit = departures.upto(text[named:]) if match else None
        if limit == departures.NOT_TOLD:
            self.not_told(raw.start + named, raw.end)
            return False
        begins = isinstance(raw, RawText) and _BEGINS_AS.match(text) is not None
        if begins and match and limit is None and not departures.departures(text[named:]):
            behind = self.following(raw)  # "Start as the knob." above "R4:": its first three rounds
            numbers = behind.label.numbers if behind is not None and behind.label is not None else []
            limit = numbers[0] - 1 if numbers else None
        wanted: list[int] | None = None
        if alike and not match and alike.groupdict().get("but"):
            self.waiting.append(RawText(raw.start + alike.start("but"), raw.start + alike.end("but")))
        if match and match["lead"]:
            led = text[: match.end("lead")].rstrip(", ")  # its colour: an asking of its own
            self.waiting.append(RawText(raw.start + match.start("lead"), raw.start + len(led)))
        if isinstance(raw, RawCourse) and raw.label is not None and raw.label.numbers:
            wanted = raw.label.numbers
        theirs = [t for t in waiting if isinstance(t, Waiting)]
        if wanted is not None:
            theirs = [t for t in theirs if t.foundation or t.label in wanted]
        elif limit:
            theirs = [t for t in theirs if t.label <= limit]
        along = self._along(raw, waiting, raw.start + named, isinstance(raw, RawText) and not limit and not begins)
        courses = self.departed(raw.start + named, raw.end, theirs, wanted is not None)
        if wanted is None or wanted[0] == 1:
            self.waiting.extend(along.before())
        for todo in courses:
            if not self.room(raw.start, raw.end):
                break
            if not todo.borrowed and todo.raw.start >= raw.start + named:
                self.append(todo)  # a body that this part alone has
                continue
            again = replace(
                todo,
                raw=raw if isinstance(raw, RawCourse) else todo.raw,
                at=raw.start,
                borrowed=True,
                source=f"{name_of(todo.label, todo.kind)} of the piece before it",
            )
            if todo.foundation and again.parsed is not None and self._coloured():
                again.parsed = _without_colour(again.parsed)
            again = along.told_with(again)
            if wanted and todo.label == wanted[-1] and (told := references.printed(text, raw.start)) is not None:
                again.declared, again.declared_at = told[0], (told[1], told[2])  # "R1-R8 - same as the basket - 56"
            self.append(again)
            if todo.last_of and (along.whole or todo is not courses[-1]):
                self.waiting.extend(along.behind(todo))
        if isinstance(raw, RawCourse) and wanted:
            self._beyond(raw, wanted, waiting)
        if isinstance(raw, RawText):
            self.sheet.followed.append((raw.start, raw.end))
        return True

    def _along(
        self, raw: RawCourse | RawText, theirs: list[Waiting | RawText], named: int, whole: bool
    ) -> TakenAlong:
        """What goes with the courses of another part, whose name ends at `named`, and what of it is only said."""
        own = [(item.start, item.end) for item in self.raw.items if isinstance(item, RawText)]
        own += clauses_in(self.page.text, named, raw.end, [])
        along = TakenAlong(self.page.text, theirs, own, self._coloured() or self.raw.colours is not None, whole)
        where: dict[str, Any] = {"piece": self.piece.name}
        if along.colours_kept():
            told = finding(self.page, "like-colors", raw.start, raw.end, **where)
            self.sheet.findings.append(told)
        left = along.left()
        if left:
            words = ", ".join(f'"{self.page.quote(a, b).strip(" .,;")}"' for a, b in left)
            self.sheet.findings.append(finding(self.page, "like-jobs", raw.start, raw.end, words=words, **where))
        return along

    def _beyond(self, raw: RawCourse, wanted: list[int], waiting: list[Waiting | RawText]) -> None:
        """ "R1-9: as the body", which has five: the other four have no stitches, and each of them says so."""
        last = max((t.label for t in waiting if isinstance(t, Waiting)), default=0)
        more = [n for n in wanted if n > max(last, self.last_label())]
        if raw.label is None or not last or not more or wanted[0] > last:
            return
        kind = raw.kind or self.kind
        noun = "row" if kind == "row" else "round"
        spot = Spot(raw, kind, *trim(self.page.text, raw.start, raw.end), raw.label.start)
        what = f"{noun}s {more[0]} to {more[-1]}" if more[1:] else f"{noun} {more[0]}"
        self.unknown(more, spot, None, "reference", what)

    def before_it(self, match: re.Match[str]) -> list[Waiting | RawText] | None:
        """The piece whose rounds "work rounds 1 to 24 again" means where a piece begins: the one named, or before."""
        named = self.piece_named(match["name"]) if match["name"] else None
        if named or not self.sheet.done:
            return named
        if match["name"] and not PARTS.isdisjoint(re.findall(r"[a-z]+", match["name"].lower())):
            return None  # "work rounds 1-4 of the head", and the head is printed further down
        return next(reversed(self.sheet.done.values()))

    def _coloured(self) -> bool:
        """Has this piece told a colour of its own before its first course?"""
        text = self.page.text
        told = (t for t in self.waiting if isinstance(t, RawText))
        return any(t.job == "colour" or classify(text[t.start : t.end]) == "colour" for t in told)

    def partners(self, raw: RawCourse | RawText, text: str) -> bool:
        """ "Rnds 4-6: as rnds 1-3 of the base": each has its partner there; a printed count is the last one's."""
        match = references.OF_PIECE.match(text) or references.PIECE_OF.match(text)
        waiting = self.piece_named(match["name"]) if match else None
        if not waiting and isinstance(raw, RawText) and not self.last_label():
            match = references.FROM_BEFORE.match(text)
            waiting = self.before_it(match) if match else None
            if match and waiting is None and match["name"] and self.sheet.done:
                self.sheet.passed.append((raw.start, raw.end))
        if match is None or not waiting or _OTHERWISE.search(match["name"] or ""):
            return False
        wanted = numbers_of(references.numbers_in(match))
        if len(wanted) == 1 and _UP_TO.search(match[0]):
            return False  # "as body to the end of round 4": all its rounds as far as that
        theirs = {t.label: t for t in waiting if isinstance(t, Waiting)}
        sources = [theirs[w] for w in wanted if w in theirs]
        own = list(raw.label.numbers) if isinstance(raw, RawCourse) and raw.label is not None else []
        if not own:
            own = list(wanted) if not self.last_label() else []
        if not own:
            own = list(range(self.last_label() + 1, self.last_label() + 1 + len(wanted)))
        if len(sources) != len(wanted) or len(own) % len(wanted):
            return False
        alone = len(wanted) == 1  # "Rows 2 to 14: as row 2 of the back. 22 sts.": told of each of them
        sources *= len(own) // len(wanted)
        printed = references.printed(text[match.end() :], raw.start + match.end())
        if wanted[0] == 1 and not any(isinstance(t, Waiting) for t in self.waiting):
            theirs_first = [t for t in waiting if isinstance(t, Waiting) and t.foundation]  # the chain it begins with
            self.waiting.extend(replace(t, at=raw.start, borrowed=True) for t in theirs_first)
        made: list[Waiting] = []
        for at, (number, source) in enumerate(zip(own, sources, strict=True)):
            final = at == len(own) - 1
            again = replace(
                source,
                label=number,
                raw=raw if isinstance(raw, RawCourse) else source.raw,
                at=raw.start,
                borrowed=True,
                source=f"{name_of(source.label, source.kind)} of the piece that is named",
                first_of=at == 0,
                last_of=final,
            )
            if (final or alone) and printed is not None:
                again.declared, again.declared_at = printed[0], (printed[1], printed[2])
            made.append(again)
        named = match.end()
        if match["name"]:
            named = match.start("name") + references.name_ends(text[match.start("name") :])
        along = self._along(raw, waiting, raw.start + named, whole=False)
        for again in self.departed(raw.start + named, raw.end, made, isinstance(raw, RawCourse)):
            if not self.room(raw.start, raw.end):
                break
            self.append(along.told_with(again) if along.dyed else again)
        if isinstance(raw, RawText):
            self.sheet.followed.append((raw.start, raw.end))
        return True

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
        sources = [self.by_label[w].parsed for w in wanted if w in self.by_label]
        cycle = [s for s in sources if s is not None]
        if not cycle or len(cycle) < len(wanted):
            noun = "rows" if spot.kind == "row" else "rounds"
            self.unknown(numbers, spot, printed, "reference", f"{noun} {', '.join(str(w) for w in wanted)}")
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
        edge = references.at_an_end(rest) if len(cycle) == 1 and plain_body(cycle[0]) else None
        if edge is not None:
            made = self.sheet.parse(edge if self.sheet.terms == "US" else edge.replace("sc ", "dc "))
            source = name_of(wanted[0], spot.kind) + CHANGED
            self.put(numbers or [last + 1], spot, made, borrowed=True, printed=printed, sources=[source])
            return
        of_it = howlong.jobless(rest)
        change = references.change_of(of_it, self.sheet.terms)
        if change is None and references.changes(of_it):
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
            numbers = self.as_often(spot, numbers[0], rest, len(cycle))
        if not numbers:
            total = references.many(match) or self.how_many(rest, last, len(cycle), until is not None)
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
        again = _AGAIN.match(rest)
        times = references.small(again["n"]) if again else 1
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

    def unknown(self, numbers: list[int], spot: Spot, printed: Printed | None, failed: str, what: str) -> None:
        """A reference that cannot be followed: its words stay, to be read by the maker."""
        self.put(numbers or [self.last_label() + 1], spot, None, printed=printed, failed=failed, what=what)

    def changed(self, parsed: Parsed, change: references.Change, again: int) -> Parsed | None:
        tree = changed(parsed.tree, change, again)
        return None if tree is None else Parsed(parsed.phrases, tree, parsed.body)

    def rest_cues(self, rest: str, at: int) -> None:
        for match in re.finditer(r"(?:[.;]|,(?=\s*(?:and )?(?:chang|switch|swap)))\s*([A-Za-z][^.;]*)", rest):
            if classify(match[1]) is not None:
                self.waiting.append(RawText(at + match.start(1), at + match.end(1)))

    def work_behind(self, item: RawText) -> list[RawCourse]:
        """The courses told behind "as ear A, then ...", where the other part's rounds stand already.

        What holds stitches and reads as no course is passed over, which is said.
        """
        found: list[RawCourse] = []
        for start, end in _told_behind(self.page.text, item.start, item.end):
            if any(a < end and start < b for a, b in self.kept_words):
                continue
            words = self.page.text[start:end]
            label = at_line_start(self.page.text, start, end)
            if label is not None and not label.relative:
                label = None
            even = references.EVEN.match(words)
            parsed = self.sheet.parse(words) if label is None and even is None and _ALL_ROUND.search(words) else None
            if label is not None and label.stopped:
                found.append(RawCourse(label, label.end, end, label.kind))
            elif even is not None or (parsed is not None and works(parsed) and not parsed.phrases.unknown):
                found.append(RawCourse(None, start, end, None))
            elif holds_work(words) and all(kind is None for kind, _, _ in askings(words)):
                self.sheet.passed.append((start, end))
        return found

    def besides(self, item: RawText, behind: list[RawCourse]) -> list[RawText]:
        """What "work as the first fin, but do not stuff" asks besides the courses it names and those told behind."""
        text = self.page.text
        pointed = references.FROM_BEFORE.match(text, item.start, item.end)
        start = pointed.end() if pointed else item.start
        spans = [s for s in sentences(text, start, item.end) if not references.SAME_AGAIN.fullmatch(text, *s)]
        for course in behind:
            at = course.label.start if course.label is not None else course.start
            parts = [[(a, b)] if not a <= at < b else [(a, at), (course.end, b)] for a, b in spans]
            spans = [trim(text, *part) for part in chain.from_iterable(parts) if part[0] < part[1]]
        return [
            RawText(self._past_colour(a, b), b)
            for a, b in spans
            if not self._only_names(text[a:b])
            and any(kind != "other" for kind, _, _ in askings(text[a:b]))
            and not self.dyed(a, b)
        ]

    def _past_colour(self, start: int, end: int) -> int:
        """Where "..., but in cream, and do not fasten off" asks for more than the color, which goes ahead."""
        asked = askings(self.page.text[start:end])
        behind = [first for kind, first, _ in asked if kind != "colour"]
        return start + behind[0] if asked[0][0] == "colour" and behind else start

    def _only_names(self, words: str) -> bool:
        """ "Work as ear A, then": nothing but a part that is there, whose letter is no yarn."""
        match = references.LIKE_PIECE.match(words)
        if match is None:
            return False
        if slug(_LEADS_ON.sub("", match["name"])) in self.sheet.done:
            return True
        named = references.name_ends(match["name"])
        letter = match["name"][:named].split()[-1:]  # "Work as A until round 4 is done"
        rest = words[match.start("name") + named :]
        of_part = bool(letter) and len(letter[0]) == 1 and self.piece_named(match["name"]) is not None
        return of_part and all(kind == "other" for kind, _, _ in askings(rest))
