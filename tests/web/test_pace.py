"""How much, how fast."""

from __future__ import annotations

import threading
from typing import Any

from hookside.web.pace import Bucket, Paces


class Clock:
    now = 0.0

    def __call__(self) -> float:
        return self.now


def test_a_bucket_fills_at_its_rate() -> None:
    clock = Clock()
    bucket = Bucket(rate=2.0, most=4.0, clock=clock)
    assert [bucket.take() for _ in range(6)] == [0, 0, 0, 0, 0.5, 1.0]
    clock.now = 3.0  # six more, two of them owed
    assert [bucket.take() for _ in range(5)] == [0, 0, 0, 0, 0.5]
    clock.now = 1000.0
    assert bucket.take(5.0) == 0.5


def test_what_is_refused_costs_nothing() -> None:
    clock = Clock()
    paces = Paces(rate=1.0, most=2.0, clock=clock)
    assert [paces.allows("gull") for _ in range(50)] == [True, True] + [False] * 48
    assert paces.allows("seal")
    clock.now = 1.0
    assert [paces.allows("gull") for _ in range(2)] == [True, False]


def test_the_names_that_are_remembered_are_bounded() -> None:
    paces = Paces(rate=1.0, most=1.0, names=10, clock=Clock())
    for n in range(1000):
        paces.allows(str(n))
    assert len(paces.buckets) == 10
    assert not paces.allows("999")


def test_a_flood_on_a_socket_is_answered_whole_and_in_order(house: Any) -> None:
    tablet = house.device()
    many, answers, all_there = 1500, [], threading.Event()

    def answered(answer: Any) -> None:
        answers.append(answer["code"])
        if len(answers) == many:
            all_there.set()

    for _ in range(many):
        tablet.line.emit("join", {}, callback=answered)
    assert all_there.wait(120)
    assert answers == ["malformed"] * many
