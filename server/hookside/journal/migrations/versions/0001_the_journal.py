"""The journal: patterns, makings, strands, rows, devices, settings."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

KEPT_FOR_EVER = ("rows", "strands")


def upgrade() -> None:
    op.create_table(
        "meta",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("epoch", sa.Text, nullable=False),
        sa.Column("created", sa.Text, nullable=False),
        sa.CheckConstraint("id = 1", name="one_journal"),
    )
    op.create_table(
        "patterns",
        sa.Column("id", sa.Text, primary_key=True),
        sa.Column("text", sa.Text, nullable=False),
        sa.Column("terms", sa.Text),
        sa.Column("source", sa.Text, nullable=False),
        sa.Column("added", sa.Text, nullable=False),
        sa.Column("removed", sa.Text),
        sa.CheckConstraint("source IN ('own', 'yours')", name="source_known"),
        sa.CheckConstraint("terms IN ('US', 'UK')", name="terms_known"),
    )
    op.create_table(
        "makings",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("pattern", sa.Text, sa.ForeignKey("patterns.id"), nullable=False),
        sa.Column("title", sa.Text, nullable=False),
        sa.Column("begun", sa.Text, nullable=False),
        sa.Column("put_away", sa.Text),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "strands",
        sa.Column("id", sa.Text, primary_key=True),
        sa.Column("json", sa.Text, nullable=False),
        sa.Column("sum", sa.Text, nullable=False),
    )
    op.create_table(
        "rows",
        sa.Column("row", sa.Integer, primary_key=True),
        sa.Column("making", sa.Integer, sa.ForeignKey("makings.id"), nullable=False),
        sa.Column("run", sa.Text, nullable=False),
        sa.Column("strand", sa.Text, nullable=False),
        sa.Column("id", sa.Text, nullable=False, unique=True),
        sa.Column("device", sa.Text, nullable=False),
        sa.Column("device_seq", sa.Integer, nullable=False),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("intent", sa.Text, nullable=False),
        sa.Column("payload", sa.Text, nullable=False),
        sa.Column("answer", sa.Text, nullable=False),
        sa.Column("wall", sa.Text, nullable=False),
        sa.Column("sum", sa.Text, nullable=False),
        sa.CheckConstraint(
            "kind IN ('begin', 'move', 'aside', 'refused', 'settle', 'recast', 'choice')", name="kind_known"
        ),
    )
    op.create_index("rows_of_a_making", "rows", ["making", "row"])
    op.create_table(
        "devices",
        sa.Column("device", sa.Text, primary_key=True),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("met", sa.Text, nullable=False),
    )
    op.create_table(
        "settings",
        sa.Column("key", sa.Text, primary_key=True),
        sa.Column("value", sa.Text, nullable=False),
    )
    for table in KEPT_FOR_EVER:
        for deed in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_refuse_{deed.lower()} BEFORE {deed} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} are kept for ever'); END"
            )
