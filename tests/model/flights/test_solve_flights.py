"""Flights through the pipeline: against all ways tried, edited by hand, and refused in words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.checker import check
from solver.outcome import Infeasible, Limits, Solved
from solver.pipeline import plan
from solver.problem import Need, NeedKind, Problem, Purpose
from tests.pipeline.tiny_flights import largest_share, least_fraction, tiny_flights
from tests.rules.flying import ELSEWHERE, KIT, flight_in, flyer, flying_world, out, stores, thing
from tests.rules.worlds import person, world

STEADY = Limits(wall_seconds=30.0, workers=1, seed=1)
SHOVEL = thing("shovel", Purpose.SHOVEL)
TENT_FOR_TWO = (thing("tent", Purpose.SHELTER, places=2), SHOVEL, *KIT[1:])


def _asked_in_full(problem: Problem) -> Problem:
    """The problem with all rules of flights asked."""
    return replace(problem, rules=replace(problem.rules, switched_off=ELSEWHERE))


TEAM = _asked_in_full(
    flying_world(
        (
            flight_in(fuel_with_people=True),
            flight_in("in-2", seats=1),
            replace(out(flight_in()), fuel_with_people=True),
        ),
        people=(flyer(), flyer("m2")),
        gear=TENT_FOR_TWO,
        **stores(nights=6, fuel_ml=600),
    )
)
"""Two people with all they need, and seats for one of them on each flight in."""


def _solved(problem: Problem) -> Solved:
    outcome = plan(problem, STEADY)
    assert isinstance(outcome, Solved)
    return outcome


def _refused(problem: Problem) -> Infeasible:
    outcome = plan(problem, STEADY)
    assert isinstance(outcome, Infeasible)
    return outcome


SEEDS = range(12)


@pytest.mark.parametrize("seed", SEEDS)
def test_no_way_of_loading_has_a_smaller_largest_share(seed):
    """Flights are loaded where any way is allowed, and none has a less loaded fullest flight."""
    problem = tiny_flights(seed)
    least = least_fraction(problem)
    outcome = plan(problem, STEADY)
    if least is None:
        assert isinstance(outcome, Infeasible)
    else:
        assert isinstance(outcome, Solved)
        assert largest_share(problem, outcome.plan) == least


def test_the_tiny_worlds_are_of_both_kinds():
    """Of the worlds that are tried in full some have a way of loading and some have none."""
    kinds = {isinstance(plan(tiny_flights(seed), STEADY), Solved) for seed in SEEDS}
    assert kinds == {True, False}


def test_the_same_request_flies_the_same():
    """Solved twice, people and units are on the same flights."""
    assert _solved(TEAM).plan.flights == _solved(TEAM).plan.flights


def test_a_request_without_flights_has_none():
    """Without flights in the request the plan has none, and nobody's mass is asked."""
    outcome = _solved(world(people=(person(),)))
    assert outcome.plan.flights == ()
    assert check(world(people=(person(),)), outcome.plan).findings == ()


def test_taking_the_only_stove_off_the_first_flight_is_found():
    """With the stove moved to a later flight by hand, the first people have none."""
    solved = _solved(TEAM)
    assert check(TEAM, solved.plan).findings == ()
    first, second, home = solved.plan.flights
    stove = next(unit for unit in first.units if unit.unit_id == "stove")
    edited = replace(
        solved.plan,
        flights=(
            replace(first, units=tuple(unit for unit in first.units if unit != stove)),
            replace(second, units=(*second.units, stove)),
            home,
        ),
    )
    (finding,) = check(TEAM, edited).findings
    assert finding.rule_id == "first_flight_self_sufficient"
    assert "no stove" in finding.message


def test_a_fourth_person_without_a_seat_is_refused_in_words():
    """Four people on flights with three seats are refused with the numbers and a way out."""
    four = tuple(flyer(f"m{number}") for number in range(1, 5))
    problem = replace(TEAM, roster=four, flights=(flight_in(seats=3, fuel_with_people=True),))
    conflict = _refused(problem).conflicts[0]
    assert conflict.rule_id == "seats_for_all"
    assert conflict.message == "4 people, 3 seats on all flights in: 1 person too many"
    assert [way.text for way in conflict.remedies] == [
        "1 more seat on the flights in",
        "one more flight in",
    ]


def test_cargo_too_heavy_for_all_flights_is_refused_with_kilograms():
    """200 kg of people with 258.5 kg of cargo on 450 kg of payload are 8.5 kg too many."""
    heavy = replace(thing("crate"), mass_g=249_000)
    problem = replace(
        TEAM,
        gear=(*TENT_FOR_TWO, heavy),
        flights=(flight_in(payload_g=450_000, fuel_with_people=True),),
    )
    (conflict,) = _refused(problem).conflicts
    assert conflict.rule_id == "flight_payload_held"
    # Kit 6 kg, six sets 3 kg, a can of 0.1 kg with 0.6 L of 0.7 kg/L: 8.52 kg beside the crate.
    assert "people and cargo are 458.5 kg, all payloads 450.0 kg: 8.5 kg too many" in (
        conflict.message
    )
    assert conflict.remedies


def test_fuel_that_nobody_takes_along_is_refused_with_both_rules():
    """Where fuel may not fly with the only passengers, that rule is told with ways out."""
    problem = replace(TEAM, flights=(flight_in(),))
    told = {conflict.rule_id: conflict for conflict in _refused(problem).conflicts}
    assert "fuel_flies_apart" in told
    assert "1 container with fuel must fly without passengers" in told["fuel_flies_apart"].message


def test_a_cargo_flight_before_the_people_brings_their_fuel():
    """With an earlier flight for cargo, fuel flies on it and people follow."""
    first = replace(flight_in(), loaded_by_operator=True)
    problem = replace(TEAM, flights=(first, flight_in("in-2")))
    cargo, people = _solved(problem).plan.flights
    assert cargo.person_ids == ()
    assert "g1/can" in {unit.unit_id for unit in cargo.units}
    assert people.person_ids == ("m1", "m2")


def test_without_a_stove_the_first_flight_is_refused_by_name():
    """A gear list without a stove is told as such, not as a matter of payload."""
    problem = replace(TEAM, gear=tuple(i for i in TENT_FOR_TWO if i.item_id != "stove"))
    conflicts = _refused(problem).conflicts
    assert {c.rule_id for c in conflicts} <= {"first_flight_self_sufficient", "nobody_stranded"}
    assert "nothing that flies is a stove" in conflicts[0].message


def test_one_place_for_two_on_the_only_flight_is_refused():
    """With one place in the tent and one flight for both, the first flight's rule is told alone."""
    problem = replace(
        TEAM,
        gear=KIT,
        flights=(flight_in(fuel_with_people=True),),
    )
    (conflict,) = _refused(problem).conflicts
    assert conflict.rule_id == "first_flight_self_sufficient"


def test_a_hard_rule_stated_as_a_caution_lets_people_wait():
    """With the leader's reason for it people may wait without a tent, and are told."""
    bare = tuple(i for i in TENT_FOR_TWO if i.purpose is not Purpose.SHELTER)
    stated = tuple(
        (rule_id, "a hut stands at the strip")
        for rule_id in (
            "first_flight_self_sufficient",
            "nobody_stranded",
            "shelter_and_shovel_fly_first",
        )
    )
    problem = replace(TEAM, gear=bare, rules=replace(TEAM.rules, waived=stated))
    report = check(problem, _solved(problem).plan)
    reasons = {r.finding.rule_id: r.reason for r in report.remarks if r.reason}
    assert reasons["first_flight_self_sufficient"] == "a hut stands at the strip"


def _cargo_first(**cargo: object) -> Problem:
    first = replace(flight_in(person_ids=()), **cargo)
    return replace(TEAM, flights=(first, flight_in("in-2", fuel_with_people=True)))


def test_cargo_that_nobody_meets_does_not_fly_first():
    """On a first flight without people nothing flies: nobody is there to meet it."""
    cargo, people = _solved(_cargo_first()).plan.flights
    assert cargo.units == ()
    assert people.units


def test_cargo_that_nobody_loads_does_not_fly_last():
    """On a last flight without people nothing flies: nobody is left to load it."""
    last = replace(out(flight_in("in-2", person_ids=())), fuel_with_people=True)
    home = replace(out(flight_in()), fuel_with_people=True)
    problem = replace(TEAM, flights=(*TEAM.flights[:2], home, last))
    assert _solved(problem).plan.flights[-1].units == ()


def test_the_first_people_have_shelter_and_shovel_aboard():
    """Tent, bivouac shelter and shovel are on the first flight with people, cargo or not."""
    bivy = replace(thing("bivy", Purpose.SHELTER, places=2), need=Need(NeedKind.EVERY_TRIP))
    small = flight_in(seats=2, fuel_with_people=True)
    gear = (*TENT_FOR_TWO, bivy)
    first = flight_in("in-0", person_ids=())
    first = replace(first, loaded_by_operator=True)
    _, people = _solved(replace(TEAM, gear=gear, flights=(first, small))).plan.flights
    assert {"tent", "bivy", "shovel"} <= {unit.unit_id for unit in people.units}


def test_a_guide_is_among_the_last_out():
    """Of a guide and a client on two flights home the guide is on the last."""
    guided = (replace(flyer("m1"), is_guide=True), flyer("m2", mass_g=150_000))
    home = replace(out(flight_in(seats=1)), fuel_with_people=True)
    later = replace(home, flight_id="out-2")
    problem = replace(TEAM, roster=guided, flights=(*TEAM.flights[:2], home, later))
    assert _solved(problem).plan.flights[-1].person_ids == ("m1",)
    settled = (*TEAM.flights[:2], replace(home, person_ids=("m1",)), later)
    swapped = replace(problem, flights=settled)
    assert "guide_flies_last" in {c.rule_id for c in _refused(swapped).conflicts}
