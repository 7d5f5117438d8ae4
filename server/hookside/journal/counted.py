"""What the maker counted last."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, select

from hookside.journal import ledger
from hookside.journal.tables import rows


def last_count(connection: Connection, making: int, run: str) -> dict[str, Any] | None:
    """{n, row, when}: the newest count of a run that its maker stated; None where she stated none."""
    stated = (rows.c.making == making, rows.c.run == run, rows.c.intent == "count", rows.c.kind.in_(ledger.APPLIED))
    row = connection.execute(select(rows).where(*stated).order_by(rows.c.row.desc()).limit(1)).first()
    return None if row is None else {"n": ledger.intent_of(row).n, "row": row.row, "when": row.wall}
