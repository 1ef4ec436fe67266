"""Stress tests as rows beside their plans: whose they are, and that they go with these."""

from dataclasses import dataclass

from sqlalchemy import Connection, Engine, Select, delete, exists, insert, select
from sqlalchemy.orm import aliased

from api_schema.plan_resource import PlanStateName
from service.storage.database import reading
from service.storage.lineage import hold_plan
from service.storage.tables import PlanRow, StressTestRow


@dataclass(frozen=True, slots=True)
class StressTestEntry:
    """What a list shows of a stress test. Times in milliseconds since 1970-01-01 UTC."""

    stress_test_id: str
    reference: str | None
    state: PlanStateName
    created_at_ms: int
    finished_at_ms: int | None


class StressTestStore:
    """The stress tests of all tenants; every question names the tenant who asks."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def of_plan(
        self, *, tenant_id: str, plan_id: str, before_test_id: str | None, limit: int
    ) -> list[StressTestEntry]:
        """Up to so many tests of a plan, newest first, those before the named one.

        The name of a test sorts by the time it was made, so it is a lasting place in the list.
        """
        query = (
            select(
                StressTestRow.stress_test_id,
                PlanRow.reference,
                PlanRow.state,
                PlanRow.created_at_ms,
                PlanRow.finished_at_ms,
            )
            .join(PlanRow, PlanRow.plan_id == StressTestRow.stress_test_id)
            .where(StressTestRow.plan_id == plan_id, PlanRow.tenant_id == tenant_id)
            .order_by(StressTestRow.stress_test_id.desc())
            .limit(limit)
        )
        if before_test_id is not None:
            query = query.where(StressTestRow.stress_test_id < before_test_id)
        with reading(self._engine) as connection:
            return [StressTestEntry(**row) for row in connection.execute(query).mappings()]


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
