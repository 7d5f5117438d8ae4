"""The record of a making: sittings, pace, what is left and how long that takes. Pure; times come from outside."""

from hookside.record.left import Left, left
from hookside.record.sittings import Pace, Sitting, Worked, pace, sittings, worked
from hookside.record.told import Metres, Record, record, table

__all__ = [
    "Left", "Metres", "Pace", "Record", "Sitting", "Worked", "left", "pace", "record", "sittings", "table", "worked",
]  # fmt: skip
