"""The same again: a new making of a pattern, by the choices of one that was worked before."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from flask import Blueprint, jsonify
from flask.typing import ResponseReturnValue

from hookside.follow import Order
from hookside.web.begun import remember
from hookside.web.body import LARGEST
from hookside.web.makers import maker_of
from hookside.web.said import Said

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.readings import Readings

OF_ONE_GO = ("ticks", "notes", "counted")  # what belongs to the one making; colours of single copies go over


def again(journal: Journal, readings: Readings) -> Blueprint:
    """POST /api/makings/ID/again -> {id}: begun anew, of the text as it stands now."""
    routes = Blueprint("again", __name__, url_prefix="/api/makings")

    @routes.post("/<int:id>/again")
    def same_again(id: int) -> ResponseReturnValue:
        before = journal.snapshot(id) if id <= LARGEST else None
        if before is None:
            raise Said(404, "gone", "This making is not on the shelf any more.")
        kept = journal.pattern(before["pattern"])
        if kept is None:
            raise Said(409, "no-pattern", "Its pattern is not on the shelf any more. Paste it once more to begin anew.")
        chosen = {name: value for name, value in before["choices"].items() if name not in OF_ONE_GO}
        copies = Counter(int(run["run"].split(".")[0][1:]) for run in before["runs"])
        title, laid, choices = readings.runs(
            kept["text"], kept["terms"], order=Order.model_validate(before["order"]),
            hand=journal.maker(maker_of(journal))["hand"], copies=dict(copies), anyway=True, chosen=chosen,
        )  # fmt: skip
        if not laid:
            raise Said(409, "nothing-to-work", "There is nothing to work in this pattern: no round or row was read.")
        new = journal.begin(kept["id"], title, laid, choices)
        remember(journal, new, laid, chosen, [])
        return jsonify(id=new)

    return routes
