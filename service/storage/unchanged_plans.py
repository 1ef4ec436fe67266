"""Changes of a plan that hold only while it is as its caller read it."""

from sqlalchemy import ColumnElement, Connection, delete, select, true

from service.errors import ServiceProblem
from service.storage.lineage import tie_past
from service.storage.sqlite_log import note_deletion
from service.storage.stress_tests import remove_tests_of
from service.storage.tables import PlanRow

Condition = ColumnElement[bool]
"""What must be so of the row of a plan in the moment of its change."""

ANYHOW: Condition = true()
"""No condition."""


def as_read(
    *, state: str, attempt: int, started_at_ms: int | None, progress_document: bytes | None
) -> Condition:
    """That a plan is as it was read; its outcome comes with its last state."""
    return (
        (PlanRow.state == state)
        & (PlanRow.attempt == attempt)
        & PlanRow.started_at_ms.is_not_distinct_from(started_at_ms)
        & PlanRow.progress_document.is_not_distinct_from(progress_document)
    )


def delete_plan(
    connection: Connection, *, tenant_id: str, plan_id: str, only_if: Condition
) -> bool:
    """Remove a plan with all that belongs to it; False where there is none.

    Raises the problem changed_since where there is one on which the condition does not hold.
    """
    # First of all, or another removal may hold the row while it waits for this one.
    tie_past(connection, tenant_id, PlanRow.plan_id == plan_id)
    mine = (PlanRow.tenant_id == tenant_id, PlanRow.plan_id == plan_id)
    is_gone = connection.execute(delete(PlanRow).where(*mine, only_if)).rowcount == 1
    if not is_gone and connection.execute(select(PlanRow.plan_id).where(*mine)).first():
        raise ServiceProblem("changed_since")
    remove_tests_of(connection, tenant_id=tenant_id, plan_id=plan_id)
    note_deletion(connection)
    return is_gone
