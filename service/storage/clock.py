"""The database's own clock, in the words of each database."""

from typing import Any

from sqlalchemy import BigInteger, select
from sqlalchemy.ext.compiler import compiles
from sqlalchemy.sql.expression import ColumnElement
from sqlalchemy.sql.visitors import InternalTraversal

_PER_SECOND = 1000


class _NowMs(ColumnElement[int]):
    """Milliseconds since 1970-01-01 UTC by the database's clock."""

    type = BigInteger()
    inherit_cache = True
    _traverse_internals = [("key", InternalTraversal.dp_string)]  # noqa: RUF012
    key = "now_ms"


@compiles(_NowMs, "sqlite")
def _sqlite(_element: _NowMs, _compiler: Any, **_: Any) -> str:  # noqa: ANN401
    # 2440587.5 is the Julian day of 1970-01-01.
    return "CAST(ROUND((julianday('now') - 2440587.5) * 86400000) AS INTEGER)"


@compiles(_NowMs, "postgresql")
def _postgresql(_element: _NowMs, _compiler: Any, **_: Any) -> str:  # noqa: ANN401
    # Not now(), which stands still within a transaction.
    return f"CAST(EXTRACT(EPOCH FROM clock_timestamp()) * {_PER_SECOND} AS BIGINT)"


NOW_MS = _NowMs()
"""The database's clock [ms since 1970-01-01 UTC]."""

ONCE_NOW_MS = select(NOW_MS).scalar_subquery()
"""The same, read once for a statement: PostgreSQL finds rows by it with an index."""


class _UpSinceMs(ColumnElement[int]):
    """When the database began to take writers, after its start, a crash or a change of servers."""

    type = BigInteger()
    inherit_cache = True
    _traverse_internals = [("key", InternalTraversal.dp_string)]  # noqa: RUF012
    key = "up_since_ms"


@compiles(_UpSinceMs, "sqlite")
def _sqlite_up(_element: _UpSinceMs, _compiler: Any, **_: Any) -> str:  # noqa: ANN401
    # A file is never away by itself; processes that use it notice when it is.
    return "0"


@compiles(_UpSinceMs, "postgresql")
def _postgresql_up(_element: _UpSinceMs, _compiler: Any, **_: Any) -> str:  # noqa: ANN401
    # The walwriter is started when writers are let in. Without rights to see its start, that of
    # the server stands for it.
    seen = "(SELECT min(backend_start) FROM pg_stat_activity WHERE backend_type = 'walwriter')"
    since = f"coalesce({seen}, pg_postmaster_start_time())"
    return f"CAST(EXTRACT(EPOCH FROM {since}) * {_PER_SECOND} AS BIGINT)"


UP_SINCE_MS = _UpSinceMs()
"""When the database last began to take writers, by its own clock [ms since 1970-01-01 UTC]."""
