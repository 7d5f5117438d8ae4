"""The loops of a stitch that are worked into: "in back loops only", "BLO", "the third loop at the back"."""

from __future__ import annotations

from hookside.notation.bodies.reaches import Reaches
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS
from hookside.notation.vocabulary import COURSE_WORDS

_LOOP_NOUNS = frozenset(
    ["loop", "loops", "lp", "lps", "lo", "bump", "bumps", "strand", "strands", "wall", "walls", "member", "members",
     "eye", "needle"]
)
# ... and what other tongues put in front of it, or in its place before "only"
_LOOP_KINDS = frozenset(["half", "mesh", "hook", "hooks", "thread", "link", "links", "stitch", "st", "noose", "yarn"])

# "outer half eye", "inner half needle": from memory, unverified, how Chinese texts are put into English
_SIDES = {"back": "back", "rear": "back", "inner": "back", "front": "front", "outer": "front", "both": None}


_THIS = COURSE_WORDS.union(["once", "time", "one"])
_BEHIND_ONCE = frozenset([",", ":", ";", ".", "-", "(", "and", "", "work", "make"])
_BEHIND_LOOP = frozenset([*CLAUSE_ENDS, ":", "without", "with", "no"])


class Loops(Reaches):
    """Which side is picked up."""

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
        if self.word(at) in ("work", "working") and self.word(at + 1) == "this" and self.word(at + 2) in COURSE_WORDS:
            here += 3  # "work this round into the back loops only"
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
        elif (word in _SIDES or self._is_third(here)) and (long := self.loop_noun(here + 1)):
            side = _SIDES.get(word)
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
        if self.word(here) == "of":  # "behind the back wall of the loop 12 sc"
            past = here + 1 + (self.word(here + 1) == "the")
            noun = self.word(past) in ("loop", "loops", "stitch", "stitches")
            ends = noun and (self.kind(past + 1) == "number" or self.word(past + 1) in _BEHIND_LOOP)
            here = past + 1 if ends else self._of_them_all(here)
        return self._this_once(here), side

    def _this_once(self, at: int) -> int:
        """ "in the back loops only this once, sc around", "... for this round: sc around": the token behind it."""
        here = at + (self.word(at) == "for")
        here += self.word(here) in ("just", "only")
        if self.word(here) == "once" and here > at:
            past = here + 1
        elif self.word(here) in ("this", "the") and self.word(here + 1) in _THIS:
            past = here + 2
        else:
            return at
        past += self.word(past) in ("only", "alone")
        return past if self.word(past) in _BEHIND_ONCE or self.kind(past) in ("stitch", "number") else at

    def _of_them_all(self, at: int) -> int:
        """ "working in back loop of each st, sc around": ahead of the work it only says that all have such a loop."""
        past = at + 1
        while self.word(past) in ("each", "every", "all", "the"):
            past += 1
        ahead = not self.out.chunks and past > at + 1 and (self.is_noun(past) or self.kind(past) == "stitch")
        behind = past + 2 + (self.word(past + 2) in ("work", "make", "crochet"))
        worked = self.word(past + 1) in (",", ":") and self.kind(behind) in ("stitch", "number")
        return past + 1 if ahead and worked else at
