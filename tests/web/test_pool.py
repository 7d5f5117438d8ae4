"""The processes that listen: started when wanted, gone when not, and what becomes of those that fail."""

from __future__ import annotations

import queue
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from hookside.voice.heard import EngineLost
from hookside.voice.pool import FULL, Pool, Wanted

from .listening_page import PACKET, said, waited


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
    others = [
        pool.listen(ENGLISH, ABOUT, lambda event, said: heard.put(event)) for _ in range(FULL["pocketsphinx"] - 1)
    ]
    for ear in others:
        pool.tell(ear.id, {"do": "sound", "seq": 0, "quiet": 0}, said("slt-go-back"))
    assert [heard.get(timeout=30) for _ in others] == ["heard"] * len(others)
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
