"""Commands typed in this process have their reading process from the nursery, as the servers have."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import pytest
from tests.nursery import reader_at

from hookside.web import readings as room


@pytest.fixture(autouse=True)
def reads_at_once(reading: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "Readings", partial(room.Readings, reader_at(str(reading))))
