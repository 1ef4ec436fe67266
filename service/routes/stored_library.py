"""The library of a tenant: routes, gear lists, menus and rosters that requests refer to."""

from __future__ import annotations

import json
from typing import Annotated, Any

from fastapi import APIRouter, Header, Path, Query, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.examples import STORED_GEAR_LIST, STORED_MENU, STORED_ROSTER, STORED_ROUTE
from api_schema.library_entry import (
    EntryAnswer,
    EntryKind,
    EntrySummaryAnswer,
    LibraryAnswer,
    PlanEntriesAnswer,
    PlanEntryAnswer,
)
from api_schema.strict import ID_PATTERN
from service.errors import ServiceProblem
from service.http.answers import EVERY_BODY, JSON_ONLY, json_answer, problems, takes_json
from service.http.representations import is_known, matches, tags_of
from service.http.request_body import read_json_body
from service.jobs.desk_job import ENTRY, read_entry_told
from service.routes.plan_documents import find_plan, moment
from service.routes.plans import PlanId
from service.storage.library import Admits, EntryName, StoredEntry
from service.translate.read.library_entries import ENTRY_MODELS
from service.wiring import Wired, Wiring

router = APIRouter(tags=["library"], dependencies=[JSON_ONLY])

_PAGE = 100
_ENTRY = Annotated[
    str,
    Path(
        description="The id that you chose for the entry.",
        pattern=ID_PATTERN,
        examples=["north-ridge"],
    ),
]
_VERSION = Annotated[
    int | None,
    Query(
        ge=1,
        le=1_000_000,
        description="The version. If not given, the newest is read, or all are deleted.",
    ),
]
_IF_MATCH = Annotated[
    str | None,
    Header(
        alias="If-Match",
        description="The entity tag of the entry as you read it. If it has changed since, nothing "
        "is done.",
    ),
]
_IF_NONE_MATCH = Annotated[
    str | None,
    Header(
        alias="If-None-Match",
        description="`*`: only if there is no such entry. An entity tag: only if the entry has "
        "another one.",
    ),
]


@router.get(
    "/v1/library",
    operation_id="list_library",
    summary="List the library",
    description="The newest version of each stored route, gear list, menu and roster.",
    response_model=LibraryAnswer,
    responses=problems("invalid_request"),
)
def list_library(
    wiring: Wired,
    *,
    kind: Annotated[EntryKind | None, Query(description="Only entries of this kind.")] = None,
    limit: Annotated[int, Query(ge=1, le=_PAGE, description="Entries on one page.")] = 20,
    cursor: Annotated[
        str | None,
        Query(
            pattern=r"^(?:routes|gear-lists|menus|rosters)/[A-Za-z0-9][A-Za-z0-9._-]{0,63}$",
            description="`next_cursor` of the page before.",
        ),
    ] = None,
) -> Response:
    """One page of the library."""
    found = wiring.library.list(
        tenant_id=wiring.tenant_id, kind=kind, after=cursor, limit=limit + 1
    )
    last = found[limit - 1] if len(found) > limit else None
    return json_answer(
        LibraryAnswer(
            entries=[EntrySummaryAnswer(**_summary(entry)) for entry in found[:limit]],
            next_cursor=None if last is None else f"{last.kind}/{last.entry_id}",
        )
    )


@router.get(
    "/v1/plans/{plan_id}/library",
    operation_id="read_plan_library",
    summary="Read what a plan took from the library",
    description="The versions that were put into its request. The request has their contents.",
    response_model=PlanEntriesAnswer,
    responses=problems("not_found"),
)
def read_plan_library(wiring: Wired, plan_id: PlanId) -> Response:
    """The versions that one plan used."""
    find_plan(wiring, plan_id)
    used = wiring.library.used_by(tenant_id=wiring.tenant_id, plan_id=plan_id)
    entries = [PlanEntryAnswer(kind=k, entry_id=name, version=v) for k, name, v in used]
    return json_answer(PlanEntriesAnswer(plan_id=plan_id, entries=entries))


def _serve(kind: EntryKind, word: str, example: dict[str, Any]) -> None:
    """Add the routes of one kind of entry."""
    model = ENTRY_MODELS[kind]
    address, name = f"/v1/library/{kind}/{{entry_id}}", word.replace(" ", "_")

    @router.put(
        address,
        operation_id=f"store_{name}",
        summary=f"Store a {word}",
        description=(
            f"Stores a {word} under an id of your choice. A request takes it with `library`, by id "
            "and version. If no plan has used the newest version, it is replaced, and the answer "
            "is 200. Otherwise it is frozen. What you store is then a new version, and the answer "
            "is 201. Send all of it: it keeps no `title` and no `reference` that you leave out."
        ),
        response_model=EntryAnswer,
        responses={
            201: {"model": EntryAnswer, "description": "A new entry, or a new version of it."},
            **problems(*EVERY_BODY, "changed_since"),
        },
        openapi_extra=takes_json(model.__name__, {"one": example}),
    )
    async def store(
        request: Request,
        wiring: Wired,
        entry_id: _ENTRY,
        _if_match: _IF_MATCH = None,
        _if_none_match: _IF_NONE_MATCH = None,
    ) -> Response:
        settings = wiring.settings
        body = await read_json_body(
            request, limit_bytes=settings.body_limit_bytes, limit_seconds=settings.body_seconds
        )
        # A desk reads it, and sees to the pointers of its faults.
        request.state.body = None
        admits = _admits(request)
        return await run_in_threadpool(_store, wiring, kind, entry_id, body, admits)

    @router.get(
        address,
        operation_id=f"read_stored_{name}",
        summary=f"Read a stored {word}",
        description=f"A version of a stored {word}, or its newest one.",
        response_model=EntryAnswer,
        responses=problems("not_found", "invalid_request"),
    )
    def read(wiring: Wired, entry_id: _ENTRY, version: _VERSION = None) -> Response:
        stored = wiring.library.read(EntryName(wiring.tenant_id, kind, entry_id), version)
        if stored is None:
            raise _not_there()
        return json_answer(_answer(stored))

    @router.delete(
        address,
        operation_id=f"delete_stored_{name}",
        summary=f"Delete a stored {word}",
        description=(
            "Removes the contents of one version, or of all versions, for good. Plans that used it "
            "stay as they are. The numbers of the versions are never used again."
        ),
        status_code=204,
        response_class=Response,
        responses={
            204: {"description": "It is gone."},
            **problems("not_found", "invalid_request", "changed_since"),
        },
    )
    def delete(
        request: Request,
        wiring: Wired,
        entry_id: _ENTRY,
        version: _VERSION = None,
        _if_match: _IF_MATCH = None,
    ) -> Response:
        name = EntryName(wiring.tenant_id, kind, entry_id)
        if not wiring.library.delete(name, version, _admits(request)):
            raise _not_there()
        return Response(status_code=204)


def _store(wiring: Wiring, kind: EntryKind, entry_id: str, body: bytes, admits: Admits) -> Response:
    entry = read_entry_told(wiring.desks.ask(ENTRY + kind.encode() + b"\n" + body))
    stored, is_new = wiring.library.put(
        EntryName(wiring.tenant_id, kind, entry_id),
        title=entry.title,
        reference=entry.reference,
        document=entry.content,
        admits=admits,
    )
    answer = _answer(stored)
    tag, _packed = tags_of(_body(stored))
    return json_answer(answer, status=201 if is_new else 200, headers={"ETag": tag})


def _admits(request: Request) -> Admits:
    """Whether the newest version is what a caller expects of it (RFC 9110, section 13.1)."""
    if_match = request.headers.getlist("if-match")
    if_none_match = request.headers.getlist("if-none-match")

    def admits(now: StoredEntry | None) -> bool:
        if now is None:
            return not if_match
        body = _body(now)
        return matches(if_match, body) and not is_known(if_none_match, body)

    return admits


def _body(entry: StoredEntry) -> bytes:
    return _answer(entry).model_dump_json().encode()


def _answer(entry: StoredEntry) -> EntryAnswer:
    return EntryAnswer(
        **_summary(entry), versions=list(entry.versions), content=json.loads(entry.document)
    )


def _summary(entry: StoredEntry) -> dict[str, Any]:
    return {
        "kind": entry.kind,
        "entry_id": entry.entry_id,
        "version": entry.version,
        "title": entry.title,
        "reference": entry.reference,
        "frozen": entry.frozen,
        "stored_at": moment(entry.stored_at_ms),
    }


def _not_there() -> ServiceProblem:
    return ServiceProblem("not_found", "There is no such entry in the library.")


_serve("routes", "route", STORED_ROUTE)
_serve("gear-lists", "gear list", STORED_GEAR_LIST)
_serve("menus", "menu", STORED_MENU)
_serve("rosters", "roster", STORED_ROSTER)
