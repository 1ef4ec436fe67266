"""What came of planning, written as the answer that a caller reads."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from service.translate.read.requests import ReadRequest
from service.translate.write.common import common_part
from service.translate.write.days import date_of
from service.translate.write.load_figures import Peak, peak_of
from service.translate.write.plan import PlanWriter, share
from service.translate.write.requirements import write_in_short
from solver.outcome import Infeasible, NoPlanInTime, Outcome, Solved, SolveRecord
from solver.plan import Finding, GoalValue, Plan, Remark
from solver.problem import Problem, read_timeline
from solver.rulebook import RULES

Document = dict[str, Any]


def write_outcome(outcome: Outcome, read: ReadRequest) -> Document:
    """The answer to a request.

    The pipeline lets no plan out that the check has anything against, so that a solved answer
    has no findings.
    """
    if isinstance(outcome, Solved):
        return {"outcome": "solved", **_solved(outcome, read), **common_part(read)}
    if isinstance(outcome, Infeasible):
        return {
            "outcome": "infeasible",
            **common_part(read),
            "conflicts": [
                {
                    "rule_id": conflict.rule_id,
                    "message": conflict.message,
                    "instead": list(conflict.instead),
                }
                for conflict in outcome.conflicts
            ],
            "solve": _solve(outcome.record),
        }
    return {"outcome": "no_plan_in_time", **common_part(read), **_no_plan(outcome)}


def write_failure(read: ReadRequest, *, code: str, detail: str) -> Document:
    """The answer when the service failed, or withheld a plan."""
    return {"outcome": "failed", **common_part(read), "code": code, "detail": detail}


def write_check(
    read: ReadRequest, plan: Plan, findings: Sequence[Finding], remarks: Sequence[Remark]
) -> Document:
    """The verdict of the independent check on a plan that was sent."""
    peak = peak_of(read.problem, read_timeline(read.problem), plan)
    common = common_part(read)
    return {
        "reference": read.reference,
        "check": _check(read.problem, findings, remarks),
        "peak": None if peak is None else _peak(peak, read),
        "assumptions": common["assumptions"],
        "cautions": common["cautions"],
    }


def _solved(solved: Solved, read: ReadRequest) -> Document:
    timeline = read_timeline(read.problem)
    peak = peak_of(read.problem, timeline, solved.plan)
    goal = next((goal for goal in solved.goals if goal.goal_id == "peak_load"), None)
    return {
        "peak": None if peak is None else _peak(peak, read),
        "bound": None if goal is None or goal.bound is None else share(goal.bound),
        "gap": None if goal is None else _gap(goal),
        "proven": goal is not None and goal.proven,
        "greedy_peak": None if solved.greedy_peak is None else share(solved.greedy_peak),
        "goals": [
            {
                "goal_id": goal.goal_id,
                "value": goal.value,
                "bound": goal.bound,
                "proven": goal.proven,
                "unit": goal.unit,
            }
            for goal in solved.goals
        ],
        "plan": PlanWriter(read, timeline).plan(solved.plan),
        "requirements": write_in_short(read),
        "check": _check(read.problem, (), solved.remarks),
        "solve": _solve(solved.record),
    }


def _gap(goal: GoalValue) -> float | None:
    """The relative distance between a goal's value and its bound."""
    if goal.bound is None:
        return None
    return round((goal.value - goal.bound) / goal.value, 4) if goal.value else 0.0


def _peak(peak: Peak, read: ReadRequest) -> Document:
    return {
        "load_fraction": share(peak.figures.fraction),
        "person_id": peak.person_id,
        "day": peak.trip.day,
        "date": date_of(read.start_date, peak.trip.day),
        "step": peak.trip.step,
        "from": peak.trip.from_place,
        "to": peak.trip.to_place,
        "binding": peak.figures.binding,
    }


def _check(problem: Problem, findings: Sequence[Finding], remarks: Sequence[Remark]) -> Document:
    return {
        "passed": not findings,
        "rules_checked": sum(problem.asks(rule.rule_id) for rule in RULES),
        "findings": [_finding(finding) for finding in findings],
        "remarks": [
            {
                **_finding(remark.finding),
                "kind": remark.kind.value,
                "reason": remark.reason or None,
            }
            for remark in remarks
        ],
    }


def _finding(finding: Finding) -> Document:
    return {
        "rule_id": finding.rule_id,
        "message": finding.message,
        "amount": finding.amount,
        "unit": finding.unit,
        "where": dict(finding.where),
        "instead": list(finding.instead),
    }


def _no_plan(outcome: NoPlanInTime) -> Document:
    return {
        "bound": None if outcome.bound is None else share(outcome.bound),
        "solve": _solve(outcome.record),
    }


def _solve(record: SolveRecord) -> Document:
    return {
        "solver": record.solver,
        "variables": record.variables,
        "constraints": record.constraints,
        "seconds": {stage: round(seconds, 3) for stage, seconds in record.seconds},
    }
