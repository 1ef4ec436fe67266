"""Run by Alembic: applies migrations on the connection that the caller has opened.

For a new migration, hand Alembic a database instead:
`alembic -x database=FILE revision --autogenerate -m "..."` in a folder with a script_location.
"""

from alembic import context

from service.storage.tables import Tables

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Tables.metadata,
    render_as_batch=True,
    # The caller's transaction holds the write lock, so that two starting services take turns.
    transactional_ddl=True,
)
context.run_migrations()
