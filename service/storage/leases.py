"""The table of plans as a queue: claim, renew, finish, hand back, rescue.

A claim gives a lease, which ends by the database's clock unless renewed, and a fencing token, one
higher with every claim. Every later write names the token, so that a worker that was paused beyond
its lease and comes back is refused.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Engine, Update, select, update

from service.storage.database import NOW_MS, writing
from service.storage.tables import PlanRow

MOST_ATTEMPTS = 3


class LeaseLostError(Exception):
    """Another worker may hold the plan by now; this one must drop what it has."""


@dataclass(frozen=True, slots=True)
class Claim:
    """A plan that this worker may solve, for as long as the lease holds."""

    plan_id: str
    attempt: int
    fencing_token: int
    request_document: bytes
    request_digest: str
    solve_seconds: float


class PlanQueue:
    """The plans that wait for a worker or have one. `lease_ms` is the length of a lease [ms]."""

    def __init__(self, engine: Engine, *, lease_ms: int) -> None:
        self._engine = engine
        self._lease_ms = lease_ms

    def claim(self) -> Claim | None:
        """Take the plan that has waited longest, if there is one."""
        oldest = (
            select(PlanRow.plan_id)
            .where(PlanRow.state == "queued")
            .order_by(PlanRow.created_at_ms, PlanRow.plan_id)
            .limit(1)
            .scalar_subquery()
        )
        statement = (
            update(PlanRow)
            .where(PlanRow.plan_id == oldest, PlanRow.state == "queued")
            .values(
                state="running",
                started_at_ms=NOW_MS,
                attempt=PlanRow.attempt + 1,
                fencing_token=PlanRow.fencing_token + 1,
                lease_until_ms=NOW_MS + self._lease_ms,
            )
            .returning(
                PlanRow.plan_id,
                PlanRow.attempt,
                PlanRow.fencing_token,
                PlanRow.request_document,
                PlanRow.request_digest,
                PlanRow.solve_seconds,
            )
        )
        with writing(self._engine) as connection:
            row = connection.execute(statement).one_or_none()
        return None if row is None else Claim(*row)

    def renew(self, claim: Claim, *, progress_document: bytes | None) -> None:
        """Lengthen the lease from now, and store how far the solve has come where that is told."""
        values: dict[str, Any] = {"lease_until_ms": NOW_MS + self._lease_ms}
        if progress_document is not None:
            values["progress_document"] = progress_document
        self._write(claim, values)

    def finish(self, claim: Claim, *, state: str, outcome_kind: str, outcome: bytes) -> None:
        """Store the outcome and the final state in one transaction."""
        self._write(claim, _final(state, outcome_kind, outcome))

    def hand_back(self, claim: Claim, *, attempt_counts: bool) -> None:
        """Return the plan to the queue; an attempt that was no fault of the plan does not count."""
        values: dict[str, Any] = {"state": "queued", "lease_until_ms": None}
        if not attempt_counts:
            values["attempt"] = PlanRow.attempt - 1
        self._write(claim, values)

    def rescue(self, *, outcome_kind: str, outcome_of: Callable[[bytes], bytes]) -> list[str]:
        """Queue again every plan whose lease has run out; close those out of attempts.

        The outcome of one that is closed is made from its request document. Gives their plan_ids.
        """
        abandoned = (PlanRow.state == "running", PlanRow.lease_until_ms < NOW_MS)
        exhausted = select(PlanRow.plan_id, PlanRow.request_document).where(
            *abandoned, PlanRow.attempt >= MOST_ATTEMPTS
        )
        with writing(self._engine) as connection:
            closing = connection.execute(exhausted).all()
            for plan_id, request_document in closing:
                outcome = _final("failed", outcome_kind, outcome_of(request_document))
                connection.execute(
                    update(PlanRow).where(PlanRow.plan_id == plan_id).values(outcome)
                )
            requeue = update(PlanRow).where(*abandoned)
            connection.execute(requeue.values(state="queued", lease_until_ms=None))
        return [plan_id for plan_id, _ in closing]

    def _write(self, claim: Claim, values: dict[str, Any]) -> None:
        statement: Update = (
            update(PlanRow)
            .where(
                PlanRow.plan_id == claim.plan_id,
                PlanRow.state == "running",
                PlanRow.fencing_token == claim.fencing_token,
            )
            .values(values)
        )
        with writing(self._engine) as connection:
            if connection.execute(statement).rowcount != 1:
                raise LeaseLostError(claim.plan_id)


def _final(state: str, outcome_kind: str, outcome: bytes) -> dict[str, Any]:
    """The values of a row that will not change any more."""
    return {
        "state": state,
        "outcome_kind": outcome_kind,
        "outcome_document": outcome,
        "finished_at_ms": NOW_MS,
        "lease_until_ms": None,
    }
