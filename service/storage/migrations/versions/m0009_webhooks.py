"""Deliveries of webhooks: where a caller wants to hear that a plan is final."""

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of deliveries and its index."""
    op.create_table(
        "webhook_deliveries",
        sa.Column(
            "plan_id",
            sa.String(40),
            sa.ForeignKey("plans.plan_id", ondelete="CASCADE"),
            primary_key=True,
        ),
        sa.Column("webhook_id", sa.String(40), nullable=False),
        sa.Column("tenant_id", sa.String(64), nullable=False),
        sa.Column("url", sa.String(2000), nullable=False),
        sa.Column("state", sa.String(10), nullable=False),
        sa.Column("attempts", sa.Integer(), nullable=False, server_default=sa.text("0")),
        sa.Column("next_at_ms", sa.BigInteger()),
        sa.Column("last_at_ms", sa.BigInteger()),
        sa.Column("last_status", sa.Integer()),
        sa.Column("last_fault", sa.String(30)),
        sa.CheckConstraint(
            "state IN ('waiting', 'due', 'delivered', 'given_up')", name="webhook_state_known"
        ),
        sa.CheckConstraint(
            "(state = 'due') = (next_at_ms IS NOT NULL)", name="next_exactly_when_due"
        ),
    )
    op.create_index("webhooks_by_time", "webhook_deliveries", ["state", "next_at_ms"])


def downgrade() -> None:
    """Remove the table of deliveries."""
    op.drop_table("webhook_deliveries")
