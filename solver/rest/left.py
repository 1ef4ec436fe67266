"""What an expedition on its way has left: the problem of the rest, and what is let go of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from solver.errors import FaultyProblemError
from solver.plan import Plan
from solver.problem import Problem, read_timeline
from solver.problem.faults import examine
from solver.rest.counted import (
    with_counts,
    with_lost_fuel_burnt,
    with_standing,
    without_lost_items,
)
from solver.rest.menus import eat_what_is_left
from solver.rest.result import LettingGo
from solver.rest.wait import (
    Spent,
    with_days_waited,
    with_waiting_fed,
    without_planning_rules,
)


def what_is_left(
    problem: Problem, followed: Plan, wait_nights: int = 0, *, days_are_in: bool = True
) -> tuple[Problem, tuple[Spent, ...]]:
    """The problem of the rest, from where everything stands now, and what waiting uses up.

    Raises FaultyProblemError for a problem that contradicts itself or has no history.
    """
    faults, _ = examine(problem)
    if faults or problem.history is None:
        raise FaultyProblemError(faults)
    set_out = without_planning_rules(with_counts(problem, followed), ())
    taken = with_lost_fuel_burnt(set_out)
    counted = with_standing(without_lost_items(taken), followed)
    waited = counted if days_are_in else with_days_waited(counted, wait_nights)
    return with_waiting_fed(waited, wait_nights)


def as_planned(problem: Problem, let_go: Sequence[LettingGo]) -> Problem:
    """The problem of a rest that was planned anew after these steps had been let go, in order."""
    problem = eat_what_is_left(problem, read_timeline(problem))
    for step in let_go:
        problem, _ = without_step(problem, step)
        problem = eat_what_is_left(problem, read_timeline(problem))
    return problem


def without_step(problem: Problem, step: LettingGo) -> tuple[Problem, tuple[Spent, ...]]:
    """The problem with one thing let go, and the nights of reserves that this gives up."""
    if step.rule_id is not None:
        waived = (*problem.rules.waived, (step.rule_id, step.reason))
        return replace(problem, rules=replace(problem.rules, waived=waived)), ()
    given_up = tuple(_given_up(problem, step))
    reserves = tuple(r for r in problem.reserves if r not in {one.reserve for one in given_up})
    return without_planning_rules(replace(problem, reserves=reserves), given_up), given_up


def single_steps(problem: Problem, letting_go: Sequence[LettingGo]) -> Iterator[LettingGo]:
    """The steps in order; one about reserves of all places goes from the start place outward."""
    way = {place.place_id: problem.route.way_home(place.place_id) for place in problem.route.places}
    for step in letting_go:
        if step.rule_id is not None or step.place_id is not None:
            yield step
            continue
        held = {r.place_id for r in problem.reserves if r.kind is step.kind and r.nights > 0}
        for place_id in sorted(held, key=lambda place: (len(way[place]), place)):
            yield replace(step, place_id=place_id)


def _given_up(problem: Problem, step: LettingGo) -> Iterator[Spent]:
    for reserve in problem.reserves:
        is_named = reserve.kind is step.kind and step.place_id in {None, reserve.place_id}
        if is_named and reserve.nights > 0:
            yield Spent(reserve, reserve.nights, step.reason)
