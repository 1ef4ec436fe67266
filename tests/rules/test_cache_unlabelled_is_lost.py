"""Cache unlabelled is lost: what a plan leaves alone where no label is told."""

from functools import partial

import pytest

from solver.checker import check
from solver.problem import CacheSite
from tests.rules.cache_worlds import cache_world, fetching, plan_case
from tests.rules.worlds import Case, plan_of, remarked

RULE = "cache_unlabelled_is_lost"
_case = partial(plan_case, RULE)

BARE = cache_world(None)
UNTOLD = cache_world(CacheSite())
LABELLED = cache_world(CacheSite(has_label=True))

CASES = (
    _case("labelled", LABELLED, fetching(LABELLED)),
    _case("nothing told", BARE, fetching(BARE), 2),
    _case("no label told", UNTOLD, fetching(UNTOLD), 2),
    _case("nothing left", BARE, plan_of(BARE, *[{}] * 8, stock={(0, "strip"): "g1/meal*4"})),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_is_left_without_a_label_is_told(case: Case) -> None:
    """A caution counts the most units that stand alone where no label is told."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_place_is_named_once() -> None:
    """A cache that stands for two nights is told of once, with its place."""
    report = check(CASES[1].problem, CASES[1].plan)
    (finding,) = [r.finding for r in report.remarks if r.finding.rule_id == RULE]
    assert finding.message.startswith("c1, night of day 1: 2 units stand alone")
