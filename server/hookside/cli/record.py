"""`hookside record`: sittings, pace and what is left of a making, for a shell."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import click

from hookside.cli.files import put
from hookside.cli.house import house, making_of
from hookside.cli.journal import where
from hookside.cli.out import out_option
from hookside.record import Record


@click.command("record", short_help="Say when a making was worked, how fast, and what is left.")
@click.argument("making", required=False)
@where
@click.option("--json", "as_json", is_flag=True, help="Print all of it as JSON.")
@click.option("--csv", "as_table", is_flag=True, help="Print the sittings as comma-separated values.")
@out_option
def record_(making: str | None, folder: Path | None, as_json: bool, as_table: bool, out: str | None) -> None:
    """Say when MAKING, a number or title, was worked, how fast, what is left of it, and its notes.

    Without one: name the makings there are."""
    from hookside.web.records import as_csv, instant

    with house(folder) as ask:
        if making is None:
            makings = ask("GET", "/api/shelf")["makings"]
            put("".join(f"{one['id']:>4}  {one['title']}\n" for one in makings), out)
            return
        one = making_of(ask, making)
        told = Record.model_validate(ask("GET", f"/api/makings/{one['id']}/record"))
    if as_json:
        put(json.dumps(told.model_dump(mode="json"), ensure_ascii=False, indent=1) + "\n", out)
    elif as_table:
        put(as_csv(told), out)
    else:
        put("\n".join(listing(told, instant)) + "\n", out)


def listing(told: Record, instant: Callable[[float], str]) -> list[str]:
    """The record for a reader."""
    lines = [told.title, ""]
    for one in told.sittings:
        rate = "" if one.a_minute is None else f", {one.a_minute:.0f} a minute"
        lasted = duration((one.ended - one.begun) / 60)
        lines.append(
            f"  {instant(one.begun)[:16].replace('T', ' ')}  {lasted}, {counted(one.stitches, 'stitch')}{rate}"
        )
    if not told.sittings:
        lines.append("  Not worked yet.")
    left, minutes = told.left, told.left.minutes
    lines += ["", f"Worked in all: {duration(told.worked_seconds / 60)}."]
    if told.pulled_out:
        lines.append(f"Pulled out on the way: {counted(told.pulled_out, 'stitch')}.")
    of = (
        f"{counted(left.stitches, 'stitch')} of {left.stitches_of}, {left.courses} of {left.courses_of} rounds and rows"
    )
    lines.append(f"Left: {of}.")
    if left.metres is not None:
        lines.append(f"  about {left.metres.value:.0f} m of yarn ({left.metres.low:.0f} to {left.metres.high:.0f})")
    if left.unread:
        lines.append(f"  and {left.unread} that could not be read, which come on top")
    spread = f"{duration(minutes.low)} to {duration(minutes.high)}"
    by = "by your own pace" if minutes.sittings else "by what is common: you have not worked long enough to know yours"
    lines.append(f"  about {duration(minutes.value)} at the hook ({spread}), {by}; finishing not in it")
    for run in told.runs if len(told.runs) > 1 else []:
        name = f"{run.piece or 'Piece'} {run.number}" if run.copies > 1 else run.piece or "Piece"
        lines.append(f"  {name}: {counted(run.stitches, 'stitch')} left of {run.stitches_of}")
    if told.notes:
        lines += ["", "Notes:"]
        lines += [
            f"  {', '.join(filter(None, (note['piece'], note['place'])))}: {' '.join(note['text'].split())}"
            for note in told.notes
        ]
    return lines


def counted(n: int, one: str) -> str:
    return f"{n} {one}" if n == 1 else f"{n} {one}es"


def duration(minutes: float) -> str:
    """In hours and minutes, as one says it."""
    whole = round(minutes)
    hours, rest = divmod(whole, 60)
    return f"{rest} min" if not hours else f"{hours} h" if not rest else f"{hours} h {rest} min"
