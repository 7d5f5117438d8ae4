"""What the maker chose for one making: a closed table of names, and what may be said under each.

A choice is a row like a move, and goes the way of one: given once, acknowledged when on disk, waiting on the device
while there is no link. It never touches a place. Those that change the steps make the making ask, as a changed text
does; only the answer to that puts runs on other strands.

The last row of a name counts. `tick`, `note` and `count` add instead: two devices that tick, write or count at one time
lose nothing.

To add one: a line in CHOICES here, its type in frontend/src/follow/choices.ts, and where it changes the steps in
CHANGE_STEPS, with a field of that name in compile.Choices.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Field, StrictBool, StrictInt, StrictStr, TypeAdapter, ValidationError

from hookside.follow import Order
from hookside.journal.bounds import bound, place
from hookside.pattern import CueKind, Record, Terms

LARGEST_VALUE = 4096  # bytes of one value as JSON
MOST_AT_ONCE = 50
MOST_NOTES = 500
MOST_TICKS = 2000  # of one list
MOST_COUNTS = 200  # the newest; of older ones nothing is asked any more

Word = Annotated[StrictStr, Field(max_length=100)]
Words = Annotated[StrictStr, Field(max_length=200)]
Strictly = ConfigDict(extra="forbid", strict=True)


class Fabric(Record):
    """Her swatch, what she unravelled, another yarn, another hook, as she wrote them: shape.Asked."""

    model_config = Strictly

    gauge: Words = ""
    used: Words = ""
    yarn: Words = ""
    hook: Words = ""


class Tick(Record):
    """One item of a list, ticked or not any more."""

    model_config = Strictly

    list: Literal["gather", "finish", "passed"]
    item: Annotated[StrictStr, Field(min_length=1, max_length=200)]
    on: StrictBool


class Note(Record):
    """What the maker wrote, of a step of a run; `note` is its id, made by the page. No text: it is taken away.

    `when`: the device's clock, shown and never used for order.
    """

    model_config = Strictly

    note: Annotated[StrictStr, Field(pattern=r"^[\x21-\x7e]{1,64}$")]
    run: Annotated[StrictStr, Field(max_length=64)] = ""
    step: Annotated[StrictInt, Field(ge=0, le=2**53 - 1)] = 0
    text: Annotated[StrictStr, Field(max_length=2000)]
    when: Annotated[StrictStr, Field(max_length=40)] = ""


class Counted(Record):
    """What a count at the end of a course came to; `course`: its id. `n` None: she would rather not count there,
    or, where `right`, it is asked for behind a rip.

    `right`: it is what the course should have. `on` false: the hook went back behind it, and it will be asked anew.
    """

    model_config = Strictly

    run: Annotated[StrictStr, Field(max_length=64)]
    course: Annotated[StrictStr, Field(min_length=1, max_length=64)]
    n: Annotated[StrictInt, Field(ge=0, le=2000)] | None
    right: StrictBool
    on: StrictBool = True


Number = Annotated[StrictStr, Field(pattern="^[1-9][0-9]{0,3}$")]
Copies = Annotated[StrictInt, Field(ge=1, le=99)]
Colours = Annotated[dict[Word, Words], Field(max_length=50)]

CHOICES: dict[str, TypeAdapter[Any]] = {
    "gauge": TypeAdapter(Fabric),
    "yarn": TypeAdapter(Words),
    "hook": TypeAdapter(Words),
    "colours": TypeAdapter(Colours),  # also "colours/RUN", of one copy
    "spiral": TypeAdapter(StrictBool),
    "decreases": TypeAdapter(Literal["plain", "invisible"]),
    "terms": TypeAdapter(Terms),
    "kinds_off": TypeAdapter(Annotated[list[CueKind], Field(max_length=20)]),
    "copies": TypeAdapter(Annotated[dict[Number, Copies], Field(max_length=200)]),  # by the piece's number
    "order": TypeAdapter(Order),
    "tick": TypeAdapter(Tick),  # shown under "ticks": {list: [items, the newest last]}
    "note": TypeAdapter(Note),  # shown under "notes": [the newest last]
    "count": TypeAdapter(Counted),  # shown under "counted": [the newest last], one of each course of a run
}
CHANGE_STEPS = ("gauge", "spiral", "decreases", "terms", "kinds_off", "copies")
ADDING = ("tick", "note", "count")
OF_ONE_COPY = re.compile(r"^colours/[A-Za-z0-9.]{1,32}$")


class CannotChoose(ValueError):
    """A sentence on what is wrong with a choice."""


class Choice(Record):
    """One choice. `value` None: as the pattern has it."""

    choice: Annotated[StrictStr, Field(max_length=64)]
    value: Any = None


def checked(choice: str, value: Any) -> Any:
    """The value as it is kept. Raises CannotChoose."""
    shape = CHOICES.get("colours" if OF_ONE_COPY.match(choice) else choice)
    if shape is None:
        raise CannotChoose(f'There is no choice called "{choice}".')
    if value is None and choice not in ADDING:
        return None
    try:
        kept = shape.dump_python(shape.validate_python(value), mode="json")
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        where = place(first["loc"])
        raise CannotChoose(f'"{choice}" cannot be that: {where}{": " if where else ""}{bound(first)[:200]}.') from error
    if len(json.dumps(kept)) > LARGEST_VALUE:
        raise CannotChoose(f'"{choice}" is more than Hookside keeps there: at most {LARGEST_VALUE} letters.')
    return kept


def chosen(choices: Mapping[str, Any], choice: str, value: Any) -> dict[str, Any]:
    """The choices of a making after one more. Its twin is in frontend/src/follow/choices.ts."""
    now = dict(choices)
    if choice == "tick":
        ticks = now.get("ticks", {})
        items = [item for item in ticks.get(value["list"], []) if item != value["item"]]
        now["ticks"] = {**ticks, value["list"]: [*items, value["item"]] if value["on"] else items}
    elif choice == "note":
        others = [note for note in now.get("notes", []) if note["note"] != value["note"]]
        now["notes"] = [*others, value] if value["text"] else others
    elif choice == "count":
        of = (value["run"], value["course"])
        others = [one for one in now.get("counted", []) if (one["run"], one["course"]) != of]
        now["counted"] = [*others, value][-MOST_COUNTS:] if value["on"] else others
    elif value is None:
        now.pop(choice, None)
    else:
        now[choice] = value
    return now


def all_chosen(choices: Mapping[str, Any], more: Iterable[Mapping[str, Any]]) -> dict[str, Any]:
    """The choices of a making after several more, in their order."""
    now = dict(choices)
    for one in more:
        now = chosen(now, one["choice"], one["value"])
    return now


def too_many(choices: Mapping[str, Any]) -> bool:
    """Whether there is more in a making's lists than any page shows."""
    lists = choices.get("ticks", {}).values()
    return len(choices.get("notes", [])) > MOST_NOTES or any(len(items) > MOST_TICKS for items in lists)
