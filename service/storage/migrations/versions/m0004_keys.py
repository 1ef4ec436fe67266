"""Keys of callers: hashed, each of one tenant and with scopes."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of keys."""
    op.create_table(
        "api_keys",
        sa.Column("key_id", sa.String(16), primary_key=True),
        sa.Column("tenant_id", sa.String(64), nullable=False),
        sa.Column("secret_hash", sa.String(64), nullable=False),
        sa.Column("scopes", sa.String(64), nullable=False),
        sa.Column("created_at_ms", sa.BigInteger(), nullable=False),
        sa.Column("revoked_at_ms", sa.BigInteger()),
    )


def downgrade() -> None:
    """Remove the table of keys."""
    op.drop_table("api_keys")
