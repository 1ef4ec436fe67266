"""Room in the queue: how many plans may wait in all, and how many of them may be one tenant's.

A tenant beside whom others have keys may have as many plans waiting as places are free. So there is
always room for one more tenant, and those who want more than they get have equal shares.
"""

import time

from sqlalchemy import Connection, Engine, String, bindparam, exists, func, select

from service.errors import QUEUE_FULL_AGAIN_SECONDS, ServiceProblem
from service.storage.database import reading
from service.storage.tables import KeyRow, PlanRow

_FULL_SECONDS = 0.5
"""Time for which a full queue is taken to be full without looking [s]."""

_ME = bindparam("tenant_id", type_=String())
_WAITING = select(func.count()).where(PlanRow.state == "queued")
# Put together once: that takes as long as to execute it. Each part has an index of its own.
_WHO_WAITS = select(
    _WAITING.scalar_subquery().label("all_plans"),
    _WAITING.where(PlanRow.tenant_id == _ME).scalar_subquery().label("mine"),
    exists().where(KeyRow.tenant_id != _ME, KeyRow.revoked_at_ms.is_(None)).label("has_others"),
)


class QueueRoom:
    """The places of the queue. Shares are for a service that tells its callers apart."""

    def __init__(self, engine: Engine, *, limit: int, has_shares: bool) -> None:
        self._engine = engine
        self._limit = limit
        self._has_shares = has_shares
        self._full_until: dict[str, float] = {}

    def is_known_full(self, tenant_id: str) -> bool:
        """Whether it was full for a tenant a moment ago. This is quick and never waits."""
        until = self._full_until.get(tenant_id)
        return until is not None and time.monotonic() < until

    def require(self, tenant_id: str) -> None:
        """Raise the problem queue_full where it was full when last seen, and still is.

        Nobody has to read what is refused anyhow: a flood then costs running solves next to
        nothing. Half a second after the last look somebody looks again; all others of the tenant
        are refused meanwhile.
        """
        until = self._full_until.get(tenant_id)
        if until is None:
            return
        if time.monotonic() >= until:
            self._note_full(tenant_id)
            with reading(self._engine) as connection:
                if self._has_room(connection, tenant_id):
                    self._full_until.pop(tenant_id, None)
                    return
        raise _queue_full()

    def require_in(self, connection: Connection, tenant_id: str) -> None:
        """Raise the problem queue_full unless there is room in the transaction of a new plan."""
        if not self._has_room(connection, tenant_id):
            self._note_full(tenant_id)
            raise _queue_full()

    def _has_room(self, connection: Connection, tenant_id: str) -> bool:
        waits = connection.execute(_WHO_WAITS, {"tenant_id": tenant_id}).one()
        left = self._limit - waits.all_plans
        if self._has_shares and waits.has_others:
            # One waits in any case, also where very few may.
            return bool(left > 0 and (waits.mine < left or waits.mine == 0))
        return bool(left > 0)

    def _note_full(self, tenant_id: str) -> None:
        self._full_until[tenant_id] = time.monotonic() + _FULL_SECONDS


def _queue_full() -> ServiceProblem:
    return ServiceProblem("queue_full", headers={"Retry-After": str(QUEUE_FULL_AGAIN_SECONDS)})
