"""Sled slope limited: how steep a leg with sleds may be at its steepest."""

from functools import partial

import pytest

from solver.problem import Problem, Sled
from tests.rules.calendar_worlds import hard_case, on_legs, told
from tests.rules.worlds import RequestCase, person, request_found, world

RULE = "sled_slope_limited"
_case = partial(hard_case, RULE)
SLED = Sled("s1", "m1", tare_g=3_000, mass_limit_g=50_000, volume_ml=100_000)


def sled_world(
    steepest_deg: float | None, days: str = "strip-c1-strip", *, sled: bool = True
) -> Problem:
    """A sled leg of that slope, out and back."""
    problem = world(
        days,
        people=(person(sled_g=30_000),),
        sleds=(SLED,) if sled else (),
        sled_leg_factors=(100, 100),
    )
    return on_legs(problem, {"steepest_deg": steepest_deg})


CASES = (
    _case("at", sled_world(25.0)),
    _case("a hair above", sled_world(25.01), 1),
    _case("six degrees above", sled_world(31.0), 6),
    _case("a degree above", sled_world(26.0), 1),
    _case("not told", sled_world(None)),
    _case("no sled is hauled there", sled_world(40.0, sled=False)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_sleds_go_where_it_is_not_too_steep(case: RequestCase) -> None:
    """A leg with sleds is no steeper than the limit, counted in degrees above it."""
    assert request_found(case.problem, RULE) == case.finds


def test_it_is_asked_off_glaciers_too() -> None:
    """A slope is as steep for sleds where there are no crevasses."""
    (finding,) = told(sled_world(31.0), RULE)
    assert "leg strip-c1 is 31 degrees at its steepest" in finding.message
    assert "make leg strip-c1 a pack leg and leave the sleds at strip" in finding.instead
