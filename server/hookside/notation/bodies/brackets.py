"""Signs and brackets: a repeat, a printed count, a colour, or an aside."""

from __future__ import annotations

import re

from hookside.notation.askings.clauses import new_colour
from hookside.notation.askings.kinds import classify
from hookside.notation.bodies.chunks import CueClause
from hookside.notation.bodies.clauses import Clauses
from hookside.notation.bodies.wording.counts import (
    ANY_STITCH,
    BRACKETED_COUNT,
    CHAINS_TOO,
    CHANGE_AND_COUNT,
    COUNTED_CHAINS,
    COUNTS,
    IS_A_STITCH,
    ONLY_TURNS,
    OPENS_AS_COUNT,
)
from hookside.notation.bodies.wording.places import SAME_AS
from hookside.notation.bodies.wording.stretches import (
    CLAUSE_ENDS,
    LEAVES,
    MADE_OF,
    NAMED_MADE,
    UNWORKED,
    WORK_TOGETHER,
)
from hookside.notation.vocabulary import (
    COURSE_WORDS,
    HARMLESS,
    NEXT,
    NOUNS,
    number_of,
)

# "(these sit over the increases of round 8)": what is said about the stitches before it
_REMARK = re.compile(
    r"(?:these|those|this|they|where|here|there|as in|note)\b(?:[^\d]|\b(?:rnds?|rounds?|rows?|r) ?\d{1,3}(?!\d)){0,90}"
)
OF_STITCHES = frozenset({"bobble", "popcorn", "puff", "cluster"})  # stitches whose make is told beside them
_NAMES = re.compile(
    r"(?:an? |\d{1,2} |one |two |three )?"
    r"(?:(?P<more>inc(?:rease)?s?(?: made)?)|(?:inv(?:isible)?[ -]?)?dec(?:rease)?s?(?: made)?)\.?"
)
# "6 inc (2 sc in 1 st)", "dec (sc2tog)": how the stitch before it is worked
_SPELT = {
    "inc3": re.compile(
        r"(?:i\.?e\.?,? |= ?|work )?(?:3|three) ?(?:sc|sts) (?:in|into) (?:the )?(?:one|1|same|each|next|a)\b"
        r"(?: (?:st|stitch|sc))?"
    ),
    "inc": re.compile(
        r"(?:i\.?e\.?,? |= ?|work )?(?:2|two) ?(?:sc|dc|sts|single crochets?) (?:in|into) (?:the )?(?:one|1|same|each|"
        r"next|a)"
        r"(?: of the)?(?: (?:st|stitch|sc|place))?"
    ),
    "dec": re.compile(
        r"(?:i\.?e\.?,? |= ?|work )?(?:sc ?2 ?tog|(?:sc|crochet|work)?(?: (?:the )?next)? ?(?:2|two) (?:sts |sc |"
        r"stitches )?"
        r"tog(?:ether)?|inv(?:isible)?\.?[ -]?dec\w*|invdec)"
    ),
}
# "(+6)", "(-6 sts)", "(4 shells, 5 sc)": how many more, or what is not counted in stitches
_STEP = re.compile(
    r"[+-]\s?\d{1,3}(?: ?(?:sts?|stitches|sc|incs?|decs?))?|"
    r"(?:\d{1,3} (?:ch-?\d? )?[a-z-]+(?:, | and |; )*)*\d{1,3} (?:shells?|fans?|scallops?|petals?|points?|ripples?|"
    r"arch(?:es)?|arcs?|bows?|repeats?|groups?|v-?sts|waves?|spikes?)\b"
    r"(?: of \d{1,2} (?:chs?|chains?))?(?:(?:, | and |; )\d{1,3} [a-z-]+)*"
)
# "<56>", "<56, counting each ch as a st>"
_ANGLED = re.compile(
    r"<\s*(?P<n>\d{1,4})\s*(?:(?:sts?|stitches|sc|dc|hdc|tr)\b\.?\s*)?(?:(?:[,;]|with|incl|counting)[^<>\d]{0,60})?>"
)
_TOLD_MORE = re.compile(r"\b(?:2|two|3|three)\b.*\b(?:in|into)\b|\binc")
_IN_SEVERAL = re.compile(r"\b(?:in|into) (?:the )?next (?:\d|two|three|four)")
_TOLD_FEWER = re.compile(r"tog\b|\btogether\b|\bdec|\bover (?:the )?next\b")

# "(bobble = 3 dc tog, these are the claws)": what a stitch is, said in the middle of a round
_DEFINED = re.compile(
    r"[a-z][a-z -]{1,20}[a-z]\s*=\s*(?!\d{1,4}\s*(?:sts?|stitch(?:es)?|sc|[hd]?dc|times|rounds)?\W*$)[a-z\d]"
)


class Brackets(Clauses):
    """What a sign is depends on what stands around it."""

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
            closing = self.close_of(at)
            if closing is not None:
                past = self.bracket(at, closing)
                if past is not None:
                    return past
            elif (
                self.kind(here) == "number"
                and self.out.chunks
                and not self.depth
                and self._past_count(here) >= self.count
            ):
                value = self.toks[here]  # "(24": a count whose bracket was never closed
                self.counted(value.value, value.start, value.end)
                return self.count
            self.depth.append(sign)
            self.emit("OPEN", sign, tok.start, tok.end)
            self.number_first = None
            return here
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
        if sign in ".;!,":
            self.number_first = None
            if last not in ("", "SEP", "OPEN", "STARO"):
                self.emit("SEP", sign, tok.start, tok.end)
            return here
        if sign in "+-" and at == 0 and (past := self.clause_start(at)) is not None:
            return past  # "+6 (24)"
        if sign == "-" and self.word(at - 1) in NEXT and self.kind(here) == "number" and self.is_noun(here + 1):
            self.out.unknown.append((tok.start, self.toks[here].end))
            return here + 1
        if sign in "-:" and last == "ST" and self.glued(at) and ("-" in self.amounts_by or self.stitchy(here + 1)):
            self.amounts_by.add("-")  # "sc-12, inc-6"
            told = self.toks[here]
            self.emit("NA", (told.value, told.start, told.end), told.start, told.end)
            return here + 1
        slashed = sign in "/|" and self.apart(at) and self._past_count(here) >= self.count
        if sign in "-=:~>" or slashed:
            if not self.depth and self.out.chunks and self.kind(here) == "number" and self._count_after_dash(here):
                value = self.toks[here]
                self.counted(value.value, value.start, value.end)
                past = self._past_count(here)
                if self.word(past) in ("-", ">"):
                    past += 1
                return past
            if sign == ":" or (
                sign == "-" and last in ("CLOSE", "PLACE", "TIMES", "MARK", "REPFROM", "REPALL", "STARC")
            ):
                if last not in ("", "SEP", "OPEN", "STARO", "COLOUR", "LOOPS"):
                    self.emit("SEP", sign, tok.start, tok.end)
                self.number_first = None
            return here
        if sign in "/&+":
            if last not in ("", "SEP", "OPEN", "STARO") and sign != "/":
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

    def counted_in_stars(self, at: int) -> int | None:
        """ "sc around. *(30 sts)*": a count in slanted print."""
        closing = self.close_of(at + 1) if self.word(at + 1) in ("(", "[") and not self.open_star else None
        number = self.is_count(at + 1, closing) if closing is not None and self.out.chunks and not self.depth else None
        if closing is None or number is None or self.word(closing + 1) != "*":
            return None
        told = self.toks[number]
        self.counted(told.value, told.start, told.end)
        return closing + 2

    def _leads(self, at: int, closing: int) -> bool:
        """Is a bracket at the start, with a number and its noun alone, followed by the stitches it counts?"""
        past = closing + 1
        if any(t.kind == "stitch" for t in self.toks[at:closing]) or self.times(past):
            return False
        return self.word(past) not in (",", ";", ".", "x", "*", "-", "and") and self.stitchy(past)

    def _all_in_one(self, number: int, closing: int) -> bool:
        """ "[1 sc, (2 sc)] x3": inside a list, behind a comma, no count but stitches that go into one."""
        alone = closing == number + 2 and self.kind(number + 1) == "stitch" and self.toks[number].value in (2, 3)
        listed = self.last_type() == "SEP" and self.word(closing + 1) in (",", ")", "]", "}")
        return bool(alone and self.depth and listed)

    def _spells(self, inner: str) -> bool:
        """Does a bracket spell out the increase or decrease before it?"""
        before = next((c for c in reversed(self.out.chunks) if c.type not in ("NA", "PLACE", "TIMES")), None)
        spelt = _SPELT.get({"inv dec": "dec"}.get(str(before.value), str(before.value))) if before is not None else None
        return before is not None and before.type == "ST" and spelt is not None and bool(spelt.fullmatch(inner))

    def _names_each(self, inner: str) -> bool:
        """ "2 sc in next 2 sts (2 incs)": as many increases as stitches, so that it is two in each of them."""
        name = _NAMES.fullmatch(inner)
        last = self.out.chunks[-1] if self.out.chunks else None
        if name is None or last is None or last.type != "PLACE" or not name["more"]:
            return False
        place = last.value
        told = re.match(r"\d+|one|two|three", inner)
        if place.kind != "next" or place.n < 2 or (told is not None and number_of(told[0]) != place.n):
            return False
        place.each = place.each or told is not None
        return True

    def _only_names(self, inner: str, start: int) -> bool:
        """Whether a bracket only names what was just told, "2 sc in next st (inc)": it is no stitch of its own."""
        name = _NAMES.fullmatch(inner)
        told = re.split(r"[,;*(\[{]", self.low[:start])[-1].strip()
        if name is None or not told or (name["more"] and _IN_SEVERAL.search(told)):
            return False  # "2 sc in next 2 sts (2 incs)" decides between two meanings, and may not be dropped
        return bool((_TOLD_MORE if name["more"] else _TOLD_FEWER).search(told))

    def bracket(self, at: int, closing: int) -> int | None:
        """What a bracket is when it does not hold stitches to work; None when it does."""
        inner = self.low[self.toks[at].end : self.toks[closing].start].strip()
        past = closing + 1
        last = self.last_type()
        start = self.toks[at].start
        if not inner:
            return past
        if self.out.chunks and not self.depth and _STEP.fullmatch(inner):
            self.out.asides.append((start, self.toks[closing].end))
            return past
        again = self.repeat_phrase(at + 1) if self.word(at + 1) not in ("*", "work") else None
        if again and again[2] == closing and last in ("ST", "NA", "CLOSE", "STARC", "PLACE", "SEP"):
            return self.repeat(at + 1) + 1
        counted = self.times(at + 1)
        if counted and counted[1] == closing and last in ("ST", "NA", "CLOSE", "STARC", "PLACE", "NB"):
            self.emit("TIMES", counted[0], start, self.toks[closing].end)
            return past
        if (self._spells(inner) or (self.out.chunks and _DEFINED.match(inner))) and not self.times(past):
            self.out.asides.append((start, self.toks[closing].end))
            return past
        if _REMARK.fullmatch(inner) and not self.times(past) and not self.depth:
            self.out.asides.append((start, self.toks[closing].end))
            return past
        count = BRACKETED_COUNT.fullmatch(inner) if self.out.chunks and not self.depth else None
        if count is not None and not self.times(past):
            offset = self.low.index(inner, self.toks[at].end)
            which = "n" if count["n"] else "n2"
            self.counted(int(count[which]), offset + count.start(which), offset + count.end(which))
            return past
        number = self.is_count(at, closing)
        if number is not None and self._all_in_one(number, closing):
            return None
        if number is not None and at == 0 and self._leads(at, closing):
            value = self.toks[number]  # "(18) 1 sc, inc": the count before the words
            self.counted(value.value, value.start, value.end)
            return past
        before_count = self.word(past) in ("(", "[", "=") or ("(" in self.amounts_by and self.glued(at))
        amount = self.stitchy(past) or (bool(self.amounts_by) and before_count)
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
                    return None
                value = self.toks[number]
                self.counted(value.value, value.start, value.end)
                return past
        goes_on = self.times(past) or self.word(past) in ("in", "into", "rep", "repeat", "around", "across", "to", "x")
        if self.out.chunks and not self.depth and not goes_on and (number is None or "," in inner):
            match = CHANGE_AND_COUNT.match(inner) or OPENS_AS_COUNT.match(inner)
            rest = match.groupdict().get("rest") or "" if match else ""
            plain = match is not None and self.toks[at + 2].kind == "sign" and self.toks[at + 2].text in ")]}"
            worked = sum(t.kind == "stitch" for t in self.toks[at + 1 : closing]) > 1 or closing in self.prefixed
            if match and not plain and not ANY_STITCH.search(rest) and not worked:
                offset = self.low.index(inner, self.toks[at].end)
                which = "n" if match["n"] else "n2"
                self.counted(int(match[which]), offset + match.start(which), offset + match.end(which))
                rounds = re.search(r"\b(\d{1,3}) (?:rounds|rnds|rows)\b", rest)
                if rounds:
                    self.out.rounds = int(rounds[1])
                return past
        if self.kind(at + 1) == "number" and self.word(at + 2) in COURSE_WORDS and at + 3 == closing:
            self.out.rounds = self.toks[at + 1].value
            return past
        if COUNTED_CHAINS.match(inner):
            self.out.counted_chains = True
            return past
        match = COUNTS.search(inner)
        if match:
            self.out.counts_as = not (match["no"] or "not" in match[0] or "n't" in match[0])
            return past
        if last in ("ST", "NA") and IS_A_STITCH.fullmatch(inner) and self.out.chunks[0].value in ("ch", 1, 2, 3, 4):
            self.out.counts_as = True
            return past
        leaves = LEAVES.match(inner)
        if UNWORKED.match(inner) or (leaves and (leaves["which"] or inner[:6] == "leave ")):
            self.out.unworked = True
            return past
        stitch = self.out.chunks[-1].value if last == "ST" else ""
        if stitch in OF_STITCHES and MADE_OF.fullmatch(inner) and not self.times(past):
            self.out.asides.append((start, self.toks[closing].end))
            return past
        if not self.times(past) and self._names_each(inner):
            self.out.asides.append((start, self.toks[closing].end))
            return past
        if self._only_names(inner, start) and not self.times(past):
            self.out.asides.append((start, self.toks[closing].end))
            return past
        if SAME_AS.fullmatch(inner):
            self.out.asides.append((start, self.toks[closing].end))
            return past
        looped = self.loops(at + 1)
        if looped and looped[0] == closing:
            self.emit("LOOPS" if self.at_clause_start() else "LOOPSPOST", looped[1], start, self.toks[closing].end)
            return past
        colour = self.colour_name(at + 1)
        if colour is None and self.is_letter_colour(at + 1):
            colour = at + 2
        if self.word(at + 1) in ("with", "in", "using"):
            colour = self.colour_name(at + 2) or (at + 3 if self.is_letter_colour(at + 2) else None)
        if colour == closing:
            first = at + 2 if self.word(at + 1) in ("with", "in", "using") else at + 1
            name = self.body[self.toks[first].start : self.toks[closing - 1].end]
            self.emit("COLOUR" if self.at_clause_start() else "COLOURPOST", name, start, self.toks[closing].end)
            return past
        stitched = any(t.kind == "stitch" and t.key not in ("turn", "join") for t in self.toks[at + 1 : closing])
        stitched = stitched or WORK_TOGETHER.match(self.low, self.toks[at + 1].start) is not None
        numbered = any(t.kind == "number" for t in self.toks[at + 1 : closing])
        if not stitched and not (
            numbered
            and all(t.kind != "word" or t.text in HARMLESS or t.text in NOUNS for t in self.toks[at + 1 : closing])
        ):
            kind = classify(inner)
            if kind is not None and not self.depth:
                self.out.cues.append(CueClause(kind, self.toks[at].end, self.toks[closing].start))
                self.emit("CUE", len(self.out.cues) - 1, start, self.toks[closing].end)
                if kind == "colour":
                    name = new_colour(inner) or ""
                    if name:
                        self.emit("COLOUR", name, start, self.toks[closing].end)
            else:
                self.out.asides.append((start, self.toks[closing].end))
            return past
        if (
            stitched
            and self.out.chunks
            and re.match(
                r"[a-z0-9 -]{0,24}\bmade\b|(?:inc|increase|dec|decrease)\w*\s+(?:made|rnd|round|row)|\d+ (?:sts|"
                r"stitches) (?:inc|dec)",
                inner,
            )
        ):
            return past
        return None
