"""The edges of the fabric in hand: both ends of a row, the rows beside it, free loops, the chain it began from."""

from __future__ import annotations

import re

from hookside.notation.bodies.chunks import Place
from hookside.notation.bodies.layers import Layers
from hookside.notation.bodies.wording.places import (
    ALL_SIDES,
    ALONG_EDGE,
    ALONG_ROW_ENDS,
    AN_EDGE,
    BACK_ALONG,
    BEGIN_AT,
    BOTH_ENDS,
    EACH_CORNER,
    EACH_ROW_END,
    EACH_SIDE,
    FREE_LOOPS,
    ON_EDGE,
    ONE_END,
    ONE_ROW_END,
    PAIR_OF_SIDES,
    SO_MANY_ROW_ENDS,
)
from hookside.notation.vocabulary import ORDINAL_WORDS, ROW_ENDS, number_of

_COUNTED = re.compile(r"\d{2,4} ?(?:sts?|stitches|sc|[hd]?dc|h?tr)?\W*$")
_SHAPING = frozenset(["inc", "dec", "inv dec"])


class Edges(Layers):
    """Where stitches go that do not go into the course below."""

    def along_a_chain(self, at: int) -> int | None:
        """ "in the 2nd ch from the hook begin," before the stitches that go along a chain from there."""
        start = self.toks[at].start
        back = BACK_ALONG.match(self.low, start)
        if back and not self.out.chunks:
            self.out.asides.append(back.span())
            return self.token_after(back.end(), at)
        match = BEGIN_AT.match(self.low, start)
        if match is None:
            return None
        n = int(match["n"]) if match["n"] else ORDINAL_WORDS[match["word"]]
        place = Place("hook", n=n, each=True, start=start, end=match.end())
        self.emit("PLACEPRE", place, start, match.end())
        return self.token_after(match.end(), at)

    def sides_in_pairs(self, at: int) -> int | None:
        """ "sc around all four sides, working 12 sc on each long side and 8 on each end": two and two of them."""
        if not ("long" in self.low or "short" in self.low) or self.depth:
            return None
        if self.kind(at) == "stitch" and at + 1 < self.count and not self.out.chunks:
            ahead = ALL_SIDES.match(self.low, self.toks[at + 1].start)
            if ahead is not None:
                self.along_sides = self.toks[at]
                self.out.asides.append((self.toks[at].start, ahead.end()))
                return self.token_after(ahead.end(), at)
        if self.kind(at) != "number":
            return None
        named = self.kind(at + 1) == "stitch"
        on = at + 1 + named
        match = PAIR_OF_SIDES.match(self.low, self.toks[on].start) if on < self.count else None
        stitch = self.toks[at + 1] if named else self.along_sides
        if match is None or stitch is None:
            return None
        many = self.toks[at]
        self.along_sides = stitch
        self.out.elsewhere = True
        self.emit("NB", (many.value, many.start, many.end), many.start, many.end)
        self.emit("ST", stitch.key, many.start, match.end())
        place = Place("next", n=2, each=True, start=match.start(), end=match.end())
        self.emit("PLACE", place, *match.span())
        return self.token_after(match.end(), at)

    def in_free_loops(self, at: int) -> int | None:
        """ "in the 12 free loops of round 4", behind the stitches that go there or before them."""
        start = self.toks[at].start
        match = FREE_LOOPS.match(self.low, start)
        if match is None:
            return None
        self.out.elsewhere = True
        past = self.token_after(match.end(), at)
        many = re.search(r"\b(?<!\. )(\d{1,3}) (?!\d)(?=[a-z -]*loop|[a-z -]*lp)", match[0])
        each = re.search(r"\b(?:each|every|all)\b", match[0]) is not None
        n = int(many[1]) if many else 1
        place = Place("piece", n=n, each=each, noun="loops", start=start, end=match.end())
        before = self._place_then_stitch_behind(past)
        self.emit("PLACEPRE" if before else "PLACE", place, *match.span())
        return past + (before and self.word(past) in (",", ":"))

    def at_the_ends(self, at: int) -> int | None:
        """ "inc at both ends", "dec at the beginning"."""
        start = self.toks[at].start
        match = BOTH_ENDS.match(self.low, start)
        if match and self.after_stitch():
            self.emit("PLACE", Place("ends", start=start, end=match.end()), *match.span())
            return self.token_after(match.end(), at)
        match = ONE_END.match(self.low, start) if self.out.chunks else None
        if match is not None and self._told_in_order(match["which"], self.token_after(match.end(), at)):
            return self.token_after(match.end(), at)
        if match is None or not self._shapes_alone():
            return None
        place = Place("ends", n=1 if match["which"] != "end" else 2, noun="one", start=start, end=match.end())
        self.emit("PLACE", place, *match.span())
        return self.token_after(match.end(), at)

    def _told_in_order(self, which: str, past: int) -> bool:
        """ "sc around, dec at the end", "dec at the start, sc around": shaped where the list has it, and said again."""
        if self.depth or self.last_type() != "ST" or str(self.out.chunks[-1].value) not in _SHAPING:
            return False
        if which == "end":
            return any(c.type == "PLACE" and c.value.kind == "fill" for c in self.out.chunks)
        return self._shapes_alone() and self.word(past) == "," and self.stitchy(past + 1)

    def along_the_edge(self, at: int) -> int | None:
        """ "12 sc along the side", "then along the bottom:"."""
        start = self.toks[at].start
        around = self._each_side(at)
        if around is not None:
            return around
        ends = self._row_ends(at) if "row" in self.low and self.after_stitch() and not self.depth else None
        if ends is not None:
            return ends
        match = ON_EDGE.match(self.low, start) if self._counted_on() else None
        if match:
            self.out.elsewhere = True
            noun = f"{match['which']}{match['what']}"
            self.emit("PLACE", Place("piece", noun=noun, start=start, end=match.end()), *match.span())
            return self.token_after(match.end(), at)
        match = ALONG_EDGE.match(self.low, start)
        if match is None:
            return None
        past = self.token_after(match.end(), at)
        if self.after_stitch():
            return past
        chained = any(c.type == "PLACE" and c.value.kind == "hook" for c in self.out.chunks)
        if self.at_clause_start() and past > at and chained and self.word(past) in (":", ","):
            self.emit("MARK", ("other side", None), *match.span())  # "then along the bottom: sc 2"
            return past + 1
        return None

    def _row_ends(self, at: int) -> int | None:
        """ "sc in each of 20 row ends", "dc in same row end, 2 dc in each remaining row end (24 row ends, 48 dc)".

        How many there are is told with them or in a bracket; where neither tells it, the printed count does."""
        start = self.toks[at].start
        one = ONE_ROW_END.match(self.low, start)
        each = EACH_ROW_END.match(self.low, start) if one is None else None
        bare = self.last_type() == "ST" and [c.type for c in self.out.chunks[-2:-1]] != ["NB"]
        along = ALONG_ROW_ENDS.match(self.low, start) if one is None and each is None and bare else None
        match = one or each or along
        if match is None:
            return None
        many = 1
        if one is None:
            told = (each["n"] or each["n2"]) if each is not None else None
            there = None if told else SO_MANY_ROW_ENDS.search(self.low)
            many = int(told or 0) or (int(there["n"]) - self.in_row_ends() if there is not None else 0)
        if many < 0:
            return None
        self.out.elsewhere = True
        if many == 1 and bare:
            self.emit("NA", (1, *match.span()), *match.span())
        place = Place("piece", n=many or 1, each=many != 1, noun=ROW_ENDS, start=start, end=match.end())
        self.emit("PLACE", place, *match.span())
        return self.token_after(match.end(), at)

    def in_row_ends(self) -> int:
        """Row ends that were worked into so far, as told: one for those in each."""
        ends = (c.value for c in self.out.chunks if c.type == "PLACE")
        return sum(p.n for p in ends if isinstance(p, Place) and p.noun == ROW_ENDS)

    def _each_side(self, at: int) -> int | None:
        """ "35 sc along each side and 1 sc in each corner (144)": all round a piece with corners."""
        start = self.toks[at].start
        corner = self.sides > 0 and "corner" in self.low
        match = (EACH_CORNER.match(self.low, start) if corner else None) or (
            EACH_SIDE.match(self.low, start) if "each" in self.low or "all" in self.low else None
        )
        if match is None or not self.after_stitch() or self.depth:
            return None
        told = match.groupdict().get("n")
        if not self.sides and not told and not ("corner" in self.low and _COUNTED.search(self.low)):
            return None
        self.sides = number_of(told) if told else self.sides or 4
        self.out.elsewhere = True
        self.emit("PLACE", Place("next", n=self.sides, each=True, start=start, end=match.end()), *match.span())
        return self.token_after(match.end(), at)

    def _shapes_alone(self) -> bool:
        """Is one increase or decrease all that the course has told so far?"""
        told = [c for c in self.out.chunks if c.type not in ("MARK", "SEP", "LOOPS", "COLOUR")]
        if self.depth or [c.type for c in told] not in (["ST"], ["NB", "ST"], ["ST", "NA"]):
            return False
        amounts = [c.value[0] for c in told if c.type != "ST"]
        return amounts in ([], [1]) and all(str(c.value) in ("inc", "dec", "inv dec") for c in told if c.type == "ST")

    def _counted_on(self) -> bool:
        """Has an amount of stitches just been told, and nothing yet of a chain that has two sides?"""
        last = [c.type for c in self.out.chunks[-2:]]
        deep = self.depth and "corner" not in self.low
        if deep or last not in (["NB", "ST"], ["ST", "NA"]) or not AN_EDGE.search(self.low):
            return False
        return not any(c.type == "PLACE" and c.value.kind == "hook" for c in self.out.chunks)
