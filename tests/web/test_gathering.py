"""What to have at hand, over HTTP: for how many, with ticks that go into the making; habits, and what they change."""

from __future__ import annotations

from typing import Any
from urllib.parse import quote

import pytest

# demo: a cup in joined rounds, its ch 1 not counted
CUP = """Harbour cup
US terms
Hook: 3 mm

CUP
Rnd 1: 6 sc in magic ring, join with sl st in first sc. (6)
Rnd 2: Ch 1, 2 sc in each st around, join with sl st in first sc. (12)
Rnd 3: Ch 1, sc in each st around, join with sl st in first sc. (12)
Rnd 4: Ch 1, (sc in next st, sc2tog) 4 times, join with sl st in first sc. (8)
Fasten off.
"""


@pytest.fixture
def pattern(house: Any) -> str:
    id: str = house.ask("POST", "/api/patterns", {"text": house.text, "terms": None})[1]["id"]
    return id


def yarn(found: dict[str, Any]) -> float:
    metres: float = next(item for item in found["items"] if item["kind"] == "yarn")["metres"]["value"]
    return metres


def test_for_as_many_as_wanted(house: Any, pattern: str) -> None:
    at = f"/api/patterns/{pattern}/gather"
    status, one = house.ask("GET", at)
    assert status == 200
    assert [(piece["name"], piece["copies"]) for piece in one["pieces"]] == [("Buoy", 2)]
    three = house.ask("GET", f"{at}?times=3")[1]
    assert three["pieces"][0]["copies"] == 6
    assert yarn(three) == pytest.approx(3 * yarn(one))
    for wrong in ("0", "100", "-1", "two", "²", ""):
        assert house.ask("GET", f"{at}?times={quote(wrong)}")[0] == 400
    assert house.ask("GET", "/api/patterns/none/gather")[1]["code"] == "no-pattern"


def test_ticks_of_a_pattern_go_into_the_making_that_is_begun(house: Any, pattern: str) -> None:
    at = f"/api/patterns/{pattern}/gather"
    assert house.ask("PUT", at, {"item": "hook", "on": True})[1] == {"ticked": ["hook"]}
    house.ask("PUT", at, {"item": "needle", "on": True})
    assert house.ask("PUT", at, {"item": "hook", "on": False})[1] == {"ticked": ["needle"]}
    assert house.ask("GET", at)[1]["ticked"] == ["needle"]
    assert house.ask("PUT", at, {"item": "", "on": True})[0] == 400
    making = house.ask("POST", "/api/makings", {"pattern": pattern})[1]["id"]
    assert house.ask("GET", f"/api/makings/{making}/choices")[1]["choices"] == {"ticks": {"gather": ["needle"]}}
    assert house.ask("GET", at)[1]["ticked"] == []


def test_for_what_a_making_makes(house: Any, pattern: str) -> None:
    whole = yarn(house.ask("GET", f"/api/patterns/{pattern}/gather")[1])
    making = house.ask("POST", "/api/makings", {"pattern": pattern, "copies": {"1": 5}})[1]["id"]
    found = house.ask("GET", f"/api/makings/{making}/gather")[1]
    assert found["pieces"][0]["copies"] == 5
    assert yarn(found) == pytest.approx(2.5 * whole)
    assert found["pattern"] == pattern
    assert house.ask("GET", "/api/makings/999/gather")[1]["code"] == "gone"


def test_a_text_read_in_the_other_terms(house: Any) -> None:
    read = house.ask("POST", "/api/read", {"text": CUP, "terms": None, "words": "UK"})[1]
    assert read["terms"] == "US"
    assert read["pieces"][0]["courses"][2]["words"]["short"] == "ch 1, 12 dc, join"
    assert read["pieces"][0]["courses"][2]["text"].startswith("Ch 1, sc in each st")
    plain = house.ask("POST", "/api/read", {"text": CUP, "terms": None})[1]
    assert plain["pieces"][0]["courses"][2]["words"]["short"] == "ch 1, 12 sc, join"


def test_what_the_pattern_allows(house: Any) -> None:
    pattern = house.ask("POST", "/api/patterns", {"text": CUP, "terms": None})[1]["id"]
    found = house.ask("GET", f"/api/patterns/{pattern}/habits")[1]
    assert found["because"] == "The text says that it uses US terms."
    assert found["spiral"]["changes"] == ["rounds 1 to 4 of Cup"]
    assert found["invisible"]["changes"] == ["round 4 of Cup"]


def test_a_spiral_in_the_midst_of_a_making_is_asked_about(house: Any) -> None:
    making = house.begin(CUP)
    device = house.device()
    snapshot = device.join(making)["snapshot"]
    device.send(device.move(snapshot, "next", unit="round"))
    before = device.join(making)["snapshot"]
    run = before["runs"][0]["run"]
    at = f"/api/makings/{making}"
    assert house.ask("POST", f"{at}/choices", {"choices": [{"choice": "spiral", "value": True}]})[1]["asks"] is True
    waiting = device.join(making)["snapshot"]
    assert waiting["edited"] is True
    assert waiting["state"] == before["state"], "no place moves before she has said so"
    asked = house.ask("GET", f"{at}/recast")[1]
    (recast,) = asked["runs"]
    assert asked["chosen"] == ["spiral"]
    answer = {"stay": False, "digest": asked["digest"], "head": asked["head"], "places": {run: recast["to"]["at"]}}
    assert house.ask("POST", f"{at}/recast", answer)[0] == 200
    after = device.join(making)["snapshot"]
    strand = after["strands"][after["state"]["runs"][run]["strand"]]
    assert [course["words"]["short"] for course in strand["courses"]] == [
        "magic ring, 6 sc in ring", "inc x 6", "12 sc", "(1 sc, sc2tog) x 4, 1 sl st in next st",
    ]  # fmt: skip


def test_a_making_begins_with_the_habits_of_its_maker(house: Any) -> None:
    house.ask("PUT", "/api/maker", {"terms": "UK", "decreases": "invisible"})
    making = house.begin(CUP)
    snapshot = house.device().join(making)["snapshot"]
    assert snapshot["choices"] == {"terms": "UK", "decreases": "invisible"}
    assert snapshot["edited"] is False
    assert snapshot["terms"] == "UK"
    (strand,) = snapshot["strands"].values()
    assert strand["courses"][3]["words"]["short"] == "ch 1, (1 dc, inv dec) x 4, join"
