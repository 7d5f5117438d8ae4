"""The ear over a real socket: sound in, words out, by the real engine in its own process."""

from __future__ import annotations

import json
import signal
import sys
from typing import Any

import pytest

from hookside.voice.heard import BYTES_A_SECOND
from hookside.voice.pool import MOST
from hookside.web.ear import BURST

from .listening_page import PACKET, QUIET, Listener, moves_go_on, said, still, waited


@pytest.fixture
def making(house: Any) -> int:
    return int(house.begin())


@pytest.fixture
def page(house: Any, making: int) -> Listener:
    return Listener(house, making)


def test_a_word_is_heard_by_the_page_that_said_it_alone(house: Any, making: int, page: Listener) -> None:
    other = Listener(house, making, "phone")
    other.device.join(making)
    answer = page.listen()
    assert (answer["ok"], answer["rate"], answer["missing"]) == (True, 16000, [])
    assert answer["engine"]["name"] == "pocketsphinx"
    assert "What listens" in answer["engine"]["say"]
    page.sound(said("slt-next-stitch"))
    heard = page.heard()
    assert (heard["ear"], heard["intent"], heard["unit"], heard["words"], heard["verdict"]) == (
        page.ear, "stitch", "stitch", "next stitch", "act",
    )  # fmt: skip
    assert len(heard["utterance"]) == 32
    int(heard["utterance"], 16)
    assert heard["ms"] > 0
    assert heard["scores"]
    assert all(isinstance(score, float) for score in heard["scores"].values())
    page.sound(said("slt-go-back"))
    again = page.heard()
    assert again["intent"] == "back"
    assert again["utterance"] != heard["utterance"]
    assert page.told.empty()
    assert other.told.empty()


def test_a_lost_packet_drops_the_utterance_in_hand_and_no_more(page: Listener) -> None:
    page.listen()
    sound = said("slt-next-stitch")
    middle = len(sound) // 2 // PACKET * PACKET
    page.sound(sound[:middle])
    page.seq += 1
    page.sound(sound[middle:])
    page.sound(said("slt-go-back"))
    heard = page.heard()
    while heard["verdict"] == "ignore":
        heard = page.heard()
    assert heard["intent"] == "back"


def test_silence_that_was_left_out_counts_as_silence(page: Listener) -> None:
    page.listen()
    around = len(still(0.7))
    bare = [said(f"rms-{phrase}")[around:-around] for phrase in ("round-done", "where-now")]
    page.sound(bare[0], quiet=4000)
    page.sound(bare[1], quiet=4000)  # the gap before it ends the first
    page.sound(still(0.1), quiet=1500)
    first, second = page.heard(), page.heard()
    assert (first["intent"], second["intent"]) == ("round", "where")
    assert first["scores"]["quiet"] == pytest.approx(4.0, abs=0.3)
    assert second["scores"]["quiet"] == pytest.approx(4.0, abs=0.3)


def test_a_deaf_ear_hears_nothing_and_then_again(page: Listener) -> None:
    page.listen()
    page.tell("deaf", on=True)
    page.sound(said("slt-next-stitch"))
    page.tell("deaf", on=False)
    page.sound(said("slt-go-back"))
    assert page.heard()["intent"] == "back"


def test_while_something_is_asked_only_its_answers_are_heard(page: Listener) -> None:
    page.listen()
    page.tell("expect", **QUIET | {"waits": "question", "answers": ["yes", "no"]})
    page.sound(said("slt-yes-please"))
    assert page.heard()["intent"] == "yes"
    page.tell("expect", **QUIET)
    page.sound(said("slt-go-back"))
    assert page.heard()["intent"] == "back"


def test_a_count_is_followed(page: Listener, monkeypatch: pytest.MonkeyPatch) -> None:
    """Numbers come to the page; which are taken for a count, and when, is tested where that is decided."""
    monkeypatch.setattr("hookside.web.ear.BURST", 60.0)  # said faster than one can say them
    page.listen(count={"style": "round"})
    numbers = list(range(1, 13))
    page.tell("expect", **QUIET | {"count": {"style": "round", "next": numbers, "left": 12, "words": {"inc": True}}})
    for name in ("one", "two", "three"):
        page.sound(said(f"slt-{name}"))
    page.sound(said("slt-go-back"))
    counted = []
    while (told := page.next())[0] == "counted":
        counted.append(told[1])
    assert told[1]["intent"] == "back"
    assert counted
    for number in counted:
        assert (number["ear"], number["recount"]) == (page.ear, False)
        assert number["number"] in numbers
        assert number["ms"] > 0
        assert number["words"]


def test_another_device_takes_the_ear(house: Any, making: int, page: Listener) -> None:
    page.listen()
    phone = Listener(house, making, "phone")
    assert phone.listen()["ok"]
    assert page.next() == ("ear_taken", {"making": making, "by": "phone"})
    page.sound(said("slt-go-back"))
    page.settled()
    phone.sound(said("slt-next-stitch"))
    assert phone.heard()["intent"] == "stitch"
    assert page.told.empty()
    assert len(house.ears.open) == len(house.ears.pool.ears) == 1


def test_two_makings_listen_side_by_side(house: Any, page: Listener) -> None:
    other = Listener(house, house.begin(), "phone")
    assert page.listen()["ok"]
    assert other.listen()["ok"]
    page.sound(said("slt-go-back"))
    other.sound(said("slt-next-stitch"))
    assert page.heard()["intent"] == "back"
    assert other.heard()["intent"] == "stitch"


def test_the_same_device_again_takes_nothing_from_itself(house: Any, making: int, page: Listener) -> None:
    page.listen()
    first = page.ear
    again = Listener(house, making)
    again.device.id = page.device.id
    assert again.listen()["ok"]
    assert page.told.empty()
    assert first not in house.ears.pool.ears
    assert page.listen()["ok"]
    assert len(house.ears.open) == 1


def test_who_goes_away_or_stops_gives_the_ear_back(house: Any, making: int, page: Listener) -> None:
    page.listen()
    page.tell("unlisten")
    page.settled()
    assert house.ears.open == house.ears.pool.ears == {}
    page.listen()
    phone = Listener(house, making, "phone")
    phone.listen()
    phone.device.line.disconnect()
    waited(lambda: not house.ears.pool.ears)
    assert house.ears.open == {}


def test_an_ear_of_another_page_is_out_of_reach(house: Any, making: int, page: Listener) -> None:
    page.listen()
    stranger = Listener(house, making, "stranger")
    stranger.ear = page.ear
    stranger.tell("unlisten")
    stranger.tell("deaf", on=True)
    stranger.sound(said("slt-next-stitch"))
    stranger.settled()
    page.sound(said("slt-go-back"))
    assert page.heard()["intent"] == "back"


NONSENSE: list[Any] = [
    None, 1, "x", [], {}, {"ear": 1}, {"ear": "x"}, {"ear": "x", "seq": -1, "quiet": 0, "pcm": b"ab"},
    {"ear": "x", "seq": 0, "quiet": 0, "pcm": "ab"}, {"ear": "x", "on": "yes"}, b"ab", {"ear": "\ud800"},
]  # fmt: skip
OF_AN_EAR: list[tuple[str, dict[str, Any]]] = [
    ("sound", {"seq": 0, "quiet": 0, "pcm": b"abc"}), ("sound", {"seq": 0, "quiet": 0, "pcm": ""}),
    ("sound", {"seq": 0, "quiet": -5, "pcm": b"ab"}), ("sound", {"seq": 2**60, "quiet": 0, "pcm": b"ab"}),
    ("sound", {"seq": 0, "quiet": 0, "pcm": bytes(BYTES_A_SECOND + 2)}),
    ("sound", {"seq": 0.5, "quiet": 0, "pcm": b"ab"}),
    ("expect", {"waits": "gulls", "answers": None, "count": None}), ("expect", {"waits": None, "answers": "yes"}),
    ("expect", QUIET | {"answers": ["yes"] * 61}), ("expect", QUIET | {"answers": [1]}),
    ("expect", QUIET | {"count": {"style": "round", "next": [1] * 10_001, "left": 1}}),
    ("expect", QUIET | {"count": {"style": "sideways", "next": [1], "left": 1}}),
    ("expect", QUIET | {"more": 1}), ("expect", QUIET | {"most": {"rounds": 0}}),
    ("deaf", {"on": 1}), ("deaf", {}), ("unlisten", {"more": 1}),
]  # fmt: skip


def test_nonsense_is_thrown_away(page: Listener) -> None:
    for payload in NONSENSE:
        answer = page.device.ask("listen", payload) if not isinstance(payload, bytes) else None
        assert answer is None or (answer["ok"] is False and answer["say"])
        for event in ("sound", "expect", "deaf", "unlisten"):
            page.device.line.emit(event, payload)
    for more in ({"making": -1}, {"language": "en-us"}, {"device": ""}, {"single": 1}, {"count": {}}, {"more": 1}):
        answer = page.listen(**more)
        assert (answer["ok"], answer["code"]) == (False, "malformed")
    page.listen()
    for event, data in OF_AN_EAR:
        page.tell(event, **data)
    page.tell("expect", **QUIET | {"waits": "stop", "answers": ["gulls", "yes"]})
    page.tell("expect", **QUIET)
    page.sound(said("slt-go-back"))
    assert page.heard()["intent"] == "back"
    assert moves_go_on(page)


def test_sound_faster_than_it_can_be_said_is_thrown_away(
    house: Any, page: Listener, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("hookside.web.ear.PACE", 0.0)  # as if no time went by while it is sent
    page.listen()
    sent: list[int] = []
    house.ears.pool.tell, tell = lambda ear, m, s=b"": sent.append(len(s)), house.ears.pool.tell
    page.sound(still(20.0))
    page.settled()
    assert sum(sent) == BURST * BYTES_A_SECOND
    house.ears.pool.tell = tell
    assert moves_go_on(page)


def test_an_engine_that_is_lost_is_told_and_taps_go_on(house: Any, page: Listener) -> None:
    page.listen()
    (process,) = set(house.ears.pool.ears.values())
    process.process.send_signal(signal.SIGKILL if sys.platform != "win32" else signal.SIGTERM)
    event, data = page.next()
    assert event == "ear_lost"
    assert (data["ear"], data["code"]) == (page.ear, "no-engine")
    assert "start listening again" in data["say"]
    assert house.ears.open == {}
    page.sound(said("slt-go-back"))
    assert moves_go_on(page)
    assert page.listen()["ok"]
    page.sound(said("slt-go-back"))
    assert page.heard()["intent"] == "back"


def test_too_many_listeners(house: Any, page: Listener) -> None:
    page.listen()
    house.ears.pool.ears.update(dict.fromkeys(map(str, range(MOST - 1)), next(iter(house.ears.pool.ears.values()))))
    other = Listener(house, house.begin(), "phone")
    answer = other.listen()
    assert (answer["ok"], answer["code"]) == (False, "busy")


def test_decisions_are_kept_where_asked_and_never_sound(
    house: Any, page: Listener, monkeypatch: pytest.MonkeyPatch
) -> None:
    page.listen()
    page.sound(said("slt-go-back"))
    page.heard()
    assert not house.ears.decisions.file.exists()
    house.ears.decisions.kept = True
    page.listen()
    page.sound(said("slt-go-back"))
    page.heard()
    waited(lambda: house.ears.decisions.file.exists() and "go back" in house.ears.decisions.file.read_text("utf-8"))
    (line,) = house.ears.decisions.file.read_text("utf-8").splitlines()
    kept = json.loads(line[line.index("{") :])
    assert kept["words"] == "go back"
    assert {"score", "length", "quiet", "verdict", "why"} <= kept.keys()
    assert len(line) < 1000
