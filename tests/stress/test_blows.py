"""Blows are what can happen: on every day, to what is there."""

from solver.checker.ledger.times import moment_of
from solver.problem import History
from solver.stress.blows import BlowKind, blows
from tests.stress.struck_worlds import ALL, all_blows, replayed


def test_every_day_but_the_last_has_its_storms_and_people():
    """One storm of each length and one blow for each person stand on each day but the last."""
    base = replayed("tiny", 1)
    problem = base.facts.problem
    days = range(1, len(problem.calendar.days))
    found = all_blows(base)
    storms = [(b.day, b.nights) for b in found if b.kind is BlowKind.STORM]
    assert storms == [(day, nights) for day in days for nights in (1, 2)]
    people = [(b.day, b.thing) for b in found if b.kind is BlowKind.PERSON]
    assert people == [(day, p.person_id) for day in days for p in problem.roster]


def test_what_is_lost_stood_there():
    """No pack, cache or stove loses more of a unit than stands at its place that evening."""
    losses = 0
    for kind, seeds in (("tiny", range(20)), ("glacier", range(4))):
        for seed in seeds:
            base = replayed(kind, seed)
            for blow in [] if base is None else all_blows(base):
                evening = moment_of(History(blow.day), base.facts.timeline)
                for place, unit, count in blow.lost:
                    if blow.kind is not BlowKind.CACHE:
                        assert 0 < count <= base.courses[unit].at(evening).get(place, 0)
                    losses += 1
    assert losses


def test_only_the_kinds_that_are_asked_for_come():
    """Each kind can be asked for alone, and all together are the sum."""
    base = replayed("glacier", 2) or replayed("glacier", 3)
    alone = sum(len(list(blows(base, frozenset({kind}), (1,)))) for kind in BlowKind)
    assert alone == len(list(blows(base, ALL, (1,))))
