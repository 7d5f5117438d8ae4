"""`hookside measure` and `hookside fabric`: size, openings, yarn and stuffing, and by which fabric, for a shell."""

from __future__ import annotations

import json
from pathlib import Path

import click

from hookside.cli.files import put, stop, text_of
from hookside.cli.house import house, of_pattern, pattern_of
from hookside.cli.journal import where
from hookside.cli.out import out_option
from hookside.cli.reading import TermsName
from hookside.pattern import Terms
from hookside.shape import Asked, CannotBeMeasured, Measures, PieceMeasures, Spread


@click.command("measure", short_help="Say how large it becomes, and what yarn and stuffing it takes.")
@click.argument("file", metavar="FILE")
@click.option("--gauge", default="", metavar="WORDS", help='Your swatch, for example "20 sts and 22 rounds = 10 cm".')
@click.option("--used", default="", metavar="WORDS", help='What you unravelled, for example "20 sc used 46 cm".')
@click.option("--yarn", default="", metavar="WORDS", help='Another yarn, for example "DK" or "100 g = 320 m".')
@click.option("--hook", default="", metavar="SIZE", help='Another hook, for example "3.5 mm" or "G-6".')
@click.option("--json", "as_json", is_flag=True, help="Print the stable JSON form.")
@click.option("--full", is_flag=True, help="With --json: all that was worked out, as the page has it.")
@out_option
@click.option("--terms", type=TermsName(), metavar="US|UK", help="The terms the pattern is written in.")
def measure_(
    file: str, gauge: str, used: str, yarn: str, hook: str, as_json: bool, full: bool, out: str | None,
    terms: Terms | None,
) -> None:  # fmt: skip
    """Say what the stitches of the pattern in FILE ("-": standard input) come to: size, openings, yarn, stuffing.

    Ends with 2 when there is nothing to measure or what was said of gauge, yarn or hook can't be.
    """
    text = text_of(file)
    from hookside.compile import measured, read

    try:
        found = measured(read(text, terms), Asked(gauge=gauge, used=used, yarn=yarn, hook=hook))
    except CannotBeMeasured as e:
        stop(str(e))
    if not found.pieces:
        stop("There is nothing to measure: no round and no row could be read.")
    if as_json:
        form = found.model_dump(mode="json") if full else stable(found)
        put(json.dumps(form, ensure_ascii=False, indent=1) + "\n", out)
    else:
        put("\n".join(listing(found)) + "\n", out)


@click.command("fabric", short_help="Say or keep what you know of your fabric with a pattern on the shelf.")
@click.argument("pattern", metavar="PATTERN")
@where
@click.option("--gauge", metavar="WORDS", help='Your swatch, for example "20 sts and 22 rounds = 10 cm".')
@click.option("--used", metavar="WORDS", help='What you unravelled, for example "20 sc used 46 cm".')
@click.option("--yarn", metavar="WORDS", help='Another yarn, for example "DK" or "100 g = 320 m".')
@click.option("--hook", metavar="SIZE", help='Another hook, for example "3.5 mm" or "G-6".')
def fabric_(pattern: str, folder: Path | None, **words: str | None) -> None:
    """Keep what you know of your fabric with a PATTERN on the shelf, by id or title, for its list and the makings that
    are begun from now on; "" takes one away. Without any, say what is kept.

    Ends with 1 when it can't be measured with.
    """
    with house(folder) as ask:
        address = of_pattern(pattern_of(ask, pattern)["id"])
        found = ask("GET", f"{address}/size")
        new = {name: said for name, said in words.items() if said is not None}
        if new:
            before = dict.fromkeys(words, "") | found["said"]
            found = ask("PUT", f"{address}/fabric", before | new)
    said = [f"{name}: {found['said'][name]}" for name in words if found["said"].get(name)]
    put("\n".join([*(said or ["Nothing is kept: all as the pattern has it."]), "", *found["basis"]]) + "\n", None)


STABLE = ("name", "height_mm", "width_mm", "volume_cm3", "stuffing_g", "yarn_m", "openings_mm")


def stable(found: Measures) -> dict[str, object]:
    """The JSON form that stays as it is; what was said of a piece and warned of stands with the basis."""
    told = [f"{piece.name}: {sentence}" for piece in found.pieces for sentence in piece.said]
    whole = found.whole.said if found.whole else []
    return {
        "pieces": [piece.model_dump(mode="json", include=set(STABLE)) for piece in found.pieces],
        "basis": [*found.basis, *whole, *told, *found.warnings],
    }


def listing(found: Measures) -> list[str]:
    """The measures for a reader, piece by piece."""
    lines: list[str] = []
    for piece in found.pieces:
        lines += [*_piece(piece), ""]
    if found.whole is not None:
        lines += ["Put together", *(f"  {sentence}" for sentence in found.whole.said), ""]
    lines.append(f"Yarn for all copies, with tails: {_range(found.yarn_m, 'm')}")
    if len(found.yarn_m.by_colour) > 1:
        lines += [f"  {colour or 'no colour named'}: about {_n(m)} m" for colour, m in found.yarn_m.by_colour.items()]
    if found.yarn_g is not None:
        lines.append(f"  that is {_range(found.yarn_g, 'g')}")
    if found.stuffing_g.value:
        lines.append(f"Stuffing: {_n(found.stuffing_g.low)} g light to {_n(found.stuffing_g.high)} g firm")
    lines += ["", *found.warnings, "How this was worked out:", *(f"  {sentence}" for sentence in found.basis)]
    return lines


def _piece(piece: PieceMeasures) -> list[str]:
    copies = f" (make {piece.make})" if piece.make > 1 else ""
    lines = [f"{piece.name or 'Piece'}{copies}"]
    if piece.height_mm.value:
        lies = ", lying flat" if piece.lies_flat else ""
        lines.append(f"  height {_range(piece.height_mm, 'mm')}")
        lines.append(f"  width  {_range(piece.width_mm, 'mm')}, at {piece.widest_at}{lies}")
    if piece.volume_cm3.value:
        lines.append(f"  volume {_range(piece.volume_cm3, 'cm3')}")
    lines.append(f"  yarn   {_range(piece.yarn_m, 'm')}")
    if piece.ruffled_at:
        lines.append(f"  It ruffles at {', '.join(piece.ruffled_at)}: more stitches than lie flat.")
    return lines + [f"  {sentence}" for sentence in piece.said]


def _range(of: Spread, unit: str) -> str:
    return f"about {_n(of.value)} {unit} ({_n(of.low)} to {_n(of.high)})"


def _n(value: float) -> str:
    return f"{value:.0f}" if value >= 10 else f"{value:.2g}"
