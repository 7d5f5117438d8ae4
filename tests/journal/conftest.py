"""A journal on disk with one making in it."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / "vectors")]

from desk import Desk  # noqa: E402

from hookside.journal import Journal  # noqa: E402


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "house"


@pytest.fixture
def journal(folder: Path) -> Iterator[Journal]:
    opened = Journal.open(folder)
    yield opened
    opened.close()


@pytest.fixture
def desk(journal: Journal) -> Desk:
    made = Desk(journal)
    made.begin()
    return made


@pytest.fixture
def reopened(folder: Path, desk: Desk) -> Iterator[Callable[[], Desk]]:
    """The same journal as a later process finds it."""
    opened = []

    def reopen() -> Desk:
        later = Desk(Journal.open(folder), desk.making, desk.now, desk.made, dict(desk.heads))
        opened.append(later.journal)
        return later

    yield reopen
    for one in opened:
        one.close()
