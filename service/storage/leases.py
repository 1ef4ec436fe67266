"""The table of plans as a queue: claim, renew, finish, hand back, rescue.

A claim gives a lease, which ends by the database's clock unless renewed, and a fencing token, one
higher with every claim. Every later write names the token, so that a worker that was paused beyond
its lease and comes back is refused.

A solve that breaks by itself is held against its plan, and three times are enough. The death of a
worker is not: it counts apart, with a limit that only a plan reaches which takes its worker down.
"""

from collections.abc import Callable
from dataclasses import asdict, dataclass
from typing import Any, Literal

from sqlalchemy import ColumnElement, Connection, Engine, select, update

from service.storage.clock import NOW_MS, UP_SINCE_MS
from service.storage.copies import final_request
from service.storage.database import reading, writing
from service.storage.events import EventKind, note_event
from service.storage.tables import PlanRow
from service.storage.turns import is_due, next_in_turn

MOST_CRASHES = 3
MOST_ABANDONED = 100
_PAUSE_MS = 500
_LONGEST_PAUSE_MS = 3_000
_LEASES_TOO_FAR = 10
"""Lengths of a lease after which no lease ends, unless the clock was ahead [1]."""

_CANCELLED = {"state": "cancelled", "finished_at_ms": NOW_MS, "lease_until_ms": None}

Wish = Literal["cancel", "finish"]


class LeaseLostError(Exception):
    """Another worker may hold the plan by now; this one must drop what it has."""


@dataclass(frozen=True, slots=True)
class Claim:
    """A plan that this worker may solve, for as long as the lease holds."""

    plan_id: str
    attempt: int
    crashes: int
    fencing_token: int
    request_document: bytes
    request_digest: str
    solve_seconds: float


@dataclass(frozen=True, slots=True)
class MadeWith:
    """The versions of the wire and of the rules that a process works with."""

    wire_version: str | None = None
    rules_version: str | None = None


class PlanQueue:
    """The plans that wait for a worker or have one. `lease_ms` is the length of a lease [ms]."""

    def __init__(self, engine: Engine, *, lease_ms: int, made_with: MadeWith = MadeWith()) -> None:
        self._engine = engine
        self._lease_ms = lease_ms
        self._made_with = asdict(made_with)

    def claim(self, plan_id: str | None = None) -> Claim | None:
        """Take the plan whose turn it is, or the one that is named, if it waits."""
        chosen = next_in_turn() if plan_id is None else plan_id
        statement = (
            update(PlanRow)
            .where(
                PlanRow.plan_id == chosen,
                PlanRow.state == "queued",
                is_due(PlanRow),
            )
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
                PlanRow.crashes,
                PlanRow.fencing_token,
                PlanRow.request_document,
                PlanRow.request_digest,
                PlanRow.solve_seconds,
            )
        )
        with writing(self._engine) as connection:
            row = connection.execute(statement).one_or_none()
            if row is None:
                return None
            note_event(connection, row.plan_id, "running")
        return Claim(*row)

    def renew(self, claim: Claim) -> None:
        """Lengthen the lease from now.

        A plan whose lease ran out is taken back, as the same attempt, as long as nobody has
        claimed it since: a database that was away costs nobody's work.
        """
        with writing(self._engine) as connection:
            self._hold(connection, claim, {})

    def tell(self, claim: Claim, progress_document: bytes) -> None:
        """Store how far the solve has come, and lengthen the lease."""
        with writing(self._engine) as connection:
            self._hold(connection, claim, {"progress_document": progress_document})
            note_event(connection, claim.plan_id, "progress", progress_document)

    def _hold(self, connection: Connection, claim: Claim, values: dict[str, Any]) -> None:
        """Write into a plan that is still this holder's, and lengthen its lease."""
        values = {**values, "lease_until_ms": NOW_MS + self._lease_ms}
        try:
            _write(connection, claim, values)
        except LeaseLostError:
            _write(connection, claim, {**values, "state": "running"}, also_queued=True)
            note_event(connection, claim.plan_id, "running")

    def is_database_new(self) -> bool:
        """Whether the database has taken writers for less than the time of one lease."""
        with reading(self._engine) as connection:
            return bool(connection.execute(select(self._lease_ms > NOW_MS - UP_SINCE_MS)).scalar())

    def has_lease_too_far(self) -> bool:
        """Whether a lease ends later than any that was given by the clock as it is now."""
        too_far = select(PlanRow.plan_id).where(PlanRow.state == "running", self._is_too_far())
        with reading(self._engine) as connection:
            return connection.execute(too_far.limit(1)).first() is not None

    def _is_too_far(self) -> ColumnElement[bool]:
        """That the clock was ahead when a lease was given, and was set right since."""
        return PlanRow.lease_until_ms > NOW_MS + _LEASES_TOO_FAR * self._lease_ms

    def finish(
        self, claim: Claim, *, state: Literal["done", "failed"], outcome_kind: str, outcome: bytes
    ) -> None:
        """Store the outcome and the final state in one transaction.

        A plan whose lease ran out is finished too, as long as nobody has claimed it since. One that
        somebody wished to cancel is closed as that, and what came of it is dropped.
        """
        with writing(self._engine) as connection:
            if _closed_as_wished(connection, claim):
                return
            values = _final(state, outcome_kind, outcome) | self._made_with
            values |= final_request(connection, claim.request_document)
            _write(connection, claim, values, also_queued=True)
            note_event(connection, claim.plan_id, state)

    def cancelled(self, claim: Claim) -> None:
        """Close a plan whose caller wished for that."""
        with writing(self._engine) as connection:
            _close(connection, claim)

    def hand_back(self, claim: Claim, *, crashed: bool) -> bool:
        """Return the plan to the queue, after a pause where its solve crashed.

        An attempt that was no fault of the plan does not count. A plan that somebody wished to
        cancel is closed as that instead, which gives True.
        """
        values: dict[str, Any] = {"state": "queued", "lease_until_ms": None}
        if crashed:
            values["crashes"] = PlanRow.crashes + 1
            values["not_before_ms"] = NOW_MS + min(_LONGEST_PAUSE_MS, _PAUSE_MS << claim.crashes)
        else:
            values["attempt"] = PlanRow.attempt - 1
        with writing(self._engine) as connection:
            if _closed_as_wished(connection, claim):
                return True
            _write(connection, claim, values)
            note_event(connection, claim.plan_id, "requeued")
        return False

    def rescue(self, *, outcome_kind: str, outcome_of: Callable[[bytes], bytes]) -> list[str]:
        """Queue again every plan whose lease has run out or ends far too late.

        Those abandoned too often are closed.

        The outcome of one that is closed is made from its request document. A plan that somebody
        wished to cancel is closed as that. Gives the names of the plans that are final now.
        """
        run_out = (
            select(
                PlanRow.plan_id,
                PlanRow.request_document,
                PlanRow.abandoned,
                PlanRow.wish,
            )
            .where(
                PlanRow.state == "running",
                (PlanRow.lease_until_ms < NOW_MS) | self._is_too_far(),
            )
            .with_for_update(skip_locked=True)
        )
        closed = []
        with writing(self._engine) as connection:
            for plan in connection.execute(run_out).all():
                values: dict[str, Any]
                kind: EventKind = "requeued"
                if plan.wish == "cancel":
                    kind = "cancelled"
                    values = dict(_CANCELLED)
                elif plan.abandoned + 1 >= MOST_ABANDONED:
                    kind = "failed"
                    values = _final(kind, outcome_kind, outcome_of(plan.request_document))
                else:
                    values = {"state": "queued", "lease_until_ms": None, **_pause(plan.abandoned)}
                values["abandoned"] = PlanRow.abandoned + 1
                if kind != "requeued":
                    values |= final_request(connection, plan.request_document)
                connection.execute(
                    update(PlanRow).where(PlanRow.plan_id == plan.plan_id).values(values)
                )
                note_event(connection, plan.plan_id, kind)
                if kind != "requeued":
                    closed.append(plan.plan_id)
        return closed


def _pause(abandoned: int) -> dict[str, Any]:
    pause_ms = 0 if not abandoned else min(_LONGEST_PAUSE_MS, _PAUSE_MS << min(abandoned, 8))
    return {"not_before_ms": NOW_MS + pause_ms}


def _write(
    connection: Connection, claim: Claim, values: dict[str, Any], *, also_queued: bool = False
) -> None:
    """Write into a plan's row, as its holder; LeaseLostError where another one may hold it."""
    states = ("running", "queued") if also_queued else ("running",)
    statement = (
        update(PlanRow)
        .where(
            PlanRow.plan_id == claim.plan_id,
            PlanRow.state.in_(states),
            PlanRow.fencing_token == claim.fencing_token,
        )
        .values(values)
    )
    if connection.execute(statement).rowcount != 1:
        raise LeaseLostError(claim.plan_id)


def _close(connection: Connection, claim: Claim) -> None:
    """Close a plan as cancelled, as its holder."""
    _write(connection, claim, _CANCELLED | final_request(connection, claim.request_document))
    note_event(connection, claim.plan_id, "cancelled")


def _closed_as_wished(connection: Connection, claim: Claim) -> bool:
    """Whether somebody wished to cancel a plan that runs, and so it is closed now.

    The row is held from here on, so that no wish comes between this look and what is written.
    """
    wish = (
        select(PlanRow.wish)
        .where(
            PlanRow.plan_id == claim.plan_id,
            PlanRow.state == "running",
            PlanRow.fencing_token == claim.fencing_token,
        )
        .with_for_update()
    )
    if connection.execute(wish).scalar_one_or_none() != "cancel":
        return False
    _close(connection, claim)
    return True


def _final(state: str, outcome_kind: str, outcome: bytes) -> dict[str, Any]:
    """The values of a row that will not change any more."""
    return {
        "state": state,
        "outcome_kind": outcome_kind,
        "outcome_document": outcome,
        "finished_at_ms": NOW_MS,
        "lease_until_ms": None,
    }
