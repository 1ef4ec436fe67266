"""What people at the start place lack for nights there."""

from dataclasses import replace

from solver.checker.ledger.facts import read_facts
from solver.checker.ledger.replay import replay
from solver.checker.queries.flights import sides
from solver.checker.queries.strip_kit import fuel_need_ml, lacks
from solver.checker.queries.waiting import waits
from solver.problem import CookGroup, Purpose
from tests.rules.flying import KIT, WORN, day_plan, flight_in, flying_world, stores, thing

IN = flight_in()


def _lacks(load, gear=KIT):
    problem = flying_world((IN,), gear=gear, **stores())
    replayed = replay(read_facts(problem), day_plan(problem, {"in-1": load}))
    (side,) = sides(replayed)
    (waiting,) = waits(side)
    return [(lack.thing, lack.amount) for lack in lacks(waiting, (Purpose.STOVE,), 3)]


def test_with_all_of_it_nothing_is_lacking():
    """A tent for one, a stove, three night sets and 300 mL do for three nights."""
    assert _lacks("m1|tent stove g1/meal*3 g1/can") == []


def test_each_missing_thing_is_told_with_its_amount():
    """One place, one stove, two night sets and 300 mL are missing."""
    assert _lacks("m1|g1/meal") == [
        ("shelter", 1),
        ("stove", 1),
        ("food of g1", 2),
        ("fuel of g1", 300),
    ]


def test_a_worn_thing_is_at_hand_with_who_wears_it():
    """A stove on the belt of the one who waits is a stove."""
    belt = replace(thing("belt", Purpose.STOVE), need=WORN)
    assert ("stove", 1) not in _lacks("m1|tent g1/meal*3 g1/can", (*KIT[:1], belt))


def test_fuel_is_that_of_the_start_places_set_with_the_margin():
    """Three nights of 100 mL are 300 mL, and 330 mL with a margin of a tenth."""
    problem = flying_world((IN,), gear=KIT, **stores())
    (group,) = problem.cook_groups
    assert fuel_need_ml(problem, group, {"g1": 3}) == 300
    assert fuel_need_ml(replace(problem, fuel_margin_percent=10), group, {"g1": 3}) == 330


def test_fuel_of_a_kitchen_is_for_its_guests_too():
    """Three nights of one of the kitchen and three of a guest are 600 mL of the kitchen's."""
    problem = flying_world((IN,), gear=KIT, **stores())
    (group,) = problem.cook_groups
    guest = CookGroup("g2", group.set_at, kitchen_of="g1")
    sets = (*problem.night_sets, replace(problem.night_sets[0], cook_group_id="g2"))
    both = replace(problem, cook_groups=(group, guest), night_sets=sets)
    assert fuel_need_ml(both, group, {"g1": 3, "g2": 3}) == 600
