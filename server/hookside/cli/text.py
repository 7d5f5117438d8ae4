"""`hookside text`: a pattern on the shelf as it is written, written anew, or mended."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from hookside.cli.files import put, say, tell, text_of
from hookside.cli.house import house, of_pattern, pattern_of
from hookside.cli.journal import where
from hookside.cli.out import out_option
from hookside.cli.reading import TermsName
from hookside.pattern import Terms


@click.command("text", short_help="Print a pattern of the shelf, write it anew, or mend it.")
@click.argument("pattern")
@where
@click.option("--new", "file", metavar="FILE", help='Its text is that of FILE from now on ("-": standard input).')
@click.option("--mend", is_flag=True, help="Take the mended lines that are offered, as the page does for all at once.")
@click.option(
    "--terms", type=TermsName(), metavar="US|UK", help="The terms it is written in, where reading mistakes them."
)
@out_option
def text_(
    pattern: str, folder: Path | None, file: str | None, mend: bool, terms: Terms | None, out: str | None
) -> None:
    """Print the text of PATTERN, an id or title. With --new, --mend or --terms it is changed: what is being made of it
    asks before it goes on by the change ("hookside choose"). One of ours stays as it is, and the changed one is yours.
    """
    with house(folder) as ask:
        one = pattern_of(ask, pattern)
        kept = ask("GET", of_pattern(one["id"]))
        if file is None and not mend and terms is None:
            put(kept["text"] if kept["text"].endswith("\n") else kept["text"] + "\n", out)
            return
        text: str = kept["text"] if file is None else text_of(file)
        terms = terms or kept["terms"]
        said: list[str] = []
        if mend:
            done = ask("POST", "/api/mend", {"text": text, "terms": terms})
            text = done["text"]
            said = _mended(done)
        if (text, terms) == (kept["text"], kept["terms"]):
            tell("\n".join([*said, "It is as it was: nothing was changed."]))
            return
        told = ask("PUT", of_pattern(one["id"]), {"text": text, "terms": terms})
        if told["id"] != kept["id"]:
            said.append(f"One of ours stays as it is; the changed one is yours: {told['id']}")
        say("\n".join([*said, f"{one['title'] or 'The pattern'} is changed."]))


def _mended(done: dict[str, Any]) -> list[str]:
    lines: list[str] = []
    for one in done["changes"]:
        lines += [f"Line {one['line']}: {one['why']}", f"  was: {one['before']}", f"  is:  {one['after']}"]
    lines += [stop["say"] for stop in done["stops"]]
    return lines or ["Nothing was mended: no line is offered that would help."]
