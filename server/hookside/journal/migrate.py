"""Brings a journal file up to this version's tables, each step in a transaction of its own."""

from __future__ import annotations

import secrets
from pathlib import Path

from sqlalchemy import Connection, inspect, select, text

from hookside.journal.store import WRITING, Store
from hookside.journal.tables import meta, metadata
from hookside.journal.trouble import TooNew, damaged_file, in_plain_words

REVISIONS = ("0001", "0002")  # the files in migrations/versions, oldest first; a test holds the two together
HEAD = REVISIONS[-1]
MIGRATIONS = Path(__file__).parent / "migrations"


def up_to_date(store: Store, now: str) -> str:
    """Migrate where needed, and return the journal's epoch.

    Alembic is loaded only when there is something to do: a start with a journal of this version goes without.
    Raises Trouble.
    """
    with store.reading() as connection:
        found = revision(connection)
        strange = found not in (None, *REVISIONS) or (found is None and _has_tables(connection))
    if strange and (found is None or not found.isdecimal() or found < HEAD):
        raise damaged_file(store.file)
    if found is not None and found > HEAD:
        raise TooNew(f"{store.file} was written by a later Hookside. Start that one, or use another folder: --folder.")
    if found != HEAD:
        with in_plain_words(store.file):
            bring_up_to_date(store)
    with store.writing() as connection:
        epoch = connection.execute(select(meta.c.epoch)).scalar()
        if epoch is None:
            epoch = secrets.token_hex(16)
            connection.execute(meta.insert().values(id=1, epoch=epoch, created=now))
    return str(epoch)


def revision(connection: Connection) -> str | None:
    """The newest migration the file has been through; None for a fresh one."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
    return None if found is None else str(found)


def _has_tables(connection: Connection) -> bool:
    """Whether there are tables of ours, which no migration would have made without saying so."""
    return bool(set(inspect(connection).get_table_names()) & set(metadata.tables))


def bring_up_to_date(store: Store) -> None:
    """Run the migrations that the file has not been through."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    with store.engine.connect().execution_options(**WRITING) as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
