"""Both engines: wide times, retries that wait, wishes of callers, events, and a probe row."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

_TIMES = ("created_at_ms", "started_at_ms", "finished_at_ms", "lease_until_ms")
_STATES_BEFORE = "state IN ('queued', 'running', 'done', 'failed')"
_STATES = "state IN ('queued', 'running', 'done', 'failed', 'cancelled')"
_WISHES = "wish IN ('cancel', 'finish')"


def upgrade() -> None:
    """Add the columns of retries and wishes, the table of events and the probe row."""
    with op.batch_alter_table("plans") as plans:
        for time in _TIMES:
            plans.alter_column(time, type_=sa.BigInteger(), existing_type=sa.Integer())
        for counter in ("crashes", "abandoned"):
            plans.add_column(
                sa.Column(counter, sa.Integer(), nullable=False, server_default=sa.text("0"))
            )
        plans.add_column(
            sa.Column("not_before_ms", sa.BigInteger(), nullable=False, server_default=sa.text("0"))
        )
        plans.add_column(sa.Column("wish", sa.String(10)))
        plans.drop_constraint("state_known", type_="check")
        plans.create_check_constraint("state_known", _STATES)
        plans.create_check_constraint("wish_known", _WISHES)
    op.create_index("plans_by_turn", "plans", ["tenant_id", "started_at_ms"])
    op.create_table(
        "plan_events",
        sa.Column(
            "plan_id",
            sa.String(40),
            sa.ForeignKey("plans.plan_id", ondelete="CASCADE"),
            primary_key=True,
        ),
        sa.Column("event_number", sa.Integer(), primary_key=True, autoincrement=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("at_ms", sa.BigInteger(), nullable=False),
        sa.Column("document", sa.LargeBinary()),
    )
    probe = op.create_table(
        "storage_probe",
        sa.Column("probe_id", sa.Integer(), primary_key=True, autoincrement=False),
        sa.Column("written_at_ms", sa.BigInteger(), nullable=False),
    )
    op.bulk_insert(probe, [{"probe_id": 1, "written_at_ms": 0}])


def downgrade() -> None:
    """Remove what upgrade added; a cancelled plan, which the older shape cannot say, goes too."""
    op.drop_table("storage_probe")
    op.drop_table("plan_events")
    op.drop_index("plans_by_turn", "plans")
    op.execute("DELETE FROM plans WHERE state = 'cancelled'")
    with op.batch_alter_table("plans") as plans:
        plans.drop_constraint("wish_known", type_="check")
        plans.drop_constraint("state_known", type_="check")
        plans.create_check_constraint("state_known", _STATES_BEFORE)
        for column in ("wish", "not_before_ms", "abandoned", "crashes"):
            plans.drop_column(column)
        for time in _TIMES:
            plans.alter_column(time, type_=sa.Integer(), existing_type=sa.BigInteger())
