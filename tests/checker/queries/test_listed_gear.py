"""What the gear lists for a purpose."""

from dataclasses import replace

from solver.checker.queries.listed_gear import (
    human_waste_containers,
    is_listed,
    listed_items,
    units_of,
)
from solver.problem import Purpose
from tests.checker.replaying import facts_of
from tests.rules.party_worlds import WORN, thing


def test_units_of_a_purpose_are_counted_worn_ones_too():
    """Two stoves in one item and one worn on a belt are three."""
    stoves = thing(Purpose.STOVE, count=2)
    belt = thing(Purpose.STOVE, WORN, item_id="belt")
    facts = facts_of(gear=(stoves, thing(Purpose.POT), belt))
    assert listed_items(facts, Purpose.STOVE) == (stoves, belt)
    assert units_of(facts, Purpose.STOVE) == 3
    assert is_listed(facts, Purpose.POT)
    assert not is_listed(facts, Purpose.ROPE)


def test_a_waste_container_of_which_there_is_none_is_no_container():
    """An item with a count of zero is listed, and holds nothing."""
    bucket = thing(Purpose.HUMAN_WASTE_CONTAINER)
    facts = facts_of(gear=(bucket, replace(bucket, item_id="none", count=0)))
    assert human_waste_containers(facts) == (bucket,)
