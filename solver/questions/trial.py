"""A problem tried: whether it has a plan that the independent check passes."""

from __future__ import annotations

from dataclasses import dataclass

from solver.checker import check_plan, check_request
from solver.errors import WithheldPlanError
from solver.model.inquiry import Inquiry
from solver.outcome import Limits
from solver.pipeline import digest
from solver.plan import Plan
from solver.problem import Problem
from solver.problem.faults import examine
from solver.progress import Watch


@dataclass(frozen=True, slots=True)
class Trial:
    """What a trial ended with: `solvable` is None where time ran out."""

    solvable: bool | None
    plan: Plan | None = None


def try_problem(problem: Problem, limits: Limits, watch: Watch) -> Trial:
    """Look for any plan of a problem; one that is found is checked before it counts.

    Raises WithheldPlanError when model and checker disagree, which is our own bug.
    """
    faults, timeline = examine(problem)
    if faults or timeline is None:
        return Trial(solvable=False)
    request = check_request(problem, timeline)
    if request.findings:
        return Trial(solvable=False)
    found = Inquiry.of(problem, limits, timeline).first_plan(watch)
    if found.plan is None:
        return Trial(False if found.infeasible else None)
    findings = check_plan(request, found.plan).findings
    if findings:
        raise WithheldPlanError(digest(problem), tuple(f.message for f in findings))
    return Trial(solvable=True, plan=found.plan)
