"""Container capacity given: what containers hold to the brim."""

from functools import partial

import pytest

from solver.problem import Container, FuelKind, Problem
from tests.rules.food_worlds import fed, soft, told, with_conditions, with_containers
from tests.rules.worlds import RequestCase, request_found

RULE = "container_capacity_given"
_case = partial(soft, RULE)


def _filled(content_ml: int, capacity_ml: int | None) -> Problem:
    can = Container("can", "g1", content_ml, 100, 1_500, capacity_ml=capacity_ml)
    return with_containers(fed(), can)


CASES = (
    _case("told", _filled(750, 1_000)),
    _case("not told", _filled(750, None), 1),
    _case("no containers", fed()),
    _case("gas comes filled", with_conditions(_filled(750, None), fuel_kind=FuelKind.CANISTER_GAS)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_capacities_are_told(case: RequestCase) -> None:
    """Kinds of container without a capacity are counted once."""
    assert request_found(case.problem, RULE) == case.finds


def test_containers_are_named() -> None:
    """The words tell the containers."""
    (finding,) = told(CASES[1].problem, RULE)
    assert "how much g1/can would hold to the brim is not given" in finding.message
