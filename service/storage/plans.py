"""Plans as their callers see them: accept, read, list."""

import hashlib
import json
from collections.abc import Callable
from dataclasses import dataclass

from sqlalchemy import Connection, Engine, func, insert, select, update

from api_schema.plan_resource import OutcomeKindName, PlanStateName
from service.errors import ServiceProblem
from service.storage.clock import NOW_MS
from service.storage.database import reading, writing
from service.storage.events import note_event
from service.storage.plan_ids import new_plan_id
from service.storage.tables import PlanRow, ProbeRow


@dataclass(frozen=True, slots=True)
class PlanSummary:
    """What a list shows of a plan. Times in milliseconds since 1970-01-01 UTC."""

    plan_id: str
    reference: str | None
    state: PlanStateName
    outcome_kind: OutcomeKindName | None
    created_at_ms: int
    started_at_ms: int | None
    finished_at_ms: int | None
    attempt: int


@dataclass(frozen=True, slots=True)
class StoredPlan:
    """A plan with its documents, which are JSON in UTF-8."""

    summary: PlanSummary
    request_document: bytes
    progress_document: bytes | None
    outcome_document: bytes | None


_SUMMARY_COLUMNS = (
    PlanRow.plan_id,
    PlanRow.reference,
    PlanRow.state,
    PlanRow.outcome_kind,
    PlanRow.created_at_ms,
    PlanRow.started_at_ms,
    PlanRow.finished_at_ms,
    PlanRow.attempt,
)


class PlanStore:
    """The accepted plans of all tenants; every question names the tenant who asks."""

    def __init__(
        self,
        engine: Engine,
        *,
        queue_limit: int,
        enqueue: Callable[[Connection, str], None] = lambda _connection, _plan_id: None,
    ) -> None:
        """`enqueue` tells an outside queue of a plan, in the transaction that stores it."""
        self._engine = engine
        self._queue_limit = queue_limit
        self._enqueue = enqueue

    def accept(
        self,
        *,
        tenant_id: str,
        reference: str | None,
        solve_seconds: float,
        document: dict[str, object],
    ) -> PlanSummary:
        """Store a request so that it survives any crash from now on; refuse when too many wait.

        `solve_seconds` is the time that its solve may take [s].
        """
        waiting = select(func.count()).where(PlanRow.state == "queued")
        row = insert(PlanRow).values(
            plan_id=new_plan_id(),
            tenant_id=tenant_id,
            reference=reference,
            state="queued",
            created_at_ms=NOW_MS,
            request_document=json.dumps(document, ensure_ascii=False).encode(),
            request_digest=document_digest(document),
            solve_seconds=solve_seconds,
        )
        with writing(self._engine) as connection:
            if connection.execute(waiting).scalar_one() >= self._queue_limit:
                raise ServiceProblem("queue_full", headers={"Retry-After": "30"})
            accepted = connection.execute(row.returning(*_SUMMARY_COLUMNS)).mappings().one()
            summary = PlanSummary(**accepted)
            note_event(connection, summary.plan_id, "queued")
            self._enqueue(connection, summary.plan_id)
        return summary

    def read(self, *, tenant_id: str, plan_id: str) -> StoredPlan | None:
        """The plan of that name, if this tenant has it."""
        query = select(
            *_SUMMARY_COLUMNS,
            PlanRow.request_document,
            PlanRow.progress_document,
            PlanRow.outcome_document,
        ).where(PlanRow.tenant_id == tenant_id, PlanRow.plan_id == plan_id)
        with reading(self._engine) as connection:
            row = connection.execute(query).mappings().one_or_none()
        if row is None:
            return None
        return StoredPlan(
            summary=PlanSummary(**{column.key: row[column.key] for column in _SUMMARY_COLUMNS}),
            request_document=row["request_document"],
            progress_document=row["progress_document"],
            outcome_document=row["outcome_document"],
        )

    def list(
        self, *, tenant_id: str, reference: str | None, before_plan_id: str | None, limit: int
    ) -> list[PlanSummary]:
        """Up to so many plans, newest first, those before the named one, of one reference or all.

        The name of a plan sorts by the time it was made, so it is a lasting place in the list.
        """
        query = select(*_SUMMARY_COLUMNS).where(PlanRow.tenant_id == tenant_id)
        if reference is not None:
            query = query.where(PlanRow.reference == reference)
        if before_plan_id is not None:
            query = query.where(PlanRow.plan_id < before_plan_id)
        query = query.order_by(PlanRow.plan_id.desc()).limit(limit)
        with reading(self._engine) as connection:
            return [PlanSummary(**row) for row in connection.execute(query).mappings()]

    def probe(self) -> None:
        """Raise the problem storage_unavailable unless the database takes a write."""
        with writing(self._engine) as connection:
            written = connection.execute(update(ProbeRow).values(written_at_ms=NOW_MS))
            connection.execute(select(PlanRow.plan_id).order_by(PlanRow.plan_id.desc()).limit(1))
        if written.rowcount != 1:
            raise ServiceProblem("storage_unavailable", headers={"Retry-After": "5"})

    def close(self) -> None:
        """Close every connection."""
        self._engine.dispose()


def document_digest(document: dict[str, object]) -> str:
    """SHA-256 of the document with its members in alphabetical order, in hexadecimal."""
    canonical = json.dumps(document, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(canonical.encode()).hexdigest()
