"""Comparisons as their callers see them: store, read. Their plans are stored as plans."""

import json
import re
from dataclasses import asdict, dataclass
from typing import Any

from sqlalchemy import Connection, Engine, Row, insert, select

from api_schema.comparison_answer import COMPARISON_ID_PATTERN
from service.errors import Fault
from service.storage.database import reading, writing
from service.storage.plan_ids import first_plan_id, new_plan_id
from service.storage.tables import ComparisonRow, PlanRow

_COLUMNS = (
    ComparisonRow.comparison_id,
    ComparisonRow.reference,
    ComparisonRow.created_at_ms,
    ComparisonRow.rows_document,
)
_COMPARISON_ID = re.compile(COMPARISON_ID_PATTERN, re.ASCII)


@dataclass(frozen=True, slots=True)
class StoredVariant:
    """One row of a comparison: its plan, or the faults for which it has none.

    Without either it was not accepted, because too many plans were waiting.
    """

    name: str
    edits: tuple[str, ...]
    plan_id: str | None
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True)
class StoredComparison:
    """A comparison with its rows, the base first. The time in milliseconds since 1970-01-01 UTC."""

    comparison_id: str
    reference: str | None
    created_at_ms: int
    rows: tuple[StoredVariant, ...]
    choose: dict[str, Any] | None = None
    """What is asked of the variants, as it was written."""


class ComparisonStore:
    """The comparisons of all tenants; every question names the tenant who asks."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def add(
        self,
        *,
        tenant_id: str,
        reference: str | None,
        created_at_ms: int,
        rows: tuple[StoredVariant, ...],
        choose: dict[str, Any] | None = None,
        once: bool = False,
    ) -> StoredComparison:
        """Store a comparison whose plans are stored already.

        With `once` there is one with the plan of the first row at most, and where it is stored
        already it comes back. The time is that of the plan.
        """
        comparison_id = "comparison_" + new_plan_id().partition("_")[2]
        told = {"rows": [asdict(row) for row in rows], "choose": choose}
        document = json.dumps(told, ensure_ascii=False).encode()
        row = insert(ComparisonRow).values(
            comparison_id=comparison_id,
            tenant_id=tenant_id,
            reference=reference,
            created_at_ms=created_at_ms,
            rows_document=document,
        )
        with writing(self._engine) as connection:
            if once:
                _hold_base(connection, rows[0])
                known = _of_base(connection, tenant_id, created_at_ms, rows[0].plan_id)
                if known is not None:
                    return known
            connection.execute(row)
        return StoredComparison(comparison_id, reference, created_at_ms, rows, choose)

    def read(self, *, tenant_id: str, comparison_id: str) -> StoredComparison | None:
        """The comparison of that name, if this tenant has it."""
        if _COMPARISON_ID.fullmatch(comparison_id) is None:
            return None
        named = ComparisonRow.comparison_id == comparison_id
        with reading(self._engine) as connection:
            row = connection.execute(
                select(*_COLUMNS).where(ComparisonRow.tenant_id == tenant_id, named)
            ).one_or_none()
        return None if row is None else _stored(row)

    def of_base(self, *, tenant_id: str, plan_id: str) -> StoredComparison | None:
        """The comparison whose base has that plan, None where it is not stored, or not yet."""
        query = select(PlanRow.created_at_ms).where(
            PlanRow.tenant_id == tenant_id, PlanRow.plan_id == plan_id
        )
        with reading(self._engine) as connection:
            at_ms = connection.execute(query).scalar_one_or_none()
            return None if at_ms is None else _of_base(connection, tenant_id, at_ms, plan_id)


def _hold_base(connection: Connection, base: StoredVariant) -> None:
    """Wait for whoever stores a comparison of the same base: two requests with one key have one."""
    connection.execute(
        select(PlanRow.plan_id).where(PlanRow.plan_id == base.plan_id).with_for_update()
    )


def _of_base(
    connection: Connection, tenant_id: str, created_at_ms: int, plan_id: str | None
) -> StoredComparison | None:
    """The comparison that has the plan of a base, which was stored at that time [ms]."""
    first = "comparison_" + first_plan_id(created_at_ms).partition("_")[2]
    query = select(*_COLUMNS).where(
        ComparisonRow.tenant_id == tenant_id,
        ComparisonRow.comparison_id >= first,
        ComparisonRow.created_at_ms == created_at_ms,
    )
    found = map(_stored, connection.execute(query).all())
    return next((one for one in found if one.rows[0].plan_id == plan_id), None)


def _stored(row: Row[str, str | None, int, bytes]) -> StoredComparison:
    stored = json.loads(row[3])
    # What was stored before a choice could be asked for is the list of rows alone.
    told = stored if isinstance(stored, dict) else {"rows": stored, "choose": None}
    rows = tuple(_variant(one) for one in told["rows"])
    return StoredComparison(row[0], row[1], row[2], rows, told["choose"])


def _variant(told: dict[str, Any]) -> StoredVariant:
    faults = tuple(Fault(**fault) for fault in told["faults"])
    return StoredVariant(told["name"], tuple(told["edits"]), told["plan_id"], faults)
