"""The tables as this version reads and writes them. How they came about stands in migrations/."""

from __future__ import annotations

from sqlalchemy import Column, ForeignKey, Integer, MetaData, Table, Text

metadata = MetaData()

meta = Table(
    "meta",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("epoch", Text, nullable=False),
    Column("created", Text, nullable=False),
)

patterns = Table(
    "patterns",
    metadata,
    Column("id", Text, primary_key=True),
    Column("text", Text, nullable=False),
    Column("terms", Text),
    Column("source", Text, nullable=False),
    Column("added", Text, nullable=False),
    Column("removed", Text),  # makings go on after their pattern has left the shelf
)

makings = Table(
    "makings",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("pattern", Text, ForeignKey("patterns.id"), nullable=False),
    Column("title", Text, nullable=False),
    Column("begun", Text, nullable=False),
    Column("put_away", Text),
)

strands = Table(
    "strands",
    metadata,
    Column("id", Text, primary_key=True),
    Column("json", Text, nullable=False),
    Column("sum", Text, nullable=False),
)

rows = Table(
    "rows",
    metadata,
    Column("row", Integer, primary_key=True),
    Column("making", Integer, ForeignKey("makings.id"), nullable=False),
    Column("run", Text, nullable=False),
    Column("strand", Text, nullable=False),
    Column("id", Text, nullable=False, unique=True),
    Column("device", Text, nullable=False),
    Column("device_seq", Integer, nullable=False),
    Column("kind", Text, nullable=False),
    Column("intent", Text, nullable=False),
    Column("payload", Text, nullable=False),
    Column("answer", Text, nullable=False),
    Column("wall", Text, nullable=False),  # shown, never used for order
    Column("sum", Text, nullable=False),
)

devices = Table(
    "devices",
    metadata,
    Column("device", Text, primary_key=True),
    Column("name", Text, nullable=False),
    Column("met", Text, nullable=False),
)

settings = Table(
    "settings",
    metadata,
    Column("key", Text, primary_key=True),
    Column("value", Text, nullable=False),
)

# A restored journal has an epoch of its own; up to `after_row` its rows are those of the parent epoch.
branches = Table(
    "branches",
    metadata,
    Column("epoch", Text, primary_key=True),
    Column("parent", Text, nullable=False),
    Column("after_row", Integer, nullable=False),
    Column("restored", Text, nullable=False),
    Column("taken", Text),  # when the backup was made
)

# Moves for a making that this journal does not have: kept, and answered "gone".
strays = Table(
    "strays",
    metadata,
    Column("number", Integer, primary_key=True),
    Column("id", Text, nullable=False, unique=True),
    Column("device", Text, nullable=False),
    Column("making", Integer, nullable=False),
    Column("move", Text, nullable=False),
    Column("wall", Text, nullable=False),
    Column("sum", Text, nullable=False),
)

KEPT_FOR_EVER = ("rows", "strands", "strays")

# What stands beside the tables, by name: triggers that refuse changes, and an index. As the migrations made them.
GUARDS = {
    f"{table}_refuse_{deed.lower()}": f"CREATE TRIGGER {table}_refuse_{deed.lower()} BEFORE {deed} ON {table} "
    f"BEGIN SELECT RAISE(ABORT, '{table} are kept for ever'); END"
    for table in KEPT_FOR_EVER
    for deed in ("UPDATE", "DELETE")
} | {"rows_of_a_making": "CREATE INDEX rows_of_a_making ON rows (making, row)"}
