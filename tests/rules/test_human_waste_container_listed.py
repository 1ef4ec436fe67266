"""Human waste container listed: a container for waste is listed."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Problem, Purpose, Waste
from tests.rules.food_worlds import fed, soft, told
from tests.rules.worlds import EVERY_NIGHT, RequestCase, item, request_found

RULE = "human_waste_container_listed"
_case = partial(soft, RULE)
_TWO_NIGHTS = "strip-c1 c1 c1-strip"


def _carrying(
    *capacities_ml: int | None, days: str = _TWO_NIGHTS, may_be_left: bool = False
) -> Problem:
    gear = tuple(
        replace(
            item(f"tub-{n}", EVERY_NIGHT, purpose=Purpose.HUMAN_WASTE_CONTAINER),
            capacity_ml=capacity_ml,
        )
        for n, capacity_ml in enumerate(capacities_ml, start=1)
    )
    return replace(fed(days), gear=gear, waste=Waste(may_be_left=may_be_left))


CASES = (
    _case("listed", _carrying(500)),
    _case("none listed", _carrying(), 1),
    _case("capacity not told", _carrying(None), 1),
    _case("one of two told", _carrying(500, None), 1),
    _case("may be left", _carrying(may_be_left=True)),
    _case("nobody sleeps out", _carrying(days="strip-c1-strip")),
    _case("neither told", _carrying(None, None), 2),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_waste_containers_are_listed(case: RequestCase) -> None:
    """A missing container, and kinds without a capacity, are told once."""
    assert request_found(case.problem, RULE) == case.finds


def test_what_is_not_told_is_named() -> None:
    """The words tell which container lacks its capacity."""
    (finding,) = told(CASES[3].problem, RULE)
    assert "what tub-2 takes is not given" in finding.message
