"""Lists with numbers and ticks at the command line: what to have at hand, what is left to finish."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from pathlib import Path
from typing import Any, Literal

import click

from hookside.cli.bench import bench_of, move
from hookside.cli.files import stop, tell
from hookside.cli.house import Ask, house, making_of, of_pattern, pattern_of
from hookside.finish import FinishItem, answered
from hookside.follow import State, Strand

List = Literal["gather", "finish"]

making_option = click.option("--making", metavar="MAKING", help="The list of a making, by number or title, with ticks.")
pattern_option = click.option("--pattern", metavar="PATTERN", help="The list of a pattern on the shelf, with ticks.")
tick_option = click.option("--tick", "on", type=int, multiple=True, metavar="N", help="Tick line N.")
untick_option = click.option("--untick", "off", type=int, multiple=True, metavar="N", help="Take that tick away.")


def one_of(file: str | None, kept: Mapping[str, str | None], on: Sequence[int], off: Sequence[int]) -> None:
    """A file or a thing on the shelf, and ticks only of such a thing. One sentence and 2 where it is otherwise.
    `kept`: what was named of it, by the option."""
    ways = " or ".join(kept)
    if [file, *kept.values()].count(None) != len(kept):
        stop(f"Name a pattern's file, or a thing on the shelf with {ways}.")
    if file is not None and (on or off):
        stop(f"Ticks are kept with a thing on the shelf: name it with {ways}.")


def gathered(
    folder: Path | None, pattern: str, times: int, on: Sequence[int], off: Sequence[int]
) -> tuple[Any, list[str]]:
    """What to have at hand for a pattern on the shelf, before it is begun, once these lines are ticked; and the ids of
    what is ticked, which go into the making that is begun."""
    with house(folder) as ask:
        address = f"{of_pattern(pattern_of(ask, pattern)['id'])}/gather"
        found = ask("GET", f"{address}?times={times}")
        _in_the_list(found["items"], on, off)
        for n, tick in [(n, True) for n in on] + [(n, False) for n in off]:
            found["ticked"] = ask("PUT", address, {"item": found["items"][n - 1]["id"], "on": tick})["ticked"]
    return found, found.pop("ticked")


def listed(
    folder: Path | None, making: str, which: List, on: Sequence[int], off: Sequence[int]
) -> tuple[Any, list[str]]:
    """The list of a making as the page gets it, once these lines are ticked, and the ids of what is done."""
    with house(folder) as ask:
        id = making_of(ask, making)["id"]
        found = ask("GET", f"/api/makings/{id}/{which}")
        items = found["items"] if which == "gather" else found
        _tick(ask, id, which, items, on, off)
        ticked = ask("GET", f"/api/makings/{id}/choices")["choices"].get("ticks", {}).get(which, [])
        passed: set[str] = set()
        if which == "finish":
            made = ask("GET", f"/api/makings/{id}")
            strands = {name: Strand.model_validate(one) for name, one in made["strands"].items()}
            jobs = [FinishItem.model_validate(one) for one in items]
            passed = answered(jobs, State.model_validate(made["state"]), strands)
        return found, [one["id"] for one in items if one["id"] in ticked or one["id"] in passed]


def _in_the_list(items: Sequence[object], on: Sequence[int], off: Sequence[int]) -> None:
    wrong = next((n for n in (*on, *off) if not 1 <= n <= len(items)), None)
    if wrong is not None:
        stop(f"There is no line {wrong}: the list has {len(items)}.")


def _tick(
    ask: Ask, making: int, which: List, items: Sequence[Mapping[str, Any]], on: Sequence[int], off: Sequence[int]
) -> None:
    _in_the_list(items, on, off)
    wanted = [(n, True) for n in on] + [(n, False) for n in off]
    ticks = [{"list": which, "item": items[n - 1]["id"], "on": tick} for n, tick in wanted]
    for first in range(0, len(ticks), 50):
        choices = [{"choice": "tick", "value": value} for value in ticks[first : first + 50]]
        ask("POST", f"/api/makings/{making}/choices", {"choices": choices})
    if on and which == "finish":
        _answer(ask, making, items, [items[n - 1]["id"] for n in on])


def _answer(ask: Ask, making: int, items: Sequence[Mapping[str, Any]], now: Collection[str]) -> None:
    """The bench asks for a job of the text too, and has its answer with the last tick of it: finishsheet.tsx."""
    bench = bench_of(ask, making)
    waits = bench.spot.cue.address if bench.spot.cue else None
    ticked = bench.snapshot["choices"].get("ticks", {}).get("finish", [])
    jobs = [one["id"] for one in items if one.get("cue") == waits] if waits else []
    if any(id in now for id in jobs) and all(id in ticked for id in jobs):
        move(ask, bench, "done", cue=waits)
        tell("The bench asked for that too, and has its answer.")
