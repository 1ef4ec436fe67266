"""Hand-overs: units that another person carries than on their trip before."""

from solver.checker.queries.hand_overs import received
from tests.checker.replaying import replay_of
from tests.rules.worlds import item, person, world

PEOPLE = (person("m1"), person("m2"))
GEAR = (item("rope", count=2), item("own", owner_id="m1"))


def test_a_unit_that_changes_its_carrier_is_handed_over_once():
    """One of two ropes goes from m1 to m2 for the way down; what is kept is no hand-over."""
    problem = world(people=PEOPLE, gear=GEAR)
    found = list(received(replay_of(problem, {"m1": "rope*2"}, {"m1": "rope", "m2": "rope"})))
    assert [(h.unit_id, h.person_id, h.units, h.since_day) for h in found] == [("rope", "m2", 1, 1)]


def test_a_personal_item_of_every_trip_is_never_handed_over():
    """Whoever carries it, its rule is another one."""
    problem = world(people=PEOPLE, gear=GEAR)
    assert list(received(replay_of(problem, {"m1": "own"}, {"m2": "own"}))) == []
