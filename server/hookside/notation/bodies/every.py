"""Places that are many: "in each st", "in every other st", "in all 12 sts"."""

from __future__ import annotations

from hookside.notation.bodies.chunks import Place
from hookside.notation.bodies.known import Known
from hookside.notation.bodies.wording.places import SPACE
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS
from hookside.notation.vocabulary import ARTICLES, EACH


class Every(Known):
    """What stands behind "each", "every", "all"."""

    def _every(self, at: int, start: int, prep: bool) -> tuple[Place, int] | int | None:
        """The place where it is told at once, else the token where its noun begins; None: no place."""
        tok = self.toks[at]
        here = at + 1
        left = here + 1 + (self.word(here + 1) == "the")
        if self.word(here) == "of" and self.word(left) in ("rest", "remainder"):  # "in each of the rest"
            return self._done(Place("fill", each=True, noun="sts"), start, left + 1)
        if self.word(here) in ("other", "alternate") or (self.kind(here) == "ordinal" and self.toks[here].value > 1):
            every = self.toks[here].value if self.kind(here) == "ordinal" else 2
            noun = self.noun_phrase(here + 1)
            if noun == here + 1 and not (self.word(noun) in CLAUSE_ENDS and self.after_stitch()):
                return None
            fill = self.fill_tail(noun)
            of = self.low[self.toks[here].end : self.toks[noun - 1].end].strip() if noun > here + 1 else ""
            of = of if SPACE.search(of) else ""  # into the spaces between nobody works anything
            return self._done(Place("nth", n=every, noun=of), start, fill[0] if fill else noun)
        if self.word(here) in ("and", "&") and self.word(here + 1) in EACH:
            here += 2  # "in each and every st"
        those = self.word(here) == "of"  # "each of 2 sts": those, and not every second one
        while self.word(here) in ARTICLES or (
            self.word(here) in ("-", "single") and (self.word(here) == "single" or self.kind(here + 1) != "number")
        ):
            here += 1
        if self.word(here) in ("those", "these") and self.kind(here + 1) == "number":
            here += 1  # "in each of those 12 sts"
        if tok.text != "all" and self.kind(here) == "number" and self.toks[here].value in (2, 3) and not those:
            noun = self.noun_phrase(here + 1)
            if noun > here + 1 or (self.word(noun) in CLAUSE_ENDS and self.after_stitch()):  # "dec every 2 (6)"
                tog = self.word(noun) in ("together", "tog")
                past = noun + tog
                fill = self.fill_tail(past)
                return self._done(
                    Place("every", n=self.toks[here].value, each=True, together=tog),
                    start,
                    fill[0] if fill else past,
                )
        if tok.text == "all" and self.kind(here) == "number" and not prep and here + 1 == self.count:
            return self._done(Place("fill", each=True), start, here)  # "inc all 12": what it comes to
        if tok.text == "all" and self.kind(here) == "number" and not self._stitch_at(here + 1):
            noun = self.noun_phrase(here + 1)
            if noun > here + 1:
                told = self.toks[here]
                fill = self.fill_tail(noun)
                return self._done(
                    Place("next", n=told.value, each=True, number=(told.start, told.end)),
                    start,
                    fill[0] if fill else noun,
                )
        if self.word(here) in ("front", "back") and self.word(here + 1) in ("loop", "loops", "lp", "lps"):
            past = self._noun_tail(here + 2)  # "2 hdc in each front loop"
            fill = self.fill_tail(past)
            place = Place("fill", each=True, last=fill[1] if fill else 0, noun="st", loops=self.word(here))
            return self._done(place, start, fill[0] if fill else past)
        if self.word(here) in ("fl", "bl", "flo", "blo") and self.word(here + 1) in (*CLAUSE_ENDS, "of", "around", "="):
            past = self._noun_tail(here + 1)  # "1 sc in each FL"
            fill = self.fill_tail(past)
            side = "front" if self.word(here)[0] == "f" else "back"
            place = Place("fill", each=True, last=fill[1] if fill else 0, noun="st", loops=side)
            return self._done(place, start, fill[0] if fill else past)
        if tok.text in ("each", "every") and self.word(here) == "one" and self.word(here + 1) in CLAUSE_ENDS:
            return self._done(Place("fill", each=True, noun="st"), start, here + 1)
        return here
