"""Brackets: a multiplier, a printed count, loops or a colour, something to do, or stitches to work."""

from __future__ import annotations

import re
from typing import Literal

from hookside.notation.askings.byround import beside_round
from hookside.notation.askings.clauses import FILLED_AHEAD, leaves_colour, new_colour
from hookside.notation.askings.colournames import is_colour
from hookside.notation.askings.doneahead import done_ahead
from hookside.notation.askings.kinds import classify
from hookside.notation.askings.roundshades import shades_by_round
from hookside.notation.askings.short import named_behind
from hookside.notation.bodies.asides import Asides
from hookside.notation.bodies.chunks import CueClause
from hookside.notation.bodies.counts import SOMEWHERE
from hookside.notation.bodies.wording.counts import (
    ANY_STITCH,
    BRACKETED_COUNT,
    CHANGE_AND_COUNT,
    COUNT_BEHIND,
    COUNTED_CHAINS,
    COUNTS,
    IS_A_STITCH,
    NOT_COUNTED,
    ONLY_TURNS,
    OPENS_AS_COUNT,
    SOME_OF_THEM,
)
from hookside.notation.bodies.wording.places import SO_MANY_ROW_ENDS
from hookside.notation.bodies.wording.stretches import LEAVES, UNWORKED, WORK_TOGETHER
from hookside.notation.labels import often
from hookside.notation.vocabulary import COURSE_WORDS, HARMLESS, NOUNS

# The token behind a bracket; False where it holds stitches to work; None where this is not what it is
Told = int | Literal[False] | None
# "(same colors as rnd 4)", "[A x6, B x12]": how the round is colored, in words that are not worked out
_DYES = re.compile(
    r"(?:in )?(?:the )?same colou?rs? as [a-z0-9 ]{1,30}|[a-h] ?x ?\d{1,3}(?:, ?[a-h] ?x ?\d{1,3}){1,9}", re.I
)
_MADE = re.compile(
    r"[a-z0-9 -]{0,24}\bmade\b|(?:inc|increase|dec|decrease)\w*\s+(?:made|rnd|round|row)|"
    r"\d+ (?:sts|stitches) (?:inc|dec)"
)


# "5 sc [pink] 3 sc [back to white] 10 sc": brackets in which a color is gone back to stand in front of its stitches
_GOES_BACK = re.compile(
    r"[(\[](?:now |then |and )*(?:back|change|switch|swap|return)(?: back| again)* (?:to|in|with)\b"
)
_JOB_BEHIND_COUNT = re.compile(
    r"=? ?(?P<n>\d{1,4})(?: ?(?:sts?|stitch(?:es)?|sc|[hd]?dc))?(?: ?[,;.:+]| -+|,? and|,? then) ?(?:and |then )*"
    r"(?P<job>[a-z][a-z' ]{2,50})[.!]*"
)
_LEVELS = frozenset(["turn", "join", "sl st", "ch"])  # what follows the last stitches of a course in any color
# "(1, 2 in next) 3 times", "(2, 2 tog) 3x": shaping in a list of bare numbers
_TWO_IN_ONE = re.compile(
    r"(?:^|[,;+&] ?|and |then )(?:[23] in(?:to)? (?:the )?(?:next|one|1|same|each)|2 ?tog(?:ether)?)\b"
)
_NEAR = 400  # characters in which such a bracket is looked for


class Brackets(Asides):
    """What a bracket is, by what it holds and what stands around it."""

    def bracket(self, at: int, closing: int) -> int | None:
        """Past a bracket that does not hold stitches to work; None where it does."""
        inner = self.low[self.toks[at].end : self.toks[closing].start].strip()
        if not inner:
            return closing + 1
        for told in (
            self.steps,
            self._multiplies,
            self.explained,
            self._counts,
            self._counts_with_more,
            self._tells_of_chains,
            self.named,
            self.shared,
            self._dresses,
            self._asks,
        ):
            past = told(at, closing, inner)
            if past is not None:
                if past and self.out.chunks:
                    self._asks_behind_count(at, closing, inner)
                return past or None
        return None

    def _asks_behind_count(self, at: int, closing: int, inner: str) -> None:
        """ "(12, eyes)", "(18 sts; change to blue)", "(12 - stuff)": a job in the bracket of a count, behind it."""
        told = _JOB_BEHIND_COUNT.fullmatch(inner) if not self.depth and self.times(closing + 1) is None else None
        if told is None or any(c.start > self.toks[at].start for c in self.out.cues):
            return
        kind = named_behind(told["job"]) or classify(told["job"])
        if kind is None or kind == "other" or (kind == "colour" and is_colour(told["job"])):
            return  # "(12, white)" may be the color of the round that is told
        opened = self.low.index(inner, self.toks[at].end)
        if not self.out.counts:
            self.counted(int(told["n"]), opened + told.start("n"), opened + told.end("n"))
        start = opened + told.start("job")
        end = self.toks[closing].start
        self.out.cues.append(CueClause(kind, start, end))
        self.emit("CUE", len(self.out.cues) - 1, start, end)
        if kind == "colour" and (name := new_colour(told["job"])):
            self.emit("COLOUR", name, start, end)

    def _multiplies(self, at: int, closing: int, inner: str) -> Told:
        """ "(6 times)", "(rep from * around)"."""
        last = self.last_type()
        again = self.repeat_phrase(at + 1) if self.word(at + 1) not in ("*", "work") else None
        if again and again[2] == closing and last in ("ST", "NA", "CLOSE", "STARC", "PLACE", "SEP"):
            return self.repeat(at + 1) + 1
        counted = self.times(at + 1)
        if last == "SEP" and counted and counted[1] == closing and len(self.out.chunks) > 1:
            self.out.chunks.pop()  # "sc 1, inc, (x6)"
            last = self.last_type()
        if counted and counted[1] == closing and last in ("ST", "NA", "CLOSE", "STARC", "PLACE", "NB"):
            self.emit("TIMES", counted[0], self.toks[at].start, self.toks[closing].end)
            return closing + 1
        return None

    def _counts(self, at: int, closing: int, inner: str) -> Told:
        """ "(24)", "(18 sts)"; "sc (6)" in a text that puts its amounts so."""
        past = closing + 1
        last = self.last_type()
        count = BRACKETED_COUNT.fullmatch(inner) if self.out.chunks and not self.depth else None
        if count is not None and not self.times(past):
            offset = self.low.index(inner, self.toks[at].end)
            which = "n" if count["n"] else "n2"
            self.counted(int(count[which]), offset + count.start(which), offset + count.end(which))
            return past
        number = self.is_count(at, closing)
        if number is not None and self._all_in_one(number, closing):
            return False
        if number is not None and at == 0 and self._leads(at, closing):
            value = self.toks[number]  # "(18) 1 sc, inc": the count before the words
            self.counted(value.value, value.start, value.end)
            return past
        before_count = self.word(past) in ("(", "[", "=") or ("(" in self.amounts_by and self.glued(at))
        amount = self._work_goes_on(past) or (bool(self.amounts_by) and (before_count or self._all_bracketed()))
        amount = amount and not ONLY_TURNS.match(self.low, self.toks[closing].end)
        led = len(self.out.chunks) > 1 and self.out.chunks[-2].type == "NB"  # "5 sc (6), turn": it has its amount
        if number is not None and closing == at + 2 and last == "ST" and amount and not led:
            self.amounts_by.add("(" if self.glued(at) else " (")
            told = self.toks[number]
            self.emit("NA", (told.value, told.start, told.end), told.start, told.end)
            return past
        if number is not None and self.out.chunks and not CHANGE_AND_COUNT.match(inner):
            stitched = any(self.toks[i].kind == "stitch" for i in range(at + 1, closing))
            follows = self.times(past)
            if follows and self.kind(past) == "number" and self.word(past + 1) not in ("times", "x", "time", "more"):
                follows = None
            rest = self.word(past)
            if not follows and not (
                stitched
                and (rest in ("in", "into", "rep", "repeat", "around") or (rest == "," and self.stitchy(past)))
                and not ONLY_TURNS.match(self.low, self.toks[closing].end)
            ):
                if self.depth and not stitched and last in ("ST",):
                    return False
                value = self.toks[number]
                self.counted(self.of_all_kinds(number, closing), value.start, value.end)
                return past
        return None

    def _work_goes_on(self, past: int) -> bool:
        """ "sc (2), inc", "sc (2) / inc", "sc (6) and make an inc"; "{inc, sc (6)} x3" ends there."""
        past += self.word(past) in ("/", "-", "+")
        past += self.word(past) == "and"
        past += self.word(past) in ("make", "work")
        closes = bool(self.depth) and self.word(past) in ("}", "]", ")") and self.times(past + 1) is not None
        return closes or self.stitchy(past + (self.word(past) in ("a", "an") and self._stitch_at(past + 1)))

    def _all_bracketed(self) -> bool:
        """ "sc (10), dec (2), sc (10)": has every stitch before the last one its amount in a bracket?"""
        if not self.amounts_by & {"(", " ("}:
            return False
        types = [c.type for c in self.out.chunks if c.type in ("ST", "NA", "NB", "PLACE")]
        return types[-1] == "ST" and types[:-1] == ["ST", "NA"] * (len(types) // 2)

    def _counts_with_more(self, at: int, closing: int, inner: str) -> Told:
        """ "(18 sts, change to blue)", "(3 rounds)"."""
        past = closing + 1
        number = self.is_count(at, closing)
        goes_on = self.times(past) or self.word(past) in ("in", "into", "rep", "repeat", "around", "across", "to", "x")
        if self.out.chunks and not self.depth and not goes_on and (number is None or "," in inner):
            match = CHANGE_AND_COUNT.match(inner) or OPENS_AS_COUNT.match(inner)
            rest = match.groupdict().get("rest") or "" if match else ""
            plain = match is not None and self.toks[at + 2].kind == "sign" and self.toks[at + 2].text in ")]}"
            worked = sum(t.kind == "stitch" for t in self.toks[at + 1 : closing]) > 1 or closing in self.prefixed
            goes_in = " in" in rest and SOMEWHERE.search(inner) is not None  # "(2 sc in the last st)" is work
            if match and not (plain or goes_in or worked) and not ANY_STITCH.search(rest):
                offset = self.low.index(inner, self.toks[at].end)
                which = "n" if match["n"] else "n2"
                self.counted(int(match[which]), offset + match.start(which), offset + match.end(which))
                rounds = re.search(r"\b(\d{1,3}) (?:rounds|rnds|rows)\b", rest)
                if rounds:
                    self.out.rounds = int(rounds[1])
                return past
        ends = SO_MANY_ROW_ENDS.match(inner) if "row" in inner and not self.depth and self.in_row_ends() else None
        if ends is not None:
            count = COUNT_BEHIND.match(inner, ends.end())
            if count is not None:  # "(24 row ends, 48 dc)"
                offset = self.low.index(inner, self.toks[at].end)
                self.counted(int(count["n"]), offset + count.start("n"), offset + count.end("n"))
            if count is not None or ends.end() == len(inner):
                return past
        if self.kind(at + 1) == "number" and self.word(at + 2) in COURSE_WORDS and at + 3 == closing:
            self.out.rounds = self.toks[at + 1].value
            return past
        return None

    def _tells_of_chains(self, at: int, closing: int, inner: str) -> Told:
        """ "(counts as a stitch)", "(leave the rest unworked)"."""
        past = closing + 1
        last = self.last_type()
        if COUNTED_CHAINS.match(inner):
            self.out.counted_chains = True
            return past
        match = COUNTS.search(inner)
        if match:
            self.out.counts_as = not (match["no"] or NOT_COUNTED.search(match[0]))
            return past
        if last in ("ST", "NA") and IS_A_STITCH.fullmatch(inner) and self.out.chunks[0].value in ("ch", 1, 2, 3, 4):
            self.out.counts_as = True
            return past
        gap = self.gap_told(at, closing)
        if gap is not None:
            return gap
        if self.after_stitch() and " of " in inner and SOME_OF_THEM.match(inner):
            self.out.asides.append((self.toks[at].start, self.toks[closing].end))
            return past
        leaves = LEAVES.match(inner)
        if UNWORKED.match(inner) or (leaves and (leaves["which"] or inner[:6] == "leave ")):
            self.out.unworked = True
            return past
        return None

    def _dresses(self, at: int, closing: int, inner: str) -> Told:
        """ "(in back loops)", "(in blue)"."""
        past = closing + 1
        start = self.toks[at].start
        looped = self.loops(at + 1)
        if looped and looped[0] == closing:
            self.emit("LOOPS" if self.at_clause_start() else "LOOPSPOST", looped[1], start, self.toks[closing].end)
            return past
        first = at + 1 + (self.word(at + 1) == "all")  # "(all in white)"
        first += self.word(first) in ("with", "in", "using")
        colour = self.colour_name(first)
        if colour is None and self.is_letter_colour(first):
            colour = first + 1
        words = self.low[self.toks[first].start : self.toks[closing - 1].end]
        if colour is None and not at and self.names_yarn(words):
            colour = closing  # "R3 (hot pink): ...", by the text's own names
        if colour == closing:
            name = self.body[self.toks[first].start : self.toks[closing - 1].end]
            ahead = not self.at_clause_start() and self.kind(past) in ("number", "stitch")
            end = self.toks[closing].end
            back = ahead and (self._leads_so_far() or _GOES_BACK.search(self.low, end, end + _NEAR) is not None)
            ahead = back or (ahead and not self.times(past) and self._none_behind(past))
            if ahead:
                self.emit("SEP", None, start, start)  # "[A] 9 sc [B] 9 sc"
            self.emit("COLOUR" if self.at_clause_start() else "COLOURPOST", name, start, self.toks[closing].end)
            return past
        return None

    def _leads_so_far(self) -> bool:
        """Does the course begin with a bracket that tells a color? Then others stand in front of theirs as well."""
        first = self.out.chunks[0]
        return first.type == "COLOUR" and self.body[first.start : first.start + 1] in ("(", "[")

    def _none_behind(self, past: int) -> bool:
        """ "5 sc (pink) 3 sc (white) 10 sc": none behind the last stitches, and none in front of the first: each
        is that of the stitches behind it. "5 sc (pink) 3 sc (white)": of those before it."""
        if self.out.shades_ahead is None and not any(c.type == "COLOURPOST" for c in self.out.chunks):
            self.out.shades_ahead = self._worked_without(past)
        return bool(self.out.shades_ahead)

    def _worked_without(self, past: int) -> bool:
        """Do stitches follow each bracket that tells a color, up to the end of the repeat or of the body?"""
        at, worked = past, False
        while at < self.count and self.word(at) not in (")", "]", "}", "*"):
            closing = self.closers.get(at) if self.word(at) in ("(", "[", "{") else None
            if closing is None:
                if self.kind(at) == "stitch" and self.toks[at].key in _LEVELS:
                    break
                worked = worked or self.kind(at) == "stitch"
                at += 1
                continue
            if self._names_colour(at, closing):
                if self.kind(closing + 1) not in ("number", "stitch"):
                    return False
                worked = False
            at = closing + 1
        return worked

    def _names_colour(self, at: int, closing: int) -> bool:
        first = at + 1 + (self.word(at + 1) in ("with", "in", "using"))
        return self.colour_name(first) == closing or (first + 1 == closing and self.is_letter_colour(first))

    def _asks(self, at: int, closing: int, inner: str) -> Told:
        """ "(stuff the head)", "(6 sts increased)": nothing to work in it, but perhaps something to do."""
        past = closing + 1
        start = self.toks[at].start
        stitched = any(t.kind == "stitch" and t.key not in ("turn", "join") for t in self.toks[at + 1 : closing])
        stitched = stitched or WORK_TOGETHER.match(self.low, self.toks[at + 1].start) is not None
        stitched = stitched or (self.times(past) is not None and self.in_colours(at + 1, closing))
        stitched = stitched or any(t.text in self.names.glued for t in self.toks[at + 1 : closing])
        stitched = stitched or (_TWO_IN_ONE.search(inner) is not None and self._repeated(closing))
        numbered = any(t.kind == "number" for t in self.toks[at + 1 : closing])
        if not stitched and not (
            numbered
            and all(t.kind != "word" or t.text in HARMLESS or t.text in NOUNS for t in self.toks[at + 1 : closing])
        ):
            dyed = shades_by_round(inner) or (inner[:3] == "to " and is_colour(inner[3:]))
            dyed = dyed or (inner.startswith(("back to ", "to ", "now ")) and new_colour(inner) is not None)
            kind = named_behind(inner) or classify(inner) or ("colour" if dyed else beside_round(inner))
            if kind is None and "stuff" in inner and FILLED_AHEAD.fullmatch(inner):
                kind = "stuff"
            ahead = done_ahead(inner) if kind in (None, "other") else None  # "(after changing to white)"
            kind = ahead or kind
            if kind is not None and not self.depth:
                self.out.cues.append(
                    CueClause(kind, self.toks[at].end, self.toks[closing].start, leads=ahead is not None)
                )
                self.emit("CUE", len(self.out.cues) - 1, start, self.toks[closing].end)
                if kind == "colour":
                    name = new_colour(inner) or ""
                    if name or leaves_colour(inner):
                        self.emit("COLOUR", name, start, self.toks[closing].end)
            elif often.tells(inner) or (not self.out.chunks and self._repeated(closing)):
                self.out.unknown.append((start, self.toks[closing].end))  # "(30) (2x)": no course goes unsaid
            elif " in" in inner and SOMEWHERE.search(inner):
                return False  # "sc in each st (2 in the last)": so many of the same
            elif not self.depth and ("colo" in inner or "x" in inner) and _DYES.fullmatch(inner):
                self.out.cues.append(CueClause("other", self.toks[at].end, self.toks[closing].start))
                self.emit("CUE", len(self.out.cues) - 1, start, self.toks[closing].end)
            else:
                self.out.asides.append((start, self.toks[closing].end))
            return past
        return past if stitched and self.out.chunks and _MADE.match(inner) else None

    def _repeated(self, closing: int) -> bool:
        """ "(a, b)6 ...": a bracket that is worked so many times, whatever its words are."""
        past = closing + 1
        return self.times(past) is not None or (
            self.kind(past) == "number" and self.toks[past].start == self.toks[closing].end
        )

    def _leads(self, at: int, closing: int) -> bool:
        """Is a bracket at the start, with a number and its noun alone, followed by the stitches it counts?"""
        past = closing + 1
        if any(t.kind == "stitch" for t in self.toks[at:closing]):
            return False
        if self.word(past) == "*" and self.toks[closing].end < self.toks[past].start == self.toks[past + 1].start - 1:
            return self.stitchy(past + 1)  # "(18) *1 sc, inc* 6 times"
        often = self.times(past)
        if often is not None:  # "(18) 6 x (1 sc, inc)", "(12) 6x inc"
            works = self.word(often[1]) in ("(", "[") or self.kind(often[1]) == "stitch"
            return self.kind(past) == "number" and works
        if self.word(past) in (",", ";", ".", "x", "*", "-", "and", "in", "into"):
            return False
        worded = self.kind(past) == "word" and any(t.kind == "stitch" for t in self.toks[past:])
        return self.stitchy(past) or worded  # "(6) start with 6 sc"

    def _all_in_one(self, number: int, closing: int) -> bool:
        """ "[1 sc, (2 sc)] x3": inside a list, behind a comma, no count but stitches that go into one."""
        alone = closing == number + 2 and self.kind(number + 1) == "stitch" and self.toks[number].value in (2, 3)
        listed = self.last_type() == "SEP" and self.word(closing + 1) in (",", ")", "]", "}")
        return bool(alone and self.depth and listed)
