"""A move as it arrives from a device: checked for its shape, not for its sense."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Field, StrictBool, StrictInt, StrictStr, ValidationError

from hookside.follow import Intent
from hookside.journal.choices import MOST_AT_ONCE, CannotChoose, Choice, checked
from hookside.pattern import Record

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


class Choosing(Record):
    """What the maker chose for a making, as it arrives. It goes the way of a move and is of no run."""

    id: Id
    device: Name
    device_seq: Row
    making: Row
    run: Literal[""] = ""
    strand: Literal[""] = ""
    base: Row
    backlog: StrictBool = False
    intent: Literal["choose"]
    choices: Annotated[list[Choice], Field(min_length=1, max_length=MOST_AT_ONCE)]


def read_move(raw: Any) -> Move | Choosing | dict[str, Any]:
    """A move or a choice, or the answer to something that is neither."""
    try:
        if not isinstance(raw, dict) or raw.get("intent") != "choose":
            return Move.model_validate(raw)
        asked = Choosing.model_validate(raw)
        for one in asked.choices:
            one.value = checked(one.choice, one.value)
        return asked
    except CannotChoose as no:
        return {"ok": False, "code": "malformed", "say": str(no)}
    except ValidationError as error:
        first = error.errors(include_url=False, include_context=False, include_input=False)[0]
        where = ".".join(str(part) for part in first["loc"])[:60] or "move"
        return malformed(where)


def malformed(where: str) -> dict[str, Any]:
    """The answer to something that is no move."""
    return {"ok": False, "code": "malformed", "say": f'This is no move Hookside knows: look at its "{where}".'}
