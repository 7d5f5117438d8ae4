"""What lies beside the rows: patterns on the shelf, what devices are called, how the maker likes it."""

from __future__ import annotations

import json
import secrets
import threading
from collections.abc import Callable, Mapping
from typing import Any, Literal

from sqlalchemy import literal_column, select

from hookside.journal.store import Store
from hookside.journal.tables import devices, patterns, settings

# How one likes it who has not said: web/makers.py says what each may be.
MAKER: dict[str, Any] = {
    "hand": "right", "decreases": "plain", "terms": None, "words": "short", "counting": None,
    "plain": "plain", "plain_keys": "same", "plain_voice": "same", "light": "auto", "breaks": 0, "quiet": [],
}  # fmt: skip
MOST_GATHERED = 200  # ticks of one pattern's list
OF_THE_HOUSE = "maker"  # settings of whoever has no name, and of a maker before she has said anything
OF_ONE = "maker."
AT_THE_MACHINE = "maker at the machine"

Terms = Literal["US", "UK"]
Source = Literal["own", "yours"]

# SQLite numbers rows as they come in; a wall clock is shown and never orders anything.
AS_ADDED: Any = literal_column("rowid")
SHELVED = (patterns.c.id, patterns.c.text, patterns.c.terms, patterns.c.source)


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

    def kept_pattern(self, id: str) -> dict[str, Any] | None:
        """As `pattern`, also where it was taken off the shelf: for what is made of it, its text is still there."""
        with self.store.reading() as connection:
            found = connection.execute(select(*SHELVED).where(patterns.c.id == str(id))).first()
            return dict(found._mapping) if found else None

    def patterns_off(self) -> list[dict[str, Any]]:
        """The patterns that were taken off the shelf, as `patterns` has them."""
        with self.store.reading() as connection:
            off = select(*SHELVED).where(patterns.c.removed.is_not(None)).order_by(AS_ADDED)
            return [dict(row._mapping) for row in connection.execute(off)]

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
        return self._setting(f"fabric.{pattern}")

    def set_fabric(self, pattern: str, said: dict[str, str]) -> None:
        self._set(f"fabric.{pattern}", said)

    def gathered(self, pattern: str) -> list[str]:
        """What was ticked of a pattern's list before a making of it was begun, the newest last."""
        items = self._setting(f"gathered.{pattern}").get("items", [])
        return [item for item in items if isinstance(item, str)] if isinstance(items, list) else []

    def set_gathered(self, pattern: str, items: Mapping[str, bool]) -> None:
        """Tick these, or take their ticks away."""
        with self._lock:
            kept = [item for item in self.gathered(pattern) if item not in items]
            ticked = [*kept, *(item for item, on in items.items() if on)]
            self._set(f"gathered.{pattern}", {"items": ticked[-MOST_GATHERED:]} if ticked else {})

    def maker(self, name: str = "") -> dict[str, Any]:
        """How a maker likes it, as MAKER; as the house does while she has said nothing herself."""
        house = self._setting(OF_THE_HOUSE)
        own = self._setting(OF_ONE + name) if name else {}
        return {key: (own or house).get(key, first) for key, first in MAKER.items()}

    def set_maker(self, maker: dict[str, Any], name: str = "") -> None:
        self._set(OF_ONE + name if name else OF_THE_HOUSE, {key: maker[key] for key in MAKER if key in maker})

    def makers(self) -> list[str]:
        """The makers who have said how they like it, by name."""
        with self.store.reading() as connection:
            kept = connection.execute(select(settings.c.key).where(settings.c.key.startswith(OF_ONE, autoescape=True)))
            return sorted(key.removeprefix(OF_ONE) for key in kept.scalars())

    def maker_at_the_machine(self) -> str:
        """Who works at the machine itself; "" where nobody said."""
        return str(self._setting(AT_THE_MACHINE).get("name", ""))

    def set_maker_at_the_machine(self, name: str) -> None:
        self._set(AT_THE_MACHINE, {"name": name} if name else {})

    def _setting(self, key: str) -> dict[str, Any]:
        """What is kept under a key. What cannot be read is told again in a moment: no reason to show no shelf."""
        with self.store.reading() as connection:
            kept = connection.execute(select(settings.c.value).where(settings.c.key == key)).scalar()
        try:
            said = json.loads(kept) if kept else {}
        except ValueError:
            said = {}
        return said if isinstance(said, dict) else {}

    def _set(self, key: str, value: dict[str, Any]) -> None:
        with self._lock, self.store.writing() as connection:
            connection.execute(settings.delete().where(settings.c.key == key))
            if value:
                connection.execute(settings.insert().values(key=key, value=json.dumps(value)))


def _patterns() -> Any:
    return select(*SHELVED).where(patterns.c.removed.is_(None))
