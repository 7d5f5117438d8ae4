"""The phrases of a body: terminals of the grammar, and what was taken out of the body beside them."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

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
    over: bool = False  # "over 3 sts"
    all_in: bool = False  # "sc, hdc, dc all in next st"
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
    again: bool = False  # "(sc, inc) repeat 6 times": mostly six times in all
    number: tuple[int, int] | None = None
    trails: bool = False  # dots that may mean "and so on", or nothing at all


@dataclass(slots=True)
class CueClause:
    """An asking inside a course."""

    kind: CueKind
    start: int
    end: int
    leads: bool = False  # though it stands behind stitches, it is done before them
    joins: bool = False  # it is done in the slip stitch that closes the round


# "sc inc", "hdc dec": one stitch, or a plain one and what shapes behind it
MAYBE_TWO = {"inc": ("sc", "inc"), "dec": ("sc", "dec"), "hdc inc": ("hdc", "inc"), "hdc2tog": ("hdc", "dec")}


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
    all_but: bool = False  # "sc in every st but the last": what stands behind goes into no more than those it keeps
    counts_as: bool | None = None  # what the text says of its turning chain
    elsewhere: bool = False  # stitches of another piece are worked into
    through: bool = False  # ... and those of this course along with them
    layers: bool = False  # two layers at once
    over_part: bool = False  # "join the arm with 4 sc": a few of its stitches go through another part as well
    both_sides: bool = False  # both sides of the chain between two pieces
    into_spaces: str = ""  # whether spaces are worked into: "", "spaces", "both", or their single "chains"
    unclosed: bool = False  # a bracket was opened and never closed
    measured: tuple[int, int] | None = None  # "until piece measures 5 cm": so many rounds as it takes
    respelt: list[tuple[int, int, str]] = field(default_factory=list)  # a misspelt word, and what it was read as
    shades_ahead: bool | None = None  # colors in brackets between stitches: taken for those behind them, or not
    sizes: bool = False  # it gives numbers for several sizes, of which the first is read
    trails: bool = False  # it ends in dots, as if there were more to say
    ones_and_twos: bool = False  # "1, 2 around": numbers alone, each of them into one stitch
    joins_top: bool = False  # "join to top of ch-3": its chain is a stitch
    counted_chains: bool = False  # "counting each ch-1 as a stitch"
    asides: list[tuple[int, int]] = field(default_factory=list)
