"""A pattern measured: gauge, outline, yarn, stuffing, each with its basis and spread."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from dataclasses import replace

from hookside.pattern import Cue, Pattern, Piece
from hookside.shape import amounts, yarns
from hookside.shape import fabric as fabrics
from hookside.shape.asked import Asked
from hookside.shape.errors import CannotBeMeasured
from hookside.shape.gauge import GUESSES, Gauge, by_its_size
from hookside.shape.joined import goes_on_from
from hookside.shape.measures import Fabric, Joined, Measures, PieceMeasures, Spread, YarnSpread
from hookside.shape.outline import HOOPS, outline
from hookside.shape.printed import Printed, at_odds, beside, printed
from hookside.shape.sewn import sewn
from hookside.shape.standing import standing, tall
from hookside.shape.working import eyes_in_proportion, materials_of, worked_with

SURE = 0.02  # share: nobody's round is alike to the next
FAR = 1.2  # times the spread of a guess: a printed size that asks for more is the size of something else (a guess)
UNLIKE = 0.25  # share from which a gauge and the size beside it are said to disagree (a guess)


def measure(pattern: Pattern, named: Callable[[Cue], str], asked: Asked | None = None) -> Measures:
    """Sizes, openings, yarn and stuffing of a pattern. `named` tells the colour that a cue changes to.

    CannotBeMeasured, with a sentence, for a gauge, yarn or hook that cannot be.
    """
    asked = asked or Asked()
    warnings: list[str] = []
    cloth, basis, denied = made_in(pattern, asked, warnings)
    eyes = _eyes(pattern, cloth) if asked.gauge or asked.yarn or asked.hook else []
    basis = [*basis[:1], *denied, *basis[1:], *eyes]
    return _measured(pattern, named, asked, cloth, basis, warnings)[0]


def _eyes(pattern: Pattern, cloth: Gauge) -> list[str]:
    try:
        return eyes_in_proportion(pattern, cloth, made_in(pattern, Asked())[0])
    except CannotBeMeasured:
        return []


def made_in(pattern: Pattern, asked: Asked, warnings: list[str] | None = None) -> tuple[Gauge, list[str], list[str]]:
    """The fabric that a pattern is measured in, where it comes from, and what is said of a printed size that denies it.

    Where nothing is known of the fabric but hook and yarn, and the text says how large it comes out, its stitches are
    those that make it so. That takes a pattern with its cues worked out: stuffing may stand nowhere else. `warnings`
    are added to. CannotBeMeasured, with a sentence, for a gauge, yarn or hook that cannot be.
    """
    cloth, basis = worked_with(pattern, asked, warnings)
    size = None if asked.gauge or asked.yarn or asked.hook else printed(pattern)
    if size is None:
        return cloth, basis, []
    found, high = _measured(pattern, lambda cue: "", asked, cloth, [], [])
    worked_out = _worked_out(size, found, high)
    if not worked_out:
        return cloth, basis, [_UNUSED.format(quote=size.quote)]
    if cloth.kind not in GUESSES:
        return cloth, basis, [beside(size, worked_out, max(cloth.spread, UNLIKE), "its gauge")]
    if told := at_odds(size, worked_out, FAR * cloth.spread, "what is known of its hook and yarn"):
        return cloth, basis, told
    cloth = by_its_size(cloth, size.quote, size.mm / worked_out)
    return cloth, [cloth.basis], []


def _worked_out(size: Printed, found: Measures, high: float | None) -> float | None:
    """What was worked out for the length that the text prints, mm; None where it is not plain of what that is."""
    only = found.pieces[0] if len(found.pieces) == 1 else None
    if size.axis == "high" or only is None:
        return high if size.axis == "high" else None
    wide = only.width_mm.value
    return wide if size.axis == "wide" else max(wide, only.height_mm.value)


def _measured(
    pattern: Pattern, named: Callable[[Cue], str], asked: Asked, cloth: Gauge, basis: list[str], warnings: list[str]
) -> tuple[Measures, float | None]:
    """All of it in that fabric; and how high the thing is, mm, where that is known."""
    terms = pattern.terms
    use = amounts.used(asked.used, cloth.width, terms) if asked.used else amounts.guessed(terms)
    pieces, colour = [], ""
    metres: dict[str, float] = defaultdict(float)
    widths = tails = 0.0
    joined, at = goes_on_from(pattern), dict[int, PieceMeasures]()
    shapes = [fabrics.fabric(piece, pattern.title) for piece in pattern.pieces]
    with_it = {n for whole, parts in joined.items() if shapes[whole].fills for n in parts}  # stuffed from the whole
    taken: list[amounts.Yarn] = []
    for piece in pattern.pieces:
        taken.append(amounts.yarn(piece, named, colour))
        colour = next(iter(taken[-1].colours), colour)
    spelling = amounts.one_spelling([name for takes in taken for name in takes.colours])
    for number, piece in enumerate(pattern.pieces):
        shape = shapes[number]
        if number in with_it and shape.stuffed is None:
            shape = replace(shape, stuffed=True)
        takes = taken[number].spelled(spelling)
        if shape.kind == "none" and not takes.widths:
            continue
        made = _piece(piece, shape, cloth, takes, use)
        if shape.kind != "none":
            at[number] = made = _with_parts(made, [at[n] for n in joined.get(number, []) if n in at])
        pieces.append(made)
        for name, mm in made.yarn_m.by_colour.items():
            metres[name] += piece.make * mm
        widths += piece.make * sum(takes.widths.values())
        tails += piece.make * sum(takes.tails.values())
    together = sewn(pattern, at)
    if together is not None:
        body = at[together.body]
        pieces = [p.model_copy(update={"said": [together.said, *p.said]}) if p is body else p for p in pieces]
    yarn = _yarn(widths, tails, use, cloth, dict(metres))
    filled = [(p.stuffing_g, p.make) for p in pieces]
    stuffing = Spread(**{k: _round(sum(getattr(s, k) * n for s, n in filled)) for k in ("value", "low", "high")})
    grams, about = _grams(pattern, asked, yarn)
    found = Measures(
        pieces=pieces,
        whole=standing(pattern, at, together),
        fabric=Fabric(stitch_mm=_round(cloth.width), row_mm=_round(cloth.height), spread=cloth.spread, kind=cloth.kind),
        yarn_m=yarn,
        yarn_g=grams,
        stuffing_g=stuffing,
        basis=[
            *basis,
            *([_HOOPS] if stuffing.value else []),
            use.basis,
            *about,
            *([_STUFFING] if stuffing.value else []),
        ],
        warnings=warnings,
    )
    return found, tall(pattern, at, together)


_UNUSED = (
    "The pattern says “{quote}”. Nothing is made of that here: it is not plain which of the pieces it measures, or how "
    "they are put together."
)
_HOOPS = f"Stuffed pieces: stuffing is taken to stretch the rounds by {round((HOOPS - 1) * 100)} %, a guess."
_STUFFING = "Stuffing: 0.02 to 0.035 g for a cubic centimetre when light, 0.045 to 0.08 when firm; guesses."


def _piece(piece: Piece, of: fabrics.Fabric, cloth: Gauge, takes: amounts.Yarn, use: amounts.Use) -> PieceMeasures:
    by_colour = takes.mm(use.value, cloth.width)
    yarn = _yarn(
        sum(takes.widths.values()),
        sum(takes.tails.values()),
        use,
        cloth,
        {colour: mm / 1000 for colour, mm in by_colour.items()},
    )
    if of.kind == "none":
        nothing = Spread(value=0, low=0, high=0)
        return PieceMeasures(
            name=piece.name, make=piece.make, height_mm=nothing, width_mm=nothing, depth_mm=0, widest_at="",
            surface_cm2=0, volume_cm3=nothing, stuffing_g=nothing, yarn_m=yarn,
            openings_mm=[None] * len(piece.courses), lies_flat=True,
            said=["It has no rounds or rows that could be measured, only a chain."],
        )  # fmt: skip
    shape = outline(of, cloth)
    # They have nothing to do with one another.
    off, high = ((of**2 + shape.stretch**2) ** 0.5 + SURE for of in (cloth.spread, cloth.upright))
    bands = of.bands
    across = dict(zip((band.id for band in bands), shape.openings, strict=True))
    volume = shape.volume / 1000
    return PieceMeasures(
        name=piece.name,
        make=piece.make,
        height_mm=_spread(shape.height, high),
        width_mm=_spread(shape.width, off),
        depth_mm=_round(shape.depth),
        widest_at=_course(piece, bands[shape.widest].id),
        surface_cm2=_round(shape.surface / 100),
        volume_cm3=_spread(volume, off, 3),
        stuffing_g=Spread(
            value=_round(volume * (amounts.LIGHT[0] + amounts.FIRM[1]) / 2),
            low=_round(volume * amounts.LIGHT[0]),
            high=_round(volume * amounts.FIRM[1]),
        ),
        yarn_m=yarn,
        openings_mm=[_round(across[c.id]) if c.id in across else None for c in piece.courses],
        lies_flat=shape.lies_flat,
        ruffled_at=[bands[i].label for i in shape.ruffled if i < len(bands)],
        profile_mm=[(_round(r), _round(z)) for r, z in zip(shape.r, shape.z, strict=True)],
        straight_mm=_round(shape.straight),
        corners=0 if of.fills else of.corners,
        said=list(shape.said),
    )


def _with_parts(made: PieceMeasures, parts: list[PieceMeasures]) -> PieceMeasures:
    """A piece with what it goes on from, where that is measured."""
    if not parts:
        return made
    below = max((part.joined.height_mm if part.joined else part.height_mm for part in parts), key=lambda s: s.value)
    high = Spread(**{k: _round(getattr(made.height_mm, k) + getattr(below, k)) for k in ("value", "low", "high")})
    names = list(dict.fromkeys(part.name for part in parts))
    told = f"It goes on from {' and '.join(names)}: together about {round(high.value / 10, 1):g} cm high."
    return made.model_copy(
        update={"joined": Joined(names=names, height_mm=high), "said": [told, *made.said]},
    )


def _course(piece: Piece, id: str) -> str:
    return next((f"{course.kind} {course.label}" for course in piece.courses if course.id == id), "")


def _yarn(widths: float, tails: float, use: amounts.Use, cloth: Gauge, by_colour: dict[str, float]) -> YarnSpread:
    """Metres of `widths` table widths of work and `tails` mm."""

    def metres(of: float, k: float) -> float:
        return (of / amounts.TABLE_SC * cloth.width * k * widths + tails) / 1000

    return YarnSpread(
        value=_round(metres(use.value, 1)),
        low=_round(metres(use.low, 1 - cloth.spread)),
        high=_round(metres(use.high, 1 / (1 - cloth.spread))),
        by_colour={colour: _round(m) for colour, m in by_colour.items()},
    )


def _grams(pattern: Pattern, asked: Asked, yarn: YarnSpread) -> tuple[Spread | None, list[str]]:
    """Grams of all the yarn, where a gram's length is known, and the sentence that says from where."""
    lines = [asked.yarn] if asked.yarn else materials_of(pattern)
    band = next((m for line in lines if (m := yarns.metres_per_100_g(line))), None)
    if band is not None:
        basis = f"Grams: 100 g are {band:.0f} m by the yarn's band."
    else:
        weight = next((w for line in lines if (w := yarns.weight(line))), None)
        if weight is None:
            return None, []
        band = weight.metres
        basis = f"Grams: 100 g of {weight.name} yarn are about {band:.0f} m (trade tables); the band knows better."
    return Spread(**{k: _round(getattr(yarn, k) / band * 100) for k in ("value", "low", "high")}), [basis]


def _spread(value: float, off: float, power: int = 1) -> Spread:
    """Hands differ by shares: what may be a third less may as well be half as much again."""
    return Spread(value=_round(value), low=_round(value * (1 - off) ** power), high=_round(value / (1 - off) ** power))


def _round(value: float) -> float:
    """To a tenth where it is large, to a hundredth of itself where it is small."""
    return round(float(value), 1) if abs(value) >= 10 else round(float(value), 3)
