"""Commands typed in this process have their reading process from the nursery, as the servers have."""

from __future__ import annotations

import pytest


@pytest.fixture(autouse=True)
def at_once(reads_at_once: None) -> None:
    pass
