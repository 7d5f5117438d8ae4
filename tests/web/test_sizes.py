"""Size, yarn and stuffing over HTTP, and the maker's own fabric kept."""

from __future__ import annotations

from typing import Any

import pytest


@pytest.fixture
def pattern(house: Any) -> str:
    id: str = house.ask("POST", "/api/patterns", {"text": house.text, "terms": None})[1]["id"]
    return id


def test_what_a_pattern_comes_to(house: Any, pattern: str) -> None:
    status, found = house.ask("GET", f"/api/patterns/{pattern}/size")
    assert status == 200
    (piece,) = found["pieces"]
    assert piece["make"] == 2
    assert len(piece["openings_mm"]) == 8
    assert found["said"] == {}
    # 3 mm hook, 1.5 times as wide: 18 stitches of 4.5 mm are 25.8 mm across (n w / pi; common practice).
    assert piece["openings_mm"][2] == pytest.approx(25.8, abs=0.05)


def test_her_own_swatch_is_kept(house: Any, pattern: str) -> None:
    where = f"/api/patterns/{pattern}"
    status, found = house.ask("PUT", f"{where}/fabric", {"gauge": " 20 sts = 10 cm ", "yarn": ""})
    assert status == 200
    assert found["said"] == {"gauge": "20 sts = 10 cm"}
    assert found["fabric"]["stitch_mm"] == 5
    assert house.ask("GET", f"{where}/size")[1]["fabric"]["stitch_mm"] == 5
    status, refused = house.ask("PUT", f"{where}/fabric", {"gauge": "4000 sts = 10 cm"})
    assert status == 422
    assert "no yarn makes that" in refused["say"]
    assert house.ask("GET", f"{where}/size")[1]["said"] == {"gauge": "20 sts = 10 cm"}, "what can't be is not kept"
    assert house.ask("PUT", f"{where}/fabric", {})[1]["fabric"]["stitch_mm"] == 4.5


@pytest.mark.parametrize("sent", [{"gauge": 5}, {"gauge": "x" * 201}, {"size": "big"}, []])
def test_what_is_no_fabric(house: Any, pattern: str, sent: Any) -> None:
    assert house.ask("PUT", f"/api/patterns/{pattern}/fabric", sent)[0] == 400


def test_a_pattern_that_is_gone(house: Any) -> None:
    assert house.ask("GET", "/api/patterns/none/size")[0] == 404
    assert house.ask("PUT", "/api/patterns/none/fabric", {})[0] == 404
