"""Keys by which a repeated request is known: one key, one plan (Idempotency-Key)."""

from sqlalchemy import Connection, delete, insert, select

from service.errors import ServiceProblem
from service.storage.clock import NOW_MS
from service.storage.tables import IdempotencyRow

KEPT_HOURS = 24
_MS_PER_HOUR = 3_600_000


def known_plan(
    connection: Connection, *, tenant_id: str, key: str, request_digest: str
) -> str | None:
    """The plan that a key made within the time that keys are kept, None for a new key.

    A key that came with another request raises the problem idempotency_key_reused.
    """
    connection.execute(
        delete(IdempotencyRow).where(
            IdempotencyRow.created_at_ms < NOW_MS - KEPT_HOURS * _MS_PER_HOUR
        )
    )
    query = select(IdempotencyRow.plan_id, IdempotencyRow.request_digest).where(
        IdempotencyRow.tenant_id == tenant_id, IdempotencyRow.idempotency_key == key
    )
    row = connection.execute(query).one_or_none()
    if row is None:
        return None
    if row.request_digest != request_digest:
        raise ServiceProblem("idempotency_key_reused")
    return str(row.plan_id)


def remember(
    connection: Connection, *, tenant_id: str, key: str, request_digest: str, plan_id: str
) -> None:
    """Store a key with the plan that it made; raises IntegrityError where another was quicker."""
    connection.execute(
        insert(IdempotencyRow).values(
            tenant_id=tenant_id,
            idempotency_key=key,
            request_digest=request_digest,
            plan_id=plan_id,
            created_at_ms=NOW_MS,
        )
    )
