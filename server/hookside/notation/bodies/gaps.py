"""Stitches left out in the middle of a course: "5 sc, leave 2, 5 sc" passes over two before the work goes on."""

from __future__ import annotations

import re

from hookside.notation.bodies.tails import Tails
from hookside.notation.vocabulary import COUNT_WORDS, number_of

_STS = r"(?:sts?|stitch(?:es)?|sc|dc|hdc|h?tr|loops?|of them)"
_GAP = re.compile(
    r"(?:(?:and|but|then|now) )*(?:"
    r"(?:leav(?:e|ing)|ignor(?:e|ing)|(?:pass(?:ing)?|jump(?:ing)?|go(?:ing)?|step(?:ping)?) over|omit(?:ting)?|"
    r"(?:do not|don't|not|without) work(?:ing)?(?: in| into)?|let)"
    r"(?: out)?(?: a (?:gap|space|hole|slit|opening) (?:of|over|across))?"
    rf" (?:the |these |a gap of )?(?:(?:next|following) )?(?P<n>\d{{1,3}}|{COUNT_WORDS}|an?|(?={_STS}\b))"
    rf" ?(?:more )?(?:{_STS}\b)?"
    r"(?: \(?(?:as is|as they are|un-?worked|unused|free|empty|open|alone|out|be|undone|un-?crocheted)\)?)*"
    r"(?: for (?:the |an? |your )?[a-z]{2,12}(?: [a-z]{2,12})?)?"
    rf"|(?:the )?(?:next|following) (?P<n2>\d{{1,3}}|{COUNT_WORDS}|(?={_STS}\b)) ?(?:{_STS} )?"
    r"(?:(?:are|is|left|stays?|remains?|being) )*(?:un-?worked|unused|free|empty)"
    r")(?=\s*(?:[,.;)\]}*/]|- |and\b|then\b|before\b))"
)
_BEGINS = frozenset(
    ["leave", "leaving", "ignore", "ignoring", "pass", "passing", "jump", "jumping", "go", "going", "step", "stepping",
     "omit", "omitting", "do", "don't", "not", "without", "let", "and", "but", "then", "now", "the", "next",
     "following"]
)
_NOT_ON = frozenset(["turn", "join", "sl st", "skip", "ring"])
_BEFORE_STITCHES = frozenset(["and", "then", "now", "before", "work", "working", "make", "making", "next", "another"])
_TIMES = frozenset(["x", "times", "around", "all", "twice", "repeat", "rep"])


class Gaps(Tails):
    """Takes a gap as stitches that are skipped, so that the hands are told of it where it is."""

    def gap(self, at: int) -> int | None:
        """ "leave the next 2 unworked", where stitches go on behind it or the whole is repeated."""
        match = _GAP.match(self.low, self.toks[at].start) if self.toks[at].text in _BEGINS else None
        if match is None:
            return None
        past = self.token_after(match.end(), at)
        if not self.goes_on(past):
            return None
        self.skipped(match)
        return past

    def gap_told(self, at: int, closing: int) -> int | None:
        """The same within brackets: "5 sc (leave 2 unworked), 5 sc"."""
        match = _GAP.match(self.low, self.toks[at + 1].start) if self.toks[at + 1].text in _BEGINS else None
        if match is None or match.end() < self.toks[closing - 1].end or not self.goes_on(closing + 1):
            return None
        if self.last_type() != "SEP":
            self.emit("SEP", ",", match.start(), match.start())
        self.skipped(match)
        return closing + 1

    def skipped(self, match: re.Match[str]) -> None:
        """Tells of the stitches that are passed over."""
        group = "n" if match["n"] is not None else "n2"
        told = match[group] if match[group] not in ("", "a", "an") else ""
        number = match.span(group) if told else None
        self.emit("SKIP", (number_of(told) if told else 1, number, False), *match.span())

    def goes_on(self, at: int) -> bool:
        """Are stitches worked behind this in the same course, before it is turned or ended?"""
        here = at
        while self.word(here) in (",", ".", ";", "/", "-") or self.word(here) in _BEFORE_STITCHES:
            here += 1
        if self.word(here) in ("rep", "repeat", "*") and any(c.type == "STARO" for c in self.out.chunks):
            return True
        if self.depth and self.word(here) in (")", "]", "}"):
            return self.kind(here + 1) == "number" or self.word(here + 1) in _TIMES
        if self.kind(here) == "number":
            here += 1 + (self.word(here + 1) in ("x", "more"))
        return self._stitch_at(here) and self.toks[here].key not in _NOT_ON
