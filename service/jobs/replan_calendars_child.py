"""Calendars for the rest of an expedition, as a child works them out."""

from __future__ import annotations

from typing import Any

from api_schema.replan_calendars_answer import RestCalendarsAnswer
from service.errors import ServiceProblem
from service.translate.read.budget import require_budget
from service.translate.read.replan_calendars import ReadReplanCalendars, read_replan_calendars
from service.translate.write.replan_calendars import wire_calendar, write_replan_calendars
from solver.problem import Calendar, Problem
from solver.progress import Watch
from solver.questions.calendars.rest_search import find_rest_calendars
from solver.rest.result import LettingGo


def choose_calendars(document: dict[str, Any], watch: Watch) -> RestCalendarsAnswer:
    """The answer to a question with what was `followed`, and the `body` as it was sent."""
    asked = read_replan_calendars(document["followed"], document["body"])
    read = require_budget(asked.replan.read)
    steps = asked.replan.letting_go
    found = find_rest_calendars(
        read.problem,
        asked.replan.followed,
        asked.rules,
        read.limits,
        watch,
        letting_go=[LettingGo(s.reason, s.rule_id, s.kind, s.place_id) for s in steps],
        problem_of=lambda calendar: _problem_of(asked, calendar),
        tolerance=asked.tolerance,
    )
    if found is None:
        raise ServiceProblem("internal_error")
    return write_replan_calendars(asked, found)


def _problem_of(asked: ReadReplanCalendars, calendar: Calendar) -> Problem | None:
    """The problem that a re-plan with this calendar has: read as it would be sent."""
    replan = asked.with_calendar(wire_calendar(asked, calendar))
    return None if replan is None else replan.read.problem
