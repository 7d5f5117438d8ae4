"""`hookside likes`: how a maker likes it, which follows her to all her devices."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from hookside.cli.files import stop
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

    "hand=left" or "words=full"; "-" leaves it to the pattern (terms=-), several kinds have commas between
    (quiet=marker,count). What each may be is said on the page under "How you like it".
    """
    with house(folder) as ask:
        if who is not None:
            ask("PUT", "/api/maker/who", {"name": who})
        now = ask("GET", "/api/maker")
        wanted = dict(_change(one, now) for one in changes)
        if wanted:
            now = ask("PUT", "/api/maker", wanted)
        name = ask("GET", "/api/maker/who")["name"]
    if as_json:
        click.echo(json.dumps({"name": name, **now}, ensure_ascii=False, indent=1))
        return
    click.echo(f"{name or 'The house'}:")
    for key, value in now.items():
        click.echo(f"  {key}={_shown(value)}")


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
