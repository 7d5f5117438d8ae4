"""What only the start of a clause can be: an asking, a total, a join, a skip, the other side, a colour."""

from __future__ import annotations

import re

from hookside.colours import COLOURS, SHADES
from hookside.notation.askings.clauses import CLAUSE
from hookside.notation.askings.colournames import from_to
from hookside.notation.askings.doneahead import BEGINS as DONE_BEGINS
from hookside.notation.askings.kinds import classify
from hookside.notation.askings.lastpull import last_pull_at, tip_colour
from hookside.notation.bodies.chunks import CueClause, Place
from hookside.notation.bodies.remarks import ROUND_WORDS, Remarks
from hookside.notation.bodies.shaping import nth_of
from hookside.notation.bodies.sight import SOME_SHADE
from hookside.notation.bodies.wording.counts import COUNTED_CHAINS, COUNTS, NOT_COUNTED, TOTAL
from hookside.notation.bodies.wording.joins import (
    DRAWN_JOIN,
    ENDS_ROUND,
    JOINED_WITH,
    JOINS_HERE,
    JOINS_OVER,
    PART,
    RING_FIRST,
    RING_OF,
    WITH_RING,
)
from hookside.notation.bodies.wording.places import HOLDS_PART, JOINS_BY, LAST_INTO, OTHER_SIDE, WAY_BACK
from hookside.notation.bodies.wording.stretches import (
    ALWAYS_TOGETHER,
    BY_SUM,
    CLAUSE_ENDS,
    DOUBLED,
    EVENLY,
    EVENLY_FIRST,
    EVENLY_LED,
    EVERY_SO,
    EVERY_SO_LED,
    HEADLINE,
    LEADS_IN,
    LEFT_OUT,
    MANNER,
    MOVES_START,
    NTH_DOUBLED,
    NTH_TOGETHER,
    PAIR_TOGETHER,
    REST_BEGINS,
    STEADY,
    TO_RESULT,
    TUGGED,
    UNWORKED,
    WORK_TOGETHER,
)
from hookside.notation.vocabulary import (
    COLOUR_WORDS,
    NUMBER_WORDS,
    number_of,
)
from hookside.stitches import TABLE

_DYED_BEGIN = frozenset(
    ["after", "behind", "past", "following", "use", "using", "take", "go", "work", "in", "with", "then", "and", "now"]
)
_SPREADS = (EVENLY, EVENLY_FIRST, STEADY, EVENLY_LED)
_DOUBLES = ("every", "each", "all", "double", "doubling")
_SUMS = frozenset(
    ["add", "adding", "reduce", "reducing", "remove", "removing", "take", "taking", "lose", "losing", "+", "-"]
)
_HOLDS = frozenset(
    ["hold", "place", "lay", "put", "position", "line", "take", "holding", "placing", "laying", "putting", "now",
     "then"]
)  # fmt: skip
_TOGETHER = frozenset(
    ["crochet", "work", "knit", "join", "dec", "decrease", "every", "each", "take", "taking", "always"]
)
_LEADS = frozenset(
    ["and", "end", "ending", "finish", "finishing", "conclude", "concluding", "cast", "start", "starting", "put"]
)
_SPACED_BEGIN = frozenset(
    ["every", "after", "in", "a", "an", "add", "adds", "adding", "plus", "minus", "widen", "narrow", "reduce",
     "reduces", "remove", "removes", "subtract", "inc", "increase", "increases", "increasing", "dec", "decrease",
     "decreases", "decreasing"]
)  # fmt: skip
_MOVES = frozenset(
    ["up", "down", "back", "bring", "take", "get", "go", "work", "build", "grow", "widen", "shrink", "narrow"]
)
_SHAPES = ("inc", "dec", "wor", "mak", "add", "red", "rem", "tak")
_JOINS = frozenset(["now", "then", "attach", "connect", "unite", "join", "joining"])


def clause_of(low: str, start: int, end: int) -> str:
    """A clause from `start` on, with what stands behind `end` up to the next stop: "join with a sc to leg one"."""
    stop = next((here for here in range(end, min(end + 60, len(low))) if low[here] in ",.;:()[]{}*"), len(low))
    return low[start : min(stop, end + 60)]


_GOES_BACK = frozenset(
    ["go", "going", "come", "coming", "work", "working", "crochet", "continue", "return", "rotate", "turn", "now",
     "then", "and", "head", "carry", "keep"]
)  # fmt: skip
_START = re.compile(r"\b(?:start|begin)")
_FURTHER = re.compile(r"\b(?:more|extra|another)\b")


class Clauses(Remarks):
    """Clauses that are more than stitches."""

    def _spaced(self, at: int) -> int | None:
        """ "add 1 st every 2 sts", "every other stitch adds one": an increase or a decrease in every so many."""
        tok = self.toks[at]
        rule = EVERY_SO_LED if tok.text in ("every", "after", "in") else EVERY_SO
        match = rule.match(self.low, tok.start) if tok.text in _SPACED_BEGIN or tok.kind == "number" else None
        if match is None:
            return None
        told = match["n"] or ""
        if rule is EVERY_SO and not match["amount"] and not told.isdecimal() and tok.key in ("inc", "dec"):
            return None  # "inc in each st", "dec every 4th st" are read word by word
        self.emit("ST", "inc" if match["grows"] else "dec", *match.span())
        if not told:
            place = Place("fill", each=True, start=match.start(), end=match.end())
        elif told.isdecimal() or told in NUMBER_WORDS:
            place = Place("apart", n=number_of(told), start=match.start(), end=match.end())
        else:
            place = Place("nth", n=2 if told == "other" else nth_of(re.sub(r"\D+$", "", told) or told))
        self.emit("PLACE", place, *match.span())
        return self.token_after(match.end(), at)

    def closed(self) -> bool:
        """Is the round closed by a join just before?"""
        last = next((c for c in reversed(self.out.chunks) if c.type not in ("SEP", "CUE")), None)
        return last is not None and last.type == "MARK" and last.value[0] == "join"

    def ends_alone(self, at: int) -> bool:
        """Does a clause behind worked stitches end at `at`: "sc around (12) - blue", "sc around - A (12)"?"""
        closing = self.close_of(at) if self.word(at) in ("(", "[", "{") else None
        counted = closing is not None and self.is_count(at, closing) is not None
        return self.worked() and (counted or at >= self.count or self.word(at) in (".", "!", "-", "|"))

    def _moves_start(self, at: int) -> int | None:
        """ "(18) now do 5 more sc, that's the new start of the round": behind a round that is done, and none of it."""
        if not (self.out.counts or self.worked()) or self.toks[at].kind == "sign":
            return None
        start = self.toks[at].start
        moves = MOVES_START.match(self.low, start) if _START.search(self.low, start, start + 160) else None
        if moves is None or not (self.out.counts or self.went_round() or _FURTHER.search(moves[0])):
            return None
        self.out.cues.append(CueClause("marker", *moves.span()))
        self.emit("CUE", len(self.out.cues) - 1, *moves.span())
        return self.token_after(moves.end(), at)

    def _way_back(self, at: int) -> int | None:
        """ "..., 3 sc in last ch, go back down the other side: sc 4"."""
        back = WAY_BACK.match(self.low, self.toks[at].start) if self.toks[at].text in _GOES_BACK else None
        if back is None:
            return None
        chained = any(c.type == "PLACE" and c.value.kind == "hook" for c in self.out.chunks)
        if not (chained or (self.worked() and not back["chain"])):
            return None
        past = self.token_after(back.end(), at)
        if not (self.stitchy(past) or self.place(past)):
            return None
        self.emit("MARK", ("other side", None), *back.span())
        return past

    def changes_at_tip(self, at: int, end: int) -> int:
        """ "..., finish the last stitch with black": the next stitches are in that colour."""
        start = self.toks[at].start
        self.out.cues.append(CueClause("colour", start, end))
        self.emit("CUE", len(self.out.cues) - 1, start, end)
        name = tip_colour(self.low[start:end])
        if name:
            self.emit("COLOUR", name, start, end)
        return self.token_after(end, at)

    def clause_start(self, at: int) -> int | None:
        """What only the start of a clause can be: an asking, a total, the other side, a colour."""
        tok = self.toks[at]
        top = not self.depth
        if self.out.chunks and self.only_stitches(at):
            return None
        if tok.text == "turning" and self.word(at + 1) in CLAUSE_ENDS and self.worked():
            self.emit("MARK", ("turn", None), tok.start, tok.end)  # "8 sc, turning = 8"
            return at + 1
        if tok.text in ROUND_WORDS and (past := self.of_a_round(at)) is not None:
            return past
        placed = tok.text in _DYED_BEGIN or (tok.kind == "word" and (tok.text in COLOURS or tok.text in SHADES))
        if placed and (past := self.dyed_after(at)) is not None:
            return past
        if tok.text in DONE_BEGINS and (past := self.done_before(at)) is not None:
            return past
        if self.out.counts and (past := self.asked_behind(at)) is not None:
            return past
        if not self.out.chunks and (past := self.listed(at)) is not None:
            return past
        if (past := self.gap(at)) is not None:
            return past
        tip = last_pull_at(self.low, tok.start) if self.out.chunks and tok.kind != "number" else None
        if tip is not None:
            return self.changes_at_tip(at, tip)
        summed = BY_SUM.match(self.low, tok.start) if not self.out.chunks and tok.text in _SUMS else None
        if summed:
            return self.evenly(at, summed)
        rest = self.all_the_rest(at) if tok.kind == "word" and tok.text in REST_BEGINS else None
        if rest is not None:
            return rest
        pair = tok.kind == "number" and self.word(at + 2) in ("together", "tog")
        match = WORK_TOGETHER.match(self.low, tok.start) if pair or tok.kind in ("word", "stitch") else None
        if match and match["end"] and not self.at_clause_start():
            match = None  # "sc over the last two together"; but "2 sc, last two together"
        nth = NTH_TOGETHER.match(self.low, tok.start) if tok.text in _TOGETHER else None
        if nth and nth_of(nth["m"]) == nth_of(nth["n"]) + 1 and nth_of(nth["n"]) > 1:
            return self.nth_together(at, nth)
        every = NTH_DOUBLED.match(self.low, tok.start) if tok.text in _DOUBLES else None
        if every:
            self.emit("ST", "inc", *every.span())
            place = Place("nth", n=nth_of(every["n"]) if every["n"] else 2, start=every.start(), end=every.end())
            self.emit("PLACE", place, *every.span())
            return self.token_after(every.end(), at)
        spaced = self._spaced(at) if not self.out.chunks else None
        if spaced is not None:
            return spaced
        always = ALWAYS_TOGETHER.match(self.low, tok.start) if not self.out.chunks else None
        doubled = DOUBLED.match(self.low, tok.start) if tok.text in _DOUBLES else None
        all_round = doubled or (always if always and "always" in always[0] else None)
        if all_round:
            self.emit("ST", "inc" if doubled else "dec", *all_round.span())
            place = Place("fill", each=True, start=all_round.start(), end=all_round.end())
            self.emit("PLACE", place, *all_round.span())
            return self.token_after(all_round.end(), at)
        lead = LEADS_IN.match(self.low, tok.start) if tok.text in _LEADS else None
        if lead and self.stitchy(self.token_after(lead.end(), at)):
            return self.token_after(lead.end(), at)
        headline = HEADLINE.match(self.low, tok.start) if not self.out.chunks else None
        if headline and self.stitchy(self.token_after(headline.end(), at)):
            self.out.unworked = self.out.unworked or bool(headline["part"])  # "for the peak over the 12 sc: dec, ..."
            self.out.asides.append(headline.span())
            return self.token_after(headline.end(), at)
        manner = LAST_INTO.match(self.low, tok.start) if self.out.chunks else None
        if manner:
            self.out.asides.append(manner.span())
            return self.token_after(manner.end(), at)
        held = HOLDS_PART.match(self.low, tok.start) if tok.text in _HOLDS else None
        if held:
            self.out.over_part = True
            self.out.cues.append(CueClause("join", *held.span()))
            self.emit("CUE", len(self.out.cues) - 1, *held.span())
            return self.token_after(held.end(), at)
        over = part = JOINS_OVER.match(self.low, tok.start)
        if over is None and tok.key == "join":
            part = JOINS_HERE.match(self.low, tok.start)
            if part and not (self.out.chunks or self.stitchy(self.token_after(part.end(), at) + 1)):
                part = None
        if part:
            self.out.elsewhere = True
            self.out.over_part = self.out.over_part or over is not None
            self.out.cues.append(CueClause(classify(part["told"]) or "other", *part.span("told")))
            self.emit("CUE", len(self.out.cues) - 1, *part.span("told"))
            return self.token_after(part.end(), at)
        if match:
            n = number_of(match["n"])
            named = "st" if match["st"] else "led"  # "dc 2 sts together": of those stitches
            told = self.toks[self.token_after(match.start(named), at)].key if match[named] else "sc"
            tall = f"{told}{n}tog"
            self.emit("ST", tall if told != "sc" and tall in TABLE else {2: "dec", 3: "sc3tog"}[n], *match.span())
            return self.token_after(match.end(), at)
        if top and (past := self._moves_start(at)) is not None:
            return past
        if top:
            past = (
                self.folded(at) or self.along_a_chain(at) or self.sides_in_pairs(at) or self.left_behind(at)
            )
            if past is not None:
                return past
            joins = JOINS_BY.match(self.low, tok.start) if tok.key == "join" or tok.text in _JOINS else None
            if joins:
                self.out.elsewhere = True
                self.out.asides.append(joins.span())
                return self.token_after(joins.end(), at)
            match = LEFT_OUT.match(self.low, tok.start)
            if match and self.kept_back(number_of(match["n"] or match["n2"] or "1")):
                self.out.unworked = True
                return self.token_after(match.end(), at)
            match = UNWORKED.match(self.low, tok.start)
            if match:
                self.out.unworked = True
                return self.token_after(match.end(), at)
            match = RING_OF.match(self.low, tok.start)
            if match:
                self.emit("MARK", ("closed ring", None), tok.start, match.end())
                return self.token_after(match.end(), at)
            match = ENDS_ROUND.match(self.low, tok.start)
            if match and self.out.chunks:
                self.emit("MARK", ("join", None), *match.span())
                return self.token_after(match.end(), at)
            if tok.text in ("with", "in", "into", "inside", "start", "using") and not self.out.chunks:
                match = WITH_RING.match(self.low, tok.start) or RING_FIRST.match(self.low, tok.start)
                past = self.token_after(match.end(), at) if match else self.ring_led(at)
                if past:
                    self.emit("MARK", ("ring", None), tok.start, self.toks[past - 1].end)
                    return past + (self.word(past) in (",", "and", ":", "-", "with"))
            drawn = DRAWN_JOIN.match(self.low, tok.start) if self.worked() else None
            closes = drawn is not None and drawn[0].endswith("join")
            if drawn and (closes or self.closed()) and self.names_yarn(drawn["name"]):
                self.out.cues.append(CueClause("colour", *drawn.span(), joins=True))
                self.emit("CUE", len(self.out.cues) - 1, *drawn.span())
                if closes and not self.closed():
                    self.emit("MARK", ("join", None), *drawn.span())
                return self.token_after(drawn.end(), at)
            match = TOTAL.match(self.low, tok.start) if tok.kind in ("word", "sign") else None
            if match and self.out.chunks:
                self.counted(int(match["n"][:7]), match.start("n"), match.end("n"))
                return self.token_after(match.end(), at)
            match = next((m for rule in _SPREADS if (m := rule.match(self.low, tok.start))), None)
            if match:
                return self.evenly(at, match)
            shapes = tok.text[:3] in _SHAPES or (not self.out.chunks and tok.text in _MOVES)
            match = TO_RESULT.match(self.low, tok.start) if shapes else None
            if match:
                return self.resulting(at, match)
            past = self.joins_part(at) if tok.text in _JOINS and self.out.chunks else None
            if past is not None:
                return past
            match = JOINED_WITH.match(self.low, tok.start)
            part = match and PART.search(clause_of(self.low, tok.start, match.end()))
            yarn = bool(match and (match["colour"] or not self.worked()))
            if match and not part and (yarn or re.search(r"\b(?:next|same|any|each)\b", match[0])):
                if yarn:
                    self.out.cues.append(CueClause("colour", tok.start, match.end("colour")))
                    self.emit("CUE", len(self.out.cues) - 1, tok.start, match.end("colour"))
                here = self.token_after(match.start("st"), at)
                self.emit("ST", self.toks[here].key or "sc", match.start("st"), match.end())
                self.emit("NA", (1, match.start("st"), match.end()), match.start("st"), match.end())
                return self.token_after(match.end(), at)
            tugged = TUGGED.match(self.low, tok.start) if self.out.chunks and not self.out.counts else None
            if tugged:
                self.out.cues.append(CueClause("other", *tugged.span(), leads=True))
                self.emit("CUE", len(self.out.cues) - 1, *tugged.span())
                return self.token_after(tugged.end(), at)
            match = MANNER.match(self.low, tok.start)
            if match and (match["rows"] is None or self.worked_yet()):  # "1 sc in each row end" is the work itself
                self.out.both_sides = self.out.both_sides or "both sides of" in match[0]
                if self.within(match[0], None):
                    self.out.cues.append(CueClause("other", *match.span(), leads=True))  # "keeping the tail inside"
                    self.emit("CUE", len(self.out.cues) - 1, *match.span())
                else:
                    self.out.asides.append(match.span())
                return self.token_after(match.end(), at)
            aside = OTHER_SIDE.match(self.low, tok.start) if tok.text in ("do", "don't", "without") else None
            if aside and re.search(r"\b(?:other|opposite)\b", aside[0]):
                self.emit("MARK", ("other side", None), *aside.span())
                past = self.token_after(aside.end(), at)
                return past + (self.word(past) in (":", ","))
            if (past := self._way_back(at)) is not None:
                return past
            match = CLAUSE.match(self.low, tok.start)
            if match and match.end() > tok.start:
                return self.cue(at)
        match = PAIR_TOGETHER.match(self.low, tok.start)
        if match:
            self.emit("ST", "dec", *match.span())
            return self.token_after(match.end(), at)
        match = COUNTED_CHAINS.match(self.low, tok.start)
        if match:
            self.out.counted_chains = True
            return self.token_after(match.end(), at)
        match = COUNTS.match(self.low, tok.start)
        if match:
            self.out.counts_as = not (match["no"] or NOT_COUNTED.search(match[0]))
            return self.token_after(match.end(), at)
        match = OTHER_SIDE.match(self.low, tok.start) if tok.kind == "word" or tok.key == "turn" else None
        if (
            match
            and match.end() > tok.start + 4
            and not (
                re.search(r"\b(?:second|first|remaining|up|down)\b", match[0])
                and not re.search(r"\b(?:sides?|loops?|lps?|edge|half|row|foundation)\b", match[0])
            )
            and not self.low.startswith(" from", match.end())
            and not (tok.text == "back" and "loop" in match[0] and "ch" not in match[0])
        ):
            self.emit("MARK", ("other side", None), tok.start, match.end())
            past = self.token_after(match.end(), at)
            while self.word(past) in (":", ",", "of", "the"):
                past += 1
            if self.word(past) == "." and self.stitchy(past + 1):
                past += 1  # "on other side of ch. 4 d.c., inc.": the dot of a word cut short, and four stitches
            return past
        if top and self.out.counts and tok.kind == "word" and from_to(self.low[tok.start :].strip(" .;!")):
            self.out.cues.append(CueClause("colour", tok.start, self.toks[-1].end))
            self.emit("CUE", len(self.out.cues) - 1, tok.start, self.toks[-1].end)
            return self.count  # "(12), A to B"
        if top and self.out.counts and tok.kind == "word" and (past := self.yarn_behind(at)) is not None:
            return past
        if (
            tok.text in ("with", "in", "using", "w")
            or tok.text in COLOURS
            or tok.text in SHADES
            or tok.text in COLOUR_WORDS
            or self.word(at + 1) in SOME_SHADE
            or (len(tok.text) == 1 and self.is_letter_colour(at))
        ):
            past = at
            if tok.text in ("with", "in", "using", "w") and not self.leads_in_colour(at):
                past += 1
                if self.word(past) == "/":
                    past += 1
                if self.word(past) == "the":
                    past += 1
            end = self.colour_name(past)
            leads = self.leads_in_colour(past)
            stopped = past > at or leads or self.word(past + 1) in (":", "-") or self.ends_alone(past + 1)
            if end is None and self.is_letter_colour(past) and stopped:
                end = past + 1
            if end is None and past > at and top and tok.text in ("with", "using"):
                end = self._free_colour(past)
            if end is not None and (
                past > at
                or leads
                or self.word(end) in (":", "-", ",")
                or self.kind(end) in ("number", "stitch")
                or (self.word(end) in ("(", "[", "{") and self.stitchy(end))
                or self.ends_alone(end)
            ):
                name = self.body[self.toks[past].start : self.toks[end - 1].end]
                if top and past > at and not self.worked():
                    self.out.cues.append(CueClause("colour", tok.start, self.toks[end - 1].end))
                    self.emit("CUE", len(self.out.cues) - 1, tok.start, self.toks[end - 1].end)
                self.emit("COLOUR", name, tok.start, self.toks[end - 1].end)
                behind = past > at or self.ends_alone(end)
                if top and behind and self.out.counts and not any(t.kind == "stitch" for t in self.toks[end:]):
                    self.dyed_behind(tok.start, self.toks[end - 1].end)
                if self.word(end) in (":", "-", ","):
                    end += 1
                return end
        if tok.kind == "word" and top:
            return self.remark(at)
        return None
