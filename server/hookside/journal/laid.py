"""Strands as they were laid: looked over, and kept."""

from __future__ import annotations

from collections.abc import Iterable

from sqlalchemy import Connection, select

from hookside.follow import Strand, flaws
from hookside.journal.rows import text_sum
from hookside.journal.tables import strands
from hookside.journal.trouble import Unsound

REPORT = "This is a mistake of Hookside's reading; please tell its authors, with the pattern."


def sound(laid: Iterable[Strand]) -> None:
    """Raises Unsound for a strand that does not add up."""
    for strand in laid:
        wrong = flaws(strand)
        if wrong:
            raise Unsound(f"{strand.piece or 'This piece'} cannot be begun: {'; '.join(wrong)}. {REPORT}")


def keep_strands(connection: Connection, laid: Iterable[Strand]) -> None:
    """Keep strands that are not kept yet. One id never stands for two lines of steps."""
    for strand in laid:
        text = strand.model_dump_json()
        kept = connection.execute(select(strands.c.json).where(strands.c.id == strand.id)).scalar()
        if kept is None:
            connection.execute(strands.insert().values(id=strand.id, json=text, sum=text_sum(text)))
        elif Strand.model_validate_json(kept) != strand:
            raise Unsound(f"{strand.piece or 'This piece'} cannot be begun: its steps are known otherwise. {REPORT}")
