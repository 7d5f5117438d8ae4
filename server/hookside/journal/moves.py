"""A move as it arrives from a device: checked for its shape, not for its sense."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import ConfigDict, Field, StrictBool, StrictInt, StrictStr, ValidationError

from hookside.follow import Intent

LARGEST = 2**53 - 1  # what a page can hold exactly

Name = Annotated[StrictStr, Field(pattern=r"^[\x21-\x7e]{1,64}$")]
Id = Annotated[StrictStr, Field(pattern=r"^[0-9a-f]{32}$")]
Number = Annotated[StrictInt, Field(ge=-LARGEST, le=LARGEST)]
Row = Annotated[StrictInt, Field(ge=0, le=LARGEST)]


class Move(Intent):
    """An intent and where it comes from.

    id          128 random bits, made by the device: the same move sent twice is the same move
    base        the last row of this making the device knew when it made the move
    backlog     made while the device could not reach the journal
    """

    model_config = ConfigDict(extra="forbid")

    id: Id
    device: Name
    device_seq: Row
    making: Row
    run: Name
    strand: Name
    base: Row
    backlog: StrictBool = False
    unit: Annotated[StrictStr, Field(max_length=64)] | None = None
    to: Number | None = None
    cue: Annotated[StrictStr, Field(max_length=500)] | None = None
    count: Number | None = None
    undoes: Number | Annotated[StrictStr, Field(max_length=32)] | None = None
    n: Number | None = None
    asides: Annotated[list[Row], Field(max_length=1000)] | None = None


def read_move(raw: Any) -> Move | dict[str, Any]:
    """A move, or the answer to something that is none."""
    try:
        return Move.model_validate(raw)
    except ValidationError as error:
        first = error.errors(include_url=False, include_context=False, include_input=False)[0]
        where = ".".join(str(part) for part in first["loc"])[:60] or "move"
        return malformed(where)


def malformed(where: str) -> dict[str, Any]:
    """The answer to something that is no move."""
    return {"ok": False, "code": "malformed", "say": f'This is no move Hookside knows: look at its "{where}".'}
