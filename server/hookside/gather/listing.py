"""The list of what is needed, as the page, paper and the command line show it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from hookside.pattern import Record
from hookside.shape import Spread

Kind = Literal["hook", "yarn", "notion"]


class Item(Record):
    """One thing to have at hand.

    id       the same for the same thing, however often the text is read: a tick hangs on it
    amount   for all copies, as words; "" where none can be told
    metres, grams  for all copies, where they were worked out
    printed  what the text's own list says of it; "" where it does not name it
    why      what asks for it, where the list does not: "implied by round 19 of Buoy: ..."
    forgotten  the text has a list, and this is not on it
    """

    id: str
    kind: Kind
    name: str
    amount: str = ""
    metres: Spread | None = None
    grams: Spread | None = None
    printed: str = ""
    why: str = ""
    forgotten: bool = False


class Caution(Record):
    """What to mind, and where that comes from."""

    id: str
    text: str
    source: str


class Wanted(Record):
    """How many of a piece it is for. `number`: the piece's, counted from 1."""

    number: int
    name: str
    copies: int
    printed: int


class Gathered(Record):
    """All of it. `said`: sentences on how the amounts were worked out and what could not be; `first`: which parts must
    be ready before which round, and in what state."""

    title: str
    pieces: list[Wanted] = Field(default_factory=list)
    items: list[Item] = Field(default_factory=list)
    first: list[str] = Field(default_factory=list)
    cautions: list[Caution] = Field(default_factory=list)
    said: list[str] = Field(default_factory=list)
