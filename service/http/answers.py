"""Answers of the service, and how each route documents them."""

from collections.abc import Awaitable, Callable, Mapping
from http import HTTPStatus
from typing import Any

from fastapi import Depends, Request
from pydantic import BaseModel
from starlette.responses import Response

from service.errors import PROBLEMS
from service.http.described_headers import READ_AGAIN
from service.http.negotiation import JSON, chosen_media_type
from service.http.problem_answers import PROBLEM_JSON

EVERY_ROUTE = (
    "not_acceptable",
    "invalid_request",
    "internal_error",
    "storage_unavailable",
)
EVERY_BODY = (
    "malformed_request",
    "malformed_json",
    "unsafe_json",
    "body_too_slow",
    "body_too_large",
    "unsupported_media_type",
    "invalid_request",
    "too_much_work",
    "too_busy",
)
_PASSES = "no_result_yet"
PROBLEM_SCHEMA = {"$ref": "#/components/schemas/ProblemDetails"}


def json_answer(
    answer: BaseModel, *, status: int = 200, headers: Mapping[str, str] | None = None
) -> Response:
    """A JSON answer in UTF-8."""
    return written_answer(answer.model_dump_json().encode(), status=status, headers=headers)


def written_answer(
    text: bytes, *, status: int = 200, headers: Mapping[str, str] | None = None
) -> Response:
    """A JSON answer that is written already."""
    return Response(text, status_code=status, media_type=JSON, headers=dict(headers or {}))


def problems(*codes: str) -> dict[int | str, dict[str, Any]]:
    """The documented answers of a route that can refuse with these problems, or those of any."""
    by_status: dict[int | str, list[str]] = {}
    for code in dict.fromkeys((*codes, *EVERY_ROUTE)):
        by_status.setdefault(PROBLEMS[code].status, []).append(code)
    return {
        status: {
            "description": f"{HTTPStatus(int(status)).phrase}: {', '.join(listed)}",
            "content": {PROBLEM_JSON: {"schema": PROBLEM_SCHEMA}},
            **({"headers": dict(READ_AGAIN)} if status == 503 or _PASSES in listed else {}),
        }
        for status, listed in sorted(by_status.items(), key=lambda item: int(item[0]))
    }


def takes_json(model_name: str, examples: Mapping[str, object]) -> dict[str, Any]:
    """The documentation of a body that a route reads by itself."""
    return {
        "requestBody": {
            "required": True,
            "content": {
                JSON: {
                    "schema": {"$ref": f"#/components/schemas/{model_name}"},
                    "examples": {name: {"value": value} for name, value in examples.items()},
                }
            },
        }
    }


def answers_in(*offers: str) -> Callable[[Request], Awaitable[str]]:
    """A dependency that settles the media type of an answer from the Accept header.

    It is async, since it never waits: each one that is not costs the request a change of threads.
    """

    async def chosen(request: Request) -> str:
        return chosen_media_type(", ".join(request.headers.getlist("accept")), offers)

    return chosen


JSON_ONLY = Depends(answers_in(JSON))
"""For routes that answer in JSON and in nothing else."""
