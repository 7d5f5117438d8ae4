"""`hookside shelf` and what is done with the things on it: keep, begin, again, label, away, back, off."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from hookside.cli.files import CannotOpen, put, read_bytes, say, stop, tell
from hookside.cli.house import house, making_of, of_pattern, pattern_of, same_name
from hookside.cli.journal import where
from hookside.cli.reading import TermsName
from hookside.follow import MOST_COPIES
from hookside.pattern import Terms
from hookside.web.ending import Ending


@click.command("shelf", short_help="Say what is begun, put away, and there to begin.")
@where
@click.option("--find", default="", metavar="WORDS", help="Only what is called so, by title, piece or label.")
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON.")
def shelf_(folder: Path | None, find: str, as_json: bool) -> None:
    """Say what is begun and where it stands, what is put away, and what may be begun, each with its labels."""
    with house(folder) as ask:
        shelf = found(ask("GET", "/api/shelf"), find)
    put(json.dumps(shelf, ensure_ascii=False, indent=1) + "\n" if as_json else "\n".join(listing(shelf)) + "\n", None)


def found(shelf: dict[str, Any], words: str) -> dict[str, Any]:
    """The things of a shelf in whose title, pieces or labels every word stands."""
    wanted = words.casefold().split()

    of = {one["id"]: one for one in shelf["patterns"]}

    def called(one: dict[str, Any]) -> bool:
        pieces = [piece["name"] for piece in of.get(one.get("pattern", one["id"]), one).get("pieces", [])]
        piece = (one.get("in_hand") or {}).get("piece", "")
        text = "\n".join([one["title"], piece, *pieces, *one.get("labels", [])]).casefold()
        return all(word in text for word in wanted)

    return {name: [one for one in shelf[name] if called(one)] for name in ("makings", "away", "patterns")}


def listing(shelf: dict[str, Any]) -> list[str]:
    """The shelf for a reader."""
    lines: list[str] = []
    for name, title in (("makings", "Begun"), ("away", "Put away")):
        if shelf[name]:
            lines += [title, *(f"{one['id']:>6}  {one['title']}: {stands(one)}{_labels(one)}" for one in shelf[name])]
            lines.append("")
    if shelf["patterns"]:
        lines.append("Patterns")
        for one in shelf["patterns"]:
            whose = "ours" if one["source"] == "own" else "yours"
            lines.append(f"  {one['id']}  {one['title'] or 'without a title'}, {whose}{_labels(one)}")
    return lines or ["Nothing on the shelf is called that."]


def stands(making: dict[str, Any]) -> str:
    """Where a making stands: "Buoy 1 of 2, round 3, 4 of 18 made"."""
    if making.get("damaged"):
        return str(making["damaged"])
    at = making["in_hand"]
    if making["finished"]:
        left = making.get("to_finish")
        more = "" if left is None else ", all of it finished" if not left else f", {left} left to finish"
        return f"every stitch is made{more}"
    if at is None:
        return "no stitch worked yet"
    piece = _copy(at)
    if at["label"] is None:
        then = at["then"]
        return f"{piece}, after the last stitch" + (f"; next is {_copy(then)}" if then and then["crocheted"] else "")
    made = f", {at['stitch']} of {at['of']} made" if at["of"] and at["stitch"] else ", at its start"
    return f"{piece}, {at['kind'] or 'round'} {at['label']}{made}"


def _copy(of: dict[str, Any]) -> str:
    return f"{of['piece']} {of['copy']} of {of['copies']}" if of["copies"] > 1 else str(of["piece"])


def _labels(one: dict[str, Any]) -> str:
    return f"  [{', '.join(one['labels'])}]" if one.get("labels") else ""


@click.command("keep", short_help="Put patterns from files on the shelf.")
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@where
@click.option("--terms", type=TermsName(), metavar="US|UK", help="The terms they are written in.")
def keep_(files: tuple[str, ...], folder: Path | None, terms: Terms | None) -> None:
    """Put the pattern in each FILE ("-": standard input; text, HTML, PDF) on the shelf, and print its id.

    What can't be taken is said, and the others are kept all the same; ends with 1 then.
    """
    from hookside.intake import CannotTake, take

    kept: list[str] = []
    said: list[str] = []
    missed = 0
    with house(folder) as ask:
        for file in files:
            try:
                name, raw = read_bytes(file)
                found = take(raw, name)
                told = ask("POST", "/api/patterns", {"text": found.text, "terms": terms, "file": True})
            except (CannotOpen, CannotTake, Ending) as why:
                sentence = str(why)
                said.append(sentence if file in sentence or file == "-" else f"{file}: {sentence}")
                missed += 1
                continue
            said += found.said
            kept.append(f"{told['id']}  {file}{' (on your shelf already)' if told.get('known') else ''}")
    for sentence in said:
        tell(sentence)
    if kept:
        say("\n".join(kept))
    if missed:
        if len(files) > 1:
            tell(f"{len(kept)} of {len(files)} files are on the shelf.")
        raise SystemExit(1)


@click.command("begin", short_help="Begin a making of a pattern on the shelf.")
@click.argument("pattern")
@where
@click.option("--copies", multiple=True, metavar="PIECE=N", help="How many of a piece, where not as printed.")
@click.option("--order", default="one", metavar="HOW", help="one, pair, or the round to which all copies go first.")
@click.option("--anyway", is_flag=True, help="Although something in it can't be followed.")
def begin_(pattern: str, folder: Path | None, copies: tuple[str, ...], order: str, anyway: bool) -> None:
    """Begin a making of PATTERN, by its id or title, and print its number.

    Copies are worked one after another, side by side (pair), or all to the end of a round (--order 12).
    """
    how = {"kind": order} if order in ("one", "pair") else {"kind": "level", "label": order}
    with house(folder) as ask:
        kept = pattern_of(ask, pattern)
        wanted = dict(_copies(kept, one) for one in copies)
        said = {"pattern": kept["id"], "order": how, "copies": wanted, "anyway": anyway}
        made = ask("POST", "/api/makings", said)
        say(f"{made['id']}  {kept['title']}")


def _copies(pattern: dict[str, Any], said: str) -> tuple[str, int]:
    """ "Flipper=4" as the piece's number and how many."""
    name, _, many = said.rpartition("=")
    names = [piece["name"] for piece in pattern["pieces"]]
    at = next((n for n, one in enumerate(names, start=1) if same_name(name, one) or name == str(n)), None)
    if at is None or not many.isdecimal() or not 1 <= int(many) <= MOST_COPIES:
        stop(f'"{said}" is not understood: write one of {", ".join(names)}, "=" and how many, 1 to {MOST_COPIES}.')
    return str(at), int(many)


@click.command("again", short_help="Begin the same again.")
@click.argument("making")
@where
def again_(making: str, folder: Path | None) -> None:
    """Begin a new making of what MAKING was made of, in the same yarn and fabric; says what came along."""
    with house(folder) as ask:
        before = making_of(ask, making)
        made = ask("POST", f"/api/makings/{before['id']}/again")
        say(f"{made['id']}  {before['title']}\n{made['say']}")


@click.command("label", short_help="Put your own labels on a making or a pattern.")
@click.argument("thing")
@click.argument("labels", nargs=-1)
@where
def label_(thing: str, labels: tuple[str, ...], folder: Path | None) -> None:
    """Put LABELS on THING, a making's number or a pattern's id or title, in place of those it had; none: none."""
    with house(folder) as ask:
        if is_number(thing):
            one, address = making_of(ask, thing), f"/api/makings/{int(thing)}"
        else:
            one = pattern_of(ask, thing)
            address = of_pattern(one["id"])
        kept = ask("PUT", f"{address}/labels", {"labels": list(labels)})["labels"]
        say(f"{one['title']}: {', '.join(kept) or 'no label'}")


@click.command("away", short_help="Put a making away, with its place.")
@click.argument("making")
@where
def away_(making: str, folder: Path | None) -> None:
    """Put MAKING away: out of sight, its place kept, until it is brought back."""
    with house(folder) as ask:
        one = making_of(ask, making)
        ask("DELETE", f"/api/makings/{one['id']}")
        say(f"{one['title']} is put away, with its place. It comes back with: hookside back {one['id']}")


@click.command("off", short_help="Take a pattern, or what is put away, off the shelf.")
@click.argument("thing")
@where
def off_(thing: str, folder: Path | None) -> None:
    """Take THING off the shelf: a making that is put away, by its number, or a pattern, by its id or title.

    Nothing is lost: what was begun from a pattern goes on, and "hookside back" puts it back.
    """
    with house(folder) as ask:
        if is_number(thing):
            if any(one["id"] == int(thing) for one in ask("GET", "/api/shelf")["makings"]):
                stop(f"Making {int(thing)} is begun and at hand. Put it away first: hookside away {int(thing)}")
            ask("DELETE", f"/api/makings/away/{int(thing)}")
            title, id = f"Making {int(thing)}", thing
        else:
            one = pattern_of(ask, thing)
            ask("DELETE", of_pattern(one["id"]))
            title, id = one["title"] or "The pattern without a title", one["id"]
        say(f"{title} is off the shelf. It comes back with: hookside back {id}")


@click.command("back", short_help="Bring back what was put away or taken off.")
@click.argument("thing")
@where
def back_(thing: str, folder: Path | None) -> None:
    """Bring back THING, a making or a pattern that was put away or taken off the shelf, by number, id or title."""
    with house(folder) as ask:
        off, away = ask("GET", "/api/off"), ask("GET", "/api/shelf")["away"]
        if is_number(thing):
            id = int(thing)
            if any(one["id"] == id for one in off["makings"]):  # that is undone first
                ask("POST", f"/api/makings/away/{id}/back")
                say(f"Making {id} is among those put away.")
                return
            ask("POST", f"/api/makings/{id}/back")
            say(f"{making_of(ask, thing)['title']} is on the shelf, at the place it had.")
            return
        ways = [(one, "") for one in off["patterns"]]
        ways += [(one, "away/") for one in off["makings"]] + [(one, "making") for one in away]
        one, way = _called(ways, thing)
        if way == "":
            ask("POST", f"{of_pattern(one['id'])}/back")
            say(f"{one['title'] or 'The pattern'} is on the shelf.")
        elif way == "away/":
            ask("POST", f"/api/makings/away/{one['id']}/back")
            say(f"{one['title']}, making {one['id']}, is among those put away.")
        else:
            ask("POST", f"/api/makings/{one['id']}/back")
            say(f"{one['title']} is on the shelf, at the place it had.")


def _called(ways: list[tuple[dict[str, Any], str]], named: str) -> tuple[dict[str, Any], str]:
    """The one thing of that id or title among those out of sight. One sentence and 2 where there is none, or more."""
    exact = [way for way in ways if named in (str(way[0]["id"]), way[0]["title"])]
    like = [way for way in ways if named.strip() and named.casefold() in way[0]["title"].casefold()]
    found = exact or like
    if not found:
        stop(f'Nothing called "{named}" was put away or taken off. "hookside shelf" names what is put away.')
    if len(found) > 1:
        which = "; ".join(f"{one['id']} {one['title']} ({_WAYS[way]})" for one, way in found)
        stop(f'Several are called "{named}": {which}. Say the number or id of one of these.')
    return found[0]


_WAYS = {"": "a pattern taken off", "away/": "a making taken off", "making": "a making put away"}


def is_number(thing: str) -> bool:
    """Whether this is the number of a making: the id of a pattern has sixteen signs."""
    return thing.isdecimal() and len(thing) < 16
