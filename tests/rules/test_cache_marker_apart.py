"""Cache marker apart: a word on where poles stand, wherever something is left alone."""

from functools import partial

import pytest

from solver.problem import CacheSite
from tests.rules.cache_worlds import cache_world
from tests.rules.calendar_worlds import soft_case, told
from tests.rules.worlds import RequestCase, request_found, world

RULE = "cache_marker_apart"
_case = partial(soft_case, RULE)

CASES = (
    _case("poles given", cache_world(CacheSite(poles=2)), 1),
    _case("poles not given", cache_world(None), 1),
    _case("no pole", cache_world(CacheSite(poles=0))),
    _case("nothing left alone", world("strip-c1 c1-strip")),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_poles_stand_off_the_cache(case: RequestCase) -> None:
    """Each cache with poles is counted once, and one without poles is not."""
    assert request_found(case.problem, RULE) == case.finds


def test_what_to_do_is_told() -> None:
    """The words name the place, the distance, and what to write down."""
    (finding,) = told(CASES[0].problem, RULE)
    assert "at c1 set the poles a little way off" in finding.message
    assert "bearing and distance" in finding.message
