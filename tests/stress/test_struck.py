"""A plan that goes on after a loss takes what there still is, and no more."""

from solver.checker import check_request, first_finding
from solver.checker.ledger.replay import replay
from solver.problem import History
from solver.rest.counted import with_counts
from solver.stress.blows import BlowKind
from solver.stress.struck import going_on, struck
from tests.rest.under_way import at, followed, moments
from tests.stress.struck_worlds import all_blows, replayed


def test_where_nothing_happened_the_plan_goes_on_unchanged():
    """At every moment the plan that goes on is the followed one, and breaks nothing."""
    for seed in range(12):
        drawn = followed("tiny", seed)
        if drawn is None:
            continue
        problem, plan = drawn
        for moment in moments(problem):
            request = check_request(at(with_counts(problem, plan), moment))
            onward = going_on(request.facts, plan)
            assert onward.trips == plan.trips
            assert first_finding(request, onward) is None


def test_nobody_takes_what_is_gone():
    """After any loss no load takes more of a lost unit than stands where its trip leaves."""
    cut = 0
    for seed in range(20):
        base = replayed("tiny", seed)
        kinds = frozenset({BlowKind.PACK, BlowKind.CACHE, BlowKind.STOVE})
        for blow in [] if base is None else all_blows(base, kinds):
            facts = check_request(struck(base, blow).problem).facts
            onward = going_on(facts, base.plan)
            courses = replay(facts, onward).courses
            for unit in {unit for _, unit, _ in blow.lost}:
                taken = [s for s in courses[unit].shortages if s.event.leg is not None]
                assert not taken, (seed, blow, unit)
            cut += onward.trips != base.plan.trips
    assert cut >= 3


def test_a_storm_begins_after_the_night_and_a_loss_before_it():
    """The moment of a storm is the morning, that of a loss the evening."""
    base = replayed("tiny", 1)
    for blow in all_blows(base):
        history = struck(base, blow).problem.history
        assert isinstance(history, History)
        assert history.after_night is (blow.kind is BlowKind.STORM)
        assert history.day == blow.day
