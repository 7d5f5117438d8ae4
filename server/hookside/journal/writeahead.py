"""The write-ahead log, looked at before SQLite opens it.

After a crash SQLite takes the first frame of the log that is not as it was written for the log's end: what was
acknowledged behind it would be forgotten without a word. A log that really ends there, in the middle of a transaction
that nobody was told of, is told from a damaged one by what comes after: each commit is on disk before the next
transaction begins (`synchronous = FULL`), so a frame behind the commit says that all before it was there once.

What this cannot tell is damage to the very last transaction, which looks like one that was cut short.
Format: https://www.sqlite.org/fileformat2.html#the_write_ahead_log
"""

from __future__ import annotations

import struct
import sys
from array import array
from pathlib import Path

from hookside.journal.trouble import Damaged

LOG = "-wal"
HEADER, FRAME = 32, 24  # bytes
MAGIC = {0x377F0682: "little", 0x377F0683: "big"}  # and the order of bytes in which it is summed
SMALLEST = 512  # bytes of a page


def summed(data: bytes, order: str, first: int, second: int) -> tuple[int, int]:
    """SQLite's sum of a log, gone on with over `data`."""
    words = array("I")
    words.frombytes(data)
    if order != sys.byteorder:
        words.byteswap()
    for n in range(0, len(words), 2):
        first = (first + words[n] + second) & 0xFFFFFFFF
        second = (second + words[n + 1] + first) & 0xFFFFFFFF
    return first, second


def broken(log: Path) -> bool:
    """Whether a log lost what was on disk once. It may be written to meanwhile: damage shows at two looks."""
    return _broken(_read(log)) and _broken(_read(log))


def _read(log: Path) -> bytes:
    """A log under one header: not where it was begun anew while it was read. Empty where there is none."""
    while True:
        try:
            data = log.read_bytes()
            with log.open("rb") as again:
                if again.read(HEADER) == data[:HEADER]:
                    return data
        except OSError:
            return b""


def _broken(data: bytes) -> bool:
    if len(data) < HEADER + FRAME + SMALLEST:
        return False
    magic, _, page, _, salt_1, salt_2, *sums = struct.unpack(">8I", data[:HEADER])
    order = MAGIC.get(magic, "")
    if not order or summed(data[: HEADER - 8], order, 0, 0) != tuple(sums):
        return True  # it is on disk before the first frame is
    size = FRAME + page
    first, second = sums
    whole, committed = True, False
    for start in range(HEADER, len(data) - size + 1, size):
        _, commit, its_1, its_2, *its_sums = struct.unpack(">6I", data[start : start + FRAME])
        ours = (its_1, its_2) == (salt_1, salt_2)  # else left from before the log was begun anew, or damaged
        if whole:
            first, second = summed(data[start : start + 8], order, first, second)
            first, second = summed(data[start + FRAME : start + size], order, first, second)
            whole = ours and [first, second] == its_sums
            committed = not whole and ours and commit != 0
        elif ours and committed:
            return True
        elif ours:
            committed = commit != 0
    return False


def refuse_broken(journal: Path) -> None:
    """Raises Damaged for a journal whose log lost what was on disk once."""
    log = journal.with_name(journal.name + LOG)
    if broken(log):
        raise Damaged(
            f"{log}, where the newest moves of the journal lie, is not what was written: some that were acknowledged "
            "cannot be read any more. Both files were left as they are. To see what can still be read, and to go on "
            f"with it: hookside check --folder {journal.parent}"
        )
