"""Plans put into a database, and time made to pass for them."""

from sqlalchemy import Engine, update

from service.storage.database import writing
from service.storage.leases import PlanQueue
from service.storage.plans import PlanStore
from service.storage.tables import PlanRow

FINAL = {"state": "done", "outcome_kind": "solved", "outcome": b"{}"}


def accept(store: PlanStore, **members) -> str:
    """The name of a plan just accepted."""
    return store.accept(
        tenant_id="t", reference=members.get("reference"), solve_seconds=1.0, document=members
    ).plan_id


def state_of(store: PlanStore, plan_id: str) -> tuple[str, int]:
    """State and attempt of a plan."""
    summary = store.read(tenant_id="t", plan_id=plan_id).summary
    return summary.state, summary.attempt


def let_leases_run_out(database: Engine) -> None:
    """Move the end of every lease into the past."""
    with writing(database) as connection:
        connection.execute(
            update(PlanRow).where(PlanRow.state == "running").values(lease_until_ms=1)
        )


def let_pauses_pass(database: Engine) -> None:
    """End the pause of every plan that waits before it is tried again."""
    with writing(database) as connection:
        connection.execute(update(PlanRow).values(not_before_ms=0))


def rescue(queue: PlanQueue) -> list[str]:
    """Rescue with a failed outcome that repeats the request."""
    return queue.rescue(outcome_kind="failed", outcome_of=lambda request: request)
