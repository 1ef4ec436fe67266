"""Who a request comes from, as far as that is known before its key is looked up.

A key that was found before stands for its tenant. Whoever shows any other key, or none, is known by
their address, so that made-up keys are one caller.
"""

from collections import OrderedDict
from hashlib import blake2b

from starlette.datastructures import Headers
from starlette.types import Scope

_KEYS = 1_000
"""How many keys are remembered, as digests [1]."""
_TENANT = "tenant "


class Callers:
    """Names callers: by tenant, or by address."""

    def __init__(self) -> None:
        self._tenants: OrderedDict[bytes, str] = OrderedDict()

    def name(self, scope: Scope) -> str:
        """The name of whoever sends a request."""
        shown = _shown_key(scope)
        tenant = self._tenants.get(shown) if shown else None
        if tenant is not None:
            return f"{_TENANT}{tenant}"
        return _address(scope)

    def is_tenant(self, name: str) -> bool:
        """Whether that is the name of a tenant, and not that of an address."""
        return name.startswith(_TENANT)

    def tenant(self, name: str) -> str | None:
        """The tenant of that name, None where it is the name of an address."""
        return name.removeprefix(_TENANT) if self.is_tenant(name) else None

    def learn(self, scope: Scope) -> None:
        """Take note of whose key an answered request had; one that was not found is forgotten."""
        shown = _shown_key(scope)
        if not shown:
            return
        self._tenants.pop(shown, None)
        tenant = scope.get("state", {}).get("tenant_id")
        if tenant is not None:
            self._tenants[shown] = tenant
            if len(self._tenants) > _KEYS:
                self._tenants.popitem(last=False)


def answered_caller(scope: Scope) -> str:
    """The name of a caller whose key, if one is needed, was looked up."""
    tenant = scope.get("state", {}).get("tenant_id")
    return _address(scope) if tenant is None else f"{_TENANT}{tenant}"


def _address(scope: Scope) -> str:
    address = scope.get("client")
    return f"address {address[0]}" if address else "nobody"


def _shown_key(scope: Scope) -> bytes | None:
    """A digest of the header Authorization."""
    header = Headers(scope=scope).get("authorization")
    return None if header is None else blake2b(header.encode(), digest_size=16).digest()
