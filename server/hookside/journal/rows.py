"""The text of rows on disk, and the sums that say it is what was written."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from typing import Any

SUMMED = (
    "row", "making", "run", "strand", "id", "device", "device_seq", "kind", "intent", "payload", "answer", "wall",
)  # fmt: skip

BEFORE_THE_FIRST = ""


_ONE_FORM = json.JSONEncoder(sort_keys=True, separators=(",", ":"), ensure_ascii=True)


def compact(value: Any) -> str:
    """JSON in one form only: ASCII, sorted keys, no spaces."""
    return _ONE_FORM.encode(value)


def row_sum(row: Mapping[str, Any], before: str) -> str:
    """The checksum of a row: over its columns and the sum of the row before it.

    A changed row differs from its own sum; a row taken out or slipped in breaks the chain.
    """
    return text_sum(compact([before, *(row[column] for column in SUMMED)]))


def text_sum(text: str) -> str:
    """The checksum of a text."""
    return hashlib.sha256(text.encode()).hexdigest()[:32]
