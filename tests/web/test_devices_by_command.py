"""The doors of the house by command, with a device that knocks over real TLS."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner
from network import Phone, share

from hookside.cli import devices as room
from hookside.cli import main
from hookside.cli.house import Ask, asking

if TYPE_CHECKING:
    from conftest import House


class Shell:
    """Types `hookside devices ...` where this house answers."""

    def __init__(self, house: House, monkeypatch: pytest.MonkeyPatch) -> None:
        @contextmanager
        def this_one(_: Path | None) -> Iterator[Ask]:
            yield asking(house.url)

        monkeypatch.setattr(room, "house", this_one)

    def __call__(self, *words: str, code: int = 0) -> str:
        done = CliRunner().invoke(main, ["devices", *words])
        assert done.exit_code == code, (words, done.output, done.exception)
        return done.output


@pytest.fixture
def shell(house: House, monkeypatch: pytest.MonkeyPatch) -> Shell:
    return Shell(house, monkeypatch)


def test_a_house_that_is_not_shared_says_so(shell: Shell) -> None:
    assert shell("list") == ("No device is let in yet.\nNot shared just now: Hookside answers on this machine alone.\n")
    assert "Share first" in CliRunner().invoke(main, ["devices", "invite"]).output


def test_a_device_is_invited_let_in_and_shown_out(house: House, shell: Shell) -> None:
    share(house)
    phone = Phone(house)
    link = next(line.split("#")[1] for line in shell("invite").splitlines() if "/pair#" in line)
    assert "Nobody stands at the door" in shell("in", "11", code=2)
    _, knock = phone.ask("POST", "/api/pair/knock", {"shown": link, "name": "gull's phone"})
    assert f"gull's phone stands at the door and shows {knock['figures']}." in shell("list")
    other = "10" if knock["figures"] != "10" else "11"
    assert f"shows {knock['figures']}" in shell("in", other, code=2)
    assert phone.ask("POST", "/api/pair/ask", {"knock": knock["knock"]})[1] == {"paired": False}
    assert shell("in", knock["figures"], "--maker", "Ada") == "gull's phone is let in.\n"
    assert phone.ask("POST", "/api/pair/ask", {"knock": knock["knock"]})[1]["paired"]
    assert phone.ask("GET", "/api/shelf")[0] == 200
    told = json.loads(shell("list", "--json"))
    assert [(one["name"], one["maker"]) for one in told["devices"]] == [("gull's phone", "Ada")]
    assert "No device is called" in shell("out", "seal's tablet", code=2)
    assert "was shown out" in shell("out", "Gull's Phone")
    assert phone.ask("GET", "/api/shelf")[0] != 200


def test_one_at_the_door_is_turned_away(house: House, shell: Shell) -> None:
    share(house)
    phone = Phone(house)
    link, _ = house.doors.pairing.invite()
    _, knock = phone.ask("POST", "/api/pair/knock", {"shown": link, "name": "gull's phone"})
    assert shell("out", knock["figures"]) == "gull's phone was turned away.\n"
    assert phone.ask("POST", "/api/pair/ask", {"knock": knock["knock"]})[0] == 403
