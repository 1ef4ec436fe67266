"""Fuel stowed rear: fuel on sleds."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Container, Problem, Purpose, Sled
from tests.rules.food_worlds import set_of, soft, told, with_containers
from tests.rules.worlds import RequestCase, item, person, request_found, world

RULE = "fuel_stowed_rear"
_case = partial(soft, RULE)


def _with_sleds(count: int, fuel_ml: int = 100) -> Problem:
    people = tuple(person(f"m{n}", sled_g=20_000) for n in (1, 2))
    sleds = tuple(Sled(f"s{n}", f"m{n}", 2_000, 40_000, 90_000) for n in range(1, count + 1))
    problem = world(
        "strip-c1 c1-strip",
        people=people,
        sleds=sleds,
        sled_leg_factors=(100, 100),
        night_sets=(set_of(fuel_ml=fuel_ml),),
    )
    return with_containers(problem, Container("can", "g1", 1_000, 100, 1_500))


GAS = replace(_with_sleds(1, fuel_ml=0), gear=(item("gas", purpose=Purpose.FUEL),))

CASES = (
    _case("no sled", _with_sleds(0)),
    _case("a sled", _with_sleds(1), 1),
    _case("two sleds told once", _with_sleds(2), 2),
    _case("no fuel burnt", _with_sleds(1, fuel_ml=0)),
    _case("a canister in the gear", GAS, 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_fuel_rides_at_the_rear(case: RequestCase) -> None:
    """Where sleds and fuel are, stowing is told once with how many sleds there are."""
    assert request_found(case.problem, RULE) == case.finds


def test_rear_and_food_are_named() -> None:
    """The words tell where fuel rides."""
    (finding,) = told(CASES[1].problem, RULE)
    assert "rear" in finding.message
    assert "outside the food" in finding.message
