"""A question of the tool's, an answer it comes to, what it offers: one question at a time."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from hookside.follow import Mend
from hookside.pattern import Record

Value = int | str
Answers = dict[str, Value]


class Choice(Record):
    """One answer: what is sent, and what stands on it."""

    value: Value
    text: str


class Question(Record):
    """Asked of the fabric. A number lies between `least` and `most`; `choices` are the likely ones."""

    key: str
    text: str
    more: str = ""
    kind: Literal["choice", "number"] = "choice"
    choices: list[Choice] = Field(default_factory=list)
    least: int = 0
    most: int = 0


class Offer(Record):
    """One way out. Exactly one of these is what it does:

    to     a place: the hook is there (`kind` go), or is ripped back to there (`kind` rip)
    mend   courses that are worked otherwise from now on
    why    it is not done, and this is the reason

    many   stitches to pull out, by what was counted (`kind` rip)
    line   the altered course as it is worked, "(4 sc, inc) x 5, 5 sc"
    """

    key: str
    kind: Literal["mend", "go", "rip", "refused"]
    title: str
    say: str
    line: str = ""
    to: int | None = None
    many: int | None = None
    mend: Mend | None = None


class Talk(Record):
    """What is said now: a question, or what it came to.

    to      the place that was found; `said` tells it. None where nothing has to move
    offers  smallest first
    """

    said: str = ""
    ask: Question | None = None
    to: int | None = None
    offers: list[Offer] = Field(default_factory=list)


def number(answers: Answers, key: str, least: int, most: int) -> int | None:
    """The number answered; None where none was, or none that can be."""
    value = answers.get(key)
    return value if isinstance(value, int) and least <= value <= most else None


def near(value: int, least: int, most: int) -> list[Choice]:
    """The numbers around one, as choices."""
    return [Choice(value=n, text=str(n)) for n in range(value - 2, value + 3) if least <= n <= most]


YES_NO = [Choice(value="yes", text="Yes"), Choice(value="no", text="No")]
