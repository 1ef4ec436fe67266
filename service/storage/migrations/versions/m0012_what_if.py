"""Re-plans that were made only to be looked at."""

import sqlalchemy as sa
from alembic import op

revision = "0012"
down_revision = "0011"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the mark; every re-plan so far was made to be followed."""
    with op.batch_alter_table("replans") as replans:
        replans.add_column(
            sa.Column("what_if", sa.Boolean(), nullable=False, server_default=sa.false())
        )


def downgrade() -> None:
    """Remove the mark."""
    with op.batch_alter_table("replans") as replans:
        replans.drop_column("what_if")
