"""What happened to a plan, in order, kept so that a caller can read on after any break."""

from dataclasses import dataclass
from typing import Literal

from sqlalchemy import Connection, Engine, bindparam, func, insert, select

from service.storage.clock import NOW_MS
from service.storage.database import reading
from service.storage.tables import PlanEventRow, PlanRow, table_of
from service.storage.webhooks import make_due

EventKind = Literal[
    "queued", "running", "progress", "requeued", "finishing", "cancelling", "done", "failed",
    "cancelled",
]  # fmt: skip

LAST_KINDS = frozenset({"done", "failed", "cancelled"})
"""After one of these nothing more happens to a plan."""


@dataclass(frozen=True, slots=True)
class PlanEvent:
    """One event; `number` counts from 1 within the plan, `at_ms` since 1970-01-01 UTC."""

    number: int
    kind: str
    at_ms: int
    document: bytes | None


class PlanEvents:
    """The events of the plans of all tenants."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def after(self, *, tenant_id: str, plan_id: str, number: int) -> list[PlanEvent]:
        """The events of a tenant's plan that come after the one of that number."""
        query = (
            select(
                PlanEventRow.event_number,
                PlanEventRow.kind,
                PlanEventRow.at_ms,
                PlanEventRow.document,
            )
            .join(PlanRow, PlanRow.plan_id == PlanEventRow.plan_id)
            .where(
                PlanRow.tenant_id == tenant_id,
                PlanEventRow.plan_id == plan_id,
                PlanEventRow.event_number > number,
            )
            .order_by(PlanEventRow.event_number)
        )
        with reading(self._engine) as connection:
            return [PlanEvent(*row) for row in connection.execute(query)]


_NEXT_EVENT = insert(table_of(PlanEventRow)).values(
    plan_id=bindparam("of_plan"),
    event_number=select(func.coalesce(func.max(PlanEventRow.event_number), 0) + 1)
    .where(PlanEventRow.plan_id == bindparam("of_plan"))
    .scalar_subquery(),
    kind=bindparam("of_kind"),
    at_ms=NOW_MS,
    document=bindparam("with_document"),
)


def note_event(
    connection: Connection, plan_id: str, kind: EventKind, document: bytes | None = None
) -> None:
    """Add an event in the transaction that makes it true; it holds the row of the plan.

    With the last one, the webhook of the plan becomes due, if its caller wants one.
    """
    connection.execute(
        _NEXT_EVENT, {"of_plan": plan_id, "of_kind": kind, "with_document": document}
    )
    if kind in LAST_KINDS:
        make_due(connection, plan_id)
