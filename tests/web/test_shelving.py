"""Labels and what is taken off the shelf, over HTTP."""

from __future__ import annotations

from typing import Any


def begin(house: Any) -> tuple[str, int]:
    pattern = house.ask("POST", "/api/patterns", {"text": house.text, "terms": None})[1]["id"]
    return pattern, house.ask("POST", "/api/makings", {"pattern": pattern})[1]["id"]


def on_shelf(house: Any, thing: str, id: Any) -> dict[str, Any] | None:
    return next((one for one in house.ask("GET", "/api/shelf")[1][thing] if one["id"] == id), None)


def test_labels_are_kept_trimmed_and_each_once(house: Any) -> None:
    pattern, making = begin(house)
    for thing, id in (("patterns", pattern), ("makings", making)):
        kept = on_shelf(house, thing, id)
        assert kept is not None
        assert kept["labels"] == []
        status, told = house.ask(
            "PUT", f"/api/{thing}/{id}/labels", {"labels": ["  for the  fair ", "", "blue", "blue"]}
        )
        assert (status, told["labels"]) == (200, ["for the fair", "blue"])
        kept = on_shelf(house, thing, id)
        assert kept is not None
        assert kept["labels"] == ["for the fair", "blue"]
    assert house.ask("PUT", f"/api/patterns/{pattern}/labels", {"labels": []})[1]["labels"] == []
    kept = on_shelf(house, "makings", making)
    assert kept is not None
    assert kept["labels"] == ["for the fair", "blue"]  # one thing's labels are not another's


def test_too_many_or_too_long_labels_change_nothing(house: Any) -> None:
    pattern, _ = begin(house)
    house.ask("PUT", f"/api/patterns/{pattern}/labels", {"labels": ["gull"]})
    for wrong, code in (([str(n) for n in range(13)], "too-many"), (["x" * 41], "too-long")):
        status, told = house.ask("PUT", f"/api/patterns/{pattern}/labels", {"labels": wrong})
        assert (status, told["code"]) == (422, code)
        assert told["say"].endswith(".")
    kept = on_shelf(house, "patterns", pattern)
    assert kept is not None
    assert kept["labels"] == ["gull"]


def test_a_pattern_taken_off_can_be_had_back(house: Any) -> None:
    pattern, making = begin(house)
    house.ask("PUT", f"/api/patterns/{pattern}/labels", {"labels": ["gull"]})
    assert house.ask("DELETE", f"/api/patterns/{pattern}")[0] == 200
    assert on_shelf(house, "patterns", pattern) is None
    assert on_shelf(house, "makings", making) is not None  # what was begun from it goes on
    assert house.ask("POST", f"/api/patterns/{pattern}/back")[0] == 200
    kept = on_shelf(house, "patterns", pattern)
    assert kept is not None
    assert kept["labels"] == ["gull"]
    assert house.ask("POST", f"/api/patterns/{pattern}/back")[1]["code"] == "not-off"


def test_a_making_is_put_away_before_it_is_taken_off_and_comes_back_to_its_place(house: Any) -> None:
    _, making = begin(house)
    assert house.ask("DELETE", f"/api/makings/away/{making}")[1]["code"] == "not-away"
    house.ask("DELETE", f"/api/makings/{making}")
    assert on_shelf(house, "away", making) is not None
    assert house.ask("DELETE", f"/api/makings/away/{making}")[0] == 200
    assert on_shelf(house, "away", making) is None
    assert house.ask("POST", f"/api/makings/away/{making}/back")[0] == 200
    assert on_shelf(house, "away", making) is not None
    assert house.ask("POST", f"/api/makings/{making}/back")[0] == 200
    assert on_shelf(house, "makings", making) is not None
    assert house.ask("POST", f"/api/makings/away/{2**40}/back")[1]["code"] == "not-off"
