"""Plans that were made on the way of others: who came of whom, and which one holds now."""

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import ColumnElement, Connection, Engine, insert, select, update

from service.errors import ServiceProblem
from service.storage.database import one_at_a_time, reading
from service.storage.holding import replaced_by, superseded_by
from service.storage.plan_ids import code_of
from service.storage.tables import PlanRow, ReplanRow

_MOST_IN_A_LINE = 400
_MOST_WITH_A_CODE = 20


@dataclass(frozen=True, slots=True)
class LineEntry:
    """One plan of a line, and the plan of which it is a re-plan; None for the first.

    One that is `what_if` was made only to be looked at and supersedes nothing.
    """

    plan_id: str
    former_plan_id: str | None
    what_if: bool = False


def hold_plan(connection: Connection, tenant_id: str, plan_id: str) -> None:
    """Keep a tenant's plan from being removed until the transaction ends, or raise not_found.

    What is made of a plan holds a copy of it, and must not be stored after the plan is gone.
    """
    query = (
        select(PlanRow.plan_id)
        .where(PlanRow.tenant_id == tenant_id, PlanRow.plan_id == plan_id)
        .with_for_update(read=True, key_share=True)
    )
    if connection.execute(query).one_or_none() is None:
        raise ServiceProblem("not_found", "There is no plan with this plan_id.")


def note_replan(
    connection: Connection,
    tenant_id: str,
    plan_id: str,
    former_plan_id: str,
    *,
    what_if: bool = False,
) -> None:
    """Store that a plan is made on the way of another one, with the plan itself.

    If it is not only a `what_if`, the plan that it comes of was followed. Raises the problem
    not_found where that plan is gone.
    """
    hold_plan(connection, tenant_id, former_plan_id)
    row = {"plan_id": plan_id, "former_plan_id": former_plan_id, "what_if": what_if}
    connection.execute(insert(ReplanRow).values(row))
    if not what_if:
        note_followed(connection, former_plan_id)


def note_followed(connection: Connection, plan_id: str) -> None:
    """Store that a plan is followed, and every plan that it came of: none is a "what if" now."""
    here: str | None = plan_id
    for _ in range(_MOST_IN_A_LINE):
        if here is None:
            return
        connection.execute(update(ReplanRow).where(ReplanRow.plan_id == here).values(what_if=False))
        former = select(ReplanRow.former_plan_id).where(ReplanRow.plan_id == here)
        here = connection.execute(former).scalar_one_or_none()


def tie_past(
    connection: Connection, tenant_id: str, which: ColumnElement[bool], most: int | None = None
) -> Sequence[str]:
    """Tie re-plans of plans that are about to be removed to what these came of; gives these.

    Re-plans of a first plan keep its id, by which they still belong together. To be asked in the
    transaction that removes the plans. Nobody gives them another re-plan from here on.
    """
    one_at_a_time(connection, "removal", tenant_id)
    mine = select(PlanRow.plan_id).where(PlanRow.tenant_id == tenant_id, which).limit(most)
    going = connection.execute(mine.with_for_update()).scalars().all()
    link = select(ReplanRow.plan_id, ReplanRow.former_plan_id)
    rows = connection.execute(link.where(ReplanRow.plan_id.in_(going)))
    former_of = {row.plan_id: row.former_plan_id for row in rows}
    staying = ReplanRow.former_plan_id.in_(former_of) & ReplanRow.plan_id.not_in(going)
    for row in connection.execute(link.where(staying)).all():
        former = row.former_plan_id
        while former in former_of:
            former = former_of[former]
        tied = update(ReplanRow).where(ReplanRow.plan_id == row.plan_id)
        connection.execute(tied.values(former_plan_id=former))
    return going


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
                    select(PlanRow.plan_id, ReplanRow.former_plan_id, ReplanRow.what_if)
                    .outerjoin(ReplanRow, ReplanRow.plan_id == PlanRow.plan_id)
                    .where(PlanRow.tenant_id == tenant_id, PlanRow.plan_id == here)
                )
                row = connection.execute(query).one_or_none()
                if row is None:
                    break
                line.append(LineEntry(row.plan_id, row.former_plan_id, bool(row.what_if)))
                here = row.former_plan_id
        return tuple(reversed(line))

    def superseded_by(self, *, tenant_id: str, plan_id: str) -> str | None:
        """The plan that holds in place of this one, None where it holds itself or never did."""
        with reading(self._engine) as connection:
            return superseded_by(connection, tenant_id=tenant_id, plan_id=plan_id)

    def replaced_by(self, *, tenant_id: str, plan_id: str) -> str | None:
        """The same, or the plan of another line that was released for the reference since."""
        with reading(self._engine) as connection:
            return replaced_by(connection, tenant_id=tenant_id, plan_id=plan_id)

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
