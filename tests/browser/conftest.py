"""Tests in a real browser share `pages.py` and `nursery.py`, which lie beside them."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

sys.path.insert(0, str(Path(__file__).resolve().parent))

from nursery import Grown, readers
from tests.conftest import LiveServer

# What is waited for must come; how soon is measured elsewhere, on a machine that does nothing beside it.
expect.set_options(timeout=30_000)


class GrownServer(LiveServer):
    """A `hookside serve` whose start takes no time, since everything is read in already."""

    def __init__(self, folder: Path, readers: Path) -> None:
        super().__init__(folder)
        self.readers = readers

    def spawn(self) -> Any:
        _, _, _, *arguments = self.command()
        return Grown(arguments, self.environment(), self.readers)


@pytest.fixture(scope="session")
def reading(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Where the servers of this session have their reading processes from."""
    with readers(tmp_path_factory.mktemp("r") / "r") as at:
        yield at


@pytest.fixture
def server(tmp_path: Path, reading: Path) -> Iterator[GrownServer]:
    """A running server on an empty data folder."""
    live = GrownServer(tmp_path / "house", reading)
    live.start()
    yield live
    if live.process is not None:
        live.stop()
