"""Where things stand on a night whatever the plan."""

from solver.checker.queries.at_night import NOWHERE, sleds_at, stands_at, sure_units
from solver.problem import Need, NeedKind, Purpose, Sled
from tests.checker.replaying import facts_of
from tests.rules.party_worlds import WORN, thing

TENT = thing(Purpose.SHELTER, Need(NeedKind.AT_PLACE, up_to="c1"), item_id="tent", count=2)
SLED = Sled("pulk", "m1", tare_g=5_000, mass_limit_g=50_000, volume_ml=10**6)


def test_an_item_of_a_place_is_there_in_its_time_only():
    """The tent for c1 is there on the first night, and anywhere once its people came home."""
    facts = facts_of("strip-c1 c1-strip strip", gear=(TENT,))
    first, second = facts.timeline.nights
    assert stands_at(facts, TENT, first) == "c1"
    assert stands_at(facts, TENT, second) == NOWHERE
    assert sure_units(facts, TENT, first, "c1") == 2
    assert sure_units(facts, TENT, second, "c1") == 0


def test_worn_units_are_where_their_people_sleep():
    """One worn shelter for the only person is at c1 with that person."""
    sack = thing(Purpose.SHELTER, WORN, item_id="sack")
    facts = facts_of(gear=(sack,))
    (night,) = facts.timeline.nights
    assert sure_units(facts, sack, night, "c1") == 1
    assert sure_units(facts, sack, night, "strip") == 0


def test_a_sled_stands_where_it_was_last_hauled_to():
    """Hauled to c1 it is there at night while its hauler sleeps at c2."""
    facts = facts_of("strip-c1-c2 c2-c1-strip", sleds=(SLED,), sled_leg_factors=(100, 100))
    (night,) = facts.timeline.nights
    assert sleds_at(facts, night, ("c1",)) == ["pulk"]
    assert sleds_at(facts, night, ("strip", "c2")) == []
