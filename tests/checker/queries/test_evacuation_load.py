"""What those who take somebody down would carry, and what they may."""

import pytest

from solver.checker.ledger.facts import read_facts
from solver.checker.queries.evacuation_load import (
    ONE_EACH,
    legs_home,
    mass_of_tents_g,
    mass_taken_g,
    mass_that_may_be_taken_g,
)
from solver.problem import Purpose
from tests.rules.evacuation_worlds import SIX, camp
from tests.rules.worlds import MEAL

TENTS = {Purpose.SHELTER: [(900, 1), (1_000, 2), (2_500, 3)]}


@pytest.mark.parametrize(
    ("leaving", "staying", "mass_g"),
    [(1, 5, 900), (2, 4, 1_000), (3, 3, 1_900), (4, 2, 3_400), (4, 3, None), (6, 0, 4_400)],
)
def test_the_lightest_tents_that_leave_enough_to_the_rest_are_taken(leaving, staying, mass_g):
    """Of tents for one, two and three, those who stay keep cover for all of theirs."""
    assert mass_of_tents_g(TENTS, leaving, staying) == mass_g


def test_the_way_home_leads_over_all_legs_the_first_travelled_first():
    """From c2 the second leg comes before the first."""
    facts = read_facts(camp(days="strip-c1 c1-c2 c2-c1-strip"))
    assert [leg.leg_id for leg in legs_home(facts, "c2")] == ["c1-c2", "strip-c1"]


def test_mass_taken_is_kit_food_and_tents():
    """One of each thing and of rope, the rescue kits, a tent, and two nights of 10 g of food."""
    facts = read_facts(camp(meal=MEAL))
    things = {p: [(10, 3), (10, 3)] for p in (Purpose.ROPE, Purpose.SHELTER, *ONE_EACH)}
    things[Purpose.RESCUE_KIT] = [(10, 0)] * 4
    nights = facts.problem.rules.whole("evacuation_nights")
    kits = facts.problem.rules.whole("least_rescue_kits")
    parties = (list(SIX[:3]), list(SIX[3:]))
    expected = 10 * (1 + len(ONE_EACH) + kits + 1) + 3 * nights * 10
    assert mass_taken_g(facts, parties, "c1", things) == expected


def test_the_ill_person_hardly_carries_anything():
    """Two companions with packs of 20 kg may take those and what the ill person may."""
    facts = read_facts(camp())
    most_ill_g = 1_000 * facts.problem.rules.whole("evacuee_load_kg")
    room_g = mass_that_may_be_taken_g(facts, list(SIX[:3]), "c1", [])
    assert room_g == min(most_ill_g, 20_000) + 2 * 20_000
