"""Which plan each stress test is of, so that it goes when the plan is deleted."""

import json

import sqlalchemy as sa
from alembic import op

revision = "0014"
down_revision = "0013"
branch_labels = None
depends_on = None

_PLANS = sa.table(
    "plans",
    sa.column("plan_id", sa.String),
    sa.column("request_document", sa.LargeBinary),
)


def upgrade() -> None:
    """Make the table, and fill it from what each stress test says of itself."""
    tests = op.create_table(
        "stress_tests",
        sa.Column(
            "stress_test_id",
            sa.String(40),
            sa.ForeignKey("plans.plan_id", ondelete="CASCADE"),
            primary_key=True,
        ),
        sa.Column("plan_id", sa.String(40), nullable=False),
    )
    op.create_index("stress_tests_by_plan", "stress_tests", ["plan_id"])
    connection = op.get_bind()
    named = sa.select(_PLANS.c.plan_id).where(_PLANS.c.plan_id.like("stress!_%", escape="!"))
    for stress_test_id in connection.execute(named).scalars().all():
        one = sa.select(_PLANS.c.request_document).where(_PLANS.c.plan_id == stress_test_id)
        plan_id = json.loads(connection.execute(one).scalar_one())["plan_id"]
        connection.execute(sa.insert(tests).values(stress_test_id=stress_test_id, plan_id=plan_id))


def downgrade() -> None:
    """Remove the table; each stress test still says which plan it is of."""
    op.drop_table("stress_tests")
