"""The outline of one piece in mm: slack or stuffed, round, oval or flat."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

from hookside.shape import solids
from hookside.shape.fabric import Fabric
from hookside.shape.gauge import Gauge
from hookside.shape.slack import slack
from hookside.shape.stuffed import stuffed

HOOPS = 1.04  # stuffing stretches a hoop's stitches by about this (a guess; the spread of a stuffed size covers it)
STRETCH = 0.04  # and so much the size may be off by it, as a share
DISC = 2.0  # a piece this many times wider than deep is a disc, and is not pressed flat into a tube


@dataclass(frozen=True, slots=True)
class Outline:
    """All in mm, mm2, mm3. `r`, `z`: the hoops from start to end, one for each course behind the start.

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
    return _flat(piece, gauge) if piece.kind == "flat" else _round(piece, gauge)


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


def _round(piece: Fabric, gauge: Gauge) -> Outline:
    straight = piece.straight * gauge.width
    counts = np.array([piece.start, *(band.stitches for band in piece.bands)], dtype=float)
    radii = np.maximum(0.0, counts * gauge.width - 2 * straight) / (2 * np.pi)
    if not piece.start:
        radii[0] = 0.0
    rises = np.array([band.height * gauge.height for band in piece.bands])
    openings = [_across(n, gauge.width) for n in counts[1:]]
    if piece.closed:
        radii, rises = np.append(radii, 0.0), np.append(rises, rises[-1])
    said = list(piece.said)
    # A closed piece whose text says nothing of stuffing is taken as stuffed; an open one is taken as it hangs.
    fills = piece.stuffed if piece.stuffed is not None else piece.closed and not piece.start and len(piece.bands) > 3
    bare = slack(radii, rises)
    ruffled = tuple(sorted({i - 1 for i in bare.ruffled if 1 <= i <= len(piece.bands)}))
    if fills:
        full = stuffed(radii * HOOPS, rises, straight)
        r, z, stretch = full.r, full.z, STRETCH
        if not full.settled:
            said.append("The stuffed outline has not come to rest: take its size as a rough guess.")
            stretch = 3 * STRETCH
        if piece.stuffed is None:
            said.append("The text says nothing of stuffing; the piece closes, so it is measured stuffed.")
    else:
        r, z, stretch = bare.r, bare.z, 0.0
    height = float(np.max(z) - np.min(z))
    widest = int(np.argmax(r[1 : len(piece.bands) + 1]))
    depth = 2 * float(np.max(r))
    width = depth + straight
    flat = not fills and not straight and height > 0 and width < DISC * height
    if flat:  # a tube or bag that nothing fills lies flat: half of each hoop wide
        width, depth, height = np.pi * float(np.max(r)), 0.0, float(np.sum(rises[: len(piece.bands)]))
    return Outline(
        r=tuple(float(v) for v in r),
        z=tuple(float(v) for v in z),
        straight=straight,
        height=height if height > 0 else min(gauge.height, gauge.width) / 2,
        width=width,
        depth=depth,
        widest=widest,
        openings=tuple(openings),
        surface=solids.surface(r, z, straight),
        volume=solids.volume(r, z, straight) if fills else 0.0,
        stretch=stretch,
        lies_flat=flat,
        said=tuple(said),
        ruffled=ruffled,
    )


def _across(stitches: float, width: float) -> float:
    """Diameter of an opening of so many stitches, mm."""
    return float(stitches * width / np.pi)
