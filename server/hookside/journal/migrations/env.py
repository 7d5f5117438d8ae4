"""Alembic's way in: runs the migrations on the connection that migrate.py hands over."""

from alembic import context

context.configure(connection=context.config.attributes["connection"], transaction_per_migration=True)
with context.begin_transaction():
    context.run_migrations()
