"""Cache may melt out: a caution where snow melts away."""

from functools import partial

import pytest

from solver.problem import CacheDanger, CacheSite
from tests.rules.cache_worlds import cache_world
from tests.rules.calendar_worlds import soft_case, told
from tests.rules.worlds import RequestCase, request_found

RULE = "cache_may_melt_out"
_case = partial(soft_case, RULE)

CASES = (
    _case("it may", cache_world(CacheSite(dangers=(CacheDanger.MELT_OUT,))), 1),
    _case("no danger", cache_world(CacheSite())),
    _case("another danger", cache_world(CacheSite(dangers=(CacheDanger.WIND_SCOOP,)))),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_melting_out_is_cautioned_against(case: RequestCase) -> None:
    """A caution names each cache that may melt out."""
    assert request_found(case.problem, RULE) == case.finds


def test_what_to_do_is_told() -> None:
    """The words name the place and what guards against it."""
    (finding,) = told(CASES[0].problem, RULE)
    assert "left at c1 may melt out: dig deeper, cover it" in finding.message
