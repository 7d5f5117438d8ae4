"""Putting a backup in the place of a journal. The journal that was there is kept beside the other backups."""

from __future__ import annotations

import os
import secrets
import shutil
import sqlite3
import tempfile
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import func, select

from hookside.journal.backups import FOLDER, NOTE, backup, closing, look, read_note, to_disk, writing_to
from hookside.journal.check import check
from hookside.journal.lineage import Branch, read_branches
from hookside.journal.migrate import up_to_date
from hookside.journal.store import FILE, Store
from hookside.journal.tables import branches, meta, rows, settings
from hookside.journal.trouble import Damaged, Occupied, Trouble
from hookside.journal.writeahead import LOG, refuse_broken

LEFT_OVER = (FILE + "-wal", FILE + "-shm", FILE + "-journal")


@dataclass(frozen=True, slots=True)
class Restored:
    """What was done: rows of the journal that stands now, when its backup was taken, where the one before is kept."""

    rows: int
    taken: str
    replaced: Path | None


def restore(folder: Path, file: Path, wall: str, over: bool = False) -> Restored:
    """Make `file` the journal of a data folder that no server holds.

    It gets an epoch of its own, so that devices which know more ask before anything of theirs is sent. Until the last
    step nothing is changed; that one is a single renaming. Raises Trouble.
    """
    if not file.is_file():
        raise Trouble(f"There is no file {file}.")
    place = folder / FILE
    if place.exists() and file.samefile(place):
        raise Occupied(f"{file} is the journal itself, not a backup of it.")
    if place.exists() and not over:
        raise Occupied(
            f"There is a journal in {folder} already. Say --over to put {file.name} in its place; "
            f"the one that is there is then kept in {folder / FOLDER}."
        )
    with writing_to(folder):
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        with tempfile.TemporaryDirectory(prefix=".restoring-", dir=folder) as room:
            taken = str(read_note(file).get("taken", ""))
            fresh = Path(room) / FILE
            shutil.copyfile(file, fresh)
            log = file.with_name(f"{file.name}-wal")
            if log.is_file():  # the file of a folder that was copied while it was in use: its log is part of it
                shutil.copyfile(log, fresh.with_name(f"{FILE}-wal"))
            else:
                sound(fresh, file)
            count = _prepare(Path(room), file, known_branches(place), wall, taken)
            replaced = put_in_place(fresh, folder, wall)
    return Restored(count, taken, replaced)


def put_in_place(fresh: Path, folder: Path, wall: str) -> Path | None:
    """Make a file the journal of a folder; where the one that was there is kept."""
    place = folder / FILE
    to_disk(fresh)
    replaced = put_aside(folder, wall) if place.exists() else None
    for name in LEFT_OVER:  # a log must never meet another file than its own
        (folder / name).unlink(missing_ok=True)
    os.replace(fresh, place)
    to_disk(folder)
    return replaced


def _prepare(room: Path, file: Path, known: dict[str, Branch], wall: str, taken: str) -> int:
    """Bring the copy up to date, look through it, and give it its own epoch; how many rows it has."""
    store = Store(room)
    try:
        parent = up_to_date(store, wall)
        with store.reading() as connection:
            refuse(check(connection), store.file, file)
        with store.writing() as connection:
            last = connection.execute(select(func.max(rows.c.row))).scalar() or 0
            count = int(connection.execute(select(func.count()).select_from(rows)).scalar_one())
            epoch = secrets.token_hex(16)
            mine = read_branches(connection)
            new = Branch(epoch, parent, last, wall, taken or None)
            for branch in [*(one for one in known.values() if one.epoch not in mine), new]:
                told = {"restored": branch.restored, "taken": branch.taken, "after_row": branch.after}
                connection.execute(branches.insert().values(epoch=branch.epoch, parent=branch.parent, **told))
            connection.execute(meta.update().values(epoch=epoch))
            connection.execute(settings.delete().where(settings.c.key == NOTE))
    finally:
        store.close()
    with closing(sqlite3.connect(room / FILE)) as connection:
        connection.execute("PRAGMA journal_mode = DELETE")
    return count


def sound(fresh: Path, file: Path) -> None:
    """Refuse a copy that is not as it was written. Raises Damaged."""
    refuse(look(fresh), fresh, file)


def refuse(flaws: list[str], fresh: Path, file: Path) -> None:
    if flaws:
        said = flaws[0].replace(str(fresh), str(file))
        raise Damaged(f"{file} was not put back, and nothing was changed: {said}")


def known_branches(place: Path) -> dict[str, Branch]:
    """The restores that the journal which is replaced knows of: devices may still know one of its epochs."""
    if not place.is_file():
        return {}
    with (
        suppress(Trouble, sqlite3.Error, OSError),
        tempfile.TemporaryDirectory(prefix=".restoring-", dir=place.parent) as room,
        closing(sqlite3.connect(both_files(place, Path(room)))) as connection,
    ):
        found = connection.execute("SELECT epoch, parent, after_row, restored, taken FROM branches").fetchall()
        return {row[0]: Branch(*row) for row in found}
    return {}


def both_files(journal: Path, room: Path) -> Path:
    """A copy of a journal and its log as they are: SQLite, let at them, would do away with a log that is damaged."""
    log = journal.with_name(journal.name + LOG)
    shutil.copyfile(journal, room / journal.name)
    if log.is_file():
        shutil.copyfile(log, room / log.name)
    return room / journal.name


def put_aside(folder: Path, wall: str) -> Path:
    """Keep the journal that is there among the backups: as one, where it is sound, else file by file as it is."""
    shelf = folder / FOLDER
    shelf.mkdir(mode=0o700, exist_ok=True)
    stamp = wall[:19].replace("-", "").replace(":", "").replace("T", "-")
    number = next(n for n in range(1, 10_000) if not list(shelf.glob(f"replaced-{stamp}-{n}.sqlite*")))
    target = shelf / f"replaced-{stamp}-{number}.sqlite"
    try:
        refuse_broken(folder / FILE)
        backup(folder / FILE, target, wall)
        with closing(sqlite3.connect(folder / FILE)) as connection:
            connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    except (Trouble, sqlite3.Error):
        shutil.copyfile(folder / FILE, target)
        for name in LEFT_OVER[:1]:
            if (folder / name).exists():
                shutil.copyfile(folder / name, shelf / (target.name + name.removeprefix(FILE)))
    to_disk(target)
    to_disk(shelf)
    return target
