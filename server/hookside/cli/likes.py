"""`hookside likes`: how a maker likes it, which follows her to all her devices."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from hookside.cli.files import put, say, stop
from hookside.cli.house import house
from hookside.cli.journal import where

NOT_SAID = "-"  # what is left to the pattern, or was not said yet


@click.command("likes", short_help="Say how you like it, or change it.")
@click.argument("changes", nargs=-1, metavar="[NAME=VALUE]...")
@where
@click.option("--who", metavar="NAME", help='Who works at this machine from now on; "" for nobody in particular.')
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON.")
def likes_(changes: tuple[str, ...], folder: Path | None, who: str | None, as_json: bool) -> None:
    """Print how the maker at this machine likes it, one NAME=VALUE a line; those given are changed first.

    hand right, left; decreases plain, invisible; terms US, UK, - (the pattern's); words short, full; counting aloud
    repeat, round, group, no; plain (what "next" goes on by) plain, stitch, group, repeat, round, and the same or "same"
    for plain_keys and plain_voice; light daylight, lamplight, auto; breaks (minutes of work before a rest is named)
    0, 20, 30, 50; quiet kinds of prompt with commas between (marker,count).
    """
    with house(folder) as ask:
        wanted = dict(_change(one, ask("GET", "/api/maker")) for one in changes)  # before anything is changed
        if who is not None:
            ask("PUT", "/api/maker/who", {"name": who})
        now = ask("GET", "/api/maker")
        if wanted:
            now = ask("PUT", "/api/maker", wanted)
        name = ask("GET", "/api/maker/who")["name"]
    if as_json:
        told = json.dumps({"name": name, **now}, ensure_ascii=False, indent=1)
    else:
        told = "\n".join([f"{name or 'The house'}:", *(f"  {key}={_shown(value)}" for key, value in now.items())])
    if wanted or who is not None:
        say(told)
    else:
        put(f"{told}\n", None)


def _change(said: str, now: dict[str, Any]) -> tuple[str, Any]:
    name, equals, value = (part.strip() for part in said.partition("="))
    if name not in now or not equals:
        stop(f'"{said}" is not understood: write one of {", ".join(now)}, "=" and how you like it.')
    if isinstance(now[name], list):
        return name, [kind.strip() for kind in value.split(",") if kind.strip() not in ("", NOT_SAID)]
    if isinstance(now[name], int):
        return name, int(value) if value.isdecimal() else value
    return name, None if value == NOT_SAID else value


def _shown(value: Any) -> str:
    if isinstance(value, list):
        return ",".join(value) or NOT_SAID
    return NOT_SAID if value is None else str(value)
