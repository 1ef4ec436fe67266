"""Parties on crevassed legs, and what rides with them."""

import pytest

from solver.checker.ledger.facts import read_facts
from solver.checker.queries.parties import (
    crevassed_parties,
    least_people,
    party_where,
    units_riding,
)
from solver.problem import Hazard, Purpose
from tests.rules.party_worlds import GUIDED, WORN, thing
from tests.rules.worlds import EVERY_NIGHT, on_glacier, world


def test_the_same_people_on_crevassed_legs_are_one_party():
    """Six people together up and down make one party of two ropes with two guides."""
    facts = read_facts(on_glacier(world(people=GUIDED)))
    (party,) = crevassed_parties(facts)
    assert (party.guides, party.rope_teams, len(party.trips)) == (2, 2, 2)
    assert party.words.startswith("guide-1, c1-1")
    assert party_where(party, party.trips[0])[-1] == ("person", "guide-1")


def test_without_a_hazard_there_is_no_party():
    """Legs that give no hazard are not crevassed."""
    assert crevassed_parties(read_facts(world(people=GUIDED))) == []


@pytest.mark.parametrize(
    ("hazard", "name"),
    [(Hazard.LOW, "least_party_low_hazard_people"), (Hazard.HIGH, "least_party_people")],
)
def test_the_least_party_depends_on_the_hazard(hazard, name):
    """Each hazard has its own number; no hazard asks for one person."""
    facts = read_facts(world())
    assert least_people(facts, hazard) == facts.problem.rules.whole(name)
    assert least_people(facts, None) == 1


def test_what_must_ride_or_is_worn_rides():
    """Two ropes of every trip and six worn kits ride; a tent for the nights need not."""
    gear = (
        thing(Purpose.ROPE, count=2),
        thing(Purpose.RESCUE_KIT, WORN, count=6),
        thing(Purpose.SHELTER, EVERY_NIGHT, shelter_places=6),
    )
    facts = read_facts(world(people=GUIDED, gear=gear))
    (up, _) = facts.timeline.trips
    riding = [units_riding(facts, p, up) for p in (Purpose.ROPE, Purpose.RESCUE_KIT)]
    assert riding == [2, 6]
    assert units_riding(facts, Purpose.SHELTER, up) == 0
