"""Places in the body: behind a stitch, before it, on another piece, through two layers."""

from __future__ import annotations

import re

from hookside.notation.bodies.chunks import Chunk, Place, Times
from hookside.notation.bodies.counts import Counts
from hookside.notation.bodies.wording.joins import THROUGH_BOTH
from hookside.notation.bodies.wording.places import (
    ALONG_EDGE,
    AN_EDGE,
    ANY_OF_PIECE,
    AROUND_IT,
    BACK_ALONG,
    BACK_OVER,
    BEGIN_AT,
    BOTH_ENDS,
    BOTH_PIECES,
    BOTH_TOGETHER,
    FOLDED,
    FOLDED_FIRST,
    FREE_LOOPS,
    FROM_NTH,
    LAYERED,
    OF_PIECE,
    ON_CHAIN,
    ON_CHAINS,
    ON_EDGE,
    ON_PIECE,
    ON_POINT,
    ON_SIZED,
    ONE_END,
    ONE_THEN_NEXT,
    PIECE,
    PIECE_BEHIND,
    SHUT_BY,
    SIDE_BEHIND,
    STARTING_IN,
    THROUGH_PARTS,
    TO_ELSEWHERE,
    TOLD_BY,
)
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS, NO_PURPOSE, PURPOSE
from hookside.notation.vocabulary import (
    ORDINAL_WORDS,
)

_LONGEST_LIST = 40  # phrases of a list of bare numbers
_PIECES = (ON_PIECE, ON_POINT, ON_SIZED, PIECE)
_IN_EACH = re.compile(r"\b(?:each|every|all) (?:of )?(?:the )?(?:sts?|stitch|stitches)\b")


def _named(what: str, which: str, told: str = "") -> str:
    """ "first leg", but "leg 1"; "around the first leg" where it is told so."""
    behind = which.isdecimal() or which in ("one", "two", "a", "b")
    name = f"{what} {which}" if behind else f"{which} {what}".strip()
    around = re.match(r"(?:around|round)\b", told) and what not in ("loops", "point", "points")
    return f"around {'' if behind else 'the '}{name}" if around else name


class Elsewhere(Counts):
    """Writes places down, and tells those that are not on the course below."""

    def elsewhere(self, at: int) -> int | None:
        """Two layers at once, another piece's stitches, the chain between two pieces."""
        tok = self.toks[at]
        if tok.text not in TO_ELSEWHERE:
            return None
        match = THROUGH_BOTH.match(self.low, tok.start) if self.out.over_part and self.after_stitch() else None
        if match:
            self.out.asides.append(match.span())
            return self.token_after(match.end(), at)
        told = TOLD_BY.match(self.low, tok.start) if self.after_stitch() else None
        if told:
            self.emit("PLACE", Place("one", noun="st", start=tok.start, end=told.end()), *told.span())
            return self.token_after(told.end(), at)
        told = ANY_OF_PIECE.match(self.low, tok.start) if self.after_stitch() else None
        if told is None and self.out.elsewhere and self.after_stitch():
            told = AROUND_IT.match(self.low, tok.start)
        if told:
            self.out.elsewhere = True
            named = told.groupdict()
            noun = _named(named["what"], named["which"] or named["no"] or "") if named else "leg"
            if named and self.last_type() == "ST" and [c.type for c in self.out.chunks[-2:-1]] != ["NB"]:
                self.emit("NA", (1, *told.span()), *told.span())
            self.emit("PLACE", Place("piece", noun=noun, start=tok.start, end=told.end()), *told.span())
            return self.token_after(told.end(), at)
        match = LAYERED.match(self.low, tok.start)
        if match:
            self.out.layers = True
            return self.token_after(match.end(), at)
        match = FREE_LOOPS.match(self.low, tok.start)
        if match:
            self.out.elsewhere = True
            past = self.token_after(match.end(), at)
            many = re.search(r"\b(?<!\. )(\d{1,3}) (?!\d)(?=[a-z -]*loop|[a-z -]*lp)", match[0])
            each = re.search(r"\b(?:each|every|all)\b", match[0]) is not None
            n = int(many[1]) if many else 1
            place = Place("piece", n=n, each=each, noun="loops", start=tok.start, end=match.end())
            before = self._place_then_stitch_behind(past)
            self.emit("PLACEPRE" if before else "PLACE", place, *match.span())
            return past + (before and self.word(past) in (",", ":"))
        taken = self.with_part(at)
        if taken is not None:
            return taken
        match = BOTH_ENDS.match(self.low, tok.start)
        if match and self.after_stitch():
            self.emit("PLACE", Place("ends", start=tok.start, end=match.end()), *match.span())
            return self.token_after(match.end(), at)
        match = ONE_END.match(self.low, tok.start) if self._shapes_alone() else None
        if match:
            place = Place("ends", n=1 if match["which"] != "end" else 2, noun="one", start=tok.start, end=match.end())
            self.emit("PLACE", place, *match.span())
            return self.token_after(match.end(), at)
        match = ON_EDGE.match(self.low, tok.start) if self._counted_on() else None
        if match:
            self.out.elsewhere = True
            noun = f"{match['which']}{match['what']}"
            self.emit("PLACE", Place("piece", noun=noun, start=tok.start, end=match.end()), *match.span())
            return self.token_after(match.end(), at)
        match = ALONG_EDGE.match(self.low, tok.start)
        if match and self.after_stitch():
            return self.token_after(match.end(), at)
        past = self.token_after(match.end(), at) if match and self.at_clause_start() else at
        chained = any(c.type == "PLACE" and c.value.kind == "hook" for c in self.out.chunks)
        if match and past > at and chained and self.word(past) in (":", ","):
            self.emit("MARK", ("other side", None), *match.span())  # "then along the bottom: sc 2"
            return past + 1
        both = BOTH_PIECES.match(self.low, tok.start)
        if both and self.last_type() == "ST":
            self.out.elsewhere = True
            key = self.out.chunks[-1].value
            for first in (True, False):
                if not first:
                    self.emit("SEP", None, both.end(), both.end())
                    self.emit("ST", key, *both.span())
                place = Place("piece", noun="leg", start=both.start(), end=both.end())
                self.emit("PLACE", place, *both.span())
            return self.token_after(both.end(), at)
        match = ON_CHAINS.match(self.low, tok.start) if self.out.elsewhere and self.after_stitch() else None
        if match and (match["each"] or match["both"] or match["n"] or match["after"] or "side" in match[0]):
            n = 2 if match["both"] else int(match["n"] or match["after"] or 1)
            place = Place("chain", n=n, each=bool(match["each"]), start=tok.start, end=match.end())
            self.emit("PLACE", place, *match.span())
            return self.token_after(match.end(), at)
        match = next((m for rule in _PIECES if (m := rule.match(self.low, tok.start))), None)
        place = Place("piece", start=tok.start)
        if match is None:
            match = ON_CHAIN.match(self.low, tok.start) if self.after_stitch() else None
            if match is None:
                return None
            chained = self._chained()
            if (
                ("each" in match[0] and not (chained and self.out.elsewhere))
                or not (chained or self.out.elsewhere)
                or any(c.type == "PLACE" and c.value.kind == "hook" for c in self.out.chunks)
            ):
                return None
            place.kind, place.each = "chain", "each" in match[0]
        else:
            self.out.elsewhere = True
            place.noun = _named(match["what"], match["which"] or "", match[0])
            place.each = bool(_IN_EACH.search(match[0]))
        past = self.token_after(match.end(), at)
        place.end = match.end()
        if self.after_stitch():
            if place.kind == "piece" and self.last_type() in ("PLACE", "ANDPLACE"):
                told = self.out.chunks[-1].value
                if isinstance(told, Place) and told.kind in ("next", "fill") and not told.last:
                    told.kind, told.noun, told.end = "piece", place.noun, place.end  # "in each st of leg 1"
                return past
            if place.kind == "piece" and ONE_THEN_NEXT.match(self.low, place.end) and self.last_type() == "ST":
                self.emit("NA", (1, place.start, place.end), place.start, place.end)
            self.emit("PLACE", place, place.start, place.end)
        elif place.kind == "piece":
            self.out.asides.append((place.start, place.end))
        else:
            return None
        if self.word(past) in (":",):
            past += 1
        return past

    def _chained(self) -> bool:
        """Have two chains or more been told, that something can go along?"""
        chunks = self.out.chunks
        for at, chunk in enumerate(chunks):
            if chunk.type == "ST" and chunk.value == "ch":
                near = (*chunks[max(0, at - 1) : at], *chunks[at + 1 : at + 2])
                beside = [c.value[0] for c in near if c.type in ("NA", "NB")]
                if any(n > 1 for n in beside):
                    return True
        return False

    def folded(self, at: int) -> int | None:
        """ "fold flat and", "close the arm with": before stitches that go through two layers at once."""
        start = self.toks[at].start
        first = FOLDED_FIRST.match(self.low, start)
        if first is not None:
            self.out.layers = True
            self.out.asides.append(first.span())
            return self.token_after(first.end(), at)
        match = FOLDED.match(self.low, start)
        if match is None:
            return None
        through = LAYERED.search(match["rest"]) or BOTH_TOGETHER.search(match["rest"])
        flat = re.search(r"\b(?:flat(?:ten)?|in half|together|opening|both)\b", match[0] + match["rest"])
        shut = re.match(r"(?:now |then |and )*(?:close|seal|shut)\b", match[0])
        if not (through or flat or shut):
            return None
        self.out.layers = True
        self.out.asides.append((start, match.end()))
        return self.token_after(match.end(), at)

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

    def with_part(self, at: int) -> int | None:
        """ "5 sc through arm and body", "5 sc joining the first arm": stitches of this course all the same."""
        match = THROUGH_PARTS.match(self.low, self.toks[at].start)
        if match is None or not self.after_stitch() or LAYERED.search(match[0]):
            return None
        self.out.asides.append(match.span())
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
        if self.depth or last not in (["NB", "ST"], ["ST", "NA"]) or not AN_EDGE.search(self.low):
            return False
        return not any(c.type == "PLACE" and c.value.kind == "hook" for c in self.out.chunks)

    def _crosses(self, match: re.Match[str]) -> bool:
        """ "3 sc in last ch, hdc in next 4 on the other side": the side is told behind the first stitches of it."""
        chunks = self.out.chunks
        clause = next((i for i in range(len(chunks) - 1, -1, -1) if chunks[i].type == "SEP"), None)
        if self.depth or clause is None or any(c.type == "MARK" and c.value[0] == "other side" for c in chunks):
            return False
        if not any(c.type in ("PLACE", "PLACEPRE") and c.value.kind == "hook" for c in chunks[:clause]):
            return False
        chunks.insert(clause + 1, Chunk("MARK", ("other side", None), *match.span()))
        return True

    def tail(self, at: int) -> int | None:
        """What may stand behind stitches without being work: "... to close it", "... for the neck"."""
        start = self.toks[at].start
        if self.out.layers and self.after_stitch() and (match := SHUT_BY.match(self.low, start)):
            return self.token_after(match.end(), at)
        match = SIDE_BEHIND.match(self.low, start) if self.last_type() in ("ST", "NA", "PLACE") else None
        if match and self._crosses(match):
            past = self.token_after(match.end(), at)
            kinds = [c.type for c in self.out.chunks[-2:]]
            if kinds[-1:] == ["ST"] and kinds[:1] != ["NB"]:  # "sc along the other side": in each ch of it
                fill = self.fill_tail(past)
                place = Place("fill", each=True, last=fill[1] if fill else 0, start=match.start(), end=match.end())
                self.emit("PLACE", place, *match.span())
                past = fill[0] if fill else past
            return past
        match = BOTH_TOGETHER.match(self.low, start) if self.last_type() == "ST" else None
        if match:
            self.out.layers = True
            return self.token_after(match.end(), at)
        match = STARTING_IN.match(self.low, start) if self.last_type() in ("ST", "NA") else None
        if match:
            n = int(match["n"]) if match["n"] else ORDINAL_WORDS[match["word"]]
            self.emit("PLACE", Place("hook", n=n, each=True, start=start, end=match.end()), start, match.end())
            return self.token_after(match.end(), at)
        match = BACK_OVER.match(self.low, start) if self.last_type() in ("ST", "NA") else None
        if match:
            nth = match["nth"] or "2"
            chained = any(c.type == "ST" and c.value == "ch" for c in self.out.chunks)
            n = int(nth) if nth.isdecimal() else ORDINAL_WORDS[nth]
            kind = "hook" if self.last_type() == "NA" and chained else "fill"
            place = Place(kind, n=n if kind == "hook" else 1, each=True, start=start, end=match.end())
            place.hook = n if chained and kind == "fill" else 0
            if chained or self.last_type() == "ST":
                self.emit("PLACE", place, start, match.end())
            return self.token_after(match.end(), at)
        match = PURPOSE.match(self.low, start) if self._all_round() else None
        if match and not NO_PURPOSE.search(match["what"]) and not re.search(r"\d", match[0]):
            self.out.asides.append(match.span())
            return self.token_after(match.end(), at)
        return None

    def _all_round(self) -> bool:
        """Has what was told last gone all the way?"""
        chunks = [c for c in self.out.chunks[-2:] if c.type != "SEP"]
        if not chunks or self.depth:
            return False
        last = chunks[-1].value
        fills = last.fill if isinstance(last, Times) else isinstance(last, Place) and last.kind == "fill"
        return fills and not last.last

    @staticmethod
    def _told_again(before: Place, place: Place) -> bool:
        """ "2 d.c. in each d.c. all round", "in each sc, all the way round": the same stitches."""
        return before.kind == "fill" and before.each and not (before.last or place.last or place.each or place.noun)

    def _place_then_stitch(self, at: int, close: bool = False) -> bool:
        """Does a stitch follow the place here, with no comma between them if `close`?"""
        placed = self.place(at)
        if not placed:
            return False
        here = placed[1]
        single = ("hook", "next", "one", "first", "last", "same", "ring")
        if not close and self.word(here) in (",", ":") and placed[0].kind in single:
            here += 1
        if self.word(here) in ("(", "["):
            return self.stitchy(here)
        return (
            (self.kind(here) == "stitch" and self.toks[here].key not in ("turn", "join", "skip"))
            or (self.kind(here) == "number" and self._stitch_at(here + 1))
            or (self.word(here) in ("work", "make") and self.stitchy(here))
        )

    def _place_then_stitch_behind(self, past: int) -> bool:
        """Do the stitches that go into a place stand behind it?"""
        past += self.word(past) in (",", ":")
        return self.at_clause_start() and self.stitchy(past)

    def and_place(self, at: int) -> int:
        placed = self.place(at)
        assert placed is not None
        self.emit("ANDPLACE", placed[0], placed[0].start, placed[0].end)
        return placed[1]

    def _is_list(self) -> bool:
        """Two stitches or more so far, none of them all the way round yet: "sc in next st, dc in next st, around"."""
        fills = any(c.type in ("PLACE", "ANDPLACE") and c.value.kind == "fill" for c in self.out.chunks)
        return not self.depth and not fills and sum(c.type in ("ST", "BARE") for c in self.out.chunks) > 1

    def _is_bare_list(self) -> bool:
        """ "1, 1, 2 around": nothing but numbers so far, so that all of them go round."""
        if self.depth or len(self.out.chunks) > _LONGEST_LIST:
            return False
        kinds = [c.type for c in self.out.chunks]
        return kinds.count("BARE") > 1 and not {"ST", "OPEN", "STARO"}.intersection(kinds)

    def _along_from(self, at: int, place: Place, past: int) -> int:
        """ "ch 7, sc from 2nd ch", "6 sc from 2nd ch", "sc in each ch from 2nd ch": from that chain on, all the way."""
        told = FROM_NTH.search(self.low, place.start, place.end)
        if told is None or (place.kind != "hook" and not (place.kind == "fill" and place.each)):
            return past
        on = past + (self.word(past) in ("on", "onward", "onwards", "across", "along"))
        begins = self.word(at) == "from" and self.word(on) in (*CLAUSE_ENDS, "turn") and self.last_type() == "ST"
        if begins and [c.type for c in self.out.chunks[-2:-1]] == ["NB"]:
            place.each = True
            return on
        if place.kind == "fill" or begins:
            place.kind, place.each, place.noun, place.n = "fill", True, "ch", 1
            place.hook = int(told["n"]) if told["n"] else ORDINAL_WORDS[told["word"]]
            return on
        return past

    def place_chunk(self, at: int, place: Place, past: int, clause: bool) -> int:
        place.over = self.word(at) == "over"
        place.all_in = self.word(at - 1) in ("all", "both")
        around = PIECE_BEHIND.match(self.low, place.end) if place.kind == "fill" and place.each else None
        if around is not None and self.low[: place.end].endswith("around"):  # "in each st around leg 1"
            self.out.elsewhere = True
            place.end = around.end()
            past = self.token_after(place.end, past - 1)
        if place.kind in ("next", "fill") and self.out.elsewhere and not place.last:
            part = OF_PIECE.search(self.low[place.start : place.end])
            if part is not None:
                place.kind = "piece"
                place.noun = _named(part["what"] or part["named"], part["which"] or part["no"], part[0])
        if place.kind in ("next", "fill", "one", "space") and past < self.count:
            match = STARTING_IN.match(self.low, self.toks[past - 1].end)
            if match:
                place.hook = int(match["n"]) if match["n"] else ORDINAL_WORDS[match["word"]]
                past = self.token_after(match.end(), past)
        past = self._along_from(at, place, past)
        if clause and self._place_then_stitch(at):
            before = self.word(at - 1)
            if place.kind == "hook" and (
                before in ("starting", "beginning", "start", "begin", "from", "working") or self.word(at) == "from"
            ):
                place.each = True
            self.emit("PLACEPRE", place, place.start, place.end)
            while self.word(past) in ("work", "make", ",", ":"):
                past += 1
            return past
        if place.kind == "fill" and not place.each and self._is_bare_list():
            if self.last_type() == "SEP":
                self.out.chunks.pop()
            self.emit("REPALL", Times(fill=True, last=place.last), place.start, place.end)
            return past
        if self.last_type() in (
            "ST",
            "NA",
            "CLOSE",
            "STARC",
            "PLACE",
            "TIMES",
            "LOOPSPOST",
            "COLOURPOST",
            "BARE",
            "ANDPLACE",
        ):
            self.emit("PLACE", place, place.start, place.end)
            return past
        if (
            self.last_type() == "SEP"
            and len(self.out.chunks) > 1
            and self.out.chunks[-2].type in ("PLACE", "ANDPLACE", "CLOSE", "STARC", "NA", "ST", "TIMES")
        ):
            previous = self.out.chunks[-2].type
            if previous == "PLACE" and place.kind == "fill" and self._told_again(self.out.chunks[-2].value, place):
                self.out.chunks.pop()
                return past
            if previous in ("PLACE", "ANDPLACE") and place.kind == "fill" and not place.each and self._is_list():
                self.emit("REPALL", Times(fill=True, last=place.last), place.start, place.end)
                return past
            if previous in ("PLACE", "ANDPLACE", "NA", "ST") or place.kind == "fill":
                self.out.chunks.pop()
                self.emit("ANDPLACE" if previous in ("PLACE", "ANDPLACE") else "PLACE", place, place.start, place.end)
                return past
        self.out.unknown.append((place.start, place.end))
        return past
