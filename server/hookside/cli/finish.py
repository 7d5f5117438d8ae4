"""`hookside finish` and `hookside show`: what is left when every part is worked, and how one thing is done."""

from __future__ import annotations

import difflib
import json
from textwrap import wrap

import click

from hookside.cli.files import put, stop, text_of
from hookside.cli.out import out_option
from hookside.cli.reading import TermsName
from hookside.finish import FinishItem
from hookside.pattern import Terms
from hookside.stitches import named, plain_name
from hookside.words import Card, cards

WIDE = 100  # letters of a line


@click.command("finish", short_help="Say what is left when every part is worked: pin, sew, ends.")
@click.argument("file", metavar="FILE")
@click.option("--json", "as_json", is_flag=True, help="Print the stable JSON form.")
@out_option
@click.option("--terms", type=TermsName(), metavar="US|UK", help="The terms the pattern is written in.")
def finish_(file: str, as_json: bool, out: str | None, terms: Terms | None) -> None:
    """Print the finish list of the pattern in FILE ("-": standard input), in the order of the hands.

    Ends with 2 when there is nothing in it to work.
    """
    text = text_of(file)
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


def _job(item: FinishItem) -> list[str]:
    own = "" if item.basis == "written" else " (Hookside adds this)"
    more = wrap(item.more, WIDE - 6) if item.more else []
    return [*wrap(f"[ ] {item.text}{own}", WIDE, subsequent_indent="    "), *(f"      {line}" for line in more)]


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
