"""What the peak of the rest cannot be below, without planning it: a bound for each step let go."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from solver.checker import check_request
from solver.model.inquiry import Inquiry
from solver.outcome import Limits
from solver.plan import Plan
from solver.problem import Problem, read_timeline
from solver.rest.left import single_steps, what_is_left, without_step
from solver.rest.menus import eat_what_is_left
from solver.rest.result import LettingGo
from solver.rest.shortfalls import shortfalls


def least_peaks(
    problem: Problem,
    followed: Plan,
    limits: Limits,
    *,
    letting_go: Sequence[LettingGo] = (),
    seconds: float,
) -> Iterator[int | None]:
    """With nothing let go, then with each further step: no re-plan has a lower peak [1/10,000].

    None where it is proven that there is no plan. The problems are those that `plan_rest` plans,
    in its order. `seconds` is the time for one bound.

    Raises FaultyProblemError for a problem that contradicts itself or has no history.
    """
    rest, _ = what_is_left(problem, followed)
    rest, bound = _bound(rest, limits, seconds)
    yield bound
    for step in single_steps(rest, letting_go):
        rest, bound = _bound(without_step(rest, step)[0], limits, seconds)
        yield bound


def _bound(problem: Problem, limits: Limits, seconds: float) -> tuple[Problem, int | None]:
    """The problem with the sets that its nights eat, and the bound on its peak."""
    timeline = read_timeline(problem)
    problem = eat_what_is_left(problem, timeline)
    if any(True for _ in shortfalls(problem, timeline)):
        return problem, None
    if check_request(problem, timeline).findings:
        return problem, None
    return problem, Inquiry.of(problem, limits, timeline).bound(seconds)
