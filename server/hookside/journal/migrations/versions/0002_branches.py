"""Branches: where a restored journal left the one it came from. Strays: moves for a making that is not there."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    op.create_table(
        "branches",
        sa.Column("epoch", sa.Text, primary_key=True),
        sa.Column("parent", sa.Text, nullable=False),
        sa.Column("after_row", sa.Integer, nullable=False),
        sa.Column("restored", sa.Text, nullable=False),
        sa.Column("taken", sa.Text),
    )
    op.create_table(
        "strays",
        sa.Column("number", sa.Integer, primary_key=True),
        sa.Column("id", sa.Text, nullable=False, unique=True),
        sa.Column("device", sa.Text, nullable=False),
        sa.Column("making", sa.Integer, nullable=False),
        sa.Column("move", sa.Text, nullable=False),
        sa.Column("wall", sa.Text, nullable=False),
        sa.Column("sum", sa.Text, nullable=False),
    )
    for deed in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER strays_refuse_{deed.lower()} BEFORE {deed} ON strays "
            f"BEGIN SELECT RAISE(ABORT, 'strays are kept for ever'); END"
        )
