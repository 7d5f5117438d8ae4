"""What a making begins with beside its steps: what the maker chose before it, written as its first choices."""

from __future__ import annotations

import secrets
import time
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from hookside.journal.choices import MOST_AT_ONCE

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.readings import Run


def habits_of(maker: Mapping[str, Any]) -> dict[str, Any]:
    """The choices that follow from how a maker likes it. Whoever works plain decreases works them as they are printed:
    nobody prints "invisible" without wanting it."""
    found: dict[str, Any] = {"terms": maker["terms"]} if maker["terms"] else {}
    return found | ({"decreases": "invisible"} if maker["decreases"] == "invisible" else {})


def remember(journal: Journal, making: int, laid: Sequence[Run], chosen: dict[str, Any], ticked: list[str]) -> None:
    """Write into a making just begun what it was laid by, so that it is laid alike when its text changes, and what was
    gathered for it already."""
    choices = [{"choice": choice, "value": value} for choice, value in chosen.items()]
    choices += [{"choice": "tick", "value": {"list": "gather", "item": item, "on": True}} for item in ticked]
    for first in range(0, len(choices), MOST_AT_ONCE):
        move = {
            "id": secrets.token_hex(16), "device": "desk", "device_seq": 0, "making": making,
            "base": (journal.choices(making) or {"head": 0})["head"], "intent": "choose",
            "choices": choices[first : first + MOST_AT_ONCE],
        }  # fmt: skip
        journal.moves([move], time.monotonic())
    if chosen:
        journal.reworded(making, laid)
