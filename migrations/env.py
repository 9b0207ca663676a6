"""Runs the migrations on the connection it is handed, inside that connection's transaction."""

from alembic import context

from stash.store.tables import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    render_as_batch=True,
)
context.run_migrations()
