"""A journal file that nobody writes to: a backup, a copy. It is looked at and left as it is."""

from __future__ import annotations

import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection, create_engine, event
from sqlalchemy.pool import NullPool

from hookside.journal.migrate import HEAD, REVISIONS, bring_up_to_date, revision
from hookside.journal.store import FILE, Store, read_letters
from hookside.journal.trouble import TooNew, damaged_file, in_plain_words


@contextmanager
def file_alone(file: Path) -> Iterator[Connection]:
    """A connection that reads such a file as this version does. Raises Trouble.

    One of an earlier version is brought up to date in a copy, and that is read.
    """
    with in_plain_words(file):
        address = f"{file.absolute().as_uri()}?immutable=1"
        engine = create_engine("sqlite://", creator=lambda: sqlite3.connect(address, uri=True), poolclass=NullPool)
        event.listen(engine, "connect", lambda dbapi, _: read_letters(dbapi))
        with engine.connect() as connection:
            found = revision(connection)
            if found == HEAD:
                yield connection
                return
    if found not in REVISIONS:
        if found is not None and found.isdecimal() and found > HEAD:
            raise TooNew(f"{file} was written by a later Hookside. Use that one.")
        raise damaged_file(file)
    with tempfile.TemporaryDirectory(prefix="hookside-look-") as room:
        shutil.copyfile(file, Path(room) / FILE)
        store = Store(Path(room))
        try:
            bring_up_to_date(store)
            with store.reading() as connection:
                yield connection
        finally:
            store.close()
