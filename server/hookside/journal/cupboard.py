"""What lies beside the rows: patterns on the shelf, what devices are called, how the maker likes it."""

from __future__ import annotations

import json
import secrets
import threading
from collections.abc import Callable
from typing import Any, Literal

from sqlalchemy import literal_column, select

from hookside.journal.store import Store
from hookside.journal.tables import devices, patterns, settings

MAKER: dict[str, Any] = {"hand": "right", "plain": "plain", "light": "auto", "words": "short", "quiet": []}

Terms = Literal["US", "UK"]
Source = Literal["own", "yours"]

# SQLite numbers rows as they come in; a wall clock is shown and never orders anything.
AS_ADDED: Any = literal_column("rowid")


class Cupboard:
    """The part of a journal that is written over when it changes. Every method raises a Trouble where it must."""

    def __init__(self, store: Store, wall: Callable[[], str]) -> None:
        self.store = store
        self.wall = wall
        self._lock = threading.RLock()

    def patterns(self) -> list[dict[str, Any]]:
        """The patterns on the shelf as {id, text, terms, source}, the longest there first."""
        with self.store.reading() as connection:
            found = connection.execute(_patterns().order_by(AS_ADDED))
            return [dict(row._mapping) for row in found]

    def pattern(self, id: str) -> dict[str, Any] | None:
        """One pattern as {id, text, terms, source}; None where it is not on the shelf."""
        with self.store.reading() as connection:
            found = connection.execute(_patterns().where(patterns.c.id == str(id))).first()
            return dict(found._mapping) if found else None

    def add_pattern(self, text: str, terms: Terms | None, source: Source) -> str:
        """Put a pattern on the shelf; its id."""
        id = secrets.token_hex(8)
        with self._lock, self.store.writing() as connection:
            connection.execute(
                patterns.insert().values(id=id, text=text, terms=terms, source=source, added=self.wall())
            )
        return id

    def remove_pattern(self, id: str) -> None:
        """Take a pattern off the shelf. Makings begun from it stay."""
        with self._lock, self.store.writing() as connection:
            connection.execute(patterns.update().where(patterns.c.id == str(id)).values(removed=self.wall()))

    def bring_pattern_back(self, id: str) -> bool:
        """Put a pattern that was taken off back on the shelf; False where none was."""
        off = (patterns.c.id == str(id)) & patterns.c.removed.is_not(None)
        with self._lock, self.store.writing() as connection:
            return connection.execute(patterns.update().where(off).values(removed=None)).rowcount > 0

    def meet(self, device: str, name: str) -> None:
        """Remember what a device is called."""
        with self._lock, self.store.writing() as connection:
            kept = connection.execute(select(devices.c.name).where(devices.c.device == device)).scalar()
            if kept is None:
                connection.execute(devices.insert().values(device=device, name=name, met=self.wall()))
            elif kept != name:
                connection.execute(devices.update().where(devices.c.device == device).values(name=name))

    def fabric(self, pattern: str) -> dict[str, str]:
        """What the maker said of her fabric for a pattern: {gauge, used, yarn, hook}, those she said."""
        with self.store.reading() as connection:
            kept = connection.execute(select(settings.c.value).where(settings.c.key == f"fabric.{pattern}")).scalar()
        try:
            said = json.loads(kept) if kept else {}
        except ValueError:  # it is asked again on the page
            said = {}
        return said if isinstance(said, dict) else {}

    def set_fabric(self, pattern: str, said: dict[str, str]) -> None:
        with self._lock, self.store.writing() as connection:
            connection.execute(settings.delete().where(settings.c.key == f"fabric.{pattern}"))
            if said:
                connection.execute(settings.insert().values(key=f"fabric.{pattern}", value=json.dumps(said)))

    def maker(self) -> dict[str, Any]:
        """How the maker likes it: {hand, plain, light, words, quiet}."""
        with self.store.reading() as connection:
            kept = connection.execute(select(settings.c.value).where(settings.c.key == "maker")).scalar()
        try:
            ways = json.loads(kept) if kept else {}
        except ValueError:  # likes are told again in a moment; they are no reason to show no shelf
            ways = {}
        return MAKER | (ways if isinstance(ways, dict) else {})

    def set_maker(self, maker: dict[str, Any]) -> None:
        with self._lock, self.store.writing() as connection:
            connection.execute(settings.delete().where(settings.c.key == "maker"))
            connection.execute(settings.insert().values(key="maker", value=json.dumps(maker)))


def _patterns() -> Any:
    shelved = (patterns.c.id, patterns.c.text, patterns.c.terms, patterns.c.source)
    return select(*shelved).where(patterns.c.removed.is_(None))
