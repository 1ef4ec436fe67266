"""The optimisation model: the only folder that knows a solver."""

from __future__ import annotations

from dataclasses import replace

from solver.model.assignment.build_plan import build_plan
from solver.model.assignment.former_loads import read_former
from solver.model.assignment.read_plan import read_plan
from solver.model.construction.idle_stock import without_idle_stock
from solver.model.flights import BackgroundFlights
from solver.model.flights.solve_flights import solve_flights
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.infeasible.explain import explain
from solver.model.search import search
from solver.outcome import (
    Infeasible,
    Limits,
    NoPlanInTime,
    Outcome,
    Solved,
    SolveRecord,
)
from solver.plan import Plan
from solver.problem import Problem, Timeline
from solver.progress import STEADY_STAGES, Watch

__all__ = ["solve"]


def solve(
    problem: Problem,
    limits: Limits,
    watch: Watch,
    *,
    start: Plan | None = None,
    near: Plan | None = None,
    timeline: Timeline | None = None,
) -> Outcome:
    """Solve a problem without faults; the plan in the outcome is not checked yet.

    `start` is a plan that keeps every rule, to begin from; `near` is a former one, of this or of
    a like problem, to stay close to. Who has read the problem's timeline
    hands it on.
    """
    watch.steady_seconds = None if limits.racing else limits.wall_seconds / STEADY_STAGES
    watch.start()
    whole = build_frame(problem, timeline)
    frame = without_redundant_losses(whole)
    if near is not None:
        frame = replace(frame, former=read_former(frame, near))
    begin = None if start is None else read_plan(frame, start)
    with BackgroundFlights(frame.world, limits, watch) as flights:
        found = search(frame, limits, watch, begin)
        flown = flights.answer()
    if flown.conflicts or not flown.in_time:
        record = SolveRecord("CP-SAT", 0, 0, tuple(watch.stages), _is_repeatable(watch))
        if flown.conflicts:
            return Infeasible(flown.conflicts, record)
        return NoPlanInTime(None, record)
    record = SolveRecord(
        solver="CP-SAT and HiGHS",
        variables=len(frame.may_carry),
        constraints=len(frame.stock_rows) + sum(map(len, frame.load_rows)),
        seconds=tuple(watch.stages),
        repeatable=_is_repeatable(watch),
    )
    if found.infeasible:
        conflicts = explain(frame, watch, seed=limits.seed)
        return Infeasible(conflicts, replace(record, repeatable=_is_repeatable(watch)))
    if found.draft is None:
        return NoPlanInTime(found.bound or None, record)
    # On the way nothing can be left at home any more.
    least = whole if problem.history else without_idle_stock(whole, found.draft)
    if least is not whole and problem.flights:
        again = solve_flights(least.world, limits, watch)
        least, flown = (least, again) if again.loads else (whole, flown)
    plan = replace(build_plan(least, found.draft), flights=flown.loads)
    return Solved(plan, found.goals, found.greedy_peak, record, greedy_reason=found.greedy_reason)


def _is_repeatable(watch: Watch) -> bool:
    """Whether no clock decided anything so far, nor a stop that somebody wished for."""
    return watch.steady and not watch.clock_ended and not watch.should_stop()
