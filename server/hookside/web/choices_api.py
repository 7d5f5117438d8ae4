"""What was chosen for a making, for who has no live line: the command line, and pages that only look."""

from __future__ import annotations

import json
import secrets
import time
from collections.abc import Iterable, Mapping
from contextlib import suppress
from typing import TYPE_CHECKING, Annotated, Any

from flask import Blueprint, jsonify
from flask.typing import ResponseReturnValue
from pydantic import Field, ValidationError

from hookside.follow import Order
from hookside.journal.choices import Fabric
from hookside.web.body import LARGEST, Strict, body
from hookside.web.said import Said
from hookside.web.sizes import fabric_of

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.live import Live
    from hookside.web.readings import Readings

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


def choices_routes(journal: Journal, readings: Readings, live: Live) -> Blueprint:
    """Routes under /api/makings/ID/choices."""
    routes = Blueprint("choices", __name__, url_prefix="/api/makings")

    def sensible(id: int, one: One) -> None:
        """Refuse what is well written and means nothing: a swatch that can't be, a round that there is not."""
        made = journal.snapshot(id)
        if made is None or one.value is None:
            return
        if one.choice == "order":
            with suppress(ValidationError):  # the journal says so, in its words
                known_label(Order.model_validate(one.value), made["strands"].values())
        kept = journal.kept_pattern(made["pattern"]) if one.choice == "gauge" else None
        if kept is not None:
            with suppress(ValidationError):
                said = fabric_of({"gauge": Fabric.model_validate(one.value).model_dump()})
                found = readings.size(kept["text"], kept["terms"], said)
                if found.startswith(b'{"cannot"'):
                    raise Said(422, "no-size", json.loads(found)["cannot"])

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
        for one in asked.choices:
            sensible(id, one)
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


def known_label(order: Order, strands: Iterable[Mapping[str, Any]]) -> None:
    """Raises Said where copies are to go to the end of a round that there is not."""
    labels = dict.fromkeys(course["label"] for strand in strands for course in strand["courses"])
    if order.kind == "level" and order.label not in labels:
        numbers = [label for label in labels if label.isdecimal()]
        there = f"there are {numbers[0]} to {numbers[-1]}" if len(numbers) > 1 else f"there is {', '.join(labels)}"
        raise Said(
            422, "no-round", f'There is no round or row "{order.label}" to which the copies could go: {there}. '
            'Or say "one" (one after the other) or "pair" (side by side).',
        )  # fmt: skip
