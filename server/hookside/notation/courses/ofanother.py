"""Courses of another piece, taken over by its name: "as the first fin", "Rnds 4-6: as rnds 1-3 of the base"."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import chain, islice
from typing import Any

from hookside.notation.askings.askings import askings
from hookside.notation.askings.kinds import classify
from hookside.notation.courses.likeness import Likeness, clauses_in
from hookside.notation.courses.oneyarn import in_one_yarn
from hookside.notation.courses.takenalong import TakenAlong
from hookside.notation.courses.waiting import Parsed, Waiting, name_of, slug, trim, works
from hookside.notation.courses.waitlist import Printed, Spot
from hookside.notation.findings.omitted import holds_work
from hookside.notation.findings.table import finding
from hookside.notation.labels import departures, references
from hookside.notation.labels.label import at_line_start, numbers_of
from hookside.notation.lines.heads.headings import PARTS
from hookside.notation.lines.layout import RawCourse, RawText, sentences

_THE_ONE_BEFORE = ("first", "1st", "other", "previous", "one-before")
_ITS_LIKE = frozenset(["left", "right", "upper", "lower", "top", "bottom", "front", "back"])  # "as the right one"
# "Start as the knob.", "Same beginning as the knob": as far as the round that is told below
_BEGINS_AS = re.compile(r"\W*(?:it |they |exactly |just |the |same )*(?:start|begin(?:ning)?)s?\b", re.I)
_MOST_PIECES = 200  # the last ones, among which a name is looked for that is not printed alike
_LAST_COURSE = re.compile(
    rf"(?:{references.EARLIER_ONES})\.? (?:(?:\d{{1,2}}|{references.SMALL}) )?"
    r"(?:rounds?|rnds?|rows?|rds?)\b",
    re.I,
)
_OTHERWISE = re.compile(r"\b(?:but|except\w*|without|skip\w*|omit\w*)\b", re.I)  # "like A but R2: inc x 3"
_UP_TO = re.compile(r"\b(?:until|till|up to|to|through|thru)\b", re.I)
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
    return in_one_yarn(Parsed(replace(parsed.phrases, cues=kept), parsed.tree, parsed.body))


class OfAnother(Likeness):
    """Bodies taken over from the courses of a piece that was read before."""

    def piece_named(self, words: str) -> list[Waiting | RawText] | None:
        """The courses of an earlier piece that a text points to by name: "as first fin", "same as leg 1"."""
        name = words[: references.name_ends(words)].strip()
        if not any(c.isalnum() for c in name):
            return None  # "as row 2": a course, and no piece
        wanted = slug(name)
        wanted = re.sub(r"^(?:the|for|for-the|in|in-the|a)-", "", wanted)
        if wanted not in ("one-before", "last-one"):
            wanted = wanted.removesuffix("-one")  # "the left one" of "Left ear"
        plain = re.sub(r"^(?:first|1st|second|2nd|third|3rd|other|previous|last)-", "", wanted)
        if wanted in self.sheet.done:
            return self.sheet.done[wanted]
        if wanted in _THE_ONE_BEFORE and self.sheet.done:
            return self._its_like()
        done = list(islice(reversed(self.sheet.done.items()), _MOST_PIECES))
        for name, waiting in done:
            if wanted and (name == wanted or name.rstrip("s") == wanted.rstrip("s")):
                return waiting
        for name, waiting in done:
            if wanted and (
                wanted in ("previous", "other", "last-one") or set(wanted.split("-")) <= set(name.split("-"))
            ):
                return waiting
        told = next((w for name, w in done if wanted and name.rstrip("s") == plain.rstrip("s")), None)
        return self._its_like() if told is None and done and wanted in _ITS_LIKE else told

    def _its_like(self) -> list[Waiting | RawText] | None:
        """The courses of the piece before, where its name has a word of this one's."""
        before = next(reversed(self.sheet.done))
        kin = set(slug(self.piece.name).split("-")) & set(before.split("-")) - {"the"}
        return self.sheet.done[before] if kin else None

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
        named = match.end()
        if match["name"]:
            named = match.start("name") + references.name_ends(text[match.start("name") :])
        along = self._along(raw, waiting, raw.start + named, whole=False)
        if wanted[0] == 1 and not any(isinstance(t, Waiting) for t in self.waiting):
            theirs_first = [t for t in waiting if isinstance(t, Waiting) and t.foundation]  # the chain it begins with
            for todo in theirs_first:
                again = replace(todo, at=raw.start, borrowed=True)
                if along.dyed and again.parsed is not None:
                    again.parsed = _without_colour(again.parsed)
                self.waiting.append(again)
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
        for again in self.departed(raw.start + named, raw.end, made, isinstance(raw, RawCourse)):
            if not self.room(raw.start, raw.end):
                break
            self.append(along.told_with(again) if along.dyed else again)
        if isinstance(raw, RawText):
            self.sheet.followed.append((raw.start, raw.end))
        return True

    def unknown(self, numbers: list[int], spot: Spot, printed: Printed | None, failed: str, what: str) -> None:
        """A reference that cannot be followed: its words stay, to be read by the maker."""
        self.put(numbers or [self.last_label() + 1], spot, None, printed=printed, failed=failed, what=what)

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
