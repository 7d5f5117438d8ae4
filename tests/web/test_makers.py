"""Makers: chosen when a device is paired or at the device itself; what each likes follows her to her other devices."""

from __future__ import annotations

import threading
import time
from typing import Any

import pytest
from network import Phone, share


def test_what_a_maker_likes_follows_her(house: Any) -> None:
    share(house)
    phone, tablet = Phone(house), Phone(house)
    phone.pair("phone")  # Ada's, as the other is
    tablet.pair("tablet")
    assert phone.ask("GET", "/api/maker/who") == (200, {"name": "Ada", "makers": ["Ada"]})
    assert house.ask("GET", "/api/maker/who") == (200, {"name": "", "makers": ["Ada"]})

    assert phone.ask("PUT", "/api/maker", {"hand": "left", "counting": "round"})[0] == 200
    assert tablet.ask("GET", "/api/maker")[1]["hand"] == "left"
    assert tablet.ask("GET", "/api/shelf")[1]["maker"]["counting"] == "round"
    assert house.ask("GET", "/api/maker")[1]["hand"] == "right"

    # The tablet is somebody else's now, and the machine is Ada's.
    told = {"name": "Bo", "makers": ["Ada", "Bo"]}
    assert tablet.ask("PUT", "/api/maker/who", {"name": " Bo\n"}) == (200, told)
    assert tablet.ask("GET", "/api/maker/who") == (200, told)
    assert tablet.ask("GET", "/api/maker")[1]["hand"] == "right"
    assert house.ask("PUT", "/api/maker/who", {"name": "Ada"})[1]["name"] == "Ada"
    assert house.ask("GET", "/api/maker")[1]["hand"] == "left"
    assert [device["maker"] for device in house.ask("GET", "/api/share")[1]["devices"]] == ["Ada", "Bo"]
    assert house.ask("PUT", "/api/maker/who", {"name": 5})[0] == 400


def test_a_making_is_begun_for_the_hand_of_its_maker(house: Any) -> None:
    """The hand is the maker's whose device begins it."""
    share(house)
    phone = Phone(house)
    phone.pair()
    phone.ask("PUT", "/api/maker", {"hand": "left"})
    kept = house.ask("POST", "/api/patterns", {"text": house.text})[1]
    for asks, hand in ((phone, "left"), (house, "right")):
        asked = {"pattern": kept["id"], "order": {"kind": "one"}}
        making = asks.ask("POST", "/api/makings", asked)[1]["id"]
        with house.journal.store.reading() as connection:
            found = connection.exec_driver_sql(
                "SELECT payload FROM rows WHERE making = ? AND kind = 'begin'", (making,)
            ).scalar_one()
        assert f'"hand":"{hand}"' in found


def test_two_changes_at_one_time_are_both_kept(house: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """Radio buttons touched one after the other, on lines of their own."""
    known = house.journal.maker

    def slowly(name: str = "") -> Any:
        found = known(name)
        time.sleep(0.05)  # time enough for the other to write
        return found

    monkeypatch.setattr(house.journal, "maker", slowly)
    changes = ({"hand": "left"}, {"words": "full"}, {"plain_keys": "stitch"})
    lines = [threading.Thread(target=house.ask, args=("PUT", "/api/maker", change)) for change in changes]
    for line in lines:
        line.start()
    for line in lines:
        line.join()
    now = house.ask("GET", "/api/maker")[1]
    assert (now["hand"], now["words"], now["plain_keys"]) == ("left", "full", "stitch")
