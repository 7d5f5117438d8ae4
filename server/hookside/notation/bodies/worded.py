"""Phrases known by their wording wherever they stand: a count that is said, a measure, "and so on around"."""

from __future__ import annotations

from itertools import islice

from hookside.notation.bodies.amounts import Amounts
from hookside.notation.bodies.chunks import Times
from hookside.notation.bodies.wording.counts import (
    AND_CHAINS,
    BESIDE_COUNT,
    LEFT,
    MADE_THINGS,
    SAID_WORDS,
    SAYS,
    SENTENCE,
    SO_MANY,
    THINGS,
    UNTIL_LEFT,
)
from hookside.notation.bodies.wording.joins import STARTING_LOOP
from hookside.notation.bodies.wording.stretches import (
    AND_SO_ON,
    CLAUSE_ENDS,
    EVENLY,
    FOLLOWING,
    FOR_ROUNDS,
    GOES_FAR,
    LED_AROUND,
    MEASURED,
    NO_SHAPING,
    ON_AND_ON,
    PLAIN,
    SHAPING_ALONG,
    SO_ON,
    TRAILS,
)
from hookside.notation.vocabulary import COURSE_WORDS, number_of
from hookside.stitches import TABLE

_ONWARD = frozenset(["and", "continue", "keep", "carry", "go", "do", "over", "again", "doing"])
_COUNT_FOLLOWS = frozenset(["", ".", "(", "[", "=", ","])
_IN_TURN = frozenset(["alternate", "alternating", "alternately"])
_GOING_ON = frozenset(["and", "then", "just", "continue", "keep", "carry", "go", "alternate", "alternating"])
_ALONG = frozenset(["with", "and", "while", "making", "working", "increasing", "decreasing"])
_LEADS_AROUND = frozenset(["repeat", "rep", "work", "do", "all", "the", "around", "round", "across", "to", "x"])
_ONE_PLAIN = [[key] for key in sorted(PLAIN)]  # a round of one stitch and nothing else: it may be worked some rounds


_MADE = frozenset(["and", "so", "now", "you", "you'll", "which", "that", "makes", "making", "giving", "gives", "for"])
_WHOLE = frozenset(["SEP", "TIMES", "REPFROM", "REPALL", "CLOSE"])


class Worded(Amounts):
    """What is told in whole phrases."""

    def by_wording(self, at: int) -> int | None:
        """Phrases known by their wording wherever they stand: a count that is said, a measure, "and so on around"."""
        tok = self.toks[at]
        start = tok.start
        if (
            tok.text in SAID_WORDS
            and self.out.chunks
            and not self.depth
            and self.last_type() not in ("NB", "BARE")
        ):
            match = SAYS.match(self.low, start) if tok.text != "and" else None
            match = match or (SO_MANY.match(self.low, start) if tok.text in ("so", "and") else None)
            if match:
                self.counted(int(match["n"]), *match.span("n"))
                return self.token_after(match.end(), at)
        if (tok.text in _MADE or tok.kind == "number") and self.out.chunks and self.last_type() in _WHOLE:
            made = MADE_THINGS.match(self.low, start)
            if made:
                self.out.asides.append(made.span())
                return self.count
        if tok.kind == "number" and not self.depth and self.out.chunks and self.at_clause_start():
            ended = [(c.type, c.value) for c in self.out.chunks[-2:]]
            closes = ended[-1] == ("SEP", ".") and ended[0][0] == "MARK" and ended[0][1][0] == "join"
            things = THINGS.match(self.low, start) if ended[-1] == ("SEP", ".") else None
            if things:
                self.out.asides.append(things.span())
                return self.count
            both = AND_CHAINS.match(self.low, start) if ended[-1] == ("SEP", ".") and "ch" in self.low[start:] else None
            if both:
                self.counted(int(both["n"]) + int(both["m"]), *both.span("n"))
                self.out.counted_chains = True
                return self.count
            match = LEFT.match(self.low, start) or (SENTENCE.match(self.low, start) if closes else None)
            if match:
                self.counted(int(match["n"]), *match.span("n"))
                return self.token_after(match.end(), at)
        beside = BESIDE_COUNT.match(self.low, start) if self.out.counts and not self.depth else None
        if beside and self.last_type() in ("SEP", "PLACE", "TIMES", "CLOSE", "ST", "NA", "MARK", "REPALL", "REPFROM"):
            self.out.asides.append(beside.span())
            return self.token_after(beside.end(), at)
        if tok.text in ("to", "back", "up", "down") and not self.depth:
            behind = [c.type for c in self.out.chunks if c.type != "SEP"][-1:]
            match = self.comes_to(at) if behind and behind[0] in ("TIMES", "REPALL", "REPFROM", "CLOSE") else None
            if match:
                self.counted(int(match["n"]), *match.span("n"))
                return self.token_after(match.end(), at)
        if (
            tok.kind == "number"
            and self.word(at + 1) in COURSE_WORDS
            and self.word(at + 2) in ("below", "down")
            and self.after_stitch()
        ):
            self.out.asides.append((start, self.toks[at + 2].end))  # "spike stitch 2 rounds below"
            return at + 3
        if tok.text in ("after", "at") and self.last_type() == "MARK" and (past := self._every_course(at)) is not None:
            self.out.asides.append((start, self.toks[past - 1].end))
            return past
        if tok.text in ("make", "form", "start", "begin", "wind", "wrap", "with") and not any(
            c.type == "ST" for c in self.out.chunks
        ):
            match = STARTING_LOOP.match(self.low, start)
            if match:
                self.emit("MARK", ("ring", None), *match.span())
                return self.token_after(match.end(), at)
        if tok.text in ("for", "x") and [c.value for c in self.out.chunks if c.type == "ST"] in _ONE_PLAIN:
            match = FOR_ROUNDS.match(self.low, start)
            if match:
                self.out.rounds = number_of(match["n"])
                return self.token_after(match.end(), at)
        rounds = tok.kind == "number" and self.word(at + 1) in COURSE_WORDS and self.word(at + 2) in _COUNT_FOLLOWS
        if rounds and self.after_stitch() and not self.depth:
            self.out.rounds = tok.value  # "24 sc 4 rows"
            return at + 2
        if tok.text in ("with", "in") and self.last_type() == "PLACE" and self._shaped_with(at):
            return at + 2
        if tok.text in ("repeat", "rep", "work", "do") and self.all_times is None and not self.depth:
            match = FOLLOWING.match(self.low, start)
            if match:
                self.all_times = Times(number_of(match["n"]), number=match.span("n"))
                self.emit("OPEN", "(", start, tok.end)
                return self.token_after(match.end(), at)
        if tok.text in _LEADS_AROUND and self.all_times is None and not self.depth and not self.after_stitch():
            match = LED_AROUND.match(self.low, start)
            if match and not any(c.type in ("ST", "CLOSE") for c in self.out.chunks):
                past = self.token_after(match.end(), at)
                far = GOES_FAR.search(self.low, match.end()) is not None
                if far and not match["n"]:
                    self.out.asides.append(match.span())  # "Around: sc in each st"
                    return past
                if self.stitchy(past) and not far:
                    n = match["n"]
                    self.all_times = Times(int(n), number=match.span("n")) if n else Times(fill=True)
                    self.emit("OPEN", "(", start, tok.end)
                    return past
        if tok.kind == "number" and not self.out.chunks and self._led_by_times(at):
            self.all_times = Times(tok.value, number=(start, tok.end))
            self.emit("OPEN", "(", start, tok.end)
            return at + 2
        if tok.text == "again" and (told := self._once_more(at)) is not None:
            self.emit("ST", told, start, tok.end)  # "sc in next st and again in the same st"
            return at + 1
        here = at + 2 if self.word(at + 1) == "between" else at + 1
        leads, ends_so = self.at_clause_start() and self.stitchy(here), self.word(at + 1) in CLAUSE_ENDS
        if tok.text in _IN_TURN and (leads or self.after_stitch()):
            self.alternates = not self.depth and (leads or ends_so)
            return here if leads else at + 1  # "alternate (between) sc and inc": the list goes round
        ends = [c for c in self.out.chunks[-2:] if c.type != "SEP"][-1:]
        if tok.text in _ALONG and ends and ends[0].type == "PLACE" and ends[0].value.kind in ("fill", "evenly"):
            match = SHAPING_ALONG.match(self.low, start) if ends[0].value.kind == "fill" and not self.depth else None
            if match and not ends[0].value.last:
                if self.last_type() != "SEP":
                    self.emit("SEP", None, start, start)
                return self.evenly(at, match)
        if tok.text in ("increasing", "decreasing") and self.last_type() == "PLACE":
            match = EVENLY.match(self.low, start)
            if match:
                self.emit("SEP", None, start, start)
                return self.evenly(at, match)
        if tok.text in ("until", "till") and self.whole() and not (self.depth or self.out.counts):
            match = UNTIL_LEFT.match(self.low, start)
            if match:
                self.counted(int(match["n"]), *match.span("n"))
                return self.token_after(match.end(), at)
        if tok.text in ("until", "till", "til"):
            match = MEASURED.match(self.low, start)
            if match:
                self.out.measured = match.span()
                return self.token_after(match.end(), at)
        if tok.text in ("no", "without", "not", "with"):
            match = NO_SHAPING.match(self.low, start)
            if match:
                self.out.asides.append(match.span())
                return self.token_after(match.end(), at)
        if tok.text in ("and", "etc") and self.word(at + (tok.text == "and")) == "etc":
            past = self.trailing(at)
            if past is not None:
                return past
        if tok.text in ("and", "so") and self.out.chunks and not self.depth:
            match = SO_ON.match(self.low, start)
            if match:
                self.emit("REPFROM" if self.open_star else "REPALL", Times(fill=True), *match.span())
                self.open_star = False
                return self.token_after(match.end(), at)
        if tok.text in _ONWARD and not self.depth and self._several_worked():
            match = ON_AND_ON.match(self.low, start)
            if match:
                self.emit("REPFROM" if self.open_star else "REPALL", Times(fill=True), *match.span())
                self.open_star = False
                return self.token_after(match.end(), at)
        if tok.text in _GOING_ON and self.out.chunks and not self.depth:
            match = AND_SO_ON.match(self.low, start)
            onward = self.token_after(match.end(), at) if match else at
            if match and self.word(onward) == ",":
                onward += 1
            fill = self.fill_tail(onward) if match else None
            if fill and any(c.type in ("ST", "CLOSE") for c in self.out.chunks):
                if self.last_type() == "SEP":
                    self.out.chunks.pop()
                    self.emit("SEP", None, start, start)
                self.emit("REPALL", Times(fill=True, last=fill[1]), start, self.toks[fill[0] - 1].end)
                return fill[0]
        return None

    def _several_worked(self) -> bool:
        """Have two stitches or brackets been told at least?"""
        worked = (c for c in self.out.chunks if c.type in ("ST", "CLOSE"))
        return len(list(islice(worked, 2))) > 1

    def _once_more(self, at: int) -> str | None:
        """The stitch told last, where "again in the same st" follows its place."""
        where = self.place(at + 1)
        told = [c for c in self.out.chunks if c.type not in ("SEP", "NB")]
        if where is None or where[0].kind != "same" or len(told) < 2 or told[-1].type != "PLACE":
            return None
        return str(told[-2].value) if told[-2].type == "ST" else None

    def _every_course(self, at: int) -> int | None:
        """ "ch 1 and turn after every row", "turn at the end of each row"."""
        here = at + 1
        while self.word(here) in ("the", "end", "of"):
            here += 1
        told = self.word(here) in ("each", "every") and self.word(here + 1) in COURSE_WORDS
        return here + 2 if told else None

    def _led_by_times(self, at: int) -> bool:
        """ "6x 1 sc, 2 sc in one": how often all that comes behind is worked, where nothing else says how often."""
        if self.word(at + 1) != "x" or self.kind(at + 1) == "stitch" or self.kind(at + 2) != "number":
            return False
        return self._stitch_at(at + 3) and not any(
            t.text in ("x", "*", "times", "rep", "repeat", "(", "[") and self.kind(i - 1) != ""
            for i, t in enumerate(self.toks[at + 2 :], at + 2)
            if not (t.text in ("(", "[") and self.is_count(i, self.close_of(i) or i) is not None)
        )

    def trailing(self, at: int) -> int | None:
        """Dots or "etc." behind the last stitches: again to the end, or nothing at all; arithmetic tells."""
        match = TRAILS.match(self.low, self.toks[at].start)
        if match is None or self.depth or not any(c.type in ("ST", "BARE", "NB", "CLOSE") for c in self.out.chunks):
            return None
        self.out.trails = True
        told: tuple[str, ...] = ("REPFROM", "REPALL", "TIMES")  # "sc, inc - 6 times ..... 18": they lead to the count
        if self.last_type() == "SEP":
            self.out.chunks.pop()
            told = told[:2]
        self.emit("SEP", None, match.start(), match.start())
        last = self.out.chunks[-2].type if len(self.out.chunks) > 1 else ""
        if last not in told:
            self.emit("REPFROM" if self.open_star else "REPALL", Times(fill=True, trails=True), *match.span())
        self.open_star = False
        return self.token_after(match.end(), at)

    def _shaped_with(self, at: int) -> bool:
        """ "inc in each st with hdc": the increase is of that stitch."""
        chunks = self.out.chunks
        at_stitch = next((i for i in range(len(chunks) - 1, -1, -1) if chunks[i].type == "ST"), None)
        if at_stitch is None or self.kind(at + 1) != "stitch" or self.word(at + 2) not in CLAUSE_ENDS:
            return False
        shaped = f"{self.toks[at + 1].key} {chunks[at_stitch].value}"
        if str(chunks[at_stitch].value) not in ("inc", "dec"):
            return False
        if self.toks[at + 1].key != "sc":
            if shaped not in TABLE:
                return False
            chunks[at_stitch].value = shaped
        return True
