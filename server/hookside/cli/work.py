"""`hookside work`: where the hook is, and moves of it, as taps on the bench make them."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from pathlib import Path

import click

from hookside.cli.bench import Bench, bench_of, move, name_of, place, refuse, step_at, told
from hookside.cli.files import put, stop
from hookside.cli.house import Ask, house, making_of, run_named
from hookside.cli.journal import where
from hookside.follow.stepping import UNITS
from hookside.web.ending import Ending

Words = Sequence[str]
WAYS = "next, back, done, undo, take, to, rip, unmend, here"


@click.command("work", short_help="Say where the hook is, and move on: next, back, done, undo, take, to, rip, unmend.")
@click.argument("making")
@click.argument("what", nargs=-1, metavar="[WHAT]...")
@where
@click.option("--json", "as_json", is_flag=True, help="Print the place as JSON.")
def work_(making: str, what: tuple[str, ...], folder: Path | None, as_json: bool) -> None:
    """Say where the hook is in MAKING; with WHAT, move first. An open bench follows at once.

    \b
    next [stitch|group|repeat|round] [N]   on, N times; halts at all that waits
    back [stitch|group|repeat|round] [N]   the same backwards
    done [COUNT]                           what waits is done; COUNT: of a round that can't be read
    undo                                   takes the last move of this copy back
    take PIECE                             takes another copy in hand, "Flipper 2"
    to ROUND [STITCHES]                    goes to a round, so many of it made; halts at all that waits
    rip ROUND [STITCHES]                   ripped back to there: what was passed waits again
    unmend                                 takes the newest mend of this copy back
    here ROUND [STITCHES]                  where devices disagree: the marker is there

    A bare "next" goes on as you like it on the page.
    """
    way, words = (what[0], what[1:]) if what else ("", ())
    if way and way not in MOVES:
        stop(f'"{way}" is no move: say {WAYS}.')
    with house(folder) as ask:
        one = making_of(ask, making)
        bench = bench_of(ask, one["id"])
        run = MOVES[way](ask, bench, words) if way else bench.run["run"]
        bench = bench_of(ask, one["id"], run)
        if bench.snapshot["edited"] and not ask("GET", f"/api/makings/{one['id']}/recast")["asks"]:
            bench = bench_of(ask, one["id"], run)  # other words, the same steps: nothing is asked
        full = ask("GET", "/api/maker")["words"] == "full"
    if as_json:
        about = {name: bench.run[name] for name in ("run", "piece", "copy", "copies")}
        shown = {"making": one["id"], "title": one["title"], **about, "at": bench.at}
        shown |= {"place": place(bench, bench.at), **bench.spot.model_dump(mode="json")}
        put(json.dumps(shown, ensure_ascii=False, indent=1) + "\n", None)
    else:
        put("\n".join(told(bench, full)) + "\n", None)


def _along(intent: str) -> Callable[[Ask, Bench, Words], str]:
    """next and back: by a unit, so many times, until something waits."""

    def go(ask: Ask, bench: Bench, words: Words) -> str:
        units = [word for word in words if not word.isdecimal()]
        numbers = [int(word) for word in words if word.isdecimal()]
        wrong = next((unit for unit in units if unit not in UNITS), None)
        if wrong is not None or len(units) > 1 or len(numbers) > 1:
            stop(f'"{wrong or " ".join(words)}" is not understood: {intent}, then one of {", ".join(UNITS[:-1])}, N.')
        many = numbers[0] if numbers else 1
        if not 1 <= many <= 500:
            stop("1 to 500 at once.")
        unit = units[0] if units else ask("GET", "/api/maker")["plain"]
        agree(bench)
        for time in range(many):
            if time and (bench.spot.cue is not None or bench.spot.unread or bench.spot.finished):
                break  # a further one would answer what nobody has seen yet
            to = move(ask, bench, intent, unit=unit)["to"]
            if to == 0 and intent == "back":
                break
            bench = bench_of(ask, bench.making, bench.run["run"])
        return str(bench.run["run"])

    return go


def agree(bench: Bench) -> None:
    """Nothing is moved while devices disagree: that is answered first."""
    if bench.asides:
        said = "; ".join(f"{one['device_name'] or 'another device'}: {place(bench, one['to'])}" for one in bench.asides)
        raise Ending(
            f"Your devices do not agree on the place (here: {place(bench, bench.at)}; {said}). "
            f"Say first where the marker is: hookside work {bench.making} here ROUND STITCHES"
        )


def _done(ask: Ask, bench: Bench, words: Words) -> str:
    count = _numbers(words, "done COUNT") if words else []
    agree(bench)
    if bench.spot.cue is not None and not count:
        move(ask, bench, "done", cue=bench.spot.cue.address)
    elif bench.spot.unread and bench.course is not None:
        if not count:
            refuse(bench, "needs-count")
        move(ask, bench, "done", cue=bench.course.id, count=count[0])
    else:
        raise Ending(f"Nothing waits there for a {'count' if count else 'done'}. The hook is {place(bench, bench.at)}.")
    return str(bench.run["run"])


def _undo(ask: Ask, bench: Bench, words: Words) -> str:
    _nothing(words, "undo")
    agree(bench)
    if not bench.here.history:
        refuse(bench, "not-last")
    move(ask, bench, "undo", undoes=bench.here.history[-1].row)
    return str(bench_of(ask, bench.making).run["run"])


def _take(ask: Ask, bench: Bench, words: Words) -> str:
    if not words:
        stop('Say which copy: take "Flipper 2".')
    run = run_named(bench.snapshot, " ".join(words))["run"]
    move(ask, bench_of(ask, bench.making, run), "take")
    return str(run)


def _to(ask: Ask, bench: Bench, words: Words) -> str:
    agree(bench)
    label, made = _spot(words, "to")
    move(ask, bench, "goto", to=step_at(bench, label, made))
    return str(bench.run["run"])


def _rip(ask: Ask, bench: Bench, words: Words) -> str:
    agree(bench)
    label, made = _spot(words, "rip")
    to = step_at(bench, label, made)
    if to > bench.at:
        course = next(one for one in bench.strand.courses if one.label == label)
        raise Ending(f"The hook is {place(bench, bench.at)}: {name_of(course)} does not lie behind it.")
    move(ask, bench, "rip", to=to)
    return str(bench.run["run"])


def _unmend(ask: Ask, bench: Bench, words: Words) -> str:
    _nothing(words, "unmend")
    agree(bench)
    run = bench.run["run"]
    ask("POST", f"/api/makings/{bench.making}/unmend", {"run": run, "at": bench.at})
    return str(run)


def _here(ask: Ask, bench: Bench, words: Words) -> str:
    if not bench.asides:
        raise Ending(f"No device says anything else: the hook is {place(bench, bench.at)}.")
    label, made = _spot(words, "here")
    rows = [one["row"] for one in bench.asides]
    move(ask, bench, "settle", to=step_at(bench, label, made), asides=rows)
    return str(bench.run["run"])


MOVES: dict[str, Callable[[Ask, Bench, Words], str]] = {
    "next": _along("next"), "back": _along("back"), "done": _done, "undo": _undo, "take": _take, "to": _to,
    "rip": _rip, "unmend": _unmend, "here": _here,
}  # fmt: skip


def _spot(words: Words, way: str) -> tuple[str, int]:
    """ "3 12": the label of a course, and stitches made of it."""
    if not 1 <= len(words) <= 2:
        stop(f"Say the round, and how many of its stitches are made: {way} 3 12")
    return words[0], _numbers(words[1:], f"{way} ROUND STITCHES")[0] if len(words) == 2 else 0


def _numbers(words: Words, way: str) -> list[int]:
    if any(not (word.isascii() and word.isdecimal()) or len(word) > 6 for word in words):
        stop(f"That is not understood: write it as {way}, with a number.")
    return [int(word) for word in words]


def _nothing(words: Words, way: str) -> None:
    if words:
        stop(f'Nothing stands behind "{way}".')
