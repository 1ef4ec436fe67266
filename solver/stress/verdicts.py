"""Whether a plan survives a blow: by arithmetic first, by a plan of the rest where that is open.

*Stands*: the followed plan, without what is gone and later by the nights waited, breaks no hard
rule from there on. *After re-plan*: another plan of the rest does. *No*: there is none. *Not
settled*: the time that was allowed did not tell.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace

from solver.checker import check_hard_request, first_finding
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import moment_of
from solver.errors import FaultyProblemError, WithheldPlanError
from solver.outcome import Infeasible, Limits, Solved
from solver.problem import History, Problem, ReserveKind, Standing, read_timeline
from solver.progress import Watch
from solver.rest.counted import with_lost_fuel_burnt, without_lost_items
from solver.rest.menus import eat_what_is_left
from solver.rest.planning import plan_rest
from solver.rest.result import LettingGo
from solver.rest.shortfalls import shortfalls
from solver.rest.wait import Spent, with_nights_waited, without_planning_rules
from solver.stress.hand_over import handed_over
from solver.stress.report import Settled, Verdict
from solver.stress.struck import Struck, going_on


@dataclass(frozen=True, slots=True)
class Clock:
    """What time there is: `left` [s] may still be spent, 0 once it is over."""

    left: Callable[[], float]
    should_stop: Callable[[], bool]


def by_arithmetic(replay: Replay, state: Struck, may_use: frozenset[ReserveKind]) -> Settled:
    """The verdict that needs no search: stands, after re-plan, no, or not settled yet.

    Reserves of the kinds that `may_use` names may be given up. It is *no* where even then the
    nights to come lack food or fuel that nobody has, or what is left breaks a rule whatever is
    carried by whom.
    """
    problem, spent = with_nights_waited(_counted(replay, state.problem), state.wait_nights)
    request = check_hard_request(problem)
    plan = going_on(request.facts, replay.plan, state.wait_nights)
    why = state.changes_loads
    if not why:
        broken = first_finding(request, plan)
        if broken is None:
            return Settled(Verdict.STANDS, "", spent)
        why = broken.message
    bare, given_up = _without_reserves(problem, may_use)
    fed = eat_what_is_left(bare, read_timeline(bare))
    without = request if fed == problem else check_hard_request(fed)
    short = next(iter(shortfalls(fed, without.facts.timeline)), None)
    hopeless = short or next(iter(without.findings), None)
    if hopeless is not None:
        return Settled(Verdict.NO, hopeless.message, spent)
    if state.changes_loads:
        if first_finding(request, handed_over(request.facts, plan)) is None:
            return Settled(Verdict.AFTER_REPLAN, why, spent)
    elif given_up and first_finding(without, plan) is None:
        return Settled(Verdict.AFTER_REPLAN, why, spent + given_up)
    return Settled(Verdict.NOT_SETTLED, why, spent)


def _without_reserves(
    problem: Problem, kinds: frozenset[ReserveKind]
) -> tuple[Problem, tuple[Spent, ...]]:
    """The problem without what is left of these reserves, and what that gives up."""
    given_up = tuple(
        Spent(one, one.nights, "given up") for one in problem.reserves if one.kind in kinds
    )
    if not given_up:
        return problem, ()
    kept = tuple(one for one in problem.reserves if one.kind not in kinds)
    return without_planning_rules(replace(problem, reserves=kept), given_up), given_up


def by_planning(
    replay: Replay,
    state: Struck,
    may_use: frozenset[ReserveKind],
    seconds: float,
    clock: Clock,
) -> Settled:
    """The verdict of a plan of the rest, searched for at most so many seconds [s].

    Any plan will do, so the search ends with the first one that it tells of.
    """
    begun = clock.left()
    watch = Watch(
        seconds,
        now=lambda: begun - clock.left(),
        wish_to_stop=clock.should_stop,
        wish_to_finish=lambda: True,
    )
    try:
        rest = plan_rest(
            state.problem,
            replay.plan,
            Limits(wall_seconds=seconds),
            watch,
            wait_nights=state.wait_nights,
            letting_go=[LettingGo("given up", kind=kind) for kind in sorted(may_use)],
        )
    except FaultyProblemError as error:
        return Settled(Verdict.NOT_SETTLED, error.faults[0].detail)
    except WithheldPlanError:
        return Settled(Verdict.NOT_SETTLED, "a plan was found that did not pass the check")
    if isinstance(rest.outcome, Solved):
        verdict = Verdict.STANDS if rest.is_unchanged else Verdict.AFTER_REPLAN
        return Settled(verdict, "", rest.spent)
    if isinstance(rest.outcome, Infeasible):
        conflicts = rest.outcome.conflicts
        why = conflicts[0].message if conflicts else "no plan of the rest keeps every rule"
        return Settled(Verdict.NO, why, rest.spent)
    return Settled(Verdict.NOT_SETTLED, "", rest.spent)


def _counted(replay: Replay, problem: Problem) -> Problem:
    """The problem without what is gone, with what stands where at its moment."""
    history = problem.history
    if history is None:
        return problem
    if any(c.count < 0 and "/open-" in c.unit_id for c in history.changes):
        problem = with_lost_fuel_burnt(problem)
        history = problem.history or history
    standing = _standing(replay, history)
    return without_lost_items(replace(problem, history=replace(history, standing=standing)))


def _standing(replay: Replay, history: History) -> tuple[Standing, ...]:
    """What stands where at a moment by the plan, with the changes of the history."""
    now = moment_of(history, replay.facts.timeline)
    there: Counter[tuple[str, str]] = Counter()
    for unit_id, course in replay.courses.items():
        if unit_id not in replay.facts.worn:
            for place_id, count in course.at(now).items():
                there[place_id, unit_id] += count
    for change in history.changes:
        there[change.place_id, change.unit_id] += change.count
    return tuple(
        Standing(place_id, unit_id, count)
        for (place_id, unit_id), count in sorted(there.items())
        if count > 0
    )
