"""How large it becomes: what a pattern's stitches come to, and what the maker says of her own fabric."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated, Any

from flask import Blueprint, current_app
from flask.typing import ResponseReturnValue
from pydantic import Field

from hookside.web.body import LARGEST, Strict, body
from hookside.web.said import Said

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.readings import Readings

Words = Annotated[str, Field(max_length=200)]


class Fabric(Strict):
    """Her swatch, what she unravelled, another yarn, another hook, as she wrote them; "" takes one back."""

    gauge: Words = ""
    used: Words = ""
    yarn: Words = ""
    hook: Words = ""


def fabric_chosen(said: dict[str, str]) -> dict[str, Any]:
    """What she said of her fabric beside a pattern, as the choice of a making; {} where she said nothing."""
    return {"gauge": Fabric.model_validate(said).model_dump()} if said else {}


def fabric_of(choices: Mapping[str, Any]) -> dict[str, str]:
    """What a making is measured by: what she said before it began or in it, {} for the pattern's own. What she says
    beside the pattern later is for the next one."""
    return {k: v for k, v in (choices.get("gauge") or {}).items() if v}


def sizes(journal: Journal, readings: Readings) -> Blueprint:
    """Routes under /api/patterns/ID: size, fabric. And /api/makings/ID/size."""
    routes = Blueprint("sizes", __name__, url_prefix="/api")

    def answer(id: str, said: dict[str, str], kept: dict[str, Any] | None = None) -> bytes:
        kept = kept or journal.pattern(id)
        if kept is None:
            raise Said(404, "no-pattern", "This pattern is not on the shelf any more.")
        found = readings.size(kept["text"], kept["terms"], said)
        if found.startswith(b'{"cannot"'):
            raise Said(422, "no-size", json.loads(found)["cannot"])
        return found[: found.rindex(b"}")] + b',"said":' + json.dumps(said).encode() + b"}\n"

    @routes.get("/patterns/<id>/size")
    def size(id: str) -> ResponseReturnValue:
        """{pieces, fabric, yarn_m, yarn_g, stuffing_g, basis, warnings, said}; `said` is what the maker said."""
        return current_app.response_class(answer(id, journal.fabric(id)), mimetype="application/json")

    @routes.post("/patterns/<id>/size")
    def asked_size(id: str) -> ResponseReturnValue:
        """The same with what the maker says now, which is kept nowhere."""
        said = {k: v.strip() for k, v in body(Fabric).model_dump().items() if v.strip()}
        return current_app.response_class(answer(id, said), mimetype="application/json")

    @routes.put("/patterns/<id>/fabric")
    def fabric(id: str) -> ResponseReturnValue:
        """The same with what the maker says now, which is kept where it can be measured with."""
        asked = body(Fabric)
        said = {k: v.strip() for k, v in asked.model_dump().items() if v.strip()}
        found = answer(id, said)
        journal.set_fabric(id, said)
        return current_app.response_class(found, mimetype="application/json")

    @routes.get("/makings/<int:id>/size")
    def of_making(id: int) -> ResponseReturnValue:
        """The same for a making, by its own fabric."""
        made = journal.snapshot(id) if id <= LARGEST else None
        if made is None:
            raise Said(404, "gone", "This making is not on the shelf any more.")
        said = fabric_of(made["choices"])
        kept = journal.kept_pattern(made["pattern"])
        return current_app.response_class(answer(made["pattern"], said, kept), mimetype="application/json")

    return routes
