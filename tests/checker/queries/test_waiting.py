"""Who and what is at the start place between flights."""

from solver.checker.ledger.facts import read_facts
from solver.checker.ledger.replay import replay
from solver.checker.queries.flights import sides
from solver.checker.queries.waiting import waits
from tests.rules.flying import KIT, day_plan, flight_in, flyer, flying_world, out

FLIGHTS = (flight_in("in-1"), flight_in("in-2"), out(flight_in("in-1")), out(flight_in("in-2")))
PROBLEM = flying_world(FLIGHTS, people=(flyer("m1"), flyer("m2")), gear=KIT)
LOADS = {"in-1": "m1|tent", "in-2": "m2|stove", "out-1": "m1|stove", "out-2": "m2|tent"}


def _waits():
    replayed = replay(read_facts(PROBLEM), day_plan(PROBLEM, LOADS))
    return [list(waits(side)) for side in sides(replayed)]


def test_people_and_things_gather_flight_by_flight():
    """After the first flight in one person waits with the tent, after the second both."""
    first, second = _waits()[0]
    assert [p.person_id for p in first.people] == ["m1"]
    assert (first.counts["tent"], first.counts["stove"]) == (1, 0)
    assert [p.person_id for p in second.people] == ["m1", "m2"]
    assert (first.is_first, second.is_first) == (True, False)
    assert second.members("g1") == 2


def test_who_is_left_waits_with_what_has_not_flown():
    """After the first flight out m2 is left with the tent; after the last nobody waits."""
    (left,) = _waits()[1]
    assert [p.person_id for p in left.people] == ["m2"]
    assert (left.counts["tent"], left.counts["stove"]) == (1, 0)
    assert not left.is_first
