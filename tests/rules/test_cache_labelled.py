"""Cache labelled: a label and a position fix for each cache."""

from functools import partial

import pytest

from solver.problem import CacheSite
from tests.rules.cache_worlds import cache_world
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.worlds import RequestCase, request_found

RULE = "cache_labelled"
_case = partial(hard_case, RULE)

CASES = (
    _case("both", cache_world(CacheSite(has_label=True, has_position=True))),
    _case("no label", cache_world(CacheSite(has_label=False)), 1),
    _case("no position", cache_world(CacheSite(has_position=False)), 1),
    _case("neither", cache_world(CacheSite(has_label=False, has_position=False)), 2),
    _case("not told is not judged here", cache_world(CacheSite())),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_cache_is_meant_to_be_labelled_and_found_again(case: RequestCase) -> None:
    """A cache that is told to have no label or no position is refused."""
    assert request_found(case.problem, RULE) == case.finds


def test_what_is_missing_is_named() -> None:
    """The words name the place and what it has not, with what would do."""
    (finding,) = told(CASES[3].problem, RULE)
    assert finding.message == "the cache at c1 is meant to have no label and no position fix"
    assert "give the cache at c1 a label" in finding.instead
