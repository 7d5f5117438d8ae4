"""Looking around in the tokens of one body, and writing down what was found there."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable
from typing import Any

from hookside.colours import COLOURS, SHADES
from hookside.notation.bodies.chunks import Chunk, Phrases, Times
from hookside.notation.bodies.lastones import said_of_last
from hookside.notation.bodies.oldwords import modern
from hookside.notation.bodies.overagain import once_more
from hookside.notation.bodies.rewordings import respelt, sized
from hookside.notation.bodies.roundwords import retold
from hookside.notation.bodies.tokens import Dictionary, Token, tokens
from hookside.notation.bodies.wording.counts import CHAINS_TOO
from hookside.notation.bodies.wording.stretches import CLAUSE_ENDS
from hookside.notation.vocabulary import (
    COLOUR_WORDS,
    HARMLESS,
    NOUNS,
    PREPOSITIONS,
)

_WORKED_ALONE = frozenset({"sc", "hdc", "dc", "tr", "inc", "dec", "inv dec"})
# "B 6 sc, W 6 sc, B 6 sc": letters in front of amounts
_STRIPE = re.compile(r"(?:^|[,;.:])\s*([A-Z]):? ?(?=\d{1,3} ?(?:[hd]?dc|sc|h?tr|inc|dec)\b|\((?:\d{1,2} )?[a-z])")


def striped(body: str) -> frozenset[str]:
    """Letters that can only be colours, though the text tells none: two of them in turns, each before its stitches."""
    found = [m[1].lower() for m in _STRIPE.finditer(body)] if body[:1].isupper() else []
    return frozenset(found if len(set(found)) > 1 and len(found) > 2 else [])


# "skin tone", "hair colour": a yarn by whatever name, at the end of a clause
SOME_SHADE = frozenset(["colour", "color", "tone", "shade"])
_WHICHEVER = frozenset([
    "the", "new", "same", "next", "other", "your", "this", "that", "each", "any", "both", "change", "changing",
    "switch", "switching", "swap", "alternate", "alternating", "drop", "join", "cut", "carry", "with", "second",
    "every",
])  # fmt: skip
# "with the right side facing", "with the smaller hook"
_NO_YARN = frozenset([
    "side", "sides", "facing", "rs", "ws", "hook", "hooks", "hand", "hands", "needle", "tension", "marker",
    "markers", "loop", "loops", "seam", "edge", "wrong",
])  # fmt: skip
_A_WORD = 3  # letters
_LETTERED = frozenset(["c", "mc", "cc", "col"])  # "C1", "CC2": yarns by a letter and a number


class Sight:
    """One body: its tokens, the phrases found so far, and the small questions one asks of both."""

    def __init__(self, body: str, names: Dictionary) -> None:
        one_size = sized(body)
        several = one_size != body
        self.body = body = retold(modern(once_more(said_of_last(respelt(one_size)))))
        low = body.lower().replace("\n", " ")  # a phrase goes on where a line is wrapped
        self.low = low if len(low) == len(body) else "".join(c.lower() if len(c.lower()) == 1 else c for c in body)
        self.toks = tokens(body, names)
        # The word at a place, and its kind; empty where there is none. Asked so often that even a method is slow.
        kinds: list[str] = [t.kind for t in self.toks]
        self.word: Callable[[int], str] = defaultdict(str, enumerate([t.text for t in self.toks])).__getitem__
        self.kind: Callable[[int], str] = defaultdict(str, enumerate(kinds)).__getitem__
        self.names = names
        self.striped = striped(body)
        self.count = len(self.toks)
        self.closers: dict[int, int] = {}
        stack: list[int] = []
        for at, tok in enumerate(self.toks):
            if tok.kind == "sign":
                if tok.text in "([{":
                    stack.append(at)
                elif tok.text in ")]}" and stack:
                    opened = stack.pop()
                    if len(stack) < 12:
                        self.closers[opened] = at
        self.out = Phrases(respelt=[t.slip for t in self.toks if t.slip is not None])
        self.out.sizes = several
        self.depth: list[str] = []
        self.open_star = False
        self.alternates = False  # "sc and inc alternately"
        self.amounts_by: set[str] = set()  # signs that set an amount behind its stitch here: "sc-12", "sc(12)"
        self.number_first: bool | None = None
        self.sides = 0  # of the piece that the stitches go around, where its sides were told
        self.along_sides: Token | None = None  # the stitch along them, where they are told two by two
        self.told = False  # is the printed count of the body told elsewhere, so that its numbers are work?
        self.all_times: Times | None = None  # "6 times: sc, inc"
        self.prefixed: dict[int, Times] = {}  # "6 x (sc, inc)": multipliers that stand before their bracket

    def is_noun(self, at: int) -> bool:
        if at >= self.count:
            return False
        tok = self.toks[at]
        return tok.text in NOUNS or tok.text == "ch" or (tok.kind == "stitch" and tok.key in ("ch", "sl st"))

    def last_type(self) -> str:
        return self.out.chunks[-1].type if self.out.chunks else ""

    def at_clause_start(self) -> bool:
        return self.last_type() in ("", "SEP", "OPEN", "STARO", "CUE", "MARK", "LOOPS", "COLOUR", "REPFROM")

    def emit(self, type_: str, value: Any, start: int, end: int) -> None:
        self.out.chunks.append(Chunk(type_, value, start, end))

    def counted(self, value: int, start: int, end: int) -> None:
        """Notes a printed count; what follows it is a clause of its own."""
        self.out.counts.append((value, start, end))
        if "ch" in self.low[end : end + 40] and CHAINS_TOO.match(self.low, end):
            self.out.counted_chains = True
        if not self.depth and self.last_type() not in ("", "SEP", "OPEN", "STARO"):
            self.emit("SEP", None, start, end)
        self.number_first = None

    def close_of(self, at: int) -> int | None:
        """Index of the bracket that closes the one at `at`; None where none does, or where they nest too deep."""
        return self.closers.get(at)

    def glued(self, at: int) -> bool:
        """Does a sign stand between a word and a number without any space: "sc-12"?"""
        if not 0 < at < self.count - 1 or self.kind(at + 1) != "number":
            return False
        return self.toks[at - 1].end == self.toks[at].start and self.toks[at].end == self.toks[at + 1].start

    def apart(self, at: int) -> bool:
        """Does a sign stand between spaces, with a number behind it: "sc around / 40"?"""
        if not 0 < at < self.count - 1 or self.kind(at + 1) != "number":
            return False
        return self.toks[at - 1].end < self.toks[at].start and self.toks[at].end < self.toks[at + 1].start

    def token_after(self, offset: int, at: int) -> int:
        while at < self.count and self.toks[at].start < offset:
            at += 1
        return at

    def after_stitch(self) -> bool:
        return self.last_type() in ("ST", "NA", "CLOSE", "PLACE", "LOOPSPOST", "COLOURPOST", "BARE")

    def _stitch_at(self, at: int) -> bool:
        return self.kind(at) == "stitch"

    def _decimal(self, at: int) -> bool:
        return (
            self.word(at) in (".", ",", "/")
            and self.kind(at - 1) == "number"
            and self.kind(at + 1) == "number"
            and self.toks[at].start == self.toks[at - 1].end
            and self.toks[at + 1].start == self.toks[at].end
            and not (self.word(at) == "," and self.kind(at + 2) == "stitch")  # "ch 1,7 sc", "1,3 dec,2"
        )

    def only_stitches(self, at: int) -> bool:
        """ "12 sc," or "inc)": the whole of a clause, and nothing of all that a clause may be otherwise."""
        here = at + (self.toks[at].kind == "number")
        if here >= self.count or self.toks[here].kind != "stitch" or self.toks[here].key not in _WORKED_ALONE:
            return False
        behind = self.word(here + 1)
        return behind in (")", "]") or (behind == "," and self.kind(here + 2) in ("number", "stitch"))

    def colour_name(self, at: int) -> int | None:
        """Past a colour's name, or None."""
        here = at
        while self.word(here) in SHADES and (
            self.word(here + 1) in COLOURS or self.word(here + 1) in SHADES or self.word(here + 1) in COLOUR_WORDS
        ):
            here += 1
        word = self.word(here)
        if word in COLOUR_WORDS:
            nxt = self.toks[here + 1] if here + 1 < self.count else None
            if (nxt and (nxt.kind == "number" or (len(nxt.text) == 1 and nxt.text.isalpha()))) or (
                nxt and nxt.text in COLOURS
            ):
                return here + 2
            return here + 1 if here > at else None
        if word in _LETTERED and self.kind(here + 1) == "number" and self.toks[here].end == self.toks[here + 1].start:
            return here + 2
        if word in COLOURS and self.kind(here) == "word":
            here += 1
            two = self.word(here) in COLOURS and self.word(here + 1) in CLAUSE_ENDS  # "navy blue,"
            if two or self.word(here) in ("yarn", "thread", "wool", "cotton") or self.word(here) in SOME_SHADE:
                here += 1
            return here
        some = here == at and self.kind(at) == "word" and self.word(at + 1) in SOME_SHADE and word not in _WHICHEVER
        return at + 2 if some and len(word) >= _A_WORD and self.word(at + 2) in CLAUSE_ENDS else None

    def names_yarn(self, name: str) -> bool:
        """ "chalk", "dark green yarn", "B", "the new colour": a yarn, by the text's own list or ours."""
        words = [w for w in name.split() if w not in COLOUR_WORDS and w not in ("wool", "cotton", "thread")]
        if len(words) == 1 and len(words[0]) == 1:
            return words[0] in self.names.colours or words[0] in self.names.yarns
        new = len(words) == 1 and words[0] in ("new", "next", "other", "second", "main") and len(name.split()) > 1
        known = any(w in COLOURS or w in self.names.yarns for w in words)
        return new or (known and all(w in COLOURS or w in SHADES or w in self.names.yarns for w in words))

    def is_letter_colour(self, at: int) -> bool:
        tok = self.toks[at] if at < self.count else None
        if tok is None or tok.kind != "word" or len(tok.text) != 1:
            return False
        known = tok.text in "abcdefg" or tok.text in self.names.colours or tok.text in self.striped
        return known and self.body[tok.start].isupper()

    def in_colours(self, at: int, end: int) -> bool:
        """ "3A, 1B", "2 red, 4 white": amounts of colours and nothing else from token `at` to `end`."""
        here = at
        while here < end:
            named = self.colour_name(here + 1) or (here + 2 if self.is_letter_colour(here + 1) else None)
            if self.kind(here) != "number" or named is None or named > end:
                return False
            here = named + (self.word(named) == "," and named < end)
        return end > at

    def leads_in_colour(self, at: int) -> bool:
        """ "W sc 4", "B (sc 4, inc) x 2": a letter that the text gives to a colour, in front of stitches."""
        if self.word(at) not in self.names.colours | self.striped or not self.is_letter_colour(at):
            return False
        return self.kind(at + 1) in ("number", "stitch") or self.word(at + 1) in ("(", "[", ",")

    def _free_colour(self, at: int) -> int | None:
        """ "with sea foam," : up to three words nobody knows, then a comma or a stitch."""
        here = at
        while (
            here < at + 3
            and self.kind(here) == "word"
            and self.word(here) not in HARMLESS
            and self.word(here) not in PREPOSITIONS
            and self.word(here) not in _NO_YARN
        ):
            here += 1
        if here > at and (
            self.word(here) in (",", ":", "make", "work", "chain")
            or self.kind(here) == "stitch"
            or (self.kind(here) == "number" and self._stitch_at(here + 1))
        ):
            return here
        return None

    def worked_yet(self) -> bool:
        """Is a stitch told before this, beside the chains of a turn?"""
        chunks = self.out.chunks
        return any(c.type in ("BARE", "CLOSE", "TIMES") or (c.type == "ST" and c.value != "ch") for c in chunks)
