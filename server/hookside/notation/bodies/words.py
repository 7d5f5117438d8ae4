"""Words that are no stitch: a place, how often, a colour, what joins two clauses; or a word nobody knows."""

from __future__ import annotations

from hookside.notation.bodies.chunks import Place
from hookside.notation.bodies.stitching import Stitching
from hookside.notation.bodies.wording.counts import TOTAL
from hookside.notation.bodies.wording.places import REST_OF_CHAIN
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS, PLAIN, TO_NEATEN
from hookside.notation.lines.heads.headings import PARTS
from hookside.notation.vocabulary import ARTICLES, EACH, HARMLESS, NOUNS, PREPOSITIONS, TIMES_WORDS

_EVEN = ("even", "plain", "straight")
_ENDS = ("", ".", "=", "(", "[")
_IN_WORDS = ("increasing", "decreasing", "double")
_NAMED = ("next", "first", "last", "one", "nth")


class Words(Stitching):
    """One word at a time."""

    def words(self, at: int, clause: bool) -> int:
        """A place, how often, a colour, a joining word; or a word nobody knows. `clause`: it begins one."""
        past = self._shapes(at, clause)
        if past is not None:
            return past
        for told in (self._neatly, self._in_the_round, self.tail, self.gap, self.left_behind, self.elsewhere):
            past = told(at)
            if past is not None:
                return past
        placed = self.place(at)
        if placed:
            return self.place_chunk(at, placed[0], placed[1], clause)
        for told in (self._how_often, self._joins):
            past = told(at)
            if past is not None:
                return past
        past = self._coloured(at, clause)
        if past is None and clause and self.toks[at].text in ("tch", "t"):
            past = self.turning_chain(at)
        if past is not None:
            return past
        if not self._means_nothing(at):
            self.out.unknown.append((self.toks[at].start, self.toks[at].end))
        return at + 1

    def _shapes(self, at: int, clause: bool) -> int | None:
        """ "increasing in the next", "circle 6 sc", "remaining sc", "blo even": words that stand for stitches."""
        tok = self.toks[at]
        start = tok.start
        where = self.place(at + 1) if tok.text in _IN_WORDS else None
        if where and (where[0].kind in _NAMED or self.word(at + 1) in EACH):
            self.emit("ST", "dec" if tok.text == "decreasing" else "inc", start, tok.end)
            return at + 1
        if tok.text in ("ring", "circle") and not self.out.chunks:
            if self.word(at + 1) in (",", ":", "-", ";"):
                self.emit("MARK", ("ring", None), start, tok.end)  # "ring, 6 sc"
                return at + 2
            if self.kind(at + 1) == "number" and self._stitch_at(at + 2):
                self.emit("MARK", ("ring", None), start, tok.end)  # "circle 6 sc"
                return at + 1
        if clause and tok.text in ("remaining", "rem") and self._stitch_at(at + 1) and self.word(at + 2) in CLAUSE_ENDS:
            self.emit("ST", self.toks[at + 1].key, start, self.toks[at + 1].end)
            self.emit("PLACE", Place("fill", start=start, end=self.toks[at + 1].end), start, self.toks[at + 1].end)
            return at + 2
        if clause and tok.text == "all" and self.word(at + 1) in _ENDS and not self.worked_yet():
            self.emit("ST", "sc", start, tok.end)  # "blo, all", "ch 1, turn, all = 12"
            self.emit("PLACE", Place("fill", each=True, start=start, end=tok.end), start, tok.end)
            return at + 1
        if tok.text in _EVEN and self.last_type() == "LOOPS" and self.word(at + 1) in CLAUSE_ENDS:
            self.emit("ST", "sc", start, tok.end)  # "blo even"
            self.emit("PLACE", Place("fill", start=start, end=tok.end), start, tok.end)
            return at + 1
        return None

    def _neatly(self, at: int) -> int | None:
        """ "sc around to neaten the edge"."""
        tok = self.toks[at]
        neat = TO_NEATEN.match(self.low, tok.start) if tok.text in ("to", "in") and self.after_stitch() else None
        if neat is None:
            return None
        self.out.asides.append(neat.span())
        return self.token_after(neat.end(), at)

    def _in_the_round(self, at: int) -> int | None:
        """ "(sc, dec) x 6 in next round": how often is told, and where says nothing more."""
        if self.last_type() not in ("TIMES", "PLACE") or self.word(at) not in PREPOSITIONS:
            return None
        here = at + 1 + (self.word(at + 1) in ARTICLES and self.word(at + 1) != "this")
        if not self.round_itself(here):
            return None
        self.out.asides.append((self.toks[at].start, self.toks[here + 1].end))
        return here + 2

    def _how_often(self, at: int) -> int | None:
        """ "twice", "6 times", "for 18", "making 24 sts in all"."""
        tok = self.toks[at]
        start = tok.start
        if tok.text in TIMES_WORDS and self.last_type() in ("ST", "", "SEP", "CUE", "MARK", "STARO", "OPEN"):
            where = self.place(at + 1)
            single = where and where[0].kind in ("next", "one", "first", "last", "same") and where[0].n == 1
            many = where and (where[0].kind == "nth" or (where[0].kind == "fill" and where[0].each))
            if single or many:  # "work twice into each stitch", "sc twice in every other one"
                kind = "NA" if self.last_type() == "ST" else "BARE"
                self.emit(kind, (TIMES_WORDS[tok.text], tok.start, tok.end), tok.start, tok.end)
                return at + 1
        if tok.text == "x" and self.last_type() == "ST" and self.kind(at + 1) == "number":
            number, where = self.toks[at + 1], self.place(at + 2)
            many = where and (where[0].kind == "nth" or (where[0].kind == "fill" and where[0].each))
            if many and number.value in (2, 3) and self.out.chunks[-1].value in PLAIN:  # "sc x2 in each"
                self.emit("NA", (number.value, number.start, number.end), tok.start, number.end)
                return at + 2
        if tok.text in ("for", "making", "giving", "leaving", "resulting", "makes"):
            match = TOTAL.match(self.low, start)
            if match and self.out.chunks and not self.depth:
                self.counted(int(match["n"][:7]), match.start("n"), match.end("n"))
                return self.token_after(match.end(), at)
        past = at + 2 + (self.word(at + 2) in ("sts", "stitches"))
        comes_to = tok.text == "for" and self.kind(at + 1) == "number" and self.word(past) in CLAUSE_ENDS
        if comes_to and not self.depth and self.went_round():  # "sc, inc all the way round for 18"
            number = self.toks[at + 1]
            self.counted(number.value, number.start, number.end)
            return past
        counted = self.times(at)
        if counted and tok.text == "x" and self.at_clause_start() and self.word(counted[1]) in ("(", "[", "{"):
            closing = self.close_of(counted[1])
            if closing is not None and self.stitchy(counted[1]) and not self.times(closing + 1):
                self.prefixed[closing] = counted[0]  # "x2 (sc in next 7 sts, inc)"
                return counted[1]
        if counted and self.list_times(at, counted):
            return counted[1]
        if counted and self.last_type() in ("ST", "NA", "CLOSE", "STARC", "PLACE", "NB", "TIMES", "LOOPSPOST"):
            self.emit("TIMES", counted[0], start, self.toks[counted[1] - 1].end)
            return counted[1]
        return None

    def _joins(self, at: int) -> int | None:
        """ "and", "then", "followed by": a clause ends here, or a second place begins."""
        tok = self.toks[at]
        if self.last_type() == "PLACE" and self.out.chunks[-1].value.kind == "hook":
            rest = REST_OF_CHAIN.match(self.low, tok.start)
            if rest is not None:
                place = Place("fill", each=True, noun="ch", start=rest.start(), end=rest.end())
                self.emit("ANDPLACE", place, *rest.span())
                return self.token_after(rest.end(), at)
        if tok.text not in ("and", "then", "plus", "followed") and not (tok.text == "but" and self.stitchy(at + 1)):
            return None
        past = at + 1
        if self.word(past) == "by":
            past += 1
        if self.last_type() not in ("SEP", "OPEN", "STARO", ""):
            if self.last_type() == "PLACE" and self.place(past) and not self._place_then_stitch(past, close=True):
                return self.and_place(past)
            self.emit("SEP", "and" if tok.text == "and" else None, tok.start, tok.end)
            self.number_first = None
        return past

    def _coloured(self, at: int, clause: bool) -> int | None:
        """ "5 sc blue", "with white 8 sc"."""
        tok = self.toks[at]
        start = tok.start
        if self.last_type() in ("ST", "NA", "PLACE", "CLOSE"):
            end = self.colour_name(at)
            if end is None and self.last_type() != "PLACE" and self.is_letter_colour(at):
                end = at + 1
            if end is not None and self.word(end) in CLAUSE_ENDS:  # "5 sc blue, 10 sc white"
                self.emit("COLOURPOST", self.body[start : self.toks[end - 1].end], start, self.toks[end - 1].end)
                return end
        if tok.text in ("with", "in", "using", "w"):
            past = at + 1
            if self.word(past) == "/":
                past += 1
            if self.word(past) in ("the",):
                past += 1
            end = self.colour_name(past)
            if end is None and self.is_letter_colour(past):
                end = past + 1
            if end is not None:
                name = self.body[self.toks[past].start : self.toks[end - 1].end]
                self.emit("COLOUR" if clause else "COLOURPOST", name, start, self.toks[end - 1].end)
                if self.word(end) in (":", "-"):
                    end += 1
                return end
        return None

    def _means_nothing(self, at: int) -> bool:
        """Words that may stand in a clause and change nothing; "together" makes one of its place."""
        tok = self.toks[at]
        if tok.text in ("together", "tog") and self.last_type() == "PLACE":
            self.out.chunks[-1].value.together = True
            return True
        if tok.text in NOUNS and self.last_type() in ("NA", "BARE", "NB", "ST"):
            return True
        if tok.text == "x" and self.last_type() == "NB":
            return True
        if tok.text in PARTS and (
            (not self.out.chunks and self.word(at + 1) == ":" and self.stitchy(at + 2))
            or (self.word(at - 1) == "-" and self.word(at + 1) in ("", "(", "[", "."))
        ):
            self.out.asides.append((tok.start, tok.end))  # "Neck: sc around", "sc around - neck (24)"
            return True
        if tok.text == "go" and not self.out.chunks:  # "you just go, a single in every stitch"
            past = at + 1 + (self.word(at + 1) in (",", ":"))
            return self.stitchy(past + (self.word(past) in ARTICLES))
        return tok.text in ("rs", "ws") or tok.text in HARMLESS or tok.text in ARTICLES
