"""The table of plans."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of plans and its indexes."""
    op.create_table(
        "plans",
        sa.Column("plan_id", sa.String(40), primary_key=True),
        sa.Column("tenant_id", sa.String(64), nullable=False),
        sa.Column("reference", sa.String(200)),
        sa.Column("state", sa.String(10), nullable=False),
        sa.Column("created_at_ms", sa.Integer(), nullable=False),
        sa.Column("started_at_ms", sa.Integer()),
        sa.Column("finished_at_ms", sa.Integer()),
        sa.Column("request_document", sa.LargeBinary(), nullable=False),
        sa.Column("request_digest", sa.String(64), nullable=False),
        sa.Column("solve_seconds", sa.Float(), nullable=False),
        sa.Column("outcome_document", sa.LargeBinary()),
        sa.Column("outcome_kind", sa.String(40)),
        sa.Column("progress_document", sa.LargeBinary()),
        sa.Column("attempt", sa.Integer(), nullable=False, server_default=sa.text("0")),
        sa.Column("lease_until_ms", sa.Integer()),
        sa.Column("fencing_token", sa.Integer(), nullable=False, server_default=sa.text("0")),
        sa.CheckConstraint("state IN ('queued', 'running', 'done', 'failed')", name="state_known"),
        sa.CheckConstraint(
            "(state IN ('done', 'failed')) = (outcome_document IS NOT NULL)",
            name="outcome_exactly_when_finished",
        ),
        sa.CheckConstraint(
            "(state = 'running') = (lease_until_ms IS NOT NULL)", name="lease_exactly_when_running"
        ),
    )
    op.create_index("plans_by_state", "plans", ["state", "created_at_ms", "plan_id"])
    op.create_index("plans_by_reference", "plans", ["tenant_id", "reference", "plan_id"])
    op.create_index("plans_by_tenant", "plans", ["tenant_id", "plan_id"])


def downgrade() -> None:
    """Remove the table of plans."""
    op.drop_table("plans")
