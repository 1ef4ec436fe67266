"""Cache within reach: hours to a cache and back on the day on which it is fetched."""

from functools import partial

import pytest

from solver.checker import check
from tests.rules.cache_worlds import cache_world, fetching, plan_case, with_hours
from tests.rules.worlds import Case, remarked

RULE = "cache_within_reach"
_case = partial(plan_case, RULE)

AT = with_hours(cache_world(), 2.0, 1.0)
ABOVE = with_hours(cache_world(), 2.005, 1.0)
FAR = with_hours(cache_world(), 3.0, 1.0)
UNKNOWN = with_hours(cache_world(), 5.0, None)

CASES = (
    _case("at", AT, fetching(AT)),
    _case("a hair above", ABOVE, fetching(ABOVE), 1),
    _case("an hour above", FAR, fetching(FAR), 60),
    _case("hours not known", UNKNOWN, fetching(UNKNOWN)),
    _case("taken along on a move", FAR, fetching(FAR, on_day=2)),
    _case("taken along on the way home", FAR, fetching(FAR, on_day=4)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_is_fetched_is_near(case: Case) -> None:
    """A fetch from a camp and back keeps its hours, counted in minutes above them."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_camp_and_cache_are_named() -> None:
    """The words name the day, the camp, the cache and the hours."""
    report = check(CASES[2].problem, CASES[2].plan)
    (message,) = [r.finding.message for r in report.remarks if r.finding.rule_id == RULE]
    assert message == "day 3: from c2 to c1 and back is 4.0 h, 3 h is far for what is fetched"
