"""The documents of a plan stand behind all other columns, so that SQLite lists plans without them.

SQLite keeps a row as one record. What stands behind a large document is reached through every page
of it, which for a page of a hundred plans was thousands of pages. PostgreSQL keeps documents apart
and needs no change.
"""

from alembic import op

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None

_BEGINNING = (
    "plan_id", "tenant_id", "reference", "state", "created_at_ms", "started_at_ms",
    "finished_at_ms",
)  # fmt: skip
_SMALL = (
    "request_digest", "solve_seconds", "outcome_kind", "attempt", "lease_until_ms",
    "fencing_token", "crashes", "abandoned", "not_before_ms", "wish", "wire_version",
    "rules_version",
)  # fmt: skip
_DOCUMENTS = ("progress_document", "request_document", "outcome_document")
_BEFORE = (
    *_BEGINNING, "request_document", "request_digest", "solve_seconds", "outcome_document",
    "outcome_kind", "progress_document", *_SMALL[3:],
)  # fmt: skip


def upgrade() -> None:
    """Put the documents last."""
    _order((*_BEGINNING, *_SMALL, *_DOCUMENTS))


def downgrade() -> None:
    """Put them back where they were."""
    _order(_BEFORE)


def _order(columns: tuple[str, ...]) -> None:
    if op.get_bind().dialect.name != "sqlite":
        return
    with op.batch_alter_table("plans", recreate="always", partial_reordering=[columns]):
        pass
