"""Printed counts, told from the amounts of stitches to work."""

from __future__ import annotations

import re

from hookside.notation.askings.clauses import CLAUSE
from hookside.notation.bodies.chunks import Chunk, Times
from hookside.notation.bodies.repeats import Repeats
from hookside.notation.bodies.wording.counts import (
    AND_SPACES,
    COMES_TO,
    COUNT_OF_EACH,
    COUNT_TAIL,
    IN_ALL,
    ONLY_TURNS,
    OPENINGS,
    SO_MANY,
    TOLD_BEHIND,
    WITH_CHAINS,
)
from hookside.notation.bodies.wording.stretches import AFTER_TIMES, CLAUSE_ENDS, MANNER, PLAIN
from hookside.notation.vocabulary import (
    COURSE_WORDS,
    NOUNS,
    TIMES_WORDS,
)

_SHAPING = frozenset(["inc", "dec", "inv dec", "inc3", "sc2tog", "sc3tog"])

# "(2 sc in the last st)": what goes into one of them is no count; "(9 sts in the last round)" may be
SOMEWHERE = re.compile(
    r"\b(?:sc|[hd]?dc|h?tr|\d|one|two) in(?:to)? (?:the )?(?:very )?(?:first|last|1st|same|each|every)\b"
    r"(?! (?:rounds?|rnds?|rows?|one)\b)"
)

_TOLD_APART = frozenset({"sc", "hdc", "dc", "tr", "dtr", "trtr", "esc", "edc", "FPdc", "BPdc", "FPsc", "BPsc"})

_BEGINNING = frozenset(["SEP", "MARK", "NB", "NA", "CUE", "COLOUR", "LOOPS"])


def _goes_round(last: Chunk) -> bool:
    if last.type in ("PLACE", "ANDPLACE"):
        return bool(last.value.kind == "fill" and not last.value.last)
    return last.type in ("TIMES", "REPFROM", "REPALL") and not (last.type == "REPFROM" and last.value.last)


class Counts(Repeats):
    """Is this number work, or the count of what was worked?"""

    def stitchy(self, at: int) -> bool:
        """Does a clause of stitches start here?"""
        here = at
        while self.word(here) in (
            "and",
            "then",
            "now",
            "work",
            "make",
            "next",
            "also",
            "crochet",
            "finally",
        ) or self.word(here) in (",", ";"):
            here += 1
        if self.kind(here) == "stitch":
            return True
        if self.kind(here) == "number":
            together = self.word(here + 1) in ("together", "tog")  # "1 sc, then two together"
            return self._stitch_at(here + 1) or together or (self.word(here + 1) == "x" and self._stitch_at(here + 2))
        if self.word(here) in ("(", "[", "{", "*"):
            closing = self.close_of(here) if self.word(here) != "*" else None
            if closing is not None and self.is_count(here, closing) is not None and not self.times(closing + 1):
                return False
            return self.stitchy(here + 1) or self.kind(here + 1) == "number"
        return self.word(here) in ("rep", "repeat", "blo", "flo", "in") and self.word(here + 1) not in ("between",)

    def is_count(self, opened: int, closed: int) -> int | None:
        """A bracket that holds nothing but a printed count -> index of its number."""
        if " in" in self.low and SOMEWHERE.search(self.low, self.toks[opened].end, self.toks[closed].start):
            return None  # "sc around (2 sc in the last st)"
        inner = range(opened + 1, closed)
        number = None
        arrow = False
        size = -1  # the 3 of "ch-3 sps"
        for here in inner:
            tok = self.toks[here]
            if here == size:
                continue
            if tok.kind == "number":
                if number is None or arrow:
                    number = here
                    arrow = False
                elif self.word(here - 1) not in (",", "-", "/", ";", "and", "+", "&"):
                    return None
            elif tok.text in ("=", ">"):
                arrow = number is not None
            elif tok.kind == "stitch":
                if number is None or self.toks[here - 1].kind != "number":
                    return None
                if tok.key in _SHAPING and (
                    number == here - 1 or any(self.kind(i) == "stitch" for i in range(opened + 1, here))
                ):
                    return None  # "(1 dec)", "(1 sc - 1 inc)" are work
                if tok.key == "ch":
                    size = here + 2 if self.word(here + 1) == "-" else here + 1
            elif (
                tok.text in NOUNS
                or (tok.text in OPENINGS and self.kind(here - 1) == "number" and number not in (None, here - 1))
                or tok.text
                in (
                    "total",
                    "in",
                    "all",
                    "now",
                    "left",
                    "remaining",
                    "remain",
                    "have",
                    "you",
                    "made",
                    "of",
                    "each",
                    "count",
                    "a",
                    "around",
                    "should",
                    "will",
                    "-",
                    ":",
                    ".",
                    ",",
                    ";",
                    "and",
                    "plus",
                    "+",
                    "/",
                    "&",
                    "<",
                    "st's",
                    "rem",
                    "~",
                    "turning",
                    "tch",
                    "not",
                    "including",
                    "counting",
                    "side",
                    "per",
                    "decreased",
                    "increased",
                    "every",
                    "for",
                    "corner",
                    "corners",
                )
                or (tok.text in COURSE_WORDS and self.word(here - 1) in ("each", "every", "per", "the", "this", "all"))
            ):
                continue
            else:
                return None
        return number

    def of_all_kinds(self, number: int, closed: int) -> int:
        """ "(32 tr, 20 dc)": what a count comes to that tells each kind of stitch by itself; else its first number."""
        total, here = 0, number
        while here < closed:
            known = self.kind(here + 1) == "stitch" and self.toks[here + 1].key in _TOLD_APART
            if total and AND_SPACES.match(self.low, self.toks[here].start):
                return total  # "(32 sc, 16 dc, 4 ch-2 sps)"
            if self.kind(here) != "number" or not known:
                return int(self.toks[number].value)
            total += self.toks[here].value
            here += 2
            while here < closed and self.word(here) in (",", "and", "&", "+", ";"):
                here += 1
        return total

    def only_leads(self, at: int) -> bool:
        """ "repeat (2 sc, inc) 6 times", "work in sc around": a word that adds nothing to what follows it."""
        if self.word(at) in ("rep", "repeat"):
            closing = self.close_of(at + 1) if self.word(at + 1) in ("(", "[", "{") else None
            return closing is not None and self.stitchy(at + 2) and self.times(closing + 1) is not None
        if self.word(at) == "in" and self.kind(at + 1) == "stitch":
            where = self.place(at + 2)
            if self.word(at + 2) in CLAUSE_ENDS or (where is not None and where[0].kind == "fill"):
                return True
            return self.loops(at + 2) is not None  # "work in sc into back loops"
        return False

    def comes_to(self, at: int) -> re.Match[str] | None:
        """ "..., 6 times, to 18": what a list comes to, behind how often it is worked."""
        at += self.word(at) == ","
        return COMES_TO.match(self.low, self.toks[at].start) if at < self.count else None

    def list_times(self, at: int, counted: tuple[Times, int]) -> bool:
        """ "sc, inc; 6 times", "sc, inc, x6": a multiplier set apart from its list is for all of it."""
        chunks = self.out.chunks
        if (
            self.last_type() != "SEP"
            or len(chunks) < 2
            or self.depth
            or not (
                self.word(counted[1]) in AFTER_TIMES
                or self.comes_to(counted[1])
                or self._comma_count(counted[1])
                or self._told_behind(counted[1])
                or self._in_manner(counted[1])
                or self._set_apart(at, counted[1])
            )
        ):
            return False
        closing = self.close_of(counted[1])
        if closing is not None and self.is_count(counted[1], closing) is None:
            return False  # "1 sc, 2x (inc), 1 sc": it belongs to the bracket behind it
        before = chunks[-2].type
        if before == "TIMES" and chunks[-2].value.n == 1 and len(chunks) > 3 and chunks[-3].type == "ST":
            before = "ST"  # "sc once, inc once, six times"
        start, end = self.toks[at].start, self.toks[counted[1] - 1].end
        if before in ("CLOSE", "STARC"):
            chunks.pop()
            self.emit("TIMES", counted[0], start, end)
            return True
        if before not in ("ST", "NA", "PLACE", "ANDPLACE", "BARE", "LOOPSPOST", "SKIP"):
            return False
        counted[0].exact = not counted[0].more
        self.emit("REPALL", counted[0], start, end)
        return True

    def so_many_of_them(self, at: int) -> int | None:
        """ "decrease all around, eight of them": how many, of the shaping that goes all the way."""
        if self.word(at + 1) != "of" or self.word(at + 2) not in ("them", "these", "those"):
            return None
        last = [c for c in self.out.chunks if c.type != "SEP"][-2:]
        told = [c.type for c in last] == ["ST", "PLACE"] and last[0].value in _SHAPING
        if not told or last[1].value.kind != "fill" or self.depth or self.word(at + 3) not in CLAUSE_ENDS:
            return None
        many = self.toks[at]
        last[1].value.each = False
        number = Chunk("NA", (many.value, many.start, many.end), many.start, many.end)
        self.out.chunks.insert(self.out.chunks.index(last[1]), number)
        return at + 3

    def _set_apart(self, at: int, past: int) -> bool:
        """ "(3 sc, dec), 3 times, 5 sc": between two commas, behind a bracket that says nothing of how often.

        So is "sc 2, dec; 4 times, sc 2" behind a sign of its own, and "sc 2, dec, four times, then sc 2".
        """
        times = any(self.word(i) == "times" or self.word(i) in TIMES_WORDS for i in range(at, past))
        signs = [c.value for c in self.out.chunks if c.type == "SEP"]
        goes_on = past + 1 if self.word(past) in (",", ";") else past
        own = signs[-1] == ";" and len(signs) > 1 and ";" not in signs[:-1]
        if times and (own or (len(signs) > 1 and self.word(past) == ",")) and (
            self.word(goes_on) in ("then", "ending", "end", "finish", "finishing") or (own and goes_on > past)
        ):
            return True
        alone = [c.type for c in self.out.chunks if c.type != "SEP"] in (["NB", "ST", "PLACE"], ["ST", "PLACE"])
        closed = alone or self.out.chunks[-2].type in ("CLOSE", "STARC")
        return times and closed and self.word(past) in (",", ";", "+", "/")

    def _filled(self) -> bool:
        """Has the course just gone all the way round, or is there no sign between it and a number?"""
        chunks = self.out.chunks[-4:]
        if len(chunks) > 2 and chunks[-1].type == "SEP" and chunks[-2].type == "MARK" and chunks[-2].value[0] == "turn":
            if all(c.value == ";" for c in (chunks[-1], chunks[-3]) if c.type == "SEP"):
                return True  # "dc in each of next 17 dc; turn; 16 dc": nothing but the count is set off so
            chunks = chunks[:-2]  # "... to end, turn, 16 dc"
        if chunks[-1].type != "SEP":
            return chunks[-1].type in ("TIMES", "REPFROM", "REPALL", "CLOSE") or (
                chunks[-1].type == "PLACE" and chunks[-1].value.kind == "fill"
            )
        last = chunks[-2] if len(chunks) > 1 else chunks[-1]
        if last.type in ("REPFROM", "REPALL", "TIMES"):
            return bool(last.value.fill and not last.value.last)
        return last.type in ("PLACE", "ANDPLACE") and last.value.kind == "fill" and not last.value.last

    def _ends_with_stitch(self, at: int) -> bool:
        past = at + 2
        return self.word(at + 1) in ("sc", "dc", "hdc", "htr", "tr") and (
            past >= self.count or self.word(past) in (".", ";", "!")
        )

    def begins_side(self) -> bool:
        """ "on other side of ch. 4 d.c.": has nothing been worked along that side yet?"""
        last = self.out.chunks[-1] if self.out.chunks else None
        return last is not None and last.type == "MARK" and last.value[0] == "other side"

    def _told_behind_colon(self, at: int) -> bool:
        """ "2 sc in each st around: 12 sc", but not "in the ring: 6 sc", where nothing was worked before it."""
        return (
            self.word(at - 1) == ":"
            and not self.begins_side()
            and self.word(at - 2) not in ("then", "next", "now")
            and any(chunk.type == "ST" for chunk in self.out.chunks)
        )

    def _comma_count(self, at: int) -> bool:
        """ "3 sc, inc, x6, 30", "..., four times, eight stitches": nothing but the count behind a comma."""
        if self.word(at) != "," or self.kind(at + 1) != "number":
            return False
        past = at + 2 + (self.word(at + 2) in NOUNS)
        in_all = IN_ALL.match(self.low, self.toks[at + 1].start)
        return self.word(past) in ("", ".", ";", "(", "[") or in_all is not None

    def _told_behind(self, at: int) -> bool:
        """ "one sc, one inc, six times over, which makes 18 stitches", "6 times so 18": the count in its own words."""
        if self.kind(at) == "number":
            return IN_ALL.match(self.low, self.toks[at].start) is not None
        if at < self.count and TOLD_BEHIND.match(self.low, self.toks[at].start) is not None:
            return True
        at += self.word(at) in (",", ";")
        return self.word(at) in ("so", "and") and SO_MANY.match(self.low, self.toks[at].start) is not None

    def _told_behind_comma(self, at: int) -> bool:
        """ "sc all round, 36", "1sc inc x6, 18": behind a round that is whole, in words that name their stitches."""
        chunks = self.out.chunks
        if self.told or self.word(at - 1) != "," or len(chunks) < 2 or self.last_type() != "SEP":
            return False
        if any(chunk.type == "BARE" for chunk in chunks):
            return False  # "(1, inc) x 6, 4": plain stitches go by their number alone here
        return _goes_round(chunks[-2])

    def _counted_behind_colour(self, at: int) -> bool:
        """ "sc 6 in magic ring, brown : 6", "inc x 6, light grey: 12": its one colour, and at its end the count.

        "red: 5, white: 6" goes on in stripes, and so may "9 sc, white: 5", which makes more than it says.
        """
        past = self._past_count(at)
        if self.depth or self.told or self.word(past) not in ("", ".", "!") or past < self.count - 1:
            return False
        chunks = [c for c in self.out.chunks if c.type not in ("SEP", "CUE", "MARK", "LOOPS")]
        worked = [c for c in chunks[:-1] if c.type == "ST"]
        if not worked or any(c.type in ("COLOUR", "COLOURPOST", "BARE") for c in chunks[:-1]):
            return False
        last = chunks[-2]
        if _goes_round(last) or (last.type == "PLACE" and last.value.kind == "ring"):
            return True
        amounts = sum(c.value[0] for c in chunks if c.type in ("NB", "NA"))
        many = self.toks[at].value
        return bool(many >= amounts if len(worked) > 1 else many == amounts)

    def whole(self) -> bool:
        """Has what was told last gone all the way round?"""
        return bool(self.out.chunks) and _goes_round(self.out.chunks[-1])

    def went_round(self) -> bool:
        """The same, whatever comma stands behind it."""
        chunks = self.out.chunks
        return self.whole() or (len(chunks) > 1 and chunks[-1].type == "SEP" and _goes_round(chunks[-2]))

    def _ends_as_count(self, at: int) -> bool:
        """Is the number here the printed count: nothing but its noun, then the end or a full stop?"""
        here = self._past_count(at)
        noun = here > at + 1
        if self.kind(at + 1) == "stitch" and (self.told or self._only_begun()):
            return False  # "Ch 1. 19 sc.": nothing is worked yet that could be counted
        if here >= self.count:
            told = self.word(at - 1) in (".", ";", "-", "=") or self._told_behind_colon(at)
            told = told or self._told_behind_comma(at)
            return noun or told or self.last_type() not in ("SEP",)
        if self.word(here) == ";" and self.stitchy(here + 1) and not ONLY_TURNS.match(self.low, self.toks[here].start):
            return False  # "inc; 6 sc; inc"
        if self.word(here) in (".", ";", "!") or (self.word(here) == "," and not self.stitchy(here + 1)):
            named = self.word(here) == "," and self.out.unknown and self.out.unknown[-1][1] == self.toks[at - 1].end
            if named and not noun:
                return False  # "10 around lobe two, ...": the name of what nobody knows
            return noun or here == self.count - 1 or self.last_type() != "SEP" or self._told_behind_comma(at)
        if self.word(here) in ("(", "[") and not self.stitchy(here) and self._told_behind_comma(at):
            return True  # "sc all round, 36 (this gives the square edge)"
        return noun and bool(CLAUSE.match(self.low, self.toks[here].start) or self._only_turns(here))

    def another_round(self, at: int) -> bool:
        """ "dec around, then 9 sc", "18 sc; 18 hdc", "18 sc. 18 sc.": what goes on, another stitch than any before it,
        or nothing but the same amount again is no count of them."""
        before = self.word(at - 1)
        if before in ("then", "and", "again", "also"):
            return True
        if before not in (";", ".", ","):
            return False
        key = self.toks[at + 1].key
        worked = [c for c in self.out.chunks if c.type not in ("SEP", "CUE", "COLOUR")]
        plain = {str(c.value) for c in worked if c.type == "ST" and c.value in PLAIN}
        if plain and key not in plain and key in PLAIN:
            return True
        amount = next((c.value[0] for c in worked if c.type in ("NB", "NA")), None)
        return len(worked) == 2 and plain == {key} and amount == self.toks[at].value

    def _only_begun(self) -> bool:
        """Is all before only the way into the course: its chains, a turn, a colour?"""
        return all(c.type in _BEGINNING or (c.type == "ST" and c.value == "ch") for c in self.out.chunks)

    def _counted_behind(self, at: int) -> bool:
        """ "7 sc. (38)": a bracket with another count behind it, so that this is work."""
        here = at + 2
        if self.kind(at + 1) != "stitch":
            return False
        while self.word(here) in (".", ";"):
            here += 1
        closing = self.close_of(here) if self.word(here) in ("(", "[") else None
        number = self.is_count(here, closing) if closing is not None else None
        return number is not None and self.toks[number].value != self.toks[at].value

    def _slip_count(self, at: int) -> bool:
        """ "sl st in each ch across - 24 sl sts": slip stitches that are the row, and so its count."""
        return self.toks[at].key == "sl st" and any(c.type == "ST" and c.value == "sl st" for c in self.out.chunks)

    def _past_count(self, at: int) -> int:
        here = at + 1
        if self.word(at - 1) in ("=", "-", ">") and COUNT_OF_EACH.match(self.low, self.toks[at].start):
            return self.count
        if self.kind(here) == "stitch" and self.toks[here].key in _SHAPING:
            return here  # "1X, 7V": increases, whatever else a V can be
        while (
            self.word(here) in NOUNS
            or (
                self.word(here) in ("total", "all", "left", "remaining", "remain", "rem", "now", "made", "altogether")
                and here > at + 1
            )
            or (here > at + 1 and self.word(here) == "in" and self.word(here + 1) in ("total", "all"))
        ):
            here += 1
        if here == at + 1 and self.word(here) in ("total", "altogether"):
            here += 1
        if here == at + 1 and self.word(here) == "in" and self.word(here + 1) in ("total", "all"):
            here += 2
        if (
            here == at + 1
            and self.kind(here) == "stitch"
            and self.toks[here].key in PLAIN
            and (
                self.word(here + 1) in ("total", "altogether")
                or (self.word(here + 1) == "in" and self.word(here + 2) == "total")
            )
        ):
            here += 2 + (self.word(here + 1) == "in")
        if (
            here == at + 1
            and self.kind(here) == "stitch"
            and (self.toks[here].key in PLAIN or self._slip_count(here))
            and (self.word(at - 1) in (".", "=", "-", ";", ">") or self._told_behind_colon(at))
            and not self._listed(at)
        ):
            here += 1
        if here < self.count and (chains := WITH_CHAINS.match(self.low, self.toks[here].start)):
            return self.token_after(chains.end(), here)
        while (
            here > at + 1
            and self.word(here) in (",", "and", "&", "+")
            and here + 1 < self.count
            and (match := AND_SPACES.match(self.low, self.toks[here + 1].start))
        ):
            here = self.token_after(match.end(), here)  # "- 11 dc, 9 ch-1 sps"
        if here < self.count and here > at + 1:
            match = COUNT_TAIL.match(self.low, self.toks[here].start)
            if match:
                here = self.token_after(match.end(), here)
        return here

    def _listed(self, at: int) -> bool:
        """ "3 sc; 8 inc; 3 sc": the last of a list whose parts stand between such signs."""
        return self.word(at - 1) == ";" and any(t.text == ";" for t in self.toks[: at - 1]) and not self._filled()

    def _remarked(self, at: int) -> bool:
        """ "- 36 (front loops wait for the skirt)", "- 36 (4 rounds)": a bracket at the end, nothing of it worked."""
        closing = self.close_of(at)
        if closing is None or self.word(at + 2) in COURSE_WORDS:
            return self.word(at + 2) in COURSE_WORDS
        words = [t for t in self.toks[at + 1 : closing] if t.kind == "word"]
        parts = [t.value for t in self.toks[at + 1 : closing] if t.kind == "number"]
        if len(parts) > 1 and sum(parts) == self.toks[at - 1].value:
            return True  # "- 56 (40 sc + 16 ch)": what the count is made of
        ends = self.word(closing + 1) in ("", ".", ";")
        return ends and len(words) > 2 and self.kind(at + 1) == "word" and not self.stitchy(at)

    def _in_manner(self, at: int) -> bool:
        """ "6 times over, keeping the stripes as they fall": only how, behind a comma?"""
        return self.word(at) == "," and at + 1 < self.count and bool(MANNER.match(self.low, self.toks[at + 1].start))

    def _only_turns(self, past: int) -> bool:
        """Does the sentence of the token at `past` only tell the way to the next row: ", turn. Alternate yarns."?"""
        start = self.toks[past].start
        stop = self.low.find(". ", start)
        return ONLY_TURNS.match(self.low[start:stop] if stop > 0 else self.low[start:]) is not None

    def _count_after_dash(self, at: int) -> bool:
        past = self._past_count(at)
        if past >= self.count:
            return True
        if self._counted_behind(at):
            return False  # "dec - sew the mouth - 9 sc (17)"
        word = self.word(past)
        return (
            word in (".", ";", "!", "(", "-", ">", "]", ",")
            and not (word == "," and self.stitchy(past + 1) and not self._only_turns(past))
            and not (word == "(" and past == at + 1 and not self._remarked(past))
        ) or (
            (past > at + 1 or self.word(at - 1) == "=")
            and bool(CLAUSE.match(self.low, self.toks[past].start) or self._only_turns(past))  # "- 12 hdc Turn."
        )
