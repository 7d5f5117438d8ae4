"""The outline of one piece in mm: slack or stuffed, round, oval or flat."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np

from hookside.shape import solids
from hookside.shape.corners import SQUARE
from hookside.shape.fabric import UNFOLDED, Fabric, Flap
from hookside.shape.gauge import Gauge
from hookside.shape.lying import is_disc, lying
from hookside.shape.slack import Slack, slack
from hookside.shape.solids import Array
from hookside.shape.stuffed import stuffed

HOOPS = 1.02  # stuffing stretches a hoop's stitches by about this (a guess; makers' sizes are those of their gauge)
STRETCH = 0.04  # and so much the size may be off by it, as a share
DISC = 2.0  # a piece this many times wider than deep is a disc, and is not pressed flat into a tube
AT_ODDS = 0.05  # share of its size by which stitches and rounds must disagree about a disc before that is said
NARROW = 15.0  # mm: stuffing is pushed through no neck that is narrower (the blunt end of a hook goes in, and no more)
NECK = 0.8  # of what lies on either side of it: what is narrower than that is a neck (a guess)
SPRINGY = 0.15  # the same of ribs round posts: of two printed ones one is 16 % narrower than its gauge, one 27 % wider
LACE = 0.25  # the same of bows of long chains, which hang as they like (a guess)
LENS = 0.7  # a stuffed cushion thicker than that, as a share of its width, is a ball or a bolster: two discs are 0.6
FOOT = 0.8  # a flat base at least so wide, as a share of the widest round, is something to stand on
SLIM = 1.25  # and what is more than so many times higher than wide is laid down


@dataclass(frozen=True, slots=True)
class Outline:
    """All in mm, mm2, mm3. `r`, `z`: the hoops from start to end, one for each course behind the start; of a box half a
    side for `r`.

    `height` along the axis (of a flat piece: along its rows), `width` the greatest, `depth` across an oval or of a
    piece that lies flat 0. `widest`: index of the band with the greatest width. `openings`: across, after each course.
    """

    r: tuple[float, ...]
    z: tuple[float, ...]
    straight: float
    height: float
    width: float
    depth: float
    widest: int
    openings: tuple[float, ...]
    surface: float
    volume: float
    stretch: float  # share by which stretching makes the size unsure
    lies_flat: bool
    said: tuple[str, ...] = ()
    ruffled: tuple[int, ...] = field(default=())  # bands


@lru_cache(maxsize=256)
def outline(piece: Fabric, gauge: Gauge) -> Outline:
    """The outline of a piece that has bands; ValueError where it has none."""
    if not piece.bands:
        raise ValueError("nothing to measure")
    found = (_walled if piece.base else _flat if piece.kind == "flat" else _round)(piece, gauge)
    return replace(found, stretch=max(found.stretch, SPRINGY)) if piece.ribbed else found


def _flat(piece: Fabric, gauge: Gauge) -> Outline:
    widths = [band.stitches * gauge.width for band in piece.bands]
    rises = [band.height * gauge.row for band in piece.bands]
    widest = int(np.argmax(widths))
    z = np.concatenate([[0.0], np.cumsum(rises)])
    return Outline(
        r=tuple([widths[0] / 2, *(w / 2 for w in widths)]),
        z=tuple(float(v) for v in z),
        straight=0.0,
        height=float(z[-1]),
        width=widths[widest],
        depth=0.0,
        widest=widest,
        openings=tuple(widths),
        surface=float(np.dot(widths, rises)),
        volume=0.0,
        stretch=0.0,
        lies_flat=True,
    )


def _walled(piece: Fabric, gauge: Gauge) -> Outline:
    """A rectangle of rows with walls of rounds about it, standing: sides a and b, walls of an edge 2 (a + b)."""
    rows, rounds = piece.bands[: piece.base], piece.bands[piece.base :]
    across = max(band.stitches for band in rows) * gauge.width
    along = sum(band.height for band in rows) * gauge.row
    straight, rim = abs(across - along), min(across, along) / 2
    floor = np.linspace(0.0, rim, piece.base + 1)
    edges = np.array([band.stitches * gauge.width for band in rounds])
    rises = np.array([band.height * gauge.height for band in rounds])
    wall = slack(np.concatenate([[rim], np.maximum(0.0, edges - 2 * straight) / 8]), rises)
    r, z = np.concatenate([floor[:-1], wall.r]), np.concatenate([np.zeros(piece.base), wall.z])
    widest = float(np.max(r))
    gap = 1 - min(rim, float(wall.r[-1])) / max(rim, float(wall.r[-1]))
    told = (
        f"Its rows make a base of {_cm(max(across, along))} by {_cm(min(across, along))}, and its rounds stand about "
        "that; it is measured the long way."
    )
    return Outline(
        r=tuple(float(v) for v in r),
        z=tuple(float(v) for v in z),
        straight=straight,
        height=max(float(np.ptp(z)), gauge.height / 2),
        width=2 * widest + straight,
        depth=2 * widest,
        widest=max(0, int(np.argmax(r)) - 1),
        openings=(*(band.stitches * gauge.width for band in rows), *(float(edge / np.pi) for edge in edges)),
        surface=across * along + solids.surface(wall.r, wall.z, straight, box=True),
        volume=0.0,
        stretch=gap,
        lies_flat=False,
        said=(*piece.said, told),
    )


def _round(piece: Fabric, gauge: Gauge) -> Outline:
    straight, box = piece.straight * gauge.width, piece.corners == SQUARE and not piece.fills
    around = 8 if box else 2 * np.pi  # edge of a hoop, for a radius (of a square: half a side) of 1
    counts = np.array([piece.start, *(band.stitches for band in piece.bands)], dtype=float)
    radii = np.maximum(0.0, counts * gauge.width - 2 * straight) / around
    if not piece.start:
        radii[0] = 0.0
    rises = np.array([band.height * gauge.height for band in piece.bands])
    openings = [float(n * gauge.width / (around / 2 if box and not straight else np.pi)) for n in counts[1:]]
    if piece.closed:
        radii, rises = np.append(radii, 0.0), np.append(rises, rises[-1])
    said = [*piece.said, *(_beside(flap, gauge) for flap in piece.flaps)]
    bare = slack(radii, rises)
    fin = _fin(piece, radii)
    ruffled, cupped = (
        tuple(i - 1 for i in hoops if 1 <= i <= len(piece.bands)) for hoops in (bare.ruffled, bare.cupped)
    )
    if cupped and not piece.fills:
        rounds = ", ".join(piece.bands[i].label for i in cupped)
        said.append(f"It cups at {rounds}: fewer stitches than lie flat.")
    if piece.fills:
        r, z, stretch = _filled(piece, radii[:fin], rises[: fin - 1], straight, said)
    elif not piece.closed and (piece.stance == "lies" or is_disc(radii, rises)):
        r, z = lying(radii, rises), np.zeros_like(radii)
        by_stitches, by_rows = (2 * float(of) + straight for of in (radii[-1], radii[0] + np.sum(rises)))
        stretch = abs(by_stitches - by_rows) / (4 * float(r[-1]))
        if stretch > AT_ODDS:
            said.append(
                f"By its stitches it would be {_cm(by_stitches)} across, by its rounds {_cm(by_rows)}: it is measured "
                "lying flat, where both give a little."
            )
    else:
        r, z, stretch = bare.r, bare.z, 0.0
    surface = solids.surface(r, z, straight, box)
    holds = solids.volume(r, z, straight) if piece.fills else 0.0
    if fin < len(radii):
        behind = rises[fin - 1 :]
        surface += float(np.dot(np.pi * (radii[fin - 1 : -1] + radii[fin:]), behind))
        r, z = np.append(r, np.pi / 2 * radii[fin:]), np.append(z, z[-1] + np.cumsum(behind))
        name = piece.bands[fin - 2].label
        said.append(
            f"What comes behind its neck at round {name} is pressed flat, so it is measured as a fin, not stuffed."
        )
    flat = False
    if not piece.fills and np.ptp(z) > 0:
        widest_edge = around * float(np.max(radii)) + 2 * straight
        foot = _foot(radii, rises) if not piece.closed else 0
        stood = _standing(radii, rises, foot) if foot else None
        if stood is not None and _is_stood(piece, stood, foot, straight):
            r, z = stood.r, stood.z
            said.append(_other("lying flat", widest_edge / 2, float(np.sum(rises)), "It is measured standing"))
            rim = float(np.max(r))
            stretch = 1 - float(r[foot]) / rim  # its base may hold the walls in, or they may pull the base out
            if stretch > 3 * AT_ODDS:
                said.append(
                    f"Its base lies flat at about {_cm(2 * float(r[foot]) + straight)} across, and its walls have "
                    f"stitches for {_cm(2 * rim + straight)}: it may be anything between."
                )
        else:
            tube = piece.start > 0 and piece.stance != "stands"  # it has no base that could hold it open
            flat = tube or 2 * float(np.max(r)) + straight < DISC * float(np.ptp(z))
    height = float(np.max(z) - np.min(z))
    widest = int(np.argmax(r[1 : len(piece.bands) + 1]))
    depth = 2 * float(np.max(r))
    width = depth + straight
    if piece.fills and piece.stance == "cushion" and 0 < height < LENS * depth:
        case = 2 * float(np.max(lying(radii[: widest + 2], rises[: widest + 1]))) + straight
        said.append(
            f"Cushions are sold by the size of their case laid flat, and so it is measured; filled it is about "
            f"{_cm(width)} across and {_cm(height)} thick."
        )
        width = max(width, case)
    if flat:  # a tube or bag that nothing fills lies flat: half of each hoop wide
        if not piece.closed:
            said.append(_other("opened out", width, height, "It is measured lying flat"))
        width, depth, height = widest_edge / 2, 0.0, float(np.sum(rises[: len(piece.bands)]))
    elif box and not straight:
        said.append(f"It is measured along a side; from corner to corner it is about {_cm(width * np.sqrt(2))}.")
    elif straight and not piece.fills:
        said.append(f"It is measured the long way; the other way it is about {_cm(depth)}.")
    said += _when_folded(piece, openings[-1] * np.pi, width, flat, bool(np.ptp(z) == 0))
    if any(band.net for band in piece.bands):
        stretch = max(stretch, LACE)
    return Outline(
        r=tuple(float(v) for v in r),
        z=tuple(float(v) for v in z),
        straight=straight,
        height=height if height > 0 else min(gauge.height, gauge.width) / 2,
        width=width,
        depth=depth,
        widest=widest,
        openings=tuple(openings),
        surface=surface,
        volume=holds,
        stretch=stretch,
        lies_flat=flat,
        said=tuple(said),
        ruffled=ruffled,
    )


def _filled(piece: Fabric, radii: Array, rises: Array, straight: float, said: list[str]) -> tuple[Array, Array, float]:
    full = stuffed(radii * HOOPS, rises, straight)
    stretch = STRETCH
    if not full.settled:
        said.append("The stuffed outline has not come to rest: take its size as a rough guess.")
        stretch = 3 * STRETCH
    if piece.stuffed is None:
        said.append("The text says nothing of stuffing; the piece closes, so it is measured stuffed.")
    return full.r, full.z, stretch


def _fin(piece: Fabric, radii: Array) -> int:
    """Hoops of a stuffed piece before those that lie flat: all of them, but where its end is pressed flat behind a neck
    that no stuffing passes. A flat hoop is half its edge wide."""
    if not piece.fills or piece.closed or piece.folded not in ("flat", "half"):
        return len(radii)
    inner = range(2, len(radii) - 1)
    necks = [i for i in inner if radii[i] < NECK * min(np.max(radii[:i]), np.max(radii[i + 1 :]))]
    at = min(necks, key=lambda i: float(radii[i]), default=None)
    return len(radii) if at is None or 2 * radii[at] >= NARROW else at + 1


def _beside(flap: Flap, gauge: Gauge) -> str:
    """What is said of rows among rounds."""
    rows = f"Rows {flap.first} to {flap.last}" if flap.first != flap.last else f"Row {flap.first}"
    long = flap.height * gauge.row
    if flap.all_round:
        return f"{rows} go all the way round and leave a slit of about {_cm(long)}: they are measured as rounds."
    wide = _cm(flap.stitches * gauge.width)
    if flap.begins:
        return (
            f"{rows} make a flat part about {wide} wide and {_cm(long)} long; it is measured from its first round on."
        )
    return (
        f"{rows} go over {flap.stitches} of {flap.on} stitches: a flap about {wide} wide and {_cm(long)} long, which "
        "stands out beside what is measured here."
    )


def _when_folded(piece: Fabric, edge: float, width: float, flat: bool, disc: bool) -> list[str]:
    """What becomes of it when it is folded: `edge` its open end, mm around."""
    if piece.folded is None or piece.fills or piece.closed or (piece.folded == "flat" and flat):
        return []  # nothing is folded, or it is measured so
    if piece.folded == "half" and disc:
        return [f"Folded in half it is about {_cm(width)} wide and {_cm(width / 2)} high."]
    if piece.folded == "half" and flat:
        return [
            f"Its open edge, pressed flat, is about {_cm(edge / 2)} wide, and folded in half {_cm(edge / 4)}; it is "
            "measured before it is folded."
        ]
    return ["It is measured before its edge is gathered." if piece.folded == "gathered" else UNFOLDED]


def _foot(radii: Array, rises: Array) -> int:
    """Hoops of a flat base, the start not counted: as far as the rounds widen as a disc does. 0: there is none."""
    if radii[0] > 0:
        return 0  # it is open at both ends
    last = int(np.argmax(radii >= np.max(radii) * (1 - 1e-9)))
    for end in range(last, 1, -1):
        if is_disc(radii[: end + 1], rises[:end]):
            return end
    return 0


def _standing(radii: Array, rises: Array, foot: int) -> Slack:
    """The piece on a table: its base pressed flat by it, its walls up from the rim of that."""
    base = lying(radii[: foot + 1], rises[:foot])
    wall = slack(np.concatenate([base[-1:], radii[foot + 1 :]]), rises[foot:])
    nothing = np.zeros_like(base[:-1])
    return Slack(
        np.concatenate([base[:-1], wall.r]), np.concatenate([nothing, wall.z]), np.concatenate([nothing, wall.over])
    )


def _is_stood(piece: Fabric, stood: Slack, foot: int, straight: float) -> bool:
    if piece.stance is not None:
        return piece.stance == "stands"
    wide = float(np.max(stood.r))
    return float(stood.r[foot]) >= FOOT * wide and float(np.ptp(stood.z)) <= SLIM * (2 * wide + straight)


def _other(how: str, width: float, height: float, measured: str) -> str:
    return f"{measured}; {how} it is about {_cm(width)} across and {_cm(height)} high."


def _cm(mm: float) -> str:
    """In the unit that stands beside it on the page: "1.6 cm"."""
    return f"{round(mm / 10, 1):g} cm"
