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
from hookside.cli.sheet import Paper, of_making, of_pattern, page
from hookside.pattern import Terms
from hookside.web.ending import Ending

SHEETS = {"a4": "A4", "letter": "Letter"}


@click.command("paper", short_help="Lay a pattern or a making out for paper, A4 or Letter.")
@click.argument("file", required=False, metavar="[FILE]")
@where
@click.option("--making", metavar="MAKING", help="A making as it is worked, boxes ticked so far, by number or title.")
@click.option("--paper", "paper", type=click.Choice(list(SHEETS)), default="a4", help="The sheet; A4 where not said.")
@click.option("--terms", type=TermsName(), metavar="US|UK", help="The terms FILE is written in.")
@out_option
def paper_(
    file: str | None, folder: Path | None, making: str | None, paper: Paper, terms: Terms | None, out: str | None
) -> None:
    """Lay out the pattern in FILE ("-": standard input), or MAKING, as one HTML file: what to have at hand, a box to
    tick for each round and each copy. Open it in a browser and print it from there.
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
            try:
                gathered = ask("GET", f"/api/makings/{one['id']}/gather")
            except Ending as why:  # what can't be measured has no list; the rounds print all the same
                gathered = None
                tell(why.message)
        title, said, pieces = snapshot["title"], snapshot["terms"], of_making(snapshot)
        chosen = snapshot["choices"]
    put(page(title, said, pieces, gathered, paper, chosen), out)
    if out not in (None, "-"):
        tell(f"{out} is laid out for {SHEETS[paper]}. Open it in a browser and print it from there.")


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
