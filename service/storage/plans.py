"""Plans as their callers see them: accept, read, list."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Engine, insert, null, select, update
from sqlalchemy.exc import IntegrityError

from api_schema.plan_resource import OutcomeKindName, PlanStateName
from service.errors import ServiceProblem
from service.storage.clock import NOW_MS
from service.storage.company import Company
from service.storage.database import reading, writing
from service.storage.events import note_event
from service.storage.idempotency import RequestKey, known_plan, remember
from service.storage.library_uses import EntryUse, note_uses
from service.storage.lineage import note_replan
from service.storage.plan_ids import PLAN, first_plan_id, last_plan_id, new_plan_id
from service.storage.queue_figures import QueueFigures, read_queue_figures
from service.storage.queue_room import QueueRoom
from service.storage.sqlite_log import CommittedLog
from service.storage.stress_tests import note_test
from service.storage.tables import PlanRow, ProbeRow, table_of
from service.storage.unchanged_plans import ANYHOW, Condition, delete_plan
from service.storage.webhooks import note_webhook
from service.written_document import WrittenDocument, written


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
    wire_version: str | None = None
    rules_version: str | None = None


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
    PlanRow.wire_version,
    PlanRow.rules_version,
)

# Put together once, because every accepted plan needs it.
_NEW_PLAN = (
    insert(table_of(PlanRow))
    .values(state="queued", created_at_ms=NOW_MS)
    .returning(*(table_of(PlanRow).c[column.key] for column in _SUMMARY_COLUMNS))
)


class PlanStore:
    """The accepted plans of all tenants; every question names the tenant who asks."""

    def __init__(
        self,
        engine: Engine,
        *,
        queue_limit: int,
        has_shares: bool = False,
        enqueue: Callable[[Connection, str], None] = lambda _connection, _plan_id: None,
    ) -> None:
        """`enqueue` tells an outside queue of a plan, in the transaction that stores it.

        With shares, no tenant fills the queue alone while others have keys.
        """
        self._engine = engine
        self.room = QueueRoom(engine, limit=queue_limit, has_shares=has_shares)
        self._enqueue = enqueue
        self._log = CommittedLog(engine)
        self._company = Company(engine)

    def accept(
        self,
        *,
        tenant_id: str,
        reference: str | None,
        solve_seconds: float,
        document: WrittenDocument | Mapping[str, object],
        idempotency_key: RequestKey | None = None,
        former_plan_id: str | None = None,
        what_if: bool = False,
        uses: tuple[EntryUse, ...] = (),
        webhook_url: str | None = None,
        kind: str = PLAN,
        tested_plan_id: str | None = None,
    ) -> PlanSummary:
        """Store a request so that it survives any crash from now on; refuse when too many wait.

        `solve_seconds` is the time that its solve may take [s]. A key that has made a plan gives
        that plan again, and a key that came with another request is refused. `former_plan_id` is
        the plan on whose way this one is made, only to be looked at if `what_if`. `uses` is what
        the request took from the library, which is frozen by that. `webhook_url` is told when it
        is final. What is stored of another `kind` has its name begin with it, and stands in no
        list of plans; it goes with the plan that it tests.
        """
        stored = document if isinstance(document, WrittenDocument) else written(document)

        def beside(connection: Connection, plan_id: str) -> None:
            # Entries of the library before other plans, as who erases a reference takes them.
            note_uses(connection, tenant_id=tenant_id, plan_id=plan_id, uses=uses)
            if former_plan_id is not None:
                note_replan(connection, tenant_id, plan_id, former_plan_id, what_if=what_if)
            if tested_plan_id is not None:
                note_test(connection, tenant_id, plan_id, tested_plan_id)
            if webhook_url is not None:
                note_webhook(connection, tenant_id=tenant_id, plan_id=plan_id, url=webhook_url)

        row = {
            "plan_id": new_plan_id(kind),
            "tenant_id": tenant_id,
            "reference": reference,
            "request_document": stored.text,
            "request_digest": stored.digest,
            "solve_seconds": solve_seconds,
        }
        if idempotency_key is None:
            return self._company.write(lambda connection: self._insert(connection, row, beside))
        key = idempotency_key.told(tenant_id, document_digest=stored.digest)
        instead_of = idempotency_key.instead_of
        try:
            with writing(self._engine) as connection:
                known = self._known(connection, key, instead_of)
                if known is None:
                    known = self._insert(connection, row, beside)
                    remember(connection, **key, plan_id=known.plan_id)
                return known
        except IntegrityError:
            # Another process stored the key between the look and the write.
            with writing(self._engine) as connection:
                first = self._known(connection, key, instead_of)
            if first is None:
                raise ServiceProblem("storage_unavailable", headers={"Retry-After": "1"}) from None
            return first

    def _known(
        self, connection: Connection, key: Mapping[str, Any], instead_of: str | None
    ) -> PlanSummary | None:
        plan_id = known_plan(connection, **key, instead_of=instead_of)
        if plan_id is None:
            return None
        query = select(*_SUMMARY_COLUMNS).where(PlanRow.plan_id == plan_id)
        row = connection.execute(query).mappings().one_or_none()
        # On PostgreSQL a plan may go between the two looks, and its key goes with it.
        return None if row is None else PlanSummary(**row)

    def _insert(
        self,
        connection: Connection,
        row: Mapping[str, object],
        beside: Callable[[Connection, str], None],
    ) -> PlanSummary:
        self.room.require_in(connection, str(row["tenant_id"]))
        summary = PlanSummary(**connection.execute(_NEW_PLAN, row).mappings().one())
        beside(connection, summary.plan_id)
        note_event(connection, summary.plan_id, "queued")
        self._enqueue(connection, summary.plan_id)
        return summary

    def read(self, *, tenant_id: str, plan_id: str, with_outcome: bool = True) -> StoredPlan | None:
        """The plan of that name, if this tenant has it; its outcome may be large."""
        query = select(
            *_SUMMARY_COLUMNS,
            PlanRow.request_document,
            PlanRow.progress_document,
            PlanRow.outcome_document if with_outcome else null().label("outcome_document"),
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

    def delete(self, *, tenant_id: str, plan_id: str, only_if: Condition = ANYHOW) -> bool:
        """Remove a plan with its documents, events, keys and stress tests; False where none is.

        Whoever solves one of them has lost its lease by that and can write nothing more. Raises
        the problem changed_since where the condition does not hold.
        """
        with writing(self._engine) as connection:
            return delete_plan(connection, tenant_id=tenant_id, plan_id=plan_id, only_if=only_if)

    def list(
        self,
        *,
        tenant_id: str,
        before_plan_id: str | None,
        limit: int,
        reference: str | None = None,
        state: PlanStateName | None = None,
        created_from_ms: int | None = None,
        created_before_ms: int | None = None,
    ) -> list[PlanSummary]:
        """Up to so many plans, newest first, those before the named one that fit every filter.

        The name of a plan sorts by the time it was made, so it is a lasting place in the list.
        Times in milliseconds since 1970-01-01 UTC.
        """
        last = last_plan_id(created_before_ms)
        query = select(*_SUMMARY_COLUMNS).where(
            PlanRow.tenant_id == tenant_id,
            # The names tell the kind and nearly the time, so that an index leads to both. One
            # bound at each end: of two SQLite would take the first, and read through the rest.
            PlanRow.plan_id >= first_plan_id(created_from_ms or 0),
            PlanRow.plan_id < (last if before_plan_id is None else min(last, before_plan_id)),
        )
        if reference is not None:
            query = query.where(PlanRow.reference == reference)
        if state is not None:
            query = query.where(PlanRow.state == state)
        if created_from_ms is not None:
            query = query.where(PlanRow.created_at_ms >= created_from_ms)
        if created_before_ms is not None:
            query = query.where(PlanRow.created_at_ms < created_before_ms)
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

    def tidy(self) -> None:
        """Keep the log of the database short. Nobody waits for that."""
        self._log.move()

    def queue_figures(self) -> QueueFigures:
        """What waits, runs and ended lately, of all tenants."""
        return read_queue_figures(self._engine)

    def close(self) -> None:
        """Close every connection."""
        self._engine.dispose()
