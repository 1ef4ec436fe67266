"""Keys of callers: made once, stored hashed, each of one tenant with its scopes.

A key is `hw_`, the id of its row, and a secret of 160 bits. So much chance needs no slow hash.
"""

import hashlib
import hmac
import re
import secrets
from dataclasses import dataclass
from typing import Literal, get_args

from sqlalchemy import Engine, func, insert, select, update

from service.storage.clock import NOW_MS
from service.storage.database import reading, writing
from service.storage.tables import KeyRow

Scope = Literal["read", "plan", "administer"]
SCOPES: tuple[Scope, ...] = get_args(Scope)
TENANT_PATTERN = r"[a-z0-9][a-z0-9-]{0,62}"

_KEY = re.compile(r"hw_([0-9a-f]{12})_([0-9a-f]{40})", re.ASCII)
_ID_BYTES = 6
_SECRET_BYTES = 20


@dataclass(frozen=True, slots=True)
class Caller:
    """Who calls, by a key: for which tenant, and what for."""

    key_id: str
    tenant_id: str
    scopes: frozenset[str]


@dataclass(frozen=True, slots=True)
class KeyInfo:
    """What may be shown of a key; its secret is nowhere. Times in ms since 1970-01-01 UTC."""

    key_id: str
    tenant_id: str
    scopes: str
    created_at_ms: int
    revoked_at_ms: int | None


class KeyStore:
    """The keys of all tenants; a change holds from the next request on."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def make(self, *, tenant_id: str, scopes: tuple[Scope, ...]) -> str:
        """A new key, which is shown this once; raises ValueError on a tenant without a name."""
        if not re.fullmatch(TENANT_PATTERN, tenant_id, re.ASCII) or not scopes:
            raise ValueError(
                "a tenant is named in at most 63 small letters, digits and hyphens, and a hyphen "
                "is not the first"
            )
        key_id, secret = secrets.token_hex(_ID_BYTES), secrets.token_hex(_SECRET_BYTES)
        row = insert(KeyRow).values(
            key_id=key_id,
            tenant_id=tenant_id,
            secret_hash=_hash(secret),
            scopes=",".join(scope for scope in SCOPES if scope in scopes),
            created_at_ms=NOW_MS,
        )
        with writing(self._engine) as connection:
            connection.execute(row)
        return f"hw_{key_id}_{secret}"

    def revoke(self, key_id: str) -> bool:
        """Take a key out of use; False where none of that id is in use."""
        change = (
            update(KeyRow)
            .where(KeyRow.key_id == key_id, KeyRow.revoked_at_ms.is_(None))
            .values(revoked_at_ms=NOW_MS)
        )
        with writing(self._engine) as connection:
            return connection.execute(change).rowcount == 1

    def caller_of(self, key: str) -> Caller | None:
        """Who has this key, None where it is not one that is in use."""
        parts = _KEY.fullmatch(key)
        if parts is None:
            return None
        query = select(KeyRow).where(KeyRow.key_id == parts[1], KeyRow.revoked_at_ms.is_(None))
        with reading(self._engine) as connection:
            row = connection.execute(query).one_or_none()
        if row is None or not hmac.compare_digest(row.secret_hash, _hash(parts[2])):
            return None
        return Caller(row.key_id, row.tenant_id, frozenset(row.scopes.split(",")))

    def count(self) -> int:
        """How many keys are in use."""
        query = select(func.count()).select_from(KeyRow).where(KeyRow.revoked_at_ms.is_(None))
        with reading(self._engine) as connection:
            return connection.execute(query).scalar_one()

    def list(self) -> list[KeyInfo]:
        """All keys, the oldest first, those out of use included."""
        query = select(
            KeyRow.key_id,
            KeyRow.tenant_id,
            KeyRow.scopes,
            KeyRow.created_at_ms,
            KeyRow.revoked_at_ms,
        ).order_by(KeyRow.created_at_ms, KeyRow.key_id)
        with reading(self._engine) as connection:
            return [KeyInfo(**row) for row in connection.execute(query).mappings()]


def _hash(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()
