"""What the maker counted last."""

from __future__ import annotations

import json
from typing import Any

from sqlalchemy import Connection, select

from hookside.journal import ledger
from hookside.journal.tables import rows


def last_count(connection: Connection, making: int, run: str) -> dict[str, Any] | None:
    """{n, row, when, strand, at}: the newest count of a run that its maker stated, and where the hook was; None where
    she stated none."""
    stated = (rows.c.making == making, rows.c.run == run, rows.c.intent == "count", rows.c.kind.in_(ledger.APPLIED))
    row = connection.execute(select(rows).where(*stated).order_by(rows.c.row.desc()).limit(1)).first()
    if row is None:
        return None
    at = json.loads(row.answer).get("from", 0)
    return {"n": ledger.intent_of(row).n, "row": row.row, "when": row.wall, "strand": row.strand, "at": at}
