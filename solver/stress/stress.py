"""The whole stress test of a plan within a time, with equal states settled once.

First every state is judged by arithmetic. Then states that this leaves open are planned anew,
those with the fewest trips to come first, because they cost least. What is open when the time is
over is *not settled*, and counted so.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable
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


@dataclass(frozen=True, slots=True)
class Stress:
    """What to test: kinds of blows, lengths of storms [nights], and the time for it [s].

    `may_use` are the kinds of reserves that a re-plan may give up where it must.

    `now` is a clock that only goes forward [s]; `tell` hears the states settled, of how many.
    """

    kinds: frozenset[BlowKind]
    storm_nights: tuple[int, ...]
    may_use: frozenset[ReserveKind]
    wall_seconds: float
    now: Callable[[], float]
    tell: Callable[[int, int], None] = lambda _settled, _states: None
    should_stop: Callable[[], bool] = lambda: False


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


def _latest_first(
    states: dict[tuple[object, ...], Blow],
) -> Iterable[tuple[tuple[object, ...], Blow]]:
    return sorted(states.items(), key=lambda entry: -entry[1].day)


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
    kept_back = stress.wall_seconds * (1 - ARITHMETIC_SHARE)
    done = 0
    known: dict[tuple[object, ...], Settled] = {}
    for state, blow in _latest_first(states):
        if clock.left() <= kept_back:
            break
        alike = (blow.kind, blow.thing, _next_hauled(base, blow))
        found = known.get(alike) or by_arithmetic(base, struck(base, blow), stress.may_use)
        if blow.kind is BlowKind.SLED and found.verdict in _SURVIVED:
            known[alike] = found
        settled[state] = found
        done += settled[state].verdict is not Verdict.NOT_SETTLED
        stress.tell(done, len(states))
    to_come = Counter(r.trip.day for r in base.records)
    open_states = sorted(
        (state for state, one in settled.items() if one.verdict is Verdict.NOT_SETTLED),
        key=lambda state: sum(n for day, n in to_come.items() if day > states[state].day),
    )
    kept_back = stress.wall_seconds * (1 - PLANNING_SHARE)
    for state in open_states:
        seconds = min((clock.left() - kept_back) / 2, LONGEST_PLAN_SECONDS)
        if seconds < SHORTEST_PLAN_SECONDS:
            break
        found = by_planning(base, struck(base, states[state]), stress.may_use, seconds, clock)
        settled[state] = replace(found, why=found.why or settled[state].why)
        done += found.verdict is not Verdict.NOT_SETTLED
        stress.tell(done, len(states))
    return settled
