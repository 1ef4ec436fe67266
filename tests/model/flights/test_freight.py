"""What flies, and what is said where it cannot."""

from __future__ import annotations

from dataclasses import replace

from solver.model.flights.background import BackgroundFlights
from solver.model.flights.cabin import build_cabin, stock_worth, total
from solver.model.flights.conflicts import describe_conflicts
from solver.model.flights.freight import read_freight, wearers
from solver.model.flights.rules import FLIGHT_BUILDERS
from solver.model.flights.solve_flights import solve_flights
from solver.model.instance.world import World, build_world
from solver.model.run import Run
from solver.outcome import Limits
from solver.problem import FlightDirection, Need, NeedKind, Problem, Purpose
from solver.progress import Watch
from tests.rules.flying import ELSEWHERE, KIT, flight_in, flyer, flying_world, out, stores, thing
from tests.rules.worlds import item, person, world

LIMITS = Limits(wall_seconds=20.0, workers=1, seed=1)


def _problem(**flight: object) -> Problem:
    inbound = flight_in(fuel_with_people=True, **flight)
    problem = flying_world(
        (inbound, replace(out(flight_in()), fuel_with_people=True)),
        people=(flyer(), flyer("m2")),
        gear=(thing("tent", Purpose.SHELTER, places=2), *KIT[1:]),
        **stores(nights=6, fuel_ml=600),
    )
    return replace(problem, rules=replace(problem.rules, switched_off=ELSEWHERE))


def _world(**flight: object) -> World:
    return build_world(_problem(**flight))


def test_what_stands_at_the_start_flies_in_and_what_is_left_flies_out() -> None:
    """Two bags eaten at c1 fly in and not out; the tent does both, the first lunch only in."""
    people = (person("m1", first_lunch_g=300), person("m2"))
    gear = (item("tent", mass_g=3_000),)
    built = build_world(world("strip-c1 c1-strip", people=people, gear=gear))
    inbound, outbound = (read_freight(built, direction) for direction in FlightDirection)
    assert (inbound.is_inbound, outbound.is_inbound) == (True, False)
    assert {p.unit_id: p.count for p in inbound.pieces} == {"tent": 1, "g1/meal": 2}
    assert {p.unit_id: p.count for p in outbound.pieces} == {"tent": 1}
    assert (inbound.total_g, outbound.total_g) == (3_000 + 2 * 10 + 300, 3_000)


def test_worn_things_come_with_whoever_wears_them() -> None:
    """A worn radio of m1 comes with m1, one of nobody's with everybody, a carried one with none."""
    freight = read_freight(_world(), FlightDirection.FLY_IN)
    worn = Need(NeedKind.WORN)
    assert wearers(freight, item("radio", worn, owner_id="m1")) == ("m1",)
    assert wearers(freight, item("radio", worn)) == ("m1", "m2")
    assert wearers(freight, item("radio")) == ()


def test_flights_are_settled_one_direction_after_the_other() -> None:
    """Both flights have a load, with a share of the payload that none can be below."""
    built = _world()
    answer = solve_flights(built, LIMITS, Watch(20.0))
    assert answer.conflicts == ()
    assert [load.person_ids for load in answer.loads] == [("m1", "m2")] * 2
    assert [direction for direction, _, _ in answer.fractions] == list(FlightDirection)
    assert all(0 < fraction <= 10_000 for _, fraction, _ in answer.fractions)


def test_too_few_seats_stop_the_search_beside_and_are_told() -> None:
    """With one seat for two people the search is asked to stop, and the seats are counted."""
    built = _world(seats=1)
    watch = Watch(20.0)
    with BackgroundFlights(built, LIMITS, watch) as flights:
        answer = flights.answer()
        assert watch.should_stop()
    assert not watch.should_stop()
    assert [conflict.rule_id for conflict in answer.conflicts] == ["flight_seats_held"]
    assert "there are 2 people and 1 seats" in answer.conflicts[0].message


def test_rules_that_clash_name_each_other() -> None:
    """Of two rules each conflict says with which other it cannot be kept."""
    freight = read_freight(_world(), FlightDirection.FLY_IN)
    told = describe_conflicts(
        freight, ("everything_flies_once", "flight_seats_held", "nobody_stranded")
    )
    assert [one.rule_id for one in told] == ["flight_seats_held", "nobody_stranded"]
    assert "cannot be kept together with nobody_stranded" in told[0].message


def test_a_cabin_without_rules_has_people_and_units_by_flight() -> None:
    """Who has come stays at the start place on the way in; the largest share is least at 0."""
    freight = read_freight(_world(), FlightDirection.FLY_IN)
    cabin = build_cabin(freight)
    assert list(cabin.numbers) == [0]
    assert set(cabin.on) == {("m1", 0), ("m2", 0)}
    assert list(cabin.there_after(0)) == [0]
    assert [worth for _, worth in cabin.things_after(0, Purpose.SHELTER)] == [2]
    worth = stock_worth(freight.pieces, "g1", fuel=False)
    assert len(cabin.pieces_after(0, worth)) == sum(1 for amount in worth.values() if amount)
    for build in (
        build for rule_id, build in FLIGHT_BUILDERS if rule_id == "everything_flies_once"
    ):
        build(cabin)
    cabin.model.minimize(total(cabin.mass(0)))
    solver = Run(5.0).solver()
    solver.solve(cabin.model)
    assert solver.objective_value == freight.total_g
