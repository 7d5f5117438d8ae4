"""A part that is like another one but for something: what is otherwise is done, or said in its own words."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import islice
from typing import Any

from hookside.notation.askings.kinds import classify
from hookside.notation.bodies.wording.tails import tail
from hookside.notation.courses.departing import Departing
from hookside.notation.courses.sheet import Sheet
from hookside.notation.courses.waiting import Parsed, Waiting, slug, trim, works
from hookside.notation.courses.waitlist import Spot, Waitlist
from hookside.notation.findings.table import finding
from hookside.notation.labels import changes, references
from hookside.notation.labels.departures import Departure, departures
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.layout import RawCourse, RawPiece, RawText
from hookside.notation.trees.changing import changed
from hookside.pattern import Piece

_CUT = re.compile(r"[.;,()\[\]\n]|\b(?:but|except(?:ing)?(?: that| for)?|and then|then)\b", re.I)
# What stands beside a name and asks for nothing: "as for ear 1 above, exactly the same way"
_FILLS = frozenset(
    [
        "a", "all", "alike", "also", "and", "above", "again", "as", "at", "before", "both", "but", "by",
        "described", "did", "directed", "do", "end", "even", "everything", "exactly", "except", "for", "from",
        "given", "here", "how", "in", "instructions", "is", "it", "just", "like", "made", "make", "of", "once",
        "other", "otherwise", "out", "part", "pattern", "piece", "please", "same", "side", "so", "that", "the",
        "then", "there", "these", "this", "too", "up", "was", "way", "well", "whole", "with", "work", "worked",
        "written", "you", "your",
    ]
)  # fmt: skip
# Words that tell of something else than the other part has
_SIZES = r"(?:bigg|small|larg|wid|narrow|long|short|tall|high|low|thick|thinn)er"
_DEPARTS = re.compile(
    r"\d|\b(?:numbers?|doubl\w+|halv\w+|(?:second|third|2nd|3rd|last|other) (?:one )?(?:in|with))\b|"
    rf"\b(?:instead|without|rather|minus|less|fewer|more|extra|additional|twice|half|double|until|till|only|omit\w*|"
    rf"skip\w*|leav\w+|chang\w+|replac\w+|mirror\w*|revers\w*|opposite|{_SIZES}|hook|loops?|blo|flo|rounds?|rnds?|rows?|"
    r"sts?|stitch\w*|sc|[hd]?dc|h?tr|inc\w*|dec\w*|ch|chains?)\b",
    re.I,
)
_WORKS = re.compile(
    rf"\d|\b(?:one|two|three|four|five|six|twice|half|double|rounds?|rnds?|rows?|sts?|stitch\w*|sc|[hd]?dc|h?tr|inc\w*|"
    rf"dec\w*|ch|chains?|{_SIZES}|loops?|blo|flo)\b",
    re.I,
)
_NUMBERS = re.compile(r"\b(?:with|using|in) \d{1,3} (?:instead|rather|in place|and not)\b", re.I)  # of no yarn
_EXCEPTS = re.compile(r"\b(?:but|except(?:ing)?|only|with|without|using)\W*(?:(?:that|for|you|it|is|are)\W+)*$", re.I)
_FROM_COURSE = re.compile(
    rf"\b(?P<where>after|behind|from|(?:at the )?end of|at|in|before) (?:the )?{COURSE}\.? ?(?P<n>\d{{1,3}})(?! ?-)",
    re.I,
)
_CUTS_OFF = re.compile(r"(?:fasten|cut|bind)\w* (?:off|(?:the )?yarn)", re.I)

Spans = list[tuple[int, int]]


class Likeness(Waitlist):
    """Takes over the courses of another part, with what the words behind its name change in them."""

    def __init__(self, sheet: Sheet, piece: Piece, raw: RawPiece) -> None:
        super().__init__(sheet, piece, raw)
        self.copied_from = (0, 0)  # where the words behind the name of the other part stand, and end
        self.copied_at = 0  # where its courses begin in the line of what waits
        self.kept_words: Spans = []

    def nothing_behind(self) -> None:
        """No name of another part has been met in the words at hand, so that nothing stands behind one."""
        self.copied_from, self.copied_at, self.kept_words = (0, 0), len(self.waiting), []

    def departed(self, start: int, end: int, courses: list[Waiting], labelled: bool) -> list[Waiting]:
        """These courses of another part, as the words at text[start:end] want them."""
        self.copied_from, self.copied_at, self.kept_words = (start, end), len(self.waiting), []
        told = departures(self.page.text[start:end])
        if not told or not any(not t.foundation for t in courses):
            return courses
        made = Departing(courses, self._plain, lambda one, todo: self._reads(one, todo, start)).kept(told)
        if labelled and len(made.courses) != len(courses):
            return courses
        self.kept_words = [(start + one.start, start + one.end) for one in made.kept]
        for one, were, are in made.guessed:
            words = self.page.quote(start + one.start, start + one.end).strip(" ,;")
            noun = "rows" if made.courses[-1].kind == "row" else "rounds"
            where: dict[str, Any] = {"piece": self.piece.name, "words": words, "noun": noun}
            where |= {"found": are, "other": were}
            self.sheet.findings.append(finding(self.page, "plain-ones", start + one.start, start + one.end, **where))
        return made.courses

    def otherwise(self, spans: list[RawText], behind: list[RawCourse]) -> None:
        """What the words behind the name ask besides, in jobs of their own or in words that I could not keep.

        `spans` are told already as something to do, `behind` as courses.
        """
        start, end = self.copied_from
        text = self.page.text
        # a sentence that names the other part may ask for something and tell of other rounds besides
        whole = [s for s in spans if s.start < start < s.end]
        heard = [*self.kept_words, *((s.start, s.end) for s in spans if s not in whole)]
        heard += [(c.label.start if c.label is not None else c.start, c.end) for c in behind]
        ahead: list[RawText] = []
        lost: Spans = []
        for a, b in clauses_in(text, start, end, heard):
            words = text[a:b]
            kind = classify(words) if _NUMBERS.search(words) is None else None
            covered = any(s.start <= a < s.end for s in whole)
            if covered and (kind not in (None, "other") or _WORKS.search(words) is None):
                continue
            if kind not in (None, "other"):
                if kind != "colour":
                    self.waiting.append(RawText(a, b))
                elif not self._dyed_at(a, b):
                    ahead.append(RawText(a, b))
            elif self._tells(a, b, kind is not None):
                if lost and not text[lost[-1][1] : a].strip(" ,"):
                    lost[-1] = (lost[-1][0], b)
                else:
                    lost.append((a, b))
        for a, b in lost:
            words = self.page.quote(a, b)
            severity: Any = "warning" if _WORKS.search(words) else "note"
            told = finding(self.page, "otherwise", a, b, piece=self.piece.name, words=words, severity=severity)
            self.sheet.findings.append(told)
            ahead.append(RawText(a, b, "other"))
        self.waiting[self.copied_at : self.copied_at] = ahead
        for a, b in self.kept_words:
            cut = _CUTS_OFF.search(text, a, b)
            if cut is not None:
                self.waiting.append(RawText(*cut.span()))

    def dyed(self, start: int, end: int) -> bool:
        """Is a colour all that a sentence asks for behind the name: "as ear 1, but in blue"? `otherwise` places it."""
        text = self.page.text
        clauses = clauses_in(text, max(start, self.copied_from[0]), end, [])
        kinds = {classify(text[a:b]) for a, b in clauses} - {None, "other"}
        return kinds == {"colour"}

    def _dyed_at(self, start: int, end: int) -> bool:
        """ "Change to blue after R4", "blue from R5 on": put behind that course of this part; False without one."""
        told = _FROM_COURSE.search(self.page.text, start, end)
        if told is None:
            return False
        last = int(told["n"]) - (told["where"].lower() in ("from", "at", "in", "before"))
        for at in range(self.copied_at, len(self.waiting)):
            todo = self.waiting[at]
            if isinstance(todo, Waiting) and todo.label == last and not todo.foundation:
                self.waiting.insert(at + 1, RawText(start, end))
                return True
        return False

    def _tells(self, start: int, end: int, asks: bool) -> bool:
        """Do these words tell of something that is not as it is there?"""
        words = self.page.text[start:end]
        if (count := tail(words)) is not None and count.at == 0:
            return False
        if all(w in _FILLS for w in re.findall(r"[a-z']+|\d+", words.lower())):
            return False
        if re.fullmatch(r"\W*(?:\d+|[a-z]+) ?(?:sts?|stitches|sc|dc|d\.\s?c|s\.\s?c)?\W*", words, re.I) and not asks:
            return _DEPARTS.search(re.sub(r"\d+ ?(?:sts?|stitches|sc|dc)?|sts?|sc|dc", "", words)) is not None
        if any(set(slug(words).split("-")) <= set(name.split("-")) for name in islice(reversed(self.sheet.done), 50)):
            return False  # "as boots with heels": its name
        return asks or _DEPARTS.search(words) is not None or self._led(start)

    def not_told(self, start: int, end: int) -> None:
        """Says that words like "as ear 1, to the ankle" do not tell how many of its courses are meant."""
        words = self.page.quote(start, end).strip(" ,;")
        self.sheet.findings.append(finding(self.page, "how-far", start, end, piece=self.piece.name, words=words))

    def _led(self, start: int) -> bool:
        return _EXCEPTS.search(self.page.text[max(self.copied_from[0], start - 24) : start]) is not None

    def _plain(self) -> Parsed:
        return self.sheet.parse("sc in each st around" if self.sheet.terms == "US" else "dc in each st around")

    def _reads(self, one: Departure, todo: Waiting, at: int) -> Waiting | None:
        """ "but R7 is (sc, dec) x 4": that course with this body; None where it is none."""
        start, end = trim(self.page.text, at + one.body[0], at + one.body[1])
        words = self.page.text[start:end].rstrip(" .,;")
        end = start + len(words)
        loops = changes.change_of(f"but {words}", self.sheet.terms)
        if loops is not None and loops.loops and todo.parsed is not None:
            tree = changed(todo.parsed.tree, loops, 1)
            return replace(todo, parsed=Parsed(todo.parsed.phrases, tree, todo.parsed.body)) if tree else None
        even = references.EVEN.fullmatch(words)
        parsed = self._plain() if even is not None and not even["n"] else self.sheet.parse(words)
        if not works(parsed) or parsed.phrases.unknown or parsed.tree.failed:
            return None
        raw = RawCourse(None, start, end, todo.kind)
        count = self.printed_in(Spot(raw, todo.kind, start, end, start), None if even is not None else parsed)
        return replace(
            todo, start=start, end=end, at=start, raw=raw, parsed=parsed, borrowed=even is not None, source="",
            declared=count[0] if count else None, declared_at=(count[1], count[2]) if count else None,
            text=self.page.quote(start, end), first_of=True, last_of=True,
        )  # fmt: skip


def clauses_in(text: str, start: int, end: int, heard: Spans) -> Spans:
    """The clauses of text[start:end] of which nothing is heard yet."""
    free: Spans = []
    at = start
    for a, b in [*sorted(heard), (end, end)]:
        if at < a:
            free.append((at, min(a, end)))
        at = max(at, b)
    found: Spans = []
    for a, b in free:
        cuts = [m.span() for m in _CUT.finditer(text, a, b)]
        for first, last in zip([a, *(c[1] for c in cuts)], [*(c[0] for c in cuts), b], strict=True):
            words = text[first:last]
            if re.search(r"[^\W_]", words):
                led = len(words) - len(words.lstrip(" -,:=|*"))
                found.append((first + led, first + len(words.rstrip())))
    return found
