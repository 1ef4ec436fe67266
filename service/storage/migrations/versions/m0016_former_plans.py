"""Final plans, and tests of them, have no copies of the former plans that they name.

Copies were kept until now, so that something of a deleted plan stayed in others. Those of plans
that are not final yet go when they are.
"""

import json

import sqlalchemy as sa
from alembic import op

revision = "0016"
down_revision = "0015"
branch_labels = None
depends_on = None

_PLANS = sa.table(
    "plans",
    sa.column("plan_id", sa.String),
    sa.column("state", sa.String),
    sa.column("request_document", sa.LargeBinary),
)
_FINAL = ("done", "failed", "cancelled")
_COPIED = (("near_plan", "trips"), ("start_plan", "plan"))


def upgrade() -> None:
    """Take the copies out, one document at a time."""
    connection = op.get_bind()
    names = sa.select(_PLANS.c.plan_id).where(_PLANS.c.state.in_(_FINAL))
    for plan_id in connection.execute(names).scalars().all():
        here = _PLANS.c.plan_id == plan_id
        text = connection.execute(sa.select(_PLANS.c.request_document).where(here)).scalar_one()
        if any(name.encode() in text for name, _ in _COPIED):
            document = json.loads(text)
            _take_out(document)
            _take_out(document.get("request"))
            left = json.dumps(document, ensure_ascii=False).encode()
            connection.execute(sa.update(_PLANS).where(here).values(request_document=left))


def _take_out(request: object) -> None:
    """Take out what stands beside the id of a former plan."""
    options = request.get("options") if isinstance(request, dict) else None
    if not isinstance(options, dict):
        return
    for name, copy in _COPIED:
        former = options.get(name)
        if isinstance(former, dict) and former.get("plan_id") is not None:
            former.pop(copy, None)


def downgrade() -> None:
    """Nothing comes back; a request that names former plans needs no copies when it is final."""
