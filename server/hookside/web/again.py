"""The same again: a new making of a pattern, by the choices of one that was worked before."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from flask import Blueprint, jsonify
from flask.typing import ResponseReturnValue

from hookside.follow import Order
from hookside.web.begun import remember
from hookside.web.body import LARGEST
from hookside.web.makers import maker_of
from hookside.web.said import Said

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.readings import Chosen as Begun
    from hookside.web.readings import Readings, Run

# What she said of the pattern, the yarn and the fabric comes along; the rest belongs to the one making.
COMES_ALONG = {
    "gauge": "your own fabric",
    "yarn": "the yarn",
    "hook": "the hook",
    "colours": "what you call the colours",
    "terms": "the terms",
    "decreases": "how you decrease",
    "spiral": "rounds as a spiral",
}


def again(journal: Journal, readings: Readings) -> Blueprint:
    """POST /api/makings/ID/again -> {id, say}: begun anew, of the text as it stands now; `say`: what came along."""
    routes = Blueprint("again", __name__, url_prefix="/api/makings")

    @routes.post("/<int:id>/again")
    def same_again(id: int) -> ResponseReturnValue:
        before = journal.snapshot(id) if id <= LARGEST else None
        if before is None:
            raise Said(404, "gone", "This making is not on the shelf any more.")
        kept = journal.pattern(before["pattern"])
        if kept is None:
            raise Said(409, "no-pattern", "Its pattern is not on the shelf any more. Paste it once more to begin anew.")
        chosen = {name: value for name, value in before["choices"].items() if name.split("/")[0] in COMES_ALONG}
        copies = journal.begun_copies(id)

        def runs(copies: dict[int, int]) -> tuple[str, list[Run], Begun]:
            return readings.runs(
                kept["text"], kept["terms"], order=Order.model_validate(before["order"]),
                hand=journal.maker(maker_of(journal))["hand"], copies=copies, anyway=True, chosen=chosen,
            )  # fmt: skip

        try:
            title, laid, choices = runs(copies)
        except Said:
            title, laid, choices = runs({})  # of a piece that the text does not have any more
        if not laid:
            raise Said(409, "nothing-to-work", "There is nothing to work in this pattern: no round or row was read.")
        new = journal.begin(kept["id"], title, laid, choices)
        remember(journal, new, laid, chosen, [])
        return jsonify(id=new, say=came_along(before, chosen, copies))

    return routes


def came_along(before: Mapping[str, Any], chosen: Mapping[str, Any], copies: Mapping[int, int]) -> str:
    """What was taken over, and what was not, in words."""
    came = list(dict.fromkeys(COMES_ALONG[name.split("/")[0]] for name in chosen))
    now = Counter(int(run["run"].split(".")[0][1:]) for run in before["runs"])
    names = {int(run["run"].split(".")[0][1:]): run["piece"] for run in before["runs"]}
    more = [f"{many - copies[n]} more {names[n] or 'of it'}" for n, many in now.items() if many > copies.get(n, many)]
    stayed = [*more, *(["what you turned down there"] if before["choices"].get("kinds_off") else [])]
    said = [f"Came along: {', '.join(came)}." if came else "Begun as the pattern has it."]
    return " ".join([*said, *([f"Not taken over: {', '.join(stayed)}."] if stayed else [])])
