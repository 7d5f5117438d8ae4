"""A piece as fabric: one band for each course, how many stitches it has and how high it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Literal

from hookside.layers import flat
from hookside.pattern import Course, Group, Node, Piece, Repeat
from hookside.shape.chains import bows, hung, spans
from hookside.shape.corners import SQUARE, corners
from hookside.shape.gauge import ROW, TURNED, height_factor
from hookside.stitches import TABLE
from hookside.unstuffed import NOT_STUFFED

Kind = Literal["round", "flat", "oval", "none"]
# How the text has the finished piece laid double, its open end pressed flat, or its edge drawn together.
Fold = Literal["half", "flat", "gathered"]
SMALL_RING = 12  # stitches: a start with no more than these is a closed tip, whatever it was worked into
AGREE = 0.3  # share by which a round about a rectangle may differ from its edge: row ends take a stitch each, or fewer
ROUND = 0.8  # share of the round below from which rows go all the way round, but for a slit (a guess)
LITTLE_HOLE = 9  # stitches: a last round that is drawn shut has hardly more

Stance = Literal["stands", "hangs", "lies", "cushion"]
_STANCES: tuple[tuple[Stance, str], ...] = (
    ("lies", r"pot ?holders?|hot ?pads?|coasters?|trivets?|(?:place)?mats?|rugs?|doil(?:y|ies)|scrubb(?:y|ies)"
     r"|\w*cloths?"),
    ("hangs", r"hats?|beanies?|caps?|bonnets?|bags?|pouch(?:es)?|purses?|sacks?|socks?|mitt(?:en)?s?|sleeves?|cowls?"
     r"|cases?|ears?|fins?|flippers?|wings?|cuffs?|co[sz](?:y|ies)|warmers?"),
    ("cushion", r"(?<!pin )(?:pillows?|cushions?)"),
    ("stands", r"baskets?|bowls?|buckets?|tubs?|pots?|planters?|trays?|dish(?:es)?|box(?:es)?|nests?|holders?|cups?"),
)  # fmt: skip
BOWS = (
    "Courses of long chains are measured as bows that hang from what holds them, each chain as wide as a stitch: lace "
    "stretches, so take its size lightly."
)
RIBBED = 0.3  # share of stitches round posts from which a piece is called ribbed (a guess)
RIBS = "Many of its stitches go round posts: such ribs draw in and stretch, so take its width lightly."
UNREAD = "Its {course} is not read: it is taken for an open edge of {edge} stitches."
UNFOLDED = "It is measured before it is folded."
_FOLDS = re.compile(r"\bfold(?:ed|ing)?\b(?! line)", re.IGNORECASE)
_GATHERS = re.compile(r"\b(?:gather(?:ed)?|pinch(?:ed)?|pleat(?:ed)?)\b", re.IGNORECASE)
_NAMES = tuple((stance, re.compile(rf"\b(?:{names})\b", re.IGNORECASE)) for stance, names in _STANCES)


@dataclass(frozen=True, slots=True)
class Band:
    """One course. `stitches` of its upper edge; `height` in single crochets; `sure`: its count is known; `net`: it is
    of long chains."""

    id: str
    label: str
    stitches: int
    height: float
    sure: bool = True
    net: bool = False


@dataclass(frozen=True, slots=True)
class Flap:
    """Rows among rounds: from and to which course, by their labels, their stitches, their height in rows of single
    crochet, and the stitches of the round they stand on (`begins`: that goes on from them). Over less than all of it
    they hang from it as a flap; over all of it they leave a slit."""

    first: str
    last: str
    stitches: int
    height: float
    on: int
    begins: bool = False

    @property
    def all_round(self) -> bool:
        return self.stitches >= ROUND * self.on and (not self.begins or self.on >= ROUND * self.stitches)


@dataclass(frozen=True, slots=True)
class Fabric:
    """A piece, in stitches. Shapes:

    round   worked in rounds about an axis
    oval    rounds about a chain: `straight` stitch widths of it lie along each side
    flat    rows
    none    nothing that could be measured (a chain, sewing up)

    `start`: stitches of the edge the first course is worked into, 0 for a closed tip. `closed`: the last round is
    drawn shut. `stuffed`: None where the text says neither yes nor no. `stance`: whether what nothing fills stands like
    a basket, hangs or is laid flat like a bag, or lies like a mat, by its name; None where the name does not tell. A
    cushion is told by it, too.
    `base`: rows at its start, about whose edge its rounds go. `ribbed`: many of its stitches go round posts.
    `flaps`: rows among its rounds. `corners`: columns in which its increases stand above one another, 0 where they do
    not; 4: a square or rectangle.
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
    folded: Fold | None = None
    said: tuple[str, ...] = ()  # what is not measured, or guessed, as sentences
    base: int = 0
    ribbed: bool = False
    flaps: tuple[Flap, ...] = ()

    @property
    def fills(self) -> bool:
        """Whether it is measured stuffed: as the text says, else where it closes. An open one is taken as it hangs."""
        if self.stuffed is not None:
            return self.stuffed
        return self.closed and not self.start and len(self.bands) > 3


def fabric(piece: Piece, title: str = "") -> Fabric:
    """What a piece is made of, as far as its stitches tell. `title` of its pattern, where its own name says little."""
    found = _fabric(piece, title)
    if found.kind != "none" and _posts(piece) >= RIBBED:
        return replace(found, ribbed=True, said=(*found.said, RIBS))
    return found


def _posts(piece: Piece) -> float:
    """Share of its stitches that go round posts."""
    if not any(_has_posts(course.body) for course in piece.courses):
        return 0.0
    each = [(group, times) for course in piece.courses for group, times in groups(course.body) if group.makes]
    made = sum(times * group.makes for group, times in each)
    return sum(times * group.makes for group, times in each if group.stitch[:2] in ("FP", "BP")) / made if made else 0.0


def _has_posts(body: list[Node]) -> bool:
    return any(_has_posts(n.body) if isinstance(n, Repeat) else n.stitch[:2] in ("FP", "BP") for n in body)


def _fabric(piece: Piece, title: str) -> Fabric:
    said: list[str] = []
    courses = [c for c in piece.courses if not _only_chain(c)]
    bands = tuple(_bands(courses, said))
    if not bands:
        return Fabric(piece.name, piece.make, "none", ())
    kinds = {course.kind for course in courses}
    first = courses[0]
    if kinds == {"row"}:
        said += [UNFOLDED] * (folded(piece) is not None)
        return Fabric(piece.name, piece.make, "flat", bands, stuffed=stuffed(piece), said=tuple(said))
    stance = _stance(piece.name) or _stance(title)
    base = _base(courses, bands) if len(kinds) == 2 and stance != "hangs" and not stuffed(piece) else 0
    if base:
        walls = tuple(replace(band, stitches=_sure(bands[base:], i)) for i, band in enumerate(bands[base:]))
        bands = bands[:base] + walls
        return Fabric(piece.name, piece.make, "round", bands, corners=SQUARE, said=tuple(said), base=base)
    flaps: tuple[Flap, ...] = ()
    if len(kinds) == 2:
        walls, flaps = _without_flaps(courses, bands)
        if not walls:  # its rounds could not be read: what is known of it are rows
            return Fabric(piece.name, piece.make, "flat", bands, stuffed=stuffed(piece), said=tuple(said))
        bands = walls
    straight = _straight(first)
    start = 0
    if not straight:
        if not first.read:
            start = _edge_unread(courses)
            said += [UNREAD.format(course=f"{first.kind} {first.label}", edge=start)] * (start > 0)
        else:
            uses = first.uses or 0
            opened = uses == 0 and not _from_ring(first) and (first.makes or 0) > SMALL_RING
            start = uses or (first.makes or 0) * opened
    if flaps and flaps[0].begins and not flaps[0].all_round:
        start = bands[0].stitches  # they lie beside it: its first round is an edge of its own
    stacked, told = corners(courses, bool(straight))
    said += told
    last, widest = bands[-1].stitches, max(band.stitches for band in bands)
    fold = folded(piece)
    shut = not fold and any(cue.kind == "close" for cue in piece.cues) and last <= 2 * LITTLE_HOLE
    closed = shut or (last <= LITTLE_HOLE and widest >= 2 * last)  # narrowed to what a tail draws shut, said or not
    kind: Kind = "oval" if straight else "round"
    return Fabric(
        piece.name, piece.make, kind, bands, start, straight, closed, stuffed(piece), stance, stacked, fold,
        tuple(said), flaps=flaps,
    )  # fmt: skip


def _edge_unread(courses: list[Course]) -> int:
    """Stitches of the edge that a piece begins with whose first course is not read: more than a ring holds are that of
    what it is worked into, as its print counts them or the next course uses them; else 0, a tip."""
    known = courses[0].declared or next((course.uses for course in courses[1:] if course.read), None) or 0
    return known if known > SMALL_RING else 0


def _without_flaps(courses: list[Course], bands: tuple[Band, ...]) -> tuple[tuple[Band, ...], tuple[Flap, ...]]:
    """The bands that go round, and the rows among them. Rows over all of the round below stay as bands, and so do those
    at the beginning that the first round goes on from stitch by stitch."""
    kinds = {course.id: course.kind for course in courses}
    kept: list[Band] = []
    flaps: list[Flap] = []
    after = next((i for i, band in enumerate(bands) if kinds[band.id] == "round"), len(bands))
    for kind, run in groupby(bands, key=lambda band: kinds[band.id]):
        each = list(run)
        if kind == "round":
            kept += each
            continue
        on = kept[-1].stitches if kept else _sure(bands[after:], 0)
        wide, high = max(b.stitches for b in each), sum(b.height for b in each)
        flap = Flap(each[0].label, each[-1].label, wide, high, on, begins=not kept)
        flaps.append(flap)
        kept += each if flap.all_round else []
    return tuple(kept), tuple(flaps)


def _base(courses: list[Course], bands: tuple[Band, ...]) -> int:
    """Rows at the start of a piece whose edge the rounds that follow go about, as far as their counts agree; else 0."""
    rows = next((i for i, course in enumerate(courses) if course.kind == "round"), 0)
    if rows < 2 or len(bands) != len(courses) or any(course.kind == "row" for course in courses[rows:]):
        return 0
    wide = [band.stitches for band in bands[:rows]]
    if max(wide) - min(wide) > max(2, max(wide) // 10):
        return 0  # it is no rectangle
    edge = 2 * (max(wide) + TURNED * sum(band.height for band in bands[:rows]))
    about = _sure(bands[rows:], 0)
    return rows if abs(about - edge) <= AGREE * edge else 0


def _sure(bands: tuple[Band, ...], at: int) -> int:
    """Stitches of a band, where nobody knows them those of the next that are known: rounds about an edge are often told
    in words alone; 0 behind the last band, where no round could be read."""
    there = bands[at].stitches if at < len(bands) else 0
    return next((band.stitches for band in bands[at:] if band.sure), there)


def stitches(course: Course) -> int | None:
    """Stitches of a course's upper edge, chains that span a gap counted with them; None where nobody knows."""
    count = course.makes if course.read else course.declared
    return count + spans(course) if count and course.read else count


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
    """Whether the text has the piece stuffed; None where it does not say.

    What Hookside asks by itself, "Is it to be filled? ... the text tells no stuffing", says neither.
    """
    empty = [cue for cue in piece.cues if NOT_STUFFED.search(cue.text)]
    if any(cue.basis == "written" for cue in empty):
        return False
    return True if any(cue.kind == "stuff" and cue not in empty for cue in piece.cues) else None


def folded(piece: Piece) -> Fold | None:
    """Whether the text has the piece folded, its end pressed flat, or gathered, when it is done."""
    last = piece.courses[-1].id if piece.courses else None
    told = [cue.text for cue in piece.cues if cue.course_id == last and cue.kind not in ("fasten", "tail")]
    if any(map(flat, told)):
        return "flat"
    if any(_FOLDS.search(text) for text in told):
        return "half"
    return "gathered" if any(_GATHERS.search(text) for text in told) else None


def groups(body: list[Node], times: int = 1) -> Iterator[tuple[Group, int]]:
    """Every group of a body with how often it is worked, repeats counted through."""
    for node in body:
        if isinstance(node, Repeat):
            yield from groups(node.body, times * node.times)
        else:
            yield node, times * node.count


def _bands(courses: list[Course], said: list[str]) -> Iterator[Band]:
    before, gone = 0, 0.0  # stitches of the edge below; widths from the start
    nets = {course.id: net for course in courses if (net := bows(course))}
    if nets:
        said.append(BOWS)
    elif any(spans(course) for course in courses):
        said.append(
            "Chain spaces are measured as if each chain were as wide as a stitch: lace stretches, so it may be more."
        )
    for course in courses:
        net = nets.get(course.id)
        count = stitches(course)
        sure = net is not None or (count is not None and count > 0)
        if not sure:
            said.append(f"The count of {course.kind} {course.label} is not known: it is measured like the one before.")
            count = before
        height = _height(course)
        if net is not None:
            edge, deep = hung(before or net.number * net.chains, gone, net, course.kind == "round")
            count, height = round(edge), deep / ROW
        assert count is not None
        if count:
            before, gone = count, gone + ROW * height
            yield Band(course.id, course.label, count, height, sure, net is not None)


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
    # "on the other side of the ch" is that of a chain between parts that are joined: no oval (joining.py).
    sides = [i for i, (group, _) in enumerate(parts) if group.into and "other side" in group.into]
    back = next((i for i in sides if not (parts[i][0].into or "").startswith("on the other side of the ch")), None)
    if back is None or course.uses:
        return 0.0
    into = sum(times for group, times in parts[:back] if group.makes)
    return float(max(0, into - 1))
