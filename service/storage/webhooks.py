"""The outbox of webhooks: a row for each plan whose caller wants to hear that it is final.

The row becomes due in the transaction that makes the plan final, so no kill comes between. Whoever
sends it moves its time on first: a sender that dies loses nothing, and it is sent again under the
same id.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import ColumnElement, Connection, Engine, case, func, insert, select, update

from service.storage.clock import NOW_MS
from service.storage.database import reading, writing
from service.storage.plan_ids import new_plan_id
from service.storage.tables import PlanRow, WebhookRow

MOST_AHEAD_MS = 6 * 3_600_000
"""More than the longest time that a webhook is put off at once. One that is due later than that has
its time from a clock that was wrong, so it is due now [ms]."""
_MOST_OF_ONE_TENANT = 4


@dataclass(frozen=True, slots=True)
class DueWebhook:
    """A webhook to be sent now; `attempt` counts from 1. Times in ms since 1970-01-01 UTC."""

    plan_id: str
    webhook_id: str
    tenant_id: str
    url: str
    attempt: int
    reference: str | None
    state: str
    outcome_kind: str | None
    finished_at_ms: int | None


@dataclass(frozen=True, slots=True)
class WebhookStanding:
    """How a delivery stands. Times in milliseconds since 1970-01-01 UTC."""

    plan_id: str
    webhook_id: str
    url: str
    state: str
    attempts: int
    next_at_ms: int | None
    last_at_ms: int | None
    last_status: int | None
    last_fault: str | None


def note_webhook(connection: Connection, *, tenant_id: str, plan_id: str, url: str) -> None:
    """Store where to tell of a plan, in the transaction that stores the plan."""
    row = insert(WebhookRow).values(
        plan_id=plan_id,
        webhook_id=new_plan_id("webhook"),
        tenant_id=tenant_id,
        url=url,
        state="waiting",
    )
    connection.execute(row)


def make_due(connection: Connection, plan_id: str) -> None:
    """Have a plan's webhook sent, in the transaction that makes the plan final."""
    connection.execute(
        update(WebhookRow)
        .where(WebhookRow.plan_id == plan_id, WebhookRow.state == "waiting")
        .values(state="due", next_at_ms=NOW_MS)
    )


class WebhookOutbox:
    """The webhooks of all tenants."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def take(
        self,
        *,
        most: int,
        hold_ms: int,
        places: Mapping[str, int] | None = None,
        most_of_one: int = _MOST_OF_ONE_TENANT,
    ) -> list[DueWebhook]:
        """Up to so many that are due; others leave them for that time [ms].

        `places` says how many of each tenant whoever takes has under way. With these, no tenant has
        more than `most_of_one`, and who has the fewest comes first.
        """
        turn: ColumnElement[int] = func.row_number().over(
            partition_by=WebhookRow.tenant_id, order_by=WebhookRow.next_at_ms
        )
        if places:
            turn = turn + case(dict(places), value=WebhookRow.tenant_id, else_=0)
        ranked = (
            select(WebhookRow.plan_id, WebhookRow.next_at_ms, turn.label("turn"))
            .where(_is_due())
            .subquery()
        )
        chosen = (
            select(ranked.c.plan_id)
            .where(ranked.c.turn <= most_of_one)
            .order_by(ranked.c.turn, ranked.c.next_at_ms)
            .limit(most)
        )
        mine = (
            select(WebhookRow.plan_id)
            .where(
                WebhookRow.plan_id.in_(chosen),
                _is_due(),
            )
            .with_for_update(skip_locked=True)
        )
        taken = (
            update(WebhookRow)
            .where(WebhookRow.plan_id.in_(mine))
            .values(
                next_at_ms=NOW_MS + hold_ms, last_at_ms=NOW_MS, attempts=WebhookRow.attempts + 1
            )
            .returning(WebhookRow.plan_id)
        )
        if not self.are_due():
            return []
        with writing(self._engine) as connection:
            names = list(connection.execute(taken).scalars())
            return _with_their_plans(connection, names)

    def are_due(self) -> bool:
        """Whether any waits to be sent; this holds no lock."""
        query = select(WebhookRow.plan_id).where(_is_due())
        with reading(self._engine) as connection:
            return connection.execute(query.limit(1)).first() is not None

    def settle(
        self,
        webhook: DueWebhook,
        *,
        status: int | None,
        fault: str | None,
        again_ms: int | None,
    ) -> None:
        """Store what came of an attempt: delivered without a fault, else again later [ms] or never.

        An attempt that another one has overtaken changes nothing.
        """
        state = "delivered" if fault is None else "given_up" if again_ms is None else "due"
        next_at = NOW_MS + again_ms if state == "due" and again_ms is not None else None
        with writing(self._engine) as connection:
            connection.execute(
                update(WebhookRow)
                .where(
                    WebhookRow.plan_id == webhook.plan_id,
                    WebhookRow.state == "due",
                    WebhookRow.attempts == webhook.attempt,
                )
                .values(state=state, next_at_ms=next_at, last_status=status, last_fault=fault)
            )

    def send_again(self, *, tenant_id: str, plan_id: str) -> None:
        """Make a webhook due again that was delivered or given up, with all its attempts."""
        with writing(self._engine) as connection:
            connection.execute(
                update(WebhookRow)
                .where(
                    WebhookRow.tenant_id == tenant_id,
                    WebhookRow.plan_id == plan_id,
                    WebhookRow.state.in_(("delivered", "given_up")),
                )
                .values(state="due", next_at_ms=NOW_MS, attempts=0)
            )

    def of_plan(self, *, tenant_id: str, plan_id: str) -> WebhookStanding | None:
        """How the webhook of a tenant's plan stands; None where nobody asked for one."""
        query = select(
            *(getattr(WebhookRow, name) for name in WebhookStanding.__dataclass_fields__)
        ).where(WebhookRow.tenant_id == tenant_id, WebhookRow.plan_id == plan_id)
        with reading(self._engine) as connection:
            row = connection.execute(query).one_or_none()
        return None if row is None else WebhookStanding(*row)


def _is_due() -> ColumnElement[bool]:
    at = WebhookRow.next_at_ms
    return (WebhookRow.state == "due") & ((at <= NOW_MS) | (at > NOW_MS + MOST_AHEAD_MS))


def _with_their_plans(connection: Connection, names: list[str]) -> list[DueWebhook]:
    query = (
        select(
            WebhookRow.plan_id,
            WebhookRow.webhook_id,
            WebhookRow.tenant_id,
            WebhookRow.url,
            WebhookRow.attempts,
            PlanRow.reference,
            PlanRow.state,
            PlanRow.outcome_kind,
            PlanRow.finished_at_ms,
        )
        .join(PlanRow, PlanRow.plan_id == WebhookRow.plan_id)
        .where(WebhookRow.plan_id.in_(names))
    )
    return [DueWebhook(*row) for row in connection.execute(query)]
