"""Nouns with their tails ("3 sts of previous round"), stretches ("to last 2 sts"), loops ("in back loops only")."""

from __future__ import annotations

from hookside.notation.bodies.sight import Sight
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS, CLOSED, MEASURED
from hookside.notation.vocabulary import ARTICLES, COURSE_WORDS, NEXT

_LOOP_NOUNS = frozenset(
    ["loop", "loops", "lp", "lps", "lo", "bump", "bumps", "strand", "strands", "wall", "walls", "member", "members"]
)
# ... and what other tongues put in front of it, or in its place before "only"
_LOOP_KINDS = frozenset(["half", "mesh", "hook", "hooks", "thread", "link", "links", "stitch", "st", "noose", "yarn"])


class Nouns(Sight):
    """What a place is made of."""

    def noun_phrase(self, at: int) -> int:
        """Past a noun ("st", "ch-2 sp", "sc") and its tail ("of previous round"); `at` where there is none."""
        here = at
        if (
            self.kind(here) == "stitch"
            and self.word(here) in ("ch", "chain")
            and self.word(here + 1) in ("-", "sp", "space")
            and not self.apart(here + 1)  # "in every ch - 45"
        ):
            step = here + 1
            if self.word(step) == "-":
                step += 1
            if self.kind(step) == "number":
                step += 1
            if self.word(step) == "-":
                step += 1
            if self.word(step) in ("sp", "sps", "space", "spaces", "loop", "loops", "lp", "lps"):
                here = step + 1
        elif self.is_noun(here):
            here += 1
            if self.word(here) in ("sp", "sps", "space", "spaces"):
                here += 1
            elif (
                self.word(here) == "."
                and self.toks[here].start == self.toks[here - 1].end
                and self._lower_follows(here)
            ):
                here += 1  # "in next 3 sts. around"
        elif (
            self.kind(here) == "stitch"
            and self.toks[here].key in self._noun_stitches()
            and not self._starts_place(here + 1)
        ):
            here += 1
        if here > at:
            here = self._noun_tail(here)
        return here

    def _lower_follows(self, at: int) -> bool:
        return self.word(at + 1) in ("around", "across", "to", "of", "from", "and", "until", "x") or self.word(
            at + 1
        ) in (",", ";", ")")

    def _noun_stitches(self) -> frozenset[str]:
        return frozenset(
            {
                "sc",
                "hdc",
                "dc",
                "tr",
                "inc",
                "dec",
                "esc",
                "dtr",
                "bobble",
                "shell",
                "picot",
                "sc2tog",
                "inv dec",
                "FPdc",
                "BPdc",
                "cluster",
                "popcorn",
                "puff",
                "v-st",
                "fsc",
                "sl st",
            }
        )

    def _starts_place(self, at: int) -> bool:
        word = self.word(at)
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

    def fill_tail(self, at: int) -> tuple[int, int] | None:
        """ "around", "across", "to end", "to last 2 sts", "until 2 sts remain" -> (past it, stitches kept back)."""
        here = at
        if self.word(here) in (",",) and self.word(here + 1) in ("around", "across"):
            here += 1
        while self.word(here) in ("all", "evenly", "right", "straight", "even") and self.word(here + 1) in (
            "around",
            "round",
            "across",
            "along",
            "the",
        ):
            here += 1
        if self.word(here) == "the":
            way = here + 2 if self.word(here + 1) in ("whole", "entire") else here + 1
            if self.word(way) == "way":
                here = way + 1
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
        while self.word(at) in ARTICLES or self.word(at) in NEXT or self.word(at) in ("first", "last"):
            at += 1
        return self.kind(at) == "number" and (self.is_noun(at + 1) or self.kind(at + 1) == "stitch")

    def _of_many(self, at: int) -> bool:
        """Is it made of more stitches than anybody tells: a shell, a fan?"""
        told = self.toks[at].key if self.kind(at) == "stitch" else self.word(at)
        return told in ("shell", "v-st", "fan", "scallop", "group", "motif", "repeat", "ripple")

    def _keep_back(self, at: int) -> tuple[int, int] | None:
        here = at
        if self.word(here) not in ("to", "until", "till", "til", "up", "except", "leaving", "within"):
            return None
        here += 1
        while self.word(here) in ("to", "within", "the", "for", "you", "have", "reach", "there", "are", "only"):
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
        return here, number

    def loop_noun(self, at: int) -> int:
        """Words that name the loop behind its "back": "loop", "half loop", "mesh member only"; 0 where none does."""
        here = at
        while here < at + 2 and self.word(here) in _LOOP_KINDS and self.word(here + 1) in _LOOP_NOUNS | _LOOP_KINDS:
            here += 1
        known = self.word(here) in _LOOP_NOUNS or (self.word(here) in _LOOP_KINDS and self.word(here + 1) == "only")
        return here - at + 1 if known else 0

    def loop_behind(self, at: int) -> tuple[int, str] | None:
        """ "(the loop) behind", "of the front", "at the back" -> (its last word, which side)."""
        here = at
        while here < at + 2 and self.word(here) in ("of", "at", "in", "from", "on", "the"):
            here += 1
        side = {"behind": "back", "back": "back", "rear": "back", "front": "front"}.get(self.word(here))
        if side is None or (here == at and self.word(here) != "behind"):
            return None
        return here, side

    def _is_third(self, at: int) -> bool:
        """The third loop of a tall stitch, behind the two on its top."""
        return self.kind(at) == "ordinal" and self.toks[at].value == 3

    def loops(self, at: int) -> tuple[int, str | None] | None:
        """ "BLO", "in back loops only", "through both loops" -> (past it, loops)."""
        here = at
        while self.word(here) in (
            "in",
            "into",
            "through",
            "thru",
            "working",
            "work",
            "worked",
            "using",
            "the",
            "only",
            "all",
            "crochet",
            "crocheting",
            "inserting",
            "for",
            "by",
            "behind",
            "taking",
            "picking",
            "pick",
            "catching",
            "grabbing",
        ):
            here += 1
        word = self.word(here)
        side: str | None
        if word in ("blo", "bl", "tbl", "blonly", "blp"):
            side = "back"
        elif word in ("flo", "fl", "tfl", "flp"):
            side = "front"
        elif (word in ("back", "front", "both", "rear") or self._is_third(here)) and (long := self.loop_noun(here + 1)):
            side = {"back": "back", "rear": "back", "front": "front"}.get(word)
            here += long
            if self._is_third(here - long):
                here = told[0] if (told := self.loop_behind(here + 1)) else here
                here += self.word(here + 1) == "of"  # "in the third loop at the back of every stitch"
        elif word in ("loop", "loops") and (told := self.loop_behind(here + 1)):
            here, side = told
        else:
            return None
        here += 1
        if self.word(here) in ("only", "o", "loop", "loops"):
            here += 1
        if self.word(here) == "only":
            here += 1
        return here, side
