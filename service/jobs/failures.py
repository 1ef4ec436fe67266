"""What is stored for a plan whose solve broke: our failure, told with a stable code."""

import datetime as dt
import json
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from api_schema.plan_answer import FailedAnswer

FAILED: Final = "failed"

FAILURES: Mapping[str, str] = MappingProxyType(
    {
        "solver_timed_out": "The solve ran past its time limit, did not stop, and was ended.",
        "solver_out_of_memory": "The solve needed more memory than one solve may use.",
        "solver_crashed": "The solve ended abnormally each time it was tried.",
        "solver_abandoned": "The process that solved the plan died each time it was tried.",
        "solver_error": "The solve met a fault of the service. Any plan it made is withheld.",
    }
)
"""The detail that goes with each code."""


def failed_outcome(code: str, *, request_document: bytes) -> bytes:
    """The outcome document of a failure, as JSON in UTF-8; echoes what names the request."""
    request = json.loads(request_document)
    # A re-plan is stored with the request that it is about.
    request = request.get("request", request)
    begins = request.get("start_date")
    outcome = FailedAnswer(
        reference=request.get("reference"),
        title=request.get("title"),
        start_date=None if begins is None else dt.date.fromisoformat(begins),
        assumptions=[],
        cautions=[],
        rest=None,
        outcome=FAILED,
        code=code,
        detail=FAILURES[code],
    )
    return outcome.model_dump_json().encode()
