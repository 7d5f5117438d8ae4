"""Where a journal comes from: each restore is a branch, and what two epochs have in common lies before they parted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from hookside.journal.tables import branches, rows

WHOLE = 2**63 - 1  # all rows


@dataclass(frozen=True, slots=True)
class Branch:
    """A journal that was restored: alike with `parent` up to and with row `after`."""

    epoch: str
    parent: str
    after: int
    restored: str
    taken: str | None


def read_branches(connection: Connection) -> dict[str, Branch]:
    """All restores this journal knows of, by the epoch they began."""
    found = connection.execute(select(branches))
    return {row.epoch: Branch(row.epoch, row.parent, row.after_row, row.restored, row.taken) for row in found}


def shared(known: Mapping[str, Branch], now: str, other: str) -> int | None:
    """The last row that the journals of two epochs have alike; None where they have nothing to do with each other."""
    mine, theirs = _way_up(known, now), _way_up(known, other)
    for epoch, alike in mine.items():
        if epoch in theirs:
            return min(alike, theirs[epoch])
    return None


def _way_up(known: Mapping[str, Branch], epoch: str) -> dict[str, int]:
    """Each ancestor of an epoch, nearest first, with the last row both have alike."""
    way, alike = {epoch: WHOLE}, WHOLE
    while epoch in known and known[epoch].parent not in way:
        alike = min(alike, known[epoch].after)
        epoch = known[epoch].parent
        way[epoch] = alike
    return way


def last_row(connection: Connection, making: int, most: int = WHOLE) -> int:
    """The making's last row that is not beyond `most`; 0 where there is none."""
    found = select(func.max(rows.c.row)).where(rows.c.making == making, rows.c.row <= most)
    return connection.execute(found).scalar() or 0
