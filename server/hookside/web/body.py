"""What a page may send as JSON: in the shape it must have, or it is refused."""

from __future__ import annotations

from typing import TypeVar

from flask import request
from pydantic import BaseModel, ConfigDict, ValidationError

from hookside.journal.bounds import bound, place
from hookside.pattern import Record
from hookside.web.said import Said, writable

LARGEST = 2**53 - 1  # the largest number a page can hold exactly
Body = TypeVar("Body", bound=BaseModel)


class Strict(Record):
    """What a page may send: an unknown field or a wrong type is refused."""

    model_config = ConfigDict(extra="forbid", strict=True)


def body(shape: type[Body]) -> Body:
    """The request's JSON in the shape it must have. Raises Said."""
    try:
        data = request.get_json(silent=True)
    except RecursionError:  # brackets in brackets in brackets
        data = None
    if data is None or not writable(data):
        raise Said(400, "malformed", "Hookside could not understand that request.")
    try:
        return shape.model_validate(data)
    except ValidationError as e:
        first = e.errors(include_url=False)[0]
        where = place(first["loc"]) or "request"
        raise Said(400, "malformed", f'"{where}" cannot be that: {bound(first)[:300]}.') from e
