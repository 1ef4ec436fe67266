"""Container fill limited: bottles filled to three quarters."""

from functools import partial

import pytest

from solver.problem import Container, FuelKind, Problem
from tests.rules.calendar_worlds import numbered
from tests.rules.food_worlds import fed, hard, told, with_conditions, with_containers
from tests.rules.worlds import RequestCase, request_found

RULE = "container_fill_limited"
_case = partial(hard, RULE)


def _filled(content_ml: int, capacity_ml: int | None) -> Problem:
    can = Container("can", "g1", content_ml, 100, 1_500, capacity_ml=capacity_ml)
    return with_containers(fed(), can)


CASES = (
    _case("at", _filled(750, 1_000)),
    _case("a millilitre more", _filled(751, 1_000), 1),
    _case("a share that is no whole millilitre", _filled(755, 1_007)),
    _case("a millilitre above such a share", _filled(756, 1_007), 1),
    _case("full", _filled(1_000, 1_000), 250),
    _case("not told", _filled(1_000, None)),
    _case(
        "gas comes filled", with_conditions(_filled(1_000, 1_000), fuel_kind=FuelKind.CANISTER_GAS)
    ),
    _case("stated", numbered(_filled(950, 1_000), bottle_fill_percent=95)),
    _case("the largest bottle", _filled(1_200, 1_500), 75),
    _case("the smallest can", _filled(1_400, 1_501)),
    _case("a can, at", _filled(3_800, 4_000)),
    _case("a can, a millilitre more", _filled(3_801, 4_000), 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_bottles_are_not_overfilled(case: RequestCase) -> None:
    """Millilitres above three quarters of what a container holds are told."""
    assert request_found(case.problem, RULE) == case.finds


def test_container_and_fill_are_named() -> None:
    """The words tell container, content and limit, and what may go in."""
    (finding,) = told(CASES[4].problem, RULE)
    assert (
        "g1/can holds 1000 mL of fuel, 75 % of its 1000 mL is the most for a bottle"
        in finding.message
    )
    assert "fill it with 750 mL at most" in finding.instead
