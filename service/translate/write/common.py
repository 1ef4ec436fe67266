"""What every answer to a request says: its reference, what was assumed, what to be careful of."""

from __future__ import annotations

import datetime as dt
from typing import TypedDict

from api_schema.common_answer import AssumptionAnswer, CautionAnswer
from service.translate.read.requests import ReadRequest
from service.translate.write.cautions import cautions_for


class CommonPart(TypedDict):
    """The fields that all outcomes have in common."""

    reference: str | None
    title: str | None
    start_date: dt.date | None
    assumptions: list[AssumptionAnswer]
    cautions: list[CautionAnswer]
    rest: None


def common_part(read: ReadRequest) -> CommonPart:
    """Reference, title, start date, assumptions and cautions."""
    return {
        "reference": read.reference,
        "title": read.title,
        "start_date": read.start_date,
        "assumptions": write_assumptions(read),
        "cautions": write_cautions(read),
        "rest": None,
    }


def write_assumptions(read: ReadRequest) -> list[AssumptionAnswer]:
    """What the request left to the service, or changed of the rules."""
    return [
        AssumptionAnswer(
            pointer=assumption.pointer,
            what=assumption.what,
            value=assumption.value,
            source_status=assumption.source,
        )
        for assumption in read.assumptions
    ]


def write_cautions(read: ReadRequest) -> list[CautionAnswer]:
    """The standing cautions that concern the request."""
    return [
        CautionAnswer(caution_id=caution.caution_id, text=caution.text)
        for caution in cautions_for(read.problem, read.names)
    ]
