"""Looks a whole data folder through, and mends what can be mended without guessing.

What is mended is proven: guards are made anew; a row or strand comes from a backup, and the sums of the journal around
it say that it is the very one. Everything is tried on a copy, so that what would be done can be told without doing it.
"""

from __future__ import annotations

import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, func, insert, select

from hookside.journal.alone import file_alone
from hookside.journal.backups import FOLDER, Backup, closing, kept, look, writing_to
from hookside.journal.check import damaged_rows, missing_guards, unsound_strands
from hookside.journal.migrate import bring_up_to_date
from hookside.journal.restore import both_files, put_in_place, restore
from hookside.journal.rows import text_sum
from hookside.journal.store import FILE, WRITING, Store
from hookside.journal.tables import GUARDS, makings, rows, strands
from hookside.journal.trouble import Damaged, Trouble, in_plain_words
from hookside.journal.writeahead import refuse_broken


@dataclass(slots=True)
class Report:
    """What was found in a data folder.

    flaws    sentences on the journal; none when all is as it was written
    mends    what a repair does about them
    left     flaws that it leaves
    rows, makings   how many there are; 0 where the file cannot be read at all
    backups  the folder's own backups, newest first, each with what is wrong with it
    """

    flaws: list[str] = field(default_factory=list)
    mends: list[str] = field(default_factory=list)
    left: list[str] = field(default_factory=list)
    rows: int = 0
    makings: int = 0
    backups: list[tuple[Backup, list[str]]] = field(default_factory=list)


def inspect(folder: Path, repair: bool = False, wall: str = "") -> Report:
    """Look through a data folder, also while a server is writing to it; with `repair` none may be. Raises Trouble."""
    report = Report(backups=[(one, look(one.file)) for one in kept(folder)])
    if not (folder / FILE).is_file():
        raise Trouble(f"There is no journal in {folder}.")
    try:
        refuse_broken(folder / FILE)
    except Damaged as damaged:
        return _read_of(folder, report, damaged, repair, wall)
    with copied(folder, report) as copy:
        if copy is None:
            report.left = report.flaws
            return report
        try:
            report.flaws = look(copy)
            with file_alone(copy) as connection:
                report.rows = int(connection.execute(select(func.count()).select_from(rows)).scalar_one())
                report.makings = int(connection.execute(select(func.count()).select_from(makings)).scalar_one())
        except Trouble as trouble:
            report.flaws = report.flaws or [trouble.say]
        report.flaws = [flaw.replace(str(copy), str(folder / FILE)) for flaw in report.flaws]
        if not report.flaws:
            return report
        try:
            report.mends = _mend(copy, [one.file for one, _ in report.backups])
            report.left = [flaw.replace(str(copy), str(folder / FILE)) for flaw in look(copy)]
        except Exception:  # what is damaged can make anything stumble: then nothing is mended
            report.mends, report.left = [], report.flaws
        if not report.left and not report.mends:
            report.mends = ["The indexes are built anew."]
        if repair and report.mends:
            with writing_to(folder):
                put_in_place(copy, folder, wall)
    return report


def _read_of(folder: Path, report: Report, damaged: Damaged, repair: bool, wall: str) -> Report:
    """What a journal comes to whose log is broken. To go on with it is a restore of what can be read: under another
    epoch, so that devices which know more keep it and ask."""
    report.flaws = [damaged.say]
    with writing_to(folder), tempfile.TemporaryDirectory(prefix=".looking-", dir=folder) as room:
        copy = both_files(folder / FILE, Path(room))
        try:
            with in_plain_words(copy), closing(sqlite3.connect(copy)) as journal:
                journal.execute("PRAGMA journal_mode = DELETE")
            flaws = look(copy)
            with file_alone(copy) as connection:
                report.rows = int(connection.execute(select(func.count()).select_from(rows)).scalar_one())
                report.makings = int(connection.execute(select(func.count()).select_from(makings)).scalar_one())
            if not flaws:
                best = max((one.rows for one, wrong in report.backups if not wrong), default=0)
                report.mends = [
                    f"Hookside goes on with the {report.rows} rows that can be read (the fullest backup has {best}); "
                    f"devices that know more ask which counts. What is there now is kept in {folder / FOLDER}."
                ]
                if repair:
                    restore(folder, copy, wall, over=True)
        except Trouble as trouble:
            flaws = [trouble.say]
        report.left = [] if report.mends else [*report.flaws, *flaws]
    return report


@contextmanager
def copied(folder: Path, report: Report) -> Iterator[Path | None]:
    """The journal as it is at this moment, in a file of its own; None where not even that can be had."""
    with writing_to(folder), tempfile.TemporaryDirectory(prefix=".looking-", dir=folder) as room:
        copy = Path(room) / FILE
        try:
            with (
                in_plain_words(folder / FILE),
                closing(sqlite3.connect(folder / FILE)) as journal,
                closing(sqlite3.connect(copy)) as target,
            ):
                journal.execute("PRAGMA query_only = ON")
                journal.backup(target)
                target.execute("PRAGMA journal_mode = DELETE")
        except Damaged as damaged:
            report.flaws = [damaged.say]
            yield None
            return
        yield copy


def _mend(copy: Path, backups: list[Path]) -> list[str]:
    """Mend a copy as far as it goes; what was done, as sentences."""
    store = Store(copy.parent)
    said: list[str] = []
    try:
        bring_up_to_date(store)
        with store.engine.connect().execution_options(**WRITING) as connection, connection.begin():
            for name in missing_guards(connection):
                said.append(f"{name} is made anew.")
            _without_guards(connection)
            for file in backups:
                with suppress(Trouble), file_alone(file) as backup:
                    said += _rows_from(connection, backup, file) + _strands_from(connection, backup, file)
            for sql in GUARDS.values():
                connection.exec_driver_sql(sql)
            connection.exec_driver_sql("REINDEX")
    finally:
        store.close()
    with closing(sqlite3.connect(copy)) as raw:
        raw.execute("PRAGMA journal_mode = DELETE")
    return said


def _without_guards(connection: Connection) -> None:
    for name, sql in GUARDS.items():
        connection.exec_driver_sql(f"DROP {'INDEX' if sql.startswith('CREATE INDEX') else 'TRIGGER'} IF EXISTS {name}")


def _rows_from(connection: Connection, backup: Connection, file: Path) -> list[str]:
    """Rows that are not as they were written, or not there, from a backup: those that fit the sums around them."""
    there = set(connection.execute(select(rows.c.row)).scalars())
    wanted = damaged_rows(connection) | (set(range(1, max(there, default=0))) - there)
    said = []
    for number in sorted(wanted):
        found = backup.execute(select(rows).where(rows.c.row == number)).first()
        if found is None:
            continue
        now = connection.execute(select(rows).where(rows.c.row == number)).first()
        if now is not None and tuple(now) == tuple(found):
            continue  # damaged by its neighbour only
        before = damaged_rows(connection)
        with connection.begin_nested() as attempt:
            connection.execute(rows.delete().where(rows.c.row == number))
            connection.execute(insert(rows), [dict(found._mapping)])
            fits = number not in damaged_rows(connection) and len(damaged_rows(connection)) <= len(before)
            if not fits:
                attempt.rollback()
        if fits:
            said.append(f"Row {number} is put back from {file.name}.")
    return said


def _strands_from(connection: Connection, backup: Connection, file: Path) -> list[str]:
    """Strands that are not as they were written, from a backup that has them whole under the same name."""
    said = []
    lost: set[Any] = set(backup.execute(select(strands.c.id)).scalars()) - set(
        connection.execute(select(strands.c.id)).scalars()
    )
    for id in sorted(unsound_strands(connection) | lost):
        found = backup.execute(select(strands).where(strands.c.id == id)).first()
        if found is None or text_sum(found.json) != found.sum:
            continue
        connection.execute(strands.delete().where(strands.c.id == id))
        connection.execute(insert(strands), [dict(found._mapping)])
        said.append(f"Strand {id} is put back from {file.name}.")
    return said
