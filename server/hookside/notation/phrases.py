"""Fourth stage, second half: words gathered into the phrases the grammar knows.

"in each of the next 3 sts" is one phrase, PLACE; "rep from * to last 2 sts" is one, REPFROM. What a phrase is
can depend on where it stands (a number before its stitch or after it), which keeps the grammar itself LALR(1).
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

from hookside.notation.prompts import CLAUSE, classify, new_colour
from hookside.notation.tokens import Dictionary, tokens
from hookside.notation.vocabulary import (
    ARTICLES,
    COLOUR_WORDS,
    COLOURS,
    COURSE_WORDS,
    EACH,
    HARMLESS,
    NEXT,
    NOUNS,
    ORDINAL_WORDS,
    PREPOSITIONS,
    RING_WORDS,
    SHADES,
    TIMES_WORDS,
)
from hookside.pattern import CueKind


@dataclass(slots=True)
class Place:
    """Where stitches go. `n` places; `last` stitches kept back by a fill."""

    kind: str  # next, fill, same, one, first, last, ring, hook, space, nth, piece, chain
    n: int = 1
    each: bool = False
    last: int = 0
    loops: str | None = None
    noun: str = ""
    together: bool = False
    start: int = 0
    end: int = 0
    number: tuple[int, int] | None = None  # where n is printed
    hook: int = 0  # "in next 8 ch starting in 2nd ch": that chain from the hook


@dataclass(slots=True)
class Times:
    """How often. `more`: on top of the first; `fill`: as often as it goes, `last` stitches kept back."""

    n: int = 1
    more: bool = False
    fill: bool = False
    last: int = 0
    uses: int | None = None  # "in next 12 sts"
    exact: bool = False  # "sc, inc, x6": six times in all
    number: tuple[int, int] | None = None


@dataclass(slots=True)
class CueClause:
    """An asking inside a course."""

    kind: CueKind
    start: int
    end: int


class Doubt(str):
    """A key printed as two words that may be two stitches: "sc inc"."""


class Chunk:
    """A terminal of the grammar. The position fields are those lark wants to see."""

    __slots__ = ("column", "end", "end_column", "end_line", "end_pos", "line", "start", "start_pos", "type", "value")

    def __init__(self, type_: str, value: Any, start: int, end: int) -> None:
        self.type = type_
        self.value = value
        self.start = self.start_pos = start
        self.end = self.end_pos = end
        self.line = self.end_line = 1
        self.column = self.end_column = start

    def __repr__(self) -> str:
        return f"{self.type}({self.value!r})" if self.value is not None else self.type


@dataclass(slots=True)
class Phrases:
    """A body, phrase by phrase, with what was taken out of it on the way."""

    chunks: list[Chunk] = field(default_factory=list)
    counts: list[tuple[int, int, int]] = field(default_factory=list)  # printed count, start, end of its digits
    cues: list[CueClause] = field(default_factory=list)
    unknown: list[tuple[int, int]] = field(default_factory=list)
    rounds: int | None = None  # "(4 rounds)"
    unworked: bool = False  # "leave the rest unworked"
    counts_as: bool | None = None  # what the text says of its turning chain
    elsewhere: bool = False  # stitches of another piece are worked into
    layers: bool = False  # two layers at once
    into_spaces: str = ""  # whether spaces are worked into: "", "spaces", "both"
    measured: tuple[int, int] | None = None  # "until piece measures 5 cm": so many rounds as it takes
    counted_chains: bool = False  # "counting each ch-1 as a stitch"
    asides: list[tuple[int, int]] = field(default_factory=list)


_CLOSER = {"(": ")", "[": "]", "{": "}"}
_OTHER_SIDE = re.compile(
    r"(?:(?:now |then |and )*(?:rotate|turn(?:ing)?|flip|working|work|continue|continuing|do not turn|without turning)\b[^.;()\[\]*]{0,60}?)?"  # noqa: E501
    r"(?:(?:on|along|down|in|into|across|up|to|around)\s+)?(?:the\s+)?(?:other|opposite|second|bottom|under|back|remaining|unused|unworked)\s*(?:side|loops?|edge|half|lps?)?s?\s*(?:side )?(?:of\s+)?(?:the\s+|your\s+)?"  # noqa: E501
    r"(?:foundation|starting|beginning|base|initial|first|original)?\s*(?:ch(?:ain)?s?|row|foundation|side)\b(?:\s*(?:sts|stitches|loops|edge))?"
)
_JOIN = re.compile(
    r"(?:sl(?:ip)?[ .-]*st(?:itch)?|ss|sl)\.?\s+(?:(?:in|into|to|in to|through|with|on)\s+)?(?:the\s+)?(?:(?:top|first|1st|beg(?:inning)?|starting|(?:3rd|2nd|4th) (?:ch )?of|both)\b[^,.;()\[\]]{0,50}|(?:to|and)?\s*(?:join|close)\b[^,.;()\[\]]{0,50}|joining\b[^,.;()\[\]]{0,40})"  # noqa: E501
)
_JOIN_PART = re.compile(
    r"(?:and\s+)?(?:join|attach|connect)\w*\b[^,.;()\[\]]{0,60}?\bwith (?:a |an |1 |one )?(?P<st>sc|dc|hdc|htr|sl st|ss|slip stitch|single crochet|double crochet)\b(?P<rest>[^,.;()\[\]]{0,60})"  # noqa: E501
)
_JOIN_WORD = re.compile(
    r"(?:and\s+)?(?:join(?:ing|ed)?|close)\b(?! (?:the )?(?:yarn|new|legs?|to leg))[^,.;()\[\]]{0,70}"
)
_RING_OF = re.compile(
    r"(?:and\s+)?(?:join|sl(?:ip)?[ .-]*st|ss)\b[^.;()\[\]]{0,50}?(?:to|and) (?:form|make|create) (?:a|the) (?:ring|circle|loop)\b"  # noqa: E501
)
_TOTAL = re.compile(
    r"(?:for |making |giving |and |with |= ?)?(?:a )?(?:total(?: of)?(?: stitch(?:es)?| sts?)?(?: is| =|:)?|(?:you |we )?(?:should |will |'ll |must )?(?:now )?have(?: made)?|st(?:itch)? ?(?:count)(?: is| =|:)?|"  # noqa: E501
    r"count(?: is| =|:)|(?:still|again)(?: has| have)?|(?:remain|stay)(?:s|ing)?(?: at| with)?|leaving(?: you with)?|there (?:are|should be|will be)|ends? with|leaves? you with|now|makes?|giving(?: you)?|=|\u2192)\s*(?:now |left with |a total of |total )?[(\[]?(?P<n>\d+)[)\]]?\s*"  # noqa: E501
    r"(?:(?:sts?|stitch(?:es)?|sc|dc|hdc|htr|tr|st's)\b\.?)?(?:\s*(?:in total|in all|total|left|remaining|remain|now|altogether|around|per round|in (?:the|this) (?:round|row)|made|at the end(?: of (?:this |the )?(?:round|rnd|row)?(?: \d+)?)?))*"  # noqa: E501
    r"(?=\s*(?:[.;,)!\]]|$))"
)
_UNWORKED = re.compile(
    r"(?:and )?(?:leav(?:e|ing)|with) (?:the |all )*(?:rem(?:aining)?|rest|last|next|other|\d+|final|remainder)?\b[^.,;()\[\]]{0,40}\b(?:un-?worked|unused|free)\b[^.,;()\[\]]{0,30}|leav(?:e|ing) (?:the )?(?:rest|remainder|remaining (?:sts|stitches))\b[^.,;()\[\]]{0,30}"  # noqa: E501
)
_COUNTS = re.compile(
    r"(?P<no>(?:does|do|will|doesn't|don't|not|never)\b[^()\[\].;,]{0,14})?\bcount(?:s|ed|ing)?\s+as\b[^()\[\].;]{0,40}|(?:does|do) (?:not|n't) count\b[^()\[\].;]{0,30}"  # noqa: E501
)
_ELSEWHERE = re.compile(
    r"\b(?:leg|legs|arm|arms|other piece|first piece|second piece|previous piece|body|both pieces|head)\b"
)
_LAYERS = re.compile(r"\b(?:both layers|through both (?!l(?:oo|p))|both sides together|two layers|both thicknesses)\b")
_AFTER_TIMES = frozenset(["", ".", ";", "(", "[", "{", "<", "=", "-", ")"])
_CLAUSE_ENDS = frozenset(["", ",", ".", ";", ")", "]", "}", "(", "*", "-", "=", "and", "then"])
_MANNER = re.compile(
    r"(?:and |while |by )?(?:holding|keeping|taking care|taking|being careful|careful|making sure|ensuring|pushing|popping|letting|"  # noqa: E501
    r"allowing|pulling|trying)\b[^,.;:()\[\]*]{2,90}"
)
_COUNTED_CHAINS = re.compile(
    r"(?:and )?(?:count(?:ing)?|treat(?:ing)?) (?:each|every|all|the) (?:ch(?:ain)?s?[- ]?\d*)(?: (?:sps?|spaces?))? as (?:an? |one |1 )?(?:st|stitch|sc)\w*"  # noqa: E501
    r"|(?:each|every) ch(?:ain)?[- ]?\d*(?: (?:sp|space))? (?:counts|is counted) as (?:an? |one |1 )?(?:st|stitch|sc)\w*"  # noqa: E501
)
_LAYERED = re.compile(
    r"(?:(?:and )?(?:work(?:ing|ed)?|going|inserting (?:the |your )?hook) )?(?:through|thru|across|in|into) (?:both|the two|two|2)(?: the| of the)? "  # noqa: E501
    r"(?:layers?|sides?|thicknesses|halves|edges|front and back)(?: (?:together|at once|of the \w+))*(?: to (?:close|seal|shut|join)(?: (?:it|the \w+))?)?"  # noqa: E501
)
_ON_PIECE = re.compile(
    r"(?:around|round|on|of|over|along|across|in|into|to|from|onto)\s+(?:each (?:st|stitch) (?:of|on|around)\s+)?(?:the\s+)?"  # noqa: E501
    r"(?P<which>first|second|third|fourth|other|next|1st|2nd|3rd|4th|left|right|front|back)\s+(?P<what>legs?|arms?|pieces?|foot|feet|wings?|fins?|ears?|flippers?|halves|half|tubes?)\b"
    r"(?:\s+(?:\d|one|two))?"
)
_PIECE = re.compile(
    r"(?:around|round|on|of|over|along|across|onto)\s+(?:the\s+)?(?P<what>leg|arm|piece|foot|wing|fin|flipper)\s+(?P<which>\d|one|two|a|b)\b"
)
_ON_CHAIN = re.compile(
    r"(?:along|across|over|down|up|on|in|into)\s+(?:(?:the|each of the|each)\s+)?(?:(?:other|opposite|second|back|under) side of (?:the |this |that )?)?"  # noqa: E501
    r"(?:bridge|(?:connecting |joining |middle )?chains?|ch\b)(?!\s*-?\s*\d)(?! from)(?! sp)(?:\s+(?:bridge|sts?|stitches))?"  # noqa: E501
)
_STARTING_IN = re.compile(
    r",?\s*(?:starting|beginning|start|begin|working)\s+(?:in|from|with|at|into)\s+(?:the\s+)?"
    r"(?:(?P<n>\d+)(?:st|nd|rd|th)|(?P<word>first|second|third|fourth|fifth))\s+(?:chain|ch)(?: st)?(?:\s+from (?:the |your )?hook)?"  # noqa: E501
)
_EVENLY = re.compile(
    r"(?:work(?:ing)? |making? )?(?:(?P<verb>inc(?:reas)?(?:e|ing)?|dec(?:reas)?(?:e|ing)?)\s+(?:by\s+)?(?P<n>\d+)(?:\s+(?:sts?|stitches|sc|times))?"  # noqa: E501
    r"|(?P<n2>\d+)\s+(?P<verb2>inc(?:rease)?s?|dec(?:rease)?s?))\s+(?:spread\s+|spaced\s+)?evenly"
    r"(?:\s+(?:spaced|spread|over|around|across|along|in|to|the|this|end|round|row|rnd))*"
)
_PLAIN = frozenset({"sc", "hdc", "dc", "tr"})
_TO_ELSEWHERE = frozenset(
    [
        "around",
        "round",
        "on",
        "of",
        "over",
        "along",
        "across",
        "in",
        "into",
        "to",
        "from",
        "onto",
        "through",
        "thru",
        "at",
    ]
).union(
    ["down", "up", "1", "one", "st", "working", "going", "and", "inserting", "work"],
)
_STEADY = re.compile(
    r"(?:(?:continue|keep|go on|cont\.?)(?: on)?(?: to)? |and )?(?P<verb>inc(?:reas(?:e|ing))?|dec(?:reas(?:e|ing))?)"
    r"(?:\s+(?:in|on) the same (?:way|manner)|\s+as (?:established|before|set)|\s+(?:in )?this way|\s+like this)?,?"
    r"\s+(?:by\s+)?(?P<n>\d+)(?:\s+(?:sts?|stitches|sc|times))?(?:\s+(?:evenly|spaced|spread))*"
    r"\s+(?:each|every|per|in each|in every|on each|on every|a)\s+(?:round|rnd|row)"
    r"(?:\s+(?:in|on) the same (?:way|manner)|\s+as (?:established|before|set)|\s+(?:in )?this way|\s+like this)?"
    r"(?:\s*,?\s*until\s+(?:you have\s+|there are\s+|only\s+)*\d+\s*(?:sts?|stitches|sc)?(?:\s+(?:remain|are left|left))?)?"  # noqa: E501
)
_NO_SHAPING = re.compile(
    r"(?:with )?(?:no|without|not)(?: any)?(?: more| further)? (?:increas\w*|decreas\w*|inc|dec|shaping)\b"
    r"(?:\s*(?:or|and|nor|/|,)\s*(?:no )?(?:increas\w*|decreas\w*|inc|dec|shaping)\b)*(?: (?:in |on )?this (?:round|row|rnd))?"  # noqa: E501
)
_BOTH_ENDS = re.compile(
    r"(?:1 |one )?(?:st |stitch )?(?:at|on|in) (?:the )?(?:(?:beginning|beg|start) and (?:the )?end|each end|both ends|each side|both sides|each edge|both edges)"  # noqa: E501
    r"(?: of (?:the |this |each |every )?(?:row|round|rnd|work|piece))?"
)
_AND_SO_ON = re.compile(
    r"(?:and )?(?:continue|keep going|carry on|go on|and so on)(?: (?:in )?(?:this|the same) (?:way|manner|pattern|fashion|sequence)| like this| so| thus| repeating| as set| as established| this| the pattern)?"  # noqa: E501
    r"(?=,? (?:all |the |way |right |evenly )*(?:around|across|to (?:the )?(?:end|last)|until|for the (?:rest|whole))\b)"  # noqa: E501
)
_WITH_RING = re.compile(r"(?:start (?:off )?)?(?:with|in|using) (?:an? )mc\b")
_ALONG_EDGE = re.compile(
    r"(?:along|across|down|on) (?:the )?(?:bottom|underside|lower edge|back)(?: of (?:the )?(?:ch(?:ain)?|work))?\b(?! loop)"  # noqa: E501
)
_SAYS = re.compile(
    r"(?:(?:total )?(?:sts?|stitch(?:es)?)(?:[ -]?count)?(?: is)?\s*[=:]?\s*|(?:st(?:itch)?[ -]?count|total(?: (?:sts?|stitches|count))?|count)(?: is)?\s*[=:]?\s*|"  # noqa: E501
    r"there (?:are|will be|should be|is) (?:now )?|(?:you(?:'ll| will| should| now)? )(?:now )?(?:end up with|have|get|finish with|end with) )"  # noqa: E501
    r"(?P<n>\d{1,4})\b(?:\s*(?:sts?|stitch(?:es)?|sc|dc|hdc|htr|tr|in total|in all|total|left|remaining|now|altogether|around|per round|"  # noqa: E501
    r"(?:in|on) (?:the|this|each) (?:round|row|rnd)|at the end(?: of (?:this|the) (?:round|row|rnd))?)\b)*\s*(?=[.;,)!\]]|$)"  # noqa: E501
)
_SAID_WORDS = frozenset(["st", "sts", "stitch", "stitches", "total", "count", "there", "you", "you'll"])
# A bracket that opens with its count: "(18 sts, 6 more)", "(12 + 6 = 18)", "(# 18)", "(18 m)".
_OPENS_AS_COUNT = re.compile(
    r"(?:[#=]\s*|\+?\d+(?:\s*[-+]\s*\d+)*\s*(?:=|->|\u2192)\s*)?(?P<n>\d{1,4})"
    r"(?:\s*(?:\+ (?:the )?ch|m|p|ps)|\s*(?:sts?|stitch(?:es)?|sc|dc|hdc|htr|tr|maschen|mailles|puntos?)\b\.?(?P<rest>[ ,;:].*)?)?$"  # noqa: E501
)
_CHANGE_AND_COUNT = re.compile(
    r"\+?\d+ ?(?:incs?|decs?|increases|decreases)?\s*[,;/]\s*(?P<n>\d{1,4}) (?:sts|stitches)$"
)
_ANY_STITCH = re.compile(r"\b\d+ ?(?:sc|dc|hdc|htr|tr|sl st|ch)\b|\b(?:in|into) (?:next|each)\b|\brep|\btimes\b")
_AND_SPACES = re.compile(
    r"\d+ (?:(?:ch(?:ain)?[- ]?\d* ?)?(?:sps?|spaces?|loops?|lps?|arches|picots?|shells?|clusters?))\b\.?"
)
_JOINED_WITH = re.compile(
    r"(?:join|attach|add)(?:ing)? (?:in )?(?P<colour>[^,.;]{0,30}?) ?with (?:an? |1 |one )?(?:standing )?(?P<st>sc|dc|hdc|htr|tr|single crochet|double crochet)\b"  # noqa: E501
    r"(?: (?:in|into|to|at) (?:any|the first|first|the same|same|the next|next|a|the|each) (?:st(?:itch)?|sc|dc|sp|space)\b)?"  # noqa: E501
)
_MEASURED = re.compile(
    r"(?:until|till?) (?:the |your |this )?(?:piece|work|it|tube|part|rows?|rounds?|strip|total length|length) (?:measures?|is|has|reaches|are)\b[^.;()\[\]]{1,50}?(?:cm|mm|in(?:ch(?:es)?)?|\"|long|wide|deep|tall)\b"  # noqa: E501
)
_COUNT_TAIL = re.compile(
    r"(?:,? ?(?:at|by) (?:the |this )?end(?: of (?:this |the |each |every )?(?:rounds?|rnds?|rows?)?(?: \d+)?)?|(?:in|on) (?:this|the|each|every) (?:round|rnd|row)"  # noqa: E501
    r"|(?:per|each|every|a|on) (?:round|rnd|row)|on (?:the |your )?hook|around|altogether|so far|at this point|now)+"
)
_ENDS_ROUND = re.compile(
    r"(?:and )?(?:finish|end|close|complete)(?:ing)? (?:(?:the |off the |this )?(?:round|rnd|row) )?(?:with|by working|by) (?:a |an |1 |one )?"  # noqa: E501
    r"(?:sl(?:ip)?[ .-]*st(?:itch)?|ss)\b[^.;()\[\]=]{0,60}"
)
_PAIR_TOGETHER = re.compile(
    r"(?:work|crochet|sc|dc|join) (?:the )?(?:first|next|1st|following) (?:st(?:itch)? )?and (?:the )?(?:second|2nd|next|following) (?:sts? |stitch(?:es)? )?tog(?:ether)?\b"  # noqa: E501
)
_CLOSED = re.compile(
    r"(?:until|till?) (?:the |your )?(?:hole|opening|gap|ring|circle|top|end|piece|it) (?:is |has )?(?:closed?s?|shut|gone)(?: up)?"  # noqa: E501
)
_SHAPING = re.compile(r"\b(?:inc\b|dec\b|increas|decreas|repeat|alternat|every|each|other)")
_SKIP_AFTER_TIMES = frozenset(["total", "in", "all", "around", "altogether"])


class Gatherer:
    """Walks the tokens of one body once, from left to right."""

    def __init__(self, body: str, names: Dictionary) -> None:
        self.body = body
        low = body.lower()
        self.low = low if len(low) == len(body) else "".join(c.lower() if len(c.lower()) == 1 else c for c in body)
        self.toks = tokens(body, names)
        self.names = names
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
        self.out = Phrases()
        self.depth: list[str] = []
        self.open_star = False
        self.number_first: bool | None = None
        self.all_times: Times | None = None  # "6 times: sc, inc"
        self.prefixed: dict[int, Times] = {}  # "6 x (sc, inc)": multipliers that stand before their bracket

    # -- looking around -------------------------------------------------------------------------------------------
    def word(self, at: int) -> str:
        return self.toks[at].text if 0 <= at < self.count else ""

    def kind(self, at: int) -> str:
        return self.toks[at].kind if 0 <= at < self.count else ""

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
        if not self.depth and self.last_type() not in ("", "SEP", "OPEN", "STARO"):
            self.emit("SEP", None, start, end)
        self.number_first = None

    def close_of(self, at: int) -> int | None:
        """Index of the bracket that closes the one at `at`; None where none does, or where brackets are nested too deep."""  # noqa: E501
        return self.closers.get(at)

    def token_after(self, offset: int, at: int) -> int:
        while at < self.count and self.toks[at].start < offset:
            at += 1
        return at

    # -- small phrases --------------------------------------------------------------------------------------------
    def noun_phrase(self, at: int) -> int:
        """Past a noun ("st", "ch-2 sp", "sc") and its tail ("of previous round"); `at` where there is none."""
        here = at
        if (
            self.kind(here) == "stitch"
            and self.word(here) in ("ch", "chain")
            and self.word(here + 1) in ("-", "sp", "space")
        ):
            step = here + 1
            if self.word(step) == "-":
                step += 1
            if self.kind(step) == "number":
                step += 1
            if self.word(step) == "-":
                step += 1
            if self.word(step) in ("sp", "sps", "space", "spaces", "loop", "loops", "lp", "lps"):
                here = step + 1
        elif self.is_noun(here):
            here += 1
            if self.word(here) in ("sp", "sps", "space", "spaces"):
                here += 1
            elif (
                self.word(here) == "."
                and self.toks[here].start == self.toks[here - 1].end
                and self._lower_follows(here)
            ):
                here += 1  # "in next 3 sts. around"
        elif (
            self.kind(here) == "stitch"
            and self.toks[here].key in self._noun_stitches()
            and not self._starts_place(here + 1)
        ):
            here += 1
        if here > at:
            here = self._noun_tail(here)
        return here

    def _lower_follows(self, at: int) -> bool:
        return self.word(at + 1) in ("around", "across", "to", "of", "from", "and", "until", "x") or self.word(
            at + 1
        ) in (",", ";", ")")

    def _noun_stitches(self) -> frozenset[str]:
        return frozenset(
            {
                "sc",
                "hdc",
                "dc",
                "tr",
                "inc",
                "dec",
                "esc",
                "dtr",
                "bobble",
                "shell",
                "picot",
                "sc2tog",
                "inv dec",
                "FPdc",
                "BPdc",
                "cluster",
                "popcorn",
                "puff",
                "v-st",
                "fsc",
                "sl st",
            }
        )

    def _starts_place(self, at: int) -> bool:
        word = self.word(at)
        return word in ("in", "into", "next", "each") or (
            self.kind(at) == "number" and self.word(at + 1) not in ("times", "x", "time")
        )

    def _noun_tail(self, at: int) -> int:
        here = at
        while True:
            word = self.word(here)
            if word in ("of", "from", "on", "in", "along"):
                step = here + 1
                while (
                    self.word(step)
                    in (
                        "the",
                        "your",
                        "this",
                        "that",
                        "previous",
                        "prev",
                        "last",
                        "first",
                        "foundation",
                        "starting",
                        "next",
                        "prior",
                        "beginning",
                        "side",
                        "same",
                    )
                    or self.kind(step) == "ordinal"
                ):
                    step += 1
                if self.word(step) in COURSE_WORDS or (self.word(step) in ("chain", "ch") and step > here + 1):
                    step += 1
                    if self.kind(step) == "number":
                        step += 1
                    here = step
                    continue
                if self.word(step) in ("leg", "legs", "body", "head", "arm", "piece"):
                    self.out.elsewhere = True
                    here = step + 1
                    if self.kind(here) == "number" or (len(self.word(here)) == 1 and self.word(here).isalpha()):
                        here += 1
                    continue
                if (
                    word == "from"
                    and self.word(here + 1) in ("hook", "the")
                    and "hook" in (self.word(here + 1), self.word(here + 2))
                ):
                    here += 2 if self.word(here + 1) == "hook" else 3
                    continue
                return here
            if word in ("below", "again") or word in ("made", "worked"):
                here += 1
                continue
            return here

    def fill_tail(self, at: int) -> tuple[int, int] | None:
        """ "around", "across", "to end", "to last 2 sts", "until 2 sts remain" -> (past it, stitches kept back)."""
        here = at
        if self.word(here) in (",",) and self.word(here + 1) in ("around", "across"):
            here += 1
        while self.word(here) in ("all", "evenly", "right", "straight", "even") and self.word(here + 1) in (
            "around",
            "across",
            "along",
            "the",
        ):
            here += 1
        if self.word(here) == "the" and self.word(here + 1) == "way":
            here += 2
        if (
            self.word(here) == "the"
            and self.word(here + 1) in ("whole", "entire")
            and self.word(here + 2) in COURSE_WORDS
        ):
            return here + 3, 0
        word = self.word(here)
        if word in ("around", "across", "round", "throughout"):
            here += 1
            while (
                self.word(here) in ("the", "entire", "whole", "this", "all")
                or self.word(here) in COURSE_WORDS
                or self.word(here) in ("circle", "piece", "edge")
            ):
                here += 1
            tail = self._keep_back(here)
            return tail if tail else (here, 0)
        tail = self._keep_back(here)
        if tail:
            return tail
        if word in ("until", "till", "til"):
            if _MEASURED.match(self.low, self.toks[here].start):
                return None
            match = _CLOSED.match(self.low, self.toks[here].start)
            if match:
                return self.token_after(match.end(), here), 0
        if word in ("to", "til", "till", "until", "till", "through"):
            here += 1
            if self.word(here) in ("the", "you"):
                here += 1
            if self.word(here) == "reach":
                here += 2
            if self.word(here) in ("end", "ending"):
                here += 1
                here = self._noun_tail(here)
                return here, 0
        return None

    def _keep_back(self, at: int) -> tuple[int, int] | None:
        here = at
        if self.word(here) not in ("to", "until", "till", "til", "up", "except", "leaving", "within"):
            return None
        here += 1
        while self.word(here) in ("to", "within", "the", "for", "you", "have", "reach", "there", "are", "only"):
            here += 1
        last = False
        if self.word(here) == "last" or self.word(here) == "final":
            last = True
            here += 1
        number = 1
        if self.kind(here) == "number":
            number = self.toks[here].value
            here += 1
        elif not last:
            return None
        if self.is_noun(here) or self.kind(here) == "stitch":
            here += 1
            if self.word(here) == "." and self.word(here + 1) in ("remain", "left"):
                here += 1
        elif self.word(here) in COURSE_WORDS:
            return None
        if self.word(here) in ("remain", "remaining", "left", "remains", "rem"):
            here += 1
        elif not last:
            return None
        return here, number

    def loops(self, at: int) -> tuple[int, str | None] | None:
        """ "BLO", "in back loops only", "through both loops" -> (past it, loops)."""
        here = at
        while self.word(here) in (
            "in",
            "into",
            "through",
            "thru",
            "working",
            "work",
            "worked",
            "using",
            "the",
            "only",
            "all",
            "crochet",
            "crocheting",
            "inserting",
        ):
            here += 1
        word = self.word(here)
        side: str | None
        if word in ("blo", "bl", "tbl", "blonly", "blp"):
            side = "back"
        elif word in ("flo", "fl", "tfl", "flp"):
            side = "front"
        elif word in ("back", "front", "both", "rear", "third", "3rd") and self.word(here + 1) in (
            "loop",
            "loops",
            "lp",
            "lps",
            "lo",
            "bump",
            "bumps",
            "strand",
        ):
            side = {"back": "back", "rear": "back", "front": "front"}.get(word)
            here += 1
        else:
            return None
        here += 1
        if self.word(here) in ("only", "o", "loop", "loops"):
            here += 1
        if self.word(here) == "only":
            here += 1
        return here, side

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
        if word in COLOURS and self.kind(here) == "word":
            here += 1
            if self.word(here) in ("yarn", "colour", "color", "thread"):
                here += 1
            return here
        if word == "c" and self.kind(here + 1) == "number" and self.toks[here].end == self.toks[here + 1].start:
            return here + 2
        return None

    def is_letter_colour(self, at: int) -> bool:
        tok = self.toks[at] if at < self.count else None
        return bool(tok and len(tok.text) == 1 and tok.text in "abcdefg" and self.body[tok.start].isupper())

    # -- places ---------------------------------------------------------------------------------------------------
    def place(self, at: int) -> tuple[Place, int] | None:
        """The place that starts at token `at`, and the token after it."""
        if at >= self.count:
            return None
        here = at
        start = self.toks[at].start
        prep = False
        while self.word(here) in ("worked", "evenly", "for", "made") or (
            self.word(here) == "from"
            and (
                self.kind(here + 1) == "ordinal" or (self.word(here + 1) == "the" and self.kind(here + 2) == "ordinal")
            )
        ):
            prep = prep or self.word(here) == "from"
            here += 1
        word = self.word(here)
        if word in (
            "around",
            "across",
            "all",
            "to",
            "until",
            "till",
            "til",
            "evenly",
            "the",
            "right",
            "up",
            "throughout",
            "round",
        ):
            fill = self.fill_tail(here)
            if fill and not (word == "around" and self._round_a_post(here + 1)):
                return self._done(Place("fill", last=fill[1]), start, fill[0])
        if word == "inside" and self.word(here + 1) in _CLAUSE_ENDS:
            return self._done(Place("ring"), start, here + 1)
        if word == "around" or word in PREPOSITIONS:
            prep = True
            here += 1
            if self.word(here) in ("to", "the") and self.word(here) == "to":
                here += 1
        loops = None  # noqa: F841
        if self.word(here) in ("blo", "flo", "back", "front", "bl", "fl", "both") or (
            self.word(here) == "the" and self.word(here + 1) in ("back", "front", "blo", "flo", "both")
        ):
            looped = self.loops(here)
            if looped:
                step = looped[0]
                if self.word(step) in ("of", "on", "in"):
                    inner = self.place(step + 1) or self.place(step)
                    if inner:
                        inner[0].loops = looped[1]
                        inner[0].start = start
                        return inner
                return None
        while self.word(here) in ARTICLES:
            here += 1
        if self.word(here) in ("center", "centre", "middle") and (self.word(here + 1) in ("of", "st", "stitch")):
            here += 1
            while self.word(here) in ARTICLES:
                here += 1
        tok = self.toks[here] if here < self.count else None
        if tok is None:
            return None
        if prep and tok.key == "ch" and "ring" in (self.word(here + 1), self.word(here + 2)):
            return self._done(Place("ring"), start, here + 2 + (self.word(here + 1) == "-"))
        if prep and (
            tok.key == "ring"
            or (tok.text in RING_WORDS and tok.kind == "word" and not (tok.text == "mc" and self.out.chunks and False))  # noqa: SIM223
        ):
            return self._done(Place("ring"), start, here + 1)
        if (
            prep
            and tok.text in ("other", "opposite", "second", "unworked", "remaining", "underside", "bottom")
            and self.word(here + 1) in ("side", "loops", "loop", "edge")
        ):
            step = here + 2
            while self.word(step) in ("of", "the", "same"):
                step += 1
            if self.kind(step) == "number" and self.word(step + 1) in ("ch", "chs", "chain", "chains"):
                return self._done(
                    Place(
                        "next", n=self.toks[step].value, noun="ch", number=(self.toks[step].start, self.toks[step].end)
                    ),
                    start,
                    step + 2,
                )
            if self.word(step) in ("each", "next"):
                inner = self.place(step)
                if inner:
                    inner[0].start = start
                    return inner
        if prep and tok.text in ("magic", "adjustable", "sliding"):
            return None
        if prep and tok.text in ("turning", "tch") and (tok.text == "tch" or self.word(here + 1) in ("ch", "chain")):
            return self._done(Place("one", noun="top"), start, here + 1 + (tok.text != "tch"))
        if prep and tok.text == "top":
            past = self._top_of(here)
            return self._done(Place("one", noun="top"), start, past) if past else None
        if tok.kind == "ordinal":
            value = tok.value
            step = here + 1
            noun = self.noun_phrase(step)
            text = self.body[tok.start : self.toks[min(noun, self.count) - 1].end].lower()
            chain = self.word(step) in ("ch", "chain", "chains", "chs")
            if (
                "from hook" in text
                or "from the hook" in text
                or (chain and value > 1 and prep)
                or (chain and self.word(step + 1) == "from")
            ):
                past = noun
                if self.word(past) == "from":
                    past += 2 if self.word(past + 1) == "hook" else 3
                return self._done(Place("hook", n=value), start, past)
            if value == 1:
                number = None
                many = 1
                if self.kind(step) == "number":
                    many = self.toks[step].value
                    number = (self.toks[step].start, self.toks[step].end)
                    noun = self.noun_phrase(step + 1)
                    if noun == step + 1 and not prep:
                        return None
                elif noun == step and not prep:
                    return None
                return self._done(
                    Place("next" if many > 1 else "first", n=many, number=number),
                    start,
                    max(noun, step if many == 1 else step + 1),
                )
            if prep and not chain and (noun > step or self.word(step) in _CLAUSE_ENDS):
                return self._done(Place("order", n=value), start, noun)
            return None
        each = False
        if tok.text in EACH:
            each = True
            here += 1
            if self.word(here) in ("other", "alternate") or (
                self.kind(here) == "ordinal" and self.toks[here].value > 1
            ):
                every = self.toks[here].value if self.kind(here) == "ordinal" else 2
                noun = self.noun_phrase(here + 1)
                if noun == here + 1:
                    return None
                fill = self.fill_tail(noun)
                return self._done(Place("nth", n=every), start, fill[0] if fill else noun)
            while self.word(here) in ARTICLES or self.word(here) == "-":
                here += 1
            if tok.text == "all" and self.kind(here) == "number" and not self._stitch_at(here + 1):
                noun = self.noun_phrase(here + 1)
                if noun > here + 1:
                    told = self.toks[here]
                    fill = self.fill_tail(noun)
                    return self._done(
                        Place("next", n=told.value, each=True, number=(told.start, told.end)),
                        start,
                        fill[0] if fill else noun,
                    )
        if self.word(here) == "same":
            noun = self.noun_phrase(here + 1)
            if self.word(noun) in ("place", "base") and noun == here + 1:
                noun += 1
            if self.word(noun) in ("as", "where") or self.word(noun) == "ch":
                step = noun + 1
                while step < self.count and self.kind(step) != "sign" and self.word(step) not in ("and", "then"):
                    step += 1
                noun = step
            return self._done(Place("same"), start, noun)
        named_next = False
        which = ""
        while self.word(here) in NEXT or (self.word(here) in ("last", "first", "1st") and self.kind(here) != "stitch"):
            if self.word(here) in ("last", "first"):
                which = self.word(here)
            named_next = True
            here += 1
            while self.word(here) in ARTICLES:
                here += 1
        if self.kind(here) == "ordinal" and self.toks[here].value == 1 and each:
            here += 1
            which = "first"
            named_next = True
        n = None
        number = None
        if self.kind(here) == "number":
            n = self.toks[here].value
            number = (self.toks[here].start, self.toks[here].end)
            here += 1
            if self.word(here) in ("more", "remaining", "rem", "unworked"):
                here += 1
        if self.word(here) in ("remaining", "rem", "unworked", "unused"):
            here += 1
            named_next = True
        noun = self.noun_phrase(here)
        noun_text = self.body[self.toks[here].start : self.toks[noun - 1].end].lower() if noun > here else ""
        space = bool(re.search(r"\b(?:sps?|spaces?)\b", noun_text)) or ("ch-" in noun_text)
        if each and n is None and not (which and named_next):
            if noun == here and not named_next:
                fill = self.fill_tail(here)
                if fill is None and self.word(here) in _CLAUSE_ENDS:
                    fill = here, 0
                return self._done(Place("fill", each=True, last=fill[1]), start, fill[0]) if fill else None
            if self.word(noun) in ("and", "&", "or"):
                step = noun + 1
                if self.word(step) in PREPOSITIONS:
                    step += 1
                inner = self.place(step) if self.word(step) in EACH else None
                past = inner[1] if inner and inner[0].kind == "fill" else self.noun_phrase(step)
                if past > step and not self._starts_place(past):
                    if inner is None:
                        fill = self.fill_tail(past)
                        inner = self._done(Place("fill", each=True, last=fill[1] if fill else 0), start, past)
                        past = fill[0] if fill else past
                    inner[0].start = start
                    inner[0].noun = self.low[self.toks[here].start : self.toks[past - 1].end]
                    return inner[0], past
            fill = self.fill_tail(noun)
            last = 0
            if fill:
                noun, last = fill
            return self._done(Place("fill", each=True, last=last, noun=noun_text), start, noun)
        if named_next or n is not None:
            if not named_next and not prep and not each:
                return None
            if (
                not named_next
                and not each
                and prep
                and noun == here
                and n is not None
                and n > 1
                and self.word(at) != "over"
                and self.word(here) not in _CLAUSE_ENDS
            ):
                return None
            if (
                n is None
                and self.is_noun(here)
                and noun_text in ("sts", "stitches", "chs", "chains")
                and which != "last"
            ):
                fill = self.fill_tail(noun)
                if fill or self.word(here - 1) in ("remaining", "rem", "unworked"):
                    return self._done(
                        Place("fill", last=fill[1] if fill else 0, noun=noun_text), start, fill[0] if fill else noun
                    )
            kind = "last" if which == "last" else ("space" if space else "next")
            if n is None and not named_next:
                kind = "one"
            if not named_next and not each and n == 1:
                kind = "one"
            together = False
            if self.word(noun) in ("together", "tog"):
                together = True
                noun += 1
            elif each and self.word(noun) in ("around", "across"):
                noun += 1
            return self._done(
                Place(kind, n=n or 1, each=each, noun=noun_text, together=together, number=number), start, noun
            )
        if prep and noun > here:
            if noun_text in ("sts", "stitches") or self.word(here) in ("chs", "sts"):
                fill = self.fill_tail(noun)
                return self._done(Place("fill", last=fill[1] if fill else 0), start, fill[0] if fill else noun)
            return self._done(Place("space" if space else "one", noun=noun_text), start, noun)
        return None

    def _top_of(self, at: int) -> int | None:
        """ "top of the turning chain", "top of ch-3": one stitch, where the chain counts as one."""
        here = at + 1
        while self.word(here) in (
            "of",
            "the",
            "beg",
            "beginning",
            "turning",
            "starting",
            "previous",
            "first",
            "row",
            "'s",
            "-",
        ):
            here += 1
        if self.word(here) in ("tch", "t"):
            return here + 1 + (2 if self.word(here + 1) == "-" else 0)
        if self.word(here) not in ("ch", "chain", "chs"):
            return None
        here += 1
        if self.word(here) == "-":
            here += 1
        if self.kind(here) == "number":
            here += 1
        return self._noun_tail(here)

    def _round_a_post(self, at: int) -> bool:
        """ "around the post", "around next st", "around each dc": a place, and not the whole round."""
        if self.word(at) in ("the", "this"):
            at += 1
        word = self.word(at)
        return (
            word in ("post", "posts", "ring", "chain", "ch", "same")
            or (word in NEXT or word in EACH)
            or (self.kind(at) == "ordinal" and self.is_noun(at + 1))
            or (self.kind(at) == "stitch" and self.toks[at].key in self._noun_stitches() and self.word(at - 1) == "the")
        )

    def _done(self, place: Place, start: int, past: int) -> tuple[Place, int]:
        place.start = start
        place.end = self.toks[min(past, self.count) - 1].end if past > 0 else start
        return place, past

    # -- times ----------------------------------------------------------------------------------------------------
    def times(self, at: int) -> tuple[Times, int] | None:
        here = at
        while (
            self.word(here)
            in (
                "for",
                "work",
                "worked",
                "a",
                "total",
                "of",
                "repeat",
                "do",
                "this",
                "-",
                "rep",
                "repeated",
                "all",
                "the",
                ":",
            )
            and here < at + 4
            and self._times_ahead(here + 1)
        ):
            here += 1
        word = self.word(here)
        if (
            word in ("x", "*")
            and (self.kind(here) != "stitch" or self.last_type() in ("CLOSE", "STARC"))
            and self.kind(here + 1) == "number"
        ):
            number = (self.toks[here + 1].start, self.toks[here + 1].end)
            past = here + 2
            if self.word(past) in ("times", "time"):
                past += 1
            return Times(self.toks[here + 1].value, number=number), past
        if word in TIMES_WORDS:
            past = here + 1
            more = self.word(past) == "more"
            if more:
                past += 1
            return Times(TIMES_WORDS[word], more=more), past
        if self.kind(here) == "number":
            number = (self.toks[here].start, self.toks[here].end)
            n = self.toks[here].value
            past = here + 1
            more = False
            if self.word(past) in ("more", "additional", "further"):
                more = True
                past += 1
            if self.word(past) in ("times", "time") or (
                self.word(past) == "x"
                and self.kind(past) != "stitch"
                and not self._stitch_at(past + 1)
                and self.kind(past + 1) != "number"
            ):
                past += 1
                if self.word(past) == "more":
                    more = True
                    past += 1
                while self.word(past) in _SKIP_AFTER_TIMES:
                    past += 1
                return Times(n, more=more, number=number), past
        return None

    def _times_ahead(self, at: int) -> bool:
        return any(
            self.word(here) in ("x", "times", "time") or self.word(here) in TIMES_WORDS or self.kind(here) == "number"
            for here in range(at, min(at + 3, self.count))
        )

    def _stitch_at(self, at: int) -> bool:
        return self.kind(at) == "stitch"

    def repeat_phrase(self, at: int) -> tuple[str, Times, int] | None:
        """ "rep from * to last 2 sts", "repeat around", "repeat 6 times" -> (from what, how often, past it)."""
        here = at
        if self.word(here) not in ("rep", "repeat", "repeating", "reps", "repeats", "rpt", "*", "work"):
            return None
        source = "star" if self.word(here) == "*" else ""
        here += 1
        if self.word(here) == ".":
            here += 1
        while True:
            word = self.word(here)
            if (
                word in ("to", "until", "till", "all", "around", "across", "the")
                and self.word(here + 1) != "*"
                and self.fill_tail(here)
            ):
                break
            if word == "*" or word in ("asterisk", "asterisks", "star", "stars"):
                source = "star"
                here += 1
            elif word in ("(", "[", "{") and self.word(here + 1) in (")", "]", "}"):
                source = "bracket"
                here += 2
            elif source == "star" and self.word(here - 1) == "*" and word in ("-", "s", "'s", "to", "'"):
                here += 1
            elif word in (
                "from",
                "between",
                "the",
                "to",
                "sequence",
                "instructions",
                "brackets",
                "parentheses",
                "this",
                "pattern",
                "that",
                "these",
                "all",
                "it",
                "steps",
                "sts",
                "in",
                "last",
                "and",
                "section",
                "directions",
                "above",
                "beginning",
                "start",
                "of",
                "first",
                *COURSE_WORDS,
            ) and self._repeat_goes_on(here + 1):
                if word in ("brackets", "parentheses"):
                    source = "bracket"
                here += 1
            else:
                break
        fill = self.fill_tail(here)
        if fill and not (self.word(here) == "to" and self.word(here + 1) == "*"):
            return source, Times(fill=True, last=fill[1]), fill[0]
        counted = self.times(here)
        if counted:
            return source, counted[0], counted[1]
        if self.word(here) == "in" or self.word(here) == "over":
            inner = self.place(here)
            if inner and inner[0].kind in ("next", "fill"):
                if inner[0].kind == "fill":
                    return source, Times(fill=True, last=inner[0].last), inner[1]
                return source, Times(uses=inner[0].n), inner[1]
        if self.kind(here) == "number" and not self._stitch_at(here + 1):
            number = (self.toks[here].start, self.toks[here].end)
            return source, Times(self.toks[here].value, number=number), here + 1
        return source, Times(fill=True), here

    def _repeat_goes_on(self, at: int) -> bool:
        word = self.word(at)
        if word in ("end", "last") or self.kind(at - 1) == "number":
            return self.word(at - 1) != "to"
        return word not in (",", ".", ";", "") or self.word(at - 1) in (
            "brackets",
            "parentheses",
            "pattern",
            "sequence",
            "this",
            "steps",
            "it",
            "instructions",
        )

    # -- clauses --------------------------------------------------------------------------------------------------
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
            return self._stitch_at(here + 1) or (self.word(here + 1) == "x" and self._stitch_at(here + 2))
        if self.word(here) in ("(", "[", "{", "*"):
            closing = self.close_of(here) if self.word(here) != "*" else None
            if closing is not None and self._is_count(here, closing) is not None and not self.times(closing + 1):
                return False
            return self.stitchy(here + 1) or self.kind(here + 1) == "number"
        return self.word(here) in ("rep", "repeat", "blo", "flo", "in") and self.word(here + 1) not in ("between",)

    def cue_end(self, at: int) -> int:
        """The token after an asking that starts at `at`: the sentence's end, or the clause where stitches go on."""
        here = at
        level = 0
        while here < self.count:
            tok = self.toks[here]
            if tok.kind == "sign":
                if tok.text in "([{":
                    closing = self.close_of(here)
                    if level == 0 and closing is not None and self._is_count(here, closing):
                        return here
                    level += 1
                elif tok.text in ")]}":
                    level -= 1
                    if level < 0:
                        return here
                elif (
                    (level == 0 and tok.text in ".;!" and not self._decimal(here))
                    or (level == 0 and (tok.text == ":" and here > at) and self.stitchy(here + 1))
                    or (level == 0 and tok.text == "," and self.stitchy(here + 1))
                    or (
                        level == 0
                        and tok.text in "-="
                        and here > at
                        and self.kind(here + 1) == "number"
                        and self._past_count(here + 1) > here + 2
                        and self._count_after_dash(here + 1)
                    )
                ):
                    return here
            elif (
                level == 0
                and tok.text in ("then", "and")
                and here > at
                and (self.kind(here + 1) in ("number", "stitch"))
                and self.stitchy(here + 1)
                and self.toks[here + 1].key != "turn"
            ):
                return here
            here += 1
        return here

    def _decimal(self, at: int) -> bool:
        return (
            self.kind(at - 1) == "number"
            and self.kind(at + 1) == "number"
            and self.toks[at].start == self.toks[at - 1].end
            and self.toks[at + 1].start == self.toks[at].end
        )

    def _is_count(self, opened: int, closed: int) -> int | None:
        """A bracket that holds nothing but a printed count -> index of its number."""
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
                if tok.key == "ch":
                    size = here + 2 if self.word(here + 1) == "-" else here + 1
            elif (
                tok.text in NOUNS
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
                )
                or (tok.text in COURSE_WORDS and self.word(here - 1) in ("each", "every", "per", "the", "this", "all"))
            ):
                continue
            else:
                return None
        return number

    # -- the walk -------------------------------------------------------------------------------------------------
    def walk(self) -> Phrases:
        at = 0
        guard = 0
        while at < self.count:
            guard += 1
            if guard > 60000:
                break
            past = self.step(at)
            at = past if past > at else at + 1
        return self.out

    def step(self, at: int) -> int:
        tok = self.toks[at]
        start = tok.start
        if tok.kind == "sign":
            return self.sign(at)
        clause = self.at_clause_start()
        if tok.text in _SAID_WORDS and self.out.chunks and not self.depth and self.last_type() not in ("NB", "BARE"):
            match = _SAYS.match(self.low, start)
            if match:
                self.counted(int(match["n"]), *match.span("n"))
                return self.token_after(match.end(), at)
        if tok.text in ("until", "till", "til"):
            match = _MEASURED.match(self.low, start)
            if match:
                self.out.measured = match.span()
                return self.token_after(match.end(), at)
        if tok.text in ("no", "without", "not", "with"):
            match = _NO_SHAPING.match(self.low, start)
            if match:
                self.out.asides.append(match.span())
                return self.token_after(match.end(), at)
        if tok.text in ("and", "continue", "keep", "carry", "go") and self.out.chunks and not self.depth:
            match = _AND_SO_ON.match(self.low, start)
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
        if clause:
            past = self.clause_start(at)
            if past is not None:
                return past
        if tok.text in ("rep", "repeat", "repeating", "reps", "rpt") or (
            tok.text == "work" and self.word(at + 1) in ("from", "between") and self.word(at + 2) == "*"
        ):
            return self.repeat(at)
        if tok.kind == "stitch":
            past = self.joined(at)
            if past is not None:
                return past
            if tok.key == "turn":
                self.emit("MARK", ("turn", None), start, tok.end)
                nxt = at + 1
                while self.word(nxt) in ("work", "your", "the", "piece"):
                    nxt += 1
                return nxt
            if tok.key == "ring":
                past = at + 1
                if self.last_type() in ("ST", "NA"):
                    self.emit("PLACE", Place("ring", start=start, end=tok.end), start, tok.end)
                    return past
                self.emit("MARK", ("ring", None), start, tok.end)
                if self.word(past) in (",", ":", "-", "with", "of", "and", "in", "w", ";", "."):
                    return past + (1 if self.word(past) in ("with", "of", "and", "w", "-", ":") else 0)
                return past
            if tok.key == "skip":
                return self.skip(at)
            if self.number_first is None:
                self.number_first = False
            doubt = tok.key in ("inc", "dec") and " " in self.body[start : tok.end].strip()
            self.emit("ST", Doubt(tok.key) if doubt else tok.key, start, tok.end)
            nxt = at + 1
            if (
                self.word(nxt) == "."
                and self.toks[nxt].start == tok.end
                and self.kind(nxt + 1) == "word"
                and not self.body[self.toks[nxt + 1].start].isupper()
            ):
                nxt += 1  # the dot of an abbreviation: "sc. in next"
            if self.word(nxt) in ("of",) and self.kind(nxt + 1) == "number":
                nxt += 1
            if (
                self.word(nxt) == "-"
                and self.kind(nxt + 1) == "number"
                and tok.key == "ch"
                and self.toks[nxt].start == tok.end
            ):
                nxt += 1  # "ch-3"
            if self.word(nxt) in ("stitch", "stitches", "sts", "st"):
                nxt += 1
            if self.word(nxt) in ("a",) and self.word(nxt + 1) == "chain":
                nxt += 2
            return nxt
        looped = (
            self.loops(at)
            if tok.text
            in (
                "in",
                "into",
                "through",
                "thru",
                "working",
                "work",
                "blo",
                "flo",
                "bl",
                "fl",
                "back",
                "front",
                "both",
                "the",
                "worked",
                "tbl",
                "tfl",
                "using",
            )
            else None
        )
        if looped and self.word(looped[0]) not in ("of", "on"):
            after = self.place(at)
            if after is None or after[0].kind != "fill":
                self.emit(
                    "LOOPS" if clause or self.last_type() == "NB" else "LOOPSPOST",
                    looped[1],
                    start,
                    self.toks[looped[0] - 1].end,
                )
                past = looped[0]
                while self.word(past) in (":",) or (
                    clause
                    and self.word(past) in ("for", "this", "round", "row", "rnd", "entire", "the", "whole")
                    and not self.place(past)
                ):
                    past += 1
                return past
        if (
            tok.text in ("for", "over")
            and self.last_type() == "ST"
            and self.kind(at + 1) == "number"
            and self.word(at + 2) in _CLAUSE_ENDS
        ):
            told = self.toks[at + 1]
            self.emit("NA", (told.value, told.start, told.end), told.start, told.end)
            return at + 2
        if tok.kind == "number":
            return self.number(at)
        elsewhere = self.elsewhere(at)
        if elsewhere is not None:
            return elsewhere
        placed = self.place(at)
        if placed:
            return self.place_chunk(at, placed[0], placed[1], clause)
        if tok.text in TIMES_WORDS and self.last_type() in ("ST", "", "SEP", "CUE", "MARK", "STARO", "OPEN"):
            where = self.place(at + 1)
            if where and where[0].kind in ("next", "one", "first", "last", "same") and where[0].n == 1:
                kind = "NA" if self.last_type() == "ST" else "BARE"
                self.emit(kind, (TIMES_WORDS[tok.text], tok.start, tok.end), tok.start, tok.end)
                return at + 1
        if tok.text in ("for", "making", "giving", "leaving", "resulting", "makes"):
            match = _TOTAL.match(self.low, start)
            if match and self.out.chunks and not self.depth:
                self.counted(int(match["n"][:7]), match.start("n"), match.end("n"))
                return self.token_after(match.end(), at)
        counted = self.times(at)
        if counted and self.list_times(at, counted):
            return counted[1]
        if counted and self.last_type() in ("ST", "NA", "CLOSE", "STARC", "PLACE", "NB", "TIMES", "LOOPSPOST"):
            self.emit("TIMES", counted[0], start, self.toks[counted[1] - 1].end)
            return counted[1]
        if tok.text in ("and", "then", "plus", "followed"):
            past = at + 1
            if self.word(past) == "by":
                past += 1
            if self.last_type() not in ("SEP", "OPEN", "STARO", ""):
                if self.last_type() == "PLACE" and self.place(past) and not self._place_then_stitch(past):
                    return self.and_place(past)
                self.emit("SEP", None, start, tok.end)
                self.number_first = None
            return past
        if tok.text in ("with", "in", "using", "w"):
            past = at + 1
            if self.word(past) == "/":
                past += 1
            if self.word(past) in ("the",):
                past += 1
            end = self.colour_name(past)
            if end is None and self.is_letter_colour(past):
                end = past + 1
            if end is not None:
                name = self.body[self.toks[past].start : self.toks[end - 1].end]
                self.emit("COLOUR" if clause else "COLOURPOST", name, start, self.toks[end - 1].end)
                if self.word(end) in (":", "-"):
                    end += 1
                return end
        if tok.text in ("together", "tog") and self.last_type() == "PLACE":
            self.out.chunks[-1].value.together = True
            return at + 1
        if tok.text in NOUNS and self.last_type() in ("NA", "BARE", "NB", "ST"):
            return at + 1
        if tok.text == "x" and self.last_type() == "NB":
            return at + 1
        if tok.text in ("rs", "ws") or tok.text in HARMLESS:
            return at + 1
        if tok.text in ARTICLES:
            return at + 1
        self.out.unknown.append((tok.start, tok.end))
        return at + 1

    def elsewhere(self, at: int) -> int | None:
        """Two layers at once, another piece's stitches, the chain between two pieces."""
        tok = self.toks[at]
        if tok.text not in _TO_ELSEWHERE:
            return None
        match = _LAYERED.match(self.low, tok.start)
        if match:
            self.out.layers = True
            return self.token_after(match.end(), at)
        match = _BOTH_ENDS.match(self.low, tok.start)
        if match and self.after_stitch():
            self.emit("PLACE", Place("ends", start=tok.start, end=match.end()), *match.span())
            return self.token_after(match.end(), at)
        match = _ALONG_EDGE.match(self.low, tok.start)
        if match and self.after_stitch():
            return self.token_after(match.end(), at)
        match = _ON_PIECE.match(self.low, tok.start) or _PIECE.match(self.low, tok.start)
        place = Place("piece", start=tok.start)
        if match is None:
            match = _ON_CHAIN.match(self.low, tok.start) if self.after_stitch() else None
            if (
                match is None
                or "each" in match[0]
                or not any(c.type == "ST" and c.value == "ch" for c in self.out.chunks)
                or any(c.type == "PLACE" and c.value.kind == "hook" for c in self.out.chunks)
            ):
                return None
            place.kind = "chain"
        else:
            self.out.elsewhere = True
            place.noun = f"{match['which']} {match['what']}"
        past = self.token_after(match.end(), at)
        place.end = match.end()
        if self.after_stitch():
            if place.kind == "piece" and self.last_type() in ("PLACE", "ANDPLACE"):
                return past
            self.emit("PLACE", place, place.start, place.end)
        elif place.kind == "piece":
            self.out.asides.append((place.start, place.end))
        else:
            return None
        if self.word(past) in (":",):
            past += 1
        return past

    def after_stitch(self) -> bool:
        return self.last_type() in ("ST", "NA", "CLOSE", "PLACE", "LOOPSPOST", "COLOURPOST", "BARE")

    def _place_then_stitch(self, at: int) -> bool:
        placed = self.place(at)
        if not placed:
            return False
        here = placed[1]
        if self.word(here) in (",", ":") and placed[0].kind in ("hook", "next", "one", "first", "last", "same", "ring"):
            here += 1
        if self.word(here) in ("(", "["):
            return self.stitchy(here)
        return (
            (self.kind(here) == "stitch" and self.toks[here].key not in ("turn", "join", "skip"))
            or (self.kind(here) == "number" and self._stitch_at(here + 1))
            or (self.word(here) in ("work", "make") and self.stitchy(here))
        )

    def and_place(self, at: int) -> int:
        placed = self.place(at)
        assert placed is not None
        self.emit("ANDPLACE", placed[0], placed[0].start, placed[0].end)
        return placed[1]

    def place_chunk(self, at: int, place: Place, past: int, clause: bool) -> int:
        if place.kind in ("next", "fill", "one", "space") and past < self.count:
            match = _STARTING_IN.match(self.low, self.toks[past - 1].end)
            if match:
                place.hook = int(match["n"]) if match["n"] else ORDINAL_WORDS[match["word"]]
                past = self.token_after(match.end(), past)
        if clause and self._place_then_stitch(at):
            before = self.word(at - 1)
            if place.kind == "hook" and (
                before in ("starting", "beginning", "start", "begin", "from", "working") or self.word(at) == "from"
            ):
                place.each = True
            self.emit("PLACEPRE", place, place.start, place.end)
            while self.word(past) in ("work", "make", ",", ":"):
                past += 1
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
            and self.out.chunks[-2].type in ("PLACE", "ANDPLACE", "CLOSE", "STARC", "NA", "ST", "TIMES")
        ):
            previous = self.out.chunks[-2].type
            if previous in ("PLACE", "ANDPLACE", "NA", "ST") or place.kind == "fill":
                self.out.chunks.pop()
                self.emit("ANDPLACE" if previous in ("PLACE", "ANDPLACE") else "PLACE", place, place.start, place.end)
                return past
        self.out.unknown.append((place.start, place.end))
        return past

    def clause_start(self, at: int) -> int | None:
        """What only the start of a clause can be: an asking, a total, the other side, a colour."""
        tok = self.toks[at]
        top = not self.depth
        if top:
            match = _UNWORKED.match(self.low, tok.start)
            if match:
                self.out.unworked = True
                return self.token_after(match.end(), at)
            match = _RING_OF.match(self.low, tok.start)
            if match:
                self.emit("MARK", ("closed ring", None), tok.start, match.end())
                return self.token_after(match.end(), at)
            match = _ENDS_ROUND.match(self.low, tok.start)
            if match and self.out.chunks:
                self.emit("MARK", ("join", None), *match.span())
                return self.token_after(match.end(), at)
            if tok.text in ("with", "in", "start", "using") and not self.out.chunks:
                match = _WITH_RING.match(self.low, tok.start)
                if match:
                    self.emit("MARK", ("ring", None), *match.span())
                    past = self.token_after(match.end(), at)
                    return past + (self.word(past) in (",", "and", ":", "-", "with"))
            match = _TOTAL.match(self.low, tok.start) if tok.kind in ("word", "sign") else None
            if match and self.out.chunks:
                self.counted(int(match["n"][:7]), match.start("n"), match.end("n"))
                return self.token_after(match.end(), at)
            match = _EVENLY.match(self.low, tok.start) or _STEADY.match(self.low, tok.start)
            if match:
                return self.evenly(at, match)
            match = _JOINED_WITH.match(self.low, tok.start)
            if match and not re.search(r"\b(?:legs?|arms?|piece|body|wing|fin)\b", match[0]):
                self.out.cues.append(CueClause("colour", tok.start, match.end("colour")))
                self.emit("CUE", len(self.out.cues) - 1, tok.start, match.end("colour"))
                here = self.token_after(match.start("st"), at)
                self.emit("ST", self.toks[here].key or "sc", match.start("st"), match.end())
                self.emit("NA", (1, match.start("st"), match.end()), match.start("st"), match.end())
                return self.token_after(match.end(), at)
            match = _MANNER.match(self.low, tok.start)
            if match:
                self.out.asides.append((tok.start, match.end()))
                return self.token_after(match.end(), at)
            match = CLAUSE.match(self.low, tok.start)
            if match and match.end() > tok.start:
                return self.cue(at)
        match = _PAIR_TOGETHER.match(self.low, tok.start)
        if match:
            self.emit("ST", "dec", *match.span())
            return self.token_after(match.end(), at)
        match = _COUNTED_CHAINS.match(self.low, tok.start)
        if match:
            self.out.counted_chains = True
            return self.token_after(match.end(), at)
        match = _COUNTS.match(self.low, tok.start)
        if match:
            self.out.counts_as = not (match["no"] or "not" in match[0] or "n't" in match[0])
            return self.token_after(match.end(), at)
        match = _OTHER_SIDE.match(self.low, tok.start) if tok.kind == "word" else None
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
            return past
        if (
            tok.text in ("with", "in", "using", "w")
            or tok.text in COLOURS
            or tok.text in SHADES
            or tok.text in COLOUR_WORDS
            or (len(tok.text) == 1 and self.is_letter_colour(at))
        ):
            past = at
            if tok.text in ("with", "in", "using", "w"):
                past += 1
                if self.word(past) == "/":
                    past += 1
                if self.word(past) == "the":
                    past += 1
            end = self.colour_name(past)
            if end is None and self.is_letter_colour(past) and (past > at or self.word(past + 1) in (":", "-")):
                end = past + 1
            if end is None and past > at and top and tok.text in ("with", "using"):
                end = self._free_colour(past)
            if end is not None and (
                past > at or self.word(end) in (":", "-", ",") or self.kind(end) in ("number", "stitch")
            ):
                name = self.body[self.toks[past].start : self.toks[end - 1].end]
                if top and past > at and not any(c.type in ("ST", "CLOSE", "BARE") for c in self.out.chunks):
                    self.out.cues.append(CueClause("colour", tok.start, self.toks[end - 1].end))
                    self.emit("CUE", len(self.out.cues) - 1, tok.start, self.toks[end - 1].end)
                self.emit("COLOUR", name, tok.start, self.toks[end - 1].end)
                if self.word(end) in (":", "-", ","):
                    end += 1
                return end
        if tok.kind == "word" and top:
            return self.remark(at)
        return None

    def evenly(self, at: int, match: re.Match[str]) -> int:
        """ "increase 6 sts evenly": so many of them, and plain stitches between."""
        told = match.groupdict()
        group = "n" if told["n"] else "n2"
        key = "inc" if str(told["verb"] or told.get("verb2")).startswith("inc") else "dec"
        n = int(match[group][:6])
        span = match.span(group)
        self.emit("ST", key, match.start(), match.end())
        self.emit("NA", (n, *span), *span)
        self.emit("PLACE", Place("evenly", n=n, number=span), match.start(), match.end())
        return self.token_after(match.end(), at)

    def _free_colour(self, at: int) -> int | None:
        """ "with sea foam," : up to three words nobody knows, then a comma or a stitch."""
        here = at
        while (
            here < at + 3
            and self.kind(here) == "word"
            and self.word(here) not in HARMLESS
            and self.word(here) not in PREPOSITIONS
        ):
            here += 1
        if here > at and (
            self.word(here) in (",", ":")
            or self.kind(here) == "stitch"
            or (self.kind(here) == "number" and self._stitch_at(here + 1))
        ):
            return here
        return None

    def remark(self, at: int) -> int | None:
        """A sentence or clause without any stitch in it: an asking or an aside."""
        tok = self.toks[at]
        if tok.text in ("rep", "repeat", "repeating", "rpt", "blo", "flo", "bl", "fl", "rs", "ws"):
            return None
        if tok.text == "work" and self.word(at + 1) in ("from", "between") and self.word(at + 2) == "*":
            return None
        if self.loops(at) or self.place(at) or _STARTING_IN.match(self.low, tok.start):
            return None
        if tok.text in ("and", "then", "now", "work", "make", "next") and self.stitchy(at):
            return None
        here = at
        level = 0
        stitches = numbers = 0
        words = 0
        while here < self.count:
            t = self.toks[here]
            if t.kind == "sign":
                if t.text in "([{":
                    closing = self.close_of(here)
                    if closing is not None and self._is_count(here, closing) is not None:
                        break
                    level += 1
                elif t.text in ")]}":
                    level -= 1
                elif (level <= 0 and t.text in ".;!*" and not self._decimal(here)) or (
                    level <= 0 and t.text in ",:" and self.stitchy(here + 1)
                ):
                    break
            elif t.kind == "stitch" and t.key not in ("turn", "join"):
                stitches += 1
                if self.kind(here - 1) == "number" and here > at + 1:
                    stitches += 1  # "start with ... and 6 sc": work, whatever else it says
            elif t.kind == "number":
                numbers += 1
            else:
                words += 1
            here += 1
        end = self.toks[here - 1].end if here > at else tok.end
        sentence = self.low[tok.start : end]
        kind = classify(sentence)
        if stitches == 0 or (stitches <= 1 and kind is not None and words >= 4 and kind not in ("other", "join")):
            if self.place_like(at, here):
                return None
            if kind is not None:
                self.out.cues.append(CueClause(kind, tok.start, end))
                self.emit("CUE", len(self.out.cues) - 1, tok.start, end)
                return here
            if _SHAPING.search(sentence):
                self.out.unknown.append((tok.start, end))
                return here
            if (words >= 3 and numbers == 0) or words >= 5:
                self.out.asides.append((tok.start, end))
                return here
        return None

    def place_like(self, at: int, end: int) -> bool:
        return any(
            self.word(here) in ("around", "across", "blo", "flo") or self.word(here) in EACH
            for here in range(at, min(end, at + 4))
        )

    def cue(self, at: int) -> int:
        past = max(self.cue_end(at), at + 1)
        start = self.toks[at].start
        end = self.toks[past - 1].end
        text = self.low[start:end]
        kind = classify(text) or "other"
        self.out.cues.append(CueClause(kind, start, end))
        self.emit("CUE", len(self.out.cues) - 1, start, end)
        if kind == "colour":
            name = new_colour(self.body[start:end])
            if name:
                self.emit("COLOUR", name, start, end)
        return past

    def joined(self, at: int) -> int | None:
        """Joins: "sl st to first sc", "join with sl st in top of ch-3"."""
        tok = self.toks[at]
        if tok.key not in ("sl st", "join"):
            return None
        match = _RING_OF.match(self.low, tok.start)
        if match:
            self.emit("MARK", ("closed ring", None), tok.start, match.end())
            return self.token_after(match.end(), at)
        match = _JOIN_PART.match(self.low, tok.start) if tok.key == "join" else None
        if match and re.search(r"\b(?:legs?|arms?|piece|body|wing|fin)\b", match[0]):
            self.out.elsewhere = True
            here = self.token_after(match.start("st"), at)
            if self.toks[here].key != "sl st":
                self.emit("ST", self.toks[here].key, tok.start, match.end())
                return self.token_after(match.end(), at)
        match = (_JOIN if tok.key == "sl st" else _JOIN_WORD).match(self.low, tok.start)
        if not match:
            return None
        if re.search(r"\b(?:legs?|arms?|pieces?|layers|body|other)\b", match[0]):
            self.out.elsewhere = True
        first_n = re.search(r"first (\d+)|in (?:next|each)", match[0])
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
        self.emit("MARK", ("join", "either" if tok.key == "sl st" and "join" not in text else None), tok.start, end)
        return self.token_after(end, at)

    def skip(self, at: int) -> int:
        """ "sk 1", "skip next st", "miss 2 sts"."""
        tok = self.toks[at]
        here = at + 1
        n = 1
        number = None
        while self.word(here) in ("the", "over", "a"):
            here += 1
        while self.word(here) in NEXT or (self.kind(here) == "ordinal" and self.toks[here].value == 1):
            here += 1
        if self.kind(here) == "number":
            n = self.toks[here].value
            number = (self.toks[here].start, self.toks[here].end)
            here += 1
        past = self.noun_phrase(here)
        space = bool(re.search(r"\b(?:sps?|spaces?)\b", self.low[tok.start : self.toks[past - 1].end]))
        self.emit("SKIP", (0 if space else n, number), tok.start, self.toks[past - 1].end)
        return past

    def list_times(self, at: int, counted: tuple[Times, int]) -> bool:
        """ "sc, inc; 6 times", "sc, inc, x6": a multiplier set apart from its list is for all of it."""
        chunks = self.out.chunks
        if self.last_type() != "SEP" or len(chunks) < 2 or self.depth or self.word(counted[1]) not in _AFTER_TIMES:
            return False
        before = chunks[-2].type
        start, end = self.toks[at].start, self.toks[counted[1] - 1].end
        if before in ("CLOSE", "STARC"):
            chunks.pop()
            self.emit("TIMES", counted[0], start, end)
            return True
        if before not in ("ST", "NA", "PLACE", "ANDPLACE", "BARE", "LOOPSPOST"):
            return False
        counted[0].exact = not counted[0].more
        self.emit("REPALL", counted[0], start, end)
        return True

    def number(self, at: int) -> int:
        tok = self.toks[at]
        here = at + 1
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
        ahead = self.times(at)
        if (
            ahead
            and self.word(ahead[1]) in ("(", "[", "{")
            and ahead[0].number is not None
            and last in ("", "SEP", "OPEN", "STARO", "CUE", "MARK", "COLOUR", "LOOPS")
        ):
            closing = self.close_of(ahead[1])
            if closing is not None and self._is_count(ahead[1], closing) is None and not self.times(closing + 1):
                self.prefixed[closing] = ahead[0]
                return ahead[1]
        if self.word(here) == "*" and self.word(here + 1) in ("(", "[", "{") and self.at_clause_start():
            closing = self.close_of(here + 1)
            if closing is not None:
                self.prefixed[closing] = Times(tok.value, number=(tok.start, tok.end))
                return here + 1
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
        if (
            not self.depth
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
                "ANDPLACE",
                "MARK",
                "LOOPSPOST",
                "COLOURPOST",
                "SKIP",
            )
            and not self.depth
            and self._ends_as_count(at)
        ):
            self.counted(tok.value, tok.start, tok.end)
            return self._past_count(at)
        if self.word(here) == "x" and self._stitch_at(here + 1):
            here += 1
        while self.word(here) in ("more", "regular", "normal", "plain", "additional") and self._stitch_at(here + 1):
            here += 1
        between = self.loops(here)
        if self._stitch_at(here) or (between and self._stitch_at(between[0])):
            if last == "ST" and self.number_first is False:
                self.emit("NA", (tok.value, tok.start, tok.end), tok.start, tok.end)
                return here
            self.number_first = True
            self.emit("NB", (tok.value, tok.start, tok.end), tok.start, tok.end)
            return here
        if last == "ST":
            self.emit("NA", (tok.value, tok.start, tok.end), tok.start, tok.end)
            if self.is_noun(here) or self.word(here) in ("times",):
                here = self.noun_phrase(here)
            return here
        if self.word(here) in ("together", "tog"):
            self.emit("ST", {2: "dec", 3: "sc3tog"}.get(tok.value, "dec"), tok.start, self.toks[here].end)
            return here + 1
        if self.word(here) in COURSE_WORDS:
            self.out.rounds = tok.value
            return here + 1
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
        if (
            not self.depth
            and not self.open_star
            and not self.is_noun(here)
            and not self.place(here)
            and (
                (self.out.chunks and last not in ("SEP", "COLOUR", "LOOPS", "MARK", "CUE"))
                or after not in (",", ";", ".", "")
            )
        ):
            self.out.unknown.append((tok.start, tok.end))
            return here
        self.emit("BARE", (tok.value, tok.start, tok.end), tok.start, tok.end)
        if self.is_noun(here):
            here += 1
        return here

    def _filled(self) -> bool:
        """Has the course just gone all the way round, or is there no sign between it and a number?"""
        chunks = self.out.chunks
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

    def _ends_as_count(self, at: int) -> bool:
        """Is the number here the printed count: nothing but its noun, then the end or a full stop?"""
        here = self._past_count(at)
        noun = here > at + 1
        if here >= self.count:
            return noun or self.last_type() not in ("SEP",) or self.word(at - 1) in (".", ";", "-", "=")
        if self.word(here) in (".", ";", "!") or (self.word(here) == "," and not self.stitchy(here + 1)):
            return noun or here == self.count - 1 or self.last_type() != "SEP"
        return bool(noun and CLAUSE.match(self.low, self.toks[here].start))

    def _past_count(self, at: int) -> int:
        here = at + 1
        while self.word(here) in NOUNS or (
            self.word(here) in ("total", "in", "all", "left", "remaining", "remain", "rem", "now", "made", "altogether")
            and here > at + 1
        ):
            here += 1
        if here == at + 1 and self.word(here) in ("total", "altogether"):
            here += 1
        if here == at + 1 and self.word(here) == "in" and self.word(here + 1) in ("total", "all"):
            here += 2
        if (
            here == at + 1
            and self.kind(here) == "stitch"
            and self.toks[here].key in _PLAIN
            and (
                self.word(here + 1) in ("total", "altogether")
                or (self.word(here + 1) == "in" and self.word(here + 2) == "total")
            )
        ):
            here += 2 + (self.word(here + 1) == "in")
        if (
            here == at + 1
            and self.kind(here) == "stitch"
            and self.toks[here].key in _PLAIN
            and (self.word(at - 1) in (".", "=", "-", ";", ">"))
        ):
            here += 1
        while (
            here > at + 1
            and self.word(here) in (",", "and", "&", "+")
            and self.kind(here + 1) == "number"
            and (match := _AND_SPACES.match(self.low, self.toks[here + 1].start))
        ):
            here = self.token_after(match.end(), here)  # "- 11 dc, 9 ch-1 sps"
        if here < self.count and here > at + 1:
            match = _COUNT_TAIL.match(self.low, self.toks[here].start)
            if match:
                here = self.token_after(match.end(), here)
        return here

    def repeat(self, at: int) -> int:
        tok = self.toks[at]
        phrase = self.repeat_phrase(at)
        assert phrase is not None
        source, often, past = phrase
        end = self.toks[past - 1].end
        last = [c.type for c in self.out.chunks[-2:]]
        if last and last[-1] == "SEP":
            last.pop()
            tail = last[-1] if last else ""
        else:
            tail = last[-1] if last else ""
        if tail in ("CLOSE", "STARC") and not (source == "star" and self.open_star):
            if self.last_type() == "SEP":
                self.out.chunks.pop()
            self.emit("TIMES", often, tok.start, end)
        elif source == "star" or self.open_star:
            self.emit("REPFROM", often, tok.start, end)
            self.open_star = False
        else:
            self.emit("REPALL", often, tok.start, end)
        self.number_first = None
        return past

    def sign(self, at: int) -> int:
        tok = self.toks[at]
        sign = tok.text
        here = at + 1
        last = self.last_type()
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
        if sign == "*":
            while self.word(here) == "*":
                here += 1
            if self.word(at + 1) == "*" and here == at + 2 and last not in ("", "SEP"):
                return here  # "**": the mark at which a last repeat may stop
            if (
                not self.depth
                and not self.open_star
                and self.kind(here) == "number"
                and here == self.count - 1
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
        if sign in "-=:~>":
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
        if (
            sign == "<"
            and self.kind(here) == "number"
            and self.out.chunks
            and ">" in (self.word(here + 1), self.word(here + 2))
        ):
            value = self.toks[here]
            self.counted(value.value, value.start, value.end)
            return here + 2 + (self.word(here + 1) != ">")
        if sign in "<\"'#|_\\^~@%$?":
            return here
        self.out.unknown.append((tok.start, tok.end))
        return here

    def _count_after_dash(self, at: int) -> bool:
        past = self._past_count(at)
        if past >= self.count:
            return True
        word = self.word(past)
        return (
            word in (".", ";", "!", "(", "-", ">", "]", ",")
            and not (word == "," and self.stitchy(past + 1))
            and not (word == "(" and past == at + 1)
        ) or (past > at + 1 and bool(CLAUSE.match(self.low, self.toks[past].start)))

    def bracket(self, at: int, closing: int) -> int | None:
        """What a bracket is when it does not hold stitches to work; None when it does."""
        inner = self.low[self.toks[at].end : self.toks[closing].start].strip()
        past = closing + 1
        last = self.last_type()
        start = self.toks[at].start
        if not inner:
            return past
        again = self.repeat_phrase(at + 1) if self.word(at + 1) not in ("*", "work") else None
        if again and again[2] == closing and last in ("ST", "NA", "CLOSE", "STARC", "PLACE", "SEP"):
            return self.repeat(at + 1) + 1
        counted = self.times(at + 1)
        if counted and counted[1] == closing and last in ("ST", "NA", "CLOSE", "STARC", "PLACE", "NB"):
            self.emit("TIMES", counted[0], start, self.toks[closing].end)
            return past
        number = self._is_count(at, closing)
        if number is not None and self.out.chunks and not _CHANGE_AND_COUNT.match(inner):
            stitched = any(self.toks[i].kind == "stitch" for i in range(at + 1, closing))
            follows = self.times(past)
            if follows and self.kind(past) == "number" and self.word(past + 1) not in ("times", "x", "time", "more"):
                follows = None
            rest = self.word(past)
            if not follows and not (
                stitched and (rest in ("in", "into", "rep", "repeat", "around") or (rest == "," and self.stitchy(past)))
            ):
                if self.depth and not stitched and last in ("ST",):
                    return None
                value = self.toks[number]
                self.counted(value.value, value.start, value.end)
                return past
        goes_on = self.times(past) or self.word(past) in ("in", "into", "rep", "repeat", "around", "across", "to", "x")
        if self.out.chunks and not self.depth and not goes_on and (number is None or "," in inner):
            match = _CHANGE_AND_COUNT.match(inner) or _OPENS_AS_COUNT.match(inner)
            rest = match.groupdict().get("rest") or "" if match else ""
            plain = match is not None and self.toks[at + 2].kind == "sign" and self.toks[at + 2].text in ")]}"
            if match and not plain and not _ANY_STITCH.search(rest):
                offset = self.low.index(inner, self.toks[at].end)
                self.counted(int(match["n"]), offset + match.start("n"), offset + match.end("n"))
                rounds = re.search(r"\b(\d{1,3}) (?:rounds|rnds|rows)\b", rest)
                if rounds:
                    self.out.rounds = int(rounds[1])
                return past
        if self.kind(at + 1) == "number" and self.word(at + 2) in COURSE_WORDS and at + 3 == closing:
            self.out.rounds = self.toks[at + 1].value
            return past
        match = _COUNTS.search(inner)
        if match:
            self.out.counts_as = not (match["no"] or "not" in match[0] or "n't" in match[0])
            return past
        if _UNWORKED.match(inner):
            self.out.unworked = True
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
                r"[a-z0-9 -]{0,24}\bmade\b|(?:inc|increase|dec|decrease)\w*\s+(?:made|rnd|round|row)|\d+ (?:sts|stitches) (?:inc|dec)",  # noqa: E501
                inner,
            )
        ):
            return past
        return None


_SPACE = re.compile(r"\bsps?\b|\bspaces?\b|\bch-\d|\b(?:ch|chain)-?\d* ?(?:loops?|lps?)\b|\barch")
_STITCH_TOO = re.compile(r"\b(?:sts?|stitch(?:es)?|[hsd]?[cr]|hdc|htr|dc|sc|tr)\b.*\b(?:and|or|&)\b")


def _spaces(chunks: list[Chunk]) -> str:
    """What a course works into: spaces alone, spaces and stitches, or (nothing said of spaces) stitches."""
    space = stitch = False
    for chunk in chunks:
        if chunk.type not in ("PLACE", "ANDPLACE", "PLACEPRE"):
            if chunk.type == "REPFROM" and chunk.value.fill and chunk.value.last:
                stitch = True
            continue
        place = chunk.value
        if place.kind in ("same", "ring", "hook"):
            continue
        if _SPACE.search(place.noun):
            space = True
            stitch = stitch or bool(_STITCH_TOO.search(place.noun))
        elif place.kind != "fill" or place.each:
            stitch = True
    return "" if not space else "both" if stitch else "spaces"


def gather(body: str, names: Dictionary) -> Phrases:
    """Phrases of a body; linear in its length but for brackets, whose ends are looked up."""
    found = Gatherer(body, names)
    out = found.walk()
    if _ELSEWHERE.search(found.low):
        out.elsewhere = True
    if _LAYERS.search(found.low):
        out.layers = True
    out.into_spaces = _spaces(out.chunks)
    while out.chunks and out.chunks[-1].type == "SEP":
        out.chunks.pop()
    if found.all_times is not None:
        out.chunks.append(Chunk("CLOSE", ")", len(body), len(body)))
        out.chunks.append(Chunk("TIMES", found.all_times, len(body), len(body)))
    for _ in found.depth:
        out.chunks.append(Chunk("CLOSE", ")", len(body), len(body)))
    return out
