"""Requests that take parts from the library: put together before anything is read of them."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import astuple, dataclass, replace
from functools import partial
from typing import Any

from api_schema.library_entry import EntryKind
from service.errors import Fault, RequestFaults, ServiceProblem
from service.http.strict_json import read_json_object
from service.jobs.desk_job import ORDER
from service.storage.library import EntryName
from service.storage.library_uses import EntryUse
from service.translate.read.edits.library_parts import (
    MEMBER,
    FoundEntry,
    Inlined,
    TakenEntry,
    put_library_in,
)
from service.translate.read.edits.nodes import Node, grown, member, origin_of, plain
from service.wiring import Wiring

ReadRest = Callable[[Any], None]
"""Reads a document of which something is missing, and raises RequestFaults with what it finds."""

_NOTHING = Inlined()
_NAMED = (MEMBER.encode(), b"\\u")
"""What a body holds that may name something of the library, its name written plainly or not."""


@dataclass(frozen=True, slots=True)
class WholeBody:
    """A body whose request says all by itself, and what it took from the library."""

    body: bytes
    uses: tuple[EntryUse, ...] = ()
    root: Node | None = None
    inlined: Inlined = _NOTHING

    @contextmanager
    def faults_as_sent(self) -> Iterator[None]:
        """Have faults of what is read point to what the caller sent."""
        try:
            yield
        except RequestFaults as error:
            if self.root is None:
                raise
            raise RequestFaults(
                as_sent(self.root, self.inlined, error.faults), left_out=error.left_out
            ) from None


def find_in(wiring: Wiring, kind: EntryKind, entry_id: str, version: int) -> FoundEntry | None:
    """A stored thing of the caller's tenant."""
    stored = wiring.library.read(EntryName(wiring.tenant_id, kind, entry_id), version)
    return None if stored is None else FoundEntry(json.loads(stored.document), stored.digest)


def uses_of(taken: tuple[TakenEntry, ...]) -> tuple[EntryUse, ...]:
    """What was taken, as it is stored with a plan."""
    return tuple(EntryUse(*astuple(one)) for one in taken)


def as_sent(root: Node, inlined: Inlined, faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """Faults of a document that was put together, each where the caller wrote it."""
    return inlined.as_sent(replace(f, pointer=origin_of(root, f.pointer)) for f in faults)


def whole_body(
    wiring: Wiring, body: bytes, *, within: str | None = None, read_rest: ReadRest | None = None
) -> WholeBody:
    """A body with what it takes from the library put in: the request itself, or one `within` it.

    Raises RequestFaults where something that it names is not there or is given twice, with the
    faults of the rest of the body. `read_rest` finds those, where it is not a request alone.
    """
    if not any(name in body for name in _NAMED):
        return WholeBody(body)
    root = grown(read_json_object(body))
    request = root if within is None else member(root, within)
    if request is None or member(request, MEMBER) is None:
        return WholeBody(body)
    inlined = put_library_in(request, lambda *name: find_in(wiring, *name))
    document: Any = plain(root)
    if inlined.faults:
        read = read_rest or partial(read_order_of, wiring)
        raise _with_those_of_the_rest(root, inlined, within, lambda: read(document))
    return WholeBody(json.dumps(document).encode(), uses_of(inlined.taken), root, inlined)


def read_order_of(wiring: Wiring, request: object) -> None:
    """Have a desk read a request; RequestFaults with what it finds."""
    wiring.desks.ask(ORDER + json.dumps(request).encode())


def _with_those_of_the_rest(
    root: Node, inlined: Inlined, within: str | None, read: Callable[[], None]
) -> RequestFaults:
    """What could not be put in, and what is found in the body without that."""
    try:
        read()
    except RequestFaults as error:
        rest = inlined.of_the_rest(error.faults, under="" if within is None else f"/{within}")
        more = as_sent(root, inlined, rest)
        return RequestFaults((*inlined.faults, *more), left_out=error.left_out)
    except ServiceProblem as problem:
        # How much work it would be is not known before it is whole.
        if problem.code != "too_much_work":
            raise
    return RequestFaults(inlined.faults)
