"""Wall clocks are shown and order nothing: wrong by hours or years, standing still or going backwards."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from desk import Desk

from hookside.journal import Journal
from hookside.journal.backups import backup, kept, rotate
from hookside.journal.restore import restore

YEARS = ["1970-01-01T00:00:00+00:00", "2099-12-31T23:59:59+00:00", "2026-11-25T18:02:00+00:00"]


def steady() -> Iterator[str]:
    return (f"2026-11-25T{n // 3600 % 24:02}:{n // 60 % 60:02}:{n % 60:02}+00:00" for n in itertools.count())


def jumping() -> Iterator[str]:
    return itertools.cycle(YEARS)


def backwards() -> Iterator[str]:
    return (f"{2090 - n % 80}-06-01T12:00:00+00:00" for n in itertools.count())


def an_afternoon(folder: Path, clock: Iterator[str]) -> tuple[list[Any], Any, list[Any]]:
    """Two devices, one offline for a while, a settling, a changed pattern: the answers, the place, the shelf."""
    journal = Journal.open(folder, wall=lambda: next(clock))
    desk = Desk(journal)
    desk.begin()
    answers = [desk.do("next", unit="round"), desk.do("next", unit="stitch")]
    desk.join("tablet")
    desk.now += 3600
    answers += [desk.do("next", unit="stitch"), desk.do("next", unit="stitch")]
    answers.append(desk.do("next", "tablet", unit="round", backlog=True))
    answers.append(desk.do("settle", to=desk.at(), asides=[answers[-1]["row"]]))
    first = desk.making
    desk.begin()
    answers.append(desk.do("next", unit="repeat"))
    journal.update_pattern(journal.patterns()[0]["id"], "changed", None)
    shelf = [(m["id"], m["edited"], m["head"]) for m in journal.makings()]
    states = [journal.snapshot(making)["state"] for making in (first, desk.making)]  # type: ignore[index]
    assert journal.check() == []
    journal.close()
    again = Journal.open(folder)
    assert [again.snapshot(making)["state"] for making in (first, desk.making)] == states  # type: ignore[index]
    again.close()
    return answers, states, shelf


def test_any_clock_gives_the_same_work(tmp_path: Path) -> None:
    right = an_afternoon(tmp_path / "right", steady())
    for clock in (jumping, backwards):
        assert an_afternoon(tmp_path / clock.__name__, clock()) == right


@pytest.mark.parametrize("walls", list(itertools.permutations(YEARS)))
def test_backups_and_restores_by_number(desk: Desk, folder: Path, tmp_path: Path, walls: tuple[str, ...]) -> None:
    """The newest backup is the last one made, and a restore parts where its rows end, whatever the clock said."""
    for wall in walls:
        desk.do("next", unit="stitch")
        rotate(folder, wall)
    assert [one.rows for one in kept(folder)] == [4, 3, 2]
    backup(folder / "journal.sqlite", tmp_path / "copy.sqlite", walls[0])
    epoch = desk.journal.epoch
    desk.do("next", unit="stitch")
    desk.journal.close()
    restore(folder, tmp_path / "copy.sqlite", walls[1], over=True)
    opened = Journal.open(folder)
    told = opened.parted(desk.making, epoch, 5)
    opened.close()
    assert told is not None
    assert (told["known"], told["shared"]) == ("earlier", 4)
