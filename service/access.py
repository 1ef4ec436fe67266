"""Who may do what: a key in the header Authorization names the tenant and what it is for."""

import logging

from fastapi import Request
from starlette.concurrency import run_in_threadpool

from service.errors import ServiceProblem
from service.wiring import Wired

logger = logging.getLogger(__name__)

_READS = frozenset({"GET", "HEAD"})
_ASK = {"WWW-Authenticate": 'Bearer realm="haulwright"'}
_STORES_NOTHING = frozenset(
    {
        "/v1/plan-checks",
        "/v1/requirements",
        "/v1/calendars",
        "/v1/files/gear-list",
        "/v1/files/roster",
        "/v1/files/route",
    }
)

_END = "/replans/calendars"
"""How addresses of a plan end whose answers are worked out and not stored."""


def scope_for(method: str, path: str) -> str:
    """The scope that a request needs: `read` for what stores and changes nothing, else `plan`.

    Figures of all tenants are for those who administer.
    """
    if path == "/metrics":
        return "administer"
    stores_nothing = path in _STORES_NOTHING or path.endswith(_END)
    return "read" if method in _READS or stores_nothing else "plan"


async def require_key(request: Request, wiring: Wired) -> None:
    """Let in who has a key with the scope that is needed, where the service asks for keys."""
    if not wiring.settings.needs_keys():
        return
    kind, _, key = request.headers.get("authorization", "").partition(" ")
    caller = None
    if kind.lower() == "bearer":
        caller = await run_in_threadpool(wiring.keys.caller_of, key.strip())
    if caller is None:
        raise ServiceProblem("key_needed", headers=_ASK)
    scope = scope_for(request.method, request.url.path)
    is_allowed = scope in caller.scopes
    if request.method not in _READS or not is_allowed:
        logger.info(
            "audit: %skey %s of tenant %s: %s %s",
            "" if is_allowed else f"refused, no scope {scope}: ",
            caller.key_id,
            caller.tenant_id,
            request.method,
            request.url.path.encode("ascii", "backslashreplace").decode(),
        )
    if not is_allowed:
        raise ServiceProblem("scope_needed", f"This needs a key with the scope {scope}.")
    request.state.tenant_id = caller.tenant_id
    request.state.key_id = caller.key_id
    request.state.may_plan = "plan" in caller.scopes
