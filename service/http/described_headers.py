"""Headers in the description: when to read again, tags, and conditions on them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

READ_AGAIN: Mapping[str, Any] = {
    "Retry-After": {
        "description": "Seconds to wait before you ask again. Left out where nothing will change.",
        "schema": {"type": "integer", "minimum": 0},
    }
}
_TAG = {
    "ETag": {
        "description": "The tag of this answer. Send it in `If-None-Match` to hear of changes.",
        "schema": {"type": "string"},
    }
}
_CONDITION = {
    "name": "If-None-Match",
    "in": "header",
    "required": False,
    "description": "The `ETag` of the answer that you have. If it is still the same, the answer is "
    "304 without a body.",
    "schema": {"type": "string", "title": "If-None-Match"},
}
_MATCH = {
    "name": "If-Match",
    "in": "header",
    "required": False,
    "description": "An `ETag` of this address. If the answer has another one now, it is 412.",
    "schema": {"type": "string", "title": "If-Match"},
}
_CHANGED = {
    "description": "Precondition Failed: changed_since",
    "headers": _TAG,
    "content": {
        "application/problem+json": {"schema": {"$ref": "#/components/schemas/ProblemDetails"}}
    },
}
_STREAM = "text/event-stream"
_SHARED = {
    "WWW-Authenticate": {
        "description": "What kind of key is needed: `Bearer` (RFC 6750).",
        "schema": {"type": "string"},
        "example": 'Bearer realm="haulwright"',
    },
    "X-Request-Id": {
        "description": "The id of this request, as in the log. It is your own if you sent one.",
        "schema": {"type": "string"},
    },
}
REFERRED = {name: {"$ref": f"#/components/headers/{name}"} for name in _SHARED}
"""Headers that are described once, as answers refer to them."""

_OF_STATUS = {"401": "WWW-Authenticate", "500": "X-Request-Id"}
"""Where a shared header matters most; the second one is on every answer."""


def add_shared_headers(document: dict[str, Any]) -> None:
    """Describe once what many answers have, and refer to that where it matters most."""
    document["components"]["headers"] = dict(_SHARED)
    for path in document["paths"].values():
        for operation in path.values():
            for status, name in _OF_STATUS.items():
                answer = operation["responses"].get(status)
                if answer is not None:
                    answer["headers"] = {**answer.get("headers", {}), name: REFERRED[name]}


def add_conditions(document: dict[str, Any]) -> None:
    """Say of every GET whose answer is one piece what `Representations` does with it."""
    for path in document["paths"].values():
        operation = path.get("get", {})
        answer = operation.get("responses", {}).get("200")
        if answer is None or _STREAM in answer.get("content", {}):
            continue
        answer["headers"] = {**answer.get("headers", {}), **_TAG}
        operation.setdefault("parameters", []).extend((_CONDITION, _MATCH))
        unchanged = {"description": "Not Modified: you have this answer.", "headers": _TAG}
        more = {"304": unchanged, "412": _CHANGED}
        operation["responses"] = dict(sorted({**operation["responses"], **more}.items()))
