"""The tables of the service, as SQLAlchemy models; migrations bring a database to this shape.

Times are counted by the database's own clock, in milliseconds since 1970-01-01 UTC.
"""

from sqlalchemy import CheckConstraint, Float, Index, LargeBinary, String, text
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

STATES = ("queued", "running", "done", "failed")


class Tables(DeclarativeBase):
    """Root of all table models."""


class PlanRow(Tables):
    """One accepted request to plan: the queue entry, its lease while it is solved, its outcome."""

    __tablename__ = "plans"
    __table_args__ = (
        CheckConstraint("state IN ('queued', 'running', 'done', 'failed')", name="state_known"),
        CheckConstraint(
            "(state IN ('done', 'failed')) = (outcome_document IS NOT NULL)",
            name="outcome_exactly_when_finished",
        ),
        CheckConstraint(
            "(state = 'running') = (lease_until_ms IS NOT NULL)", name="lease_exactly_when_running"
        ),
        Index("plans_by_state", "state", "created_at_ms", "plan_id"),
        Index("plans_by_reference", "tenant_id", "reference", "plan_id"),
        Index("plans_by_tenant", "tenant_id", "plan_id"),
    )

    plan_id: Mapped[str] = mapped_column(String(40), primary_key=True)
    tenant_id: Mapped[str] = mapped_column(String(64))
    reference: Mapped[str | None] = mapped_column(String(200))
    state: Mapped[str] = mapped_column(String(10))
    created_at_ms: Mapped[int]
    started_at_ms: Mapped[int | None]
    finished_at_ms: Mapped[int | None]
    request_document: Mapped[bytes] = mapped_column(LargeBinary)
    request_digest: Mapped[str] = mapped_column(String(64))
    solve_seconds: Mapped[float] = mapped_column(Float)
    outcome_document: Mapped[bytes | None] = mapped_column(LargeBinary)
    outcome_kind: Mapped[str | None] = mapped_column(String(40))
    progress_document: Mapped[bytes | None] = mapped_column(LargeBinary)
    attempt: Mapped[int] = mapped_column(server_default=text("0"))
    lease_until_ms: Mapped[int | None]
    fencing_token: Mapped[int] = mapped_column(server_default=text("0"))


class ComparisonRow(Tables):
    """One comparison: its rows with the plans that solve them, as JSON. Plans hold the rest."""

    __tablename__ = "comparisons"
    __table_args__ = (Index("comparisons_by_tenant", "tenant_id", "comparison_id"),)

    comparison_id: Mapped[str] = mapped_column(String(40), primary_key=True)
    tenant_id: Mapped[str] = mapped_column(String(64))
    reference: Mapped[str | None] = mapped_column(String(200))
    created_at_ms: Mapped[int]
    rows_document: Mapped[bytes] = mapped_column(LargeBinary)
