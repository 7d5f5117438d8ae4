"""`hookside note`, `colours`, `copy` and `choose`: what is said of one making."""

from __future__ import annotations

import json
import secrets
from collections.abc import Iterator, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any, get_args

import click

from hookside.cli.files import put, say, stop
from hookside.cli.house import Ask, copy_named, house, making_of, run_named, same_name
from hookside.cli.journal import where
from hookside.cli.reading import TermsName
from hookside.pattern import CueKind, Terms
from hookside.web.ending import Ending

KIND = click.Choice(get_args(CueKind))
CHANGED = "The bench asks about it before it goes on. Say --yes to go on by it at once, --stay to leave it."


def chosen(ask: Ask, making: int, choices: list[dict[str, Any]]) -> dict[str, Any]:
    """The choices of a making after these."""
    told: dict[str, Any] = ask("POST", f"/api/makings/{making}/choices", {"choices": choices})
    return told


# -- notes ------------------------------------------------------------------


@click.command("note", short_help="Write a note at a place, or read the notes.")
@click.argument("making")
@click.argument("text", nargs=-1)
@where
@click.option("--piece", default="", metavar="NAME", help='The piece or copy, "Flipper 2"; else the one in hand.')
@click.option("--round", "label", default="", metavar="ROUND", help="The round or row; else where the hook is.")
@click.option("--take", type=int, metavar="N", help="Take away the note of that number.")
@click.option("--json", "as_json", is_flag=True, help="Print the notes as JSON.")
def note_(
    making: str, text: tuple[str, ...], folder: Path | None, piece: str, label: str, take: int | None, as_json: bool
) -> None:
    """Write TEXT down at a place of MAKING: it comes up there again. Without TEXT: print the notes, numbered."""
    with house(folder) as ask:
        one = making_of(ask, making)
        snapshot = ask("GET", f"/api/makings/{one['id']}")
        notes = snapshot["choices"].get("notes", [])
        if take is not None:
            if not 1 <= take <= len(notes):
                stop(f"There is no note {take}; there {'is 1' if len(notes) == 1 else f'are {len(notes)}'}.")
            chosen(ask, one["id"], [{"choice": "note", "value": {**notes[take - 1], "text": ""}}])
            say(f"Taken away: {notes[take - 1]['text']}")
            return
        if text:
            if not " ".join(text).strip():
                stop("There is nothing to write down in this note. Without TEXT the notes are read.")
            run, step, place = _place(snapshot, piece, label)
            when = datetime.now().astimezone().isoformat(timespec="seconds")
            note = {"note": secrets.token_hex(16), "run": run, "step": step, "text": " ".join(text), "when": when}
            chosen(ask, one["id"], [{"choice": "note", "value": note}])
            say(f"Kept at {place}.")
            return
    if as_json:
        put(json.dumps(notes, ensure_ascii=False, indent=1) + "\n", None)
    else:
        lines = (f"{n:>3}  {_at(snapshot, one)}: {_flat(one['text'])}\n" for n, one in enumerate(notes, start=1))
        put("".join(lines), None)


def _strand(snapshot: dict[str, Any], run: str) -> dict[str, Any]:
    strand: dict[str, Any] = snapshot["strands"][snapshot["state"]["runs"][run]["strand"]]
    return strand


def _place(snapshot: dict[str, Any], piece: str, label: str) -> tuple[str, int, str]:
    """Run, step and words of a place."""
    run = run_named(snapshot, piece)
    strand = _strand(snapshot, run["run"])
    at: int = snapshot["state"]["runs"][run["run"]]["at"]
    if label:
        course = next((c for c in strand["courses"] if c["label"] == label), None)
        if course is None:
            stop(f"{copy_named(run)} has no round or row {label}.")
        at = course["first"]
    return run["run"], at, f"{_course(strand, at)} of {copy_named(run)}"


def _course(strand: dict[str, Any], step: int) -> str:
    course = next((c for c in strand["courses"] if step < c["end"]), None)
    return f"{course['kind']} {course['label']}" if course else "the end"


def _at(snapshot: dict[str, Any], note: dict[str, Any]) -> str:
    run = next((run for run in snapshot["runs"] if run["run"] == note["run"]), None)
    return f"{copy_named(run)}, {_course(_strand(snapshot, run['run']), note['step'])}" if run else "elsewhere"


# -- colours ----------------------------------------------------------------


@click.command("colours", short_help="Name the colours in your own words, for all copies or one.")
@click.argument("making")
@click.argument("names", nargs=-1, metavar="[COLOUR=WORDS]...")
@where
@click.option("--copy", "piece", default="", metavar="NAME", help='For one copy alone, "Buoy 2"; else for all of them.')
def colours_(making: str, names: tuple[str, ...], folder: Path | None, piece: str) -> None:
    """Say what you call the pattern's colours in MAKING: "color A=sea blue"; with nothing behind "=" as it is printed.

    Without a colour: print what you call them.
    """
    with house(folder) as ask:
        one = making_of(ask, making)
        snapshot = ask("GET", f"/api/makings/{one['id']}")
        name = f"colours/{run_named(snapshot, piece)['run']}" if piece else "colours"
        hers = dict(snapshot["choices"].get(name, {}))
        for said in names:
            colour, equals, words = (part.strip() for part in said.partition("="))
            if not (colour and equals):
                stop(f'"{said}" is not understood: write a colour, "=" and what you call it.')
            hers.pop(colour, None)
            if words:
                hers[colour] = words
        choices = snapshot["choices"]
        if names:
            choices = chosen(ask, one["id"], [{"choice": name, "value": hers or None}])["choices"]
    put("\n".join(_named(snapshot, choices)) + "\n", None)


def _named(snapshot: dict[str, Any], choices: dict[str, Any]) -> Iterator[str]:
    if not any(name == "colours" or name.startswith("colours/") for name in choices):
        yield "Every colour is called as the pattern calls it."
    for colour, words in choices.get("colours", {}).items():
        yield f"{colour}: {_flat(words)}"
    for run in snapshot["runs"]:
        for colour, words in choices.get(f"colours/{run['run']}", {}).items():
            yield f"{copy_named(run)}, {colour}: {_flat(words)}"


def _flat(words: str) -> str:
    """On one line, whatever a device wrote."""
    return " ".join(words.split())


# -- what changes the work --------------------------------------------------


@click.command("copy", short_help="One more copy of a piece, in the middle of a making.")
@click.argument("making")
@click.argument("piece", required=False, default="")
@where
def copy_(making: str, piece: str, folder: Path | None) -> None:
    """Add one more copy of PIECE to MAKING; without a name, of the piece in hand."""
    with house(folder) as ask:
        one = making_of(ask, making)
        snapshot = ask("GET", f"/api/makings/{one['id']}")
        run = run_named(snapshot, piece)
        number = run["run"].split(".")[0][1:]
        before = snapshot["choices"].get("copies", {})
        many = max(run["copies"], before.get(number, 0)) + 1  # one may wait to be answered
        chosen(ask, one["id"], [{"choice": "copies", "value": {**before, number: many}}])
        why = settled(ask, one["id"], yes=True)
        there = ask("GET", f"/api/makings/{one['id']}")["runs"]
        if sum(other["run"].split(".")[0][1:] == number for other in there) < many:
            chosen(ask, one["id"], [{"choice": "copies", "value": before or None}])
            raise Ending(f"No copy was added. {why}".rstrip())
        say(f"One more {run['piece'] or 'copy'}, {many} in all.")


def settled(ask: Ask, making: int, yes: bool, stay: bool = False, places: Sequence[str] = ()) -> str:
    """What a making asks after a choice, answered where that was said; "" where it asks nothing.

    `places`: "Float 2=start" or "Float 2=there", of copies whose round in hand is another one now.
    """
    asks = ask("GET", f"/api/makings/{making}/recast")
    if not asks["asks"]:
        return ""
    address = f"/api/makings/{making}/recast"
    if stay:
        ask("POST", address, {"stay": True, "head": asks["head"]})
        return "It goes on with the steps it had."
    if not yes:
        return "\n".join([f"{asks['say']} {CHANGED}", *_unsure(asks["runs"], making)])
    if asks["cannot"]:
        return str(asks["cannot"])
    steps = dict(_place_said(asks["runs"], one) for one in places)
    missing = [one for one in asks["runs"] if one["begun"] and not one["sure"] and one["run"] not in steps]
    if missing:
        raise Ending("\n".join(["Say first where you are.", *_unsure(missing, making)]))
    answer = {"stay": False, "digest": asks["digest"], "head": asks["head"], "places": steps}
    ask("POST", address, answer)
    return str(asks["say"])


def _unsure(runs: list[dict[str, Any]], making: int) -> Iterator[str]:
    """Copies whose round in hand is another one now, with what can be said of where they are."""
    for one in runs:
        if one["begun"] and not one["sure"]:
            name = copy_named(one)
            yield f"  {name}: it was {one['was']}; it is {one['now']}"
            yield f'    hookside choose {making} --yes --place "{name}=there"   ({one["to"]["say"]})'
            yield f'    hookside choose {making} --yes --place "{name}=start"   ({one["start"]["say"]})'


def _place_said(runs: list[dict[str, Any]], said: str) -> tuple[str, int]:
    name, _, spot = said.rpartition("=")
    found = next((one for one in runs if one["run"] == name or same_name(name, copy_named(one))), None)
    if found is None or spot not in ("there", "start"):
        stop(f'"{said}" is not understood: write a copy, "=" and there or start, as "Flipper 2=start".')
    return found["run"], found["to" if spot == "there" else "start"]["at"]


@click.command("choose", short_help="Choose for one making: fabric, terms, decreases, order, kinds of prompt.")
@click.argument("making")
@where
@click.option("--gauge", metavar="WORDS", help='Your swatch, for example "20 sts and 22 rounds = 10 cm".')
@click.option("--used", metavar="WORDS", help='What a stretch took, for example "20 sc used 46 cm".')
@click.option("--yarn", metavar="WORDS", help='Another yarn, for example "DK".')
@click.option("--hook", metavar="SIZE", help='Another hook, for example "3.5 mm".')
@click.option("--terms", type=TermsName(), metavar="US|UK", help="The words to work in.")
@click.option("--decreases", type=click.Choice(["plain", "invisible"]), help="How decreases are worked.")
@click.option("--spiral/--joined", default=None, help="Joined rounds as a spiral, or as they are printed.")
@click.option("--order", metavar="HOW", help="one, pair, or the round to which all copies go first.")
@click.option("--quiet", multiple=True, type=KIND, metavar="KIND", help="Turn a kind of prompt down.")
@click.option("--tell", multiple=True, type=KIND, metavar="KIND", help="Tell of a kind again.")
@click.option("--yes", is_flag=True, help="Go on by it at once where it changes the steps.")
@click.option("--stay", is_flag=True, help="Go on with the steps as they were: what was changed is not taken.")
@click.option(
    "--place", "places", multiple=True, metavar="COPY=there|start", help="Where you are, where that is asked."
)
def choose_(
    making: str, folder: Path | None, gauge: str | None, used: str | None, yarn: str | None, hook: str | None,
    terms: Terms | None, decreases: str | None, spiral: bool | None, order: str | None, quiet: tuple[str, ...],
    tell: tuple[str, ...], yes: bool, stay: bool, places: tuple[str, ...],
) -> None:  # fmt: skip
    """Choose for MAKING alone. Without a choice: say what is chosen, and what waits for an answer."""
    fabric = {"gauge": gauge, "used": used, "yarn": yarn, "hook": hook}
    with house(folder) as ask:
        one = making_of(ask, making)
        now = ask("GET", f"/api/makings/{one['id']}/choices")["choices"]
        wanted: dict[str, Any] = {"terms": terms, "decreases": decreases, "spiral": spiral}
        if any(words is not None for words in fabric.values()):
            before = now.get("gauge") or dict.fromkeys(fabric, "")
            wanted["gauge"] = {name: before[name] if words is None else words for name, words in fabric.items()}
        if order is not None:
            wanted["order"] = (
                {"kind": order, "label": None} if order in ("one", "pair") else {"kind": "level", "label": order}
            )
        if quiet or tell:
            kinds = dict.fromkeys([*now.get("kinds_off", []), *quiet])
            wanted["kinds_off"] = [kind for kind in kinds if kind not in tell] or None
        choices = [
            {"choice": name, "value": value}
            for name, value in wanted.items()
            if value is not None or (name == "kinds_off" and (quiet or tell))
        ]
        if not choices:
            asks = settled(ask, one["id"], yes, stay, places)
            if asks and (yes or stay):
                now = ask("GET", f"/api/makings/{one['id']}/choices")["choices"]
            lines = [*in_words(now), *([asks] if asks else [])]
            (say if (yes or stay) and asks else _print)(
                "\n".join(lines) or "Nothing is chosen: all as the pattern has it."
            )
            return
        told = chosen(ask, one["id"], choices)
        asks = settled(ask, one["id"], yes, stay, places) if told["asks"] else ""
    say(asks or "Chosen.")


def _print(text: str) -> None:
    put(f"{text}\n", None)


def in_words(choices: dict[str, Any]) -> list[str]:
    """What is chosen for a making, a line each."""
    fabric = {name: words for name, words in (choices.get("gauge") or {}).items() if words}
    order = choices.get("order") or {}
    copies = {"one": "one after the other", "pair": "pairs side by side"}
    lines = {
        "gauge": fabric.get("gauge"), "used": fabric.get("used"), "yarn": fabric.get("yarn") or choices.get("yarn"),
        "hook": fabric.get("hook") or choices.get("hook"), "terms": choices.get("terms"),
        "decreases": choices.get("decreases"),
        "rounds": {True: "as a spiral", False: "joined, as printed"}.get(choices.get("spiral", "")),
        "copies": copies.get(str(order.get("kind")), f"all to the end of {order.get('label')}") if order else None,
        "turned down": ", ".join(choices.get("kinds_off", [])),
    }  # fmt: skip
    return [f"{name}: {_flat(words)}" for name, words in lines.items() if words]
