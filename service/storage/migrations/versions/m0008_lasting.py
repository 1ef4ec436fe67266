"""Plans that last: the versions that made them, their releases, and how long they are kept."""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the versions to plans, and the tables of releases and of retention."""
    with op.batch_alter_table("plans") as plans:
        plans.add_column(sa.Column("wire_version", sa.String(20)))
        plans.add_column(sa.Column("rules_version", sa.String(20)))
    op.create_index("plans_by_finish", "plans", ["tenant_id", "finished_at_ms"])
    op.create_index("plans_by_end", "plans", ["finished_at_ms"])
    op.create_table(
        "releases",
        sa.Column("tenant_id", sa.String(64), primary_key=True),
        sa.Column("reference", sa.String(200), primary_key=True),
        sa.Column("release_number", sa.Integer(), primary_key=True, autoincrement=False),
        sa.Column("plan_id", sa.String(40), nullable=False),
        sa.Column("released_by", sa.String(200), nullable=False),
        sa.Column("key_id", sa.String(16)),
        sa.Column("released_at_ms", sa.BigInteger(), nullable=False),
        sa.Column("outcome_digest", sa.String(64), nullable=False),
    )
    op.create_index("releases_by_plan", "releases", ["tenant_id", "plan_id"])
    op.create_table(
        "retention",
        sa.Column("tenant_id", sa.String(64), primary_key=True),
        sa.Column("days", sa.Integer(), nullable=False),
    )


def downgrade() -> None:
    """Remove what upgrade added; the plans stay."""
    op.drop_table("retention")
    op.drop_index("releases_by_plan", "releases")
    op.drop_table("releases")
    op.drop_index("plans_by_end", "plans")
    op.drop_index("plans_by_finish", "plans")
    with op.batch_alter_table("plans") as plans:
        plans.drop_column("rules_version")
        plans.drop_column("wire_version")
