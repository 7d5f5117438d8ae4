"""A pattern changed over HTTP while devices work at it: they are told, asked, and nothing moves until the answer."""

from __future__ import annotations

from typing import Any

LONGER = (
    ("Rounds 4-6", "Rounds 4-8"),
    ("Round 7", "Round 9"),
    ("Round 8", "Round 10"),
)


def longer(text: str) -> str:
    for old, new in LONGER[::-1]:
        text = text.replace(old, new)
    return text


def working(house: Any) -> tuple[int, Any, dict[str, Any]]:
    """A making with the hook in round 2, and a device in it."""
    making = house.begin()
    device = house.device()
    snapshot = device.join(making)["snapshot"]
    device.send(device.move(snapshot, "next", unit="round"))
    device.send(device.move(snapshot, "next", unit="stitch"))
    return making, device, snapshot


def test_the_way_of_a_change(house: Any) -> None:
    making, device, snapshot = working(house)
    assert house.ask("GET", f"/api/makings/{making}/recast") == (200, {"asks": False})
    before = device.join(making)["snapshot"]
    status, _ = house.ask("PUT", f"/api/patterns/{snapshot['pattern']}", {"text": longer(house.text), "terms": None})
    assert status == 200
    assert device.news.wait(10)
    (row,) = device.heard[-1]["rows"]
    assert (row["kind"], device.heard[-1]["making"]) == ("choice", making)
    now = device.join(making, before["epoch"], before["head"])["snapshot"]
    assert (now["edited"], now["state"]) == (True, before["state"])
    assert house.ask("GET", "/api/shelf")[1]["makings"][0]["edited"] is True

    _, asked = house.ask("GET", f"/api/makings/{making}/recast")
    assert asked["asks"] is True
    assert asked["cannot"] is None
    assert "Rounds 9 and 10 are new." in asked["say"]
    (first, second) = asked["runs"]  # two copies of one piece
    assert (first["sure"], first["from"]["label"], first["to"]["label"]) == (True, "2", "2")
    assert second["begun"] is False

    device.news.clear()
    answer = {"stay": False, "digest": asked["digest"], "head": asked["head"]}
    status, done = house.ask("POST", f"/api/makings/{making}/recast", answer)
    assert status == 200, done
    assert device.news.wait(10)
    after = device.join(making)["snapshot"]
    assert (after["head"], after["edited"]) == (done["head"], False)
    run = snapshot["runs"][0]["run"]
    assert after["state"]["runs"][run]["strand"] != before["state"]["runs"][run]["strand"]
    assert house.ask("POST", f"/api/makings/{making}/recast", answer)[1]["code"] == "answered"
    assert house.journal.check() == []


def test_staying(house: Any) -> None:
    making, device, snapshot = working(house)
    house.ask("PUT", f"/api/patterns/{snapshot['pattern']}", {"text": longer(house.text), "terms": None})
    before = device.join(making)["snapshot"]["state"]
    asked = house.ask("GET", f"/api/makings/{making}/recast")[1]
    # An answer to a question that was asked before something else came in answers nothing.
    old = house.ask("POST", f"/api/makings/{making}/recast", {"stay": True, "head": asked["head"] - 1})
    assert (old[0], old[1]["code"]) == (409, "moved-on")
    assert house.ask("GET", f"/api/makings/{making}/recast")[1]["asks"] is True
    assert house.ask("POST", f"/api/makings/{making}/recast", {"stay": True, "head": asked["head"]})[0] == 200
    after = device.join(making)["snapshot"]
    assert (after["edited"], after["state"]) == (False, before)


def test_other_words_ask_nothing(house: Any) -> None:
    making, device, snapshot = working(house)
    text = house.text.replace("red cotton", "blue cotton")
    house.ask("PUT", f"/api/patterns/{snapshot['pattern']}", {"text": text, "terms": None})
    assert house.ask("GET", f"/api/makings/{making}/recast") == (200, {"asks": False})
    assert device.join(making)["snapshot"]["edited"] is False


def test_a_text_that_can_not_be_followed_yet(house: Any) -> None:
    making, _, snapshot = working(house)
    text = house.text.replace("Round 7: (sc, dec) x 6 (12)", "Round 7: (sc, dec) x 9 (18)")
    house.ask("PUT", f"/api/patterns/{snapshot['pattern']}", {"text": text, "terms": None})
    _, asked = house.ask("GET", f"/api/makings/{making}/recast")
    assert asked["asks"] is True
    assert "can't be followed yet" in asked["cannot"]
    answer = {"stay": False, "digest": asked["digest"], "head": asked["head"]}
    assert house.ask("POST", f"/api/makings/{making}/recast", answer)[1]["code"] == "cannot-follow"
    assert house.ask("POST", f"/api/makings/{making}/recast", {**answer, "anyway": True})[0] == 200


def test_what_was_begun_anyway_goes_on_so_when_one_of_two_faults_is_mended(house: Any) -> None:
    """She knows of the other one: nothing is said of a text that can't be followed, and what was mended is named."""
    wrong = house.text.replace("(sc, inc) x 6 (18)", "(sc, inc) x 6 (20)")
    wrong = wrong.replace("Round 7: (sc, dec) x 6 (12)", "Round 7: (sc, dec) x 5 (10)")
    assert wrong.count("(20)") == wrong.count("x 5 (10)") == 1
    _, kept = house.ask("POST", "/api/patterns", {"text": wrong, "terms": None})
    begun = {"pattern": kept["id"], "order": {"kind": "one"}, "anyway": True}
    making = house.ask("POST", "/api/makings", begun)[1]["id"]
    house.ask("PUT", f"/api/patterns/{kept['id']}", {"text": wrong.replace("(20)", "(18)"), "terms": None})
    _, asked = house.ask("GET", f"/api/makings/{making}/recast")
    assert asked["cannot"] is None
    assert "Round 3 adds up now." in asked["say"]
    assert "differ" not in asked["say"]
    answer = {"stay": False, "digest": asked["digest"], "head": asked["head"]}
    assert house.ask("POST", f"/api/makings/{making}/recast", answer)[0] == 200


def test_an_answer_to_another_question(house: Any) -> None:
    making, _, snapshot = working(house)
    house.ask("PUT", f"/api/patterns/{snapshot['pattern']}", {"text": longer(house.text), "terms": None})
    _, asked = house.ask("GET", f"/api/makings/{making}/recast")
    answer = {"stay": False, "digest": asked["digest"], "head": asked["head"]}
    for wrong in ({"digest": "0" * 64}, {"head": asked["head"] - 1}):
        status, said = house.ask("POST", f"/api/makings/{making}/recast", answer | wrong)
        assert (status, said["code"]) == (409, "moved-on")
    for wrong in ({"places": {"p1.c1": -1}}, {"places": []}, {"stay": 1}):
        assert house.ask("POST", f"/api/makings/{making}/recast", answer | wrong)[0] == 400
    assert house.ask("GET", "/api/makings/99999/recast") == (200, {"asks": False})


def test_a_pattern_of_ours_is_changed_in_a_copy(house: Any) -> None:
    own = house.journal.add_pattern(house.text, None, "own")
    _, made = house.ask("POST", "/api/makings", {"pattern": own, "order": {"kind": "one"}})
    device = house.device()
    snapshot = device.join(made["id"])["snapshot"]
    device.send(device.move(snapshot, "next", unit="round"))
    _, copy = house.ask("PUT", f"/api/patterns/{own}", {"text": longer(house.text), "terms": None})
    assert copy["id"] != own
    _, asked = house.ask("GET", f"/api/makings/{made['id']}/recast")
    assert asked["asks"] is True
    answer = {"stay": False, "digest": asked["digest"], "head": asked["head"]}
    assert house.ask("POST", f"/api/makings/{made['id']}/recast", answer)[0] == 200
    assert device.join(made["id"])["snapshot"]["pattern"] == copy["id"]
    assert house.journal.pattern(own)["text"] == house.text
