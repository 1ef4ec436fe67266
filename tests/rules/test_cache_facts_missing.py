"""Cache facts missing: what nobody has judged of caches because it is not told."""

from functools import partial

import pytest

from solver.problem import CacheSite
from tests.rules.cache_worlds import cache_world
from tests.rules.calendar_worlds import numbered, soft_case, told
from tests.rules.worlds import RequestCase, request_found, world

RULE = "cache_facts_missing"
_case = partial(soft_case, RULE)
ALL = CacheSite(depth_m=1.0, poles=2, has_position=True, has_label=True)

CASES = (
    _case("all told", numbered(cache_world(ALL), cache_days=10)),
    _case("the land manager's limit is missing", cache_world(ALL), 1),
    _case("nothing told", numbered(cache_world(None), cache_days=10), 4),
    _case(
        "told to be missing is told",
        numbered(
            cache_world(CacheSite(0.5, 0, has_position=False, has_label=False)), cache_days=10
        ),
    ),
    _case(
        "a label missing",
        numbered(cache_world(CacheSite(1.0, 2, has_position=True)), cache_days=10),
        1,
    ),
    _case("a place and the limit", cache_world(CacheSite()), 4, 1),
    _case("nothing is left alone", world("strip-c1 c1-strip")),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_is_not_told_of_caches_is_counted(case: RequestCase) -> None:
    """A caution counts the facts that a request does not tell of a place left alone."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_facts_are_named() -> None:
    """The words name the place and each fact, and the limit is told apart."""
    facts, limit = told(CASES[5].problem, RULE)
    assert "left at c1: depth, poles, position fix, label not given" in facts.message
    assert limit.instead == ("state cache_days, as the land manager has it",)
