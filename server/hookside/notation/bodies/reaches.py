"""How far something goes: "around", "across", "to last 2 sts", "until 2 sts remain"."""

from __future__ import annotations

from hookside.notation.bodies.nouns import Nouns
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS, CLOSED, MEASURED, SHORT_OF
from hookside.notation.vocabulary import ARTICLES, COURSE_WORDS, NEXT, number_of

EXCEPT = frozenset(["except", "but", "save", "bar"])  # what they name is left as it is
_KEEPS = EXCEPT.union(["to", "until", "till", "til", "up", "leaving", "within"])
_TO_LAST = frozenset(
    ["to", "within", "the", "for", "you", "have", "reach", "there", "are", "only", "in", "into"]
)

_RIGHT = frozenset(["all", "evenly", "right", "straight", "even", "clear", "clean"])  # "clear across"


class Reaches(Nouns):
    """The end of what is worked, and what is kept back before it."""

    def fill_tail(self, at: int) -> tuple[int, int] | None:
        """ "around", "across", "to end", "to last 2 sts", "until 2 sts remain" -> (past it, stitches kept back)."""
        here = at
        if self.word(here) in (",",) and self.word(here + 1) in ("around", "across"):
            here += 1
        while self.word(here) in _RIGHT and self.word(here + 1) in ("around", "round", "across", "along", "the"):
            here += 1
        if self.word(here) in ("on", "along") and self.word(here + 1) in ("to", "till", "until", "through"):
            here += 1  # "on to the end"
        if self.word(here) == "the":
            way = here + 2 if self.word(here + 1) in ("whole", "entire") else here + 1
            if self.word(way) == "way":
                here = way + 1
                if self.word(here) in ("over", "along", "about") and self.word(here + 1) in CLAUSE_ENDS:
                    here += 1
                if self.word(here) in CLAUSE_ENDS:
                    return here, 0  # "(sc, inc) all the way, sc in the last"
        if (
            self.word(here) == "the"
            and self.word(here + 1) in ("whole", "entire", "full")
            and (self.word(here + 2) in COURSE_WORDS or self.word(here + 2) in ("circle", "circumference"))
        ):
            return here + 3, 0
        word = self.word(here)
        if word in ("across", "along", "over") and self._some(here + 1):
            return None  # "across next 18 sts"
        if word in ("around", "across", "round", "throughout"):
            here += 1
            while (
                self.word(here) in ("the", "entire", "whole", "this", "all")
                or self.word(here) in COURSE_WORDS
                or self.word(here) in ("circle", "piece", "edge")
            ):
                here += 1
            if self.word(here) == "and" and self.word(here + 1) == word:
                here += 2  # "round and round"
            if self.word(here) in ("sts", "stitches"):
                here += 1
            tail = self._keep_back(here)
            return tail if tail else (here, 0)
        tail = self._keep_back(here)
        if tail:
            return tail
        if word in ("until", "till", "til", "to", "up"):
            short = SHORT_OF.match(self.low, self.toks[here].start)
            if short:
                return self.token_after(short.end(), here), number_of(short["n"])
        if word in ("until", "till", "til"):
            if MEASURED.match(self.low, self.toks[here].start):
                return None
            match = CLOSED.match(self.low, self.toks[here].start)
            if match:
                return self.token_after(match.end(), here), 0
        if word in ("to", "til", "till", "until", "till", "through"):
            here += 1
            if self.word(here) in ("the", "you"):
                here += 1
            if self.word(here) == "reach":
                here += 2
            if self.word(here) in ("marker", "markers", "m", "sm", "pm"):
                return here + 1, 0  # the marker stands where the round begins
            if self.word(here) in ("end", "ending"):
                here += 1
                here = self._noun_tail(here)
                return here, 0
        return None

    def _some(self, at: int) -> bool:
        """ "the next 18", "18 sts": a number of stitches, not all of them."""
        start = at
        while self.word(at) in ARTICLES or self.word(at) in NEXT or self.word(at) in ("first", "last"):
            at += 1
        named = self.is_noun(at + 1) or self.kind(at + 1) == "stitch"
        named = named or (at > start and self.word(at + 1) in CLAUSE_ENDS)
        return self.kind(at) == "number" and named

    def _of_many(self, at: int) -> bool:
        """Is it made of more stitches than anybody tells: a shell, a fan?"""
        told = self.toks[at].key if self.kind(at) == "stitch" else self.word(at)
        return told in ("shell", "v-st", "fan", "scallop", "group", "motif", "repeat", "ripple")

    def _keep_back(self, at: int) -> tuple[int, int] | None:
        here = at
        if self.word(here) not in _KEEPS:
            return None
        apart = self.word(here) in EXCEPT
        here += 1
        while self.word(here) in _TO_LAST:
            here += 1
        last = False
        if self.word(here) == "last" or self.word(here) == "final":
            last = True
            here += 1
        number = 1
        if self.kind(here) == "number":
            number = self.toks[here].value
            here += 1
        elif not last:
            return None
        if last and self.word(here - 1) in ("last", "final") and self._of_many(here):
            return here + 1, 0  # "to last shell": as far as what stands behind it needs
        if self.is_noun(here) or self.kind(here) == "stitch":
            here += 1
            if self.word(here) == "." and self.word(here + 1) in ("remain", "left"):
                here += 1
        elif self.word(here) in COURSE_WORDS:
            return None
        if self.word(here) in ("remain", "remaining", "left", "remains", "rem"):
            here += 1
        elif not last:
            return None
        if apart and self.word(here) not in CLAUSE_ENDS:
            return None  # "but in the last st inc"
        self.out.unworked |= apart
        self.out.all_but |= apart
        return here, number
