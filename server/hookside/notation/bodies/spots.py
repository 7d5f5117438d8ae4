"""Small questions about a place: the top of a turning chain, a post that is gone around."""

from __future__ import annotations

from hookside.notation.bodies.chunks import Place
from hookside.notation.bodies.loops import Loops
from hookside.notation.bodies.nouns import WORKED_INTO
from hookside.notation.vocabulary import EACH, NEXT


class Spots(Loops):
    """What the words of a place come to."""

    def _top_of(self, at: int) -> int | None:
        """ "top of the turning chain", "top of ch-3": one stitch, where the chain counts as one."""
        here = at + 1
        while self.word(here) in (
            "of",
            "the",
            "beg",
            "beginning",
            "turning",
            "starting",
            "previous",
            "first",
            "row",
            "'s",
            "-",
        ):
            here += 1
        if self.kind(here) == "number" and self.word(here + 1) in ("ch", "chain", "chs"):
            here += 1
        if self.word(here) in ("tch", "t"):
            return here + 1 + (2 if self.word(here + 1) == "-" and not self.apart(here + 1) else 0)
        if self.word(here) not in ("ch", "chain", "chs"):
            return None
        here += 1
        if self.apart(here):  # "in top of ch - 21 sts"
            return here
        if self.word(here) == "-":
            here += 1
        if self.kind(here) == "number":
            here += 1
        return self._noun_tail(here)

    def _round_a_post(self, at: int) -> bool:
        """ "around the post", "around next st", "around each dc": a place, and not the whole round."""
        if self.word(at) in ("the", "this", "a"):
            at += 1
        word = self.word(at)
        return (
            word in ("post", "posts", "ring", "chain", "ch", "same")
            or (word in NEXT or word in EACH)
            or (self.kind(at) == "ordinal" and self.is_noun(at + 1))
            or (self.kind(at) == "stitch" and self.toks[at].key in WORKED_INTO and self.word(at - 1) == "the")
        )

    def _done(self, place: Place, start: int, past: int) -> tuple[Place, int]:
        place.start = start
        place.end = self.toks[min(past, self.count) - 1].end if past > 0 else start
        return place, past
