"""Fourth stage, second half: words gathered into the phrases the grammar knows.

"in each of the next 3 sts" is one phrase, PLACE; "rep from * to last 2 sts" is one, REPFROM. What a phrase is
can depend on where it stands (a number before its stitch or after it), which keeps the grammar itself LALR(1).
"""

from __future__ import annotations

from dataclasses import replace
from itertools import takewhile
from typing import Any

from hookside.notation.bodies.brackets import OF_STITCHES
from hookside.notation.bodies.chunks import Chunk, Doubt, Phrases, Place, Times
from hookside.notation.bodies.corners import bracketed
from hookside.notation.bodies.plain import plain
from hookside.notation.bodies.tokens import Dictionary
from hookside.notation.bodies.worded import Worded
from hookside.notation.bodies.wording.counts import TOTAL
from hookside.notation.bodies.wording.places import CHAINS, CORNER, ELSEWHERE, LAYERS, SPACE, STITCH_TOO, TO_SPACE
from hookside.notation.bodies.wording.stretches import (
    CLAUSE_ENDS,
    SPELT_ALL,
    SPELT_OUT,
    TO_NEATEN,
)
from hookside.notation.lines.headings import PARTS
from hookside.notation.vocabulary import (
    ARTICLES,
    EACH,
    HARMLESS,
    NOUNS,
    TIMES_WORDS,
    number_of,
)
from hookside.stitches import TABLE

_EVEN = ("even", "plain", "straight")
_IN_WORDS = ("increasing", "decreasing", "double")
_NAMED = ("next", "first", "last", "one", "nth")
_BELONGS_TO_STITCH = frozenset([".", "of", "-", ":", "=", "stitch", "stitches", "sts", "st", "a"])
_LOOPS_BEGIN = frozenset(
    ["in", "into", "through", "thru", "working", "work", "blo", "flo", "bl", "fl", "back", "front", "both", "the"]
).union(
    ["worked", "tbl", "tfl", "using", "for", "by", "behind", "loop", "loops", "only", "taking", "picking", "pick"]
).union(["catching", "grabbing", "rear", "third", "3"])


class Gatherer(Worded):
    """Walks the tokens of one body once, from left to right."""

    def walk(self) -> Phrases:
        at = 0
        while at < self.count:
            at = max(self.step(at), at + 1)
        return self.out

    def step(self, at: int) -> int:
        """Takes the phrase that starts at token `at`; returns the token behind it."""
        tok = self.toks[at]
        if tok.kind == "sign":
            dots = self.trailing(at) if tok.text == "." and self.word(at + 2) == "." else None
            return dots if dots is not None else self.sign(at)
        past = self.with_part(at) if tok.text in ("joining", "join") and self.last_type() in ("ST", "NA") else None
        if past is not None:
            return past
        clause = self.at_clause_start()
        spelt = SPELT_OUT.match(self.low, tok.start) if tok.text in ("insert", "pull", "draw", "inserting") else None
        drawn = SPELT_ALL.match(self.low, tok.start) if tok.text in ("pull", "draw") else None
        if drawn:
            self.emit("ST", {2: "dec", 3: "sc3tog"}[number_of(drawn["n"])], *drawn.span())
            return self.token_after(drawn.end(), at)
        if spelt:
            self.emit("ST", {3: "dec", 4: "sc3tog"}[number_of(spelt["n"])], *spelt.span())
            return self.token_after(spelt.end(), at)
        past = self.by_wording(at)
        if past is None and clause:
            past = self.clause_start(at)
        if past is not None:
            return past
        if clause and self.only_leads(at):
            return at + 1
        if tok.text in ("rep", "repeat", "repeating", "reps", "rpt") or (
            tok.text == "work" and self.word(at + 1) in ("from", "between") and self.word(at + 2) == "*"
        ):
            if clause and self.word(at + 1) in ("(", "[", "{") and self.repeat_phrase(at) is None:
                return at + 1  # "repeat (sc, inc) six times"
            return self.repeat(at)
        if tok.kind == "stitch":
            return self.stitch(at)
        if clause and tok.kind == "ordinal" and tok.value == 1 and self._stitch_at(at + 1) and self.place(at + 2):
            return at + 1  # "1st sc in 2nd ch from hook"
        past = self.in_loops(at, clause)
        if past is not None:
            return past
        if (
            tok.text in ("for", "over")
            and self.last_type() == "ST"
            and self.kind(at + 1) == "number"
            and self.word(at + 2) in CLAUSE_ENDS
        ):
            told = self.toks[at + 1]
            self.emit("NA", (told.value, told.start, told.end), told.start, told.end)
            return at + 2
        if tok.kind == "number":
            return self.number(at)
        return self.words(at, clause)

    def stitch(self, at: int) -> int:
        """The name of a stitch, with the signs and nouns that belong to it: "ch-3", "sc sts"."""
        tok = self.toks[at]
        start = tok.start
        past = self.joined(at)
        if past is not None:
            return past
        if tok.key in self.names.written:
            return self.written(at)
        if tok.key == "turn":
            self.emit("MARK", ("turn", None), start, tok.end)
            past = at + 1
            while self.word(past) in ("work", "your", "the", "piece"):
                past += 1
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
        doubt = tok.key in ("inc", "dec") and " " in self.body[start : tok.end].strip()
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

    def written(self, at: int) -> int:
        """ "corner in each ch-2 sp": the list that the text writes out for it, in the place told here or there."""
        tok = self.toks[at]
        span = tok.start, tok.end
        plain = Dictionary(self.names.terms)
        told = [Chunk(c.type, _moved(c.value, span), *span) for c in gather(self.names.written[tok.key], plain).chunks]
        place = told.pop() if told and told[-1].type == "PLACE" else Chunk("PLACE", Place("one"), *span)
        n = self.out.chunks.pop().value[0] if self.last_type() == "NB" else 0
        past = at + 1
        if not n and self.kind(past) == "number" and not self.is_noun(past + 1) and self.kind(past + 1) != "stitch":
            n, past = self.toks[past].value, past + 1
        if n:
            self.emit("OPEN", "(", *span)
        self.out.chunks.extend(told)
        here = self.place(past)
        many = here is not None and here[0].kind == "next" and here[0].n > 1
        if here is None or n:
            if place.value.kind == "same":
                place.value = Place("one")
            if here is not None and n and not many:
                place.value, past = here
            self.out.chunks.append(place)
        if n:
            self.emit("CLOSE", ")", *span)
            self.emit("TIMES", Times(n), *span)
        self.number_first = None
        return past

    def in_loops(self, at: int, clause: bool) -> int | None:
        """ "in back loops only": for what follows, or for the stitch before."""
        tok = self.toks[at]
        start = tok.start
        looped = self.loops(at) if tok.text in _LOOPS_BEGIN else None
        if looped and self.word(looped[0]) not in ("of", "on"):
            after = self.place(at)
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

    def words(self, at: int, clause: bool) -> int:
        """A place, how often, a colour, a joining word; or a word nobody knows."""
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
        if tok.text in _EVEN and self.last_type() == "LOOPS" and self.word(at + 1) in CLAUSE_ENDS:
            self.emit("ST", "sc", start, tok.end)  # "blo even"
            self.emit("PLACE", Place("fill", start=start, end=tok.end), start, tok.end)
            return at + 1
        neat = TO_NEATEN.match(self.low, start) if tok.text in ("to", "in") and self.after_stitch() else None
        if neat:
            self.out.asides.append(neat.span())
            return self.token_after(neat.end(), at)
        for told in (self.tail, self.left_behind, self.elsewhere):
            past = told(at)
            if past is not None:
                return past
        placed = self.place(at)
        if placed:
            return self.place_chunk(at, placed[0], placed[1], clause)
        if tok.text in TIMES_WORDS and self.last_type() in ("ST", "", "SEP", "CUE", "MARK", "STARO", "OPEN"):
            where = self.place(at + 1)
            single = where and where[0].kind in ("next", "one", "first", "last", "same") and where[0].n == 1
            if single or (where and where[0].kind == "fill" and where[0].each):  # "work twice into each stitch"
                kind = "NA" if self.last_type() == "ST" else "BARE"
                self.emit(kind, (TIMES_WORDS[tok.text], tok.start, tok.end), tok.start, tok.end)
                return at + 1
        if tok.text in ("for", "making", "giving", "leaving", "resulting", "makes"):
            match = TOTAL.match(self.low, start)
            if match and self.out.chunks and not self.depth:
                self.counted(int(match["n"][:7]), match.start("n"), match.end("n"))
                return self.token_after(match.end(), at)
        comes_to = tok.text == "for" and self.kind(at + 1) == "number" and self.word(at + 2) in CLAUSE_ENDS
        if comes_to and not self.depth and self.whole():  # "sc, inc all the way round for 18"
            number = self.toks[at + 1]
            self.counted(number.value, number.start, number.end)
            return at + 2
        counted = self.times(at)
        if counted and self.list_times(at, counted):
            return counted[1]
        if counted and self.last_type() in ("ST", "NA", "CLOSE", "STARC", "PLACE", "NB", "TIMES", "LOOPSPOST"):
            self.emit("TIMES", counted[0], start, self.toks[counted[1] - 1].end)
            return counted[1]
        if tok.text in ("and", "then", "plus", "followed") or (tok.text == "but" and self.stitchy(at + 1)):
            past = at + 1
            if self.word(past) == "by":
                past += 1
            if self.last_type() not in ("SEP", "OPEN", "STARO", ""):
                if self.last_type() == "PLACE" and self.place(past) and not self._place_then_stitch(past, close=True):
                    return self.and_place(past)
                self.emit("SEP", "and" if tok.text == "and" else None, start, tok.end)
                self.number_first = None
            return past
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
        if tok.text in ("tch", "t") and clause and (past := self.turning_chain(at)) is not None:
            return past
        if tok.text in ("together", "tog") and self.last_type() == "PLACE":
            self.out.chunks[-1].value.together = True
            return at + 1
        if tok.text in NOUNS and self.last_type() in ("NA", "BARE", "NB", "ST"):
            return at + 1
        if tok.text == "x" and self.last_type() == "NB":
            return at + 1
        if tok.text in PARTS and (
            (not self.out.chunks and self.word(at + 1) == ":" and self.stitchy(at + 2))
            or (self.word(at - 1) == "-" and self.word(at + 1) in ("", "(", "[", "."))
        ):
            self.out.asides.append((tok.start, tok.end))  # "Neck: sc around", "sc around - neck (24)"
            return at + 1
        if tok.text in ("rs", "ws") or tok.text in HARMLESS or tok.text in ARTICLES:
            return at + 1
        self.out.unknown.append((tok.start, tok.end))
        return at + 1


def _moved(value: Any, span: tuple[int, int]) -> Any:
    """What a phrase of another text says, as if it were printed at `span`."""
    if isinstance(value, Place):
        return replace(value, start=span[0], end=span[1], number=None)
    return (value[0], *span) if isinstance(value, tuple) and len(value) == 3 else value


def _travel(chunks: list[Chunk]) -> int:
    """Chunks of slip stitches that only go to where the round begins: "sl st in next 2 dc and in sp, ch 3"."""
    at = 0
    while at < len(chunks) and (
        chunks[at].type in ("PLACE", "ANDPLACE", "SEP") or (chunks[at].type == "ST" and chunks[at].value == "sl st")
    ):
        at += 1
    behind = at + 1 if at + 1 < len(chunks) and chunks[at].type == "NB" else at
    if behind < len(chunks) and chunks[behind].type == "ST" and chunks[behind].value == "ch":
        return at
    place = next((c.value for c in reversed(chunks[:at]) if c.type in ("PLACE", "ANDPLACE")), None)
    return at if place is not None and TO_SPACE.search(place.noun) else 0


def _chained(chunks: list[Chunk], at: int) -> bool:
    """Is it a bracket with a chain in it that goes into the place at `at`: "(2 dc, ch 2, 2 dc) in each corner"?"""
    if at == 0 or chunks[at - 1].type != "CLOSE":
        return False
    inner = reversed(chunks[: at - 1])
    return any(c.type == "ST" and c.value == "ch" for c in takewhile(lambda c: c.type != "OPEN", inner))


def _spaces(chunks: list[Chunk]) -> str:
    """What a course works into: spaces alone, spaces and stitches, single chains, or (nothing said) stitches."""
    space = stitch = chain = False
    begins = _travel(chunks)
    for at, chunk in enumerate(chunks[begins:], begins):
        if chunk.type not in ("PLACE", "ANDPLACE", "PLACEPRE"):
            if chunk.type == "REPFROM" and chunk.value.fill and chunk.value.last:
                stitch = True
            continue
        place = chunk.value
        if place.kind in ("same", "ring", "hook"):
            continue
        chain = chain or bool(CHAINS.search(place.noun))
        if SPACE.search(place.noun) or (CORNER.search(place.noun) and _chained(chunks, at)):
            space = True
            stitch = stitch or bool(STITCH_TOO.search(place.noun))
        elif place.kind != "fill" or place.each:
            stitch = True
    return "both" if space and stitch else "spaces" if space else "chains" if chain else ""


def gather(body: str, names: Dictionary) -> Phrases:
    """Phrases of a body; linear in its length but for brackets, whose ends are looked up."""
    return plain(body, names) or gathered(body, names)


def gathered(body: str, names: Dictionary) -> Phrases:
    """Phrases of a body that may be anything, word by word."""
    found = Gatherer(body, names)
    out = found.walk()
    missed = found.unlisted()
    if missed is not None:
        out.unknown.append(missed)
    if ELSEWHERE.search(found.low):
        out.elsewhere = True
    if LAYERS.search(found.low) and not out.over_part:
        out.layers = True
    out.chunks = bracketed(out.chunks)
    out.into_spaces = _spaces(out.chunks)
    while out.chunks and out.chunks[-1].type == "SEP":
        out.chunks.pop()
    if found.all_times is not None:
        out.chunks.append(Chunk("CLOSE", ")", len(body), len(body)))
        out.chunks.append(Chunk("TIMES", found.all_times, len(body), len(body)))
    told = {c.type for c in out.chunks}
    filled = any(c.type == "PLACE" and c.value.kind == "fill" for c in out.chunks)
    if found.alternates and not filled and not told & {"REPALL", "REPFROM", "TIMES"}:
        out.chunks.append(Chunk("REPALL", Times(fill=True), len(body), len(body)))
    out.unclosed = bool(found.depth)
    for _ in found.depth:
        out.chunks.append(Chunk("CLOSE", ")", len(body), len(body)))
    return out
