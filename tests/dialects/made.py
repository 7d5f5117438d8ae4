"""Whole patterns of one's own making, whose stitches are known before a word of them is written.

A course is a row of parts: so many plain stitches, so many changes (an increase is two in one stitch, a decrease two
worked as one), or parts worked again and again. `used` and `left` add them up; nothing here knows how any of it is
printed, and nothing here is taken from the reader.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from typing import Literal

Kind = Literal["inc", "dec"]


@dataclass(frozen=True)
class Plain:
    """`n` plain stitches, one in each."""

    n: int


@dataclass(frozen=True)
class Change:
    """`n` increases or decreases, one behind the other."""

    kind: Kind
    n: int = 1


@dataclass(frozen=True)
class Again:
    """`parts`, `times` times."""

    parts: tuple[Plain | Change, ...]
    times: int


Part = Plain | Change | Again


def used(parts: tuple[Part, ...]) -> int:
    """Stitches of the course below that the parts work into."""
    return _counted(parts, inc=1, dec=2)


def left(parts: tuple[Part, ...]) -> int:
    """Stitches that the parts leave to be worked into."""
    return _counted(parts, inc=2, dec=1)


def _counted(parts: tuple[Part, ...], inc: int, dec: int) -> int:
    total = 0
    for part in parts:
        if isinstance(part, Again):
            total += part.times * _counted(part.parts, inc, dec)
        elif isinstance(part, Plain):
            total += part.n
        else:
            total += part.n * (inc if part.kind == "inc" else dec)
    return total


@dataclass
class Course:
    """`how` says where it comes from: a start, an even course or a shaped one; `loops` which loops, "" is both."""

    number: int
    how: Literal["ring", "oval", "chain", "even", "shaped"]
    parts: tuple[Part, ...]
    uses: int | None
    makes: int
    loops: Literal["", "back", "front"] = ""
    tints: tuple[tuple[int, str], ...] = ()  # stitches and their colours, where an even course has two
    echo: tuple[int, int] | None = None  # the courses, from and to, that this one belongs to a repetition of
    misprint: int = 0  # how far the printed count is off, where one is printed


@dataclass
class Job:
    """Something for the hands behind a course (0: before the first)."""

    after: int
    kind: str
    about: str = ""


@dataclass
class Piece:
    name: str
    make: int
    flat: bool
    courses: list[Course] = field(default_factory=list)
    jobs: list[Job] = field(default_factory=list)


@dataclass
class Whole:
    title: str
    pieces: list[Piece]


NAMES = (
    "Body", "Head", "Hull", "Float", "Mast", "Keel", "Wing", "Flipper", "Tail", "Lamp", "Arm", "Leg", "Collar",
    "Beak", "Ear", "Sail", "Pennant", "Fin", "Chimney", "Deck", "Rudder", "Cap",
)  # fmt: skip
TITLES = ("Harbour Buoy", "Grey Seal", "Little Dory", "Gull Chick", "Kelp Frond", "Storm Lantern", "Pilot Cutter")
FLAT = ("Sail", "Pennant", "Wing", "Fin")


def _even(there: int) -> tuple[Part, ...]:
    return (Plain(there),)


def _shaped(there: int, kind: Kind, chance: random.Random) -> tuple[Part, ...] | None:
    """A shaped course on `there` stitches, or None where nothing of this kind fits."""
    takes = 1 if kind == "inc" else 2
    times = chance.choice([n for n in (2, 3, 4, 5, 6, 6, 6, 7, 8, there // 6, there // takes) if n >= 2] or [0])
    if times < 2 or there < times * takes or (kind == "inc" and there + times > 72):
        return None
    between = there // times - takes
    rest = there - times * (between + takes)
    change = Change(kind)
    form = chance.choice(["last", "last", "last", "last", "first", "halved", "panel", "two"])
    if not between:
        body: tuple[Part, ...] = (Again((change,), times),)
    elif form == "first":
        body = (Again((change, Plain(between)), times),)
    elif form == "halved" and between >= 2 and times >= 3:
        half = between // 2
        body = (Plain(half), change, Again((Plain(between), change), times - 1), Plain(between - half))
    elif form == "panel" and there >= times * takes + 6:
        side = max(1, times // 2)
        plain = there - 2 * side * takes
        third = plain // 3
        return (
            Plain(third), Change(kind, side), Plain(plain - 2 * third), Change(kind, side), Plain(third),
        )  # fmt: skip
    elif form == "two" and times >= 4 and times % 2 == 0 and rest:
        once = Again((Plain(between), change), times // 2)
        return (once, Plain(rest), once)
    else:
        body = (Again((Plain(between), change), times),)
    if not rest:
        return body
    lead = chance.choice([0, 0, rest, rest // 2])
    front: tuple[Part, ...] = (Plain(lead),) if lead else ()
    if front and isinstance(body[0], Plain):
        front, body = (), (Plain(body[0].n + lead), *body[1:])
    back = rest - lead
    if back and isinstance(body[-1], Plain):
        return front + body[:-1] + (Plain(body[-1].n + back),)
    return front + body + ((Plain(back),) if back else ())


def _round_piece(name: str, make: int, chance: random.Random) -> Piece:
    piece = Piece(name, make, flat=False)
    how: Literal["ring", "oval"] = "oval" if chance.random() < 0.12 else "ring"
    if how == "oval":
        chain = chance.randint(5, 10)
        there = 2 * chain
        # from the second chain: chain-2 plain, three in the last, chain-3 back along the other side, two in the last
        piece.courses.append(Course(1, "oval", (Plain(chain),), None, there))
    else:
        there = chance.choice([5, 6, 6, 6, 6, 7, 8])
        piece.courses.append(Course(1, "ring", (Plain(there),), 0, there))
    most = chance.choice([12, 18, 24, 30, 36])
    plan: list[str] = []
    height = there
    while height < most and len(plan) < 5:
        plan.append("inc")
        height += 6
        if chance.random() < 0.2:
            plan.append("even")
    plan += ["even"] * chance.choice([0, 1, 2, 3, 4, 6])
    if chance.random() < 0.65:
        for _ in range(chance.randint(1, 4)):
            plan.append("dec")
            plan += ["even"] * chance.choice([0, 0, 0, 1, 2])
    for what in plan:
        number = len(piece.courses) + 1
        parts = None if what == "even" else _shaped(there, "inc" if what == "inc" else "dec", chance)
        if parts is None or used(parts) != there or left(parts) < 3:
            loops: Literal["", "back", "front"] = ""
            if chance.random() < 0.08:
                loops = chance.choice(["back", "front"])
            piece.courses.append(Course(number, "even", _even(there), there, there, loops))
        else:
            piece.courses.append(Course(number, "shaped", parts, there, left(parts)))
            there = left(parts)
    return piece


def _flat_piece(name: str, make: int, chance: random.Random) -> Piece:
    piece = Piece(name, make, flat=True)
    there = chance.randint(6, 18)
    piece.courses.append(Course(1, "chain", (Plain(there),), None, there))
    if chance.random() < 0.3:
        # a ridge and a plain row, again and again
        for number in range(2, 4 + 2 * chance.randint(1, 3)):
            loops: Literal["", "back"] = "back" if number % 2 == 0 else ""
            piece.courses.append(
                Course(number, "even", _even(there), there, there, loops, echo=(2, 3) if number > 3 else None)
            )
        return piece
    for _ in range(chance.randint(3, 8)):
        number = len(piece.courses) + 1
        what = chance.choice(["even", "even", "dec", "inc"])
        if what == "even" or there < 6 or (what == "inc" and there > 24):
            piece.courses.append(Course(number, "even", _even(there), there, there))
            continue
        kind: Kind = "inc" if what == "inc" else "dec"
        edge = Change(kind)
        plain = there - 2 * used((edge,))
        parts: tuple[Part, ...] = (edge, Plain(plain), edge) if plain and chance.random() < 0.7 else ()
        if not parts:
            parts = (edge, Plain(there - used((edge,))))
        piece.courses.append(Course(number, "shaped", parts, there, left(parts)))
        there = left(parts)
    return piece


def _jobs(piece: Piece, last: bool, chance: random.Random) -> None:
    """Things for the hands, where a maker would be told them."""
    courses = piece.courses
    if not piece.flat:
        shut = [c.number for c in courses if c.makes < (c.uses or 0)]
        if shut and shut[0] > 2 and chance.random() < 0.6:
            piece.jobs.append(Job(shut[0] - 1, "stuff"))
        if len(courses) > 6 and chance.random() < 0.15:
            piece.jobs.append(Job(len(courses) - 2, "eyes", f"{len(courses) - 4} and {len(courses) - 3}"))
    if len(courses) > 4 and chance.random() < 0.25:
        piece.jobs.append(Job(chance.randint(2, len(courses) - 2), "colour", chance.choice(["blue", "white", "red"])))
    if last or chance.random() < 0.95:
        piece.jobs.append(Job(len(courses), "fasten"))
    piece.jobs.sort(key=lambda j: j.after)
    for course in courses:
        if course.how == "even" and course.makes >= 12 and not course.loops and chance.random() < 0.03:
            first = chance.randint(3, course.makes - 4)
            course.tints = ((first, "white"), (course.makes - first, "red"))
    if chance.random() < 0.04 and len(courses) > 4:
        chance.choice([c for c in courses[1:-1] if c.echo is None]).misprint = chance.choice([-2, -1, 1, 2])


def pattern(chance: random.Random) -> Whole:
    """A pattern of two to four pieces, some thirty courses."""
    names = chance.sample(NAMES, chance.randint(2, 4))
    pieces = []
    for n, name in enumerate(names):
        make = chance.choice([2, 2, 3, 4]) if n and chance.random() < 0.4 else 1
        flat = name in FLAT and chance.random() < 0.8
        piece = (_flat_piece if flat else _round_piece)(name, make, chance)
        _jobs(piece, n == len(names) - 1, chance)
        pieces.append(piece)
    for piece in pieces:
        below: int | None = None
        for course in piece.courses:
            if course.how in ("even", "shaped"):
                assert used(course.parts) == course.uses == below, (piece.name, course)
                assert left(course.parts) == course.makes
            below = course.makes
    return Whole(chance.choice(TITLES), pieces)
