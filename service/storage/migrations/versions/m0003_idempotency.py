"""Keys by which a repeated request is known, and an index for lists of one state."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of keys and the index."""
    op.create_table(
        "idempotency_keys",
        sa.Column("tenant_id", sa.String(64), primary_key=True),
        sa.Column("idempotency_key", sa.String(255), primary_key=True),
        sa.Column("request_digest", sa.String(64), nullable=False),
        sa.Column(
            "plan_id",
            sa.String(40),
            sa.ForeignKey("plans.plan_id", ondelete="CASCADE"),
            nullable=False,
        ),
        sa.Column("created_at_ms", sa.BigInteger(), nullable=False),
    )
    op.create_index("keys_by_plan", "idempotency_keys", ["plan_id"])
    op.create_index("keys_by_time", "idempotency_keys", ["created_at_ms"])
    op.create_index("plans_by_tenant_state", "plans", ["tenant_id", "state", "plan_id"])


def downgrade() -> None:
    """Remove what upgrade added."""
    op.drop_index("plans_by_tenant_state", "plans")
    op.drop_table("idempotency_keys")
