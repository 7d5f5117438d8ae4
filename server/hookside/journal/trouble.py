"""What can go wrong with a journal on disk, in sentences for the maker."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy.exc import DBAPIError


class Trouble(Exception):
    """The journal cannot do what was asked, and nothing of it was done.

    say    one or two sentences: what, where, what to do
    code   a word for programs
    """

    code = "trouble"

    def __init__(self, say: str) -> None:
        super().__init__(say)
        self.say = say


class Full(Trouble):
    """No room on the disk."""

    code = "full"


class ReadOnly(Trouble):
    """The file or its folder cannot be written."""

    code = "read-only"


class Locked(Trouble):
    """Another program holds the file."""

    code = "locked"


class Damaged(Trouble):
    """The file is not what was written."""

    code = "damaged"


class TooNew(Trouble):
    """A later Hookside wrote the file."""

    code = "too-new"


class Unsound(Trouble):
    """A strand that does not add up was to be kept."""

    code = "unsound"


class Occupied(Trouble):
    """Something is there that nobody said to write over."""

    code = "occupied"


class MovedOn(Trouble):
    """What was asked rests on a place that is not the last any more."""

    code = "moved-on"


ROOM = 1 << 20  # bytes; the index beside a write-ahead log takes 32 KiB at a time (sqlite.org/walformat.html)

# What SQLite says, by the general error, of a file whose own list of tables was changed.
NOT_AS_MADE = ("no such table", "no such column", "already exists", "malformed", "has no column", "no such index")


def damaged_file(file: Path) -> Damaged:
    """The sentence about a file that cannot be used at all."""
    return Damaged(
        f"The journal {file} is damaged and was left as it is. "
        f"To see what is wrong and what can be put back: hookside check --folder {file.parent}"
    )


def _no_room(file: Path) -> bool:
    """Whether it is room that fails: SQLite speaks of a disk that does not write, as of a broken one, where not even
    the few pages fit that it lays beside a file before it reads it."""
    try:
        return shutil.disk_usage(file.parent).free < ROOM
    except OSError:
        return False


def _family(error: sqlite3.Error, file: Path) -> Trouble:
    code = getattr(error, "sqlite_errorcode", 0) & 0xFF  # the low byte is the kind, the rest its shade
    if code == sqlite3.SQLITE_FULL or (code in (sqlite3.SQLITE_IOERR, sqlite3.SQLITE_CANTOPEN) and _no_room(file)):
        return Full(f"There is no room left on the disk of {file.parent}. Make room; what was acknowledged is kept.")
    if code in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM, sqlite3.SQLITE_AUTH):
        return ReadOnly(
            f"{file} cannot be written. Let Hookside write there, or start it with another folder: --folder."
        )
    if code == sqlite3.SQLITE_CANTOPEN:
        return ReadOnly(f"{file} cannot be opened. See that the folder is there and may be written.")
    if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return Locked(f"Another program holds {file}. Close it there and try again; nothing was changed.")
    if code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB) or any(sign in str(error) for sign in NOT_AS_MADE):
        return damaged_file(file)
    if code == sqlite3.SQLITE_IOERR:
        return Damaged(f"The disk did not read or write {file} as asked. See whether the disk is sound and not full.")
    return Trouble(f"The journal {file} did not take this: {error}. Nothing was changed.")


@contextmanager
def in_plain_words(file: Path) -> Iterator[None]:
    """Turns what SQLite raises about `file` into a Trouble."""
    try:
        yield
    except DBAPIError as error:
        if isinstance(error.orig, sqlite3.IntegrityError) or not isinstance(error.orig, sqlite3.Error):
            raise
        raise _family(error.orig, file) from error
    except sqlite3.Error as error:
        raise _family(error, file) from error
