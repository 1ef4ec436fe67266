"""Plans as their callers see them: accept, read, list."""

import hashlib
import json
from dataclasses import dataclass

from sqlalchemy import Engine, func, insert, select

from api_schema.plan_resource import OutcomeKindName, PlanStateName
from service.errors import ServiceProblem
from service.storage.database import NOW_MS, reading, writing
from service.storage.plan_ids import new_plan_id
from service.storage.tables import PlanRow


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

    def __init__(self, engine: Engine, *, queue_limit: int) -> None:
        self._engine = engine
        self._queue_limit = queue_limit

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
            return PlanSummary(**accepted)

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

    def check(self) -> None:
        """Raise the problem storage_unavailable unless the database answers."""
        with reading(self._engine) as connection:
            connection.execute(select(NOW_MS)).scalar_one()

    def close(self) -> None:
        """Close every connection."""
        self._engine.dispose()


def document_digest(document: dict[str, object]) -> str:
    """SHA-256 of the document with its members in alphabetical order, in hexadecimal."""
    canonical = json.dumps(document, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(canonical.encode()).hexdigest()
