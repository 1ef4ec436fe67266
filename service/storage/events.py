"""What happened to a plan, in order, kept so that a caller can read on after any break."""

from collections.abc import Mapping
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


@dataclass(frozen=True, slots=True)
class PlanNews:
    """The number of the last event of a plan, and those that whoever asked may not have yet."""

    last: int
    events: list[PlanEvent]


_EVENTS = select(
    PlanEventRow.plan_id,
    PlanEventRow.event_number,
    PlanEventRow.kind,
    PlanEventRow.at_ms,
    PlanEventRow.document,
)


class PlanEvents:
    """The events of the plans of all tenants."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def after(self, *, tenant_id: str, plan_id: str, number: int) -> list[PlanEvent]:
        """The events of a tenant's plan that come after the one of that number."""
        query = (
            _EVENTS.join(PlanRow, PlanRow.plan_id == PlanEventRow.plan_id)
            .where(
                PlanRow.tenant_id == tenant_id,
                PlanEventRow.plan_id == plan_id,
                PlanEventRow.event_number > number,
            )
            .order_by(PlanEventRow.event_number)
        )
        with reading(self._engine) as connection:
            return [PlanEvent(*row[1:]) for row in connection.execute(query)]

    def since(self, places: Mapping[str, int]) -> dict[str, PlanNews]:
        """What is new of each plan after the event of that number.

        Plans that are gone are left out. Whoever asks has made sure whose plans they are.
        """
        newest = (
            select(PlanEventRow.plan_id, func.max(PlanEventRow.event_number))
            .where(PlanEventRow.plan_id.in_(list(places)))
            .group_by(PlanEventRow.plan_id)
        )
        with reading(self._engine) as connection:
            news = {plan_id: PlanNews(last, []) for plan_id, last in connection.execute(newest)}
            grown = [plan_id for plan_id, one in news.items() if one.last > places[plan_id]]
            if grown:
                query = _EVENTS.where(
                    PlanEventRow.plan_id.in_(grown),
                    PlanEventRow.event_number > min(places[plan_id] for plan_id in grown),
                ).order_by(PlanEventRow.plan_id, PlanEventRow.event_number)
                for row in connection.execute(query):
                    news[row.plan_id].events.append(PlanEvent(*row[1:]))
        return news


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
