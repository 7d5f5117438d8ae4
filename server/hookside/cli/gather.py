"""`hookside gather` and `hookside habits`: what to have at hand, and what habits may change, for a shell."""

from __future__ import annotations

import json
from collections.abc import Collection
from pathlib import Path

import click

from hookside.cli.files import put, stop, text_of
from hookside.cli.journal import where
from hookside.cli.out import out_option
from hookside.cli.reading import TermsName
from hookside.cli.ticks import gathered, listed, making_option, one_of, pattern_option, tick_option, untick_option
from hookside.gather import Gathered, Item
from hookside.habits import Allowed, Habits
from hookside.pattern import Terms
from hookside.shape import Asked, CannotBeMeasured


@click.command("gather", short_help="List hook, yarn and all else to have at hand.")
@click.argument("file", required=False, metavar="[FILE]")
@where
@making_option
@pattern_option
@tick_option
@untick_option
@click.option("--copies", type=click.IntRange(1, 99), default=1, metavar="N", help="How many of the whole to make.")
@click.option("--gauge", default="", metavar="WORDS", help='Your swatch, for example "20 sts and 22 rounds = 10 cm".')
@click.option("--yarn", default="", metavar="WORDS", help='Another yarn, for example "DK" or "100 g = 320 m".')
@click.option("--hook", default="", metavar="SIZE", help='Another hook, for example "3.5 mm" or "G-6".')
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON.")
@out_option
@click.option("--terms", type=TermsName(), metavar="US|UK", help="The terms the pattern is written in.")
def gather_(
    file: str | None, folder: Path | None, making: str | None, pattern: str | None, on: tuple[int, ...],
    off: tuple[int, ...], copies: int, gauge: str, yarn: str, hook: str, as_json: bool, out: str | None,
    terms: Terms | None,
) -> None:  # fmt: skip
    """List what the pattern in FILE ("-": standard input), one on the shelf or a making takes: hook, yarn by colour,
    notions, what its list forgets.

    Ends with 2 when what was said of gauge, yarn or hook can't be.
    """
    one_of(file, {"--making": making, "--pattern": pattern}, on, off)
    if making is not None or pattern is not None:
        if gauge or yarn or hook:
            stop("What you know of your fabric is kept beside it: hookside fabric, and for a making hookside choose.")
        if making is not None and copies != 1:
            stop("A making has its own copies: hookside copy.")
        told, done = (
            listed(folder, making, "gather", on, off)
            if making is not None
            else gathered(folder, str(pattern), copies, on, off)
        )
        told.pop("pattern")
        shown = listing(Gathered.model_validate(told), done, numbered=True)
        whole = json.dumps({**told, "done": done}, ensure_ascii=False, indent=1)
        put((whole if as_json else "\n".join(shown)) + "\n", out)
        return
    text = text_of(str(file))
    from hookside.compile import measured, read
    from hookside.gather import gather

    told, asked = read(text, terms), Asked(gauge=gauge, yarn=yarn, hook=hook)
    try:
        measures = measured(told, asked)
    except CannotBeMeasured as e:
        stop(str(e))
    wanted = {number: piece.make * copies for number, piece in enumerate(told.pieces, start=1)}
    found = gather(told, text, measures, asked, wanted)
    if as_json:
        put(json.dumps(found.model_dump(mode="json"), ensure_ascii=False, indent=1) + "\n", out)
    else:
        put("\n".join(listing(found)) + "\n", out)


def listing(found: Gathered, done: Collection[str] = (), numbered: bool = False) -> list[str]:
    """The list for a reader, with a box to tick at each line; `done`: ids of what is ticked."""
    pieces = ", ".join(f"{one.copies} x {one.name or 'the piece'}" for one in found.pieces)
    lines = [f"{found.title or 'This pattern'}: {pieces}" if pieces else found.title, ""]
    for n, item in enumerate(found.items, start=1):
        first, *rest = _item(item, item.id in done)
        lines += [f"{n:>3} {first}" if numbered else first, *rest]
    if found.first:
        lines += ["", "Ready first:", *(f"  {sentence}" for sentence in found.first)]
    lines.append("")
    for caution in found.cautions:
        lines += [caution.text, f"  ({caution.source})"]
    return [*lines, "", "How this was worked out:", *(f"  {sentence}" for sentence in found.said)]


def _item(item: Item, done: bool) -> list[str]:
    lines = [f"[{'x' if done else ' '}] {item.name}" + (f": {item.amount}" if item.amount else "")]
    if item.printed and item.printed != item.name:
        lines.append(f"      the text: {item.printed}")
    if item.why:
        lines.append(f"      {'not on its list; ' if item.forgotten else ''}{item.why}")
    return lines


@click.command("habits", short_help="Say what may be worked in another way: terms, decreases, a spiral.")
@click.argument("file", metavar="FILE")
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON.")
@click.option("--terms", type=TermsName(), metavar="US|UK", help="The terms the pattern is written in.")
def habits_(file: str, as_json: bool, terms: Terms | None) -> None:
    """Say in which terms the pattern in FILE ("-": standard input) is written, and why; which rounds may be worked with
    other decreases or as a spiral, and why not the others."""
    text = text_of(file)
    from hookside.compile import read
    from hookside.habits import habits

    found = habits(read(text, terms))
    if as_json:
        put(json.dumps(found.model_dump(mode="json"), ensure_ascii=False, indent=1) + "\n", None)
    else:
        put("\n".join(told(found)) + "\n", None)


NOTHING = "  nothing would change"


def told(found: Habits) -> list[str]:
    """The habits for a reader."""
    lines = [f"{found.terms} terms. {found.because}".rstrip()]
    ways: tuple[tuple[str, Allowed], ...] = (
        ("Invisible decreases", found.invisible), ("Plain decreases", found.plain), ("As a spiral", found.spiral),
    )  # fmt: skip
    for name, allowed in ways:
        lines += ["", name]
        lines.append(f"  {', '.join(allowed.changes)}" if allowed.changes else NOTHING)
        lines += [f"  {sentence}" for sentence in (*allowed.stays, *allowed.mind)]
    return lines
