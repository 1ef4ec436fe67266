"""Repackings: units that a person moves from the pack to the sled, or back."""

from solver.checker.queries.repackings import repackings
from solver.problem import Sled
from tests.checker.replaying import replay_of
from tests.rules.worlds import item, person, world

PEOPLE = (person("m1", sled_g=40_000), person("m2"))
SLEDS = (Sled("s1", "m1", 0, 60_000, 90_000),)


def _repacked(*loads: dict[str, str], days: str = "strip-c1-strip"):
    problem = world(
        days,
        people=PEOPLE,
        gear=(item("rope", count=4),),
        sleds=SLEDS,
        sled_leg_factors=(100, 100),
    )
    found = repackings(replay_of(problem, *loads))
    return [(one.unit_id, one.person_id, one.units, one.weight) for one in found]


def test_at_a_stop_a_unit_weighs_three_times_as_much_as_over_night():
    """Of three ropes two go from the pack to the sled."""
    loads = {"m1": "rope*3"}, {"m1": "rope | rope*2"}
    assert _repacked(*loads) == [("rope", "m1", 2, 3)]
    assert _repacked(*loads, days="strip-c1 c1-strip") == [("rope", "m1", 2, 1)]


def test_what_somebody_takes_up_or_sets_down_is_not_repacked():
    """Two ropes more on the sled come from m2, who took them along in the pack."""
    assert _repacked({"m1": "rope", "m2": "rope*2"}, {"m1": "rope | rope*2"}) == []
    assert _repacked({"m1": "rope | rope*2"}, {"m1": "rope", "m2": "rope*2"}) == []


def test_without_a_sled_on_both_trips_nothing_is_repacked():
    """Beyond the sled leg what was on the sled has to go into the pack."""
    loads = {"m1": "| rope"}, {"m1": "rope"}, {"m1": "rope"}, {"m1": "| rope"}
    assert _repacked(*loads, days="strip-c1-c2 c2-c1-strip") == []
