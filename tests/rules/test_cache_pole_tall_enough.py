"""Cache pole tall enough: what shows of the poles against the snow that may fall."""

from functools import partial

import pytest

from solver.problem import CacheSite
from tests.rules.cache_worlds import cache_world
from tests.rules.calendar_worlds import soft_case, told
from tests.rules.worlds import RequestCase, request_found

RULE = "cache_pole_tall_enough"
_case = partial(soft_case, RULE)


def _site(shows: float | None, expected: float | None = None) -> CacheSite:
    return CacheSite(pole_above_snow_m=shows, expected_snow_m=expected)


CASES = (
    _case("at", cache_world(_site(1.0))),
    _case("a hair too short", cache_world(_site(0.995)), 1),
    _case("at, with snow to come", cache_world(_site(1.4, 0.4))),
    _case("too short for the snow to come", cache_world(_site(1.2, 0.4)), 20),
    _case("not told", cache_world(_site(None, 3.0))),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_poles_show_above_the_snow_to_come(case: RequestCase) -> None:
    """A caution counts the centimetres that poles are too short."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_place_and_the_height_are_named() -> None:
    """The words tell place and heights."""
    (finding,) = told(CASES[3].problem, RULE)
    assert "the poles at c1 show 1.2 m, and 1.4 m is what may fall and a margin" in finding.message
