"""Joins, skips, and shaping told for a whole stretch: "increase 6 evenly", "every 5th and 6th st together"."""

from __future__ import annotations

import re

from hookside.notation.bodies.chunks import Chunk, CueClause, Place, Times
from hookside.notation.bodies.gaps import Gaps
from hookside.notation.bodies.placed import piece_named
from hookside.notation.bodies.wording.joins import (
    DYED_FIRST,
    DYES_JOIN,
    JOIN,
    JOIN_PART,
    JOIN_WORD,
    JOINS_TOP,
    PART,
    RING_OF,
)
from hookside.notation.bodies.wording.places import TO_CORNER
from hookside.notation.bodies.wording.stretches import (
    CLAUSE_ENDS,
    ENDS_WITH,
    LAST_TOLD,
    LEAVES,
    LEAVES_BEGIN,
    PICOTS,
    PLAIN,
    REST_IN,
)
from hookside.notation.vocabulary import EACH, NEXT, ORDINAL_WORDS, number_of

_MORE = ("inc", "add", "+")
_GROWS = re.compile(r"\b(?:up|grow|widen)\b")


def nth_of(word: str) -> int:
    """ "3", "3rd" and "third" -> 3."""
    return int(re.sub(r"\D", "", word)) if word[0].isdecimal() else ORDINAL_WORDS[word]


_GOES_ON = ("continue", "carry on", "go on", "keep going", "work on")


_STRETCHES = frozenset(["PLACE", "ANDPLACE", "REPFROM", "REPALL", "TIMES"])


def _goes_on(stretch: Place | Times) -> bool:
    """Does a stretch go to the end?"""
    return stretch.fill if isinstance(stretch, Times) else stretch.kind == "fill"


class Shaping(Gaps):
    """Phrases that stand for more than one stitch, or for none."""

    def nth_together(self, at: int, match: re.Match[str]) -> int:
        """ "crochet every 5th and 6th st together": four plain, then the two, all the way."""
        span = match.span()
        self.emit("OPEN", "(", *span)
        self.emit("NB", (nth_of(match["n"]) - 1, *match.span("n")), *span)
        self.emit("ST", "sc", *span)
        self.emit("SEP", ",", *span)
        self.emit("ST", "dec", *span)
        self.emit("CLOSE", ")", *span)
        self.emit("TIMES", Times(fill=True), *span)
        return self.token_after(match.end(), at)

    def ring_led(self, at: int) -> int:
        """ "In a FR crochet 6 fM": a ring by a name of the text's own, before its stitches -> behind it; 0: none."""
        here = at + 1
        while self.word(here) in ("a", "an", "the", "your"):
            here += 1
        if here >= self.count or self.toks[here].key != "ring":
            return 0
        past = here + 1
        while self.word(past) in ("crochet", "work", "make", "knit"):
            past += 1
        return past if self.kind(past) == "number" else 0

    def kept_back(self, n: int) -> bool:
        """Keeps `n` stitches back from the stretch that has just been told: "sc around, omitting the last st"."""
        chunks = self.out.chunks[-2:]
        last = chunks[-2] if len(chunks) > 1 and chunks[-1].type == "SEP" else chunks[-1] if chunks else None
        if last is not None and last is self.out.chunks[0] and last.type == "ST" and last.value in PLAIN:
            # "sc, leaving the last 2 sts unworked": all the way round but for those
            around = Place("fill", last=n, start=last.end, end=last.end)
            self.out.chunks.insert(1, Chunk("PLACE", around, last.end, last.end))
            return True
        if last is None or last.type not in _STRETCHES:
            return False
        stretch = last.value
        if not _goes_on(stretch):
            return False
        stretch.last = n
        return True

    def left_behind(self, at: int) -> int | None:
        """ "turn leaving 3 sts": those are not worked. "dec around, leaving 9 sts" is a count of what there is.

        So is "dec around, leaving 9 for the neck"; "sc in next 18, leaving 6 for the instep" never reaches them.
        """
        match = LEAVES.match(self.low, self.toks[at].start) if self.toks[at].text in LEAVES_BEGIN else None
        if match is None or not self.out.chunks or self.depth:
            return None
        turned = self.out.chunks[-1].type == "MARK" and self.out.chunks[-1].value[0] == "turn"
        around = any(c.type in _STRETCHES and _goes_on(c.value) for c in self.out.chunks)
        short = " for " in match[0] and not around
        result = match[0].startswith("leaving") and not (match["which"] or turned or short)
        if result and not re.search(r"\d", self.low[match.end() :]) and "un" not in match[0]:
            return None
        told = next((n for group, n in match.groupdict().items() if n and group != "which"), "")
        if told:
            self.kept_back(number_of(told))
        self.out.unworked = True
        return self.token_after(match.end(), at)

    def evenly(self, at: int, match: re.Match[str]) -> int:
        """ "increase 6 sts evenly": so many of them, and plain stitches between."""
        told = match.groupdict()
        group = "n" if told["n"] else "n2"
        key = "inc" if str(told["verb"] or told.get("verb2")).startswith(_MORE) else "dec"
        n = number_of(match[group])
        span = match.span(group)
        self.emit("ST", key, match.start(), match.end())
        self.emit("NA", (n, *span), *span)
        self.emit("PLACE", Place("evenly", n=n, number=span), match.start(), match.end())
        return self.token_after(match.end(), at)

    def resulting(self, at: int, match: re.Match[str]) -> int:
        """ "increase to 24 sts": as many as that takes, spread evenly."""
        key = "inc" if match["verb"].startswith(_MORE) or _GROWS.search(match["verb"]) else "dec"
        self.emit("ST", key, *match.span())
        place = Place("evenly", n=0, number=match.span("n"))
        place.last = int(match["n"])
        self.emit("PLACE", place, *match.span())
        return self.token_after(match.end(), at)

    def joins_part(self, at: int) -> int | None:
        """ "join with a sc to leg one": that stitch is worked; "attach to leg 1 with a sl st": 0 of its stitches."""
        start = self.toks[at].start
        match = JOIN_PART.match(self.low, start)
        part = PART.search(match[0]) if match is not None else None
        if match is None or part is None:
            return None
        self.out.elsewhere = True
        here = self.token_after(match.start("st"), at)
        key = self.toks[here].key
        if key not in ("sl st", None):
            noun = piece_named(part["what"], part["no"] or part["which"] or "")
            self.emit("ST", key, start, match.end())
            self.emit("NA", (1, start, match.end()), start, match.end())
            self.emit("PLACE", Place("piece", noun=noun, start=start, end=match.end()), start, match.end())
        elif JOIN_WORD.match(self.low, start) is None:
            self.emit("MARK", ("join", None), start, match.end())
        else:
            return None
        return self.token_after(match.end(), at)

    def joined(self, at: int) -> int | None:
        """Joins: "sl st to first sc", "join with sl st in top of ch-3"."""
        tok = self.toks[at]
        if tok.key not in ("sl st", "join"):
            return None
        first = tok.key == "sl st" and not self.out.chunks and at + 1 < self.count
        if first and TO_CORNER.match(self.low, self.toks[at + 1].start):
            return None  # "sl st to first corner sp, ch 3": on the way
        match = RING_OF.match(self.low, tok.start)
        if match:
            self.emit("MARK", ("closed ring", None), tok.start, match.end())
            return self.token_after(match.end(), at)
        past = self.joins_part(at) if tok.key == "join" else None
        if past is not None:
            return past
        match = (JOIN if tok.key == "sl st" else JOIN_WORD).match(self.low, tok.start)
        alone = DYED_FIRST.match(self.low, tok.start) if not match and not self.depth and self.out.chunks else None
        if alone is not None and self.names_yarn(alone["name"]):
            match = alone
        if not match:
            return None
        if re.search(r"\b(?:legs?|arms?|pieces?|layers|body|other)\b", match[0]):
            self.out.elsewhere = True
        first_n = re.search(r"(?<!of )(?<!of the )first (\d+)|in (?:next|each)", match[0])
        if first_n and "join" not in match[0]:
            return None
        text = match[0]
        cut = re.search(r"\s(?:and|then)\s", text)
        end = match.start() + (
            cut.start() if cut and self.stitchy(self.token_after(match.start() + cut.end(), at)) else len(text)
        )
        dash = re.search(r"\s[-=]\s", self.low[match.start() : end])
        if dash:
            end = match.start() + dash.start()
        before = self.out.chunks[-1] if self.out.chunks else None
        if before is not None and before.type == "MARK" and before.value[0] == "other side":
            return None  # the first stitch along the other side is worked, and closes nothing
        self.out.joins_top = self.out.joins_top or JOINS_TOP.search(text) is not None
        told = self.low[match.start() : end].rstrip()
        dyed = next((d for d in DYES_JOIN.finditer(told) if self.names_yarn(d["name"])), None)
        if dyed is not None:
            span = match.start() + dyed.start(), match.start() + dyed.end()
            self.out.cues.append(CueClause("colour", *span, joins=True))
            self.emit("CUE", len(self.out.cues) - 1, *span)
        self.emit("MARK", ("join", "either" if tok.key == "sl st" and "join" not in text else None), tok.start, end)
        return self.token_after(end, at)

    def skip(self, at: int) -> int:
        """ "sk 1", "skip next st", "miss 2 sts"."""
        tok = self.toks[at]
        here = at + 1
        n = 1
        number = None
        named = at + 1
        bow = PICOTS.match(self.low, tok.end)
        if bow:
            self.emit("SKIP", (0, None, False), tok.start, bow.end())
            return self.token_after(bow.end(), at)
        while self.word(here) in ("the", "over", "a"):
            here += 1
        while (
            self.word(here) in NEXT
            or self.word(here) == "last"
            or (self.kind(here) == "ordinal" and self.toks[here].value == 1)
        ):
            here += 1
        if self.kind(here) == "number":
            n = self.toks[here].value
            number = (self.toks[here].start, self.toks[here].end)
            here += 1
        past = self.noun_phrase(here)
        space = bool(re.search(r"\b(?:sps?|spaces?)\b", self.low[tok.start : self.toks[past - 1].end]))
        behind = any(self.word(i) in NEXT for i in range(named, here))
        told = (0, number, behind, n) if space else (n, number, behind)
        self.emit("SKIP", told, tok.start, self.toks[past - 1].end)
        return past

    def all_the_rest(self, at: int) -> int | None:
        """ "rest sc", "finish the round in sc": that stitch as far as it goes."""
        match = REST_IN.match(self.low, self.toks[at].start)
        here = self.token_after(match.end(), at) if match else at
        if match is not None and self.rest_in_colour(match, here):
            return self.colour_end(here)
        if match is None or not self._stitch_at(here) or self.toks[here].start != match.end():
            return None
        stitch = self.toks[here]
        past = here + 1
        if self.word(past) in ("in", "into") and self.word(past + 1) in EACH:
            past += 2
            past += self.is_noun(past)
        past = self.noun_phrase(past) if self.word(past) in ("sts", "stitches", "st", "stitch") else past
        fill = self.fill_tail(past)
        past = fill[0] if fill else past
        if stitch.key in ("turn", "join", "skip", "ring", "sl st", "ch") or not (
            self.word(past) in CLAUSE_ENDS or self.at_count(past)
        ):
            return None
        ends = fill is None and ENDS_WITH.match(match[0]) is not None
        shaping = ends and stitch.key not in PLAIN  # one such at the end, where a plain one goes as far as it can
        place = Place("one" if shaping else "fill", last=fill[1] if fill else 0, start=match.start(), end=match.end())
        place.noun = LAST_TOLD if ends else ""
        self.emit("ST", stitch.key, stitch.start, stitch.end)
        self.emit("PLACE", place, match.start(), stitch.end)
        return past

    def colour_end(self, at: int) -> int | None:
        """Behind the colour that stands here to the end of its clause; None where there is none."""
        end = self.colour_name(at)
        if end is None and self.is_letter_colour(at):
            end = at + 1
        return end if end is not None and (self.word(end) in CLAUSE_ENDS or self.at_count(end)) else None

    def rest_in_colour(self, match: re.Match[str], at: int) -> bool:
        """ "sc 5 in brown, rest in white": the stitch told last, as far as it goes, in another colour."""
        last = next((c.value for c in reversed(self.out.chunks) if c.type == "ST"), None)
        fills = any(c.type == "PLACE" and c.value.kind == "fill" for c in self.out.chunks)
        end = self.colour_end(at)
        if match[0].startswith(_GOES_ON) and self.low[: match.start()].rstrip()[-1:] in (".", ")", "]"):
            return False  # "2 sc, inc, 2 sc. Continue in white.": the rounds behind this one
        if end is None or last not in PLAIN or fills or self.depth or self.toks[at].start != match.end():
            return False
        name = self.body[self.toks[at].start : self.toks[end - 1].end]
        self.emit("COLOUR", name, self.toks[at].start, self.toks[end - 1].end)
        self.emit("ST", last, *match.span())
        self.emit("PLACE", Place("fill", start=match.start(), end=match.end()), *match.span())
        return True

    def at_count(self, at: int) -> bool:
        """Does a bracket with the printed count open here?"""
        closing = self.close_of(at) if self.word(at) in ("(", "[", "{") else None
        return closing is not None and self.is_count(at, closing) is not None
