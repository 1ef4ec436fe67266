"""The library of routes, gear lists, menus and rosters, and which plan used what of it."""

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables of versions and of uses."""
    op.create_table(
        "library_versions",
        sa.Column("tenant_id", sa.String(64), primary_key=True),
        sa.Column("kind", sa.String(20), primary_key=True),
        sa.Column("entry_id", sa.String(64), primary_key=True),
        sa.Column("version", sa.Integer(), primary_key=True, autoincrement=False),
        sa.Column("title", sa.String(200)),
        sa.Column("reference", sa.String(200)),
        sa.Column("document", sa.LargeBinary()),
        sa.Column("digest", sa.String(64)),
        sa.Column("frozen", sa.Boolean(), nullable=False),
        sa.Column("stored_at_ms", sa.BigInteger(), nullable=False),
        sa.CheckConstraint(
            "(document IS NULL) = (digest IS NULL)", name="digest_exactly_with_document"
        ),
    )
    op.create_table(
        "library_uses",
        sa.Column(
            "plan_id",
            sa.String(40),
            sa.ForeignKey("plans.plan_id", ondelete="CASCADE"),
            primary_key=True,
        ),
        sa.Column("kind", sa.String(20), primary_key=True),
        sa.Column("entry_id", sa.String(64), primary_key=True),
        sa.Column("version", sa.Integer(), primary_key=True, autoincrement=False),
        sa.Column("tenant_id", sa.String(64), nullable=False),
    )
    op.create_index("uses_by_version", "library_uses", ["tenant_id", "kind", "entry_id", "version"])


def downgrade() -> None:
    """Remove both tables; the plans have what they used."""
    op.drop_table("library_uses")
    op.drop_table("library_versions")
