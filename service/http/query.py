"""Query parameters that a route does not know are refused: a misspelt filter would find all."""

from fastapi import Request
from fastapi.dependencies.models import Dependant
from fastapi.routing import APIRoute

from service.errors import Fault, RequestFaults


async def known_query_only(request: Request) -> None:
    """Refuse every query parameter that the route does not name, all of them at once."""
    route = request.scope.get("route")
    if not isinstance(route, APIRoute):
        return
    known = sorted(_names(route.dependant))
    words = f"Parameters here are {', '.join(known)}." if known else "There are none here."
    faults = tuple(
        Fault("", "unknown_parameter", f"There is no such parameter. {words}", parameter=name)
        for name in dict.fromkeys(request.query_params)
        if name not in known
    )
    if faults:
        raise RequestFaults(faults)


def _names(dependant: Dependant) -> set[str]:
    own = {field.alias for field in dependant.query_params}
    return own.union(*(_names(inner) for inner in dependant.dependencies))
