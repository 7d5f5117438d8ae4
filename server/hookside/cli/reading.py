"""`hookside compile`: a pattern read, for a shell."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from typing import TYPE_CHECKING, get_args

import click

from hookside.cli.files import put, text_of
from hookside.cli.listing import changes, listing
from hookside.cli.out import out_option
from hookside.pattern import Terms

if TYPE_CHECKING:
    from hookside.notation.mended import Mended


class TermsName(click.ParamType[str]):
    """US or UK, in any case."""

    name = "terms"

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        said = value.strip().upper()
        if said not in get_args(Terms):
            self.fail(f"{value} is neither US nor UK; write --terms US or --terms UK.", param, ctx)
        return said


@click.command("compile", short_help="Read a pattern: rounds, rows, counts, where to look.")
@click.argument("file", metavar="FILE")
@click.option("--json", "as_json", is_flag=True, help="Print the stable JSON form instead of a listing.")
@out_option
@click.option(
    "--terms",
    type=TermsName(),
    metavar="US|UK",
    help="The terms the pattern is written in, where you know better than the text shows.",
)
@click.option("--trace", is_flag=True, help="Show what each stage of reading made of the text.")
@click.option(
    "--mend", is_flag=True, help="Take the mended lines that are offered, say each, and write the text to OUT (-o)."
)
def compile_(file: str, as_json: bool, out: str | None, terms: Terms | None, trace: bool, mend: bool) -> None:
    """Read the pattern in FILE ("-": standard input): every round and row, its counts, and where to look.

    With --mend the mended lines that are offered are taken first, the best one of each place, as long as they help:
    each change is said, FILE stays as it is, and -o writes the mended pattern to another one. Behind a round that
    still can't be followed nothing more of that part is mended, and that is said.

    Ends with 0 when the pattern can be followed, with 1 when something in it can't, with 2 when there was nothing
    to read.
    """
    text = text_of(file)
    from hookside.compile import read

    done: Mended | None = None
    if mend:
        from hookside.notation.mended import mend as take_offers

        done = take_offers(text, terms)
        text = done.text
        if out is not None:
            put(text, out)
            out = None
    pattern = read(text, terms)
    if trace:
        put(stages(text, terms), out)
    elif as_json:
        told = pattern.model_dump(mode="json")
        if done is not None:
            changed, stops = ([asdict(one) for one in all_of] for all_of in (done.changes, done.stops))
            told |= {"mended": {"text": done.text, "changes": changed, "more": done.more, "stops": stops}}
        put(json.dumps(told, ensure_ascii=False, indent=1) + "\n", out)
    else:
        put((changes(done) if done is not None else "") + listing(pattern, text), out)
    sys.exit(0 if pattern.can_be_followed else 1)


def stages(text: str, terms: Terms | None) -> str:
    """What each stage of reading made of the text, one line each: line, stage, its words, what became of them."""
    from hookside.notation import trace

    _, seen = trace(text, terms)
    return "".join(f"{s.line:>5}  {s.stage:<10} {_one_line(s.text)} -> {_one_line(str(s.result))}\n" for s in seen)


def _one_line(text: str) -> str:
    return "".join(c if c.isprintable() else " " for c in " ".join(text.split()))
