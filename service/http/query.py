"""Parameters that no address takes are refused: unknown ones, and values with U+0000.

A misspelt filter would find all. PostgreSQL stores no text with the character U+0000.
"""

from collections.abc import Iterator

from fastapi import Request
from fastapi.dependencies.models import Dependant
from fastapi.routing import APIRoute

from service.errors import Fault, RequestFaults


async def known_query_only(request: Request) -> None:
    """Refuse what the route does not name, and any value with U+0000, all of them at once."""
    route = request.scope.get("route")
    if not isinstance(route, APIRoute):
        return
    unknown = tuple(_unknown(request, route))
    named_once = {fault.parameter for fault in unknown}
    null = (fault for fault in _with_null(request) if fault.parameter not in named_once)
    faults = (*unknown, *null)
    if faults:
        raise RequestFaults(faults)


def _unknown(request: Request, route: APIRoute) -> Iterator[Fault]:
    known = sorted(_names(route.dependant))
    here = f"Parameters here are {', '.join(known)}." if known else "There are none here."
    for name in dict.fromkeys(request.query_params):
        if name not in known:
            words = f"There is no such parameter. {here}"
            yield Fault("", "unknown_parameter", words, parameter=name)


def _with_null(request: Request) -> Iterator[Fault]:
    given = request.query_params.multi_items()
    for name in dict.fromkeys(name for name, value in given if "\x00" in value):
        words = "It holds the character U+0000, which is not taken. In an address that is %00."
        yield Fault("", "null_character", words, parameter=name)


def _names(dependant: Dependant) -> set[str]:
    own = {field.alias for field in dependant.query_params}
    return own.union(*(_names(inner) for inner in dependant.dependencies))
