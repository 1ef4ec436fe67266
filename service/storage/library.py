"""The library: routes, gear lists, menus and rosters that callers store, in versions.

A version that no plan used is changed in place. One that a plan used is frozen, and what is stored
next is a new version. The number of a version is never given again: what was deleted leaves its id
and number, without anything that it said.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from sqlalchemy import ColumnElement, Connection, Engine, func, insert, select, update

from api_schema.library_entry import EntryKind
from service.errors import ServiceProblem
from service.storage.clock import NOW_MS
from service.storage.database import one_at_a_time, reading, writing
from service.storage.library_uses import EMPTY, uses_of
from service.storage.sqlite_log import note_deletion
from service.storage.tables import LibraryRow


@dataclass(frozen=True, slots=True)
class EntryName:
    """Whose entry it is, of which kind, and its id."""

    tenant_id: str
    kind: EntryKind
    entry_id: str

    def rows(self) -> ColumnElement[bool]:
        """Every version of the entry."""
        return (
            (LibraryRow.tenant_id == self.tenant_id)
            & (LibraryRow.kind == self.kind)
            & (LibraryRow.entry_id == self.entry_id)
        )


@dataclass(frozen=True, slots=True)
class StoredEntry:
    """One version of an entry. The document is JSON in UTF-8; the time [ms since 1970-01-01 UTC].

    `versions` are all that can be read; empty in a list.
    """

    kind: EntryKind
    entry_id: str
    version: int
    title: str | None
    reference: str | None
    document: bytes
    digest: str
    frozen: bool
    stored_at_ms: int
    versions: tuple[int, ...] = ()


Admits = Callable[[StoredEntry | None], bool]
"""Whether a caller knows the newest version that is there, None for none."""

_COLUMNS = (
    LibraryRow.kind,
    LibraryRow.entry_id,
    LibraryRow.version,
    LibraryRow.title,
    LibraryRow.reference,
    LibraryRow.document,
    LibraryRow.digest,
    LibraryRow.frozen,
    LibraryRow.stored_at_ms,
)
_READABLE = LibraryRow.document.is_not(None)


class LibraryStore:
    """The libraries of all tenants; every question names the tenant who asks."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def put(
        self,
        name: EntryName,
        *,
        title: str | None,
        reference: str | None,
        document: bytes,
        admits: Admits = lambda _: True,
    ) -> tuple[StoredEntry, bool]:
        """Store what an entry says from now on; gives it, and whether it is a version more.

        Raises the problem changed_since where the caller knows another state of it.
        """
        digest = hashlib.sha256(document).hexdigest()
        said = {"title": title, "reference": reference, "document": document, "digest": digest}
        with writing(self._engine) as connection:
            # A new entry has no row yet that could be held.
            one_at_a_time(connection, "library", name.tenant_id, name.kind, name.entry_id)
            now = _hold(connection, name, None)
            _require(admits, now)
            if now is not None and _says(now, said):
                return now, False
            if now is None or now.frozen:
                row = {"version": _next_number(connection, name), "frozen": False} | said
                _insert(connection, name, row)
            elif not _change(connection, name, now.version, said):
                raise ServiceProblem("storage_unavailable", headers={"Retry-After": "1"})
            stored = _read(connection, name, None)
        if stored is None:
            raise ServiceProblem("storage_unavailable", headers={"Retry-After": "1"})
        return stored, now is None or stored.version != now.version

    def read(self, name: EntryName, version: int | None = None) -> StoredEntry | None:
        """A version of an entry, the newest for None; None where this tenant has none."""
        with reading(self._engine) as connection:
            return _read(connection, name, version)

    def delete(self, name: EntryName, version: int | None, admits: Admits = lambda _: True) -> bool:
        """Remove what a version says, or all versions for None, for good; False for none.

        Plans that used it stay as they are.
        """
        gone = update(LibraryRow).where(name.rows(), _READABLE).values(**EMPTY)
        if version is not None:
            gone = gone.where(LibraryRow.version == version)
        with writing(self._engine) as connection:
            now = _hold(connection, name, version)
            if now is None:
                return False
            _require(admits, now)
            note_deletion(connection)
            return connection.execute(gone).rowcount > 0

    def used_by(self, *, tenant_id: str, plan_id: str) -> list[tuple[EntryKind, str, int]]:
        """Kind, id and version of what a plan used."""
        return uses_of(self._engine, tenant_id=tenant_id, plan_id=plan_id)

    def list(
        self, *, tenant_id: str, kind: EntryKind | None, after: str | None, limit: int
    ) -> list[StoredEntry]:
        """The newest version of each entry, by kind and id, those behind `after` as kind/id."""
        newest = (
            select(LibraryRow.kind, LibraryRow.entry_id, func.max(LibraryRow.version).label("v"))
            .where(LibraryRow.tenant_id == tenant_id, _READABLE)
            .group_by(LibraryRow.kind, LibraryRow.entry_id)
            .subquery()
        )
        query = (
            select(*_COLUMNS)
            .join(
                newest,
                (LibraryRow.kind == newest.c.kind)
                & (LibraryRow.entry_id == newest.c.entry_id)
                & (LibraryRow.version == newest.c.v),
            )
            .where(LibraryRow.tenant_id == tenant_id)
            .order_by(LibraryRow.kind, LibraryRow.entry_id)
            .limit(limit)
        )
        if kind is not None:
            query = query.where(LibraryRow.kind == kind)
        if after is not None:
            last_kind, _, last_id = after.partition("/")
            query = query.where(
                (LibraryRow.kind > last_kind)
                | ((LibraryRow.kind == last_kind) & (LibraryRow.entry_id > last_id))
            )
        with reading(self._engine) as connection:
            return [StoredEntry(**row) for row in connection.execute(query).mappings()]


def _require(admits: Admits, now: StoredEntry | None) -> None:
    if not admits(now):
        raise ServiceProblem("changed_since")


def _says(now: StoredEntry, said: Mapping[str, object]) -> bool:
    return (now.title, now.reference, now.digest) == (
        said["title"],
        said["reference"],
        said["digest"],
    )


def _hold(connection: Connection, name: EntryName, version: int | None) -> StoredEntry | None:
    """The same as `_read`, and nobody else changes any version of it until the transaction ends.

    What waited for somebody else is read anew: the wait itself shows no row that they added.
    """
    rows = select(LibraryRow.version).where(name.rows()).order_by(LibraryRow.version)
    connection.execute(rows.with_for_update()).all()
    return _read(connection, name, version)


def _read(connection: Connection, name: EntryName, version: int | None) -> StoredEntry | None:
    numbers = select(LibraryRow.version).where(name.rows(), _READABLE).order_by(LibraryRow.version)
    versions = tuple(connection.execute(numbers).scalars())
    wanted = version if version is not None else max(versions, default=None)
    if wanted not in versions:
        return None
    query = select(*_COLUMNS).where(name.rows(), LibraryRow.version == wanted, _READABLE)
    row = connection.execute(query).mappings().one_or_none()
    return None if row is None else StoredEntry(**row, versions=versions)


def _next_number(connection: Connection, name: EntryName) -> int:
    highest = select(func.max(LibraryRow.version)).where(name.rows())
    return (connection.execute(highest).scalar_one() or 0) + 1


def _insert(connection: Connection, name: EntryName, row: Mapping[str, object]) -> None:
    connection.execute(
        insert(LibraryRow).values(
            tenant_id=name.tenant_id,
            kind=name.kind,
            entry_id=name.entry_id,
            stored_at_ms=NOW_MS,
            **row,
        )
    )


def _change(
    connection: Connection, name: EntryName, version: int, said: Mapping[str, object]
) -> bool:
    """Change a version in place; False where a plan froze it at the same moment."""
    changed = (
        update(LibraryRow)
        .where(name.rows(), LibraryRow.version == version, LibraryRow.frozen.is_(False))
        .values(stored_at_ms=NOW_MS, **said)
    )
    return connection.execute(changed).rowcount == 1
