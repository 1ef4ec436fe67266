"""The tables of the service, as SQLAlchemy models; migrations bring a database to this shape.

Times are counted by the database's own clock, in milliseconds since 1970-01-01 UTC.
"""

from sqlalchemy import (
    BigInteger,
    Boolean,
    CheckConstraint,
    Float,
    ForeignKey,
    Index,
    LargeBinary,
    String,
    Table,
    false,
    text,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

STATES = ("queued", "running", "done", "failed", "cancelled")
FINAL_STATES = ("done", "failed", "cancelled")


class Tables(DeclarativeBase):
    """Root of all table models."""


class PlanRow(Tables):
    """One accepted request to plan: the queue entry, its lease while it is solved, its outcome.

    `attempt` counts starts. `crashes` counts solves that broke by themselves, which are held
    against the plan; `abandoned` counts deaths of a worker, which are not. A queued plan is not
    taken before `not_before_ms`. `wish` is what the caller asked of a running solve. The versions
    of wire and rules are those that made the outcome. Documents come last, because SQLite reads
    through all of a document to reach what stands behind it.
    """

    __tablename__ = "plans"
    __table_args__ = (
        CheckConstraint(
            "state IN ('queued', 'running', 'done', 'failed', 'cancelled')", name="state_known"
        ),
        CheckConstraint(
            "(state IN ('done', 'failed')) = (outcome_document IS NOT NULL)",
            name="outcome_exactly_when_finished",
        ),
        CheckConstraint(
            "(state = 'running') = (lease_until_ms IS NOT NULL)", name="lease_exactly_when_running"
        ),
        CheckConstraint("wish IN ('cancel', 'finish')", name="wish_known"),
        Index("plans_by_state", "state", "created_at_ms", "plan_id"),
        Index("plans_by_reference", "tenant_id", "reference", "plan_id"),
        Index("plans_by_tenant", "tenant_id", "plan_id"),
        Index("plans_by_turn", "tenant_id", "started_at_ms"),
        Index("plans_by_tenant_state", "tenant_id", "state", "plan_id"),
        Index("plans_by_finish", "tenant_id", "finished_at_ms"),
        Index("plans_by_end", "finished_at_ms"),
    )

    plan_id: Mapped[str] = mapped_column(String(40), primary_key=True)
    tenant_id: Mapped[str] = mapped_column(String(64))
    reference: Mapped[str | None] = mapped_column(String(200))
    state: Mapped[str] = mapped_column(String(10))
    created_at_ms: Mapped[int] = mapped_column(BigInteger)
    started_at_ms: Mapped[int | None] = mapped_column(BigInteger)
    finished_at_ms: Mapped[int | None] = mapped_column(BigInteger)
    request_digest: Mapped[str] = mapped_column(String(64))
    solve_seconds: Mapped[float] = mapped_column(Float)
    outcome_kind: Mapped[str | None] = mapped_column(String(40))
    attempt: Mapped[int] = mapped_column(server_default=text("0"))
    lease_until_ms: Mapped[int | None] = mapped_column(BigInteger)
    fencing_token: Mapped[int] = mapped_column(server_default=text("0"))
    crashes: Mapped[int] = mapped_column(server_default=text("0"))
    abandoned: Mapped[int] = mapped_column(server_default=text("0"))
    not_before_ms: Mapped[int] = mapped_column(BigInteger, server_default=text("0"))
    wish: Mapped[str | None] = mapped_column(String(10))
    wire_version: Mapped[str | None] = mapped_column(String(20))
    rules_version: Mapped[str | None] = mapped_column(String(20))
    progress_document: Mapped[bytes | None] = mapped_column(LargeBinary)
    request_document: Mapped[bytes] = mapped_column(LargeBinary)
    outcome_document: Mapped[bytes | None] = mapped_column(LargeBinary)


class ReplanRow(Tables):
    """That a plan was made on the way of another one; a plan is the re-plan of one at most.

    `what_if` says that it was made only to be looked at, and nobody has followed or released it.
    """

    __tablename__ = "replans"
    __table_args__ = (Index("replans_by_former", "former_plan_id"),)

    plan_id: Mapped[str] = mapped_column(
        String(40), ForeignKey("plans.plan_id", ondelete="CASCADE"), primary_key=True
    )
    former_plan_id: Mapped[str] = mapped_column(String(40))
    what_if: Mapped[bool] = mapped_column(Boolean, server_default=false())


class StressTestRow(Tables):
    """Which plan a stress test is of. The test itself is a row of plans, under its own name."""

    __tablename__ = "stress_tests"
    __table_args__ = (Index("stress_tests_by_plan", "plan_id"),)

    stress_test_id: Mapped[str] = mapped_column(
        String(40), ForeignKey("plans.plan_id", ondelete="CASCADE"), primary_key=True
    )
    plan_id: Mapped[str] = mapped_column(String(40))


class PlanEventRow(Tables):
    """One thing that happened to a plan; numbered from 1 within the plan."""

    __tablename__ = "plan_events"

    plan_id: Mapped[str] = mapped_column(
        String(40), ForeignKey("plans.plan_id", ondelete="CASCADE"), primary_key=True
    )
    event_number: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    kind: Mapped[str] = mapped_column(String(20))
    at_ms: Mapped[int] = mapped_column(BigInteger)
    document: Mapped[bytes | None] = mapped_column(LargeBinary)


class IdempotencyRow(Tables):
    """A key, the plan that its request made, and two digests; old rows lack `sent_digest`."""

    __tablename__ = "idempotency_keys"
    __table_args__ = (Index("keys_by_plan", "plan_id"), Index("keys_by_time", "created_at_ms"))

    tenant_id: Mapped[str] = mapped_column(String(64), primary_key=True)
    idempotency_key: Mapped[str] = mapped_column(String(255), primary_key=True)
    request_digest: Mapped[str] = mapped_column(String(64))
    plan_id: Mapped[str] = mapped_column(
        String(40), ForeignKey("plans.plan_id", ondelete="CASCADE")
    )
    created_at_ms: Mapped[int] = mapped_column(BigInteger)
    sent_digest: Mapped[str | None] = mapped_column(String(64))


class KeyRow(Tables):
    """A key of a caller: whose plans it is for, and what it is for; its secret is hashed."""

    __tablename__ = "api_keys"

    key_id: Mapped[str] = mapped_column(String(16), primary_key=True)
    tenant_id: Mapped[str] = mapped_column(String(64))
    secret_hash: Mapped[str] = mapped_column(String(64))
    scopes: Mapped[str] = mapped_column(String(64))
    created_at_ms: Mapped[int] = mapped_column(BigInteger)
    revoked_at_ms: Mapped[int | None] = mapped_column(BigInteger)


class ProbeRow(Tables):
    """One row that is written again and again to see whether the database takes writes."""

    __tablename__ = "storage_probe"

    probe_id: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    written_at_ms: Mapped[int] = mapped_column(BigInteger)


class ComparisonRow(Tables):
    """One comparison: its rows with the plans that solve them, as JSON. Plans hold the rest."""

    __tablename__ = "comparisons"
    __table_args__ = (Index("comparisons_by_tenant", "tenant_id", "comparison_id"),)

    comparison_id: Mapped[str] = mapped_column(String(40), primary_key=True)
    tenant_id: Mapped[str] = mapped_column(String(64))
    reference: Mapped[str | None] = mapped_column(String(200))
    created_at_ms: Mapped[int] = mapped_column(BigInteger)
    rows_document: Mapped[bytes] = mapped_column(LargeBinary)


class ReleaseRow(Tables):
    """A plan that was released for its reference, the first with number 1; the last one holds.

    It stays when its plan is deleted: who released what, without anything that the plan said.
    """

    __tablename__ = "releases"
    __table_args__ = (Index("releases_by_plan", "tenant_id", "plan_id"),)

    tenant_id: Mapped[str] = mapped_column(String(64), primary_key=True)
    reference: Mapped[str] = mapped_column(String(200), primary_key=True)
    release_number: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    plan_id: Mapped[str] = mapped_column(String(40))
    released_by: Mapped[str] = mapped_column(String(200))
    key_id: Mapped[str | None] = mapped_column(String(16))
    released_at_ms: Mapped[int] = mapped_column(BigInteger)
    outcome_digest: Mapped[str] = mapped_column(String(64))


class TripReportRow(Tables):
    """A report after the expedition: what was sent, and what was answered; it goes with its plan.

    What is sent again is the same report, by the digest of what was sent.
    """

    __tablename__ = "trip_reports"
    __table_args__ = (Index("reports_by_plan", "plan_id", "request_digest", unique=True),)

    report_id: Mapped[str] = mapped_column(String(40), primary_key=True)
    tenant_id: Mapped[str] = mapped_column(String(64))
    plan_id: Mapped[str] = mapped_column(
        String(40), ForeignKey("plans.plan_id", ondelete="CASCADE")
    )
    created_at_ms: Mapped[int] = mapped_column(BigInteger)
    request_digest: Mapped[str] = mapped_column(String(64))
    request_document: Mapped[bytes] = mapped_column(LargeBinary)
    report_document: Mapped[bytes] = mapped_column(LargeBinary)


class RetentionRow(Tables):
    """How many days a tenant keeps plans after they became final; no row: for ever."""

    __tablename__ = "retention"

    tenant_id: Mapped[str] = mapped_column(String(64), primary_key=True)
    days: Mapped[int] = mapped_column()


class WebhookRow(Tables):
    """Where a caller wants to hear that a plan is final, and how the delivery stands.

    `waiting` until the plan is final, then `due`, and at last `delivered` or `given_up`. A due one
    is sent at `next_at_ms`; whoever sends it moves that on, so that nobody else does.
    """

    __tablename__ = "webhook_deliveries"
    __table_args__ = (
        CheckConstraint(
            "state IN ('waiting', 'due', 'delivered', 'given_up')", name="webhook_state_known"
        ),
        CheckConstraint("(state = 'due') = (next_at_ms IS NOT NULL)", name="next_exactly_when_due"),
        Index("webhooks_by_time", "state", "next_at_ms"),
    )

    plan_id: Mapped[str] = mapped_column(
        String(40), ForeignKey("plans.plan_id", ondelete="CASCADE"), primary_key=True
    )
    webhook_id: Mapped[str] = mapped_column(String(40))
    tenant_id: Mapped[str] = mapped_column(String(64))
    url: Mapped[str] = mapped_column(String(2000))
    state: Mapped[str] = mapped_column(String(10))
    attempts: Mapped[int] = mapped_column(server_default=text("0"))
    next_at_ms: Mapped[int | None] = mapped_column(BigInteger)
    last_at_ms: Mapped[int | None] = mapped_column(BigInteger)
    last_status: Mapped[int | None] = mapped_column()
    last_fault: Mapped[str | None] = mapped_column(String(30))


class LibraryRow(Tables):
    """One version of a stored route, gear list, menu or roster.

    A version that was removed has no document any more; its number is never given again.
    """

    __tablename__ = "library_versions"
    __table_args__ = (
        CheckConstraint(
            "(document IS NULL) = (digest IS NULL)", name="digest_exactly_with_document"
        ),
    )

    tenant_id: Mapped[str] = mapped_column(String(64), primary_key=True)
    kind: Mapped[str] = mapped_column(String(20), primary_key=True)
    entry_id: Mapped[str] = mapped_column(String(64), primary_key=True)
    version: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    title: Mapped[str | None] = mapped_column(String(200))
    reference: Mapped[str | None] = mapped_column(String(200))
    document: Mapped[bytes | None] = mapped_column(LargeBinary)
    digest: Mapped[str | None] = mapped_column(String(64))
    frozen: Mapped[bool] = mapped_column(Boolean)
    stored_at_ms: Mapped[int] = mapped_column(BigInteger)


class LibraryUseRow(Tables):
    """That a plan used a version of the library."""

    __tablename__ = "library_uses"
    __table_args__ = (Index("uses_by_version", "tenant_id", "kind", "entry_id", "version"),)

    plan_id: Mapped[str] = mapped_column(
        String(40), ForeignKey("plans.plan_id", ondelete="CASCADE"), primary_key=True
    )
    kind: Mapped[str] = mapped_column(String(20), primary_key=True)
    entry_id: Mapped[str] = mapped_column(String(64), primary_key=True)
    version: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    tenant_id: Mapped[str] = mapped_column(String(64))


def table_of(rows: type[Tables]) -> Table:
    """The table behind a model; statements on it are made without the work of the mapper."""
    return Tables.metadata.tables[rows.__tablename__]
