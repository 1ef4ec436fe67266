"""What callers wish of a plan that is not final: to cancel it, or to finish it early."""

from typing import cast

from sqlalchemy import Engine, select, update

from service.errors import ServiceProblem
from service.storage.clock import NOW_MS
from service.storage.copies import final_request
from service.storage.database import reading, writing
from service.storage.events import EventKind, note_event
from service.storage.leases import Claim, Wish
from service.storage.tables import FINAL_STATES, PlanRow
from service.storage.unchanged_plans import ANYHOW, Condition


class Wishes:
    """Wishes are stored, so that the worker that solves may be in another process."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def cancel(self, *, tenant_id: str, plan_id: str, only_if: Condition = ANYHOW) -> bool:
        """Close a plan that waits, and have a running one closed; False where it is final.

        A plan that is cancelled already may be cancelled again. Raises the problem changed_since
        where the condition does not hold.
        """
        mine = (PlanRow.tenant_id == tenant_id, PlanRow.plan_id == plan_id)
        # The row is held, so that no worker hands the plan back between the look and the wish.
        look = select(PlanRow.state, PlanRow.wish, only_if.label("is_known"))
        with writing(self._engine) as connection:
            plan = connection.execute(look.where(*mine).with_for_update()).one_or_none()
            if plan is not None and not plan.is_known:
                raise ServiceProblem("changed_since")
            if plan is None or plan.state not in ("queued", "running"):
                return plan is not None and plan.state == "cancelled"
            values: dict[str, object] = {"wish": "cancel"}
            if plan.state == "queued":
                asked = select(PlanRow.request_document).where(*mine)
                values |= {"state": "cancelled", "finished_at_ms": NOW_MS}
                values |= final_request(connection, connection.execute(asked).scalar_one())
            elif plan.wish == "cancel":
                return True
            connection.execute(update(PlanRow).where(*mine).values(values))
            kind: EventKind = "cancelled" if plan.state == "queued" else "cancelling"
            note_event(connection, plan_id, kind)
        return True

    def finish(self, *, tenant_id: str, plan_id: str, only_if: Condition = ANYHOW) -> bool:
        """Have a running solve end soon with the best plan that it has; False where none runs.

        The wish stays with a plan that is handed back, so it may be wished again while that waits.
        Raises the problem changed_since where the condition does not hold.
        """
        mine = (PlanRow.tenant_id == tenant_id, PlanRow.plan_id == plan_id)
        with writing(self._engine) as connection:
            asked = connection.execute(
                update(PlanRow)
                .where(*mine, PlanRow.state == "running", PlanRow.wish.is_(None), only_if)
                .values(wish="finish")
            )
            if asked.rowcount:
                note_event(connection, plan_id, "finishing")
            look = select(PlanRow.state, PlanRow.wish, only_if.label("is_known")).where(*mine)
            plan = connection.execute(look).one_or_none()
            if plan is not None and not plan.is_known:
                raise ServiceProblem("changed_since")
        if plan is None:
            return False
        return plan.state == "running" or (plan.state, plan.wish) == ("queued", "finish")

    def of(self, claim: Claim) -> Wish | None:
        """What is wished of the plan that a worker solves."""
        query = select(PlanRow.wish).where(PlanRow.plan_id == claim.plan_id)
        with reading(self._engine) as connection:
            return cast("Wish | None", connection.execute(query).scalar_one_or_none())

    def final_among(self, plan_ids: list[str]) -> list[str]:
        """Those of the named plans that will not change any more, with those that are gone."""
        query = select(PlanRow.plan_id).where(
            PlanRow.plan_id.in_(plan_ids), PlanRow.state.not_in(FINAL_STATES)
        )
        with reading(self._engine) as connection:
            not_final = set(connection.execute(query).scalars())
        return [plan_id for plan_id in plan_ids if plan_id not in not_final]
