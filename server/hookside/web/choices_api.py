"""What was chosen for a making, for who has no live line: the command line, and pages that only look."""

from __future__ import annotations

import secrets
import time
from typing import TYPE_CHECKING, Annotated, Any

from flask import Blueprint, jsonify
from flask.typing import ResponseReturnValue
from pydantic import Field

from hookside.web.body import LARGEST, Strict, body
from hookside.web.said import Said

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.live import Live

GONE = "This making is not on the shelf any more."
REFUSED = {"gone": GONE, "full": "There are more notes or ticks than one making holds: take some away first."}


class One(Strict):
    """One choice, as journal/choices.py has them."""

    choice: str
    value: Any = None


class Choose(Strict):
    """What is chosen. `id`: 32 hexadecimal digits by which it is known when it is sent again."""

    choices: list[One]
    id: Annotated[str, Field(pattern="^[0-9a-f]{32}$")] | None = None


def choices_routes(journal: Journal, live: Live) -> Blueprint:
    """Routes under /api/makings/ID/choices."""
    routes = Blueprint("choices", __name__, url_prefix="/api/makings")

    @routes.get("/<int:id>/choices")
    def get_choices(id: int) -> ResponseReturnValue:
        """{head, choices}."""
        found = journal.choices(id) if id <= LARGEST else None
        if found is None:
            raise Said(404, "gone", GONE)
        return jsonify(found)

    @routes.post("/<int:id>/choices")
    def choose(id: int) -> ResponseReturnValue:
        """{head, asks, choices}; `asks`: the making asks before it changes what it is worked by."""
        asked = body(Choose)
        found = journal.choices(id) if id <= LARGEST else None
        if found is None:
            raise Said(404, "gone", GONE)
        move = {
            "id": asked.id or secrets.token_hex(16), "device": "desk", "device_seq": 0, "making": id,
            "base": found["head"], "intent": "choose", "choices": [one.model_dump() for one in asked.choices],
        }  # fmt: skip
        with live.turn:
            (answer,) = answers = journal.moves([move], time.monotonic())
            live.tell([move], answers, "")
        if not answer["ok"]:
            raise Said(400, answer["code"], answer["say"])
        if answer["kind"] == "refused":
            raise Said(409, answer["code"], REFUSED.get(answer["code"], GONE))
        return jsonify({"head": answer["head"], "asks": answer["asks"]} | (journal.choices(id) or {}))

    return routes
