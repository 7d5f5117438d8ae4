"""What to have at hand before the first stitch, and what the maker's habits may change."""

from __future__ import annotations

import json
from collections import Counter
from typing import TYPE_CHECKING, Annotated, Any

from flask import Blueprint, current_app, jsonify, request
from flask.typing import ResponseReturnValue
from pydantic import Field, StrictBool

from hookside.web.body import LARGEST, Strict, body
from hookside.web.said import Said
from hookside.web.sizes import fabric_of

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.readings import Readings

MOST_TIMES = 99


class Tick(Strict):
    """One item of a pattern's list, ticked or not any more."""

    item: Annotated[str, Field(min_length=1, max_length=200)]
    on: StrictBool


def gathering(journal: Journal, readings: Readings) -> Blueprint:
    """Routes under /api/patterns/ID and /api/makings/ID: gather, habits."""
    routes = Blueprint("gathering", __name__, url_prefix="/api")

    def kept_of(id: str, also_off: bool = False) -> dict[str, Any]:
        kept = journal.kept_pattern(id) if also_off else journal.pattern(id)
        if kept is None:
            raise Said(404, "no-pattern", "This pattern is not on the shelf any more.")
        return kept

    def made_of(id: int) -> dict[str, Any]:
        made = journal.snapshot(id) if id <= LARGEST else None
        if made is None:
            raise Said(404, "gone", "This making is not on the shelf any more.")
        return made

    def answer(
        kept: dict[str, Any], asked: dict[str, str], copies: dict[int, int], times: int, spiral: bool, more: Any
    ) -> bytes:
        found = readings.gathered(kept["text"], kept["terms"], asked, copies, times, spiral)
        if found.startswith(b'{"cannot"'):
            raise Said(422, "no-size", json.loads(found)["cannot"])
        # The list goes on as it came, as a reading does.
        return found[: found.rindex(b"}")] + b"," + json.dumps(more)[1:].encode() + b"\n"

    @routes.get("/patterns/<id>/gather")
    def gather(id: str) -> ResponseReturnValue:
        """{title, pieces, items, cautions, said, pattern, ticked}; `?times=3`: for three of the whole."""
        kept = kept_of(id)
        told = request.args.get("times", "1")
        if not told.isascii() or not told.isdigit() or not 1 <= int(told) <= MOST_TIMES:
            raise Said(400, "malformed", f"It can be gathered for 1 to {MOST_TIMES} of the whole.")
        more = {"pattern": kept["id"], "ticked": journal.gathered(id)}
        return current_app.response_class(
            answer(kept, journal.fabric(id), {}, int(told), False, more), mimetype="application/json"
        )

    @routes.put("/patterns/<id>/gather")
    def tick(id: str) -> ResponseReturnValue:
        """{ticked}."""
        kept = kept_of(id)
        asked = body(Tick)
        journal.set_gathered(kept["id"], {asked.item: asked.on})
        return jsonify(ticked=journal.gathered(kept["id"]))

    @routes.get("/makings/<int:id>/gather")
    def of_making(id: int) -> ResponseReturnValue:
        """The same for what this making makes; its ticks are a choice of it and not told here."""
        made = made_of(id)
        kept = kept_of(made["pattern"], also_off=True)
        asked = fabric_of(made["choices"])
        copies = Counter(int(run["run"].partition(".")[0][1:]) for run in made["runs"])
        return current_app.response_class(
            answer(kept, asked, copies, 1, bool(made["choices"].get("spiral")), {"pattern": kept["id"]}),
            mimetype="application/json",
        )

    @routes.get("/patterns/<id>/habits")
    def habits(id: str) -> ResponseReturnValue:
        """{terms, because, plain, invisible, spiral}: what of the maker's habits the pattern allows, and why not."""
        kept = kept_of(id)
        return current_app.response_class(readings.allowed(kept["text"], kept["terms"]), mimetype="application/json")

    return routes
