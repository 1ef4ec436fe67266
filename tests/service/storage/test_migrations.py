"""Each migration can be taken back and made again, with the same tables at the end."""

import pytest
from alembic.operations import Operations
from alembic.runtime.migration import MigrationContext
from sqlalchemy import inspect

from service.storage.database import open_database, writing
from service.storage.migrations.versions import (
    m0003_idempotency,
    m0004_keys,
    m0005_comparisons,
    m0007_replans,
    m0008_lasting,
    m0009_webhooks,
)


def _shape(connection):
    found = inspect(connection)
    return {
        table: [(c["name"], repr(c["type"]), c["nullable"]) for c in found.get_columns(table)]
        for table in found.get_table_names()
    }


@pytest.mark.parametrize(
    "migration",
    [
        m0003_idempotency,
        m0004_keys,
        m0005_comparisons,
        m0007_replans,
        m0008_lasting,
        m0009_webhooks,
    ],
)
def test_down_and_up_again_gives_the_same_tables(tmp_path, migration):
    """Down changes the tables, up again makes what was there."""
    engine = open_database(tmp_path / "plans.sqlite3")
    with writing(engine) as connection:
        with Operations.context(MigrationContext.configure(connection)):
            before = _shape(connection)
            migration.downgrade()
            assert _shape(connection) != before
            migration.upgrade()
        assert _shape(connection) == before
    engine.dispose()
