"""Whose plan is next: tenants take turns, and within a tenant the oldest plan goes first."""

from typing import Any

from sqlalchemy import ColumnElement, ScalarSelect, func, select
from sqlalchemy.orm import aliased

from service.storage.clock import NOW_MS
from service.storage.tables import PlanRow

_NO_PAUSE_MS = 60_000


def is_due(plans: type[PlanRow]) -> ColumnElement[bool]:
    """That plans need not pause any more; no pause is a minute long, unless the clock was ahead."""
    return (plans.not_before_ms <= NOW_MS) | (plans.not_before_ms > NOW_MS + _NO_PAUSE_MS)


def next_in_turn() -> ScalarSelect[Any]:
    """The name of the plan to solve next.

    The tenant with the fewest running plans is served, and among those the one that was served
    longest ago. So a thousand plans of one tenant keep another waiting for one of them at most.
    """
    waiting = aliased(PlanRow)
    tenants = (
        select(waiting.tenant_id)
        .where(waiting.state == "queued", is_due(waiting))
        .distinct()
        .subquery()
    )
    served = aliased(PlanRow)
    running = (
        select(func.count())
        .where(served.state == "running", served.tenant_id == tenants.c.tenant_id)
        .scalar_subquery()
    )
    latest = (
        select(func.coalesce(func.max(served.started_at_ms), 0))
        .where(served.tenant_id == tenants.c.tenant_id)
        .scalar_subquery()
    )
    tenant = (
        select(tenants.c.tenant_id)
        .order_by(running, latest, tenants.c.tenant_id)
        .limit(1)
        .scalar_subquery()
    )
    return (
        select(waiting.plan_id)
        .where(
            waiting.state == "queued",
            is_due(waiting),
            waiting.tenant_id == tenant,
        )
        .order_by(waiting.created_at_ms, waiting.plan_id)
        .limit(1)
        .with_for_update(skip_locked=True)
        .scalar_subquery()
    )
