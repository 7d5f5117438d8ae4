"""The journal: rows on disk, append-only; places are their replay, and replay never compiles."""

from hookside.journal.journal import MAKER, MOST_MOVES, Journal
from hookside.journal.store import FILE
from hookside.journal.trouble import Damaged, Full, Locked, ReadOnly, TooNew, Trouble, Unsound

__all__ = [
    "FILE",
    "MAKER",
    "MOST_MOVES",
    "Damaged",
    "Full",
    "Journal",
    "Locked",
    "ReadOnly",
    "TooNew",
    "Trouble",
    "Unsound",
]
