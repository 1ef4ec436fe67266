"""Plans that were made on the way of others: who came of whom, and which one holds now."""

from dataclasses import dataclass

from sqlalchemy import Connection, Engine, insert, select

from service.storage.database import reading
from service.storage.plan_ids import code_of
from service.storage.tables import PlanRow, ReplanRow

_MOST_IN_A_LINE = 400
_MOST_WITH_A_CODE = 20


@dataclass(frozen=True, slots=True)
class LineEntry:
    """One plan of a line, and the plan of which it is a re-plan; None for the first."""

    plan_id: str
    former_plan_id: str | None


def note_replan(connection: Connection, plan_id: str, former_plan_id: str) -> None:
    """Store that a plan is made on the way of another one, with the plan itself."""
    connection.execute(insert(ReplanRow).values(plan_id=plan_id, former_plan_id=former_plan_id))


class Lineage:
    """Lines of plans; every question names the tenant who asks."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def line_to(self, *, tenant_id: str, plan_id: str) -> tuple[LineEntry, ...]:
        """The plan and those that it came of, the first one first."""
        line: list[LineEntry] = []
        with reading(self._engine) as connection:
            here: str | None = plan_id
            while here is not None and len(line) < _MOST_IN_A_LINE:
                query = (
                    select(PlanRow.plan_id, ReplanRow.former_plan_id)
                    .outerjoin(ReplanRow, ReplanRow.plan_id == PlanRow.plan_id)
                    .where(PlanRow.tenant_id == tenant_id, PlanRow.plan_id == here)
                )
                row = connection.execute(query).one_or_none()
                if row is None:
                    break
                line.append(LineEntry(row.plan_id, row.former_plan_id))
                here = row.former_plan_id
        return tuple(reversed(line))

    def superseded_by(self, *, tenant_id: str, plan_id: str) -> str | None:
        """The last solved re-plan of a plan, None where it still holds."""
        query = (
            select(PlanRow.plan_id)
            .join(ReplanRow, ReplanRow.plan_id == PlanRow.plan_id)
            .where(
                PlanRow.tenant_id == tenant_id,
                ReplanRow.former_plan_id == plan_id,
                PlanRow.outcome_kind == "solved",
            )
            .order_by(PlanRow.plan_id.desc())
            .limit(1)
        )
        with reading(self._engine) as connection:
            found = connection.execute(query).scalar_one_or_none()
        return None if found is None else str(found)

    def with_code(self, *, tenant_id: str, code: str) -> tuple[str, ...]:
        """Plans that a short code names, solved ones, the newest first."""
        query = (
            select(PlanRow.plan_id)
            .where(
                PlanRow.tenant_id == tenant_id,
                PlanRow.plan_id.like(f"%{code.lower()}"),
                PlanRow.outcome_kind == "solved",
            )
            .order_by(PlanRow.plan_id.desc())
            .limit(_MOST_WITH_A_CODE)
        )
        with reading(self._engine) as connection:
            found = [str(row) for row in connection.execute(query).scalars()]
        return tuple(plan_id for plan_id in found if code_of(plan_id) == code)
