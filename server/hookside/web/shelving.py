"""Labels on the things on the shelf, and what is taken off it; nothing is lost by it, and all can be had back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Literal

from flask import Blueprint, jsonify
from flask.typing import ResponseReturnValue

from hookside.journal import Labels
from hookside.web.body import LARGEST, Strict, body
from hookside.web.said import Said

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.readings import Readings

MOST_LABELS = 12
LONGEST = 40  # letters of one label


class OwnLabels(Strict):
    """All the labels of one thing, in the order shown."""

    labels: list[str]  # within the bounds of a message; how many and how long is said below


def shelving(journal: Journal, readings: Readings) -> Blueprint:
    """Routes under /api/patterns and /api/makings that change nothing of the work."""
    routes = Blueprint("shelving", __name__, url_prefix="/api")
    written = Labels(journal.store)

    def put_labels(thing: Literal["patterns", "makings"], id: str) -> ResponseReturnValue:
        labels = body(OwnLabels).labels
        if len(labels) > MOST_LABELS:
            raise Said(422, "too-many", f"{MOST_LABELS} labels fit on one thing, and these are {len(labels)}.")
        long = next((label for label in labels if len(label.strip()) > LONGEST), None)
        if long is not None:
            raise Said(
                422, "too-long", f"A label has {LONGEST} letters at most: \u201c{long[:LONGEST]}\u2026\u201d is longer."
            )
        return jsonify(labels=written.set_labels(thing, id, labels))

    @routes.put("/patterns/<id>/labels")
    def label_pattern(id: str) -> ResponseReturnValue:
        if journal.pattern(id) is None:
            raise Said(404, "no-pattern", "This pattern is not on the shelf any more.")
        return put_labels("patterns", id)

    @routes.put("/makings/<int:id>/labels")
    def label_making(id: int) -> ResponseReturnValue:
        if id > LARGEST or written.stands(id) != "at hand":
            raise Said(404, "gone", "This making is not on the shelf any more.")
        return put_labels("makings", str(id))

    @routes.post("/patterns/<id>/back")
    def bring_pattern_back(id: str) -> ResponseReturnValue:
        if not journal.bring_pattern_back(id):
            raise Said(404, "not-off", "This pattern was not taken off the shelf. Look at the shelf again.")
        return jsonify(id=id)

    @routes.get("/off")
    def get_off() -> ResponseReturnValue:
        """{patterns, makings}: what was taken off the shelf and can be had back, each as {id, title}."""
        off = written.kept()["taken_off"]
        patterns: list[dict[str, Any]] = [
            {"id": kept["id"], "title": readings.spine(kept["text"], kept["terms"])["title"]}
            for kept in journal.patterns_off()
        ]
        makings = [{"id": one["id"], "title": one["title"]} for one in journal.makings_away() if one["id"] in off]
        return jsonify(patterns=patterns, makings=makings)

    @routes.delete("/makings/away/<int:id>")
    def take_off(id: int) -> ResponseReturnValue:
        stands = None if id > LARGEST else written.stands(id)
        if stands == "at hand":
            raise Said(404, "not-away", "This making is at hand. Put it away first, then take it off the shelf.")
        if stands != "away":
            raise Said(404, "not-away", "This making is not among those put away. Look at the shelf again.")
        written.take_off(id, off=True)
        return jsonify(id=id)

    @routes.post("/makings/away/<int:id>/back")
    def show_again(id: int) -> ResponseReturnValue:
        if id > LARGEST or id not in written.kept()["taken_off"]:
            raise Said(404, "not-off", "This making was not taken off the shelf. Look at the shelf again.")
        written.take_off(id, off=False)
        return jsonify(id=id)

    return routes
