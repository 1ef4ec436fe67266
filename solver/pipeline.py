"""From a problem to a proven answer: check the question, solve it, check the answer."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import replace

from solver import model
from solver.checker import RequestReport, check_plan, check_request
from solver.errors import FaultyProblemError, ProblemFault, WithheldPlanError
from solver.joined import joined
from solver.outcome import Infeasible, Limits, Outcome, Solved, SolveRecord
from solver.plan import Finding, GoalValue, Plan, Remark
from solver.problem import Problem, Timeline
from solver.problem.faults import examine
from solver.progress import Watch
from solver.refusal import group_findings
from solver.rulebook.goals import PEAK_LOAD, goals_asked


def plan(
    problem: Problem,
    limits: Limits | None = None,
    watch: Watch | None = None,
    *,
    start: Plan | None = None,
    near: Plan | None = None,
    before: Plan | None = None,
    timeline: Timeline | None = None,
) -> Outcome:
    """Plan an expedition; no plan comes back that the checker does not pass.

    `before` is the plan that was followed up to the moment, where the problem has a history.

    Who has examined the problem and found no fault hands its `timeline` on; it is not examined
    again then. With a plan to `start` from that the checker passes, the answer's peak is never
    higher. A former plan that the answer is to stay `near` may break any rule.

    Raises FaultyProblemError with every fault of a problem that contradicts itself, and
    WithheldPlanError when model and checker disagree, which is our own bug.
    """
    faults: tuple[ProblemFault, ...] = ()
    if timeline is None:
        faults, timeline = examine(problem)
    if faults:
        raise FaultyProblemError(faults)
    limits = limits or Limits()
    watch = watch or Watch(limits.wall_seconds)
    watch.start()
    request = check_request(problem, timeline)
    if request.findings:
        return _refusal(request.findings, watch)
    started = None if start is None else check_plan(request, start, near)
    if started is not None and started.findings:
        start = None
    outcome = model.solve(problem, limits, watch, start=start, near=near, timeline=timeline)
    if start is not None and started is not None:
        outcome = _no_worse(
            problem, outcome, replace(start, keepers=started.keepers), dict(started.goals)
        )
    if isinstance(outcome, Solved) and before is not None:
        outcome = replace(outcome, plan=joined(problem, before, outcome.plan))
    if isinstance(outcome, Solved):
        outcome = replace(outcome, remarks=_confirm(request, outcome, near))
        watch.finish_stage("check", outcome.peak.value, outcome.peak.bound or 0)
    return outcome


def _refusal(findings: tuple[Finding, ...], watch: Watch) -> Infeasible:
    """The answer to a request that no plan can serve, in the words of the rules it breaks."""
    watch.finish_stage("request", None, 0)
    record = SolveRecord("none", 0, 0, (("request", watch.elapsed()),))
    return Infeasible(group_findings(findings), record)


def _no_worse(
    problem: Problem, outcome: Outcome, start: Plan, values: Mapping[str, int]
) -> Outcome:
    """The outcome, or the plan that it started from where that has the lower peak.

    `values` are the goals of the plan to start from, as the checker counts them.
    """
    if isinstance(outcome, Infeasible):
        raise WithheldPlanError(
            digest(problem), ("called infeasible, though the plan to start from keeps every rule",)
        )
    if isinstance(outcome, Solved) and outcome.peak.value <= values[PEAK_LOAD]:
        return outcome
    peak_bound = outcome.peak.bound if isinstance(outcome, Solved) else None
    goals = tuple(
        GoalValue(
            goal.goal_id,
            values[goal.goal_id],
            peak_bound if goal.goal_id == PEAK_LOAD else None,
            proven=False,
            unit=goal.unit,
        )
        for goal in goals_asked(with_former="closeness" in values)
    )
    if isinstance(outcome, Solved):
        return replace(outcome, plan=start, goals=goals)
    return Solved(start, goals, None, outcome.record)


def _confirm(request: RequestReport, solved: Solved, near: Plan | None) -> tuple[Remark, ...]:
    """Have the checker replay a plan and recompute its goals; gives what it remarks."""
    report = check_plan(request, solved.plan, near)
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
    if report.keepers != solved.plan.keepers:
        disagreements.append("the keepers are others by the checker than by the model")
    if disagreements:
        raise WithheldPlanError(digest(request.facts.problem), tuple(disagreements))
    return report.remarks


def digest(problem: Problem) -> str:
    """A short name for a problem that is the same whenever its content is."""
    return hashlib.sha256(repr(problem).encode()).hexdigest()[:16]
