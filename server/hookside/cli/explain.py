"""`hookside explain`: how a line of a pattern was read, in plain words."""

from __future__ import annotations

import json
import re
from dataclasses import asdict

import click

from hookside.cli.files import put, stop, text_of
from hookside.cli.out import out_option
from hookside.cli.reading import TermsName
from hookside.compile import explained
from hookside.notation.explaining.explanation import MOST_TOLD, Explanation
from hookside.pattern import Terms

_WHERE = re.compile(r"(?P<file>.+):(?P<first>\d{1,9})(?:-(?P<last>\d{1,9}))?", re.S)
_WIDEST = 34  # letters of a part's words beside which its sense still stands


@click.command(
    "explain",
    short_help="Say how a line was read, and why.",
    context_settings={"ignore_unknown_options": True},  # "-:12" is standard input, line 12
)
@click.argument("where", metavar="FILE:LINE[-LINE]")
@click.option("--json", "as_json", is_flag=True, help="Print the same for programs.")
@out_option
@click.option(
    "--terms",
    type=TermsName(),
    metavar="US|UK",
    help="The terms the pattern is written in, where you know better than the text shows.",
)
def explain_(where: str, as_json: bool, out: str | None, terms: Terms | None) -> None:
    """Say how line LINE of FILE was read ("-:LINE": of standard input): its label, each part of it and what that was
    taken for, the arithmetic, the printed count, and why it was read so and not otherwise.
    """
    match = _WHERE.fullmatch(where)
    if match is None:
        stop(f"{where} names no line; write the file, a colon and the line, as in pattern.txt:12 or pattern.txt:12-20.")
    first, last = int(match["first"]), int(match["last"] or match["first"])
    if last < first or first < 1:
        stop(f"There are no lines {first} to {last}; lines count from 1, the smaller number first.")
    text = text_of(match["file"])
    explainer = explained(text, terms)
    if explainer.beyond:
        stop(explainer.pattern.findings[0].message)
    if first > len(explainer.lines):
        stop(f"The text has {len(explainer.lines)} lines, so there is no line {first}.")
    found = explainer.between(first, last)
    if as_json:
        told = {"terms": explainer.terms, "lines": [asdict(one) for one in found]}
        put(json.dumps(told, ensure_ascii=False, indent=1) + "\n", out)
        return
    put(account(found, first, last, explainer.terms), out)


def account(found: list[Explanation], first: int, last: int, terms: str) -> str:
    """The explanations one below the other, as text."""
    if not found:
        return f"Line {first} is empty.\n" if first == last else f"Lines {first} to {last} are empty.\n"
    out: list[str] = []
    for one in found:
        out += [f"Line {one.line}: {_line(one.text)}", f"{one.title}."]
        wide = max((len(part.text) for part in one.parts if len(part.text) <= _WIDEST), default=0)
        for part in one.parts:
            words = _line(part.text)
            out += [f"    {words}", f"    {'':<{wide}}  {part.sense}"] if len(words) > _WIDEST else [
                f"    {words:<{wide}}  {part.sense}"
            ]  # fmt: skip
        out += [f"  {_line(sentence)}" for sentence in [*one.says, *one.noticed]]
        out.append("")
    if len(found) == MOST_TOLD:
        out += [f"Only the first {MOST_TOLD} are told at once.", ""]
    return "\n".join([*out, terms, ""])


def _line(text: str) -> str:
    return "".join(c if c.isprintable() else " " for c in text)
