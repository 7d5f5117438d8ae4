"""The record of a making over HTTP: to look at, and to take along as a table or as JSON."""

from __future__ import annotations

import csv
import io
import json
from contextlib import suppress
from datetime import datetime
from typing import TYPE_CHECKING, Any

from flask import Blueprint, current_app, jsonify
from flask.typing import ResponseReturnValue

from hookside.record import Metres, Record, record, table
from hookside.web.body import LARGEST
from hookside.web.said import Said
from hookside.web.sizes import fabric_of

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.readings import Readings


def instant(seconds: float) -> str:
    """A time as tables have it: of this machine, to the second, with its distance from UTC (ISO 8601)."""
    return datetime.fromtimestamp(seconds).astimezone().isoformat(timespec="seconds")


def as_csv(told: Record) -> str:
    """The sittings as comma-separated values (RFC 4180)."""
    sheet = io.StringIO()
    csv.writer(sheet).writerows(table(told, instant))
    return sheet.getvalue()


def recorded(journal: Journal, making: int, yarn: dict[str, Metres] | None = None) -> Record | None:
    """The record of a making; None where it is not there or was put away."""
    bench = journal.bench(making)
    if bench is None:
        return None
    moves = journal.applied(making)
    choices = journal.choices(making) or {"choices": {}}
    return record(
        moves.title, moves.rows, bench.runs, bench.state, {**moves.strands, **bench.strands},
        notes=choices["choices"].get("notes", []), yarn=yarn,
    )  # fmt: skip


def records(journal: Journal, readings: Readings) -> Blueprint:
    """Routes under /api/makings/ID: record, record.csv."""
    routes = Blueprint("records", __name__, url_prefix="/api/makings")

    def yarn_of(making: int) -> dict[str, Metres]:
        """Metres for one copy of each piece; none where the pattern is gone or can't be measured."""
        bench = journal.bench(making)
        kept = journal.kept_pattern(bench.pattern) if bench else None
        if kept is None:
            return {}
        found: dict[str, Any] = {}
        with suppress(Said):
            chosen = (journal.choices(making) or {"choices": {}})["choices"]
            found = json.loads(readings.size(kept["text"], kept["terms"], fabric_of(chosen)))
        figures = [(piece["name"], piece["yarn_m"]) for piece in found.get("pieces", [])]
        return {name: Metres(value=m["value"], low=m["low"], high=m["high"]) for name, m in figures}

    def told(making: int, yarn: dict[str, Metres] | None = None) -> Record:
        found = recorded(journal, making, yarn) if making <= LARGEST else None
        if found is None:
            raise Said(404, "gone", "This making is not on the shelf any more.")
        return found

    @routes.get("/<int:id>/record")
    def get_record(id: int) -> ResponseReturnValue:
        return jsonify(told(id, yarn_of(id) if id <= LARGEST else None).model_dump(mode="json"))

    @routes.get("/<int:id>/record.csv")
    def get_table(id: int) -> ResponseReturnValue:
        answer = current_app.response_class(as_csv(told(id)), mimetype="text/csv")
        answer.headers["Content-Disposition"] = f'attachment; filename="making-{id}.csv"'
        return answer

    return routes
