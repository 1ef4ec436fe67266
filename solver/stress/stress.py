"""The whole stress test of a plan within a time, with equal states settled once.

First every state is judged by arithmetic. Then states that this leaves open are planned anew,
those with the fewest trips to come first, because they cost least. What is open when the time is
over is *not settled*, and counted so.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from solver.checker.ledger.facts import read_facts
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.replay import replay as replay_plan
from solver.plan import Plan
from solver.problem import Problem, ReserveKind
from solver.rest.counted import with_counts
from solver.stress.blows import Blow, BlowKind, blows
from solver.stress.report import Report, Result, Settled, Verdict
from solver.stress.struck import struck
from solver.stress.verdicts import Clock, by_arithmetic, by_planning
from solver.stress.weakest import weakest_day

ARITHMETIC_SHARE = 0.75
"""The share of the time that arithmetic may take [1]."""

PLANNING_SHARE = 0.92
"""The share of the time after which no more states are planned: the rest is for remedies [1]."""

LONGEST_PLAN_SECONDS = 6.0
"""Longest search for one state [s]."""


SHORTEST_PLAN_SECONDS = 0.5
"""Shortest search that is worth a start [s]."""


Judge = Callable[[Blow], Settled]

Judged = Callable[[Sequence[Blow], Judge, Callable[[], bool]], Iterable[tuple[Blow, Settled]]]
"""Blows, how one is judged, and whether the time for it is over: gives verdicts as they come."""


def one_by_one(
    blows: Sequence[Blow], judge: Judge, is_over: Callable[[], bool]
) -> Iterable[tuple[Blow, Settled]]:
    """Judge one blow after the other until the time is over."""
    for blow in blows:
        if is_over():
            return
        yield blow, judge(blow)


@dataclass(frozen=True, slots=True)
class Stress:
    """What to test: kinds of blows, lengths of storms [nights], and the time for it [s].

    `may_use` are the kinds of reserves that a re-plan may give up where it must.

    `now` is a clock that only goes forward [s]; `tell` hears the states settled, of how many.
    `judged` has blows judged, which do not depend on one another, in whatever order is quickest.
    """

    kinds: frozenset[BlowKind]
    storm_nights: tuple[int, ...]
    may_use: frozenset[ReserveKind]
    wall_seconds: float
    now: Callable[[], float]
    tell: Callable[[int, int], None] = lambda _settled, _states: None
    should_stop: Callable[[], bool] = lambda: False
    judged: Judged = one_by_one


def stress_test(problem: Problem, followed: Plan, stress: Stress) -> Report:
    """Strike a plan with every blow that is asked for, one at a time.

    The plan must be one of the problem's, which must not have a history.
    """
    counted = with_counts(problem, followed)
    base = replay_plan(read_facts(counted), followed)
    struck_by = tuple(blows(base, stress.kinds, stress.storm_nights))
    clock = _clock(stress)
    settled = _settle(base, struck_by, stress, clock)
    seen: set[tuple[object, ...]] = set()
    results: list[Result] = []
    for blow in struck_by:
        results.append(Result(blow, settled[blow.state], blow.state in seen))
        seen.add(blow.state)
    told = [(result.blow, result.settled) for result in results]
    return Report(tuple(results), len(seen), weakest_day(base, told, stress.may_use, clock))


def _clock(stress: Stress) -> Clock:
    ends = stress.now() + stress.wall_seconds

    def left() -> float:
        return 0.0 if stress.should_stop() else max(ends - stress.now(), 0.0)

    return Clock(left, stress.should_stop)


_SURVIVED = frozenset({Verdict.STANDS, Verdict.AFTER_REPLAN})


def _latest_first(states: dict[tuple[object, ...], Blow]) -> list[Blow]:
    return sorted(states.values(), key=lambda blow: -blow.day)


def _next_hauled(base: Replay, blow: Blow) -> int | None:
    """The first day to come on which a sled is hauled, None where it never is again.

    A plan that does without it from then on serves whenever it broke since it was hauled last.
    """
    days = (r.trip.day for r in base.records if blow.thing in r.trip.sled_ids)
    return min((day for day in days if day > blow.day), default=None)


def _settle(
    base: Replay, struck_by: Iterable[Blow], stress: Stress, clock: Clock
) -> dict[tuple[object, ...], Settled]:
    """The verdict of each different state."""
    states = {blow.state: blow for blow in reversed(tuple(struck_by))}
    states = dict(reversed(states.items()))
    settled = dict.fromkeys(states, Settled(Verdict.NOT_SETTLED))

    def note(blow: Blow, found: Settled) -> None:
        settled[blow.state] = replace(found, why=found.why or settled[blow.state].why)
        done = sum(one.verdict is not Verdict.NOT_SETTLED for one in settled.values())
        stress.tell(done, len(states))

    _by_arithmetic(base, _latest_first(states), stress, clock, note)
    to_come = Counter(r.trip.day for r in base.records)
    open_states = sorted(
        (blow for state, blow in states.items() if settled[state].verdict is Verdict.NOT_SETTLED),
        key=lambda blow: sum(n for day, n in to_come.items() if day > blow.day),
    )
    kept_back = stress.wall_seconds * (1 - PLANNING_SHARE)

    def seconds() -> float:
        return min((clock.left() - kept_back) / 2, LONGEST_PLAN_SECONDS)

    def planned(blow: Blow) -> Settled:
        return by_planning(base, struck(base, blow), stress.may_use, max(0.1, seconds()), clock)

    for blow, found in stress.judged(
        open_states, planned, lambda: seconds() < SHORTEST_PLAN_SECONDS
    ):
        note(blow, found)
    return settled


def _by_arithmetic(
    base: Replay,
    in_order: Sequence[Blow],
    stress: Stress,
    clock: Clock,
    note: Callable[[Blow, Settled], None],
) -> None:
    """Judge states by arithmetic, of sleds that are hauled again the same day one at first.

    What survives without it serves the others, too; they are judged where it does not.
    """
    kept_back = stress.wall_seconds * (1 - ARITHMETIC_SHARE)
    groups: dict[tuple[object, ...], list[Blow]] = {}
    for blow in in_order:
        groups.setdefault(_alike(base, blow), []).append(blow)

    def judge(blow: Blow) -> Settled:
        return by_arithmetic(base, struck(base, blow), stress.may_use)

    def is_over() -> bool:
        return clock.left() <= kept_back

    known: dict[Blow, Settled] = {}
    for blow, found in stress.judged([first for first, *_ in groups.values()], judge, is_over):
        known[blow] = found
        note(blow, found)
    left: list[Blow] = []
    for first, *others in groups.values():
        if first in known and known[first].verdict in _SURVIVED:
            for blow in others:
                note(blow, known[first])
        else:
            left += others
    for blow, found in stress.judged(left, judge, is_over):
        note(blow, found)


def _alike(base: Replay, blow: Blow) -> tuple[object, ...]:
    """What blows have in common of which one plan may serve all."""
    if blow.kind is not BlowKind.SLED:
        return blow.state
    return blow.kind, blow.thing, _next_hauled(base, blow)
