"""Nouns with their tails: "3 sts of previous round", "ch-2 sp", "each sc of the first leg"."""

from __future__ import annotations

from hookside.notation.bodies.sight import Sight
from hookside.notation.bodies.wording.counts import OPENINGS
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS
from hookside.notation.vocabulary import COURSE_WORDS

WORKED_INTO = frozenset(
    ["sc", "hdc", "dc", "tr", "inc", "dec", "esc", "dtr", "bobble", "shell", "picot", "sc2tog", "inv dec", "FPdc",
     "BPdc", "cluster", "popcorn", "puff", "v-st", "fsc", "sl st"]
)  # fmt: skip
_GAPS = ("sp", "sps", "space", "spaces", "loop", "loops", "lp", "lps")


class Nouns(Sight):
    """What a place is made of."""

    def noun_phrase(self, at: int) -> int:
        """Past a noun ("st", "ch-2 sp", "sc") and its tail ("of previous round"); `at` where there is none."""
        here = at
        if (
            self.kind(here) == "stitch"
            and self.word(here) in ("ch", "chain")
            and (self.word(here + 1) in _GAPS[:4] or self._linked(here + 1) or self._sized(here + 1))
            and not self.apart(here + 1)  # "in every ch - 45"
        ):
            step = here + 1
            if self.word(step) == "-":
                step += 1
            if self.kind(step) == "number":
                step += 1
            if self.word(step) == "-":
                step += 1
            if self.word(step) in _GAPS:
                here = step + 1
        elif self.is_noun(here):
            here += 1
            if self.word(here - 1) == "corner" and (self.is_noun(here) or self._stitch_at(here)):
                here += 1  # "in corner st", "in next corner sc"
            if self.word(here) in ("sp", "sps", "space", "spaces"):
                here += 1
            elif (
                self.word(here) == "."
                and self.toks[here].start == self.toks[here - 1].end
                and self._lower_follows(here)
            ):
                here += 1  # "in next 3 sts. around"
        elif self.kind(here) == "stitch" and self.toks[here].key in WORKED_INTO:
            in_colour = self.word(here + 1) in ("in", "with") and self.colour_name(here + 2) is not None
            here += in_colour or not self._starts_place(here + 1)  # "in each of the next 10 sc in white"
        if here > at:
            here = self._noun_tail(here)
        return here

    def _linked(self, at: int) -> bool:
        """ "ch-2 sp", "ch - 2 sp": a dash that belongs to the chain; in "next 3 ch - now 4 sc" it does not."""
        if self.word(at) != "-":
            return False
        glued = self.toks[at - 1].end == self.toks[at].start
        return glued or self.kind(at + 1) == "number" or self.word(at + 1) in _GAPS

    def _sized(self, at: int) -> bool:
        """ "ch 3 sp", "ch3-sp": how long the chain over a space is."""
        behind = at + 1 + (self.word(at + 1) == "-")
        return self.kind(at) == "number" and self.word(behind) in _GAPS and self.word(behind + 1) not in ("st", "sts")

    def _lower_follows(self, at: int) -> bool:
        return self.word(at + 1) in ("around", "across", "to", "of", "from", "and", "until", "x") or self.word(
            at + 1
        ) in (",", ";", ")")

    def _starts_place(self, at: int) -> bool:
        word = self.word(at)
        if self.kind(at) == "number" and self.word(at + 1) in COURSE_WORDS and self.word(at + 2) in ("below", "down"):
            return False  # "around next sc two rows below"
        return word in ("in", "into", "next", "each") or (
            self.kind(at) == "number" and self.word(at + 1) not in ("times", "x", "time")
        )

    def _noun_tail(self, at: int) -> int:
        here = at
        while True:
            word = self.word(here)
            if word in ("of", "from", "on", "in", "along"):
                step = here + 1
                other = step + (self.word(step) == "the")
                if self.out.elsewhere and self.word(other) in ("other", "opposite") and self.word(other + 1) == "side":
                    here = other + 2
                    continue
                while (
                    self.word(step)
                    in (
                        "the",
                        "your",
                        "this",
                        "that",
                        "previous",
                        "prev",
                        "last",
                        "first",
                        "foundation",
                        "starting",
                        "next",
                        "prior",
                        "beginning",
                        "side",
                        "same",
                        "both",
                        "each",
                    )
                    or self.kind(step) == "ordinal"
                ):
                    step += 1
                if self.word(step) in COURSE_WORDS or (self.word(step) in ("chain", "ch") and step > here + 1):
                    step += 1
                    if self.kind(step) == "number":
                        step += 1
                    here = step
                    continue
                if self.word(step) in OPENINGS:
                    here = step + 1  # "in each of the 20 ch of both handles"
                    continue
                if self.word(step) in ("leg", "legs", "body", "head", "arm", "piece"):
                    self.out.elsewhere = True
                    here = step + 1
                    if self.kind(here) == "number" or (len(self.word(here)) == 1 and self.word(here).isalpha()):
                        here += 1
                    continue
                if (
                    word in ("from", "of")
                    and self.word(here + 1) in ("hook", "the")
                    and "hook" in (self.word(here + 1), self.word(here + 2))
                ):
                    here += 2 if self.word(here + 1) == "hook" else 3
                    continue
                return here
            if word in ("with", "as", "holding") and self.word(here + 1) in ("the", "your"):
                step = here + 2  # "in the ch with the first 3 sc"
                if self.word(step) == "first" or (self.kind(step) == "ordinal" and self.toks[step].value == 1):
                    step += 1
                    step += self.kind(step) == "number"
                    if self.kind(step) == "stitch":
                        here = step + 1
                        continue
            if word in ("below", "again") or word in ("made", "worked"):
                here += 1
                continue
            if word == "back" and self.word(here + 1) in CLAUSE_ENDS and self.word(here - 1) in ("ch", "chain", "chs"):
                return here + 1  # "sl st in every chain back"
            return here
