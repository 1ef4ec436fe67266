"""Holdings: what counted units are worth, in pieces, night sets, shelter places and mL."""

from dataclasses import replace

from solver.checker.ledger.facts import read_facts
from solver.checker.ledger.times import after_night
from solver.checker.queries.holdings import (
    fuel_ml,
    held,
    held_anywhere,
    held_before,
    in_hand,
    night_sets,
    pieces,
    shelter_places,
    unopened_ml,
)
from solver.problem import Purpose
from tests.checker.replaying import burning, facts_of, replay_of
from tests.rules.party_worlds import WORN, thing
from tests.rules.worlds import MEAL


def test_worn_things_are_no_pieces():
    """Pieces and shelter places are counted of what rides and stands."""
    tent = thing(Purpose.SHELTER, item_id="tent", shelter_places=3)
    bivouac = thing(Purpose.SHELTER, WORN, item_id="sack", shelter_places=1)
    facts = facts_of(gear=(tent, bivouac))
    assert pieces(facts, Purpose.SHELTER) == {"tent": 1}
    assert shelter_places(facts) == {"tent": 3}


def test_a_bag_is_worth_its_sets():
    """Bags of two sets of a group count two, those of others nothing."""
    facts = facts_of(night_sets=(replace(MEAL, sets_per_bag=2), replace(MEAL, cook_group_id="g2")))
    assert night_sets(facts, "g1") == {"g1/meal": 2}
    assert in_hand(night_sets(facts, "g1"), {"g1/meal": 3, "g2/meal": 9}) == 6


def test_fuel_is_what_full_and_open_cans_hold():
    """A full can holds 150 mL, one opened on day 1 has 50 mL left after that night only."""
    facts = read_facts(burning(100, content_ml=150))
    assert unopened_ml(facts, "g1") == unopened_ml(facts) == {"g1/can": 150}
    assert fuel_ml(facts, 0, "g1") == {"g1/can": 150}
    assert fuel_ml(facts, 1) == {"g1/can": 150, "g1/can/open-1": 50}
    assert fuel_ml(facts, 1, "g2") == {}


def test_what_is_held_is_counted_before_and_after_a_night():
    """Two cans at camp hold 300 mL before the night burns 100 mL, and 200 mL after it."""
    replayed = replay_of(burning(100, content_ml=150), {"m1": "g1/meal g1/can*2"}, {})
    time = after_night(replayed.facts.night(1))
    assert held_before(replayed, fuel_ml(replayed.facts, 0), "c1", time) == 300
    after = fuel_ml(replayed.facts, 1)
    assert held(replayed, after, ("c1",), time) == 200
    assert held(replayed, after, ("strip",), time) == 0
    assert held_anywhere(replayed, after, time) == 200
