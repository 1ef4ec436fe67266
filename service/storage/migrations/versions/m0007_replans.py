"""Which plan was made on the way of which."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of re-plans and its index."""
    op.create_table(
        "replans",
        sa.Column(
            "plan_id",
            sa.String(40),
            sa.ForeignKey("plans.plan_id", ondelete="CASCADE"),
            primary_key=True,
        ),
        sa.Column("former_plan_id", sa.String(40), nullable=False),
    )
    op.create_index("replans_by_former", "replans", ["former_plan_id"])


def downgrade() -> None:
    """Remove the table of re-plans."""
    op.drop_table("replans")
