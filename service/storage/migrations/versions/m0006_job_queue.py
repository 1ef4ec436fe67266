"""The queue of jobs that the distributed engine stands on; PostgreSQL alone has it."""

from alembic import op
from procrastinate.schema import SchemaManager

from service.storage.postgresql import QUEUE_SCHEMA

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables and functions of the queue, in a schema of their own."""
    bind = op.get_bind()
    if bind.dialect.name != "postgresql":
        return
    # The library's text has many statements and percent signs, which only the driver itself takes.
    cursor = bind.connection.cursor()
    cursor.execute(f"CREATE SCHEMA {QUEUE_SCHEMA}")
    cursor.execute(f"SET LOCAL search_path TO {QUEUE_SCHEMA}, public")
    cursor.execute(SchemaManager.get_schema())
    cursor.execute(f"SET LOCAL search_path TO public, {QUEUE_SCHEMA}")
    cursor.close()


def downgrade() -> None:
    """Remove the queue; the plans that wait are rows of ours and stay."""
    if op.get_bind().dialect.name == "postgresql":
        op.execute(f"DROP SCHEMA {QUEUE_SCHEMA} CASCADE")
