"""Calendars worth having for the rest of an expedition, each planned whole from what was counted.

There are few calendars once an expedition is under way, so that each of them is planned, the
nearest first. What has no plan is left out by that proof and by nothing else.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from solver.errors import FaultyProblemError
from solver.outcome import Infeasible, Limits, Solved
from solver.plan import Plan
from solver.problem import Calendar, Problem
from solver.progress import Watch
from solver.questions.calendars.found_rest import FoundRest, RestCalendar, worth_having
from solver.questions.calendars.onward import Onward
from solver.questions.calendars.space import CalendarRules
from solver.rest.changes import changed_loads
from solver.rest.planning import plan_rest
from solver.rest.result import LettingGo, Rest

_MOST_SECONDS = 10.0
"""Time for one calendar; less where less is left [s]."""


def find_rest_calendars(
    problem: Problem,
    followed: Plan,
    rules: CalendarRules,
    limits: Limits,
    watch: Watch,
    *,
    letting_go: Sequence[LettingGo] = (),
    problem_of: Callable[[Calendar], Problem | None] | None = None,
) -> FoundRest | None:
    """The calendars worth having from a history on; None where people part in the days to come.

    `problem_of` gives the problem with another calendar, None where that is faulty; without it
    only the calendar changes.
    """
    onward = Onward.of(problem)
    if onward is None:
        return None
    allowed = onward.calendars(problem, rules)
    planned: list[RestCalendar] = []
    without_plan = 0
    for calendar in allowed:
        seconds = min(_MOST_SECONDS, watch.left())
        if seconds <= 0:
            break
        changed = problem_of(calendar) if problem_of else replace(problem, calendar=calendar)
        time = Watch(seconds, now=watch.now, should_stop=watch.should_stop)
        rest = _plan(changed, followed, replace(limits, wall_seconds=seconds), time, letting_go)
        if rest is None or isinstance(rest.outcome, Infeasible):
            without_plan += 1
        elif isinstance(rest.outcome, Solved):
            plan = rest.outcome.plan
            loads = len(changed_loads(rest.problem, followed, plan))
            planned.append(RestCalendar(calendar, rest, rest.outcome.peak.value, loads))
    return FoundRest(worth_having(planned), len(allowed), len(planned), without_plan)


def _plan(
    problem: Problem | None,
    followed: Plan,
    limits: Limits,
    watch: Watch,
    letting_go: Sequence[LettingGo],
) -> Rest | None:
    """The rest with a calendar; None where the calendar contradicts itself or what happened."""
    if problem is None:
        return None
    try:
        return plan_rest(problem, followed, limits, watch, letting_go=letting_go)
    except FaultyProblemError:
        return None
