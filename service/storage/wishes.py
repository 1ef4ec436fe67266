"""What callers wish of a plan that is not final: to cancel it, or to finish it early."""

from typing import cast

from sqlalchemy import Engine, select, update

from service.storage.clock import NOW_MS
from service.storage.copies import final_request
from service.storage.database import reading, writing
from service.storage.events import EventKind, note_event
from service.storage.leases import Claim, Wish
from service.storage.tables import FINAL_STATES, PlanRow


class Wishes:
    """Wishes are stored, so that the worker that solves may be in another process."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def cancel(self, *, tenant_id: str, plan_id: str) -> bool:
        """Close a plan that waits, and have a running one closed; False where it is final.

        A plan that is cancelled already may be cancelled again.
        """
        mine = (PlanRow.tenant_id == tenant_id, PlanRow.plan_id == plan_id)
        # The row is held, so that no worker hands the plan back between the look and the wish.
        look = select(PlanRow.state, PlanRow.wish).where(*mine).with_for_update()
        with writing(self._engine) as connection:
            plan = connection.execute(look).one_or_none()
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

    def finish(self, *, tenant_id: str, plan_id: str) -> bool:
        """Have a running solve end soon with the best plan that it has; False where none runs."""
        mine = (PlanRow.tenant_id == tenant_id, PlanRow.plan_id == plan_id)
        with writing(self._engine) as connection:
            asked = connection.execute(
                update(PlanRow)
                .where(*mine, PlanRow.state == "running", PlanRow.wish.is_(None))
                .values(wish="finish")
            )
            if asked.rowcount:
                note_event(connection, plan_id, "finishing")
            state = connection.execute(select(PlanRow.state).where(*mine)).scalar_one_or_none()
        return state == "running"

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
