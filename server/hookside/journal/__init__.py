"""The journal: rows on disk, append-only; places are their replay, and replay never compiles."""

from hookside.journal.cupboard import MAKER
from hookside.journal.journal import Journal
from hookside.journal.labels import Labels
from hookside.journal.store import FILE
from hookside.journal.taking import MOST_MOVES
from hookside.journal.trouble import Damaged, Full, Locked, MovedOn, ReadOnly, TooNew, Trouble, Unsound

__all__ = [
    "FILE",
    "MAKER",
    "MOST_MOVES",
    "Damaged",
    "Full",
    "Journal",
    "Labels",
    "Locked",
    "MovedOn",
    "ReadOnly",
    "TooNew",
    "Trouble",
    "Unsound",
]
