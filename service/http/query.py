"""Parameters that no address takes are refused: unknown ones, those given twice, and U+0000.

A misspelt filter would find all, and of two values one would be passed over in silence.
PostgreSQL stores no text with the character U+0000.
"""

from collections.abc import Iterator
from typing import get_args, get_origin

from fastapi import Request
from fastapi.dependencies.models import Dependant
from fastapi.routing import APIRoute

from service.errors import Fault, RequestFaults

_LISTS = frozenset({"accept", "if-match", "if-none-match", "prefer"})
"""Headers that are lists, which may come in several lines (RFC 9110, section 5.3)."""


async def known_query_only(request: Request) -> None:
    """Refuse every parameter that the route does not take as it is given, all of them at once."""
    route = request.scope.get("route")
    if not isinstance(route, APIRoute):
        return
    faults = (*_in_query(request, route.dependant), *_in_headers(request, route.dependant))
    if faults:
        raise RequestFaults(faults)


def _in_query(request: Request, dependant: Dependant) -> Iterator[Fault]:
    known = dict(_takes_several(dependant))
    names = sorted(known)
    words = f"Parameters here are {', '.join(names)}." if known else "There are none here."
    given = {name: request.query_params.getlist(name) for name in request.query_params}
    for name in given:
        if name not in known:
            text = f"There is no such parameter. {words}"
            yield Fault("", "unknown_parameter", text, parameter=name)
    for name, values in given.items():
        if name in known and any("\x00" in value for value in values):
            text = "It holds the character U+0000, which is not taken. In an address that is %00."
            yield Fault("", "null_character", text, parameter=name)
        elif name in known and not known[name] and len(values) > 1:
            yield _repeated(name)


def _in_headers(request: Request, dependant: Dependant) -> Iterator[Fault]:
    for name in sorted(_headers(dependant)):
        if name.lower() not in _LISTS and len(request.headers.getlist(name)) > 1:
            yield _repeated(name)


def _repeated(name: str) -> Fault:
    words = "This is given more than once. Give it once."
    return Fault("", "repeated_parameter", words, parameter=name)


def _takes_several(dependant: Dependant) -> Iterator[tuple[str, bool]]:
    """Each query parameter, and whether it is a list."""
    for field in dependant.query_params:
        written = field.field_info.annotation
        yield field.alias, list in {get_origin(one) for one in (written, *get_args(written))}
    for inner in dependant.dependencies:
        yield from _takes_several(inner)


def _headers(dependant: Dependant) -> set[str]:
    own = {field.alias for field in dependant.header_params}
    return own.union(*(_headers(inner) for inner in dependant.dependencies))
