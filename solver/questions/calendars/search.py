"""The trade-off of days against peak: boxes of calendars, bounded, halved, and few solved whole.

Boxes come by their fewest days, then by their bound, so that what few days reach rules out what
more days cannot beat. A box is left aside where its bound is no lower than the best peak of as few
days, less the tolerance that the caller states; what is left aside or open counts in the gap.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from solver import pipeline
from solver.checker import check_request
from solver.errors import FaultyProblemError
from solver.model.box_bound import box_bound
from solver.model.inquiry import Inquiry
from solver.outcome import Infeasible, Limits, Solved
from solver.problem import Problem
from solver.problem.faults import examine
from solver.progress import Watch
from solver.quantities import FRACTION_GRID
from solver.questions.calendars.found import CurvePoint, FoundCalendars, SolvedCalendar
from solver.questions.calendars.space import Box, CalendarRules, Choice, Skeleton
from solver.questions.changes.enough import with_enough
from solver.questions.parts import Parts

_BOUND_SECONDS = 5.0
_MOST_SECONDS = 10.0
"""Time for one bound, and for solving one calendar whole; less where less is left [s]."""

HEAVY = 9_000
"""From over this share of a cap a person-trip is heavy [1/10,000]."""


@dataclass(slots=True)
class _Search:
    """What is asked, and what was found so far; `aside` are (days, bound) that were not solved."""

    problem: Problem
    skeleton: Skeleton
    rules: CalendarRules
    limits: Limits
    parts: Parts
    tolerance: int
    solved: list[SolvedCalendar] = field(default_factory=list)
    aside: list[tuple[int, int]] = field(default_factory=list)

    def best(self, days: int) -> int:
        """The least peak of at most so many days so far; the whole grid where there is none."""
        return min((one.peak for one in self.solved if one.days <= days), default=FRACTION_GRID + 1)

    def is_ruled_out(self, days: int, bound: int) -> bool:
        """Whether nothing with this bound can lie below the curve by more than the tolerance."""
        return bound >= self.best(days) - self.tolerance


def _tell_nobody(_: FoundCalendars) -> None:
    """Nobody listens."""


def find_calendars(
    problem: Problem,
    rules: CalendarRules,
    limits: Limits,
    watch: Watch,
    *,
    tolerance: int = 0,
    heavy_within: int = 200,
    tell: Callable[[FoundCalendars], None] = _tell_nobody,
) -> FoundCalendars | None:
    """The calendars worth having; None where the calendar given has no moves to choose by.

    `tolerance` is how much lower a calendar may be that is left aside, `heavy_within` how much
    higher one may be that has fewer heavy person-trips [1/10,000]. `tell` hears what is found so
    far before each calendar that is solved whole.
    """
    skeleton = Skeleton.of(problem)
    if skeleton is None:
        return None
    limits = replace(limits, racing=True, workers=1)
    search = _Search(problem, skeleton, rules, limits, Parts(watch), tolerance)
    whole = rules.box(skeleton)
    queue = [(skeleton.days_of(whole.low), 0, whole)]
    while queue and search.parts.left() > 0:
        days, bound, box = heapq.heappop(queue)
        if days > rules.most_days:
            continue
        if search.is_ruled_out(days, bound):
            search.aside.append((days, bound))
        elif box.is_one:
            tell(_found(search, whole, [(days, bound, box), *queue], heavy_within))
            _solve(search, box.low, bound)
        else:
            for half in box.halves():
                fewest = skeleton.days_of(half.low)
                if fewest <= rules.most_days:
                    half_bound = _bound(search, half)
                    if half_bound is not None:
                        heapq.heappush(queue, (fewest, max(bound, half_bound), half))
    return _found(search, whole, queue, heavy_within)


def _found(
    search: _Search, whole: Box, queue: list[tuple[int, int, Box]], heavy_within: int
) -> FoundCalendars:
    """What is found while these boxes are left."""
    left = [one for one in queue if one[0] <= search.rules.most_days]
    aside = [*search.aside, *((days, bound) for days, bound, _ in left)]
    days_of = search.skeleton.days_of
    return FoundCalendars(
        curve=tuple(_curve(search.solved, aside, heavy_within)),
        allowed=sum(days_of(choice) <= search.rules.most_days for choice in whole.choices()),
        solved=len(search.solved),
        open_calendars=sum(box.count() for _, _, box in left),
        all_solved=tuple(search.solved),
        aside=tuple(aside),
    )


def _problem_of(search: _Search, box: Box) -> tuple[Problem, frozenset[int]]:
    """The problem with a box's fewest nights and all its trips, and the trips not all make."""
    moves = len(search.skeleton.moves)
    carries, rests = box.low[:moves], box.low[moves:]
    relays = tuple(high - low for low, high in zip(carries, box.high[:moves], strict=True))
    calendar, further = search.skeleton.relayed(carries, rests, relays)
    return with_enough(replace(search.problem, calendar=calendar)), further


def _bound(search: _Search, box: Box) -> int | None:
    """What no calendar of a box has a lower peak than; None where none has a plan.

    0 where no time is left.
    """
    if search.parts.left() <= 0:
        return 0
    problem, further = _problem_of(search, box)
    faults, timeline = examine(problem)
    if box.is_one:
        if faults or timeline is None or check_request(problem, timeline).findings:
            return None
        with search.parts.part(_BOUND_SECONDS) as time:
            return Inquiry.of(problem, search.limits, timeline).bound(time.wall_seconds)
    if faults:
        # The relayed days may break a rule of calendars that its members keep.
        return 0
    with search.parts.part(_BOUND_SECONDS) as time:
        return box_bound(problem, further, seconds=time.wall_seconds)


def _solve(search: _Search, choice: Choice, bound: int) -> None:
    """Solve a calendar whole and note what came of it."""
    moves = len(search.skeleton.moves)
    calendar = search.skeleton.calendar(choice[:moves], choice[moves:])
    days = search.skeleton.days_of(choice)
    problem = with_enough(replace(search.problem, calendar=calendar))
    try:
        with search.parts.part(_MOST_SECONDS) as time:
            limits = replace(search.limits, wall_seconds=time.wall_seconds)
            outcome = pipeline.plan(problem, limits, time)
    except FaultyProblemError:
        return
    if not isinstance(outcome, Solved):
        if not isinstance(outcome, Infeasible):
            search.aside.append((days, bound))
        return
    peak = outcome.peak.value
    proven = max(bound, outcome.peak.bound or 0)
    search.solved.append(
        SolvedCalendar(
            calendar,
            choice,
            days,
            peak,
            proven,
            heavy=Inquiry.of(problem, search.limits).heavy_person_trips(outcome.plan, HEAVY),
            plan=outcome.plan,
        )
    )
    if proven < peak:
        search.aside.append((days, proven))


def _curve(
    solved: list[SolvedCalendar], aside: list[tuple[int, int]], heavy_within: int
) -> list[CurvePoint]:
    """The points at which one more day lowers the peak, with fewest days first."""
    points: list[CurvePoint] = []
    for days in sorted({one.days for one in solved}):
        so_far = [one for one in solved if one.days <= days]
        best = min(so_far, key=lambda one: (one.peak, one.days, one.heavy))
        if points and best.peak >= points[-1].best.peak:
            continue
        near = [one for one in so_far if one.peak <= best.peak + heavy_within]
        calm = min(near, key=lambda one: (one.heavy, one.peak, one.days))
        lowest = min((bound for d, bound in aside if d <= days), default=best.peak)
        points.append(
            CurvePoint(
                days,
                best,
                gap=max(0, best.peak - lowest),
                calmer=calm if calm.heavy < best.heavy else None,
            )
        )
    return points
