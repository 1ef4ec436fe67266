"""Reports after the expedition, kept with their plans."""

import sqlalchemy as sa
from alembic import op

revision = "0013"
down_revision = "0012"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of reports and its index."""
    op.create_table(
        "trip_reports",
        sa.Column("report_id", sa.String(40), primary_key=True),
        sa.Column("tenant_id", sa.String(64), nullable=False),
        sa.Column(
            "plan_id",
            sa.String(40),
            sa.ForeignKey("plans.plan_id", ondelete="CASCADE"),
            nullable=False,
        ),
        sa.Column("created_at_ms", sa.BigInteger(), nullable=False),
        sa.Column("request_digest", sa.String(64), nullable=False),
        sa.Column("request_document", sa.LargeBinary(), nullable=False),
        sa.Column("report_document", sa.LargeBinary(), nullable=False),
    )
    op.create_index("reports_by_plan", "trip_reports", ["plan_id", "request_digest"], unique=True)


def downgrade() -> None:
    """Remove the table of reports; what was sent after an expedition is lost."""
    op.drop_table("trip_reports")
