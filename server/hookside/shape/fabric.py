"""A piece as fabric: one band for each course, how many stitches it has and how high it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from hookside.pattern import Course, Group, Node, Piece, Repeat
from hookside.shape.gauge import height_factor
from hookside.stitches import TABLE

Kind = Literal["round", "flat", "oval", "none"]
SMALL_RING = 12  # stitches: a start with no more than these is a closed tip, whatever it was worked into
LITTLE_HOLE = 9  # stitches: a last round that is drawn shut has hardly more
LONG_CHAIN = 4  # chains in a row that lie along their round, each about as wide as a stitch; more of them hang in a bow

Stance = Literal["stands", "hangs", "lies"]
_STANCES: tuple[tuple[Stance, str], ...] = (
    ("lies", r"pot ?holders?|hot ?pads?|coasters?|trivets?|(?:place)?mats?|rugs?|doil(?:y|ies)|scrubb(?:y|ies)"
     r"|\w*cloths?"),
    ("hangs", r"hats?|beanies?|caps?|bonnets?|bags?|pouch(?:es)?|purses?|sacks?|socks?|mitt(?:en)?s?|sleeves?|cowls?"
     r"|cases?|ears?|fins?|flippers?|wings?|cuffs?|co[sz](?:y|ies)|warmers?"),
    ("stands", r"baskets?|bowls?|buckets?|tubs?|pots?|planters?|trays?|dish(?:es)?|box(?:es)?|nests?|holders?|cups?"),
)  # fmt: skip
_NAMES = tuple((stance, re.compile(rf"\b(?:{names})\b", re.IGNORECASE)) for stance, names in _STANCES)


@dataclass(frozen=True, slots=True)
class Band:
    """One course. `stitches` of its upper edge; `height` in single crochets; `sure`: its count is known."""

    id: str
    label: str
    stitches: int
    height: float
    sure: bool = True


@dataclass(frozen=True, slots=True)
class Fabric:
    """A piece, in stitches. Shapes:

    round   worked in rounds about an axis
    oval    rounds about a chain: `straight` stitch widths of it lie along each side
    flat    rows
    none    nothing that could be measured (a chain, sewing up)

    `start`: stitches of the edge the first course is worked into, 0 for a closed tip. `closed`: the last round is
    drawn shut. `stuffed`: None where the text says neither yes nor no. `stance`: whether what nothing fills stands like
    a basket, hangs or is laid flat like a bag, or lies like a mat, by its name; None where the name does not tell.
    `corners`: columns in which its increases stand above one another, 0 where they do not.
    """

    name: str
    make: int
    kind: Kind
    bands: tuple[Band, ...]
    start: int = 0
    straight: float = 0.0
    closed: bool = False
    stuffed: bool | None = None
    stance: Stance | None = None
    corners: int = 0
    said: tuple[str, ...] = ()  # what is not measured, or guessed, as sentences

    @property
    def fills(self) -> bool:
        """Whether it is measured stuffed: as the text says, else where it closes. An open one is taken as it hangs."""
        if self.stuffed is not None:
            return self.stuffed
        return self.closed and not self.start and len(self.bands) > 3


def fabric(piece: Piece, title: str = "") -> Fabric:
    """What a piece is made of, as far as its stitches tell. `title` of its pattern, where its own name says little."""
    said: list[str] = []
    courses = [c for c in piece.courses if not _only_chain(c)]
    bands = tuple(_bands(courses, said))
    if not bands:
        return Fabric(piece.name, piece.make, "none", ())
    kinds = {course.kind for course in courses}
    first = courses[0]
    if kinds == {"row"}:
        return Fabric(piece.name, piece.make, "flat", bands, stuffed=stuffed(piece), said=tuple(said))
    if len(kinds) == 2:
        said.append("Rounds and rows stand in one piece: all are measured as rounds, so take its size lightly.")
    straight = _straight(first)
    start = 0
    if not straight:
        uses = first.uses or 0
        opened = uses == 0 and not _from_ring(first) and (first.makes or 0) > SMALL_RING
        start = uses or (first.makes or 0) * opened
    corners, told = _stacked(courses)
    said += told
    last, widest = bands[-1].stitches, max(band.stitches for band in bands)
    shut = any(cue.kind == "close" for cue in piece.cues) and last <= 2 * LITTLE_HOLE
    closed = shut or (last <= LITTLE_HOLE and widest >= 2 * last)  # narrowed to what a tail draws shut, said or not
    kind: Kind = "oval" if straight else "round"
    stance = _stance(piece.name) or _stance(title)
    return Fabric(
        piece.name, piece.make, kind, bands, start, straight, closed, stuffed(piece), stance, corners, tuple(said)
    )


def stitches(course: Course) -> int | None:
    """Stitches of a course's upper edge, chains that span a gap counted with them; None where nobody knows."""
    count = course.makes if course.read else course.declared
    return count + spans(course) if count and course.read else count


def spans(course: Course) -> int:
    """Chains of a course that lie along it between its stitches: not those that begin it, turn it or hang from it."""
    return sum(chains * times for chains, times in _between(course) if chains <= LONG_CHAIN)


def _between(course: Course) -> Iterator[tuple[int, int]]:
    """Each run of chains between two stitches, as its length and how often it comes."""
    worked = list(groups(course.body))
    begun, i = False, 0
    while i < len(worked):
        group, times = worked[i]
        i += 1
        if group.stitch != "ch" or group.makes:
            begun = begun or (group.makes > 0 and group.stitch != "sl st")
            continue
        chains = group.count
        while i < len(worked) and worked[i][0].stitch == "ch" and not worked[i][0].makes:
            chains += worked[i][0].count
            i += 1
        after = worked[i][0] if i < len(worked) else None
        turns = after.stitch == "turn" if after else times == group.count  # at a row's end; a repeat comes round again
        hangs = after is not None and after.stitch == "sl st" and not after.uses
        if begun and not turns and not hangs and worked[i - 2 if i > 1 else 0][0].stitch != "join":
            yield chains, times // max(1, group.count)


def _stance(name: str) -> Stance | None:
    return next((stance for stance, names in _NAMES if names.search(name)), None)


def usual_height(pieces: list[Fabric]) -> float:
    """Height of a pattern's stitches in single crochets, as most of them are: what a gauge that names none is for."""
    stood = sorted((band.height, band.stitches) for piece in pieces for band in piece.bands)
    half = sum(n for _, n in stood) / 2
    seen = 0
    for at, (height, n) in enumerate(stood):
        seen += n
        if seen == half:  # as many lower as higher: rows that take turns
            return (height + stood[at + 1][0]) / 2
        if seen > half:
            return height
    return 1.0


def stuffed(piece: Piece) -> bool | None:
    """Whether the text has the piece stuffed; None where it does not say."""
    if any("not stuff" in cue.text.lower() or "n't stuff" in cue.text.lower() for cue in piece.cues):
        return False
    return True if any(cue.kind == "stuff" for cue in piece.cues) else None


def groups(body: list[Node], times: int = 1) -> Iterator[tuple[Group, int]]:
    """Every group of a body with how often it is worked, repeats counted through."""
    for node in body:
        if isinstance(node, Repeat):
            yield from groups(node.body, times * node.times)
        else:
            yield node, times * node.count


def _stacked(courses: list[Course]) -> tuple[int, list[str]]:
    """Columns in which increases stand above one another in three rounds or more, and what is said of it: what lies
    flat there gets corners. A hexagon of the same edge measures 5 % more from corner to corner than the circle, and 9 %
    less from side to side (its edge in six: nw/3 and 0.289 nw, the circle nw/pi)."""
    run: list[Course] = []
    columns = 0
    for course in courses:
        here = _columns(course)
        if here and (not run or here == columns):
            run, columns = [*run, course], here
        elif len(run) >= 3:
            break
        else:
            run, columns = ([course], here) if here else ([], 0)
    if len(run) < 3:
        return 0, []
    corners = {5: "a pentagon", 6: "a hexagon", 7: "a heptagon", 8: "an octagon"}.get(columns, f"{columns} corners")
    told = (
        f"The increases of rounds {run[0].label} to {run[-1].label} stand above one another in {columns} columns: "
        f"lying flat they make {corners}; stuffing rounds it."
    )
    return columns, [told]


def _columns(course: Course) -> int:
    """Columns of increases of a round that repeats plain stitches and then one increase; 0 for another."""
    body = [node for node in course.body if not (isinstance(node, Group) and node.makes == 0)]
    if len(body) != 1 or not isinstance(body[0], Repeat) or body[0].times < 5:
        return 0
    inner = body[0].body
    ends = isinstance(inner[-1], Group) and inner[-1].makes > inner[-1].uses > 0 and inner[-1].count == 1
    plain = all(isinstance(node, Group) and node.makes == node.uses for node in inner[:-1])
    return body[0].times if len(inner) > 1 and ends and plain else 0


def _bands(courses: list[Course], said: list[str]) -> Iterator[Band]:
    before = 0
    if any(chains > LONG_CHAIN for course in courses for chains, _ in _between(course)):
        said.append("Chains of 5 and more hang in bows: they are not measured.")
    elif any(spans(course) for course in courses):
        said.append(
            "Chain spaces are measured as if each chain were as wide as a stitch: lace stretches, so it may be more."
        )
    for course in courses:
        count = stitches(course)
        sure = count is not None and count > 0
        if not sure:
            said.append(f"The count of {course.kind} {course.label} is not known: it is measured like the one before.")
            count = before
        assert count is not None
        if count:
            before = count
            yield Band(course.id, course.label, count, _height(course), sure)


def _height(course: Course) -> float:
    """Mean height of a course's stitches, in single crochets; chains and turns do not count."""
    high = made = 0.0
    for group, times in groups(course.body):
        entry = TABLE.get(group.stitch)
        if entry is not None and group.makes:
            chains = group.steps if group.stitch == "ch" else entry.height  # chains that count as a stitch are as tall
            high += times * group.makes * height_factor(chains)
            made += times * group.makes
    return high / made if made else 1.0


def _only_chain(course: Course) -> bool:
    worked = [group for group, _ in groups(course.body)]
    return bool(worked) and all(group.stitch in ("ch", "join", "turn") for group in worked)


def _from_ring(course: Course) -> bool:
    return any(group.stitch == "ring" or group.into == "ring" for group, _ in groups(course.body))


def _straight(course: Course) -> float:
    """Stitch widths of the straight side of a round worked about a chain; 0 where it is none.

    The chain's two ends are the centres of the half circles, so k chains worked into lie k - 1 widths apart.
    """
    parts = list(groups(course.body))
    back = next((i for i, (group, _) in enumerate(parts) if group.into and "other side" in group.into), None)
    if back is None or course.uses:
        return 0.0
    into = sum(times for group, times in parts[:back] if group.makes)
    return float(max(0, into - 1))
