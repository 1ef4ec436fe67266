"""Keys by which a repeated request is known: one key, one plan (Idempotency-Key)."""

from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Engine, delete, insert, select

from service.errors import ServiceProblem
from service.storage.clock import NOW_MS
from service.storage.database import reading
from service.storage.tables import IdempotencyRow

KEPT_HOURS = 24
_MS_PER_HOUR = 3_600_000
_KEPT_FROM_MS = NOW_MS - KEPT_HOURS * _MS_PER_HOUR


@dataclass(frozen=True, slots=True)
class RequestKey:
    """A key, and the digests by which the request that it came with is known again.

    `sent_digest` is of address and body as they were sent, None for a key that nobody sent.
    `request_digest` is of what was asked, None where the document of the plan says all of that.
    `instead_of` is the plan that the key made before and that answers nothing any more: another one
    may take its place, once.
    """

    key: str
    sent_digest: str | None = None
    request_digest: str | None = None
    instead_of: str | None = None

    def told(self, tenant_id: str, *, document_digest: str) -> dict[str, Any]:
        """All that tells a tenant's request with this key from any other, as its row has it."""
        return {
            "tenant_id": tenant_id,
            "key": self.key,
            "request_digest": self.request_digest or document_digest,
            "sent_digest": self.sent_digest,
        }


class BegunWork:
    """What requests with keys began; every question names the tenant who asks."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def plan_of(self, *, tenant_id: str, key: str, sent_digest: str) -> str | None:
        """The plan that a key made from the same request as it was sent, None for no such one.

        A request that was sent in other words may still ask the same: `known_plan` tells.
        """
        query = select(IdempotencyRow.plan_id).where(
            IdempotencyRow.tenant_id == tenant_id,
            IdempotencyRow.idempotency_key == key,
            IdempotencyRow.sent_digest == sent_digest,
            IdempotencyRow.created_at_ms >= _KEPT_FROM_MS,
        )
        with reading(self._engine) as connection:
            return connection.execute(query).scalar_one_or_none()


def known_plan(
    connection: Connection,
    *,
    tenant_id: str,
    key: str,
    request_digest: str,
    sent_digest: str | None = None,
    instead_of: str | None = None,
) -> str | None:
    """The plan that a key made within the time that keys are kept, None for a new key.

    A key that came with another request raises the problem idempotency_key_reused. What was sent in
    the same words is the same request, also where what it names was changed meanwhile. A key that
    names the plan `instead_of` is forgotten, and is a new one.
    """
    connection.execute(delete(IdempotencyRow).where(IdempotencyRow.created_at_ms < _KEPT_FROM_MS))
    if instead_of is not None:
        connection.execute(
            delete(IdempotencyRow).where(
                IdempotencyRow.tenant_id == tenant_id,
                IdempotencyRow.idempotency_key == key,
                IdempotencyRow.plan_id == instead_of,
            )
        )
    query = select(
        IdempotencyRow.plan_id, IdempotencyRow.request_digest, IdempotencyRow.sent_digest
    ).where(IdempotencyRow.tenant_id == tenant_id, IdempotencyRow.idempotency_key == key)
    row = connection.execute(query).one_or_none()
    if row is None:
        return None
    was_sent_so = sent_digest is not None and row.sent_digest == sent_digest
    if row.request_digest != request_digest and not was_sent_so:
        raise ServiceProblem("idempotency_key_reused")
    return str(row.plan_id)


def remember(
    connection: Connection,
    *,
    tenant_id: str,
    key: str,
    request_digest: str,
    plan_id: str,
    sent_digest: str | None = None,
) -> None:
    """Store a key with the plan that it made; raises IntegrityError where another was quicker."""
    connection.execute(
        insert(IdempotencyRow).values(
            tenant_id=tenant_id,
            idempotency_key=key,
            request_digest=request_digest,
            sent_digest=sent_digest,
            plan_id=plan_id,
            created_at_ms=NOW_MS,
        )
    )
