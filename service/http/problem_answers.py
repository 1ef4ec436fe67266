"""Turns everything that can go wrong while answering into problem details (RFC 9457)."""

import json
from typing import cast

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect
from starlette.responses import Response
from starlette.routing import Match, Route

from service.errors import PROBLEMS, Fault, RequestFaults, ServiceProblem, problem_document

PROBLEM_JSON = "application/problem+json"


def answer_with_problems(app: FastAPI) -> None:
    """Register a handler for each kind of exception that can reach the outside."""
    app.add_exception_handler(ServiceProblem, _service_problem)
    app.add_exception_handler(RequestFaults, _request_faults)
    app.add_exception_handler(RequestValidationError, _parameter_faults)
    app.add_exception_handler(HTTPException, _http_exception)
    app.add_exception_handler(ClientDisconnect, _disconnect)
    app.add_exception_handler(Exception, _our_fault)


def problem_answer(problem: ServiceProblem) -> Response:
    """The problem as an HTTP answer."""
    return Response(
        json.dumps(problem_document(problem), ensure_ascii=False).encode(errors="replace"),
        status_code=problem.kind.status,
        media_type=PROBLEM_JSON,
        headers=dict(problem.headers),
    )


def _service_problem(_: Request, error: Exception) -> Response:
    return problem_answer(cast(ServiceProblem, error))


def _request_faults(_: Request, error: Exception) -> Response:
    return problem_answer(_invalid(cast(RequestFaults, error).faults))


def _parameter_faults(_: Request, error: Exception) -> Response:
    faults = tuple(
        Fault("", str(fault["type"]), str(fault["msg"]), parameter=str(fault["loc"][-1]))
        for fault in cast(RequestValidationError, error).errors()
    )
    return problem_answer(_invalid(faults))


def _invalid(faults: tuple[Fault, ...]) -> ServiceProblem:
    count = "1 fault" if len(faults) == 1 else f"{len(faults)} faults"
    return ServiceProblem(
        "invalid_request", f"The request has {count}, listed under errors.", faults=faults
    )


def _http_exception(request: Request, error: Exception) -> Response:
    raised = cast(HTTPException, error)
    by_status = {kind.status: code for code, kind in reversed(tuple(PROBLEMS.items()))}
    code = by_status.get(raised.status_code)
    if code is None:
        code = "malformed_request" if raised.status_code < 500 else "internal_error"
    headers = dict(raised.headers or {})
    if raised.status_code == 405:
        headers["Allow"] = ", ".join(sorted(_methods_at(request)))
    return problem_answer(ServiceProblem(code, headers=headers))


def _methods_at(request: Request) -> set[str]:
    """Every method that the path takes; each route by itself knows only its own."""
    return {
        method
        for route in request.app.state.routes
        if isinstance(route, Route) and route.matches(request.scope)[0] is not Match.NONE
        for method in route.methods or ()
    }


def _disconnect(_: Request, _error: Exception) -> Response:
    # Nobody is there to read this; it only keeps the event from being logged as our fault.
    return problem_answer(ServiceProblem("malformed_request"))


def _our_fault(_: Request, _error: Exception) -> Response:
    # The server logs the exception, which the framework raises again after this answer.
    return problem_answer(ServiceProblem("internal_error"))
