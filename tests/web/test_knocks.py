"""Who asks to come in is told to the pages on the machine itself, and to no other."""

from __future__ import annotations

import queue
from typing import Any

from network import Phone, share


def test_a_knock_is_told_at_the_machine_alone(house: Any) -> None:
    share(house)
    paired = Phone(house)
    paired.pair()
    there: list[Any] = []
    line = paired.line()
    line.on("knocks", there.append)
    early: queue.Queue[Any] = queue.Queue()
    house.device().line.on("knocks", early.put)

    stranger = Phone(house)
    link, _ = house.doors.pairing.invite()
    assert stranger.ask("POST", "/api/pair/knock", {"shown": link, "name": "gull's phone"})[0] == 200
    assert early.get(timeout=20) == {"names": ["gull's phone"]}
    (knock,) = house.doors.pairing.waiting()
    house.ask("POST", "/api/share/answer", {"knock": knock.id, "let_in": False})
    assert early.get(timeout=20) == {"names": []}
    assert line.call("which", {}, timeout=20)["code"] == "malformed"  # whatever was told has come by now
    assert there == []
    line.disconnect()


def test_a_page_that_comes_later_is_told_too(house: Any) -> None:
    share(house)
    link, _ = house.doors.pairing.invite()
    Phone(house).ask("POST", "/api/pair/knock", {"shown": link, "name": "gull's phone"})
    told: queue.Queue[Any] = queue.Queue()
    house.listening = {"knocks": told.put}
    house.device()
    assert told.get(timeout=20) == {"names": ["gull's phone"]}
