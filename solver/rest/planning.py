"""The rest of an expedition: from what was counted on the way to a plan for what is to come.

The plan that was followed is replayed up to the moment, the counted differences are put in, and
what stands where then is all that the rest has. Nothing can be brought any more.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from solver.checker import check_hard_request, check_plan, check_request, first_finding
from solver.checker.goals import peak_load
from solver.checker.ledger.facts import read_facts
from solver.checker.ledger.replay import replay
from solver.joined import joined
from solver.outcome import Infeasible, Limits, Outcome, Solved, SolveRecord
from solver.pipeline import plan
from solver.plan import GoalValue, Plan, TripLoads
from solver.problem import Problem, read_timeline
from solver.progress import Watch
from solver.quantities import FRACTION_GRID
from solver.refusal import group_findings
from solver.rest.left import single_steps, what_is_left, without_step
from solver.rest.menus import eat_what_is_left
from solver.rest.result import LettingGo, Rest
from solver.rest.shortfalls import shortfalls
from solver.rulebook.goals import goals_asked


def plan_rest(
    problem: Problem,
    followed: Plan,
    limits: Limits | None = None,
    watch: Watch | None = None,
    *,
    wait_nights: int = 0,
    days_are_in: bool = False,
    letting_go: Sequence[LettingGo] = (),
) -> Rest:
    """Plan what is left of an expedition that followed a plan up to its history's moment.

    Where the followed plan still keeps every rule from there on, it comes back as it is. Where no
    plan keeps them all, `letting_go` is gone through in its order until one does. With
    `wait_nights` everybody first stays where they are for so many nights; where `days_are_in` the
    calendar has those days already.

    Raises FaultyProblemError for a problem that contradicts itself or has no history, and
    WithheldPlanError when model and checker disagree, which is our own bug.
    """
    limits = limits or Limits()
    watch = watch or Watch(limits.wall_seconds)
    watch.start()
    rest, spent = what_is_left(problem, followed, wait_nights, days_are_in=days_are_in)
    kept = _as_it_is(rest, followed, watch)
    if kept is not None:
        return Rest(rest, kept, spent, is_unchanged=True)
    let_go: list[LettingGo] = []
    rest, outcome = _plan(rest, followed, limits, watch)
    for step in single_steps(rest, letting_go):
        if not isinstance(outcome, Infeasible) or watch.wish_to_stop():
            break
        rest, more = without_step(rest, step)
        spent += more
        let_go.append(step)
        rest, outcome = _plan(rest, followed, limits, watch)
    return Rest(rest, outcome, spent, tuple(let_go))


def _plan(
    problem: Problem, followed: Plan, limits: Limits, watch: Watch
) -> tuple[Problem, Outcome]:
    """The problem with the sets that its nights eat, and its plan."""
    timeline = read_timeline(problem)
    problem = eat_what_is_left(problem, timeline)
    short = tuple(shortfalls(problem, timeline))
    if short:
        record = SolveRecord("none", 0, 0, (("shortfalls", watch.elapsed()),))
        return problem, Infeasible(group_findings(short), record)
    # What is short on the way is no fault of the request, so it is not examined again.
    # People know how heavy the rest was going to be: up to that, few changes come first.
    known = peak_load(replay(read_facts(problem, timeline), followed))
    near = replace(limits, near_peak=min(known, FRACTION_GRID))
    return problem, plan(problem, near, watch, before=followed, near=followed, timeline=timeline)


def _way(trip: TripLoads) -> tuple[int, int, str, str]:
    return trip.day, trip.step, trip.from_place, trip.to_place


def _people(trip: TripLoads) -> tuple[str, ...]:
    return tuple(load.person_id for load in trip.loads)


def _as_it_is(problem: Problem, followed: Plan, watch: Watch) -> Solved | None:
    """The followed plan, where its trips are those of the calendar and no rule is broken."""
    same = [
        (*_way(trip), *(() if problem.is_over(trip.day) else _people(trip)))
        for trip in followed.trips
    ]
    request = check_hard_request(problem)
    trips = request.facts.timeline.trips
    if same != [
        (t.day, t.step, t.from_place, t.to_place, *(() if problem.is_over(t.day) else t.person_ids))
        for t in trips
    ]:
        return None
    # What breaks a rule is known by its first finding; only what stands is measured as well.
    if first_finding(request, followed) is not None:
        return None
    report = check_plan(check_request(problem, request.facts.timeline), followed, followed)
    values: Mapping[str, int] = dict(report.goals)
    goals = tuple(
        GoalValue(goal.goal_id, values[goal.goal_id], None, proven=False, unit=goal.unit)
        for goal in goals_asked(with_former=True)
    )
    record = SolveRecord("none", 0, 0, (("check", watch.elapsed()),))
    kept = replace(joined(problem, followed, followed), keepers=report.keepers)
    return Solved(kept, goals, None, record, report.remarks)
