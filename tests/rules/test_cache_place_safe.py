"""Cache place safe: no avalanche, serac, bridge or scoop where things are left."""

from functools import partial

import pytest

from solver.problem import CacheDanger, CacheSite
from tests.rules.cache_worlds import cache_world
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.worlds import RequestCase, request_found

RULE = "cache_place_safe"
_case = partial(hard_case, RULE)

CASES = (
    _case("no danger", cache_world(CacheSite())),
    *(
        _case(danger.value, cache_world(CacheSite(dangers=(danger,))), 1)
        for danger in CacheDanger
        if danger is not CacheDanger.MELT_OUT
    ),
    _case("melting out is only a caution", cache_world(CacheSite(dangers=(CacheDanger.MELT_OUT,)))),
    _case(
        "two dangers",
        cache_world(CacheSite(dangers=(CacheDanger.AVALANCHE_PATH, CacheDanger.SERACS_ABOVE))),
        2,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_cache_is_not_where_it_gets_lost(case: RequestCase) -> None:
    """Each danger of a place left alone counts, but for melting out."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_dangers_are_told_in_words() -> None:
    """The words name the place and what threatens it."""
    (finding,) = told(CASES[-1].problem, RULE)
    assert finding.message == "what is left at c1 lies in the path of avalanches and under seracs"
