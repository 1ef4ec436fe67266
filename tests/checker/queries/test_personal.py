"""Whether a thing is with its owner wherever that is."""

import pytest

from solver.checker.queries.personal import (
    always_with,
    lists_clothing,
    nights_of,
    reaches,
    trips_of,
    with_owner_at,
    with_owner_on,
)
from solver.problem import Need, NeedKind, Purpose
from tests.checker.replaying import facts_of
from tests.rules.party_worlds import WORN, thing

DAYS = "strip-c1 c1-c2 c2-c1-strip"


def _thing(need):
    return thing(Purpose.WARM_JACKET, need, owner_id="m1")


@pytest.mark.parametrize(
    ("need", "places"),
    [
        (Need(NeedKind.EVERY_TRIP), ["strip", "c1", "c2"]),
        (Need(NeedKind.EVERY_TRIP, up_to="c1"), ["strip", "c1"]),
        (Need(NeedKind.EVERY_TRIP, from_place="c1"), ["c1", "c2"]),
    ],
)
def test_a_range_of_the_route_is_reached_with_its_ends(need, places):
    """Both ends of a range belong to it."""
    facts = facts_of(DAYS)
    assert [p for p in ("strip", "c1", "c2") if reaches(facts, _thing(need), p)] == places


def test_things_of_trips_are_with_their_owner_on_trips_and_nights():
    """An item of every night is with its owner at night only; a worn one always."""
    facts = facts_of(DAYS)
    first = facts.timeline.trips[0]
    nightly, worn = _thing(Need(NeedKind.EVERY_NIGHT)), _thing(WORN)
    assert not with_owner_on(facts, nightly, first)
    assert with_owner_at(facts, nightly, "c1")
    assert with_owner_on(facts, worn, first)
    assert with_owner_at(facts, worn, "c2")
    assert (always_with(facts, nightly), always_with(facts, worn)) == (False, True)


def test_what_goes_no_further_than_a_camp_is_not_always_with_its_owner():
    """Beyond c1 the jacket stays behind."""
    facts = facts_of(DAYS)
    assert always_with(facts, _thing(Need(NeedKind.EVERY_TRIP)))
    assert not always_with(facts, _thing(Need(NeedKind.EVERY_TRIP, up_to="c1")))


def test_nights_and_trips_are_those_of_the_person():
    """Places of nights are told once each, in order; clothing is seen by its purpose."""
    facts = facts_of(DAYS, gear=(_thing(WORN),))
    assert nights_of(facts, "m1") == ["c1", "c2"]
    assert len(trips_of(facts, "m1")) == 4
    assert lists_clothing(facts, "m1")
    assert not lists_clothing(facts, "m2")
