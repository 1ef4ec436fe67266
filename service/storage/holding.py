"""Which plan of a party holds now.

All plans that came of one first plan are for one party. Of these, the solved plan holds that was
made last or released last. One that was made with `what_if` counts once it was released or planned
again from. Where the plan that held is deleted, the rule is asked again of those that are left.

Two first plans of one reference are two lines. A release says which plan of the reference holds, so
it takes the place of a line of which nothing was made or released since.
"""

from dataclasses import dataclass

from sqlalchemy import CTE, Connection, String, cast, exists, func, select

from service.storage.tables import PlanRow, ReleaseRow, ReplanRow


@dataclass(frozen=True, slots=True, order=True)
class _Decision:
    """A plan of the party, with the moment when it was made or last released [ms since 1970]."""

    at_ms: int
    plan_id: str
    counts: bool


def superseded_by(connection: Connection, *, tenant_id: str, plan_id: str) -> str | None:
    """The plan that holds in place of a plan, None where nothing later was made or released."""
    plans = _plans_of_party(connection, tenant_id, plan_id)
    holds = max((plan for plan in plans if plan.counts), default=None)
    asked = next((plan for plan in plans if plan.plan_id == plan_id), None)
    if holds is None or asked is None or holds <= asked:
        return None
    return holds.plan_id


def replaced_by(connection: Connection, *, tenant_id: str, plan_id: str) -> str | None:
    """The plan to take instead of a plan, also one of another line that was released since."""
    held = superseded_by(connection, tenant_id=tenant_id, plan_id=plan_id) or plan_id
    plans = _plans_of_party(connection, tenant_id, plan_id)
    since = next((plan.at_ms for plan in plans if plan.plan_id == held), None)
    reference = select(PlanRow.reference).where(PlanRow.plan_id == plan_id)
    released = (
        select(ReleaseRow.plan_id, ReleaseRow.released_at_ms)
        .join(PlanRow, PlanRow.plan_id == ReleaseRow.plan_id)
        .where(
            ReleaseRow.tenant_id == tenant_id, ReleaseRow.reference == reference.scalar_subquery()
        )
        .order_by(ReleaseRow.release_number.desc())
        .limit(1)
    )
    newest = connection.execute(released).one_or_none()
    if newest is not None and since is not None and newest.released_at_ms >= since:
        its_line = superseded_by(connection, tenant_id=tenant_id, plan_id=newest.plan_id)
        held = its_line or newest.plan_id
    return None if held == plan_id else held


def _plans_of_party(connection: Connection, tenant_id: str, plan_id: str) -> list[_Decision]:
    party = _party(plan_id)
    released = (
        select(func.max(ReleaseRow.released_at_ms))
        .where(ReleaseRow.tenant_id == tenant_id, ReleaseRow.plan_id == PlanRow.plan_id)
        .correlate(PlanRow)
        .scalar_subquery()
    )
    query = (
        select(
            PlanRow.plan_id,
            PlanRow.outcome_kind,
            PlanRow.created_at_ms,
            released.label("released_at_ms"),
            ReplanRow.what_if,
        )
        .join(party, party.c.plan_id == PlanRow.plan_id)
        .outerjoin(ReplanRow, ReplanRow.plan_id == PlanRow.plan_id)
        .where(PlanRow.tenant_id == tenant_id)
    )
    return [
        _Decision(
            at_ms=max(row.created_at_ms, row.released_at_ms or 0),
            plan_id=row.plan_id,
            counts=row.outcome_kind == "solved" and not row.what_if,
        )
        for row in connection.execute(query)
    ]


def _party(plan_id: str) -> CTE:
    """Every plan that came of the same first plan as a plan, which may be deleted itself."""
    up = select(cast(plan_id, String(40)).label("plan_id")).cte("up", recursive=True)
    up = up.union(select(ReplanRow.former_plan_id).where(ReplanRow.plan_id == up.c.plan_id))
    first = select(up.c.plan_id).where(~exists().where(ReplanRow.plan_id == up.c.plan_id))
    party = first.cte("party", recursive=True)
    return party.union(select(ReplanRow.plan_id).where(ReplanRow.former_plan_id == party.c.plan_id))
