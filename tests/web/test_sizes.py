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


# demo: 36 stitches, shut after round 19; the eyes are printed in the last line
SEAL = """Harbour seal
US terms
Hook: 3 mm
Gauge: {gauge}

HEAD
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: (2 sc, inc) x 6 (24)
Rnd 5: (3 sc, inc) x 6 (30)
Rnd 6: (4 sc, inc) x 6 (36)
Rnds 7-14: sc in each st around (36)
Rnd 15: (4 sc, dec) x 6 (30)
Rnd 16: (3 sc, dec) x 6 (24)
Rnd 17: (2 sc, dec) x 6 (18)
Rnd 18: (sc, dec) x 6 (12)
Rnd 19: dec x 6 (6)
Stuff firmly. Fasten off and close the hole.
Insert the safety eyes between rounds 16 and 17.
"""


def due(house: Any, making: int, kind: str) -> list[str]:
    """The rounds behind which what was worked out of a kind waits."""
    _, made = house.ask("GET", f"/api/makings/{making}")
    strand = next(iter(made["strands"].values()))
    at = [cue["step"] for cue in strand["cues"] if cue["kind"] == kind and cue["weight"] == "stop"]
    return [next(c["label"] for c in reversed(strand["courses"]) if c["end"] <= step) for step in at]


def test_a_making_with_her_own_swatch_gets_its_cues_by_it(house: Any) -> None:
    """Stuffing while 28 mm are open: 18 stitches of 5 mm (28.6 mm, n w / pi), 24 of 4 mm (30.6 mm)."""
    text = SEAL.format(gauge="20 sts and 20 rounds = 10 cm")
    id = house.ask("POST", "/api/patterns", {"text": text, "terms": None})[1]["id"]
    order = {"kind": "one", "label": None}
    making = house.ask("POST", "/api/makings", {"pattern": id, "order": order})[1]["id"]
    assert due(house, making, "stuff") == ["17"]
    fabric = {"gauge": "10 sts = 4 cm", "used": "", "yarn": "", "hook": ""}
    status, chose = house.ask(
        "POST", f"/api/makings/{making}/choices", {"choices": [{"choice": "gauge", "value": fabric}]}
    )
    assert (status, chose["asks"]) == (200, True)
    assert due(house, making, "stuff") == ["17"], "never silently"
    _, asks = house.ask("GET", f"/api/makings/{making}/recast")
    assert (asks["asks"], asks["chosen"]) == (True, ["gauge"])
    answer = {"stay": False, "digest": asks["digest"], "head": asks["head"], "places": {}, "anyway": False}
    assert house.ask("POST", f"/api/makings/{making}/recast", answer)[0] == 200
    assert due(house, making, "stuff") == ["16"]
    assert house.ask("GET", f"/api/makings/{making}/size")[1]["fabric"]["stitch_mm"] == 4
    assert house.ask("GET", f"/api/patterns/{id}/size")[1]["fabric"]["stitch_mm"] == 5, "the pattern's stays its own"


def test_a_making_begins_by_what_she_said_beside_the_pattern(house: Any) -> None:
    text = SEAL.format(gauge="20 sts and 20 rounds = 10 cm")
    id = house.ask("POST", "/api/patterns", {"text": text, "terms": None})[1]["id"]
    house.ask("PUT", f"/api/patterns/{id}/fabric", {"gauge": "10 sts = 4 cm"})
    making = house.ask("POST", "/api/makings", {"pattern": id, "order": {"kind": "one", "label": None}})[1]["id"]
    assert due(house, making, "stuff") == ["16"]
    _, made = house.ask("GET", f"/api/makings/{making}")
    assert made["choices"]["gauge"]["gauge"] == "10 sts = 4 cm"
    assert made["edited"] is False


def test_what_is_said_beside_the_pattern_leaves_what_is_under_way_alone(house: Any) -> None:
    text = SEAL.format(gauge="20 sts and 20 rounds = 10 cm")
    id = house.ask("POST", "/api/patterns", {"text": text, "terms": None})[1]["id"]
    making = house.ask("POST", "/api/makings", {"pattern": id, "order": {"kind": "one", "label": None}})[1]["id"]
    rooms = [f"/api/makings/{making}/{room}" for room in ("size", "record", "gather")]
    before = [house.ask("GET", room)[1] for room in rooms]
    house.ask("PUT", f"/api/patterns/{id}/fabric", {"yarn": "bulky", "hook": "6 mm"})
    assert [house.ask("GET", room)[1] for room in rooms] == before


def test_kinds_turned_down_in_one_making(house: Any) -> None:
    text = SEAL.format(gauge="20 sts and 20 rounds = 10 cm")
    id = house.ask("POST", "/api/patterns", {"text": text, "terms": None})[1]["id"]
    order = {"kind": "one", "label": None}
    first, second = (house.ask("POST", "/api/makings", {"pattern": id, "order": order})[1]["id"] for _ in range(2))
    choices = {"choices": [{"choice": "kinds_off", "value": ["eyes", "count"]}]}
    assert house.ask("POST", f"/api/makings/{first}/choices", choices)[1]["asks"] is True
    _, asks = house.ask("GET", f"/api/makings/{first}/recast")
    answer = {"stay": False, "digest": asks["digest"], "head": asks["head"], "places": {}, "anyway": False}
    assert house.ask("POST", f"/api/makings/{first}/recast", answer)[0] == 200

    def cues(making: int) -> list[tuple[str, str]]:
        strand = next(iter(house.ask("GET", f"/api/makings/{making}")[1]["strands"].values()))
        return [(cue["kind"], cue["weight"]) for cue in strand["cues"]]

    assert ("eyes", "stop") in cues(second)
    assert ("count", "whisper") in cues(second)
    assert [one for one in cues(first) if one[0] in ("eyes", "count")] == [("eyes", "whisper")], (
        "what is printed is shown"
    )
    assert ("stuff", "stop") in cues(first)
