"""How long the plans of a tenant are kept, and the removal of what is older."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sqlalchemy import ColumnElement, Connection, Engine, delete, exists, insert, select, union

from service.storage.clock import ONCE_NOW_MS
from service.storage.database import one_at_a_time, reading, writing
from service.storage.library_uses import remove_of_reference, remove_unused_rosters
from service.storage.lineage import tie_past
from service.storage.plan_ids import is_plan_id
from service.storage.sqlite_log import note_deletion
from service.storage.stress_tests import remove_tests_without_plan
from service.storage.tables import ComparisonRow, KeyRow, LibraryRow, PlanRow, RetentionRow

_MS_PER_DAY = 86_400_000
_AT_ONCE = 100
"""Plans removed in one transaction, so that nobody waits long for the write lock."""


@dataclass(frozen=True, slots=True)
class Erased:
    """How many plans, comparisons, and versions of the library were erased."""

    plans: int
    comparisons: int
    entries: int

    @property
    def is_nothing(self) -> bool:
        """Whether there was nothing to erase."""
        return not (self.plans or self.comparisons or self.entries)


class RetentionStore:
    """The days that each tenant keeps plans and comparisons; a tenant without any keeps all.

    Rosters of the library that no plan uses are kept as long, the rest of the library for ever.
    """

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def keep(self, *, tenant_id: str, days: int | None) -> None:
        """Set the days that a tenant's plans are kept after they became final; None: for ever."""
        with writing(self._engine) as connection:
            one_at_a_time(connection, "retention", tenant_id)
            connection.execute(delete(RetentionRow).where(RetentionRow.tenant_id == tenant_id))
            if days is not None:
                connection.execute(insert(RetentionRow).values(tenant_id=tenant_id, days=days))

    def kept(self) -> dict[str, int]:
        """The tenants who keep plans for some days only, each with the days."""
        query = select(RetentionRow.tenant_id, RetentionRow.days).order_by(RetentionRow.tenant_id)
        with reading(self._engine) as connection:
            return {row.tenant_id: row.days for row in connection.execute(query)}

    def tenants(self) -> list[str]:
        """All tenants who have a key, a plan, a comparison, an entry or a number of days."""
        tables = (KeyRow, PlanRow, ComparisonRow, LibraryRow, RetentionRow)
        with reading(self._engine) as connection:
            named = union(*(select(table.tenant_id) for table in tables)).order_by("tenant_id")
            return [str(tenant_id) for tenant_id in connection.execute(named).scalars()]

    def has_keys(self) -> bool:
        """Whether there is a key, in use or not."""
        with reading(self._engine) as connection:
            return bool(connection.execute(select(exists().select_from(KeyRow))).scalar())

    def remove_old(self) -> int:
        """Remove what is older than its tenant keeps it; gives the number of plans that went."""
        return sum(self.removal())

    def removal(self) -> Iterator[int]:
        """The same step by step: each is one short transaction, and gives the plans it removed."""
        for tenant_id, days in self.kept().items():
            yield from self._removal(tenant_id, days)

    def erase(self, *, tenant_id: str, reference: str) -> Erased:
        """Remove every plan and comparison of a reference, running ones too.

        Entries of the library with this reference go too, and rosters that only its plans used.
        The releases stay, which say nothing of anybody but who released.
        """
        compared = delete(ComparisonRow).where(
            ComparisonRow.tenant_id == tenant_id, ComparisonRow.reference == reference
        )
        plans = PlanRow.reference == reference
        with writing(self._engine) as connection:
            note_deletion(connection)
            comparisons = connection.execute(compared).rowcount
            entries = remove_of_reference(connection, tenant_id=tenant_id, reference=reference)
            erased = 0
            # A re-plan of one of them may have been stored while this waited for it.
            while gone := _remove(connection, tenant_id, plans):
                erased += _plans_of(gone)
            remove_tests_without_plan(connection, tenant_id=tenant_id)
            return Erased(erased, comparisons, entries)

    def _removal(self, tenant_id: str, days: int) -> Iterator[int]:
        before = ONCE_NOW_MS - days * _MS_PER_DAY
        while True:
            with writing(self._engine) as connection:
                compared = _remove_comparisons(connection, tenant_id, before)
            yield 0
            if compared < _AT_ONCE:
                break
        while True:
            with writing(self._engine) as connection:
                gone = _remove_plans(connection, tenant_id, before)
            yield _plans_of(gone)
            if len(gone) < _AT_ONCE:
                break
        with writing(self._engine) as connection:
            if remove_unused_rosters(connection, tenant_id=tenant_id, before=before):
                note_deletion(connection)
        yield 0


def _remove_plans(
    connection: Connection, tenant_id: str, before: ColumnElement[int]
) -> Sequence[str]:
    gone = _remove(connection, tenant_id, PlanRow.finished_at_ms < before)
    remove_tests_without_plan(connection, tenant_id=tenant_id)
    if gone:
        note_deletion(connection)
    return gone


def _remove(connection: Connection, tenant_id: str, which: ColumnElement[bool]) -> Sequence[str]:
    """Remove up to a hundred plans and their tests; the lines that they were in stay whole."""
    plan_ids = tie_past(connection, tenant_id, which, most=_AT_ONCE)
    connection.execute(delete(PlanRow).where(PlanRow.plan_id.in_(plan_ids)))
    return plan_ids


def _plans_of(names: Sequence[str]) -> int:
    """How many of them are plans; stress tests stand in the same table."""
    return sum(map(is_plan_id, names))


def _remove_comparisons(connection: Connection, tenant_id: str, before: ColumnElement[int]) -> int:
    old = (
        select(ComparisonRow.comparison_id)
        .where(ComparisonRow.tenant_id == tenant_id, ComparisonRow.created_at_ms < before)
        .limit(_AT_ONCE)
    )
    compared = delete(ComparisonRow).where(ComparisonRow.comparison_id.in_(old.scalar_subquery()))
    return connection.execute(compared).rowcount
