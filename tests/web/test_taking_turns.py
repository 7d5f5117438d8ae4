"""Messages that come at the same time share a transaction; one that goes wrong harms no other."""

from __future__ import annotations

import threading
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from hookside.journal import Full
from hookside.web.live import MOST_MOVES, Live, Sent


class Told:
    """Stands in for the socket."""

    def __init__(self) -> None:
        self.news: list[tuple[str, Any]] = []

    def emit(self, event: str, news: Any, to: str, skip_sid: str = "") -> None:
        if event == "rows":  # pages of the shelf hear of it too
            self.news.append((skip_sid, news["rows"][0]["row"]))


class Book:
    """Stands in for the journal: numbers moves, and refuses what is called bad."""

    epoch = "e"
    store = SimpleNamespace(file=Path("house", "journal.sqlite"))

    def __init__(self) -> None:
        self.rows = 0
        self.groups: list[int] = []

    def moves_of(self, asked: list[list[dict[str, Any]]], now: float) -> list[list[dict[str, Any]]]:
        self.groups.append(len(asked))
        if any(move["id"] == "bad" for moves in asked for move in moves):
            raise Full("no room")
        return [[self.write(move) for move in moves] for moves in asked]

    def moves(self, moves: list[dict[str, Any]], now: float) -> list[dict[str, Any]]:
        return self.moves_of([moves], now)[0]

    def write(self, move: dict[str, Any]) -> dict[str, Any]:
        self.rows += 1
        return {"ok": True, "kind": "move", "row": self.rows, "id": move["id"]}


def sent(name: str, count: int = 1) -> Sent:
    return Sent([{"id": name, "making": 1, "device": name, "intent": "next"} for _ in range(count)], f"sid-{name}")


@pytest.fixture
def live() -> Live:
    return Live(Book(), Told())  # type: ignore[arg-type]


def test_what_waits_is_taken_together_and_told_in_order(live: Live) -> None:
    live.queue = [sent("phone"), sent("tablet"), sent("laptop")]
    waiting = list(live.queue)
    live.take()
    assert live.journal.groups == [3]  # type: ignore[attr-defined]
    assert [one.answers[0]["row"] for one in waiting] == [1, 2, 3]
    assert all(one.done for one in waiting)
    assert live.socket.news == [("sid-phone", 1), ("sid-tablet", 2), ("sid-laptop", 3)]


def test_no_transaction_takes_more_than_it_may(live: Live) -> None:
    live.queue = [sent("phone", 400), sent("tablet", 100), sent("laptop", 1)]
    live.take()
    assert (live.journal.groups, len(live.queue)) == ([2], 1)  # type: ignore[attr-defined]
    live.queue = [sent("phone", MOST_MOVES), *live.queue]
    live.take()
    live.take()
    assert (live.journal.groups, live.queue) == ([2, 1, 1], [])  # type: ignore[attr-defined]


def test_one_that_goes_wrong_harms_no_other(live: Live) -> None:
    good, bad, other = sent("phone"), sent("bad"), sent("laptop")
    live.queue = [good, bad, other]
    live.take()
    assert isinstance(bad.error, Full)
    assert (good.error, other.error) == (None, None)
    assert [one.done for one in (good, bad, other)] == [True, True, True]
    assert [one.answers[0]["row"] for one in (good, other)] == [1, 2]
    assert [sid for sid, _ in live.socket.news] == ["sid-phone", "sid-laptop"]  # type: ignore[attr-defined]


def test_many_threads_each_get_their_own_answer(live: Live) -> None:
    got: dict[str, Any] = {}

    def device(name: str) -> None:
        for n in range(20):
            id = "bad" if name == "3" and n == 7 else f"{name}-{n}"
            move = {"id": id, "making": 1, "device": name, "intent": "next"}
            got[f"{name}-{n}"] = live.moves(f"sid-{name}", {"epoch": "e", "moves": [move]})

    threads = [threading.Thread(target=device, args=(str(n),)) for n in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert got.pop("3-7") == {"ok": False, "code": "full", "say": "no room"}
    assert all(answer["answers"][0]["id"] == name for name, answer in got.items())
    assert len({answer["answers"][0]["row"] for answer in got.values()}) == 119
