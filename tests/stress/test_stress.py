"""A whole stress test: each blow has a verdict, equal states share one, open ones are counted."""

import time
from dataclasses import replace
from itertools import count

import pytest

from solver.problem import ReserveKind
from solver.stress.blows import Blow, BlowKind
from solver.stress.report import Settled, Verdict
from solver.stress.stress import Stress, stress_test
from solver.stress.struck import struck
from solver.stress.verdicts import Clock, by_arithmetic
from solver.stress.weakest import weakest_day
from tests.rest.under_way import followed
from tests.stress.struck_worlds import ALL, all_blows, replayed

STRESS = Stress(ALL, (1, 2), frozenset({ReserveKind.STORM}), 30.0, time.monotonic)
ENDLESS = Clock(lambda: 60.0, lambda: False)


def _world(seed: int):
    drawn = followed("tiny", seed)
    if drawn is None:
        pytest.skip("this drawn world has no plan")
    return drawn


@pytest.mark.parametrize("seed", range(4))
def test_every_blow_of_a_tiny_world_is_settled(seed: int):
    """With time enough nothing stays open, the counts add up, and progress is told."""
    told: list[tuple[int, int]] = []
    report = stress_test(*_world(seed), replace(STRESS, tell=lambda *settled: told.append(settled)))
    counts = [report.count(verdict) for verdict in Verdict]
    assert sum(counts) == len(report.results)
    assert report.count(Verdict.NOT_SETTLED) == 0
    assert report.states == sum(not result.is_merged for result in report.results)
    assert told[-1][0] == told[-1][1] == report.states


def test_without_time_every_blow_is_counted_as_not_settled():
    """A clock that runs out at once settles nothing and invents nothing."""
    ticks = count(0, 1000)
    report = stress_test(*_world(1), replace(STRESS, now=lambda: float(next(ticks))))
    assert report.results
    assert report.count(Verdict.NOT_SETTLED) == len(report.results)


def test_a_wish_to_stop_ends_the_test():
    """Who asks to finish gets what is settled, and the rest as not settled."""
    report = stress_test(*_world(1), replace(STRESS, should_stop=lambda: True))
    assert report.count(Verdict.NOT_SETTLED) == len(report.results)


def test_blows_that_leave_the_same_state_are_equal():
    """One stove lost alone and a cache that held nothing else are one state; other days are not."""
    lost = (("c1", "stove", 1),)
    stove = Blow(BlowKind.STOVE, 3, ("c1",), "stove", lost=lost)
    cache = Blow(BlowKind.CACHE, 3, ("c1",), "c1", lost=lost)
    assert stove.state == cache.state
    assert stove.state != replace(cache, day=4).state
    storm = Blow(BlowKind.STORM, 3, ("c1",), nights=1)
    assert storm.state != replace(storm, nights=2).state


def test_a_sled_judged_once_is_judged_alike_on_each_day():
    """What is taken over from a later day is what the day's own arithmetic says."""
    shared = 0
    for seed in range(40):
        drawn, base = followed("tiny", seed), replayed("tiny", seed)
        if drawn is None or base is None or not drawn[0].sleds:
            continue
        only = replace(STRESS, kinds=frozenset({BlowKind.SLED}), may_use=frozenset())
        for result in stress_test(*drawn, only).results:
            own = by_arithmetic(base, struck(base, result.blow), frozenset()).verdict
            if own is not Verdict.NOT_SETTLED:
                assert result.verdict is own
                shared += 1
    assert shared >= 3


def test_the_weakest_day_has_most_blows_that_end_the_plan():
    """Of two days with as many the earlier is named, and a plan that always stands has none."""
    base = replayed("tiny", 1)
    assert base is not None
    blows = all_blows(base)
    first, last = 1, 2

    def told(*verdicts: tuple[int, Verdict]):
        return [
            (replace(blows[0], day=day, lost=()), Settled(verdict)) for day, verdict in verdicts
        ]

    stands = told((first, Verdict.STANDS), (last, Verdict.STANDS))
    assert weakest_day(base, stands, frozenset(), ENDLESS) is None
    even = told((last, Verdict.NOT_SETTLED), (first, Verdict.NOT_SETTLED))
    found = weakest_day(base, even, frozenset(), ENDLESS)
    assert (found.day, found.no, found.not_settled) == (first, 0, 1)


def test_one_more_of_what_was_lost_helps_where_that_alone_was_missing():
    """Each remedy that is named turns so many blows of the weakest day, as arithmetic confirms."""
    named = 0
    for seed in range(40):
        drawn = followed("tiny", seed)
        if drawn is None:
            continue
        weakest = stress_test(*drawn, STRESS).weakest
        if weakest is not None:
            for one in weakest.one_more:
                assert 1 <= one.helps <= weakest.no
                named += 1
        if named >= 3:
            return
    assert named
