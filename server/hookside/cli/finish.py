"""`hookside finish` and `hookside show`: what is left when every part is worked, and how one thing is done."""

from __future__ import annotations

import difflib
import json
from pathlib import Path
from textwrap import wrap

import click

from hookside.cli.files import put, stop, text_of
from hookside.cli.journal import where
from hookside.cli.out import out_option
from hookside.cli.reading import TermsName
from hookside.cli.ticks import listed, making_option, one_of, tick_option, untick_option
from hookside.finish import FinishItem, passed_by
from hookside.pattern import Terms
from hookside.stitches import named, plain_name
from hookside.words import Card, cards

WIDE = 100  # letters of a line


@click.command("finish", short_help="Say what is left when every part is worked: pin, sew, ends.")
@click.argument("file", required=False, metavar="[FILE]")
@where
@making_option
@tick_option
@untick_option
@click.option("--json", "as_json", is_flag=True, help="Print the stable JSON form.")
@out_option
@click.option("--terms", type=TermsName(), metavar="US|UK", help="The terms the pattern is written in.")
def finish_(
    file: str | None, folder: Path | None, making: str | None, on: tuple[int, ...], off: tuple[int, ...],
    as_json: bool, out: str | None, terms: Terms | None,
) -> None:  # fmt: skip
    """Print the finish list of the pattern in FILE ("-": standard input) or of a making, in the order of the hands.

    Ends with 2 when there is nothing in it to work.
    """
    one_of(file, {"--making": making}, on, off)
    if making is not None:
        found, done = listed(folder, making, "finish", on, off)
        put(_of_making([FinishItem.model_validate(one) for one in found], done, as_json), out)
        return
    text = text_of(str(file))
    from hookside.compile import read
    from hookside.finish import finish_list

    pattern = read(text, terms)
    items = finish_list(pattern, pattern.terms)
    if not items:
        stop("There is nothing to finish: no round and no row could be read.")
    if as_json:
        put(json.dumps([item.model_dump(mode="json") for item in items], ensure_ascii=False, indent=1) + "\n", out)
    else:
        put("\n".join(line for item in items for line in _job(item)) + "\n", out)


def _of_making(items: list[FinishItem], done: list[str], as_json: bool) -> str:
    if as_json:
        told = [{**item.model_dump(mode="json"), "done": item.id in done} for item in items]
        return json.dumps(told, ensure_ascii=False, indent=1) + "\n"
    lines = [line for n, item in enumerate(items, start=1) for line in _job(item, f"{n:>3} ", item.id in done)]
    late = len(passed_by(items, done))
    more = f", {late} passed by: they belonged before the sewing" if late else ""
    return "\n".join([*lines, f"{len(done)} of {len(items)} done{more}."]) + "\n"


def _job(item: FinishItem, number: str = "", done: bool = False) -> list[str]:
    own = "" if item.basis == "written" else " (Hookside adds this)"
    more = wrap(item.more, WIDE - 6) if item.more else []
    line = f"{number}[{'x' if done else ' '}] {item.text}{own}"
    deep = " " * len(number)
    return [*wrap(line, WIDE, subsequent_indent=f"{deep}    "), *(f"{deep}      {one}" for one in more)]


@click.command("show", short_help="Say how a stitch or another thing is done.")
@click.argument("name", nargs=-1, metavar="[NAME]")
@click.option("--terms", type=TermsName(), default="US", metavar="US|UK", help="The terms of NAME and of the answer.")
def show_(name: tuple[str, ...], terms: Terms) -> None:
    """Print the card of NAME, a stitch as patterns write it ("inv dec") or the name of a card; without NAME all names.

    Ends with 2 when no card has that name.
    """
    known = cards(terms)
    if not name:
        put("\n".join(f"{card.key:20} {card.title}" for card in known) + "\n", None)
        return
    asked = " ".join(name)
    card = card_of(asked, terms)
    if card is None:
        near = difflib.get_close_matches(asked.lower(), [one.key for one in known], n=1)
        stop(
            f'No card is called "{asked}".{f" Did you mean {near[0]}?" if near else ""} "hookside show" names them all.'
        )
    lines = [card.title, ""]
    for number, step in enumerate(card.steps, start=1):
        lines += wrap(f"{number}  {step}", WIDE, subsequent_indent="   ")
    if card.watch:
        lines += ["", *wrap(card.watch, WIDE)]
    put("\n".join(lines) + "\n", None)


def card_of(name: str, terms: Terms) -> Card | None:
    """The card of a stitch's name in these terms, or of a card's own name."""
    entry = named(name, terms)
    plain = plain_name(name)
    for card in cards(terms):
        if plain in (plain_name(card.key), plain_name(card.title)) or (entry and entry.key in card.stitches):
            return card
    return None
