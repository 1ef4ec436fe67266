"""Cache deep enough: firm snow over a cache whose depth is told."""

from functools import partial

import pytest

from solver.problem import CacheSite
from tests.rules.cache_worlds import cache_world, with_cache
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.worlds import RequestCase, request_found, world

RULE = "cache_deep_enough"
_case = partial(hard_case, RULE)

CASES = (
    _case("at", cache_world(CacheSite(depth_m=1.0))),
    _case("a hair too shallow", cache_world(CacheSite(depth_m=0.995)), 1),
    _case("a hand too shallow", cache_world(CacheSite(depth_m=0.9)), 10),
    _case("not told is not judged here", cache_world(CacheSite())),
    _case("nothing told at all", cache_world(None)),
    _case(
        "a camp slept at on every night is none",
        with_cache(world("strip-c1 c1-strip"), CacheSite(depth_m=0.5)),
    ),
    _case(
        "a camp left for a night is one",
        with_cache(world("strip-c1 c1-c2 c2-c1-strip"), CacheSite(depth_m=0.5)),
        50,
    ),
    _case(
        "a camp carried to before it is slept at is one",
        with_cache(world("strip-c1-strip strip-c1 c1-strip"), CacheSite(depth_m=0.5)),
        50,
    ),
    _case(
        "the start place is none",
        with_cache(world("strip-c1 c1-strip"), CacheSite(depth_m=0.5), "strip"),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_cache_lies_deep_enough(case: RequestCase) -> None:
    """A place left alone is as deep as it must be where that is told, counted in centimetres."""
    assert request_found(case.problem, RULE) == case.finds


def test_place_and_depth_are_named() -> None:
    """The words tell place and depths, and how deep to bury it."""
    (finding,) = told(CASES[2].problem, RULE)
    assert "the cache at c1 is 0.9 m deep, 1 m of firm snow is the least" in finding.message
    assert "bury it 1 m deep" in finding.instead
