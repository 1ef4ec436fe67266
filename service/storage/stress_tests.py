"""Stress tests as rows beside their plans: whose they are, and that they go with these."""

from sqlalchemy import Connection, Select, delete, exists, insert, select
from sqlalchemy.orm import aliased

from service.storage.lineage import hold_plan
from service.storage.tables import PlanRow, StressTestRow


def note_test(connection: Connection, tenant_id: str, test_id: str, plan_id: str) -> None:
    """Store whose the test is, with the test itself; the problem not_found for no such plan."""
    hold_plan(connection, tenant_id, plan_id)
    row = {"stress_test_id": test_id, "plan_id": plan_id}
    connection.execute(insert(StressTestRow).values(row))


def remove_tests_of(connection: Connection, *, tenant_id: str, plan_id: str) -> None:
    """Remove the tests of a plan, after the plan itself: nobody stores another one by then."""
    tests = select(StressTestRow.stress_test_id).where(StressTestRow.plan_id == plan_id)
    _remove(connection, tenant_id, tests)


def remove_tests_without_plan(connection: Connection, *, tenant_id: str) -> None:
    """Remove the tests whose plans are gone, after many of these were removed."""
    tested = aliased(PlanRow)
    tests = select(StressTestRow.stress_test_id).where(
        ~exists().where(tested.plan_id == StressTestRow.plan_id)
    )
    _remove(connection, tenant_id, tests)


def _remove(connection: Connection, tenant_id: str, tests: Select[str]) -> None:
    gone = delete(PlanRow).where(PlanRow.tenant_id == tenant_id, PlanRow.plan_id.in_(tests))
    connection.execute(gone)
