"""Comparisons as their callers see them: store, read. Their plans are stored as plans."""

import json
import re
from dataclasses import asdict, dataclass
from typing import Any

from sqlalchemy import Engine, insert, select

from api_schema.comparison_answer import COMPARISON_ID_PATTERN
from service.errors import Fault
from service.storage.database import reading, writing
from service.storage.plan_ids import new_plan_id
from service.storage.tables import ComparisonRow

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
    ) -> str:
        """Store a comparison whose plans are stored already; gives its name."""
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
            connection.execute(row)
        return comparison_id

    def read(self, *, tenant_id: str, comparison_id: str) -> StoredComparison | None:
        """The comparison of that name, if this tenant has it."""
        if _COMPARISON_ID.fullmatch(comparison_id) is None:
            return None
        query = select(
            ComparisonRow.comparison_id,
            ComparisonRow.reference,
            ComparisonRow.created_at_ms,
            ComparisonRow.rows_document,
        ).where(ComparisonRow.tenant_id == tenant_id, ComparisonRow.comparison_id == comparison_id)
        with reading(self._engine) as connection:
            row = connection.execute(query).one_or_none()
        if row is None:
            return None
        stored = json.loads(row[3])
        # What was stored before a choice could be asked for is the list of rows alone.
        told = stored if isinstance(stored, dict) else {"rows": stored, "choose": None}
        rows = tuple(_variant(one) for one in told["rows"])
        return StoredComparison(row[0], row[1], row[2], rows, told["choose"])


def _variant(told: dict[str, Any]) -> StoredVariant:
    faults = tuple(Fault(**fault) for fault in told["faults"])
    return StoredVariant(told["name"], tuple(told["edits"]), told["plan_id"], faults)
