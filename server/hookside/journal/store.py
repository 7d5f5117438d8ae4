"""The file on disk and its transactions. The only file that makes a database engine."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, create_engine, event
from sqlalchemy.engine import URL

from hookside.journal.trouble import Damaged, ReadOnly, in_plain_words
from hookside.journal.writeahead import refuse_broken

FILE = "journal.sqlite"
BY_ITSELF = {FILE, FILE + "-shm", "hookside.lock"}  # may lie there after a first start that was cut short
WRITING = {"hookside_writing": True}

# FULL: a commit returns only after its write-ahead log has been synced, which is what an acknowledgement rests on.
# recursive_triggers: INSERT OR REPLACE must meet the triggers that refuse deleting.
PRAGMAS = (
    "journal_mode = WAL",
    "synchronous = FULL",
    "foreign_keys = ON",
    "busy_timeout = 5000",
    "recursive_triggers = ON",
)


class Store:
    """One SQLite file with a pool of connections; each is set up alike when it is made."""

    def __init__(self, folder: Path) -> None:
        self.file = folder / FILE
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise ReadOnly(
                f"The folder {folder} cannot be used ({error.strerror}). Start Hookside with another one: --folder."
            ) from error
        self._refuse_emptied()
        refuse_broken(self.file)
        self.engine = create_engine(URL.create("sqlite", database=str(self.file)))
        event.listen(self.engine, "connect", _set_up)
        event.listen(self.engine, "begin", _begin)

    def _refuse_emptied(self) -> None:
        """A journal is never 0 bytes once it was used: writing on would hide that it was lost. Raises Damaged."""
        try:
            emptied = self.file.is_file() and self.file.stat().st_size == 0
            others = [f for f in self.file.parent.iterdir() if f.name not in BY_ITSELF and f.stat().st_size]
        except OSError:
            return  # opening it says what is wrong
        if emptied and others:
            raise Damaged(
                f"The journal {self.file} is empty, though this folder was used before: something emptied it. "
                "It was left as it is. Remove it to begin with an empty shelf, or put back a backup of it."
            )

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A transaction that sees one moment of the file. Raises Trouble."""
        with in_plain_words(self.file), self.engine.connect() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A transaction that is on disk when the block is left, or leaves no trace. Raises Trouble."""
        with (
            in_plain_words(self.file),
            self.engine.connect().execution_options(**WRITING) as connection,
            connection.begin(),
        ):
            yield connection

    def close(self) -> None:
        self.engine.dispose()


def read_letters(dbapi: Any) -> None:
    """A damaged letter is read as one that sums and people can see; it is no reason to read nothing at all."""
    dbapi.text_factory = lambda raw: raw.decode("utf-8", "replace")


def _set_up(dbapi: Any, _: Any) -> None:
    read_letters(dbapi)
    dbapi.isolation_level = None  # the driver begins nothing by itself: _begin does
    for pragma in PRAGMAS:
        dbapi.execute(f"PRAGMA {pragma}")


def _begin(connection: Connection) -> None:
    # A writer takes its lock at once. Taking it at the first write instead could fail half-way.
    writing = connection.get_execution_options().get("hookside_writing", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")
