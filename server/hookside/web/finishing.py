"""What is left to do when every part of a making is worked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from flask import Blueprint, current_app
from flask.typing import ResponseReturnValue

from hookside.web.body import LARGEST
from hookside.web.said import Said

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.readings import Readings


def finishing(journal: Journal, readings: Readings) -> Blueprint:
    """The route under /api/makings/ID/finish."""
    routes = Blueprint("finishing", __name__, url_prefix="/api/makings")

    @routes.get("/<int:id>/finish")
    def finish(id: int) -> ResponseReturnValue:
        """[FinishItem], in order, in the terms of the making. Its ticks are choices: `tick` of the list "finish"."""
        made = journal.snapshot(id) if id <= LARGEST else None
        if made is None:
            raise Said(404, "gone", "This making is not on the shelf any more.")
        kept = journal.kept_pattern(made["pattern"])
        if kept is None:
            raise Said(404, "no-pattern", "The pattern of this making is not on the shelf any more.")
        # Runs are named by piece and copy, both counted from 1: "p2.c1".
        copies = {run["run"].partition(".")[0].removeprefix("p"): run["copies"] for run in made["runs"]}
        spiral = bool(made["choices"].get("spiral"))
        listed = readings.finish(kept["text"], kept["terms"], made["terms"], copies, spiral)
        return current_app.response_class(listed + b"\n", mimetype="application/json")

    return routes
