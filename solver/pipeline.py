"""From a problem to a proven answer: check the question, solve it, check the answer."""

from __future__ import annotations

import hashlib

from solver import model
from solver.checker import check
from solver.errors import FaultyProblemError, WithheldPlanError
from solver.outcome import Limits, Outcome, Solved
from solver.problem import Problem
from solver.problem.faults import find_faults
from solver.progress import Watch


def plan(problem: Problem, limits: Limits | None = None, watch: Watch | None = None) -> Outcome:
    """Plan an expedition; no plan comes back that the checker does not pass.

    Raises FaultyProblemError with every fault of a problem that contradicts itself, and
    WithheldPlanError when model and checker disagree, which is our own bug.
    """
    faults = find_faults(problem)
    if faults:
        raise FaultyProblemError(faults)
    limits = limits or Limits()
    watch = watch or Watch(limits.wall_seconds)
    outcome = model.solve(problem, limits, watch)
    if isinstance(outcome, Solved):
        _confirm(problem, outcome)
        watch.finish_stage("check", outcome.goals[0].value, outcome.goals[0].bound or 0)
    return outcome


def _confirm(problem: Problem, solved: Solved) -> None:
    """Have the checker replay a plan and recompute its goals."""
    report = check(problem, solved.plan)
    said = {goal.goal_id: goal.value for goal in solved.goals}
    disagreements = [finding.message for finding in report.findings]
    disagreements += [
        f"{goal_id} is {value} by the checker, {said[goal_id]} by the model"
        for goal_id, value in report.goals
        if said.get(goal_id, value) != value
    ]
    disagreements += [
        f"{goal.goal_id} is {goal.value}, below its bound {goal.bound}"
        for goal in solved.goals
        if goal.bound is not None and goal.value < goal.bound
    ]
    if disagreements:
        raise WithheldPlanError(digest(problem), tuple(disagreements))


def digest(problem: Problem) -> str:
    """A short name for a problem that is the same whenever its content is."""
    return hashlib.sha256(repr(problem).encode()).hexdigest()[:16]
