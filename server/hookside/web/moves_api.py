"""Moves for who has no live line, the command line: the road of a device's moves, in its turn, with its news."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING, Annotated

from flask import Blueprint, jsonify
from flask.typing import ResponseReturnValue
from pydantic import Field

from hookside.follow.making import IntentName
from hookside.journal.trouble import Full, ReadOnly
from hookside.web.body import LARGEST, Strict, body
from hookside.web.said import Said

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.live import Live

DESK = "desk"  # the device of everything that comes without a live line
CALLED = "command line"
Number = Annotated[int, Field(ge=-LARGEST, le=LARGEST)]
Row = Annotated[int, Field(ge=0, le=LARGEST)]


class OneMove(Strict):
    """An intent as journal/moves.py has it. `id`: the same move sent twice is the same move."""

    id: Annotated[str, Field(pattern="^[0-9a-f]{32}$")]
    run: Annotated[str, Field(max_length=64)]
    strand: Annotated[str, Field(max_length=64)]
    base: Row
    intent: IntentName
    unit: Annotated[str, Field(max_length=64)] | None = None
    to: Number | None = None
    cue: Annotated[str, Field(max_length=500)] | None = None
    count: Number | None = None
    undoes: Number | None = None
    n: Number | None = None
    asides: Annotated[list[Row], Field(max_length=1000)] | None = None


def moves_routes(journal: Journal, live: Live) -> Blueprint:
    """POST /api/makings/ID/moves -> the journal's answer to one move, once it is on disk."""
    routes = Blueprint("moves", __name__, url_prefix="/api/makings")

    @routes.post("/<int:id>/moves")
    def move(id: int) -> ResponseReturnValue:
        asked = body(OneMove)
        if id > LARGEST:
            raise Said(404, "gone", "This making is not on the shelf any more.")
        with suppress(Full, ReadOnly):  # what a device is called is no reason not to move
            journal.meet(DESK, CALLED)
        sent = {**asked.model_dump(exclude_none=True), "device": DESK, "device_seq": 0, "making": id}
        told = live.moves("", {"epoch": journal.epoch, "moves": [sent]})
        if not told["ok"]:
            raise Said(503, told["code"], told.get("say", "Nothing was taken. Try once more."))
        (answer,) = told["answers"]
        if not answer["ok"]:
            raise Said(400, answer["code"], answer["say"])
        return jsonify(answer)

    return routes
