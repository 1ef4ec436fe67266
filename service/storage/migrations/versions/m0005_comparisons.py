"""The table of comparisons."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of comparisons and its index."""
    op.create_table(
        "comparisons",
        sa.Column("comparison_id", sa.String(40), primary_key=True),
        sa.Column("tenant_id", sa.String(64), nullable=False),
        sa.Column("reference", sa.String(200)),
        sa.Column("created_at_ms", sa.BigInteger(), nullable=False),
        sa.Column("rows_document", sa.LargeBinary(), nullable=False),
    )
    op.create_index("comparisons_by_tenant", "comparisons", ["tenant_id", "comparison_id"])


def downgrade() -> None:
    """Remove the table of comparisons."""
    op.drop_table("comparisons")
