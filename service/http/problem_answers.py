"""Turns everything that can go wrong while answering into problem details (RFC 9457)."""

import json
from collections.abc import Callable
from dataclasses import asdict
from typing import cast

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect
from starlette.responses import Response
from starlette.routing import Match, Mount, Route
from starlette.types import Scope

from api_schema.problem_details import FaultAnswer, FilePlaceAnswer, ProblemDetails
from service.errors import PROBLEMS, Fault, RequestFaults, ServiceProblem
from service.http.negotiation import prefers_page
from service.http.parameter_faults import parameter_fault
from service.http.strict_json import MOST_VALUES, has_more_values
from service.pointers import resolved

PROBLEM_JSON = "application/problem+json"
MOST_FAULTS_LISTED = 50
LONGEST_POINTER = 300
_READS = frozenset({"GET", "HEAD"})


ProblemPage = Callable[[ProblemDetails], Response]
"""Writes a problem as a page, for whoever came with a browser."""


def answer_with_problems(app: FastAPI, page: ProblemPage) -> None:
    """Register a handler for each kind of exception that can reach the outside."""
    app.state.problem_page = page
    app.add_exception_handler(ServiceProblem, _service_problem)
    app.add_exception_handler(RequestFaults, _request_faults)
    app.add_exception_handler(RequestValidationError, _parameter_faults)
    app.add_exception_handler(HTTPException, _http_exception)
    app.add_exception_handler(ClientDisconnect, _disconnect)
    app.add_exception_handler(Exception, _our_fault)


def problem_details(problem: ServiceProblem) -> ProblemDetails:
    """The problem as RFC 9457 has it, with the extensions code and errors."""
    listed = problem.faults[:MOST_FAULTS_LISTED]
    return ProblemDetails(
        type=f"/v1/problems/{problem.code}",
        title=problem.kind.title,
        status=problem.kind.status,
        code=problem.code,
        detail=problem.detail if problem.detail is not None else problem.kind.advice,
        errors=[_fault_answer(fault) for fault in listed] or None,
        errors_left_out=(len(problem.faults) + problem.left_out - len(listed)) or None,
    )


def _fault_answer(fault: Fault) -> FaultAnswer:
    in_body = fault.parameter is None and fault.place is None
    return FaultAnswer(
        pointer=_characters(_shortened(fault.pointer)) if in_body else None,
        parameter=fault.parameter,
        place=None if fault.place is None else FilePlaceAnswer(**asdict(fault.place)),
        code=fault.code,
        detail=_characters(fault.detail),
    )


def _shortened(pointer: str) -> str:
    """The pointer, or one that is short enough to what holds its place."""
    if len(pointer) <= LONGEST_POINTER:
        return pointer
    return pointer[: LONGEST_POINTER + 1].rpartition("/")[0]


def _characters(text: str) -> str:
    """The text with a question mark for each half of a surrogate pair, which UTF-8 has none of."""
    return text.encode(errors="replace").decode()


def problem_answer(problem: ServiceProblem) -> Response:
    """The problem as an HTTP answer."""
    return Response(
        problem_details(problem).model_dump_json(exclude_none=True).encode(),
        status_code=problem.kind.status,
        media_type=PROBLEM_JSON,
        headers=dict(problem.headers),
    )


def _answer_to(request: Request, problem: ServiceProblem) -> Response:
    """The problem as a page where a reader prefers one to JSON, else as JSON."""
    answer = problem_answer(problem)
    if request.method not in _READS or not prefers_page(request.headers.getlist("accept")):
        return answer
    write = cast(ProblemPage, request.app.state.problem_page)
    shown = write(problem_details(problem))
    shown.status_code = answer.status_code
    shown.headers.update(problem.headers)
    return shown


def _service_problem(request: Request, error: Exception) -> Response:
    return _answer_to(request, cast(ServiceProblem, error))


def _request_faults(request: Request, error: Exception) -> Response:
    """Every fault of a body goes out here, whichever route found it.

    A body of very many values is not read again: this process has others to answer, and whoever
    reads such a body elsewhere has seen to its pointers.
    """
    raised = cast(RequestFaults, error)
    listed, more = raised.faults[:MOST_FAULTS_LISTED], raised.faults[MOST_FAULTS_LISTED:]
    body = getattr(request.state, "body", None)
    has_pointers = any(fault.pointer for fault in listed)
    if body is not None and has_pointers and not has_more_values(body, MOST_VALUES):
        listed = resolved(listed, json.loads(body))
    return problem_answer(_invalid((*listed, *more), left_out=raised.left_out))


def _parameter_faults(request: Request, error: Exception) -> Response:
    found = cast(RequestValidationError, error).errors()
    return _answer_to(request, _invalid(tuple(map(parameter_fault, found))))


def _invalid(faults: tuple[Fault, ...], *, left_out: int = 0) -> ServiceProblem:
    number = len(faults) + left_out
    count = "1 fault" if number == 1 else f"{number} faults"
    return ServiceProblem(
        "invalid_request",
        f"The request has {count}, listed under errors.",
        faults=faults,
        left_out=left_out,
    )


def _http_exception(request: Request, error: Exception) -> Response:
    raised = cast(HTTPException, error)
    by_status = {kind.status: code for code, kind in reversed(tuple(PROBLEMS.items()))}
    code = by_status.get(raised.status_code)
    if code is None:
        code = "malformed_request" if raised.status_code < 500 else "internal_error"
    headers = dict(raised.headers or {})
    if raised.status_code == 405:
        allowed = methods_at(request.app, request.scope) or {"GET", "HEAD", "OPTIONS"}
        headers["Allow"] = ", ".join(sorted(allowed))
    return _answer_to(request, ServiceProblem(code, headers=headers))


def methods_at(app: FastAPI, scope: Scope) -> set[str]:
    """Every method that the path takes, or any at all for "*"; each route knows only its own."""
    is_any = scope["path"] == "*"
    methods = {
        method
        for route in (*app.state.routes, *app.routes)
        if isinstance(route, Route) and (is_any or route.matches(scope)[0] is not Match.NONE)
        for method in route.methods or ()
    }
    if any(
        isinstance(route, Mount) and route.matches(scope)[0] is Match.FULL for route in app.routes
    ):
        methods.add("GET")
    if "GET" in methods:
        methods.add("HEAD")
    return methods | {"OPTIONS"} if methods else methods


def _disconnect(_: Request, _error: Exception) -> Response:
    # Nobody is there to read this; it only keeps the event from being logged as our fault.
    return problem_answer(ServiceProblem("malformed_request"))


def _our_fault(_: Request, _error: Exception) -> Response:
    # The server logs the exception, which the framework raises again after this answer.
    return problem_answer(ServiceProblem("internal_error"))
