"""What the numbers of a pattern imply, as the page and the command line show it."""

from __future__ import annotations

from pydantic import Field

from hookside.pattern import Record


class Spread(Record):
    """A worked-out figure: the likely value and how far off it may well be."""

    value: float
    low: float
    high: float


class YarnSpread(Spread):
    """Metres, tails with it. `by_colour`: likely metres; "" is the colour of a text that names none."""

    by_colour: dict[str, float] = Field(default_factory=dict)


class Joined(Record):
    """A piece together with those it goes on from, the tallest of them below it."""

    names: list[str]
    height_mm: Spread


class PieceMeasures(Record):
    """One copy of a piece, off the hook. Lengths in mm.

    height       along its axis; of rows, along the rows' sides
    width        the greatest; half of the round where the piece lies flat and empty
    openings_mm  across the opening after each course, one for each course of the piece; of rows, their width;
                 None where a course has none (a chain)
    profile_mm   radius (or half a row's width, or half a square's side) and height of each hoop, from the start
    said         what could not be measured or was guessed, as sentences
    """

    name: str
    make: int
    height_mm: Spread
    width_mm: Spread
    depth_mm: float
    widest_at: str  # the course: "round 7"
    surface_cm2: float
    volume_cm3: Spread
    stuffing_g: Spread  # low: light, high: firm
    yarn_m: YarnSpread
    openings_mm: list[float | None]
    lies_flat: bool
    ruffled_at: list[str] = Field(default_factory=list)
    profile_mm: list[tuple[float, float]] = Field(default_factory=list)
    straight_mm: float = 0.0
    corners: int = 0  # of a disc whose increases stand above one another; 4: a square, or a rectangle with straight_mm
    joined: Joined | None = None
    said: list[str] = Field(default_factory=list)


class Whole(Record):
    """The toy as it stands, put together as far as the text tells where its parts go. `of`: the parts counted."""

    height_mm: Spread
    of: list[str]
    said: list[str]


class Fabric(Record):
    """The fabric all of it was measured with."""

    stitch_mm: float
    row_mm: float
    spread: float  # share
    kind: str  # where it comes from: swatch, pattern, size, both (hook and yarn), yarn, hook, guess


class Measures(Record):
    """All pieces that have a shape, then what they take together with all copies."""

    pieces: list[PieceMeasures]
    whole: Whole | None = None
    fabric: Fabric
    yarn_m: YarnSpread  # all copies, with tails
    yarn_g: Spread | None = None  # where the yarn's metres for 100 g are known
    stuffing_g: Spread
    basis: list[str]
    warnings: list[str] = Field(default_factory=list)
