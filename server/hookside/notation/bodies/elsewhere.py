"""Places on another piece, and on the chain between two pieces."""

from __future__ import annotations

import re

from hookside.notation.bodies.bothends import BothEnds
from hookside.notation.bodies.chunks import Chunk, Place
from hookside.notation.bodies.placed import piece_named
from hookside.notation.bodies.wording.places import (
    AND_CHAINS,
    ANY_OF_PIECE,
    AROUND_IT,
    BARE_PIECE,
    BOTH_PIECES,
    ON_CHAIN,
    ON_CHAINS,
    ON_PIECE,
    ON_POINT,
    ON_SIZED,
    ONE_THEN_NEXT,
    PIECE,
    TO_ELSEWHERE,
    TOLD_BY,
)

_PIECES = (ON_PIECE, ON_POINT, ON_SIZED, PIECE)
_WHICH = frozenset(["first", "second", "left", "right", "other"])
_IN_EACH = re.compile(r"\b(?:each|every|all) (?:of )?(?:the )?(?:sts?|stitch|stitches)\b")


_SHAPING = frozenset(["inc", "dec", "inv dec"])


class Elsewhere(BothEnds):
    """Tells the places that are not on the course below."""

    def elsewhere(self, at: int) -> int | None:
        """Two layers at once, another piece's stitches, the chain between two pieces: the first that fits here."""
        if self.toks[at].text not in TO_ELSEWHERE:
            return self._names_piece(at) if self.toks[at].text in _WHICH else None
        for told in (
            self.over_part,
            self._told_by,
            self._around_piece,
            self.through_layers,
            self.in_free_loops,
            self.with_part,
            self.at_the_ends,
            self.along_the_edge,
            self._on_both_pieces,
            self._on_chains,
            self._on_piece,
            self._on_chain,
        ):
            past = told(at)
            if past is not None:
                return past
        return None

    def _names_piece(self, at: int) -> int | None:
        """ "12 sc left leg, 3 sc on ch": the piece without the word that leads to it."""
        match = BARE_PIECE.match(self.low, self.toks[at].start) if self.after_stitch() else None
        if match is None:
            return None
        self.out.elsewhere = True
        place = Place("piece", noun=piece_named(match["what"], match["which"], match[0]), start=match.start())
        place.end = match.end()
        self.emit("PLACE", place, *match.span())
        return self.token_after(match.end(), at)

    def _told_by(self, at: int) -> int | None:
        """A stitch told by what marks it: "in the stitch with the marker"."""
        told = TOLD_BY.match(self.low, self.toks[at].start) if self.after_stitch() else None
        if told is None:
            return None
        self.emit("PLACE", Place("one", noun="st", start=told.start(), end=told.end()), *told.span())
        return self.token_after(told.end(), at)

    def _around_piece(self, at: int) -> int | None:
        """ "sc around the first leg", and "around it" once a piece was told."""
        if not self.after_stitch():
            return None
        start = self.toks[at].start
        told = ANY_OF_PIECE.match(self.low, start)
        if told is None and self.out.elsewhere:
            told = AROUND_IT.match(self.low, start)
        if told is None:
            return None
        self.out.elsewhere = True
        named = told.groupdict()
        noun = piece_named(named["what"], named["which"] or named["no"] or "") if named else "leg"
        if named and self.last_type() == "ST" and [c.type for c in self.out.chunks[-2:-1]] != ["NB"]:
            self.emit("NA", (1, *told.span()), *told.span())
        self.emit("PLACE", Place("piece", noun=noun, start=start, end=told.end()), *told.span())
        return self.token_after(told.end(), at)

    def _on_both_pieces(self, at: int) -> int | None:
        """ "sc around both legs": once around each."""
        both = BOTH_PIECES.match(self.low, self.toks[at].start)
        if both is None or self.last_type() != "ST":
            return None
        self.out.elsewhere = True
        key = self.out.chunks[-1].value
        for first in (True, False):
            if not first:
                self.emit("SEP", None, both.end(), both.end())
                self.emit("ST", key, *both.span())
            place = Place("piece", noun="leg", start=both.start(), end=both.end())
            self.emit("PLACE", place, *both.span())
        chains = AND_CHAINS.match(self.low, both.end())
        if chains is None:
            return self.token_after(both.end(), at)
        for _ in range(2):
            self.emit("SEP", None, both.end(), both.end())
            self.emit("ST", key, *chains.span())
            self.emit("PLACE", Place("chain", each=True, start=chains.start(), end=chains.end()), *chains.span())
        return self.token_after(chains.end(), at)

    def _on_chains(self, at: int) -> int | None:
        """ "in each ch", "in the next 3 ch" of the chain between two pieces."""
        start = self.toks[at].start
        match = ON_CHAINS.match(self.low, start) if self.out.elsewhere and self.after_stitch() else None
        told = match is not None and any(match[name] for name in ("each", "both", "n", "after", "where"))
        if match is None or not (told or "side" in match[0]):
            return None
        n = 2 if match["both"] else int(match["n"] or match["after"] or 1)
        place = Place("chain", n=n, each=bool(match["each"]), start=start, end=match.end())
        self.emit("PLACE", place, *match.span())
        return self.token_after(match.end(), at)

    def _on_piece(self, at: int) -> int | None:
        """ "in the next 12 sts of the first leg"; said before the stitches it is no work."""
        start = self.toks[at].start
        match = next((m for rule in _PIECES if (m := rule.match(self.low, start))), None)
        if match is None:
            return None
        self.out.elsewhere = True
        noun = piece_named(match["what"], match["which"] or "", match[0])
        place = Place("piece", noun=noun, each=bool(_IN_EACH.search(match[0])), start=start, end=match.end())
        past = self.token_after(match.end(), at)
        if not self.after_stitch():
            self.out.asides.append((place.start, place.end))
            return self._past_colon(past)
        if self.last_type() in ("PLACE", "ANDPLACE"):
            told = self.out.chunks[-1].value
            if isinstance(told, Place) and told.kind in ("next", "fill") and not told.last:
                told.kind, told.noun, told.end = "piece", place.noun, place.end  # "in each st of leg 1"
            return past
        if ONE_THEN_NEXT.match(self.low, place.end) and self.last_type() == "ST":
            self.emit("NA", (1, place.start, place.end), place.start, place.end)
        self.emit("PLACE", place, place.start, place.end)
        return self._past_colon(past)

    def _on_chain(self, at: int) -> int | None:
        """ "sc along the chain" that was made in this course."""
        start = self.toks[at].start
        match = ON_CHAIN.match(self.low, start) if self.after_stitch() else None
        if match is None:
            return None
        chained = self.chained()
        each = "each" in match[0]
        if each and not (chained and self.out.elsewhere):
            return None
        if any(c.type == "PLACE" and c.value.kind == "hook" for c in self.out.chunks):
            return None
        if not (chained or self.out.elsewhere):
            if not self._told_many():
                return None
            self.out.asides.append(match.span())  # the bridge of the round below: so many of its stitches
            return self._past_colon(self.token_after(match.end(), at))
        if self.fill_the_chain():
            self.out.asides.append(match.span())
            return self._past_colon(self.token_after(match.end(), at))
        place = Place("chain", each=each, start=start, end=match.end())
        self.emit("PLACE", place, place.start, place.end)
        return self._past_colon(self.token_after(match.end(), at))

    def _past_colon(self, at: int) -> int:
        return at + (self.word(at) == ":")

    def _told_many(self) -> bool:
        """Does an amount stand with the stitch that has just been told: "3 sc", "sc 3"?"""
        last = self.out.chunks[-2:]
        return [c.type for c in last] in (["NB", "ST"], ["ST", "NA"]) and all(
            c.value[0] > 1 for c in last if c.type != "ST"
        )

    def fill_the_chain(self) -> bool:
        """ "ch 6, sl st, sc, hdc, sc, sl st along the chain": are the stitches told since it as many as its chains but
        the one at the hook? Then all of them go along it, and not the last of them alone."""
        chunks = self.out.chunks
        at = max((i for i, c in enumerate(chunks) if c.type == "ST" and c.value == "ch"), default=len(chunks))
        behind = chunks[at + 1 :]
        if behind[:1] and behind[0].type == "NA":
            length, behind = behind[0].value[0], behind[1:]
        else:
            length = chunks[at - 1].value[0] if 0 < at < len(chunks) and chunks[at - 1].type == "NB" else 0
        begins = [c.value.n for c in behind if c.type == "PLACEPRE" and c.value.kind == "hook"]  # "from the 2nd ch"
        behind = [c for c in behind if c.type != "SEP" and not (begins and c.type == "PLACEPRE")]
        stitches = [c for c in behind if c.type == "ST"]
        if len(stitches) < 2 or any(c.type not in ("ST", "NA", "NB") or c.value in _SHAPING for c in behind):
            return False
        told = [c.value[0] for c in behind if c.type in ("NA", "NB")]
        if sum(told) + len(stitches) - len(told) != length - (begins[0] if begins else 2) + 1:
            return False
        if begins:
            return True
        first = next(i for i in range(at + 1, len(chunks)) if chunks[i].type in ("ST", "NB"))
        start = chunks[first].start
        chunks.insert(first, Chunk("PLACEPRE", Place("hook", n=2, each=True, start=start, end=start), start, start))
        return True

    def chained(self) -> bool:
        """Have two chains or more been told, that something can go along?"""
        chunks = self.out.chunks
        for at, chunk in enumerate(chunks):
            if chunk.type == "ST" and chunk.value == "ch":
                near = (*chunks[max(0, at - 1) : at], *chunks[at + 1 : at + 2])
                beside = [c.value[0] for c in near if c.type in ("NA", "NB")]
                if any(n > 1 for n in beside):
                    return True
        return False
