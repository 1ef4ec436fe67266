"""Calendars worth having for the rest of an expedition, from what was counted.

The calendar of the problem comes first, then those with the fewest days. Each has bounds on its
peak, from the relaxation of what a re-plan would plan. It is left aside where another with no more
days and no more let go has a peak as low, by the tolerance; only else it is planned whole. What has
no plan is left out by that proof and by nothing else.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby

from solver.errors import FaultyProblemError
from solver.outcome import Infeasible, Limits, Solved
from solver.plan import Plan
from solver.problem import Calendar, Problem
from solver.progress import Watch
from solver.questions.calendars.found_rest import (
    FoundRest,
    NotPlanned,
    RestCalendar,
    worth_having,
)
from solver.questions.calendars.onward import Onward
from solver.questions.calendars.space import CalendarRules
from solver.questions.parts import Parts
from solver.rest.changes import changed_loads
from solver.rest.least_peaks import least_peaks
from solver.rest.planning import plan_rest
from solver.rest.result import LettingGo

_BOUND_SECONDS = 5.0
_MOST_SECONDS = 10.0
"""Time for one bound, and for one calendar; less where less is left [s]."""


@dataclass(slots=True)
class _Search:
    """What is asked, and what was found so far; `open` are those that no time was left for."""

    followed: Plan
    limits: Limits
    parts: Parts
    letting_go: Sequence[LettingGo]
    tolerance: int
    problem_of: Callable[[Calendar], Problem | None]
    planned: list[RestCalendar] = field(default_factory=list)
    aside: list[NotPlanned] = field(default_factory=list)
    open: list[NotPlanned] = field(default_factory=list)
    without_plan: int = 0

    def plan_own(self, calendar: Calendar) -> None:
        """Plan the calendar that people expect, whatever its bound is."""
        least = NotPlanned(len(calendar.days), (0,))
        problem = self.problem_of(calendar)
        if self.parts.left() <= 0:
            self.open.append(least)
        elif problem is None:
            self.without_plan += 1
        else:
            self._plan(calendar, problem, least)

    def look_at(self, calendars: Sequence[Calendar]) -> None:
        """Bound calendars with as many days, then plan those that may be worth it."""
        bounded = [found for one in calendars if (found := self._bounded(one)) is not None]
        self.without_plan += len(calendars) - len(bounded)
        for least, calendar, problem in sorted(bounded, key=lambda found: _order(found[0])):
            if least.is_ruled_out(self.planned, self.tolerance):
                self.aside.append(least)
            elif problem is None or self.parts.left() <= 0:
                self.open.append(least)
            else:
                self._plan(calendar, problem, least)

    def _bounded(self, calendar: Calendar) -> tuple[NotPlanned, Calendar, Problem | None] | None:
        """What no re-plan with a calendar has a lower peak than; None where none has a plan."""
        days = len(calendar.days)
        seconds = min(_BOUND_SECONDS, self.parts.left())
        if seconds <= 0:
            return NotPlanned(days, (0,)), calendar, None
        problem = self.problem_of(calendar)
        if problem is None:
            return None
        asked = least_peaks(
            problem, self.followed, self.limits, letting_go=self.letting_go, seconds=seconds
        )
        try:
            bounds = tuple(asked)
        except FaultyProblemError:
            return None
        return None if set(bounds) == {None} else (NotPlanned(days, bounds), calendar, problem)

    def _plan(self, calendar: Calendar, problem: Problem, least: NotPlanned) -> None:
        """Plan a calendar as a re-plan would, and note what came of it."""
        try:
            with self.parts.part(_MOST_SECONDS) as time:
                limits = replace(self.limits, wall_seconds=time.wall_seconds)
                rest = plan_rest(problem, self.followed, limits, time, letting_go=self.letting_go)
        except FaultyProblemError:
            self.without_plan += 1
            return
        if isinstance(rest.outcome, Solved):
            loads = len(changed_loads(rest.problem, self.followed, rest.outcome.plan))
            self.planned.append(RestCalendar(calendar, rest, rest.outcome.peak.value, loads))
        elif isinstance(rest.outcome, Infeasible) and not time.should_stop():
            self.without_plan += 1
        else:
            self.open.append(least)


def _order(one: NotPlanned) -> tuple[int, int]:
    """Least let go first, then by the bound."""
    return next((n, bound) for n, bound in enumerate(one.bounds) if bound is not None)


def find_rest_calendars(
    problem: Problem,
    followed: Plan,
    rules: CalendarRules,
    limits: Limits,
    watch: Watch,
    *,
    letting_go: Sequence[LettingGo] = (),
    problem_of: Callable[[Calendar], Problem | None] | None = None,
    tolerance: int = 0,
) -> FoundRest | None:
    """The calendars worth having from a history on; None where people part in the days to come.

    `problem_of` gives the problem with another calendar, None where that is faulty; without it
    only the calendar changes. `tolerance` is how much lower the peak of a calendar may be that is
    left aside [1/10,000].
    """
    onward = Onward.of(problem)
    if onward is None:
        return None
    allowed = onward.calendars(problem, rules)
    changed = problem_of or (lambda calendar: replace(problem, calendar=calendar))
    search = _Search(followed, limits, Parts(watch), letting_go, tolerance, changed)
    for own in (one for one in allowed if one is problem.calendar):
        search.plan_own(own)
    others = sorted((one for one in allowed if one is not problem.calendar), key=_days)
    for _, same in groupby(others, key=_days):
        search.look_at(list(same))
    return FoundRest(
        worth_having(search.planned, [*search.aside, *search.open]),
        len(allowed),
        len(search.planned),
        search.without_plan,
        len(search.aside),
    )


def _days(calendar: Calendar) -> int:
    return len(calendar.days)
