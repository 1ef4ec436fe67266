"""A request for calendars on the way read: what was counted, and the rules for the choice."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from pydantic import ValidationError

from api_schema.calendars_request import Allowed
from api_schema.replan_calendars import ReplanCalendarsRequest
from service.errors import Fault, RequestFaults
from service.translate.read.replans import ReadReplan, read_replan, with_state
from service.translate.read.wire_faults import wire_faults
from solver.problem import Problem
from solver.quantities import FRACTION_GRID
from solver.questions.calendars.onward import Onward
from solver.questions.calendars.space import CalendarRules

MOST_CALENDARS = 5_000
"""More are not looked at: nobody could wait for the plans of so many."""

_NOT_HERE = {
    "wait_nights": "Leave it out: days without travel are what is chosen here.",
    "evacuation": "Leave it out: ask for a re-plan with it.",
}


@dataclass(frozen=True, slots=True)
class ReadReplanCalendars:
    """What calendars are asked for; `followed` and `state` are the documents they are read from.

    `tolerance` is on the peak [1/10,000].
    """

    replan: ReadReplan
    onward: Onward
    rules: CalendarRules
    followed: Mapping[str, Any]
    state: Mapping[str, Any]
    tolerance: int

    @property
    def problem(self) -> Problem:
        """The problem with what was counted, and the calendar of the plan or of the state."""
        return self.replan.read.problem

    def with_calendar(self, calendar: list[Any]) -> ReadReplan | None:
        """The re-plan with another calendar as the wire has it; None where that is faulty."""
        try:
            return _read(self.followed, {**self.state, "calendar": calendar})
        except RequestFaults:
            return None

    def days_over(self) -> list[Any]:
        """The days that are over, as the wire has them."""
        calendar = self.state.get("calendar") or self.followed["request"]["calendar"]
        return list(calendar[: len(self.onward.over)])


def read_replan_calendars(followed: Mapping[str, Any], body: dict[str, Any]) -> ReadReplanCalendars:
    """The question of a body on a followed plan; raises RequestFaults with every fault.

    `followed` has `request`, `plan` and `of_plan`, as for a re-plan.
    """
    try:
        asked = ReplanCalendarsRequest.model_validate(body)
    except ValidationError as error:
        raise RequestFaults(wire_faults(error, ReplanCalendarsRequest)) from None
    given = [name for name in _NOT_HERE if getattr(asked.state, name)]
    if given:
        faults = (Fault(f"/state/{name}", "not_together", _NOT_HERE[name]) for name in given)
        raise RequestFaults(tuple(faults))
    try:
        replan = _read(followed, body["state"])
    except RequestFaults as error:
        within = (replace(f, pointer=f"/state{f.pointer}") for f in error.faults)
        raise RequestFaults(tuple(within)) from None
    onward = Onward.of(replan.read.problem)
    if onward is None:
        words = "Give a calendar on which all go together in the days to come."
        raise RequestFaults((Fault("/state/calendar", "no_moves_to_choose_by", words),))
    rules = _rules(asked)
    number = onward.box(rules).count()
    if number > MOST_CALENDARS:
        words = f"These rules allow {number} calendars. Allow at most {MOST_CALENDARS}."
        raise RequestFaults((Fault("", "too_many", words),))
    tolerance = round(asked.tolerance * FRACTION_GRID)
    return ReadReplanCalendars(replan, onward, rules, followed, body["state"], tolerance)


def _read(followed: Mapping[str, Any], state: Mapping[str, Any]) -> ReadReplan:
    document = with_state(followed["request"], followed["plan"], followed["of_plan"], dict(state))
    return read_replan(document)


def _rules(asked: ReplanCalendarsRequest) -> CalendarRules:
    return CalendarRules(
        most_days=asked.days,
        carries=_pair(asked.carries),
        carries_on=tuple(((one.from_, one.to), _pair(one)) for one in asked.carries_on),
        rests=_pair(asked.rests),
        rests_at=tuple((one.place, _pair(one)) for one in asked.rests_at),
    )


def _pair(allowed: Allowed | None) -> tuple[int, int]:
    """Least and most, up to 1 where nothing is given; the wrong way round the least is taken."""
    if allowed is None:
        return 0, 1
    return allowed.least, max(allowed.least, allowed.most)
