"""The name of a stitch with all that belongs to it, and the loops it goes into."""

from __future__ import annotations

import re

from hookside.notation.bodies.chunks import MAYBE_TWO, Doubt, Place
from hookside.notation.bodies.worded import Worded
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS, NO_SHAPING, OF_STITCHES, PLAIN
from hookside.stitches import TABLE

_BELONGS_TO_STITCH = frozenset([".", "of", "-", ":", "=", "stitch", "stitches", "sts", "st", "a"])
_LOOPS_BEGIN = (
    frozenset(
        ["in", "into", "through", "thru", "working", "work", "blo", "flo", "bl", "fl", "back", "front", "both", "the",
         "inner", "outer"]
    )
    .union(
        ["worked", "tbl", "tfl", "using", "for", "by", "behind", "loop", "loops", "only", "taking", "picking", "pick"]
    )
    .union(["catching", "grabbing", "rear", "third", "3"])
)


# "Slip in the pad when three parts of the way round.": a thing that lies inside, and no slip stitch
_SLIPS_IN = re.compile(
    r"slip in(?:side)? (?:the |an? |your )?(?:[a-z]+ )?(?:pad|cushion|card(?:board)?|mou?ld|form|insert|bottle|jar|"
    r"ball|lining|dis[ck]|stone|stuffing)s?\b"
)


class Stitching(Worded):
    """One stitch at a time."""

    def stitch(self, at: int) -> int:
        """The name of a stitch, with the signs and nouns that belong to it: "ch-3", "sc sts"."""
        tok = self.toks[at]
        start = tok.start
        if tok.text == "slip" and _SLIPS_IN.match(self.low, start):
            return self.cue(at)
        past = self.joined(at)
        if past is not None:
            return past
        if tok.key == "turn" and self.word(at + 1) == "not":  # a machine's order of words
            self.out.asides.append((start, self.toks[at + 1].end))
            return at + 2
        if tok.key == "turn":
            self.emit("MARK", ("turn", None), start, tok.end)
            past = at + 1
            while self.word(past) in ("work", "your", "the", "piece", "over", "around"):
                past += 1
            if self.word(past) in ("each", "every") and self.word(past + 1) in ("row", "round", "rnd", "times"):
                past += 2  # "ch 1, turn each row": told once for all of them
            return past
        if tok.key == "ring":
            past = at + 1
            if self.last_type() in ("ST", "NA"):
                self.emit("PLACE", Place("ring", start=start, end=tok.end), start, tok.end)
                return past
            self.emit("MARK", ("ring", None), start, tok.end)
            if self.word(past) in (",", ":", "-", "with", "of", "and", "in", "w", ";", "."):
                return past + (1 if self.word(past) in ("with", "of", "and", "w", "-", ":") else 0)
            return past
        if tok.key == "skip":
            return self.skip(at)
        if self.number_first is None:
            self.number_first = False
        doubt = tok.key in MAYBE_TWO and " " in (name := self.body[start : tok.end].strip().lower())
        doubt = doubt and (tok.key in ("inc", "dec") or name.split()[-1].startswith(("inc", "dec")))
        if doubt and self._in_single_file(at):
            plain, shaping = MAYBE_TWO[tok.key]
            self.emit("ST", plain, start, start + len(name.split()[0]))
            self.emit("ST", shaping, start + name.rindex(" ") + 1, tok.end)
        else:
            self.emit("ST", Doubt(tok.key) if doubt else tok.key, start, tok.end)
        nxt = at + 1
        of = tok.key in OF_STITCHES and self.word(nxt) == "of"
        if of and self.kind(nxt + 1) == "number" and self._stitch_at(nxt + 2):
            self.out.asides.append((self.toks[nxt].start, self.toks[nxt + 2].end))
            return nxt + 3  # "popcorn of 4 dc in next"
        if self.word(nxt) not in _BELONGS_TO_STITCH:
            return nxt
        if (
            self.word(nxt) == "."
            and self.toks[nxt].start == tok.end
            and (self.kind(nxt + 1) == "word" or self.word(nxt + 2) in ("x", "times"))
            and not self.body[self.toks[nxt + 1].start].isupper()
        ):
            nxt += 1  # the dot of an abbreviation: "sc. in next"
        if self.word(nxt) in ("of",) and self.kind(nxt + 1) == "number":
            nxt += 1
            if tok.key == "ch" and self._stitch_at(nxt + 1) and self.toks[nxt + 1].key == "ch":
                told = self.toks[nxt]  # "a chain of 33 ch"
                self.emit("NA", (told.value, told.start, told.end), told.start, told.end)
                return nxt + 2
        if (
            self.word(nxt) == "-"
            and self.kind(nxt + 1) == "number"
            and tok.key == "ch"
            and self.toks[nxt].start == tok.end
        ):
            nxt += 1  # "ch-3"
        if tok.key == "ch" and self.word(nxt) in (":", "=") and self.kind(nxt + 1) == "number":
            nxt += not self._stitch_at(nxt + 2)  # "base ch: 12"
        if self.word(nxt) in ("stitch", "stitches", "sts", "st"):
            nxt += 1
        if self.word(nxt) in ("a",) and self.word(nxt + 1) == "chain":
            nxt += 2
        return nxt

    def _in_single_file(self, at: int) -> bool:
        """Does a stitch of no amount stand beside this, with no sign between: "sc sc inc", each word one stitch?"""
        last = self.out.chunks[-2:]
        if self._stitch_at(at + 1) and self.toks[at + 1].key in PLAIN and self.kind(at + 2) != "number":
            return not last or last[-1].type != "NB"
        return bool(last) and last[-1].type == "ST" and not isinstance(last[-1].value, Doubt) and last[0].type != "NB"

    def in_loops(self, at: int, clause: bool) -> int | None:
        """ "in back loops only": for what follows, or for the stitch before."""
        tok = self.toks[at]
        start = tok.start
        looped = self.loops(at) if tok.text in _LOOPS_BEGIN else None
        if looped and self.word(looped[0]) not in ("of", "on"):
            after = self.place(at)
            if clause and (past := self._loops_alone(looped[0], after)) is not None:
                self.emit("LOOPS", looped[1], start, self.toks[looped[0] - 1].end)
                self.emit("ST", "sc", start, self.toks[past - 1].end)
                end = self.toks[past - 1].end
                self.emit("PLACE", Place("fill", start=start, end=end), start, end)
                return past
            if clause and self._counted_after(looped[0]):
                if self.last_type() == "SEP":
                    self.out.chunks.pop()  # "sc 60, in the back loops: 60"
                self.emit("LOOPSPOST", looped[1], start, self.toks[looped[0] - 1].end)
                return looped[0]
            if after is None or after[0].kind != "fill":
                self.emit(
                    "LOOPS" if clause or self.last_type() == "NB" else "LOOPSPOST",
                    looped[1],
                    start,
                    self.toks[looped[0] - 1].end,
                )
                past = looped[0]
                while self.word(past) in (":",) or (
                    clause
                    and self.word(past) in ("for", "this", "round", "row", "rnd", "entire", "the", "whole")
                    and not self.place(past)
                ):
                    past += 1
                return past
        return None

    def _loops_alone(self, at: int, after: tuple[Place, int] | None) -> int | None:
        """ "blo in each", "in flo around", "blo (12)", "behind the back wall without changes": all the round says."""
        even = NO_SHAPING.match(self.low, self.toks[at].start) if self.word(at) in ("without", "no", "with") else None
        past = self.token_after(even.end(), at) if even is not None else at
        after = after or self.place(at)
        if after is not None and after[0].kind == "fill" and not after[0].last:
            past = after[1]
        told = (past > at or self.at_count(at)) and not any(c.type in ("ST", "BARE") for c in self.out.chunks)
        behind = self.toks[past:]
        works = any(t.kind == "stitch" and t.key not in ("turn", "join", "sl st") for t in behind)
        return past if told and not works and (self.word(past) in CLAUSE_ENDS or self.at_count(past)) else None

    def _counted_after(self, at: int) -> bool:
        """Does nothing but the count stand behind a sign here, and stitches before it?"""
        told = self.word(at) in (":", "=", "-") and self.kind(at + 1) == "number"
        return told and self._past_count(at + 1) >= self.count and any(c.type == "ST" for c in self.out.chunks)

    def turning_chain(self, at: int) -> int | None:
        """ "turn, tch, 9 sc": a chain as high as the stitches behind it."""
        past = at + 1
        if self.toks[at].text == "t":
            if self.word(at + 1) != "-" or self.word(at + 2) != "ch":
                return None
            past = at + 3
        if self.word(past) not in CLAUSE_ENDS:
            return None
        behind = next((t.key for t in self.toks[past:] if t.kind == "stitch" and t.key in TABLE), "sc")
        span = self.toks[at].start, self.toks[past - 1].end
        self.emit("ST", "ch", *span)
        self.emit("NA", (max(1, int(TABLE[behind].height)), *span), *span)
        return past
