"""`hookside count`, `lost` and `recap`: a count and what follows from it, the place found again, what hands forget."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any, Literal

import click

from hookside.cli.bench import Bench, bench_of, move, name_of, place
from hookside.cli.files import put, say, stop
from hookside.cli.house import Ask, house, making_of, run_named
from hookside.cli.journal import where
from hookside.cli.work import agree
from hookside.follow import StrandCourse, courses_done
from hookside.web.ending import Ending

THERE = "there"  # what is taken where the talk found a place
Topic = Literal["count", "lost"]

answers_argument = click.argument("answers", nargs=-1, metavar="[KEY=ANSWER]...")
take_option = click.option("--take", metavar="WAY", help="Take one of the ways it offers, by its name.")


@click.command("count", short_help="Say what you counted: right, or what can be done about it.")
@click.argument("making")
@click.argument("n", type=click.IntRange(0, 2000), metavar="N", required=False)
@answers_argument
@where
@take_option
@click.option("--not-now", is_flag=True, help="Turn the count down that is asked for; without N.")
def count_(
    making: str, n: int | None, answers: tuple[str, ...], folder: Path | None, take: str | None, not_now: bool
) -> None:
    """Say that N stitches were counted in MAKING, from the marker to the hook; or --not-now.

    Where that is not what should be there, the slip is looked for, one question at a time, each answered by saying the
    command once more with the answer behind it; then ways out are offered, the smallest first.
    """
    if (n is None) != not_now:
        stop("Say how many you counted, or --not-now.")
    with house(folder) as ask:
        bench = bench_of(ask, making_of(ask, making)["id"])
        agree(bench)
        if n is None:
            say(_turned_down(ask, bench))
            return
        said = _answers(answers)
        if not said or list(said)[-1] == "again":
            _counted(ask, bench, int(said.get("again", n)))
            bench = bench_of(ask, bench.making, bench.run["run"])
        _talk(ask, bench, "count", {"n": n, **said}, f"count {bench.making} {n}", answers, take)


@click.command("lost", short_help="Find the place again: one question to the fabric at a time.")
@click.argument("making")
@answers_argument
@where
@take_option
def lost_(making: str, answers: tuple[str, ...], folder: Path | None, take: str | None) -> None:
    """Ask the fabric of MAKING where the hook is, one question at a time, each answered by saying the command once more
    with the answer behind it. "--take there" goes to the place it comes to."""
    with house(folder) as ask:
        bench = bench_of(ask, making_of(ask, making)["id"])
        agree(bench)
        _talk(ask, bench, "lost", _answers(answers), f"lost {bench.making}", answers, take)


def _answers(said: Sequence[str]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for one in said:
        key, sign, value = one.partition("=")
        if not sign or not key or not value:
            stop(f'"{one}" is not understood: write the word of the question, "=" and the answer, as gap=alike.')
        found[key] = int(value) if value.isascii() and value.isdecimal() and len(value) <= 6 else value
    return found


def _counted(ask: Ask, bench: Bench, n: int) -> None:
    """A count that was given is a row, and at the end of a course it is written down as right or not: countdue.ts."""
    move(ask, bench, "count", n=n)
    last = courses_done(bench.strand, bench.at) - 1
    if last < 0 or bench.spot.stitch:
        return
    course = bench.strand.courses[last]
    ours = bench.here.counts.get(course.id, course.makes)
    if ours:
        _kept(ask, bench, course, n, n == ours)


def _turned_down(ask: Ask, bench: Bench) -> str:
    last = courses_done(bench.strand, bench.at) - 1
    if last < 0:
        raise Ending("No round is worked yet that could be counted.")
    course = bench.strand.courses[last]
    _kept(ask, bench, course, None, False)
    return f"{name_of(course).capitalize()} is not asked for any more."


def _kept(ask: Ask, bench: Bench, course: StrandCourse, n: int | None, right: bool) -> None:
    """A count of a course, or None: she would rather not count there."""
    value = {"run": bench.run["run"], "course": course.id, "n": n, "right": right, "on": True}
    ask("POST", f"/api/makings/{bench.making}/choices", {"choices": [{"choice": "count", "value": value}]})


def _talk(
    ask: Ask, bench: Bench, topic: Topic, answers: dict[str, Any], command: str, said: Sequence[str], take: str | None
) -> None:
    about = {"run": bench.run["run"], "at": bench.at, "answers": answers}
    talk = ask("POST", f"/api/makings/{bench.making}/{topic}", about)
    again = " ".join(["hookside", command, *said])
    if take is not None:
        _take(ask, bench, talk, about, take)
        return
    lines = [talk["said"]] if talk["said"] else []
    if question := talk["ask"]:
        lines += [question["text"], *([question["more"]] if question["more"] else [])]
        if question["kind"] == "number":
            lines.append(f"  {again} {question['key']}=NUMBER")
        else:
            lines += [f"  {again} {question['key']}={one['value']}   ({one['text']})" for one in question["choices"]]
    for offer in talk["offers"]:
        line = f": {offer['line']}" if offer["line"] else ""
        if offer["kind"] == "refused":
            lines.append(f"  not here: {offer['title']}. {offer['say']}")
        else:
            lines += [f"  {offer['title']}{line}. {offer['say']}", f"    {again} --take {offer['key']}"]
    if talk["to"] is not None and not talk["offers"] and not talk["ask"] and talk["to"] != bench.at:
        lines.append(f"  {again} --take {THERE}   ({place(bench, talk['to'])})")
    put("\n".join(lines) + "\n", None)


def _take(ask: Ask, bench: Bench, talk: dict[str, Any], about: dict[str, Any], take: str) -> None:
    offer = next((one for one in talk["offers"] if one["key"] == take), None)
    if offer is None and take == THERE and talk["to"] is not None:
        offer = {"kind": "go", "to": talk["to"], "title": "There", "say": ""}
    if offer is None or offer["kind"] == "refused":
        names = [one["key"] for one in talk["offers"] if one["kind"] != "refused"]
        if talk["to"] is not None and not names:
            names = [THERE]
        raise Ending(f'"{take}" is not offered here' + (f"; there is {', '.join(names)}." if names else "."))
    if offer["kind"] == "mend":
        ask("POST", f"/api/makings/{bench.making}/mend", {**about, "offer": take})
        say(f"Taken: {offer['title']}{': ' + offer['line'] if offer['line'] else ''}.")
        return
    if offer["to"] is None:
        raise Ending(f"Say where to: hookside work {bench.making} {'rip' if offer['kind'] == 'rip' else 'to'} ROUND")
    answer = move(ask, bench, "rip" if offer["kind"] == "rip" else "goto", to=offer["to"])
    now = bench_of(ask, bench.making, bench.run["run"])
    waits = answer["to"] < offer["to"]
    more = f" Something waits on the way: hookside work {bench.making}" if waits else ""
    say(f"The hook is {place(now, now.at)}.{more}")


@click.command("recap", short_help="Say what to know before the next stitch, after days or weeks.")
@click.argument("making")
@where
@click.option("--piece", default="", metavar="NAME", help="Of that copy; else of the one in hand.")
def recap_(making: str, folder: Path | None, piece: str) -> None:
    """Say what hands forget in MAKING: hook, yarn in hand, side, decreases, mends, parts aside, the count to expect."""
    with house(folder) as ask:
        bench = bench_of(ask, making_of(ask, making)["id"])
        run = run_named(bench.snapshot, piece)["run"]
        found = ask("GET", f"/api/makings/{bench.making}/recap?run={run}")
    put("\n".join(one["text"] for one in found["lines"]) + "\n", None)
