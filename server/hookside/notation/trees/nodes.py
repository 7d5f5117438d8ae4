"""What a tree is made of: stitches, repeats, several stitches in one place, marks; and the choice between meanings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from hookside.notation.bodies.chunks import Chunk, Times

MOST_REPEATS = 500
MOST_NESTED = 8
MOST_STITCHES = 2000


@dataclass(slots=True)
class Work:
    """`n` times `per` stitches in one place; `fill`: as often as it goes, `last` places kept back."""

    key: str
    n: int = 1
    per: int = 1
    base: str = "next"  # next, same, ring, hook, space
    hook: int = 0
    fill: bool = False
    last: int = 0
    loops: str | None = None
    colour: str | None = None
    start: int = 0
    end: int = 0
    number: tuple[int, int] | None = None
    times: int | None = None  # a multiplier printed behind it, which may have been meant for more than it
    spread: bool = False  # "around" behind a stitch that already has its place
    bare: bool = False
    noun: str = ""
    alone: bool = False  # a stitch without amount or place
    evenly: int = 0  # so many of it with plain stitches between
    result: int = 0  # as many of it as bring the course to so many stitches
    places: int = 1  # spaces it goes into
    order: int = 0  # "in the third st": its number, counted from the start of its list
    one_place: str = ""  # its words name one stitch to go into: "one", or "all" where several are told to
    placed: bool = False  # its words name a place
    first: bool = False  # it goes into the first stitch
    tip: bool = False  # it goes into the last stitch
    led: bool = False  # its place stands before it
    layers: int = 1  # of the round below that each of them goes through


@dataclass(slots=True)
class Rep:
    """Nodes again and again."""

    body: list[Node]
    times: int = 1
    fill: bool = False
    last: int = 0
    nth: bool = False  # "inc in every 3rd st": the plain stitches between are only meant
    uses: int | None = None
    base: str = "next"
    loops: str | None = None
    colour: str | None = None
    start: int = 0
    end: int = 0
    number: tuple[int, int] | None = None


@dataclass(slots=True)
class One:
    """Several stitches in one place, `n` places."""

    body: list[Node]
    n: int = 1
    fill: bool = False
    last: int = 0
    base: str = "next"
    hook: int = 0
    loops: str | None = None
    colour: str | None = None
    noun: str = ""  # of the place: a space is no stitch


@dataclass(slots=True)
class Skip:
    n: int
    behind: bool = False  # "the next", which is behind what a chain at the start stands on
    gaps: int = 0  # chain spaces passed over: as many of the stitches below as these are


@dataclass(slots=True)
class Mark:
    """ring, join, turn, "other side", "closed ring"; `how` "either": a join that may be a stitch."""

    name: str
    how: str | None = None


@dataclass(slots=True)
class Tone:
    """From here on: loops or colour."""

    loops: str | None = None
    colour: str | None = None
    sets_loops: bool = False


@dataclass(slots=True)
class CueAt:
    index: int


@dataclass(slots=True)
class Choice:
    """One of several meanings; `why` names the double meaning."""

    options: list[list[Node]]
    why: str
    index: int = -1


Node = Work | Rep | One | Skip | Mark | Tone | CueAt | Choice
# Asked of every node over and over: a tuple that is there is three times as quick as a union made at each asking
WORKING = (Work, Rep, One)  # what works stitches
PLACED = (Work, One)  # ... at one place
GROUPS = (Rep, One)  # ... in a bracket
SILENT = (Mark, Tone, CueAt)  # what works none
BESIDE = (CueAt, Tone)  # ... and is no mark on the way


# -- what only a list of items holds, until it is folded ---------------------------------------------------------------
@dataclass(slots=True)
class StarOpen:
    pass


@dataclass(slots=True)
class StarClose:
    modifiers: list[Chunk]


@dataclass(slots=True)
class Again:
    times: Times
    star: bool


@dataclass(slots=True)
class And:
    """ "and" between two stitches: they may share the place behind the second."""


Item = Node | StarOpen | StarClose | Again | And


@dataclass(slots=True)
class Tree:
    """A body as a tree. `choices[i].index == i`."""

    items: list[Node] = field(default_factory=list)
    choices: list[Choice] = field(default_factory=list)
    failed: str = ""
    known: dict[str, Any] = field(default_factory=dict, init=False, repr=False, compare=False)  # `trees/asked`


def is_lead(node: Node) -> bool:
    """What stands before the stitches of a course and is not repeated with them."""
    if isinstance(node, Mark):
        return node.name != "other side"
    if isinstance(node, Choice):
        return node.why == "join or stitch"
    return isinstance(node, BESIDE) or (isinstance(node, Work) and node.key == "ch" and node.n <= 4)


def leads_over(node: Node, then: Node) -> bool:
    """Is it a chain that leads over as many stitches, which are skipped? It goes around with them."""
    return isinstance(node, Work) and node.key == "ch" and isinstance(then, Skip) and node.n == then.n > 0


def works_in(nodes: list[Node]) -> Iterator[Work]:
    for node in nodes:
        if isinstance(node, Work):
            yield node
        elif isinstance(node, Choice):
            for option in node.options:
                yield from works_in(option)


DOUBTS = ("one stitch or two", "two stitches or one")  # "sc inc": its two names, or a plain one and an increase


def flat(nodes: list[Node]) -> Iterator[Node]:
    for node in nodes:
        if isinstance(node, Choice):
            for option in node.options:
                yield from flat(option)
        else:
            yield node
