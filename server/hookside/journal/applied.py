"""The moves of a making that were applied, with when each was written down."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, select

from hookside.follow import Strand
from hookside.journal import ledger
from hookside.journal.tables import makings, rows


@dataclass(frozen=True, slots=True)
class AppliedMoves:
    """Moves as {when, run, strand, intent, from, to} in their order, the strands they are of, the making's title.

    `when` is seconds since 1970 by the clock of this machine.
    """

    title: str
    rows: list[dict[str, Any]]
    strands: Mapping[str, Strand]


def applied_moves(connection: Connection, making: int) -> AppliedMoves:
    """All applied moves of a making that is there. Raises NotAsWritten where a strand of theirs is damaged."""
    title = connection.execute(select(makings.c.title).where(makings.c.id == making)).scalar_one()
    columns = (rows.c.run, rows.c.strand, rows.c.intent, rows.c.answer, rows.c.wall)
    written = connection.execute(
        select(*columns).where(rows.c.making == making, rows.c.kind.in_(ledger.APPLIED)).order_by(rows.c.row)
    )
    found = []
    for row in written:
        answer = json.loads(row.answer)
        found.append(
            {
                "when": datetime.fromisoformat(row.wall).timestamp(), "run": row.run, "strand": row.strand,
                "intent": row.intent, "from": answer["from"], "to": answer["to"],
            }
        )  # fmt: skip
    return AppliedMoves(title, found, ledger.read_strands(connection, {row["strand"] for row in found}))
