"""Reading in a process of its own: what fails or takes for ever there stays there, and is said."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import hookside
from hookside.notation.trees import building
from hookside.web import reader
from hookside.web import readings as room
from hookside.web.readings import READER, CannotRead, Readings
from hookside.web.said import Said

# The reader itself, with a text or two that do to it what a mistake in reading would.
STUMBLING = """
import os, sys
from hookside.web import reader
good = reader.read
def read(text, *more):
    if "stumble" in text: raise RuntimeError("on purpose")
    if "for ever" in text:
        while True: pass
    if "wait" in text:
        import time; time.sleep(30)
    if "vanish" in text: os._exit(3)
    return good(text, *more)
reader.read = read
reader.SECONDS = 1
reader.serve(sys.stdin.buffer, sys.stdout.buffer)
"""
BAD = ["stumble", "for ever", "vanish"]
GOOD = "Float\n\nFLOAT\nRnd 1: 6 sc in magic ring (6)\n"  # demo


@pytest.fixture
def stumbling() -> Iterator[Readings]:
    made = Readings([sys.executable, "-c", STUMBLING])
    yield made
    made.close()


@pytest.fixture(scope="module")
def lasting() -> Iterator[Readings]:
    """As `stumbling`, for all tests that leave it as it was: a process takes two seconds of the processor to start."""
    made = Readings([sys.executable, "-c", STUMBLING])
    yield made
    made.close()


@pytest.fixture
def shaky(new_house: Any, lasting: Readings) -> Any:
    return new_house(lasting)


def test_patience_ends_by_the_clock_too(lasting: Readings, monkeypatch: pytest.MonkeyPatch) -> None:
    lasting.whole(GOOD, None)  # it is up
    monkeypatch.setattr(lasting, "patience", 0.5)
    with pytest.raises(CannotRead):
        lasting.whole("wait", None)


def test_a_process_that_is_long_in_coming_up_does_not_make_a_good_text_unreadable(stumbling: Readings) -> None:
    stumbling.patience = 0.05  # less than any process takes to start
    assert b"Float" in stumbling.whole(GOOD, None)


@pytest.mark.parametrize("text", BAD)
def test_one_bad_text_leaves_the_shelf_standing(shaky: Any, text: str) -> None:
    status, refusal = shaky.ask("POST", "/api/read", {"text": text})
    assert (status, refusal["say"].startswith("This one cannot be read: ")) == (422, True)
    bad = shaky.ask("POST", "/api/patterns", {"text": f"\n{text}, a story\nline"})[1]["id"]
    making = shaky.begin(GOOD)
    status, shelf = shaky.ask("GET", "/api/shelf")
    assert status == 200
    shown = next(p for p in shelf["patterns"] if p["id"] == bad)
    assert shown["title"] == f"{text}, a story"
    assert shown["cannot_read"].startswith("This one cannot be read: ")
    assert (shown["can_be_followed"], shown["pieces"], shown["findings"]["error"]) == (False, [], 1)
    assert [m["id"] for m in shelf["makings"]] == [making]
    status, refusal = shaky.ask("POST", "/api/makings", {"pattern": bad, "order": {"kind": "one"}})
    assert (status, refusal["code"]) == (422, "unread")
    assert shaky.ask("DELETE", f"/api/patterns/{bad}")[0] == 200
    assert len(shaky.ask("GET", "/api/shelf")[1]["patterns"]) == 1


def test_what_went_wrong_is_told_where_the_server_runs(stumbling: Readings, capfd: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(CannotRead):
        stumbling.whole("stumble", None)
    assert "RuntimeError: on purpose" in capfd.readouterr().err


def test_moves_go_on_while_a_text_is_read(shaky: Any, lasting: Readings, monkeypatch: pytest.MonkeyPatch) -> None:
    making = shaky.begin(GOOD)
    tablet = shaky.device()
    snapshot = tablet.join(making)["snapshot"]
    monkeypatch.setattr(lasting, "patience", 60)
    told: list[Any] = []
    pasting = threading.Thread(target=lambda: told.append(shaky.ask("POST", "/api/read", {"text": "wait"})))
    pasting.start()
    while not lasting.turn.locked():
        pass
    assert tablet.send(tablet.move(snapshot, "next", unit="stitch"))["answers"][0]["ok"]
    assert shaky.ask("GET", f"/api/makings/{making}")[0] == 200
    assert told == []
    assert lasting.process is not None
    lasting.process.kill()
    pasting.join()
    assert told[0][0] == 422


def test_more_than_can_wait_are_turned_away(lasting: Readings) -> None:
    for _ in range(room.WAITING):
        lasting.places.acquire()
    with pytest.raises(Said, match="still reading other texts"):
        lasting.whole(GOOD, None)
    for _ in range(room.WAITING):
        lasting.places.release()
    assert json.loads(lasting.whole(GOOD, None))["title"] == "Float"


def test_the_process_ends_with_its_asker(stumbling: Readings) -> None:
    stumbling.spine(GOOD, None)
    process = stumbling.process
    assert process is not None
    stumbling.close()
    assert process.returncode is not None
    with pytest.raises(ProcessLookupError):
        os.kill(process.pid, 0)


def test_the_first_line_is_the_title_of_what_cannot_be_read() -> None:
    assert room.unread("\n  Gulls  \nx", "why")["title"] == "Gulls"
    assert room.unread("", "why")["title"] == ""
    assert len(room.unread("g" * 500, "why")["title"]) == 80


def test_a_process_that_nobody_asks_goes_and_is_started_again(lasting: Readings) -> None:
    lasting.whole(GOOD, None)
    process = lasting.process
    assert process is not None
    os.kill(process.pid, room.IDLED)  # as its own clock does
    assert lasting.spine(GOOD + "Rnd 2: inc x 6 (12)\n", None)["pieces"][0]["courses"] == 2
    assert lasting.process is not process


def test_the_process_that_was_woken_is_the_one_that_is_asked(stumbling: Readings) -> None:
    stumbling.wake()
    woken = stumbling.process
    assert woken is not None
    stumbling.wake()
    assert stumbling.spine(GOOD, None)["pieces"][0]["courses"] == 1
    assert stumbling.process is woken
    with stumbling.turn:  # a text is being read
        stumbling.wake()
    stumbling.close()
    stumbling.wake()
    assert stumbling.process is None


def test_what_was_closed_reads_no_more() -> None:
    readings = Readings()
    assert readings.spine("Rnd 1: 6 sc in MR (6)", "US")["can_be_followed"]
    readings.close()
    with pytest.raises(Said, match="being stopped"):
        readings.spine("Rnd 1: 7 sc in MR (7)", "US")
    assert readings.process is None


def test_a_text_under_way_when_all_is_closed_is_not_called_unreadable(stumbling: Readings) -> None:
    told: list[Said] = []

    def pasting() -> None:
        try:
            stumbling.whole("wait", None)
        except Said as e:
            told.append(e)

    asking = threading.Thread(target=pasting)
    asking.start()
    while stumbling.process is None:
        time.sleep(0.01)
    stumbling.close()
    asking.join()
    assert [(e.status, e.say) for e in told] == [(503, "Hookside is being stopped.")]


def test_a_reading_process_whose_asker_is_gone_ends_without_a_word() -> None:
    """Its answer has nowhere to go: a pipe of which nobody holds the other end."""
    reading, writing = os.pipe()
    with subprocess.Popen(
        READER, stdin=subprocess.PIPE, stdout=writing, stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(Path(hookside.__file__).resolve().parents[1])},
    ) as process:  # fmt: skip
        os.close(writing)
        os.close(reading)
        question = json.dumps({"work": "spine", "of": ["Rnd 1: 6 sc in MR (6)", None]}).encode()
        _, said = process.communicate(question + b"\n", timeout=60)
    assert (process.returncode, said) == (0, b"")


def test_what_is_made_once_is_made_before_the_first_question() -> None:
    building._known_plan.cache_clear()
    building._parser.cache_clear()
    reader.make_ready()
    assert building._parser.cache_info().currsize == 1
