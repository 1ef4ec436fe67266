"""The rest of an expedition: from what was counted on the way to a plan for what is to come.

The plan that was followed is replayed up to the moment, the counted differences are put in, and
what stands where then is all that the rest has. Nothing can be brought any more.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from solver.checker import check, check_request
from solver.checker.standing import standing_at_moment
from solver.errors import FaultyProblemError
from solver.joined import joined
from solver.outcome import Limits, Outcome, Solved, SolveRecord
from solver.pipeline import plan
from solver.plan import GoalValue, Plan
from solver.problem import Problem
from solver.problem.faults import examine
from solver.progress import Watch
from solver.rulebook.goals import GOALS


def plan_rest(
    problem: Problem, followed: Plan, limits: Limits | None = None, watch: Watch | None = None
) -> Outcome:
    """Plan what is left of an expedition that followed a plan up to its history's moment.

    Where the followed plan still keeps every rule from there on, it comes back as it is.
    Raises FaultyProblemError for a problem that contradicts itself or has no history, and
    WithheldPlanError when model and checker disagree, which is our own bug.
    """
    faults, _ = examine(problem)
    if faults or problem.history is None:
        raise FaultyProblemError(faults)
    rest = with_standing(with_counts(problem, followed), followed)
    limits = limits or Limits()
    watch = watch or Watch(limits.wall_seconds)
    watch.start()
    kept = _as_it_is(rest, followed, watch)
    return kept or plan(rest, limits, watch, before=followed)


def with_counts(problem: Problem, followed: Plan) -> Problem:
    """The problem with as many bags and containers as the followed plan took along."""
    taken: dict[str, int] = {}
    for entry in followed.stock:
        if entry.day == 0:
            for stowed in entry.units:
                taken[stowed.unit_id] = taken.get(stowed.unit_id, 0) + stowed.count
    return replace(
        problem,
        night_sets=tuple(
            replace(one, bag_count=taken.get(one.unit_id, 0)) for one in problem.night_sets
        ),
        cook_groups=tuple(
            replace(
                group,
                containers=tuple(
                    replace(kind, count=taken.get(kind.unit_id, 0)) for kind in group.containers
                ),
            )
            for group in problem.cook_groups
        ),
    )


def with_standing(problem: Problem, followed: Plan) -> Problem:
    """The problem with all that stands where at its moment, by the replay of a plan."""
    if problem.history is None:
        return problem
    facts = check_request(problem).facts
    standing = standing_at_moment(facts, followed)
    return replace(problem, history=replace(problem.history, standing=standing))


def _as_it_is(problem: Problem, followed: Plan, watch: Watch) -> Outcome | None:
    """The followed plan, where its trips are those of the calendar and no rule is broken."""
    same = {(trip.day, trip.step, trip.from_place, trip.to_place) for trip in followed.trips}
    facts = check_request(problem).facts
    if same != {(t.day, t.step, t.from_place, t.to_place) for t in facts.timeline.trips}:
        return None
    report = check(problem, followed)
    if report.findings:
        return None
    values: Mapping[str, int] = dict(report.goals)
    goals = tuple(
        GoalValue(goal.goal_id, values[goal.goal_id], None, proven=False, unit=goal.unit)
        for goal in GOALS
    )
    record = SolveRecord("none", 0, 0, (("check", watch.elapsed()),))
    return Solved(joined(problem, followed, followed), goals, None, record, report.remarks)
