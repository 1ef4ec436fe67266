"""Loads that are handed over are carried by somebody, whole, and by nobody who cannot."""

from collections import Counter

from solver.checker import check_request
from solver.stress.blows import BlowKind
from solver.stress.hand_over import handed_over
from solver.stress.struck import going_on, struck
from tests.stress.struck_worlds import all_blows, replayed


def _ride(trip):
    return Counter(
        {
            unit: sum(
                s.count for ld in trip.loads for s in (*ld.pack, *ld.sled) if s.unit_id == unit
            )
            for unit in {s.unit_id for ld in trip.loads for s in (*ld.pack, *ld.sled)}
        }
    )


def test_what_a_broken_sled_held_rides_with_others():
    """Nothing rides on it any more; what moves is what moved before, all of it where it fits."""
    whole = 0
    for seed in range(25):
        for kind in ("tiny",):
            base = replayed(kind, seed)
            for blow in [] if base is None else all_blows(base, frozenset({BlowKind.SLED})):
                facts = check_request(struck(base, blow).problem).facts
                before = going_on(facts, base.plan)
                after = handed_over(facts, before)
                for old, new in zip(before.trips, after.trips, strict=True):
                    assert _ride(new) <= _ride(old)
                    whole += old != new and _ride(new) == _ride(old)
                    if new.day > blow.day:
                        assert all(load.sled_id != blow.thing for load in new.loads)
    assert whole >= 3


def test_a_spared_person_keeps_own_vital_things_only():
    """Who can carry nothing has nothing that is shared."""
    seen = 0
    for seed in range(12):
        base = replayed("tiny", seed)
        for blow in [] if base is None else all_blows(base, frozenset({BlowKind.PERSON})):
            facts = check_request(struck(base, blow).problem).facts
            after = handed_over(facts, going_on(facts, base.plan))
            shared = {i.unit_id for i in facts.problem.gear if i.owner_id is None}
            for trip in after.trips:
                for load in trip.loads:
                    alone = len(trip.loads) == 1
                    if trip.day > blow.day and load.person_id == blow.thing and not alone:
                        assert not shared & {s.unit_id for s in (*load.pack, *load.sled)}
                        seen += 1
    assert seen >= 3
