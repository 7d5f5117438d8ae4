"""A place that was read, beside the stitches it belongs to: behind them, before them, joined to another place."""

from __future__ import annotations

import re
from dataclasses import replace

from hookside.notation.bodies.chunks import Chunk, Place, Times
from hookside.notation.bodies.counts import Counts
from hookside.notation.bodies.wording.places import FROM_NTH, OF_PIECE, PIECE_BEHIND, STARTING_IN
from hookside.notation.bodies.wording.stretches import BUT_FIRST, CLAUSE_ENDS
from hookside.notation.vocabulary import ORDINAL_WORDS, number_of

_AMOUNTS = ("NA", "TIMES")
_LONGEST_LIST = 40  # phrases of a list of bare numbers
_AGAIN = re.compile(r"\b(?:again|then|once more|twice)\b")
_NEAR = 12  # letters behind a place in which "again" is said of it

# "7 sc, the first in the 2nd chain from the hook", "4 sc, beginning with the second chain"
_FROM_THERE = re.compile(r"\b(?:the first|start(?:ing)?|begin(?:ning)?)(?: (?:in|into|with|from|at))? ?(?:the )?$")


def piece_named(what: str, which: str, told: str = "") -> str:
    """ "first leg", but "leg 1"; "around the first leg" where it is told so."""
    behind = which.isdecimal() or which in ("one", "two", "a", "b")
    name = f"{what} {which}" if behind else f"{which} {what}".strip()
    around = re.match(r"(?:around|round)\b", told) and what not in ("loops", "point", "points")
    return f"around {'' if behind else 'the '}{name}" if around else name

class Placed(Counts):
    """Writes places down."""

    def _told_again(self, place: Place) -> bool:
        """ "2 dc in each dc all round", "sc around, one in each st", "sc around, working into the chs": told twice."""
        at = len(self.out.chunks) - 1
        if at > 0 and self.last_type() in ("NB", "BARE") and self.out.chunks[at].value[0] == 1:
            at -= 1
        at -= at >= 0 and self.out.chunks[at].type == "SEP"
        if place.kind != "fill" or place.last or at < 0 or self.out.chunks[at].type != "PLACE":
            return False
        before: Place = self.out.chunks[at].value
        if before.kind != "fill" or before.last or (before.each and (place.each or place.noun)):
            return False
        into = self.low.startswith("in", place.start)  # ... and not "around, then around again"
        if not (before.each or place.each or into) or _AGAIN.search(self.low, before.end, place.end + _NEAR):
            return False
        del self.out.chunks[at + 1 :]
        if place.each:
            self.out.chunks[at].value = replace(place, start=before.start)
        return True

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
        if self.word(here) == "*":
            return self.stitchy(here + 1)
        return (
            (self.kind(here) == "stitch" and self.toks[here].key not in ("turn", "join", "skip"))
            or (self.kind(here) == "number" and self._stitch_at(here + 1))
            or (self.word(here) in ("work", "make") and self.stitchy(here))
            or (placed[0].kind == "hook" and self._bare(here))
        )

    def _bare(self, at: int) -> bool:
        """ "from 2nd ch: 21A, turn", "from the second chain 12": a number alone, or with the letter of its colour."""
        behind = at + 1 + self.is_letter_colour(at + 1)
        return self.kind(at) == "number" and self.word(behind) in (*CLAUSE_ENDS, "turn")

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
        begins = self.word(at) == "from" and self.word(on) in (*CLAUSE_ENDS, "turn")
        last = self.last_type()
        told_amount = last in _AMOUNTS or (last == "ST" and [c.type for c in self.out.chunks[-2:-1]] == ["NB"])
        if begins and told_amount:
            place.each = True
            return on
        begins = begins and last == "ST"
        if place.kind == "fill" or begins:
            place.kind, place.each, place.noun, place.n = "fill", True, "ch", 1
            place.hook = int(told["n"]) if told["n"] else ORDINAL_WORDS[told["word"]]
            return on
        return past

    def _but_first(self, place: Place, past: int) -> int:
        """ "1 tr in each dc except the first": that stitch is passed over before the stretch begins."""
        told = BUT_FIRST.match(self.low, place.end) if self.last_type() == "ST" else None
        if told is None:
            return past
        chunks = self.out.chunks
        ahead = len(chunks) - (2 if [c.type for c in chunks[-2:-1]] == ["NB"] else 1)
        chunks.insert(ahead, Chunk("SKIP", (number_of(told["n"] or "1"), None, False), *told.span()))
        return self.token_after(told.end(), past)

    def _led_first(self, place: Place, past: int) -> Place | None:
        """The "2nd ch" of "from the 2nd ch: 2 sc in the first ch, ...": that first one is it; None of any other."""
        types = [chunk.type for chunk in self.out.chunks]
        at = types.index("PLACEPRE") if "PLACEPRE" in types else -1
        if place.kind != "first" or at < 0 or self.out.chunks[at].value.kind != "hook":
            return None
        if types[at + 1 :] not in (["NB", "ST"], ["ST"]) or types[:at] not in ([], ["ST", "NA", "SEP"]):
            return None
        led: Place = self.out.chunks[at].value
        return led if self.word(past) in CLAUSE_ENDS and self.word(past) != "and" else None

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
                place.noun = piece_named(part["what"] or part["named"], part["which"] or part["no"], part[0])
        if place.kind in ("next", "fill", "one", "space") and past < self.count:
            match = STARTING_IN.match(self.low, self.toks[past - 1].end)
            if match:
                place.hook = int(match["n"]) if match["n"] else ORDINAL_WORDS[match["word"]]
                past = self.token_after(match.end(), past)
        past = self._along_from(at, place, past)
        if place.kind == "hook" and _FROM_THERE.search(self.low, max(0, place.start - 24), place.start):
            place.each = True
        if place.kind == "fill" and place.each and "st" in self.low[place.end : place.end + 40]:
            past = self._but_first(place, past)
        led = self._led_first(place, past)
        if led is not None:
            led.each = False  # two stitches go into it together
            self.out.asides.append((place.start, place.end))
            return past
        if clause and self._place_then_stitch(at):
            before = self.word(at - 1)
            if place.kind == "hook" and (
                before in ("starting", "beginning", "start", "begin", "from", "working") or self.word(at) == "from"
            ):
                place.each = True
            if place.kind == "hook" and self.word(at) not in ("in", "into") and self.word(past) in (",", ":"):
                place.each = True  # "2nd ch from hook, 9 sc": along the chain, where there is room
            ahead = past
            while self.word(ahead) in ("work", "make", ",", ":"):
                ahead += 1
            if place.kind == "ring" and self.word(ahead) == "*":
                # "in a magic ring work *3 dc, ch 2*, four times"
                self.emit("MARK", ("ring", None), place.start, place.end)
            else:
                self.emit("PLACEPRE", place, place.start, place.end)
            return ahead
        if place.kind == "fill" and not place.each and self._is_bare_list():
            if self.last_type() == "SEP":
                self.out.chunks.pop()
            self.emit("REPALL", Times(fill=True, last=place.last), place.start, place.end)
            return past
        if self._told_again(place):
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
            and self.out.chunks[-2].type in ("PLACE", "ANDPLACE", "CLOSE", "STARC", "NA", "ST", "TIMES", "LOOPSPOST")
        ):
            previous = self.out.chunks[-2].type
            if previous in ("PLACE", "ANDPLACE") and place.kind == "fill" and not place.each and self._is_list():
                self.emit("REPALL", Times(fill=True, last=place.last), place.start, place.end)
                return past
            if previous in ("PLACE", "ANDPLACE", "NA", "ST") or place.kind == "fill":
                self.out.chunks.pop()
                self.emit("ANDPLACE" if previous in ("PLACE", "ANDPLACE") else "PLACE", place, place.start, place.end)
                return past
        self.out.unknown.append((place.start, place.end))
        return past
