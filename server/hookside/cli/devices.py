"""`hookside devices`: who may come in from the house: listed, invited, let in, shown out."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from hookside.cli.files import put, say, stop
from hookside.cli.house import house
from hookside.cli.journal import where


@click.group("devices")
def devices() -> None:
    """Phones and tablets of the house: which are let in, inviting one, letting it in, showing it out."""


@devices.command("list")
@where
@click.option("--json", "as_json", is_flag=True, help="Print them as JSON.")
def list_(folder: Path | None, as_json: bool) -> None:
    """Say which devices may come in, and who stands at the door."""
    with house(folder) as ask:
        now = ask("GET", "/api/share")
    if as_json:
        put(json.dumps({name: now[name] for name in ("on", "devices", "knocking")}, ensure_ascii=False) + "\n", None)
        return
    lines = [f"{one['id'][:6]}  {_whose(one)}, {_seen(one)}" for one in now["devices"]]
    lines += [f"{one['name']} stands at the door and shows {one['figures']}." for one in now["knocking"]]
    if not lines:
        lines.append("No device is let in yet.")
    at = ", ".join(now.get("addresses", []))
    lines.append(f"Shared at {at}." if at else "Not shared just now: Hookside answers on this machine alone.")
    put("\n".join(lines) + "\n", None)


@devices.command("invite")
@where
def invite_(folder: Path | None) -> None:
    """Invite one device: a link to open there, or eight letters to type. It then stands at the door."""
    with house(folder) as ask:
        made = ask("POST", "/api/share/invite")
    lasts = made["lasts"]
    put(
        f"On the phone or tablet open, within {_minutes(lasts['link'])}:\n  {made['url']}\n"
        f"or open its address up to the sign # and type, within {_minutes(lasts['typed'])}: {made['typed']}\n"
        "It then shows two figures. Let it in by them: hookside devices in FIGURES\n",
        None,
    )


@devices.command("in")
@click.argument("figures")
@click.option("--name", default="", metavar="NAME", help="What the device is called here; else what it calls itself.")
@click.option("--maker", default="", metavar="NAME", help="Whose it is.")
@where
def in_(figures: str, name: str, maker: str, folder: Path | None) -> None:
    """Let the device in that stands at the door and shows FIGURES."""
    with house(folder) as ask:
        knock = _at_the_door(ask("GET", "/api/share"), figures)
        called = name or knock["name"]
        ask("POST", "/api/share/answer", {"knock": knock["id"], "let_in": True, "name": called, "maker": maker})
    say(f"{called} is let in.")


@devices.command("out")
@click.argument("device")
@where
def out_(device: str, folder: Path | None) -> None:
    """Show a device out by its name or number; the two figures of one at the door turn that one away."""
    with house(folder) as ask:
        now = ask("GET", "/api/share")
        turned = [one for one in now["knocking"] if one["figures"] == device]
        if turned:
            ask("POST", "/api/share/answer", {"knock": turned[0]["id"], "let_in": False})
            say(f"{turned[0]['name']} was turned away.")
            return
        wanted = device.casefold()
        found = [one for one in now["devices"] if one["name"].casefold() == wanted or one["id"].startswith(wanted)]
        if not found:
            stop(f'No device is called "{device}". "hookside devices list" names them.')
        if len(found) > 1:
            stop(f'Several are called "{device}": say the number of one: {", ".join(one["id"][:6] for one in found)}.')
        ask("DELETE", f"/api/devices/{found[0]['id']}")
    say(f"{_whose(found[0])} was shown out: it has to be invited to come in again.")


def _whose(one: dict[str, Any]) -> str:
    return f"{one['name']} ({one['maker']})" if one["maker"] else str(one["name"])


def _seen(one: dict[str, Any]) -> str:
    return "here now" if one["here"] else f"last here on {one['seen']}"


def _minutes(seconds: int) -> str:
    many = max(1, round(seconds / 60))
    return "1 minute" if many == 1 else f"{many} minutes"


def _at_the_door(now: dict[str, Any], figures: str) -> dict[str, Any]:
    for one in now["knocking"]:
        if one["figures"] == figures:
            return dict(one)
    if not now["knocking"]:
        stop('Nobody stands at the door. Invite a device first: "hookside devices invite".')
    shown = ", ".join(f"{one['name']} shows {one['figures']}" for one in now["knocking"])
    stop(f"Nobody at the door shows {figures}; {shown}. If that is not what the device shows, it is not yours.")
