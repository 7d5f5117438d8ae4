"""The finish list over HTTP, and its ticks."""

from __future__ import annotations

from typing import Any

# demo
GULL = """Harbour gull
US terms

WING (make 2)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Fasten off, leaving a 30 cm tail for sewing.

BODY
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: sc around (18)
Stuff firmly.
Rnd 5: (sc, dec) x 6 (12)
Rnd 6: dec x 6 (6)
Fasten off.

FINISHING
Sew the wings to round 4 of the body, 3 sts apart.
"""


def test_the_list_and_what_is_ticked(house: Any) -> None:
    pattern = house.ask("POST", "/api/patterns", {"text": GULL, "terms": None})[1]["id"]
    making = house.ask("POST", "/api/makings", {"pattern": pattern, "order": {"kind": "one"}})[1]["id"]
    status, items = house.ask("GET", f"/api/makings/{making}/finish")
    assert status == 200
    assert [item["kind"] for item in items] == ["pin", "look", "sew", "weave", "weave", "tug"]
    sewn = items[2]
    # 18 stitches in round 4, 3 between the wings: 15 are left.
    assert "Round 4 of the body has 18 stitches. With 3 between them, 15 are left" in sewn["more"]
    tick = {"choice": "tick", "value": {"list": "finish", "item": sewn["id"], "on": True}}
    assert house.ask("POST", f"/api/makings/{making}/choices", {"choices": [tick]})[0] == 200
    assert house.ask("GET", f"/api/makings/{making}/choices")[1]["choices"]["ticks"] == {"finish": [sewn["id"]]}


def test_one_copy_is_spoken_of_as_one(house: Any) -> None:
    pattern = house.ask("POST", "/api/patterns", {"text": GULL, "terms": None})[1]["id"]
    begin = {"pattern": pattern, "order": {"kind": "one"}, "copies": {"1": 1}}
    making = house.ask("POST", "/api/makings", begin)[1]["id"]
    ends = [i["text"] for i in house.ask("GET", f"/api/makings/{making}/finish")[1] if i["kind"] == "weave"]
    assert ends[0].startswith("Bury the ends of the wing in the stuffing of what it is sewn to")


def test_a_making_that_is_not_there(house: Any) -> None:
    assert house.ask("GET", "/api/makings/99999/finish")[0] == 404
