"""The whole toy as it stands: its trunk, and what is sewn on above and below it.

The trunk is a body with the legs it goes on from and the head that goes on from it or is sewn to it. A part that is
sewn to a round is taken to stand straight out of the fabric there, and may lean a little: of an ear L long, at a round
whose fabric is turned from the axis by the angle a, L cos(a) lies above that round. Where the text names no place, a
part is not counted, and that is said.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import acos, cos, hypot, pi

from hookside.pattern import Cue, Pattern, Piece
from hookside.shape.measures import PieceMeasures, Spread, Whole
from hookside.shape.sewn import BODY, HEAD, OPEN, Together, cm, dip

LEAN = pi / 6  # how far a part that is sewn on may lean from straight out (a guess)
LITTLE = 1.0  # mm: what reaches no further beyond an end is no part of the height
DISC = 2.0  # a part so many times wider than high is a disc, and stands on its edge
_VERB = re.compile(r"\b(?:sew|attach|stitch|join|fasten|pin|place)\w*\b", re.IGNORECASE)
_TOP = re.compile(r"\b(?:top|crown)\b", re.IGNORECASE)
_BOTTOM = re.compile(r"\b(?:bottom|underside|underneath)\b", re.IGNORECASE)
# Of what is sewn to a round only such parts are known to stand up, or to be stood on; a tail leans as it likes.
_UP = re.compile(
    r"\b(?:ears?|antlers?|horns?|antennae?s?|antennas|combs?|crests?|tufts?|stalks?|stems?|bobbles?|pom\s?poms?)\b",
    re.IGNORECASE,
)
_DOWN = re.compile(r"\b(?:legs?|foot|feet|boots?|shoes?|paws?|hooves|hoofs?)\b", re.IGNORECASE)
_LAID_ON = re.compile(
    r"\b(?:belly|tummy|stomach|chest|patch(?:es)?|spots?|soles?|face|beard|hair|mouth)\b", re.IGNORECASE
)
_BESIDE = re.compile(r"\b(?:sides?|front|back|behind|belly|chest|cheeks?|face)\b", re.IGNORECASE)
_ROUNDS = re.compile(
    r"\b(?:rounds?|rnds?|rows?|r)\.?\s*(?P<first>\d+)(?:\s*(?:-|\u2013|to|and|&)\s*(?:rounds?|rnds?|rows?|r)?\.?\s*"
    r"(?P<last>\d+))?",
    re.IGNORECASE,
)
_CLAUSES = re.compile(
    r"[.;]|,\s+(?:and\s+)?(?=(?:then\s+)?(?:the|sew|attach)\b)|\band\s+(?=the\s+\w+\s+(?:to|on|at)\b)"
)


@dataclass(frozen=True, slots=True)
class Trunk:
    """`height` of it all; the piece its crown and the one its foot belongs to, by number, and whether each of those
    ends is the start of its piece. `upright`: which end is up is known, not only what the text calls top and bottom.
    `of`: what it is made of."""

    height: Spread
    top: int
    top_is_start: bool
    foot: int
    foot_is_start: bool
    of: tuple[str, ...]
    upright: bool = True


@dataclass(frozen=True, slots=True)
class Reach:
    """How far a part reaches beyond an end of the trunk, mm; never less than 0."""

    low: float
    value: float
    high: float


def tall(pattern: Pattern, made: dict[int, PieceMeasures], together: Together | None) -> float | None:
    """How high the thing is, mm: the toy as it stands, its trunk, or the only piece; None where none is known."""
    whole = standing(pattern, made, together)
    if whole is not None:
        return whole.height_mm.value
    trunk = _trunk(pattern, made, together)
    if trunk is not None:
        return trunk.height.value
    return next(iter(made.values())).height_mm.value if len(made) == 1 else None


def standing(pattern: Pattern, made: dict[int, PieceMeasures], together: Together | None) -> Whole | None:
    """How high the toy stands; None where it is one piece alone, or where its trunk is not known. `made` by number."""
    trunk = _trunk(pattern, made, together)
    if trunk is None or made[trunk.top].volume_cm3.value == 0:
        return None  # what nothing fills does not stand: a hat, a bag
    low, value, high = 0.0, trunk.height.value, 0.0
    counted, said, left = list(trunk.of), [], []
    ends: dict[bool, list[Reach]] = {True: [], False: []}
    for number, piece in enumerate(pattern.pieces):
        if number not in made or piece.name in trunk.of or not piece.name:
            continue
        found = _sewn_on(pattern, made, trunk, number)
        if found is None:
            left.append(piece.name)
            continue
        up, reach, where = found
        if reach.value < LITTLE:
            left.append(piece.name)
            continue
        ends[up].append(reach)
        counted.append(piece.name)
        side = "above the top" if up else "below"
        said.append(
            f"{piece.name}, {where}: about {cm(reach.value)} {side}, if it stands straight out; "
            f"{cm(reach.low)} to {cm(reach.high)} as it leans."
        )
    if len(counted) == 1:
        return None  # it is that piece, and its height stands there
    for reaches in filter(None, ends.values()):
        furthest = max(reaches, key=lambda reach: reach.value)
        low += max(reach.low for reach in reaches) - furthest.value
        high += max(reach.high for reach in reaches) - furthest.value
        value += furthest.value
    less, more = (getattr(trunk.height, key) / trunk.height.value for key in ("low", "high"))
    whole = Spread(value=round(value, 1), low=round((value + low) * less, 1), high=round((value + high) * more, 1))
    told = f"{_listed(counted)}: about {cm(whole.value)} high, between {cm(whole.low)} and {cm(whole.high)}."
    if left:
        said.append(f"Not counted, as the text does not put it on the top or below: {_listed(left, capital=False)}.")
    return Whole(height_mm=whole, of=counted, said=[told, *said])


# -- the trunk ---------------------------------------------------------------


def _trunk(pattern: Pattern, made: dict[int, PieceMeasures], together: Together | None) -> Trunk | None:
    if together is not None:
        if together.height is None:
            return None
        head, body = made[together.head], made[together.body]
        names = [*(body.joined.names if body.joined else []), body.name, head.name]
        return Trunk(
            together.height, together.head, not _open_start(head), together.body, _meets_at_end(body), tuple(names)
        )
    chain = [n for n, piece in made.items() if piece.joined and not _goes_on(made, piece.name)]
    if len(chain) == 1:
        top = chain[0]
        joined = made[top].joined
        assert joined is not None
        below = [n for n, piece in made.items() if piece.name in joined.names]
        names = [*_all_below(made, top), made[top].name]
        return Trunk(joined.height_mm, top, False, min(below), True, tuple(names))
    bodies = [n for n in made if BODY.search(pattern.pieces[n].name) and made[n].volume_cm3.value > 0]
    if (
        len(bodies) == 1
        and made[bodies[0]].make == 1
        and not any(HEAD.search(made[n].name) for n in made if n not in bodies)
    ):
        (body_,) = bodies
        name = made[body_].name
        first = HEAD.search(name), BODY.search(name)
        down = first[0] is not None and first[1] is not None and first[0].start() < first[1].start()
        return Trunk(made[body_].height_mm, body_, down, body_, not down, (name,), upright=first[0] is not None)
    return None


def _open_start(piece: PieceMeasures) -> bool:
    """Whether a head is worked from its neck: its start is open and its end is not."""
    return piece.profile_mm[0][0] > OPEN >= piece.profile_mm[-1][0]


def _meets_at_end(body: PieceMeasures) -> bool:
    """Whether the end of a body is where its head goes: always, but where it begins at an open neck."""
    return not _open_start(body)


def _goes_on(made: dict[int, PieceMeasures], name: str) -> bool:
    return any(piece.joined and name in piece.joined.names for piece in made.values())


def _all_below(made: dict[int, PieceMeasures], number: int) -> Iterator[str]:
    joined = made[number].joined
    for name in joined.names if joined else []:
        for n, piece in made.items():
            if piece.name == name:
                yield from _all_below(made, n)
        yield name


# -- what is sewn on ---------------------------------------------------------


def _sewn_on(
    pattern: Pattern, made: dict[int, PieceMeasures], trunk: Trunk, number: int
) -> tuple[bool, Reach, str] | None:
    """Whether a part goes up or down, how far beyond the trunk's end, and where; None where the text names no such
    place for it."""
    name = pattern.pieces[number].name
    if _LAID_ON.search(name):
        return None
    for clause in _told(pattern, pattern.pieces[number]):
        on_head, on_body = HEAD.search(clause), BODY.search(clause)
        up = on_head is not None or (on_body is None and trunk.top == trunk.foot and not _BOTTOM.search(clause))
        host, from_start = (trunk.top, trunk.top_is_start) if up else (trunk.foot, trunk.foot_is_start)
        if trunk.top == trunk.foot and _BOTTOM.search(clause):
            up, from_start = False, trunk.foot_is_start
        rounds = _ROUNDS.search(clause)
        if rounds and not (trunk.upright and (_UP if up else _DOWN).search(name)):
            return None
        if rounds:
            labels = [rounds["first"], rounds["last"] or rounds["first"]]
            spots = [at for label in labels if (at := facing(pattern.pieces[host], made[host], label, from_start))]
            if spots:
                where = f"at round {labels[0]}" if labels[0] == labels[1] else f"at rounds {labels[0]} to {labels[1]}"
                return up, reach_of(spots, _long(made[number])), where
        if _BESIDE.search(clause):
            return None
        if (_TOP if up else _BOTTOM).search(clause):
            if not up and _is_disc(made[number]):
                return None  # a sole
            profile = _from_end(made[host], from_start)
            rim = made[number].profile_mm[-1][0] if made[number].profile_mm else 0.0
            sunk = dip(profile[::-1], rim) if rim > OPEN else 0.0
            beyond = max(0.0, _long(made[number]) - sunk)
            return up, Reach(beyond * cos(LEAN), beyond, beyond), "on the top" if up else "at the bottom"
    return None


def _told(pattern: Pattern, piece: Piece) -> Iterator[str]:
    """What the text says of where a part is sewn, clause by clause, the sentence's verb before each."""
    words = re.findall(r"[a-z]+", re.sub(r"\([^)]*\)", " ", piece.name.lower()))
    if not words:
        return
    name = re.compile(rf"\b{re.escape(words[-1].removesuffix('s'))}(?:s|es)?\b", re.IGNORECASE)
    for cue in _jobs(pattern, piece):
        sewing = False
        own = any(cue is one for one in piece.cues)  # "sew to the top of the head", behind its last round
        for clause in _CLAUSES.split(cue.text):
            sewing = sewing or _VERB.search(clause) is not None
            place = name.search(clause)
            if sewing and place and not re.match(r"\W*(?:to|on|onto|at)\b", clause[: place.start()][-8:].strip()):
                yield clause[place.end() :]
            elif sewing and own and not place:
                yield clause


def _jobs(pattern: Pattern, own: Piece) -> Iterator[Cue]:
    last = own.courses[-1].id if own.courses else None
    yield from (cue for cue in own.cues if cue.course_id == last)
    for piece in pattern.pieces:
        if piece is not own:
            yield from piece.cues


def _long(part: PieceMeasures) -> float:
    """How far a part stands out: along its axis, a disc on its edge."""
    return part.width_mm.value if _is_disc(part) else part.height_mm.value


def _is_disc(part: PieceMeasures) -> bool:
    return not part.lies_flat and part.width_mm.value > DISC * part.height_mm.value


def _from_end(host: PieceMeasures, start: bool) -> list[tuple[float, float]]:
    """Radius and depth of each hoop below that end of the piece, from the end on."""
    profile = host.profile_mm if start else host.profile_mm[::-1]
    end = profile[0][1]
    return [(r, abs(z - end)) for r, z in profile]


def facing(piece: Piece, host: PieceMeasures, label: str, start: bool) -> tuple[float, float] | None:
    """Of a round: how deep it lies below the end, mm, and by which angle its fabric faces away from the axis."""
    measured = [c.label for c, mm in zip(piece.courses, host.openings_mm, strict=True) if mm is not None]
    if label not in measured:
        return None
    at = measured.index(label) + 1
    below = max(at - 1, 0), min(at + 1, len(host.profile_mm) - 1)
    (r0, z0), (r1, z1) = (host.profile_mm[i] for i in below)
    along = hypot(r1 - r0, z1 - z0) or 1.0
    outward = (r1 - r0) / along if z1 >= z0 else -(r1 - r0) / along  # towards the start, where it widens
    facing = outward if start else -outward
    ends = [z for _, z in host.profile_mm]
    depth = abs(host.profile_mm[at][1] - (ends[0] if start else ends[-1]))
    return depth, acos(max(-1.0, min(1.0, facing)))


def reach_of(spots: list[tuple[float, float]], long: float) -> Reach:
    depth = sum(depth for depth, _ in spots) / len(spots)
    angle = sum(angle for _, angle in spots) / len(spots)

    def beyond(turned: float) -> float:
        return max(0.0, long * cos(min(pi, max(0.0, turned))) - depth)

    return Reach(beyond(angle + LEAN), beyond(angle), beyond(angle - LEAN))


def _listed(names: list[str], capital: bool = True) -> str:
    each = [name.lower() for name in dict.fromkeys(names)]
    told = each[0] if len(each) == 1 else f"{', '.join(each[:-1])} and {each[-1]}"
    return f"{told[:1].upper()}{told[1:]}" if capital else told
