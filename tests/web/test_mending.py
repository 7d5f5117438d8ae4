"""Count check, lost and found, mends and the recap over HTTP: questions move nothing, a mend is told to all devices."""

from __future__ import annotations

from typing import Any

import pytest

RUN = "p1.c1"


def working(house: Any, rounds: int = 3) -> tuple[int, Any, dict[str, Any], int]:
    """A making with so many rounds done, a device in it, the making as it was told, and the place."""
    making = house.begin()
    device = house.device()
    snapshot = device.join(making)["snapshot"]
    answers = [device.send(device.move(snapshot, "next", unit="round"))["answers"][0] for _ in range(rounds)]
    return making, device, snapshot, int(answers[-1]["to"]) if answers else 0


def post(house: Any, making: int, what: str, **body: Any) -> tuple[int, Any]:
    status, told = house.ask("POST", f"/api/makings/{making}/{what}", {"run": RUN, **body})
    return int(status), told


def test_a_miscount_from_the_first_question_to_the_mended_strand(house: Any) -> None:
    making, device, snapshot, at = working(house)
    first = post(house, making, "count", at=at, answers={})[1]
    assert first["ask"]["text"] == "How many stitches do you count in round 3?"
    answers = {"n": 17, "edge": "yes", "gap": "differs", "which": 4}
    status, told = post(house, making, "count", at=at, answers=answers)
    assert (status, told["ask"]) == (200, None)
    assert [(offer["key"], offer["kind"]) for offer in told["offers"]] == [
        ("shaping", "mend"), ("hidden", "mend"), ("spot", "rip"), ("rip", "rip"), ("leave", "mend"),
    ]  # fmt: skip
    assert told["offers"][0]["line"] == "(1 sc, dec) x 5, 2 sc"
    assert "mend" not in told["offers"][0]
    # Nothing has moved yet.
    assert house.ask("GET", f"/api/makings/{making}")[1]["state"]["runs"][RUN]["at"] == at

    other = house.device("tablet")
    other.join(making)
    status, done = post(house, making, "mend", at=at, answers=answers, offer="shaping")
    assert status == 200, done
    assert other.news.wait(10)
    assert other.heard[-1]["rows"][0]["kind"] == "recast"
    after = device.join(making)["snapshot"]
    run = after["state"]["runs"][RUN]
    strand = after["strands"][run["strand"]]
    assert (after["head"], run["at"]) == (done["head"], done["to"])
    assert [(c["uses"], c["makes"]) for c in strand["courses"][2:7]] == [
        (12, 17), (17, 17), (17, 17), (17, 17), (17, 12),
    ]  # fmt: skip
    assert run["strand"] != snapshot["state"]["runs"][RUN]["strand"]
    (told,) = after["mends"][RUN]
    assert told["say"] == "Round 7: (1 sc, dec) x 5, 2 sc (round 3 came out with 17)"
    assert told["course"] == strand["courses"][2]["id"]

    # The same once more is not offered: the count is right now.
    status, again = post(house, making, "mend", at=run["at"], answers={"n": 17}, offer="shaping")
    assert (status, again["code"]) == (409, "no-offer")
    status, back = post(house, making, "unmend", at=run["at"])
    assert status == 200, back
    taken = device.join(making)["snapshot"]["state"]["runs"][RUN]
    assert (taken["strand"], taken["at"]) == (snapshot["state"]["runs"][RUN]["strand"], at)
    assert post(house, making, "unmend", at=at)[1]["code"] == "no-mend"


def test_a_mend_from_another_place_is_not_taken(house: Any) -> None:
    making, device, snapshot, at = working(house)
    device.send(device.move(snapshot, "next", unit="stitch"))
    head = house.ask("GET", f"/api/makings/{making}")[1]["head"]
    answers = {"n": 17, "edge": "yes", "gap": "unsure"}
    status, told = post(house, making, "mend", at=at, answers=answers, offer="shaping")
    assert (status, told["code"]) == (409, "moved-on")
    assert house.ask("GET", f"/api/makings/{making}")[1]["head"] == head


def test_lost_and_found(house: Any) -> None:
    making, _, _, at = working(house)
    ask = post(house, making, "lost", at=at, answers={"loop": "yes"})[1]["ask"]
    assert ask["text"] == "Is the marker still in?"
    found = post(house, making, "lost", at=at, answers={"loop": "yes", "marker": "yes", "n": 5, "courses": 4})[1]
    assert found["said"] == "You are in round 5, and 5 stitches of 18 are made."
    assert found["to"] > at


def test_the_recap(house: Any) -> None:
    making, device, snapshot, at = working(house)
    device.send(device.move(snapshot, "count", n=18))
    assert 0 <= house.ask("GET", f"/api/makings/{making}/rest")[1]["rested"] < 3600
    told = house.ask("GET", f"/api/makings/{making}/recap")[1]
    lines = {line["what"]: line["text"] for line in told["lines"]}
    assert lines["expect"] == "Count round 3 all the way: I expect 18."
    assert lines["count"] == "Last count you gave: 18, in round 3."
    assert "decrease" not in lines, "a plain one that is not named tells nothing"
    other = post(house, making, "mend", at=at, answers={"n": 17, "edge": "yes", "gap": "unsure"}, offer="hidden")
    assert other[0] == 200
    lines = {line["what"]: line["text"] for line in house.ask("GET", f"/api/makings/{making}/recap")[1]["lines"]}
    assert lines["mend"] == "Changed: Round 4: 15 sc, inc, 1 sc (round 3 came out with 17)."
    assert lines["expect"] == "Count round 3 all the way: I expect 17."


def test_after_a_rest_of_a_day_the_tension_is_compared(house: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    making, *_ = working(house)

    def told() -> str:
        lines = house.ask("GET", f"/api/makings/{making}/recap")[1]["lines"]
        return " ".join(line["text"] for line in lines)

    assert "After a rest" not in told()
    monkeypatch.setattr("hookside.web.mending_api.DAY", 0.0)
    assert "After a rest, work one round and lay it beside the last ones" in told()


def test_the_recap_names_the_colours_of_the_copy_in_hand(house: Any) -> None:
    """Her words for one copy lie over those for all, and the hook is said once."""
    text = (
        "Striped buoy\nUS terms\n\nMaterials\n3 mm crochet hook\n\nBUOY (make 2)\nWith navy:\n"
        "Rnd 1: 6 sc in a magic ring (6)\nChange to cream.\nRnd 2: inc x 6 (12)\nRnd 3: sc around (12)\nFasten off.\n"
    )
    making = house.begin(text)
    choices = [
        {"choice": "colours", "value": {"navy": "ink", "cream": "wool"}},
        {"choice": "colours/p1.c1", "value": {"cream": "moss"}},
    ]
    assert house.ask("POST", f"/api/makings/{making}/choices", {"choices": choices})[0] == 200

    def told(run: str) -> dict[str, str]:
        lines = house.ask("GET", f"/api/makings/{making}/recap?run={run}")[1]["lines"]
        return {line["what"]: line["text"] for line in lines}

    device = house.device()
    snapshot = device.join(making)["snapshot"]
    device.send(device.move(snapshot, "next", unit="round"))
    assert told("p1.c1")["hook"].startswith("Hook 3 mm. ")
    assert told("p1.c1")["yarn"].startswith("Yarn in hand: ink.")


def test_what_makes_no_sense_is_said(house: Any) -> None:
    making, _, _, at = working(house)
    assert post(house, making, "count", at=at, answers={"n": [1]})[0] == 400
    assert post(house, making, "count", at=10**6, answers={})[1]["code"] == "moved-on"
    assert post(house, 999, "lost", at=0, answers={})[1]["code"] == "gone"
    assert house.ask("POST", f"/api/makings/{making}/lost", {"run": "p9.c9", "at": 0})[1]["code"] == "no-run"
    assert post(house, making, "mend", at=at, answers={}, offer="shaping")[1]["code"] == "no-offer"


# demo
COASTER = """Quay coaster
US terms

Coaster
Rnd 1: 6 sc in magic ring, join (6)
Rnd 2: ch 1, inc x 6, join (12)
Rnd 3: ch 1, (sc, inc) x 6, join (18)
Rnd 4: ch 1, (2 sc, inc) x 6, join (24)
Rnd 5: ch 1, sc in each st around, join (24)
"""


def test_the_chain_that_leads_into_the_round_stays_made(house: Any) -> None:
    making = house.begin(COASTER)
    device = house.device()
    snapshot = device.join(making)["snapshot"]
    for unit in ("round", "round", "round", "stitch"):
        answer = device.send(device.move(snapshot, "next", unit=unit))["answers"][0]
    strand = next(iter(snapshot["strands"].values()))
    assert answer["to"] == strand["courses"][3]["first"] + 1  # behind the chain
    answers = {"n": 17, "edge": "yes", "gap": "unsure"}
    status, done = post(house, making, "mend", at=answer["to"], answers=answers, offer="shaping")
    assert status == 200, done
    after = device.join(making)["snapshot"]
    mended = after["strands"][after["state"]["runs"][RUN]["strand"]]
    assert done["to"] == mended["courses"][3]["first"] + 1
    assert [course["makes"] for course in mended["courses"]] == [6, 12, 17, 24, 24]
