"""What stands around the request for a plan in a question about calendars."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from api_schema.calendars_request import CalendarsRequest
from service.errors import Fault
from service.translate.read.wire_faults import wire_faults


def faults_around_request(document: Mapping[str, Any]) -> tuple[Fault, ...]:
    """The wire's faults of a question, without those of the request in it."""
    try:
        CalendarsRequest.model_validate({**document, "request": {}})
    except ValidationError as error:
        found = wire_faults(error, CalendarsRequest)
        return tuple(f for f in found if not f"{f.pointer}/".startswith("/request/"))
    return ()
