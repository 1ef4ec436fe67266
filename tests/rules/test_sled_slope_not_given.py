"""Sled slope not given: each leg with sleds says how steep it is."""

from functools import partial

import pytest

from tests.rules.calendar_worlds import soft_case, told
from tests.rules.test_sled_slope_limited import sled_world
from tests.rules.worlds import RequestCase, request_found

RULE = "sled_slope_not_given"
_case = partial(soft_case, RULE)

CASES = (
    _case("told", sled_world(8.0)),
    _case("not told", sled_world(None), 1),
    _case("no sled is hauled there", sled_world(None, sled=False)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_each_leg_with_sleds_tells_its_slope(case: RequestCase) -> None:
    """A caution names each leg with sleds whose slope is not told."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_leg_is_named() -> None:
    """The words say which leg to tell."""
    (finding,) = told(CASES[1].problem, RULE)
    assert finding.instead == ("give the steepest angle of leg strip-c1",)
