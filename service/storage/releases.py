"""Releases: which plan of a reference holds, who released it, when, and a digest of its outcome."""

import hashlib
from dataclasses import dataclass

from sqlalchemy import Engine, RowMapping, Select, insert, select

from service.storage.clock import NOW_MS
from service.storage.database import one_at_a_time, reading, writing
from service.storage.holding import superseded_by
from service.storage.lineage import note_followed
from service.storage.tables import ReleaseRow


@dataclass(frozen=True, slots=True)
class Release:
    """One release. The time in milliseconds since 1970-01-01 UTC; the digest is a SHA-256.

    `superseded_by` is the plan that holds, None where that is the plan of this release. `holds` is
    whether this is the release by which it does.
    """

    reference: str
    release_number: int
    plan_id: str
    released_by: str
    key_id: str | None
    released_at_ms: int
    outcome_digest: str
    superseded_by: str | None
    holds: bool


class ReleaseStore:
    """The releases of all tenants; every question names the tenant who asks."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def release(
        self,
        *,
        tenant_id: str,
        reference: str,
        plan_id: str,
        released_by: str,
        key_id: str | None,
        outcome: bytes,
    ) -> Release:
        """Have a plan hold for its reference from now on, in place of the one before.

        A re-plan that was made only to be looked at is followed from now on. A plan that was
        released last and holds still stays as it was released.
        """
        newest = _newest(tenant_id, reference)
        with writing(self._engine) as connection:
            one_at_a_time(connection, "release", tenant_id, reference)
            latest = connection.execute(newest).mappings().one_or_none()
            if (
                latest is not None
                and latest["plan_id"] == plan_id
                and superseded_by(connection, tenant_id=tenant_id, plan_id=plan_id) is None
            ):
                return Release(**latest, superseded_by=None, holds=True)
            row = insert(ReleaseRow).values(
                tenant_id=tenant_id,
                reference=reference,
                release_number=1 if latest is None else latest["release_number"] + 1,
                plan_id=plan_id,
                released_by=released_by,
                key_id=key_id,
                released_at_ms=NOW_MS,
                outcome_digest=hashlib.sha256(outcome).hexdigest(),
            )
            written = connection.execute(row.returning(*_COLUMNS)).mappings().one()
            note_followed(connection, plan_id)
        return Release(**written, superseded_by=None, holds=True)

    def of_plan(self, *, tenant_id: str, plan_id: str) -> Release | None:
        """The newest release of a plan, None where it was never released."""
        newest = (
            select(*_COLUMNS)
            .where(ReleaseRow.tenant_id == tenant_id, ReleaseRow.plan_id == plan_id)
            .order_by(ReleaseRow.released_at_ms.desc(), ReleaseRow.release_number.desc())
            .limit(1)
        )
        with reading(self._engine) as connection:
            row = connection.execute(newest).mappings().one_or_none()
            if row is None:
                return None
            holds = connection.execute(_newest(tenant_id, row["reference"])).mappings().one()
        return _told(row, holds)

    def list(
        self, *, tenant_id: str, reference: str, limit: int, before_number: int | None = None
    ) -> list[Release]:
        """So many releases of a reference at most, newest first, those before that number.

        Without a number, the first is the one that holds.
        """
        query = _newest(tenant_id, reference)
        wanted = query.limit(limit)
        if before_number is not None:
            wanted = wanted.where(ReleaseRow.release_number < before_number)
        with reading(self._engine) as connection:
            holds = connection.execute(query).mappings().one_or_none()
            rows = connection.execute(wanted).mappings().all()
        return [] if holds is None else [_told(row, holds) for row in rows]


_COLUMNS = (
    ReleaseRow.reference,
    ReleaseRow.release_number,
    ReleaseRow.plan_id,
    ReleaseRow.released_by,
    ReleaseRow.key_id,
    ReleaseRow.released_at_ms,
    ReleaseRow.outcome_digest,
)


def _newest(tenant_id: str, reference: str) -> "Select[str, int, str, str, str | None, int, str]":
    return (
        select(*_COLUMNS)
        .where(ReleaseRow.tenant_id == tenant_id, ReleaseRow.reference == reference)
        .order_by(ReleaseRow.release_number.desc())
        .limit(1)
    )


def _told(row: RowMapping, holds: RowMapping) -> Release:
    is_another = row["plan_id"] != holds["plan_id"]
    return Release(
        **row,
        superseded_by=holds["plan_id"] if is_another else None,
        holds=row["release_number"] == holds["release_number"],
    )
