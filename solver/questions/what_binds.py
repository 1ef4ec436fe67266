"""What binds a plan, and what one step of anything would change: by solving again, sorted.

First a cheap proof: where the relaxation with the step keeps its bound at today's peak, the step
is worth nothing. Only the others are solved whole. The caps of whoever sets the peak come before
all else, so that a short question answers for them. Of the others the lowest bound comes first.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from solver import pipeline
from solver.checker import RequestReport, check_plan, check_request
from solver.errors import FaultyProblemError
from solver.model.infeasible.cap_amounts import PROBE
from solver.model.inquiry import Inquiry
from solver.outcome import Infeasible, Limits, Solved
from solver.plan import Plan
from solver.problem import Problem
from solver.problem.faults import examine
from solver.progress import Watch
from solver.questions.changes.caps import cap_changes, smaller_caps
from solver.questions.changes.change import Change
from solver.questions.changes.days import day_changes, fewer_carries
from solver.questions.changes.people import (
    fewer_sleds,
    one_less_person,
    one_more_person,
    sled_changes,
)
from solver.questions.parts import Parts
from solver.questions.steps_told import ONE, is_open, known, told_as, worth_of
from solver.questions.worth import Binding, Step, Verdict, Worth

_FEWEST_SECONDS, _MOST_SECONDS = 2.0, 10.0
"""Time for solving one step whole; less where less is left [s]."""

_LEAST_SECONDS = 0.5
"""With less time than this no whole solve begins [s]."""

_FIRST_STEPS = 3
"""How many steps of whoever sets the peak are solved before all other steps [1]."""

_NOT_EVEN_DIVISIBLE = (
    "There is no plan, even if loads could be divided. Ask for a plan with this step to see why."
)

_BOUND_SECONDS = 5.0
"""Time for a bound with one step, less where less is left [s]."""


@dataclass(frozen=True, slots=True)
class _Today:
    """The plan that steps are compared with: its peak and bound [1/10,000]."""

    problem: Problem
    plan: Plan
    peak: int
    bound: int
    limits: Limits


def all_steps(problem: Problem) -> list[Change]:
    """One step of everything, up or down, the cheapest in the field first."""
    found = [
        *cap_changes(problem),
        *sled_changes(problem),
        *fewer_sleds(problem),
        *day_changes(problem),
        *fewer_carries(problem),
        *one_more_person(problem),
        *one_less_person(problem),
        *smaller_caps(problem, ONE),
    ]
    return sorted(found, key=_cost)


def _cost(change: Change) -> tuple[bool, tuple[int, int, int]]:
    """What a step costs in the field; those that only take something away come last."""
    return change.tightens, change.cost(ONE if change.is_measured else 0)


def _tell_nobody(_: Worth) -> None:
    """Nobody listens."""


def what_binds(
    problem: Problem,
    plan: Plan,
    bound: int,
    limits: Limits,
    watch: Watch,
    *,
    tell: Callable[[Worth], None] = _tell_nobody,
) -> Worth:
    """What sets the peak of a plan that keeps every rule, and the worth of each step.

    `bound` is on the peak [1/10,000]. The watch says how far down the list it may go. `tell` hears
    what is known at the start and before each step that is solved whole.
    """
    limits = replace(limits, racing=True, workers=1)
    inquiry = Inquiry.of(problem, limits)
    full = inquiry.fullest_rows(plan)
    peak = full[0].fraction if full else 0
    today = _Today(problem, plan, peak, bound, limits)
    steps = all_steps(problem)
    binding = tuple(
        Binding(
            one.row.rule_id,
            one.row.person_id,
            inquiry.trip_names(one.row.trip),
            one.load,
            one.row.cap,
            one.fraction,
        )
        for one in full
        if one.fraction == peak
    )

    def so_far(judged: dict[int, Step]) -> None:
        told = [known(step, judged.get(number)) for number, step in enumerate(steps)]
        tell(worth_of(peak, bound, steps, told, binding))

    so_far({})
    theirs = {one.person_id for one in binding}
    judged = _judged(inquiry, today, steps, theirs, Parts(watch), tell=so_far)
    told = [judged[number] for number in range(len(steps))]
    return worth_of(peak, bound, steps, told, binding)


def _judged(
    inquiry: Inquiry,
    today: _Today,
    steps: list[Change],
    binding: set[str],
    parts: Parts,
    *,
    tell: Callable[[dict[int, Step]], None],
) -> dict[int, Step]:
    """Each step by its number. `binding` are the people whose caps set the peak."""
    measured = [number for number, step in enumerate(steps) if step.is_measured]
    theirs = [n for n in measured if dict(steps[n].about).get("person") in binding]
    judged = _bounded(inquiry, today, steps, theirs, parts)
    first = _open(judged)[:_FIRST_STEPS]
    _solve(today, steps, judged, first, parts, tell=tell)
    judged |= _bounded(inquiry, today, steps, [n for n in measured if n not in judged], parts)
    for number, change in enumerate(steps):
        if number not in judged:
            judged[number] = _structural(today, change, parts)
    others = [number for number in _open(judged) if number not in first]
    _solve(today, steps, judged, others, parts, tell=tell)
    return judged


def _open(judged: dict[int, Step]) -> list[int]:
    """The steps that bounds leave open, the lowest bound first."""
    return sorted(
        (number for number, step in judged.items() if is_open(step)),
        key=lambda number: (judged[number].bound or 0, number),
    )


def _solve(
    today: _Today,
    steps: list[Change],
    judged: dict[int, Step],
    order: list[int],
    parts: Parts,
    *,
    tell: Callable[[dict[int, Step]], None],
) -> None:
    """Replace the steps in `order` by what whole solves say of them."""
    for still, number in zip(range(len(order), 0, -1), order, strict=True):
        left = parts.left()
        part = max(_FEWEST_SECONDS, min(2 * left / still, left / 4))
        seconds = min(_MOST_SECONDS, part, left)
        tell(judged)
        with parts.part(seconds if seconds >= _LEAST_SECONDS else 0.0) as time:
            judged[number] = _solved(today, steps[number], judged[number], time)


def _bounded(
    inquiry: Inquiry, today: _Today, steps: list[Change], numbers: list[int], parts: Parts
) -> dict[int, Step]:
    """Measured steps with what their bounds say; NONE_FOUND for those that must be solved.

    Those that no time was left for are missing.
    """
    if parts.left() <= 0:
        return {}
    probed = [steps[number].apply(today.problem, PROBE) or today.problem for number in numbers]
    bounds = inquiry.peak_bounds(probed, ONE, parts.watch)
    return {
        number: _step(today, steps[number], bound)
        for number, bound in zip(numbers, bounds, strict=False)
    }


def _structural(today: _Today, change: Change, parts: Parts) -> Step:
    """A step that changes more than a cap, by the bound of a relaxation of its own."""
    if parts.left() <= 0:
        return told_as(change, Verdict.NOT_TRIED)
    changed = change.apply(today.problem, 0)
    if changed is None:
        return _without_plan(told_as(change, Verdict.NO_PLAN), "Nothing would be left of it.")
    faults, timeline = examine(changed)
    if faults:
        return _without_plan(told_as(change, Verdict.NO_PLAN), faults[0].detail)
    request = check_request(changed, timeline)
    if request.findings:
        return _without_plan(told_as(change, Verdict.NO_PLAN), request.findings[0].message)
    if change.tightens and _stands(request, today):
        # No plan with less room has a lower peak than the best one with more.
        proven = today.bound >= today.peak
        verdict = Verdict.SAME_PROVEN if proven else Verdict.NONE_FOUND
        return replace(
            told_as(change, verdict), peak=today.peak, bound=today.bound, gain=0, proven=proven
        )
    with parts.part(_BOUND_SECONDS) as time:
        bound = Inquiry.of(changed, today.limits, timeline).bound(time.wall_seconds)
    if bound is None:
        return _without_plan(told_as(change, Verdict.NO_PLAN), _NOT_EVEN_DIVISIBLE)
    return _step(today, change, bound)


def _stands(request: RequestReport, today: _Today) -> bool:
    """Whether today's plan keeps every rule of a changed problem, with the same peak."""
    report = check_plan(request, today.plan)
    return not report.findings and dict(report.goals)["peak_load"] == today.peak


def _step(today: _Today, change: Change, bound: int) -> Step:
    if bound > today.peak:
        return replace(
            told_as(change, Verdict.RAISES), bound=bound, gain=today.peak - bound, proven=True
        )
    if bound >= today.peak:
        return replace(told_as(change, Verdict.SAME_PROVEN), bound=bound, gain=0, proven=True)
    return replace(told_as(change, Verdict.NONE_FOUND), bound=bound)


def _words(refused: Infeasible) -> str:
    """Why there is no plan, in short."""
    return refused.conflicts[0].message if refused.conflicts else _NOT_EVEN_DIVISIBLE


def _without_plan(step: Step, reason: str) -> Step:
    return replace(step, verdict=Verdict.NO_PLAN, reason=reason)


def _solved(today: _Today, change: Change, step: Step, watch: Watch) -> Step:
    """A step that may lower the peak, solved whole."""
    changed = change.apply(today.problem, ONE if change.is_measured else 0)
    if watch.wall_seconds <= 0 or changed is None:
        return replace(step, verdict=Verdict.NOT_TRIED)
    try:
        outcome = pipeline.plan(
            changed, replace(today.limits, wall_seconds=watch.wall_seconds), watch
        )
    except FaultyProblemError as error:
        return _without_plan(step, error.faults[0].detail)
    if isinstance(outcome, Infeasible):
        return _without_plan(step, _words(outcome))
    if not isinstance(outcome, Solved):
        return step
    peak = outcome.peak.value
    bound = max(step.bound or 0, outcome.peak.bound or 0)
    if peak < today.peak:
        return replace(
            step,
            verdict=Verdict.LOWERS,
            peak=peak,
            bound=bound,
            gain=today.peak - peak,
            proven=peak < today.bound,
        )
    return replace(_step(today, change, bound), peak=peak)
