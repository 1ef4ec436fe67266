"""A request for calendars read: the request for a plan, the rules, and the goal."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from pydantic import ValidationError

from api_schema.calendars_request import Allowed, CalendarsRequest
from service.errors import Fault, RequestFaults
from service.translate.read.requests import ReadRequest, read_plan_request
from service.translate.read.wire_faults import wire_faults
from solver.quantities import FRACTION_GRID
from solver.questions.calendars.choose import Figure, Goal
from solver.questions.calendars.space import CalendarRules, Skeleton


@dataclass(frozen=True, slots=True)
class ReadCalendars:
    """What calendars are asked for; `tolerance` is on the peak [1/10,000]."""

    read: ReadRequest
    skeleton: Skeleton
    rules: CalendarRules
    goal: Goal
    tolerance: int


def read_calendars(document: dict[str, Any]) -> ReadCalendars:
    """The question of a document; raises RequestFaults with every fault."""
    try:
        asked = CalendarsRequest.model_validate(document)
    except ValidationError as error:
        raise RequestFaults(wire_faults(error, CalendarsRequest)) from None
    try:
        read = read_plan_request(document["request"])
    except RequestFaults as error:
        faults = (replace(f, pointer=f"/request{f.pointer}") for f in error.faults)
        raise RequestFaults(tuple(faults)) from None
    skeleton = Skeleton.of(read.problem)
    if skeleton is None:
        raise RequestFaults(
            (
                Fault(
                    "/request/calendar",
                    "no_moves_to_choose_by",
                    "Give a calendar on which all go together, with moves over one leg each.",
                ),
            )
        )
    if read.problem.pins:
        words = "Pins belong to the trips of one calendar. Leave them out to ask for calendars."
        raise RequestFaults((Fault("/request/pins", "pins_fix_the_calendar", words),))
    limits = asked.limits
    return ReadCalendars(
        read=read,
        skeleton=skeleton,
        rules=CalendarRules(
            most_days=asked.days,
            carries=_pair(asked.carries, (0, 2)),
            carries_on=tuple(((one.from_, one.to), _pair(one, (0, 0))) for one in asked.carries_on),
            rests=None if asked.rests is None else _pair(asked.rests, (0, 0)),
            rests_at=tuple((one.place, _pair(one, (0, 0))) for one in asked.rests_at),
        ),
        goal=Goal(
            minimise=Figure(asked.minimise),
            peak=None
            if limits is None or limits.peak is None
            else int(limits.peak * FRACTION_GRID),
            days=None if limits is None else limits.days,
            heavy=None if limits is None else limits.heavy_person_trips,
        ),
        tolerance=int(asked.tolerance * FRACTION_GRID),
    )


def _pair(allowed: Allowed | None, otherwise: tuple[int, int]) -> tuple[int, int]:
    """Least and most; where they are the wrong way round the least is taken."""
    if allowed is None:
        return otherwise
    return allowed.least, max(allowed.least, allowed.most)
