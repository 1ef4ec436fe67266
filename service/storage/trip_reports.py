"""Reports after the expedition, kept with the plan that they are about and removed with it."""

import hashlib
import re
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Engine, delete, insert, select

from api_schema.plan_resource import PLAN_ID_PATTERN
from service.storage.clock import NOW_MS
from service.storage.database import one_at_a_time, reading, writing
from service.storage.lineage import hold_plan
from service.storage.plan_ids import new_plan_id
from service.storage.sqlite_log import note_deletion
from service.storage.tables import TripReportRow

MOST_KEPT = 20
"""Reports that are kept of one plan, the newest ones."""

_REPORT_ID = re.compile(PLAN_ID_PATTERN.replace("plan_", "report_"), re.ASCII)


@dataclass(frozen=True, slots=True)
class StoredReport:
    """A report as it was answered. The time in milliseconds since 1970-01-01 UTC."""

    report_id: str
    plan_id: str
    created_at_ms: int
    report_document: bytes


class TripReportStore:
    """The reports of all tenants; every question names the tenant who asks."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def keep(self, *, tenant_id: str, plan_id: str, sent: bytes, report: bytes) -> StoredReport:
        """Store a report on a plan, or give the one that the same body made before.

        Raises the problem not_found where the plan went meanwhile.
        """
        digest = hashlib.sha256(sent).hexdigest()
        of_plan = (TripReportRow.tenant_id == tenant_id, TripReportRow.plan_id == plan_id)
        known = select(*_COLUMNS).where(*of_plan, TripReportRow.request_digest == digest)
        newest = (
            select(TripReportRow.report_id)
            .where(*of_plan)
            .order_by(TripReportRow.report_id.desc())
            .limit(MOST_KEPT)
        )
        row = insert(TripReportRow).values(
            report_id=new_plan_id("report"),
            tenant_id=tenant_id,
            plan_id=plan_id,
            created_at_ms=NOW_MS,
            request_digest=digest,
            request_document=sent,
            report_document=report,
        )
        with writing(self._engine) as connection:
            hold_plan(connection, tenant_id, plan_id)
            one_at_a_time(connection, "report", plan_id)
            found = connection.execute(known).one_or_none()
            if found is None:
                found = connection.execute(row.returning(*_COLUMNS)).one()
                kept = connection.execute(newest).scalars().all()
                old = delete(TripReportRow).where(*of_plan, TripReportRow.report_id.not_in(kept))
                if connection.execute(old).rowcount:
                    note_deletion(connection)
        return StoredReport(*found)

    def read(self, *, tenant_id: str, plan_id: str, report_id: str) -> StoredReport | None:
        """One report on a plan, if this tenant has it."""
        if _REPORT_ID.fullmatch(report_id) is None:
            return None
        query = select(*_COLUMNS).where(
            TripReportRow.tenant_id == tenant_id,
            TripReportRow.plan_id == plan_id,
            TripReportRow.report_id == report_id,
        )
        with reading(self._engine) as connection:
            found = connection.execute(query).one_or_none()
        return None if found is None else StoredReport(*found)

    def of_plans(self, *, tenant_id: str, plan_ids: Sequence[str]) -> tuple[StoredReport, ...]:
        """Every report on some plans, the newest first."""
        query = (
            select(*_COLUMNS)
            .where(TripReportRow.tenant_id == tenant_id, TripReportRow.plan_id.in_(plan_ids))
            .order_by(TripReportRow.report_id.desc())
        )
        with reading(self._engine) as connection:
            return tuple(StoredReport(*row) for row in connection.execute(query))


_COLUMNS = (
    TripReportRow.report_id,
    TripReportRow.plan_id,
    TripReportRow.created_at_ms,
    TripReportRow.report_document,
)
