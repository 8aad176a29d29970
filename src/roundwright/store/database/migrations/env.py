"""Runs the migrations on the connection of whoever asks; their transaction is the caller's."""

from alembic import context

from roundwright.store.database.tables import METADATA

connection = context.config.attributes["connection"]
context.configure(connection=connection, target_metadata=METADATA, transactional_ddl=False)
context.run_migrations()
