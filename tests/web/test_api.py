"""What the page asks over HTTP, through the real server and the real encoder."""

from __future__ import annotations

import hashlib
from typing import Any

import pytest

from hookside.compile import read


def refused(answer: tuple[int, Any], status: int, code: str | None = None) -> str:
    """The sentence of a refusal."""
    assert answer[0] == status, answer
    assert set(answer[1]) == {"say", "code"}
    assert code is None or answer[1]["code"] == code, answer
    say: str = answer[1]["say"]
    assert say.endswith("."), say
    return say


def test_read_gives_the_public_form(house: Any) -> None:
    status, answer = house.ask("POST", "/api/read", {"text": house.text, "terms": None})
    assert status == 200
    assert answer.pop("digest") == hashlib.sha256(house.text.encode()).hexdigest()
    assert answer == read(house.text).model_dump(mode="json")
    assert [c["makes"] for c in answer["pieces"][0]["courses"]] == [6, 12, 18, 18, 18, 18, 12, 6]


def test_read_takes_the_terms_that_are_given(house: Any) -> None:
    status, answer = house.ask("POST", "/api/read", {"text": house.text, "terms": "UK"})
    assert (status, answer["terms"]) == (200, "UK")


def test_how_a_round_was_read_is_told(house: Any) -> None:
    asked = {"text": house.text, "terms": None, "course": "buoy.2"}
    status, answer = house.ask("POST", "/api/explain", asked)
    assert (status, answer["title"], answer["line"]) == (200, "Round 2 of Buoy", 7)
    assert answer["parts"][0] == {"text": "inc x 6", "sense": "1 increase, six times in all"}
    assert "It uses 6 and makes 12." in answer["says"]
    refused(house.ask("POST", "/api/explain", asked | {"course": "buoy.99"}), 404, "no-course")
    refused(house.ask("POST", "/api/explain", asked | {"text": "u" * (257 * 1024)}), 413, "too-large")


def test_the_offered_lines_are_taken_at_once(house: Any) -> None:
    broken = house.text.replace("(12)\n", "(13)\n").replace("(sc, inc) x 6", "(sc, inc) x 5")
    status, answer = house.ask("POST", "/api/mend", {"text": broken, "terms": None})
    assert (status, answer["text"], answer["more"]) == (200, house.text, False)
    assert [change["line"] for change in answer["changes"]] == [7, 8, 11]
    assert set(answer["changes"][0]) == {"line", "before", "after", "why"}


@pytest.mark.parametrize(
    "text", ["", "gulls\n" * 1000, "\0\1\2\x7f" * 500, "(" * 5000, "ü" * 1000, "Round 1: (6 sc, " * 900]
)
def test_read_is_calm_about_anything(house: Any, text: str) -> None:
    status, answer = house.ask("POST", "/api/read", {"text": text})
    assert status == 200
    assert answer["findings"]


def test_a_text_too_long_is_said(house: Any) -> None:
    text = "ü" * (128 * 1024)
    assert house.ask("POST", "/api/patterns", {"text": text})[0] == 200  # 256 kB exactly
    for method, path in (("POST", "/api/read"), ("POST", "/api/patterns"), ("PUT", "/api/patterns/1")):
        said = refused(house.ask(method, path, {"text": text + "u"}), 413, "too-large")
        assert "has 257 kB, and Hookside reads up to 256 kB" in said


def test_a_body_too_long_is_said(house: Any) -> None:
    assert "256 kB" in refused(house.ask("POST", "/api/read", {"text": "u" * (3 << 20)}), 413)


def test_a_pattern_is_kept_changed_and_removed(house: Any) -> None:
    status, added = house.ask("POST", "/api/patterns", {"text": house.text, "terms": None})
    assert status == 200
    path = f"/api/patterns/{added['id']}"
    status, kept = house.ask("GET", path)
    assert status == 200
    assert (kept["text"], kept["terms"], kept["source"]) == (house.text, None, "yours")
    status, changed = house.ask("PUT", path, {"text": house.text + "\nWeave in the ends.\n", "terms": "US"})
    assert (status, changed["id"]) == (200, added["id"])
    status, kept = house.ask("GET", path)
    assert kept["text"].endswith("Weave in the ends.\n")
    assert kept["terms"] == "US"
    assert house.ask("DELETE", path)[0] == 200
    for method, body in (("GET", None), ("PUT", {"text": "x"}), ("DELETE", None)):
        refused(house.ask(method, path, body), 404, "no-pattern")


def test_our_own_patterns_are_saved_as_a_copy(house: Any) -> None:
    own = house.journal.add_pattern(house.text, None, "own")
    status, copy = house.ask("PUT", f"/api/patterns/{own}", {"text": house.text + "\n", "terms": None})
    assert status == 200
    assert copy["id"] != own
    assert house.ask("GET", f"/api/patterns/{own}")[1]["text"] == house.text
    assert house.ask("GET", f"/api/patterns/{copy['id']}")[1]["source"] == "yours"


def test_the_shelf_shows_patterns_and_makings(house: Any) -> None:
    making = house.begin()
    status, shelf = house.ask("GET", "/api/shelf")
    assert status == 200
    assert shelf["epoch"] == house.journal.epoch
    (pattern,) = shelf["patterns"]
    assert pattern["title"] == "Mooring buoy"
    assert pattern["source"] == "yours"
    assert [(p["make"], p["courses"]) for p in pattern["pieces"]] == [(2, 8)]
    assert set(pattern["findings"]) == {"error", "warning", "note"}
    assert pattern["can_be_followed"] is True
    (work,) = shelf["makings"]
    assert (work["id"], work["title"], work["finished"], work["asides"]) == (making, "Mooring buoy", False, 0)
    assert set(work) >= {"pattern", "begun", "worked", "in_hand", "terms"}


def test_a_making_is_begun_and_put_away(house: Any) -> None:
    making = house.begin()
    status, snapshot = house.ask("GET", f"/api/makings/{making}")
    assert status == 200
    runs = [(r["run"], r["piece"].upper(), r["copy"], r["copies"]) for r in snapshot["runs"]]
    assert runs == [("p1.c1", "BUOY", 1, 2), ("p1.c2", "BUOY", 2, 2)]
    assert {r["strand"] for r in snapshot["runs"]} == set(snapshot["strands"])
    assert set(snapshot["state"]["runs"]) == {"p1.c1", "p1.c2"}
    assert house.ask("DELETE", f"/api/makings/{making}")[0] == 200
    for method in ("GET", "DELETE"):
        refused(house.ask(method, f"/api/makings/{making}"), 404, "gone")


def test_a_making_put_away_comes_back_at_the_place_it_had(house: Any) -> None:
    making = house.begin()
    assert house.ask("DELETE", f"/api/makings/{making}")[0] == 200
    shelf = house.ask("GET", "/api/shelf")[1]
    assert (shelf["makings"], [(m["id"], m["title"]) for m in shelf["away"]]) == ([], [(making, "Mooring buoy")])
    assert house.ask("POST", f"/api/makings/{making}/back") == (200, {"id": making})
    shelf = house.ask("GET", "/api/shelf")[1]
    assert ([m["id"] for m in shelf["makings"]], shelf["away"]) == ([making], [])
    assert house.ask("GET", f"/api/makings/{making}")[1]["state"]["runs"]["p1.c1"]["at"] == 0
    for id in (making, 99, 2**60):
        refused(house.ask("POST", f"/api/makings/{id}/back"), 404, "not-away")


def test_the_number_of_copies_is_chosen_when_beginning(house: Any) -> None:
    _, kept = house.ask("POST", "/api/patterns", {"text": house.text})
    asked = {"pattern": kept["id"], "order": {"kind": "one"}}
    _, begun = house.ask("POST", "/api/makings", asked | {"copies": {"1": 3}})
    runs = house.ask("GET", f"/api/makings/{begun['id']}")[1]["runs"]
    assert [(r["copy"], r["copies"]) for r in runs] == [(1, 3), (2, 3), (3, 3)]
    for copies in ({"1": 0}, {"1": 100}, {"1": 1.5}, {"1": "2"}, {"1": True}, {"buoy": 2}, {"0": 2}, {"-1": 2}, [2], 2):
        refused(house.ask("POST", "/api/makings", asked | {"copies": copies}), 400, "malformed")
    refused(house.ask("POST", "/api/makings", asked | {"copies": {"7": 2}}), 409, "cannot-follow")


def test_a_misprinted_count_is_something_to_look_at(house: Any) -> None:
    """Its stitches can be followed; only what does not add up can't."""
    house.ask("POST", "/api/patterns", {"text": house.text.replace("x 6 (18)", "x 6 (20)")})
    (pattern,) = house.ask("GET", "/api/shelf")[1]["patterns"]
    assert (pattern["findings"]["error"], pattern["findings"]["warning"]) == (0, 1)


def test_what_cannot_be_followed_is_begun_only_when_asked_twice(house: Any) -> None:
    wrong = house.text.replace("Round 7: (sc, dec) x 6 (12)", "Round 7: (sc in next 6, inc) x 6")
    _, kept = house.ask("POST", "/api/patterns", {"text": wrong})
    asked = {"pattern": kept["id"], "order": {"kind": "one"}}
    refused(house.ask("POST", "/api/makings", asked), 409, "cannot-follow")
    assert house.ask("POST", "/api/makings", asked | {"anyway": True})[0] == 200


def test_nothing_to_work_is_said(house: Any) -> None:
    kept = house.ask("POST", "/api/patterns", {"text": "A letter about gulls."})[1]
    asked = {"pattern": kept["id"], "order": {"kind": "one"}, "anyway": True}
    refused(house.ask("POST", "/api/makings", asked), 409)


def test_a_maker_has_her_ways(house: Any) -> None:
    first = house.ask("GET", "/api/maker")[1]
    assert first["hand"] == "right"
    ways = first | {"hand": "left", "plain": "stitch", "light": "lamplight", "words": "full", "quiet": ["marker"]}
    assert house.ask("PUT", "/api/maker", ways)[0] == 200
    assert house.ask("GET", "/api/maker")[1] == ways
    assert house.ask("GET", "/api/shelf")[1]["maker"] == ways
    refused(house.ask("PUT", "/api/maker", ways | {"hand": "both"}), 400, "malformed")
    refused(house.ask("PUT", "/api/maker", ways | {"quiet": ["gulls"]}), 400, "malformed")
    assert house.ask("GET", "/api/maker")[1] == ways
    # What is not named stays as it is.
    assert house.ask("PUT", "/api/maker", {"counting": "round"}) == (200, ways | {"counting": "round"})


BODIES: list[Any] = [
    None, 1, "text", [], {}, {"text": 5}, {"text": None}, {"text": "x", "more": 1}, {"text": "x", "terms": "FR"},
    {"text": "\ud800"}, {"pattern": 1}, {"pattern": 1, "order": "one"}, {"pattern": 1, "order": {"kind": "gulls"}},
    {"pattern": [], "order": {"kind": "one"}}, {"pattern": 1e99, "order": {"kind": "one"}},
    {"pattern": 10**30, "order": {"kind": "one"}}, {"pattern": "1' or 1", "order": {"kind": "one"}},
]  # fmt: skip
WRITES = [("POST", "/api/read"), ("POST", "/api/explain"), ("POST", "/api/mend"), ("POST", "/api/patterns"),
          ("PUT", "/api/patterns/1"), ("POST", "/api/makings"), ("PUT", "/api/maker")]  # fmt: skip


@pytest.mark.parametrize(("method", "path"), WRITES)
def test_malformed_requests_are_refused_in_words(house: Any, method: str, path: str) -> None:
    for body in BODIES:
        answer = house.ask(method, path, body)
        assert answer[0] in (400, 404), (body, answer)
        refused(answer, answer[0])
    for raw in (b"", b"{", b"\xff\xfe", b"[" * 100_000, b'{"text": "x", "text": '):
        status, headers, _ = house.raw(method, path, raw, {"Content-Type": "application/json"})
        assert (status, headers["Content-Type"]) == (400, "application/json"), raw[:20]


@pytest.mark.parametrize(
    "path",
    [
        "/api", "/api/", "/api/gulls", "/api/makings/0", "/api/makings/-1", "/api/makings/x",
        "/api/makings/99999999999999999999", "/api/patterns/x", "/api/patterns/99999999999999999999",
        "/api/patterns/%00", "/api/shelf/more",
    ],
)  # fmt: skip
def test_unknown_addresses_are_refused_in_words(house: Any, path: str) -> None:
    refused(house.ask("GET", path), 404)


@pytest.mark.parametrize("method", ["DELETE", "PATCH", "TRACE", "OPTIONS", "GULL"])
def test_other_methods_change_nothing(house: Any, method: str) -> None:
    status, _, _ = house.raw(method, "/api/shelf")
    assert status in (200, 404, 405, 501)
    assert house.ask("GET", "/api/shelf")[0] == 200


def test_every_route_refuses_foreign_hosts_and_origins(house: Any) -> None:
    """The list comes from the application itself, so that a new route cannot be forgotten."""
    rules = list(house.app.url_map.iter_rules())
    assert len(rules) > 10
    for rule in rules:
        path = rule.rule.replace("<int:id>", "1").replace("<id>", "1").replace("<path:path>", "x")
        for method in rule.methods - {"OPTIONS"}:
            for headers in ({"Host": "gulls.example"}, {"Origin": "http://gulls.example"}, {"Origin": "null"}):
                status, answered, body = house.raw(method, path, b"{}", headers)
                assert status == 403, (method, path, headers)
                assert method == "HEAD" or b'"say"' in body
                assert "Access-Control-Allow-Origin" not in answered


def test_nothing_is_answered_to_a_preflight_of_others(house: Any) -> None:
    asked = {"Origin": "http://gulls.example", "Access-Control-Request-Method": "PUT"}
    status, headers, _ = house.raw("OPTIONS", "/api/maker", None, asked)
    assert status == 403
    assert not [h for h in headers if h.startswith("Access-Control")]
