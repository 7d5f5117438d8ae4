"""Numbers in a body: an amount before or behind its stitch, a multiplier, a printed count, a bare digit."""

from __future__ import annotations

import re

from hookside.notation.bodies.chunks import Chunk, Doubt, Times
from hookside.notation.bodies.signs import Signs
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS
from hookside.notation.vocabulary import COURSE_WORDS

_BESIDE = frozenset({"ch", "turn", "join", "sl st"})  # beside a list of amounts in colours, not what it counts
_STARRED = re.compile(r"\d\*[a-z]")
_SHAPES = frozenset({"inc", "dec", "inv dec"})  # what stands among bare numbers


_EVEN = ("even", "plain", "straight")
_OF_THEIR_OWN = ("TIMES", "MARK")  # of a round that shapes, or of a ring: none that is worked for more rounds


def _ringed(chunk: Chunk) -> bool:
    return chunk.type == "PLACE" and chunk.value.kind == "ring"


class Amounts(Signs):
    """What a number stands for, by what stands around it."""

    def no_amount(self, at: int) -> bool:
        """ "2.5 sc", "x 0.5": a number, but not of stitches."""
        if self._decimal(at + 1):
            return (
                self._stitch_at(at + 3) or self.is_noun(at + 3) or self.last_type() in ("ST", "CLOSE", "STARC", "NA")
            ) and self.kind(at + 4) != "number"
        return False

    def _of_colour(self, at: int) -> bool:
        """ "10A, 10B": a letter of a colour glued to its number, in a list of such."""
        if at >= self.count or self.kind(at) != "word" or self.toks[at].start != self.toks[at - 1].end:
            return False
        alone = self.word(at + 1) in ("", ",", ";", ".", "(", "[", ")", "]") or self.kind(at + 1) == "stitch"
        told = self.word(at) in self.names.colours or not any(
            t.kind == "stitch" and t.key not in _BESIDE for t in self.toks
        )
        return alone and told and self.is_letter_colour(at)

    def _opens_with_count(self, at: int) -> int | None:
        """ "24 = (2 sc, inc) x 6", "24 sts: sc around", "6 sts. MR, 6 sc": the count first -> past its sign."""
        if at:
            return None
        past = 2 if self.word(1) in ("sts", "stitches") else 1
        told = self.word(past) == "=" or (past > 1 and self.word(past) == ":")
        if past > 1 and self.word(past) in (".", "-") and past + 1 < self.count:
            begins = self.kind(past + 1) == "number" or self.toks[past + 1].key == "ring"
            begins = begins or self.word(past + 1) in ("in", "into", "make", "start", "with")
            told = begins or (self.word(past) == "." and self.stitchy(past + 1))
        return past + 1 if told and past + 1 < self.count else None

    def _before_its_count(self, at: int) -> bool:
        """ "42 (42)", "1, inc, 6 (9)": plain stitches in a list of bare numbers, and the count behind them."""
        here = at + 1
        closing = self.close_of(here) if self.word(here) in ("(", "[", "{") else None
        told = self.is_count(here, closing) if closing is not None else None
        signed = self.word(here) in ("-", "=", "|", "/") and self.kind(here + 1) == "number"
        if signed and self._past_count(here + 1) >= self.count:
            return self.last_type() == "SEP" and not self.depth  # "inc, 4 - 6", "1, dec, 9 = 11 sts"
        if told is None or closing is None or self.times(closing + 1):
            return False
        shaped = all(c.value in _SHAPES for c in self.out.chunks if c.type == "ST")  # "1 inc, 4 (6)"
        listed = self.last_type() == "SEP" and (shaped or any(c.type == "BARE" for c in self.out.chunks))
        return self.toks[told].value == self.toks[at].value or (listed and self.word(closing + 1) in CLAUSE_ENDS)

    def _in_colour(self, at: int, here: int, past: int) -> int | None:
        """ "6 white sc", "6 white, 6 blue": an amount and its colour, whose name ends before token `past`."""
        tok = self.toks[at]
        start, end = self.toks[here].start, self.toks[past - 1].end
        name = (self.body[start:end], start, end)
        if self._stitch_at(past) and self.colour_name(here) is not None:
            self.emit("NB", (tok.value, tok.start, tok.end), tok.start, tok.end)
            stitch = self.toks[past]
            self.emit("ST", stitch.key, stitch.start, stitch.end)
            self.emit("COLOURPOST", *name)
            return past + 1
        if self.word(past) in CLAUSE_ENDS and not any(t.kind == "stitch" for t in self.toks[: self._list_end()]):
            self.emit("BARE", (tok.value, tok.start, tok.end), tok.start, tok.end)
            self.emit("COLOURPOST", *name)
            return past
        return None

    def _list_end(self) -> int:
        """The token at which the list of a body ends and its count begins."""
        return next((i for i, t in enumerate(self.toks) if t.text in ("(", "[", "{") and i), self.count)

    def _enclosed(self, at: int) -> int | None:
        """ "11(sc), 2(inc)", "11*sc, 2*inc": an amount whose stitch a bracket or a star sets off."""
        tok, here = self.toks[at], at + 1
        if not self.at_clause_start() or not self._stitch_at(here + 1) or self.toks[here].start != tok.end:
            return None
        if self.word(here) == "(" and self.word(here + 2) == ")":
            past = here + 3
        elif self.word(here) == "*" and self.low.count("*") == len(_STARRED.findall(self.low)):
            past = here + 2
        else:
            return None
        if self.word(past) not in CLAUSE_ENDS or self.toks[here + 1].key in ("turn", "join", "skip"):
            return None
        self.number_first = True
        self.emit("NB", (tok.value, tok.start, tok.end), tok.start, tok.end)
        self.emit("ST", self.toks[here + 1].key, self.toks[here + 1].start, self.toks[here + 1].end)
        return past

    def _own_place(self, at: int, here: int) -> bool:
        """Are the number and the stitch behind it worked into one stitch that is named?"""
        placed = self.place(here + 1) if self._stitch_at(here) and self.toks[at].value in (2, 3) else None
        return placed is not None and placed[0].n == 1 and placed[0].kind in ("next", "one", "same", "first", "last")

    def _glued_on(self, at: int) -> bool:
        """Does a number touch the stitch behind it and not the one before, where none ends the list?"""
        tok, ends = self.toks[at], self._list_end()
        apart = self.toks[at - 1].end < tok.start and self.toks[at + 1].start == tok.end
        return apart and ends > at + 1 and self.kind(ends - 1) != "number"

    def _stretch_at(self, at: int) -> int | None:
        """ "6(4 sc, inc)": a number before a stretch that says no multiplier of its own -> where that closes."""
        opened = at + 1
        if self.word(opened) not in ("(", "[", "{"):
            return None
        closing = self.close_of(opened)
        if closing is None or self.is_count(opened, closing) is not None or self.times(closing + 1):
            return None
        stitches = [t for t in self.toks[opened:closing] if t.kind == "stitch"]
        worked = len(stitches) + any(" " in t.text and t.key in ("inc", "dec") for t in stitches)  # "6(2sc inc)"
        worked += self.kind(opened + 1) == "number" and self.word(opened + 2) == ","  # "6(1, inc)"
        return closing if worked > 1 and self.word(closing + 1) not in ("rep", "repeat", "in", "into") else None

    def _before_shaping(self, at: int) -> bool:
        """ "1-inc x 6", "(2-dec) 4 times": plain stitches, and what shapes behind a dash that is glued to both."""
        if self.word(at + 1) != "-" or self.kind(at + 2) != "stitch" or self.toks[at + 2].key not in ("inc", "dec"):
            return False
        tight = self.toks[at].end == self.toks[at + 1].start and self.toks[at + 1].end == self.toks[at + 2].start
        return tight and self.at_clause_start()

    def _only_turned(self) -> bool:
        """ "ch1 turn 10": is a number all that can be the row, nothing but its turn and its chain before it?"""
        chunks = self.out.chunks
        if not any(c.type == "MARK" and c.value[0] == "turn" for c in chunks):
            return False
        return all(c.type in ("MARK", "SEP", "NB", "NA") or (c.type == "ST" and c.value == "ch") for c in chunks)

    def number(self, at: int) -> int:
        tok = self.toks[at]
        opened = self._opens_with_count(at)
        if opened:
            self.counted(tok.value, tok.start, tok.end)
            return opened
        if self.no_amount(at):
            self.out.unknown.append((tok.start, self.toks[at + 2].end))
            return at + 3
        here = at + 1
        if self.word(here) == "v" and self.kind(here) == "word" and self.word(here + 1) in CLAUSE_ENDS:
            self.out.unknown.append((tok.start, self.toks[here].end))  # a chart's letter: twelve increases, or stitches
            return here + 1
        if self._before_shaping(at):
            self.emit("BARE", (tok.value, tok.start, tok.end), tok.start, tok.end)
            self.emit("SEP", None, tok.end, self.toks[here].end)
            return here + 1
        if (past := self.repeated(at)) is not None:
            return past
        if (past := self.so_many_of_them(at)) is not None:
            return past
        last = self.last_type()
        counted = self.times(at)
        if counted and self.list_times(at, counted):
            return counted[1]
        if counted and last in ("ST", "NA", "CLOSE", "STARC", "PLACE", "LOOPSPOST", "ANDPLACE", "COLOURPOST"):
            self.emit("TIMES", counted[0], tok.start, self.toks[counted[1] - 1].end)
            return counted[1]
        if last in ("CLOSE", "STARC") and not self._stitch_at(here) and not self.is_noun(here):
            self.emit("TIMES", Times(tok.value, number=(tok.start, tok.end)), tok.start, tok.end)
            return here
        if last == "MARK" and self.out.chunks[-1].value[0] == "ring" and not self._stitch_at(here):
            self.emit("BARE", (tok.value, tok.start, tok.end), tok.start, tok.end)
            return here
        if last == "MARK" and here >= self.count and self._only_turned():
            self.emit("BARE", (tok.value, tok.start, tok.end), tok.start, tok.end)
            return here
        ahead = self.times(at)
        if (
            ahead
            and self.word(ahead[1]) in ("(", "[", "{")
            and ahead[0].number is not None
            and last in ("", "SEP", "OPEN", "STARO", "CUE", "MARK", "COLOUR", "LOOPS")
        ):
            closing = self.close_of(ahead[1])
            counts = closing is not None and self.is_count(ahead[1], closing) is not None
            if counts and sum(self._stitch_at(i) for i in range(ahead[1], closing or 0)) > 1:
                counts = False  # "6x(1sc, 2sc)": there is nothing else to work so often
            if closing is not None and not counts and not self.times(closing + 1):
                self.prefixed[closing] = ahead[0]
                return ahead[1]
        closing = self._stretch_at(at) if ahead is None and self.at_clause_start() else None
        if closing is not None:
            self.prefixed[closing] = Times(tok.value, number=(tok.start, tok.end))
            return here
        if self.word(here) == "*" and self.word(here + 1) in ("(", "[", "{") and self.at_clause_start():
            closing = self.close_of(here + 1)
            if closing is not None:
                self.prefixed[closing] = Times(tok.value, number=(tok.start, tok.end))
                return here + 1
        opened = ahead[1] + 1 if ahead and self.word(ahead[1]) == ":" else self.count
        closing = self.close_of(opened) if self.word(opened) in ("(", "[", "{") and self.at_clause_start() else None
        if ahead and closing is not None and self.stitchy(closing + 1):
            self.prefixed[closing] = ahead[0]  # "6 times: [sc 5, inc], sc 4"
            return opened
        if (
            ahead
            and self.word(ahead[1]) == ":"
            and not self.depth
            and self.at_clause_start()
            and self.all_times is None
        ):
            self.all_times = ahead[0]
            self.emit("OPEN", "(", tok.start, tok.end)
            return ahead[1] + 1
        another = self._stitch_at(here) and self.another_round(at)
        if (
            not (self.depth or another)
            and last in ("PLACE", "TIMES", "REPFROM", "REPALL", "SEP", "CLOSE")
            and self._stitch_at(here)
            and self._filled()
            and self._ends_with_stitch(at)
        ):
            self.counted(tok.value, tok.start, tok.end)
            return here + 1
        if (
            last
            in (
                "SEP",
                "PLACE",
                "TIMES",
                "CLOSE",
                "STARC",
                "REPFROM",
                "REPALL",
                "ANDPLACE",
                "MARK",
                "LOOPSPOST",
                "COLOURPOST",
                "SKIP",
            )
            and not (self.depth or another)
            and self._ends_as_count(at)
            and not self._counted_behind(at)
            and not self.begins_side()
        ) or (last == "NA" and here == self.count and not self.depth and self.out.chunks[-1].end < tok.start):
            self.counted(tok.value, tok.start, tok.end)
            return self._past_count(at)
        if last == "COLOUR" and self._counted_behind_colour(at):
            self.counted(tok.value, tok.start, tok.end)
            return self.count
        if self.is_noun(here) and self.word(here) != "ch" and self._stitch_at(here + 1) and self.at_clause_start():
            here += 1  # "6 sts sc"
        if self._of_colour(here):
            self.emit("BARE", (tok.value, tok.start, tok.end), tok.start, tok.end)
            letter = self.toks[here]
            self.emit("COLOURPOST", self.body[letter.start : letter.end], letter.start, letter.end)
            return here + 1
        shade = self.colour_name(here) or (here + 1 if self.is_letter_colour(here) else None)
        if shade is not None:
            past = self._in_colour(at, here, shade)
            if past is not None:
                return past
        if self.word(here) == "x" and self.kind(here) == "word" and self._stitch_at(here + 1):
            here += 1
        if (past := self._enclosed(at)) is not None:
            return past
        while self.word(here) in ("more", "regular", "normal", "plain", "additional") and self._stitch_at(here + 1):
            here += 1
        between = self.loops(here)
        if self._stitch_at(here) or (between and self._stitch_at(between[0])):
            if last == "ST" and self.number_first is False and self._own_place(at, here):
                self.emit("SEP", None, tok.start, tok.start)  # "sc 2 sc in next st", "sc - 2 sc in next st"
            elif last == "ST" and self.number_first is False and self._glued_on(at):
                self.emit("SEP", None, tok.start, tok.start)  # "inc 4sc inc"
            elif last == "ST" and self.number_first is False:
                self.emit("NA", (tok.value, tok.start, tok.end), tok.start, tok.end)
                return here
            self.number_first = True
            self.emit("NB", (tok.value, tok.start, tok.end), tok.start, tok.end)
            return here
        behind = self.word(here) in (")", "]", "}", ",", ";")
        if last == "ST" and behind and isinstance(self.out.chunks[-1].value, Doubt):
            both = self.out.chunks[-1]  # "4 sc inc 1"
            if len(self.out.chunks) > 1 and self.out.chunks[-2].type == "NB":
                key, both.value = str(both.value), "sc"
                self.emit("SEP", None, tok.start, tok.start)
                self.emit("ST", key, both.start, both.end)
        before, after = self.word(at - 1), self.word(here)
        if (
            not self.depth
            and self.out.chunks
            and here >= self.count - 1
            and before in ("/", "~", "|", "_")
            and (after == before or not after)
        ):
            self.counted(tok.value, tok.start, tok.end)
            return here + 1
        led = last == "ST" and len(self.out.chunks) > 1 and self.out.chunks[-2].type == "NB"
        if led and not self.depth and here < self.count and self._past_count(at) == self.count:
            self.counted(tok.value, tok.start, tok.end)  # "6 inc 12st": it has its amount in front
            return self.count
        if last == "ST":
            self.emit("NA", (tok.value, tok.start, tok.end), tok.start, tok.end)
            if self.is_noun(here) or self.word(here) in ("times",):
                here = self.noun_phrase(here)
            return here
        if self.word(here) in ("together", "tog"):
            self.emit("ST", {2: "dec", 3: "sc3tog"}.get(tok.value, "dec"), tok.start, self.toks[here].end)
            return here + 1
        if self.word(here) in COURSE_WORDS and self.word(here + 1) not in ("end", "ends", "edges"):
            even = self.word(here + 1) in _EVEN
            if even and any(c.type in _OF_THEIR_OWN or _ringed(c) for c in self.out.chunks):
                self.out.unknown.append((tok.start, self.toks[here + 1].end))  # "5 sc in ring, 1 round plain": another
            else:
                self.out.rounds = tok.value
            return here + 1 + even
        if (
            not self.depth
            and not self.open_star
            and not self.is_noun(here)
            and not self.place(here)
            and not (self.out.layers and after in ("through", "thru"))  # "fold, 4 through both sides"
            and (
                (self.out.chunks and last not in ("SEP", "COLOUR", "LOOPS", "MARK", "CUE", "PLACEPRE"))
                or (after not in (",", ";", ".", "") and not self._before_its_count(at))
            )
        ):
            self.out.unknown.append((tok.start, tok.end))
            return here
        self.emit("BARE", (tok.value, tok.start, tok.end), tok.start, tok.end)
        if self.is_noun(here):
            here += 1
        return here
