"""`hookside paper`: a pattern, or a making with its boxes ticked so far, to be printed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from hookside.cli.files import put, stop, tell, text_of
from hookside.cli.house import house, making_of
from hookside.cli.journal import where
from hookside.cli.out import out_option
from hookside.cli.reading import TermsName
from hookside.cli.sheet import Charts, Paper, of_making, of_pattern, page
from hookside.config import static_folder
from hookside.pattern import Terms
from hookside.web.ending import Ending

SHEETS = {"a4": "A4", "letter": "Letter"}


@click.command("paper", short_help="Lay a pattern or a making out for paper, A4 or Letter.")
@click.argument("file", required=False, metavar="[FILE]")
@where
@click.option("--making", metavar="MAKING", help="A making as it is worked, boxes ticked so far, by number or title.")
@click.option("--paper", "paper", type=click.Choice(list(SHEETS)), default="a4", help="The sheet; A4 where not said.")
@click.option("--terms", type=TermsName(), metavar="US|UK", help="The terms FILE is written in.")
@click.option("--charts/--no-charts", default=True, help="With a chart of each piece that can be read as one.")
@click.option(
    "--hand", type=click.Choice(["right", "left"]), help="The hand charts are for; else that of a making's maker."
)
@out_option
def paper_(
    file: str | None, folder: Path | None, making: str | None, paper: Paper, terms: Terms | None, charts: bool,
    hand: str | None, out: str | None,
) -> None:  # fmt: skip
    """Lay out the pattern in FILE ("-": standard input), or MAKING, as one HTML file: what to have at hand, a box to
    tick for each round and each copy, charts. Open it in a browser and print it from there.
    """
    if (file is None) == (making is None):
        stop("Name a pattern's file, or a making with --making.")
    if file is not None:
        title, said, pieces, gathered = _from_text(text_of(file), terms)
        chosen: dict[str, Any] = {}
    else:
        with house(folder) as ask:
            one = making_of(ask, str(making))
            snapshot = ask("GET", f"/api/makings/{one['id']}")
            hand = hand or ask("GET", "/api/maker")["hand"]
            try:
                gathered = ask("GET", f"/api/makings/{one['id']}/gather")
            except Ending as why:  # what can't be measured has no list; the rounds print all the same
                gathered = None
                tell(why.message)
        title, said, pieces = snapshot["title"], snapshot["terms"], of_making(snapshot)
        chosen = snapshot["choices"]
    drawn = _charts(hand or "right") if charts else None
    put(page(title, said, pieces, gathered, paper, chosen, drawn), out)
    if out not in (None, "-"):
        tell(f"{out} is laid out for {SHEETS[paper]}. Open it in a browser and print it from there.")


def _charts(hand: str) -> Charts | None:
    """The page's own drawing of charts, as it was built; None, and said, where there is no built page."""
    built = static_folder() / "paper"
    try:
        script = (built / "charts.js").read_text(encoding="utf-8")
        return Charts(script, (built / "charts.css").read_text(encoding="utf-8"), hand)
    except OSError:
        tell("There are no charts on it: the page that draws them is not built here. Start Hookside once, then again.")
        return None


def _from_text(text: str, terms: Terms | None) -> tuple[str, str, Any, dict[str, Any] | None]:
    from hookside.compile import measured, read
    from hookside.gather import gather
    from hookside.shape import CannotBeMeasured

    pattern = read(text, terms)
    if not any(piece.courses for piece in pattern.pieces):
        stop("There is nothing to print: no round and no row could be read.")
    try:
        measures = measured(pattern)
    except CannotBeMeasured as why:
        measures = None
        tell(str(why))
    found = gather(pattern, text, measures).model_dump(mode="json")
    return pattern.title, pattern.terms, of_pattern(pattern.model_dump(mode="json")), found
