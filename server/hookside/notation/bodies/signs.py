"""Signs: stars and brackets, dashes, stops; what each is depends on what stands around it."""

from __future__ import annotations

import re

from hookside.colours import COLOURS
from hookside.notation.askings.clauses import CLAUSE
from hookside.notation.askings.kinds import classify
from hookside.notation.askings.short import named_behind
from hookside.notation.bodies.brackets import Brackets
from hookside.notation.bodies.chunks import MAYBE_TWO
from hookside.notation.bodies.wording.counts import CHAINS_TOO, COUNTED_CHAINS
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS, NAMED_MADE
from hookside.notation.bodies.wording.tails import of_list
from hookside.notation.vocabulary import NEXT

# "<56>", "<56, counting each ch as a st>"
_ANGLED = re.compile(
    r"<\s*(?P<n>\d{1,4})\s*(?:(?:sts?|stitches|sc|dc|hdc|tr)\b\.?\s*)?(?:(?:[,;]|with|incl|counting)[^<>\d]{0,60})?>"
)
# What stands between such a sign and the next, a bracket or the end
_BEHIND_SIGN = re.compile(r"[-/|]\s+(?P<told>[a-z][^-/|()\[\]{}]*)")


class Signs(Brackets):
    """One sign at a time."""

    def sign(self, at: int) -> int:
        tok = self.toks[at]
        sign = tok.text
        here = at + 1
        last = self.last_type()
        made = NAMED_MADE.match(self.low, tok.start) if sign == "-" else None
        if made is not None and self.out.chunks:
            self.out.asides.append(made.span())
            return self.token_after(made.end(), at)
        if sign in "([{":
            return self._opens(at)
        if sign in ")]}":
            if self.depth:
                self.depth.pop()
                if last == "SEP":
                    self.out.chunks.pop()
                self.emit("CLOSE", sign, tok.start, tok.end)
                if at in self.prefixed:
                    self.emit("TIMES", self.prefixed[at], tok.start, tok.end)
            self.number_first = None
            return here
        if sign == "," and last == "STARC" and self.kind(here) == "number" and not self.depth:
            often = self.times(here)  # "*3 sc, inc*, 6 times in total, ..."
            if often and self.word(often[1]) in CLAUSE_ENDS:
                self.emit("TIMES", often[0], tok.start, self.toks[often[1] - 1].end)
                return often[1]
        if sign == "*":
            return self._star(at)
        if sign in ".;!,":
            self.number_first = None
            if last not in ("", "SEP", "OPEN", "STARO"):
                self.emit("SEP", sign, tok.start, tok.end)
            return here
        if sign in "+-" and at == 0 and (past := self.clause_start(at)) is not None:
            return past  # "+6 (24)"
        if sign in "+-" and at == 0 and self.kind(here) == "number" and here + 1 == self.count:
            self.out.unknown.append((tok.start, self.toks[here].end))  # "+6" alone: six more, but how is not told
            return self.count
        if sign in "+-" and self.depth and self.word(here) in (")", "]", "}") and self.after_stitch():
            self.out.unknown.append((tok.start, tok.end))  # "(1+)6": a sign of the author's own, and no list goes on
            return here
        if sign in "-:" and (past := self._dash(at)) is not None:
            return past
        if sign in "-/|" and last not in ("", "SEP", "OPEN", "STARO") and self._asks_behind(at):
            self.emit("SEP", sign, tok.start, tok.end)
            self.number_first = None
            return here
        slashed = sign in "/|" and self.apart(at) and self._past_count(here) >= self.count
        if sign in "->" and self._lists(at) and self._many(sign):
            self.emit("SEP", sign, tok.start, tok.end)
            self.number_first = None
            return here
        if sign in "-=:~>" or slashed:
            told = self.kind(here) == "number" and self._count_after_dash(here) and not of_list(self.low)
            told = told and not (sign == ":" and self.word(at - 1) in COLOURS)  # "white: 5 sc, red: 7 sc"
            if not self.depth and self.out.chunks and told:
                value = self.toks[here]
                self.counted(value.value, value.start, value.end)
                past = self._past_count(here)
                if self.word(past) in ("-", ">"):
                    past += 1
                return past
            if sign == ":" or (
                sign == "-" and last in ("CLOSE", "PLACE", "ANDPLACE", "TIMES", "MARK", "REPFROM", "REPALL", "STARC")
            ):
                if last not in ("", "SEP", "OPEN", "STARO", "COLOUR", "LOOPS"):
                    self.emit("SEP", sign, tok.start, tok.end)
                self.number_first = None
            return here
        if sign in "/&+":
            if last not in ("", "SEP", "OPEN", "STARO") and (sign != "/" or self._parts(at)):
                self.emit("SEP", sign, tok.start, tok.end)
                self.number_first = None
            return here
        angled = _ANGLED.match(self.low, tok.start) if sign == "<" and self.out.chunks else None
        if angled:
            self.counted(int(angled["n"]), *angled.span("n"))
            self.out.counted_chains = self.out.counted_chains or bool(COUNTED_CHAINS.search(angled[0]))
            if CHAINS_TOO.match(self.low, angled.end("n")):
                self.out.counted_chains = True
            return self.token_after(angled.end(), at)
        if sign in "<\"'#|_\\^~@%$?":
            return here
        self.out.unknown.append((tok.start, tok.end))
        return here

    def _parts(self, at: int) -> bool:
        """ "inc / 12 dc / inc": a stroke between blanks parts what is worked, but for one stitch in two tongues."""
        if not 0 < at < self.count - 1:
            return False
        before, after = self.toks[at - 1], self.toks[at + 1]
        if before.end == self.toks[at].start or after.start == self.toks[at].end:
            return False
        if before.kind == after.kind == "stitch":
            return before.text == after.text or after.key in MAYBE_TWO
        return after.kind in ("number", "stitch") or after.text in ("(", "[", "{", "*", "next", "last", "each")

    def _asks_behind(self, at: int) -> bool:
        """ "12 sc - change colour - (12)", "sc around / stuff / (12)": between blanks, and what is behind it asks."""
        start = self.toks[at].start
        behind = _BEHIND_SIGN.match(self.low, start) if self.toks[at - 1].end < start else None
        if behind is None:
            return False
        if CLAUSE.match(behind["told"]) or named_behind(behind["told"]):
            return True
        return classify(behind["told"]) not in (None, "other", "turn", "join")

    def _lists(self, at: int) -> bool:
        """ "5 sc - inc - 12 sc", "5sc > inc": between two stitches, a sign with a space on both sides."""
        if self.last_type() not in ("ST", "NA") or not self.stitchy(at + 1):
            return False
        return self.toks[at - 1].end < self.toks[at].start and self.toks[at].end < self.toks[at + 1].start

    def _many(self, sign: str) -> bool:
        """Is the whole list parted by such a sign?"""
        return sum(t.text == sign for t in self.toks) > 2 and "," not in self.low

    def _opens(self, at: int) -> int:
        """A bracket, and what it is."""
        tok = self.toks[at]
        here = at + 1
        closing = self.close_of(at)
        if closing is not None:
            past = self.bracket(at, closing)
            if past is not None:
                return past
        elif (
            self.kind(here) == "number" and self.out.chunks and not self.depth and self._past_count(here) >= self.count
        ):
            value = self.toks[here]  # "(24": a count whose bracket was never closed
            self.counted(value.value, value.start, value.end)
            return self.count
        self.depth.append(tok.text)
        self.emit("OPEN", tok.text, tok.start, tok.end)
        self.number_first = None
        return here

    def _star(self, at: int) -> int:
        """Where a repeat begins or ends, a multiplier ("* 6"), or slanted print around a count."""
        tok = self.toks[at]
        here = at + 1
        last = self.last_type()
        while self.word(here) == "*":
            here += 1
        if (past := self.counted_in_stars(at)) is not None:
            return past
        if self.word(at + 1) == "*" and here == at + 2 and last not in ("", "SEP"):
            return here  # "**": the mark at which a last repeat may stop
        if (
            not self.depth
            and not self.open_star
            and self.kind(here) == "number"
            and (here == self.count - 1 or (here == self.count - 2 and self.word(here + 1) == "*"))
            and last in ("TIMES", "PLACE", "REPFROM")
        ):
            value = self.toks[here]
            self.counted(value.value, value.start, value.end)
            return here + 1
        counted = self.times(at)
        if counted and (
            last in ("CLOSE", "STARC")
            or (
                last in ("ST", "NA", "PLACE")
                and not self.open_star
                and self.kind(here) == "number"
                and not self._stitch_at(counted[1])
            )
        ):
            self.emit("TIMES", counted[0], tok.start, self.toks[counted[1] - 1].end)
            return counted[1]
        if self.open_star:
            after = self.word(here)
            if last == "SEP":
                self.out.chunks.pop()
            self.open_star = False
            self.emit("STARC", None, tok.start, tok.end)
            if after in (",", ";", ".") and self.word(here + 1) in ("rep", "repeat", "x", "work"):
                return here + 1
            return here
        self.open_star = True
        if last not in ("", "SEP", "OPEN", "STARO", "CUE", "MARK", "COLOUR", "LOOPS"):
            self.emit("SEP", None, tok.start, tok.start)
        self.emit("STARO", None, tok.start, tok.end)
        self.number_first = None
        return here

    def _dash(self, at: int) -> int | None:
        """A dash or colon that ties a number to the word before it: "sc-12", "next-3 sts"."""
        tok = self.toks[at]
        sign = tok.text
        here = at + 1
        if sign == "-" and self.word(at - 1) in NEXT and self.kind(here) == "number" and self.is_noun(here + 1):
            self.out.unknown.append((tok.start, self.toks[here].end))
            return here + 1
        if self.last_type() == "ST" and self.glued(at) and ("-" in self.amounts_by or self.stitchy(here + 1)):
            self.amounts_by.add("-")  # "sc-12, inc-6"
            told = self.toks[here]
            self.emit("NA", (told.value, told.start, told.end), told.start, told.end)
            return here + 1
        return None

    def counted_in_stars(self, at: int) -> int | None:
        """ "sc around. *(30 sts)*": a count in slanted print."""
        shown = self.kind(at + 1) == "number" and self.word(at + 2) == "*" and at + 3 >= self.count
        if shown and self.out.chunks and not self.depth and not self.open_star:
            told = self.toks[at + 1]  # "sc 3, inc 3 -> *42*"
            self.counted(told.value, told.start, told.end)
            return at + 3
        closing = self.close_of(at + 1) if self.word(at + 1) in ("(", "[") and not self.open_star else None
        number = self.is_count(at + 1, closing) if closing is not None and self.out.chunks and not self.depth else None
        if closing is None or number is None or self.word(closing + 1) != "*":
            return None
        told = self.toks[number]
        self.counted(told.value, told.start, told.end)
        return closing + 2
