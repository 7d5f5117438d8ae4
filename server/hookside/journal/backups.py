"""Backups: one file each, consistent while a server is writing, checked before it counts.

A backup is the journal's file as it was at one moment (SQLite's backup API, https://www.sqlite.org/backup.html), with a
note of when it was taken. Keys, cookies and codes are not in it because they are not in the journal. Those made by
themselves lie in `backups/` of the data folder and are thinned out to a ladder; their numbers say which is newer, the
date in a name is for people.
"""

from __future__ import annotations

import errno
import hashlib
import json
import os
import re
import shutil
import sqlite3
import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from hookside.journal.alone import file_alone
from hookside.journal.check import check
from hookside.journal.rows import compact
from hookside.journal.store import FILE
from hookside.journal.trouble import Damaged, Full, Occupied, ReadOnly, Trouble, in_plain_words

FOLDER = "backups"
NAME = re.compile(r"journal-(\d{6,12})-(\d{4})(\d\d)(\d\d)\.sqlite")
NEWEST, DAYS, WEEKS, MONTHS = 4, 7, 5, 12  # rungs of the ladder
ROOM_LEFT = 64 << 20  # bytes of the disk that backups made by themselves leave free
NOTE = "backup"  # key of the note among a backup's settings


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup as its name and its note tell of it. `rows`: how many it has."""

    file: Path
    number: int
    day: date
    taken: str
    rows: int
    digest: str
    size: int


def backup(source: Path, target: Path, wall: str, over: bool = False) -> int:
    """Write the journal `source` into one file, also while a server writes to it; how many rows it has.

    The file stands only after it has been read back and found sound. Raises Trouble; then nothing is there, or what
    was there before.
    """
    if not source.is_file():
        raise Trouble(f"There is no journal in {source.parent}: nothing to back up.")
    if target.exists() and not over:
        raise Occupied(f"{target} is there already. Name another file, or say --over to write over it.")
    if target.exists() and target.samefile(source):
        raise Occupied(f"{target} is the journal itself. Name another file.")
    part = target.with_name(f".{target.name}.part")
    with writing_to(target):
        part.unlink(missing_ok=True)
        os.close(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600))
        try:
            rows = _copy(source, part, wall)
            flaws = look(part)
            if flaws:
                raise Damaged(f"The journal {source} was not backed up, because it is damaged: {flaws[0]}")
            to_disk(part)
            os.replace(part, target)
            to_disk(target.parent)
        finally:
            part.unlink(missing_ok=True)
    return rows


def _copy(source: Path, part: Path, wall: str) -> int:
    with in_plain_words(source), closing(sqlite3.connect(source)) as journal, closing(sqlite3.connect(part)) as copy:
        journal.execute("PRAGMA query_only = ON")
        journal.execute("PRAGMA busy_timeout = 5000")
        journal.backup(copy)  # all pages in one breath: a reader does not hold up writers of a write-ahead log
        copy.execute("PRAGMA journal_mode = DELETE")  # one file, without a log beside it
        rows = int(copy.execute("SELECT count(*) FROM rows").fetchone()[0])
        note = {"taken": wall, "rows": rows, "digest": digest(copy)}
        copy.execute("INSERT OR REPLACE INTO settings (key, value) VALUES (?, ?)", (NOTE, compact(note)))
        copy.commit()
    return rows


def digest(connection: sqlite3.Connection) -> str:
    """Says whether two journals hold the same: rows by the last one's sum, the small tables by all there is in them."""
    told = hashlib.sha256()
    asked = (
        "SELECT epoch FROM meta",
        "SELECT max(row), (SELECT sum FROM rows ORDER BY row DESC LIMIT 1) FROM rows",
        "SELECT id, text, terms, removed FROM patterns ORDER BY rowid",
        "SELECT id, pattern, title, put_away FROM makings ORDER BY id",
        f"SELECT key, value FROM settings WHERE key <> '{NOTE}' ORDER BY key",
        "SELECT device, name FROM devices ORDER BY device",
    )
    for question in asked:
        for row in connection.execute(question):
            told.update(repr(row).encode("utf-8", "replace"))
    return told.hexdigest()[:32]


def look(file: Path) -> list[str]:
    """What is wrong with a journal file that nobody writes to, as sentences. One of an earlier version is looked at as
    it will be when it is opened."""
    try:
        with file_alone(file) as connection:
            return check(connection)
    except Damaged:
        return [f"{file} is damaged, or no journal at all."]
    except Trouble as trouble:
        return [trouble.say]
    except Exception:  # what is not as it was written can be anything
        return [f"{file} is damaged."]


# -- made by themselves -----------------------------------------------------


def kept(folder: Path) -> list[Backup]:
    """The backups in a data folder that were made by themselves, newest first; of each only its note is read."""
    found = []
    with suppress(OSError):
        for file in (folder / FOLDER).iterdir():
            named = NAME.fullmatch(file.name)
            if named is None:
                continue
            note = read_note(file)
            with suppress(OSError, ValueError):  # gone meanwhile, or named after no day there is
                number, year, month, day = map(int, named.groups())
                taken, rows, said = str(note.get("taken", "")), int(note.get("rows", 0)), str(note.get("digest", ""))
                found.append(Backup(file, number, date(year, month, day), taken, rows, said, file.stat().st_size))
    return sorted(found, key=lambda one: one.number, reverse=True)


def read_note(file: Path) -> dict[str, Any]:
    """What a backup says of itself: {taken, rows, digest}; nothing where it can't be read."""
    try:
        with closing(sqlite3.connect(f"{file.absolute().as_uri()}?immutable=1", uri=True)) as connection:
            row = connection.execute("SELECT value FROM settings WHERE key = ?", (NOTE,)).fetchone()
        note = json.loads(row[0]) if row else {}
        return note if isinstance(note, dict) else {}
    except (sqlite3.Error, ValueError, OSError):
        return {}


def rotate(folder: Path, wall: str) -> Path | None:
    """Make a backup in the data folder where something changed since the last one, and thin out the old ones.

    None where nothing changed, or too little room is left on the disk. Raises Trouble.
    """
    source, shelf = folder / FILE, folder / FOLDER
    with writing_to(shelf):
        shelf.mkdir(mode=0o700, exist_ok=True)
        before = kept(folder)
        with in_plain_words(source), closing(sqlite3.connect(source)) as journal:
            journal.execute("PRAGMA query_only = ON")
            now = digest(journal)
        if before and before[0].digest == now:
            return None
        if shutil.disk_usage(shelf).free < source.stat().st_size * 2 + ROOM_LEFT:
            return None
        number = before[0].number + 1 if before else 1
        target = shelf / f"journal-{number:06d}-{wall[:10].replace('-', '')}.sqlite"
        backup(source, target, wall)
        thin_out(kept(folder))
    return target


def thin_out(found: Iterable[Backup]) -> None:
    """Remove what is on no rung of the ladder."""
    found = list(found)
    keep = rungs([(one.number, one.day) for one in found])
    for one in found:
        if one.number not in keep:
            with suppress(OSError):  # the next one tries again
                one.file.unlink()


def rungs(found: Iterable[tuple[int, date]]) -> set[int]:
    """Which backups to keep, of (number, day): the newest four, then the newest of each of the last seven days, five
    weeks and twelve months that have one. Newer is the higher number: a wrong clock puts one on another rung at worst.
    """
    order = sorted(found, reverse=True)
    keep = {number for number, _ in order[:NEWEST]}
    for most, rung in ((DAYS, "%Y-%m-%d"), (WEEKS, "%G-%V"), (MONTHS, "%Y-%m")):
        newest: dict[str, int] = {}
        for number, day in order:
            newest.setdefault(day.strftime(rung), number)
        keep.update(list(newest.values())[:most])
    return keep


def last_good(folder: Path) -> Backup | None:
    """The newest backup that is sound all through."""
    return next((one for one in kept(folder) if not look(one.file)), None)


def offer(folder: Path) -> str:
    """What to do about a damaged journal, as a sentence that names the last good backup and the command."""
    found = last_good(folder)
    if found is None:
        return "There is no good backup of it in this folder; put back a copy of your own, or use another --folder."
    return (
        f"The last good backup is of {in_words(found.taken)}, with {found.rows} rows. "
        f"Put it back with: {command()} restore --folder {quoted(folder)} --over {quoted(found.file)}"
    )


def command() -> str:
    """How this Hookside is called in a shell: the command beside the Python that runs, seen from here."""
    found = Path(sys.executable).with_name("hookside.exe" if os.name == "nt" else "hookside")
    if not found.exists():
        return "hookside"
    with suppress(ValueError, OSError):
        return quoted(found.relative_to(Path.cwd()))
    return quoted(found)


def in_words(wall: str) -> str:
    """ "2026-11-25 18:02" of a wall time."""
    return wall[:16].replace("T", " ") or "an unknown day"


def quoted(path: Path) -> str:
    """A path for a shell."""
    text = str(path)
    return text if re.fullmatch(r"[\w./:\\-]+", text) else f'"{text}"'


# -- files ------------------------------------------------------------------


@contextmanager
def closing(connection: sqlite3.Connection) -> Iterator[sqlite3.Connection]:
    connection.text_factory = lambda raw: raw.decode("utf-8", "replace")
    try:
        yield connection
    finally:
        connection.close()


def to_disk(path: Path) -> None:
    """What is written in a file, or which files a folder has, reaches the disk. Folders are not opened on Windows."""
    if path.is_dir() and os.name == "nt":
        return
    handle = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


@contextmanager
def writing_to(target: Path) -> Iterator[None]:
    """Turns what the system says about writing `target` into a Trouble."""
    try:
        yield
    except OSError as error:
        if error.errno in (errno.ENOSPC, errno.EDQUOT):
            raise Full(f"There is no room for {target}. Make room and try again; nothing was changed.") from error
        raise ReadOnly(f"{target} cannot be written ({error.strerror or error}). Name another place.") from error


