"""The database's own clock, in the words of each database."""

from typing import Any

from sqlalchemy import BigInteger
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
