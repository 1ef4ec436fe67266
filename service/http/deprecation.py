"""Headers of an address that is to go: since when that is said, and when it ends."""

import datetime as dt
from email.utils import format_datetime
from typing import Any

from starlette.types import Scope

_LEAST_DAYS = 182
_SINCE, _SUNSET = "x-deprecated-since", "x-sunset"


def deprecated(*, since: dt.date, until: dt.date) -> dict[str, Any]:
    """The `openapi_extra` of a route that goes on a day, six months after it was said at least."""
    if (until - since).days < _LEAST_DAYS:
        raise ValueError("an address that is to go stays for six months at least")
    return {"deprecated": True, _SINCE: since.isoformat(), _SUNSET: until.isoformat()}


def deprecation_headers(scope: Scope) -> dict[str, str]:
    """`Deprecation` (RFC 9745) and `Sunset` (RFC 8594) of the route that a request found."""
    told = getattr(scope.get("route"), "openapi_extra", None) or {}
    if _SUNSET not in told:
        return {}
    since, until = (
        dt.datetime.combine(dt.date.fromisoformat(told[name]), dt.time(), dt.UTC)
        for name in (_SINCE, _SUNSET)
    )
    return {
        "Deprecation": f"@{round(since.timestamp())}",
        "Sunset": format_datetime(until, usegmt=True),
    }
