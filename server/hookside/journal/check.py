"""Looks through a whole journal for what is not as it was written."""

from __future__ import annotations

import json
from typing import Any

from sqlalchemy import Connection, select

from hookside.follow import Applied, Strand, apply, begin, flaws
from hookside.journal.ledger import APPLIED, intent_of, read_strands, strands_of_recast, stray_sum
from hookside.journal.rows import BEFORE_THE_FIRST, row_sum, text_sum
from hookside.journal.standing import recast_by
from hookside.journal.tables import GUARDS, makings, rows, strands, strays


def check(connection: Connection) -> list[str]:
    """Sentences, one for each thing that is wrong: the file's pages, rows and their sums, strands, replay."""
    wrong = [
        f"The file's own check says: {line}."
        for (line,) in connection.exec_driver_sql("PRAGMA integrity_check(20)")
        if line != "ok"
    ]
    wrong += [
        f"A row of {table} names something that is not there."
        for table, *_ in connection.exec_driver_sql("PRAGMA foreign_key_check")
    ]
    wrong += [f"{name}, a guard of the file, is missing." for name in missing_guards(connection)]
    damaged = damaged_rows(connection)
    wrong += [f"Row {row} is not what was written." for row in damaged]
    unsound = unsound_strands(connection)
    wrong += [f"Strand {strand} is not what was written." for strand in unsound]
    wrong += [
        f"Stray {stray.number} is not what was written."
        for stray in connection.execute(select(strays).order_by(strays.c.number))
        if stray_sum(stray._asdict()) != stray.sum
    ]
    for making in connection.execute(select(makings.c.id).order_by(makings.c.id)).scalars().all():
        wrong += _replay_flaws(connection, making, damaged, unsound)
    return wrong


def missing_guards(connection: Connection) -> list[str]:
    """The triggers and the index that the file should have and has not, by name."""
    there = set(connection.exec_driver_sql("SELECT name FROM sqlite_master").scalars())
    return [name for name in GUARDS if name not in there]


def damaged_rows(connection: Connection) -> set[int]:
    """Rows whose sum does not fit them and the row before."""
    damaged, before = set(), BEFORE_THE_FIRST
    for row in connection.execute(select(rows).order_by(rows.c.row)):
        if row_sum(row._asdict(), before) != row.sum:
            damaged.add(row.row)
        before = row.sum
    return damaged


def unsound_strands(connection: Connection) -> set[str]:
    """Strands whose sum does not fit, or that do not add up."""
    return {
        row.id
        for row in connection.execute(select(strands))
        if text_sum(row.json) != row.sum or flaws(Strand.model_validate_json(row.json))
    }


def _replay_flaws(connection: Connection, making: int, damaged: set[int], unsound: set[str]) -> list[str]:
    """Where replay and the stored answers differ; nothing beyond a damaged row or on a damaged strand."""
    state, laid = None, {}
    for row in connection.execute(select(rows).where(rows.c.making == making).order_by(rows.c.row)):
        if row.row in damaged:
            return []
        payload: dict[str, Any] = json.loads(row.payload)
        if row.kind == "begin":
            wanted = {run["strand"] for run in payload["runs"]}
            if wanted & unsound:
                return []
            kept = set(connection.execute(select(strands.c.id).where(strands.c.id.in_(list(wanted)))).scalars())
            missing = [run["run"] for run in payload["runs"] if run["strand"] not in kept]
            if missing:
                return [f"Making {making} has lost the strand of {', '.join(missing)}."]
            laid = read_strands(connection, wanted)
            state = begin([(run["run"], run["strand"]) for run in payload["runs"]], laid, row.row)
        elif state is None:
            return [f"Making {making} does not start with its begin row."]
        elif row.kind == "recast":
            laid = {**laid, **read_strands(connection, strands_of_recast(payload))}
            state = recast_by(state, laid, row.row, payload)
        elif row.kind in APPLIED:
            done = apply(state, laid, row.row, intent_of(row))
            answer = json.loads(row.answer)
            if not isinstance(done, Applied) or done.outcome.to != answer["to"] or done.outcome.from_ != answer["from"]:
                return [f"Row {row.row} of making {making} leads elsewhere than was acknowledged."]
            state = done.state
    return [] if state else [f"Making {making} has no rows."]
