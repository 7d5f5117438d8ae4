"""How often: "x 6", "twice more", "rep from * to last 2 sts"."""

from __future__ import annotations

from dataclasses import replace

from hookside.notation.bodies.chunks import Times
from hookside.notation.bodies.places import Places
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS, DOES_THAT, SKIP_AFTER_TIMES
from hookside.notation.vocabulary import (
    COURSE_WORDS,
    NOUNS,
    TIMES_WORDS,
)

_LEADS_TO_TIMES = frozenset(
    ["-", ":", "a", "all", "another", "do", "for", "of", "rep", "repeat", "repeated", "so", "the", "this", "total"]
).union(["work", "worked"])
DOES = frozenset(
    ["do", "work", "make", "doing", "working", "and", "so", "you", "we", "which", "this", "that", "it", "all"]
)
_REPEATED = ("rep", "repeat", "repeats", "repeated", "repetitions")
_FEW_AHEAD = 8  # tokens between "repeat" and how often
_TIMES_BEGIN = _LEADS_TO_TIMES.union(["in", "x", "*", "times"], TIMES_WORDS)


class Repeats(Places):
    """Multipliers and repeats."""

    def times(self, at: int) -> tuple[Times, int] | None:
        here = at
        if not 0 <= at < self.count or (self.toks[at].kind != "number" and self.toks[at].text not in _TIMES_BEGIN):
            return None
        another = False
        while self.word(here) in _LEADS_TO_TIMES and here < at + 4 and self._times_ahead(here + 1):
            another |= self.word(here) == "another"
            here += 1
        if self.word(here) == "in" and self.word(here + 1) in ("total", "all") and self.kind(here + 2) == "number":
            here += 2
        word = self.word(here)
        if (
            (word in ("x", "*") or (word == "times" and not self._stitch_at(here + 2)))
            and (self.kind(here) != "stitch" or self.last_type() in ("CLOSE", "STARC"))
            and self.kind(here + 1) == "number"
        ):
            number = (self.toks[here + 1].start, self.toks[here + 1].end)
            past = here + 2
            if self.word(past) in ("times", "time") or (
                self.word(past) in ("sts", "stitches") and self.word(past + 1) in CLAUSE_ENDS  # "sc x 24 sts"
            ):
                past += 1
            return Times(self.toks[here + 1].value, number=number), past
        if word in TIMES_WORDS:
            past = here + 1
            more = self.word(past) == "more"
            if more:
                past += 1
            return Times(TIMES_WORDS[word], more=more), past + self._over(past)
        if self.kind(here) == "number":
            number = (self.toks[here].start, self.toks[here].end)
            n = self.toks[here].value
            past = here + 1
            more = another
            if self.word(past) in ("more", "additional", "further"):
                more = True
                past += 1
            if self.word(past) in ("reps", "repeats", "repetitions", "rep") and (
                self.word(past + 1) == "of" or self.word(past + 1) in CLAUSE_ENDS
            ):
                return Times(n, more=more, number=number), past + 1 + (self.word(past + 1) == "of")
            if self.word(past) in ("times", "time") or (
                self.word(past) == "x"
                and self.kind(past) != "stitch"
                and not self._stitch_at(past + 1)
                and self.kind(past + 1) != "number"
            ):
                past += 1
                if self.word(past) == "more":
                    more = True
                    past += 1
                while self.word(past) in SKIP_AFTER_TIMES and not (
                    self.word(past) == "in" and self.word(past + 1) not in SKIP_AFTER_TIMES
                ):
                    past += 1
                return Times(n, more=more, number=number), past + self._over(past)
        return None

    def _over(self, at: int) -> bool:
        """ "six times over", "twice round": a word that closes the multiplier, and leads to no place."""
        return self.word(at) in ("over", "round") and self.word(at + 1) in CLAUSE_ENDS

    def _times_ahead(self, at: int) -> bool:
        return any(
            self.word(here) in ("x", "times", "time") or self.word(here) in TIMES_WORDS or self.kind(here) == "number"
            for here in range(at, min(at + 4, self.count))
        )

    def repeat_phrase(self, at: int) -> tuple[str, Times, int] | None:
        """ "rep from * to last 2 sts", "repeat around", "repeat 6 times" -> (from what, how often, past it)."""
        here = at
        verb = self.word(here) in ("rep", "repeat", "repeating", "reps", "repeats", "rpt", "*", "work")
        if not verb and not (self.word(here) == "from" and self.word(here + 1) == "*"):
            return None
        source = "star" if self.word(here) == "*" else ""
        here += 1
        if self.word(here) == "." or (self.word(here) == "," and self.word(here + 1) in ("until", "till")):
            here += 1
            if verb and self.word(here + 1) in NOUNS and self.kind(here) == "number" and here + 2 >= self.count - 1:
                return source, Times(fill=True), here  # "1 sc, inc, rep. 18 sts."
        while True:
            word = self.word(here)
            if (
                word in ("to", "until", "till", "all", "around", "across", "the")
                and self.word(here + 1) != "*"
                and self.fill_tail(here)
            ):
                break
            if word == "*" or word in ("asterisk", "asterisks", "star", "stars"):
                source = "star"
                here += 1
            elif word in ("(", "[", "{") and self.word(here + 1) in (")", "]", "}"):
                source = "bracket"
                here += 2
            elif source == "star" and self.word(here - 1) == "*" and word in ("-", "s", "'s", "to", "'"):
                here += 1
            elif word in (
                "from",
                "between",
                "the",
                "to",
                "sequence",
                "instructions",
                "brackets",
                "bracket",
                "parentheses",
                "this",
                "pattern",
                "that",
                "these",
                "all",
                "it",
                "steps",
                "sts",
                "in",
                "last",
                "and",
                "section",
                "directions",
                "above",
                "beginning",
                "beg",
                "start",
                "of",
                "first",
                *COURSE_WORDS,
            ) and self._repeat_goes_on(here + 1):
                if word in ("brackets", "parentheses"):
                    source = "bracket"
                here += 1
            else:
                break
        along = self.place(here) if self.word(here) in ("across", "over", "along") else None
        if along and along[0].kind == "next" and along[0].n > 1:
            return source, Times(uses=along[0].n), along[1]
        fill = self.fill_tail(here)
        if fill and not (self.word(here) == "to" and self.word(here + 1) == "*"):
            return source, Times(fill=True, last=fill[1]), fill[0]
        if self.word(here) == "end":
            return source, Times(fill=True), here + 1
        counted = self.times(here)
        if counted:
            return source, counted[0], counted[1]
        if self.word(here) == "in" or self.word(here) == "over":
            inner = self.place(here)
            if inner and inner[0].kind in ("next", "fill"):
                if inner[0].kind == "fill":
                    return source, Times(fill=True, last=inner[0].last), inner[1]
                return source, Times(uses=inner[0].n), inner[1]
        if self.kind(here) == "number" and not self._stitch_at(here + 1):
            number = (self.toks[here].start, self.toks[here].end)
            return source, Times(self.toks[here].value, number=number), here + 1
        return source, Times(fill=True), here

    def _repeat_goes_on(self, at: int) -> bool:
        word = self.word(at)
        if word in ("end", "last") or self.kind(at - 1) == "number":
            return self.word(at - 1) != "to"
        return word not in (",", ".", ";", "") or self.word(at - 1) in (
            "brackets",
            "parentheses",
            "pattern",
            "sequence",
            "this",
            "steps",
            "it",
            "instructions",
        )

    def repeat(self, at: int) -> int:
        tok = self.toks[at]
        phrase = self.repeat_phrase(at)
        assert phrase is not None
        source, often, past = phrase
        often.again = not (often.more or often.fill or often.uses)
        self.again(source, often, tok.start, self.toks[past - 1].end)
        return past

    def repeats_what_follows(self, at: int) -> bool:
        """ "1 sc, inc, repeat 2 sc, inc five times, 1 sc": stitches with how often behind them follow the word."""
        if self.kind(at + 1) != "number" or not self._stitch_at(at + 2) or self.open_star:
            return False
        ahead = range(at + 3, min(at + 3 + _FEW_AHEAD, self.count))
        return any(self.times(here) is not None for here in ahead)

    def does_again(self, at: int) -> int | None:
        """ "... then dec. Do this six times.", ", and you do that twice": all that stands before it, so often."""
        if not self.out.chunks or self.depth:
            return None
        lead = DOES_THAT.match(self.low, self.toks[at].start)
        if lead is None:
            return None
        past = self.token_after(lead.end(), at)
        if lead["repeats"]:
            return self.repeat(past) if self.word(past) in _REPEATED and self.repeat_phrase(past) else None
        often = self.times(past)
        if often is None or not (self.word(often[1]) in CLAUSE_ENDS or self._counted_next(often[1])):
            return None
        self.again("", replace(often[0], exact=not often[0].more), self.toks[at].start, self.toks[often[1] - 1].end)
        return often[1]

    def _counted_next(self, at: int) -> bool:
        """ "... do this six times: 18", "... six times 18st": does the course end here, but for its count?"""
        at += self.word(at) in (":", ">", "/", "~")
        past = at + 1 + (self.word(at + 1) in NOUNS)
        return self.kind(at) == "number" and past == self.count

    def repeated(self, at: int) -> int | None:
        """ "2 sc, inc - 6x repeat", "6 times repeated": the multiplier first, of all that stands before it."""
        past = at + 2
        if self.word(at + 1) not in ("x", "*", "times") or self.word(past) not in _REPEATED or not self.out.chunks:
            return None
        past += 1
        if self.word(past) == "." and self.word(past - 1) == "rep":
            past += 1
        if self.word(past) not in CLAUSE_ENDS:
            return None
        tok = self.toks[at]
        self.again("", Times(tok.value, number=(tok.start, tok.end)), tok.start, self.toks[past - 1].end)
        return past

    def again(self, source: str, often: Times, start: int, end: int) -> None:
        """A repeat of the bracket that has just closed, from the star, or of all so far."""
        last = [c.type for c in self.out.chunks[-2:]]
        if last and last[-1] == "SEP":
            last.pop()
            tail = last[-1] if last else ""
        else:
            tail = last[-1] if last else ""
        if tail in ("CLOSE", "STARC") and not (source == "star" and self.open_star):
            if self.last_type() == "SEP":
                self.out.chunks.pop()
            self.emit("TIMES", often, start, end)
        elif source == "star" or self.open_star:
            self.emit("REPFROM", often, start, end)
            self.open_star = False
        else:
            self.emit("REPALL", often, start, end)
        self.number_first = None
