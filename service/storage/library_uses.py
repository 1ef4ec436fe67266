"""Which plan used which version of the library, and what of it goes with a plan."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias, cast

from sqlalchemy import (
    ColumnElement,
    Connection,
    Engine,
    Select,
    and_,
    exists,
    insert,
    select,
    update,
)
from sqlalchemy.orm import aliased

from api_schema.library_entry import EntryKind
from service.errors import ServiceProblem
from service.storage.database import reading
from service.storage.tables import LibraryRow, LibraryUseRow, PlanRow

EMPTY = {"document": None, "digest": None, "title": None, "reference": None}
"""What is left of a version that was removed: its id and number, and nothing that it said."""

PERSONAL: EntryKind = "rosters"
"""The kind of entry that says something about people."""


_Version: TypeAlias = tuple[str, str, int]
"""Kind, id and number of a version."""


@dataclass(frozen=True, slots=True)
class EntryUse:
    """A version that a request takes, with the digest of what was taken."""

    kind: EntryKind
    entry_id: str
    version: int
    digest: str


def note_uses(
    connection: Connection, *, tenant_id: str, plan_id: str, uses: tuple[EntryUse, ...]
) -> None:
    """Freeze what a plan uses and store that it does, with the plan itself.

    Raises the problem storage_unavailable where somebody changed it since it was read.
    """
    # In one order, so that two plans never hold what the other one waits for.
    for use in sorted(set(uses), key=lambda use: (use.kind, use.entry_id, use.version)):
        _freeze(connection, tenant_id, use)
        connection.execute(
            insert(LibraryUseRow).values(
                plan_id=plan_id,
                tenant_id=tenant_id,
                kind=use.kind,
                entry_id=use.entry_id,
                version=use.version,
            )
        )


def _freeze(connection: Connection, tenant_id: str, use: EntryUse) -> None:
    """Freeze one version, which is written only where it is not frozen yet."""
    as_read = (
        LibraryRow.tenant_id == tenant_id,
        LibraryRow.kind == use.kind,
        LibraryRow.entry_id == use.entry_id,
        LibraryRow.version == use.version,
        LibraryRow.digest == use.digest,
    )
    freeze = update(LibraryRow).where(*as_read, LibraryRow.frozen.is_(False)).values(frozen=True)
    if connection.execute(freeze).rowcount == 1:
        return
    # Held beside others who use it, and against whoever removes it.
    frozen = select(LibraryRow.version).where(*as_read).with_for_update(read=True)
    if connection.execute(frozen).one_or_none() is None:
        raise ServiceProblem("storage_unavailable", headers={"Retry-After": "1"})


def uses_of(engine: Engine, *, tenant_id: str, plan_id: str) -> list[tuple[EntryKind, str, int]]:
    """Kind, id and version of what a plan used."""
    query = (
        select(LibraryUseRow.kind, LibraryUseRow.entry_id, LibraryUseRow.version)
        .where(LibraryUseRow.tenant_id == tenant_id, LibraryUseRow.plan_id == plan_id)
        .order_by(LibraryUseRow.kind, LibraryUseRow.entry_id, LibraryUseRow.version)
    )
    with reading(engine) as connection:
        rows = connection.execute(query).all()
    return [(cast(EntryKind, kind), entry_id, version) for kind, entry_id, version in rows]


def remove_of_reference(connection: Connection, *, tenant_id: str, reference: str) -> int:
    """Remove entries of a reference, and rosters that only its plans used; gives the versions.

    An entry goes with all its versions, but for those that have another reference.
    To be asked before the plans of the reference are removed.
    """
    version = aliased(LibraryRow)
    its_entry = exists().where(
        version.tenant_id == LibraryRow.tenant_id,
        version.kind == LibraryRow.kind,
        version.entry_id == LibraryRow.entry_id,
        version.reference == reference,
    )
    without_reference = LibraryRow.reference.is_(None) & its_entry
    its_own = LibraryRow.reference == reference
    only_its_plans = and_(
        LibraryRow.kind == PERSONAL,
        _used_by(PlanRow.reference == reference),
        ~_used_by(PlanRow.reference.is_distinct_from(reference)),
    )
    return _remove(connection, tenant_id, without_reference | its_own | only_its_plans)


def remove_unused_rosters(connection: Connection, *, tenant_id: str, before: object) -> int:
    """Remove rosters stored before a time [ms since 1970] that no plan uses any more."""
    return _remove(
        connection,
        tenant_id,
        (LibraryRow.kind == PERSONAL) & (LibraryRow.stored_at_ms < before) & ~_used_by(),
    )


def _remove(connection: Connection, tenant_id: str, which: ColumnElement[bool]) -> int:
    """Remove versions; they are taken in the order of `note_uses`, and chosen when all are held."""
    chosen = select(LibraryRow.kind, LibraryRow.entry_id, LibraryRow.version).where(
        LibraryRow.tenant_id == tenant_id, LibraryRow.document.is_not(None), which
    )
    found = sorted(_versions(connection, chosen))
    if connection.dialect.name == "postgresql":
        # One by one: the order of the database may differ from that of Python.
        for version in found:
            row = select(LibraryRow.version).where(_is(tenant_id, version))
            connection.execute(row.with_for_update())
        fitting = set(_versions(connection, chosen))
        found = [version for version in found if version in fitting]
    for version in found:
        connection.execute(update(LibraryRow).where(_is(tenant_id, version)).values(**EMPTY))
    return len(found)


def _versions(connection: Connection, chosen: Select[str, str, int]) -> list[_Version]:
    return [(kind, entry_id, version) for kind, entry_id, version in connection.execute(chosen)]


def _is(tenant_id: str, named: _Version) -> ColumnElement[bool]:
    kind, entry_id, version = named
    return and_(
        LibraryRow.tenant_id == tenant_id,
        LibraryRow.kind == kind,
        LibraryRow.entry_id == entry_id,
        LibraryRow.version == version,
    )


def _used_by(*plans: ColumnElement[bool]) -> ColumnElement[bool]:
    """That a plan which fits uses the version of a row."""
    return exists().where(
        LibraryUseRow.plan_id == PlanRow.plan_id,
        LibraryUseRow.tenant_id == LibraryRow.tenant_id,
        LibraryUseRow.kind == LibraryRow.kind,
        LibraryUseRow.entry_id == LibraryRow.entry_id,
        LibraryUseRow.version == LibraryRow.version,
        *plans,
    )
