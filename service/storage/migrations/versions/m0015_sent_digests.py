"""Beside each key, a digest of the request as it was sent."""

import sqlalchemy as sa
from alembic import op

revision = "0015"
down_revision = "0014"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the digest; nobody knows it of the keys so far."""
    with op.batch_alter_table("idempotency_keys") as keys:
        keys.add_column(sa.Column("sent_digest", sa.String(64)))


def downgrade() -> None:
    """Remove the digest; a key still knows its request by what was asked."""
    with op.batch_alter_table("idempotency_keys") as keys:
        keys.drop_column("sent_digest")
