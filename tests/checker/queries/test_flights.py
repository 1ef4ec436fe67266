"""What a plan puts on its flights."""

from solver.checker.ledger.facts import read_facts
from solver.checker.ledger.replay import replay
from solver.checker.queries.flights import flights_of, flying_mass_g, sides
from solver.problem import FlightDirection
from tests.rules.flying import KIT, day_plan, flight_in, flyer, flying_world, out, stores
from tests.rules.worlds import person, world

IN = flight_in(volume_ml=20_000)
PROBLEM = flying_world((IN, out(IN)), gear=KIT, **stores())


def _sides(loads):
    return sides(replay(read_facts(PROBLEM), day_plan(PROBLEM, loads)))


def test_a_direction_flies_what_stands_at_the_start_place_then():
    """Five things of kit, three bags and a can are to be flown in, and the same out."""
    inbound, outbound = _sides({"in-1": "m1|tent g1/can g1/meal*3"})
    assert inbound.counts["tent"] == 1
    assert inbound.counts["g1/can"] == 1
    assert (inbound.is_planned, outbound.is_planned) == (True, False)


def test_a_flight_weighs_its_people_and_cargo():
    """100 kg of person, a tent of 1 kg, three bags of 0.5 kg; known units only."""
    inbound, _ = _sides({"in-1": "m1|tent g1/meal*3 ghost"})
    (flown,) = inbound.flights
    assert dict(flown.counts) == {"tent": 1, "g1/meal": 3}
    assert inbound.mass_g(flown) == 100_000 + 1_000 + 1_500
    assert inbound.volume_ml(flown) == 1_000 + 3_000


def test_flights_keep_their_order_by_direction():
    """Flights in and out are told apart; a problem without flights has no sides."""
    assert [f.flight_id for f in flights_of(PROBLEM, FlightDirection.FLY_OUT)] == ["out-1"]
    ground = world()
    assert sides(replay(read_facts(ground), day_plan(ground, {}))) == ()


def test_the_first_lunch_flies_in_with_its_person():
    """What was weighed counts both ways, the lunch only on the way in."""
    problem = world(people=(person("m1", first_lunch_g=300),))
    weighed = flyer(mass_g=90_000)
    (eater,) = problem.roster
    assert flying_mass_g(problem, weighed, FlightDirection.FLY_IN) == 90_000
    assert flying_mass_g(problem, eater, FlightDirection.FLY_IN) == 300
    assert flying_mass_g(problem, eater, FlightDirection.FLY_OUT) == 0
