"""What came of planning, written as the answer that a caller reads."""

from __future__ import annotations

from api_schema.plan_answer import (
    FailedAnswer,
    GoalAnswer,
    InfeasibleAnswer,
    NoPlanInTimeAnswer,
    OutcomeAnswer,
    SolveAnswer,
    SolvedAnswer,
)
from service.translate.read.requests import ReadRequest
from service.translate.write.common import common_part
from service.translate.write.conflicts import write_conflict
from service.translate.write.costs import write_costs
from service.translate.write.diagnosis import write_diagnosis
from service.translate.write.plan import write_plan
from service.translate.write.requirements import write_in_short
from service.translate.write.units import share
from service.translate.write.verdict import write_check, write_peak
from solver.outcome import Infeasible, NoPlanInTime, Outcome, Solved, SolveRecord
from solver.plan import GoalValue


def write_outcome(outcome: Outcome, read: ReadRequest) -> OutcomeAnswer:
    """The answer to a request.

    The pipeline lets no plan out that the check has anything against, so that a solved answer
    has no findings.
    """
    if isinstance(outcome, Solved):
        return _write_solved(outcome, read)
    if isinstance(outcome, Infeasible):
        return _write_infeasible(outcome, read)
    return _write_no_plan(outcome, read)


def write_failure(read: ReadRequest, *, code: str, detail: str) -> FailedAnswer:
    """The answer when the service failed, or withheld a plan."""
    return FailedAnswer(**common_part(read), outcome="failed", code=code, detail=detail)


def _write_solved(solved: Solved, read: ReadRequest) -> SolvedAnswer:
    goal = next((goal for goal in solved.goals if goal.goal_id == "peak_load"), None)
    return SolvedAnswer(
        **common_part(read),
        outcome="solved",
        peak=write_peak(read, solved.plan),
        bound=None if goal is None or goal.bound is None else share(goal.bound),
        gap=None if goal is None else _gap(goal),
        proven=goal is not None and goal.proven,
        greedy_peak=None if solved.greedy_peak is None else share(solved.greedy_peak),
        greedy_reason=solved.greedy_reason or None,
        costs=write_costs(read, solved.plan),
        goals=[
            GoalAnswer(
                goal_id=goal.goal_id,
                value=goal.value,
                bound=goal.bound,
                proven=goal.proven,
                unit=goal.unit,
            )
            for goal in solved.goals
        ],
        plan=write_plan(read, solved.plan),
        requirements=write_in_short(read),
        check=write_check(read.problem, (), solved.remarks),
        solve=_write_record(solved.record),
    )


def _gap(goal: GoalValue) -> float | None:
    """The relative distance between a goal's value and its bound."""
    if goal.bound is None:
        return None
    return round((goal.value - goal.bound) / goal.value, 4) if goal.value else 0.0


def _write_infeasible(outcome: Infeasible, read: ReadRequest) -> InfeasibleAnswer:
    return InfeasibleAnswer(
        **common_part(read),
        outcome="infeasible",
        conflicts=[write_conflict(conflict, read) for conflict in outcome.conflicts],
        diagnosis=None if outcome.diagnosis is None else write_diagnosis(outcome.diagnosis, read),
        solve=_write_record(outcome.record),
    )


def _write_no_plan(outcome: NoPlanInTime, read: ReadRequest) -> NoPlanInTimeAnswer:
    return NoPlanInTimeAnswer(
        **common_part(read),
        outcome="no_plan_in_time",
        bound=None if outcome.bound is None else share(outcome.bound),
        solve=_write_record(outcome.record),
    )


def _write_record(record: SolveRecord) -> SolveAnswer:
    return SolveAnswer(
        solver=record.solver,
        variables=record.variables,
        constraints=record.constraints,
        seconds={stage: round(seconds, 3) for stage, seconds in record.seconds},
        repeatable=record.repeatable,
    )
