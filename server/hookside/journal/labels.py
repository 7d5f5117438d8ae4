"""What the maker wrote on the things on the shelf, and which makings were taken off it for good."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, Literal

from sqlalchemy import Connection, select

from hookside.journal.store import Store
from hookside.journal.tables import makings, settings

Thing = Literal["patterns", "makings"]
KEY = "labels"


class Labels:
    """Labels by thing and id, kept beside the rows: they change nothing of the work. Every method may raise Trouble.

    A making that was taken off for good keeps its rows, as every making does, and can be had back.
    """

    def __init__(self, store: Store) -> None:
        self.store = store

    def kept(self) -> dict[str, Any]:
        """{patterns: {id: [label]}, makings: {id: [label]}, taken_off: [makings that are shown no more]}."""
        with self.store.reading() as connection:
            return _read(connection)

    def set_labels(self, thing: Thing, id: str, labels: list[str]) -> list[str]:
        """Put these labels on a thing in place of those it had; those kept: trimmed, each once, none empty."""
        tidy = list(dict.fromkeys(" ".join(label.split()) for label in labels if label.strip()))
        with self._changing() as kept:
            kept[thing].pop(id, None)
            if tidy:
                kept[thing][id] = tidy
        return tidy

    def stands(self, making: int) -> Literal["at hand", "away"] | None:
        """Where a making is; None where there is none."""
        with self.store.reading() as connection:
            found = connection.execute(select(makings.c.put_away).where(makings.c.id == making)).first()
        return None if found is None else "at hand" if found.put_away is None else "away"

    def take_off(self, making: int, off: bool) -> None:
        """Show a making that was put away no more, or again."""
        with self._changing() as kept:
            kept["taken_off"] = [*(id for id in kept["taken_off"] if id != making), *([making] if off else [])]

    @contextmanager
    def _changing(self) -> Iterator[dict[str, Any]]:
        """What is kept, to be changed: read and written in one transaction, so that two devices lose nothing."""
        with self.store.writing() as connection:
            kept = _read(connection)
            yield kept
            connection.execute(settings.delete().where(settings.c.key == KEY))
            connection.execute(settings.insert().values(key=KEY, value=json.dumps(kept)))


def _read(connection: Connection) -> dict[str, Any]:
    text = connection.execute(select(settings.c.value).where(settings.c.key == KEY)).scalar()
    try:
        found = json.loads(text) if text else {}
    except ValueError:  # labels are written again in a moment; they are no reason to show no shelf
        found = {}
    return {"patterns": {}, "makings": {}, "taken_off": []} | (found if isinstance(found, dict) else {})
