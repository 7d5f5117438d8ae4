"""What is held in memory of a making has a bound; what lies behind it is on disk and comes back when it is wanted."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from hookside.follow import HISTORY_KEPT
from hookside.journal import standing


@pytest.fixture
def few(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(standing, "HISTORY_HELD", 4)


def held(desk: Any) -> int:
    return len(desk.journal._standings[desk.making].state.runs["p3.c1"].history)


def to_and_fro(desk: Any, many: int) -> None:
    """Moves of one run, one of a time, none of which comes far."""
    desk.join("phone")
    for start in range(0, many, 50):
        desk.send(*(
            desk.move("next" if n % 2 == 0 else "back", unit="stitch") for n in range(start, min(many, start + 50))
        ))  # fmt: skip


@pytest.mark.usefixtures("few")
def test_a_making_takes_the_same_room_after_any_number_of_moves(desk: Any, reopened: Callable[[], Any]) -> None:
    to_and_fro(desk, 301)
    assert held(desk) <= 8
    later = reopened()
    assert later.at() == desk.at() == 1


@pytest.mark.usefixtures("few")
def test_all_that_could_be_undone_still_can(desk: Any, reopened: Callable[[], Any]) -> None:
    """Two hundred moves, one by one, in batches and after a restart; and not one more."""
    to_and_fro(desk, 230)
    ids = [f"{desk.made - n:032x}" for n in range(HISTORY_KEPT + 1)]
    for number, part in enumerate((ids[:90], ids[90:150], ids[150:])):
        made, desk = desk.made, reopened() if number else desk
        desk.made = made
        desk.join("phone")
        undone = desk.send(*(desk.move("undo", undoes=id) for id in part))
        assert {answer["kind"] for answer in undone[:50]} == {"move"}
    assert [(a["kind"], a.get("code")) for a in undone[49:]] == [("move", None), ("refused", "not-last")]
    assert desk.at() == 0
    assert desk.journal.check() == []


@pytest.mark.usefixtures("few")
def test_a_page_is_shown_as_many_as_ever(desk: Any) -> None:
    to_and_fro(desk, 60)
    assert held(desk) <= 8
    assert len(desk.state()["runs"]["p3.c1"]["history"]) == 50
