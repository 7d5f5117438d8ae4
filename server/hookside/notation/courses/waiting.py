"""What waits to be summed: a course with its body read as far as it can be without knowing what is below it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any, Literal

from hookside.notation.arithmetic.choosing import Chosen
from hookside.notation.arithmetic.stitches import into_chain
from hookside.notation.bodies.chunks import Phrases
from hookside.notation.labels.label import CourseKind
from hookside.notation.lines.layout import RawCourse
from hookside.notation.trees.asked import every, once
from hookside.notation.trees.nodes import (
    PLACED,
    SILENT,
    WORKING,
    Mark,
    Node,
    One,
    Rep,
    Skip,
    Tone,
    Tree,
    Work,
)
from hookside.pattern import CueKind


@dataclass(slots=True)
class Parsed:
    """A body, read as far as it can be without knowing what is below it."""

    phrases: Phrases
    tree: Tree
    body: str = ""  # its words, in the cleaned page; positions in `phrases` count from its start
    shapes: bool | None = None  # does any stitch of it shape, where that was asked
    on: dict[tuple[int, int | None], Chosen] = field(default_factory=dict)  # readings by stitches there, printed count
    kept: dict[tuple[object, ...], Any] = field(default_factory=dict, init=False)  # its mends, by the ground
    told: bool = False  # in a sentence without the names of stitches, which only its count or the stitches bear out
    others: list[Parsed] = field(default_factory=list)  # what else such a sentence may mean


@dataclass(slots=True)
class Waiting:
    """One course still to be summed."""

    label: int
    kind: CourseKind
    start: int
    end: int
    at: int  # where the label starts: the finding's line
    raw: RawCourse
    parsed: Parsed | None
    declared: int | None = None
    declared_at: tuple[int, int] | None = None
    first_of: bool = True  # of the courses that share this body
    last_of: bool = True
    borrowed: bool = False  # the body stands at another course
    failed: str = ""
    what: str = ""
    text: str = ""
    until: int | None = None
    foundation: bool = False  # only chains: its steps belong to the next course
    skipped: list[tuple[int, int]] = field(default_factory=list)  # words passed over, in the body
    source: str = ""  # what a borrowed body is taken from: "round 6", "round 3 of Left fin"
    printed: int | None = None  # the count of the whole reference, which is this course's where it makes just that
    plain: Parsed | None = None  # "same" behind a round that shapes: the plain round that it may mean instead
    upon: int = 0  # the label of the course whose loops it goes into, where that is not the one below
    in_kind: bool = False  # every stitch goes into its like, so that the body is that of the course below
    slips: tuple[int, int, Parsed] | None = None  # words of slip stitches that end the piece; its body without them
    own_count: bool = False  # of a range that prints a count for each of its courses: this is the count of this one
    same: str = ""  # what such a "same" was taken for, where nothing tells: "again" or "plain"
    along: frozenset[CueKind] = frozenset()  # borrowed of a part that this one is like: jobs in its words that hold


@dataclass(frozen=True, slots=True)
class Part:
    """A piece that is done, once for each of its copies. `sure`: its last count is confirmed, or follows from such."""

    slug: str
    makes: int | None  # of its last course
    kind: CourseKind
    sure: bool = True


@dataclass(slots=True)
class Before:
    """The last course of the piece before: its label, its stitches, the copies of its piece and what that is called.

    `counts`: the stitches of all courses so far, by number, as long as the numbers go on from piece to piece.
    """

    label: int
    makes: int | None
    make: int
    name: str
    counts: dict[int, int | None]


def name_of(label: int, kind: CourseKind) -> str:
    """ "round 4"; a course without a number is the first one."""
    return f"{kind} {label}" if label else f"the first {kind}"


def title_of(todo: Waiting) -> str:
    """ "Round 4", at the start of a sentence."""
    name = name_of(todo.label, todo.kind)
    return name[:1].upper() + name[1:]


def slug(name: str) -> str:
    """ "Left fin" -> "left-fin"."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "piece"


def trim(text: str, start: int, end: int) -> tuple[int, int]:
    while start < end and text[start] in " \n:-.=,":
        if text[start] == "-" and text[start + 1 : start + 2].isdecimal():
            break
        start += 1
    while end > start and text[end - 1].isspace():
        end -= 1
    return start, end


def ringed(parsed: Parsed) -> bool:
    """Does a body tell of a ring, or of the chains from the hook, so that it goes into what it makes itself?"""
    return _ringed(parsed.tree)


@once
def _ringed(tree: Tree) -> bool:
    told = any(isinstance(n, Mark) and n.name == "ring" for n in every(tree))
    return told or any(isinstance(n, PLACED) and n.base in ("hook", "ring") for n in every(tree))


def works(parsed: Parsed) -> bool:
    return _works(parsed.tree)


@once
def _works(tree: Tree) -> bool:
    for node in tree.items:  # most bodies begin with what works: what hides in a choice is looked for last
        if isinstance(node, WORKING):
            return True
    return any(isinstance(n, WORKING) for n in every(tree))


def stretches(parsed: Parsed) -> bool:
    """Does anything in it go on for as long as there is something to go into?"""
    return _stretches(parsed.tree)


@once
def _stretches(tree: Tree) -> bool:
    return any(isinstance(n, WORKING) and n.fill for n in every(tree))


def in_ring(parsed: Parsed) -> Parsed:
    """The same course in a ring that was told before it: "Make a magic ring. / Rnd 1: ch 2, 7 hdc"."""
    if ringed(parsed):
        return parsed
    tree = Tree([Mark("ring"), *parsed.tree.items], parsed.tree.choices, parsed.tree.failed)
    return Parsed(parsed.phrases, tree, parsed.body)


def in_loops(parsed: Parsed, side: Literal["back", "front"]) -> Parsed:
    """The same course in these loops, told beside it: "R4-9: sc, R6 in back loops only"."""
    tree = Tree([Tone(side, sets_loops=True), *parsed.tree.items], parsed.tree.choices, parsed.tree.failed)
    return Parsed(parsed.phrases, tree, parsed.body)


def lone(parsed: Parsed) -> bool:
    """Is the whole course one stitch without a number or a place?"""
    worked = [n for n in parsed.tree.items if isinstance(n, Work)]
    return len(worked) == 1 and worked[0].alone and worked[0].fill


_AGAIN_AND_AGAIN = 3  # a shaping that goes all the way round is told for so many rounds at most
_IN_BRACKET = re.compile(r"[(\[]\s*(?:x ?\d+|\d+ ?(?:x|times)|[a-z]+ times)\s*[)\]]", re.I)


def told_shapings(parsed: Parsed) -> int:
    """ "Decrease all the way round (6 times)": six in one. -> by how many it grows; 0: not told."""
    first = next((n for n in parsed.tree.items if not isinstance(n, SILENT)), None)
    if not isinstance(first, Work) or not first.fill or not first.times or first.key not in ("inc", "dec", "inv dec"):
        return 0
    if first.times <= _AGAIN_AND_AGAIN and not _IN_BRACKET.search(parsed.body):
        return 0
    return first.times if first.key == "inc" else -first.times


def rounds_told(parsed: Parsed) -> int:
    """ "sc around 3 times", "sc around, then sc around again": so many rounds in one sentence."""
    works = [n for n in parsed.tree.items if not isinstance(n, SILENT)]
    first = works[0] if works else None
    if told_shapings(parsed):
        return 1
    if not isinstance(first, Work) or first.base != "next" or not first.fill or first.last or first.per > 1:
        return 1
    if parsed.phrases.unknown:
        return 1
    alike = all(isinstance(n, Work) and n.fill and not n.last and (n.key, n.per) == (first.key, 1) for n in works)
    rounds = [n for n in works if isinstance(n, Work) and n.base == "next" and not into_chain(n)]
    return sum(n.times or 1 for n in rounds) if alike else 1  # "sc around, 1 sc in each ch": one, chains and all


def once_round(tree: Tree) -> Tree:
    """The first of the rounds of such a sentence."""
    first = next(n for n in tree.items if isinstance(n, Work))
    return Tree([n for n in tree.items if n is first or not isinstance(n, Work)])


def numbers(parsed: Parsed) -> list[int]:
    """Every amount and multiplier that was read as such."""
    out: list[int] = []
    for node in every(parsed.tree):
        if isinstance(node, Rep):
            out.append(node.times)
        elif isinstance(node, PLACED):
            out.append(node.n)
    return out


def lead_chain(items: list[Node]) -> int:
    """Height of the chain that a course starts with; 0 where it starts with none."""
    for node in items:
        if isinstance(node, Work) and node.base == "travel":
            continue
        if isinstance(node, One) and node.body and isinstance(node.body[0], Work):
            return node.body[0].n if node.body[0].key == "ch" else 0
        if isinstance(node, Work):
            return node.n if node.key == "ch" else 0
        if not isinstance(node, SILENT):
            return 0
    return 0


def first_height(items: list[Node]) -> int:
    """Chains that stand for a stitch where the first ones go "in 4th ch from hook"; 0 where they go elsewhere."""
    first = next((n for n in items if isinstance(n, PLACED) and not (isinstance(n, Work) and n.key == "ch")), None)
    return first.hook - 1 if isinstance(first, PLACED) and first.base == "hook" else 0


def from_hook(parsed: Parsed) -> bool:
    """Do its words tell which chain is the first, or pass over one?"""
    told = list(every(parsed.tree))
    return any(isinstance(n, Skip) or (isinstance(n, PLACED) and (n.base == "hook" or n.hook)) for n in told)


def first_stitch(phrases: Phrases) -> int:
    for chunk in phrases.chunks:
        if chunk.type in ("ST", "OPEN", "STARO", "NB", "BARE", "SKIP", "PLACEPRE") or (
            chunk.type == "MARK" and chunk.value[0] == "ring"
        ):
            return int(chunk.start)
    return -1
