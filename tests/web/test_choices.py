"""Choices over the line and over HTTP: told to the other devices, and asked about where they change the steps."""

from __future__ import annotations

from typing import Any


def choose(device: Any, snapshot: dict[str, Any], *choices: tuple[str, Any]) -> dict[str, Any]:
    """As a page sends it: among its moves."""
    asked = device.move(snapshot, "choose", choices=[{"choice": name, "value": value} for name, value in choices])
    answer: dict[str, Any] = device.send(asked | {"run": "", "strand": ""})["answers"][0]
    return answer


def test_a_choice_of_one_device_is_told_to_the_other(house: Any) -> None:
    making = house.begin()
    phone, tablet = house.device("phone"), house.device("tablet")
    snapshot = phone.join(making)["snapshot"]
    tablet.join(making)
    answer = choose(phone, snapshot, ("yarn", "red cotton"))
    assert (answer["ok"], answer["kind"], answer["asks"]) == (True, "choice", False)
    assert tablet.news.wait(10)
    (row,) = tablet.heard[-1]["rows"]
    assert (row["kind"], row["choices"], row["asks"]) == ("choice", [{"choice": "yarn", "value": "red cotton"}], False)
    assert tablet.heard[-1]["head"] == answer["head"]
    assert tablet.join(making)["snapshot"]["choices"] == {"yarn": "red cotton"}


def test_over_http(house: Any) -> None:
    making = house.begin()
    at = f"/api/makings/{making}/choices"
    device = house.device()
    device.join(making)
    tick = {"choice": "tick", "value": {"list": "gather", "item": "hook", "on": True}}
    status, told = house.ask("POST", at, {"choices": [tick], "id": "a" * 32})
    assert (status, told["choices"], told["asks"]) == (200, {"ticks": {"gather": ["hook"]}}, False)
    assert device.news.wait(10)
    assert house.ask("POST", at, {"choices": [tick], "id": "a" * 32}) == (200, told)
    assert house.ask("GET", at) == (200, {"head": told["head"], "choices": told["choices"]})
    status, no = house.ask("POST", at, {"choices": [{"choice": "spiral", "value": 1}]})
    assert (status, no["code"]) == (400, "malformed")
    assert no["say"].startswith('"spiral" cannot be that: ')
    assert house.ask("POST", at, {"choices": []})[0] == 400
    assert house.ask("GET", "/api/makings/999/choices")[1]["code"] == "gone"
    house.ask("DELETE", f"/api/makings/{making}")
    assert house.ask("POST", at, {"choices": [tick]})[1]["code"] == "gone"


def test_other_terms_are_other_words_at_the_same_place(house: Any) -> None:
    making = house.begin()
    device = house.device()
    snapshot = device.join(making)["snapshot"]
    device.send(device.move(snapshot, "next", unit="round"))
    before = device.join(making)["snapshot"]
    run = snapshot["runs"][0]["run"]
    assert choose(device, before, ("terms", "UK"))["asks"] is True
    waiting = device.join(making)["snapshot"]
    assert (waiting["edited"], waiting["terms"]) == (True, "US")
    assert house.ask("GET", f"/api/makings/{making}/recast") == (200, {"asks": False})
    after = device.join(making)["snapshot"]
    assert (after["edited"], after["choices"], after["terms"]) == (False, {"terms": "UK"}, "UK")
    strand = after["strands"][after["state"]["runs"][run]["strand"]]
    assert strand["terms"] == "UK"
    assert after["state"]["runs"][run]["at"] == before["state"]["runs"][run]["at"]
    assert after["state"]["runs"][run]["history"] == before["state"]["runs"][run]["history"]
