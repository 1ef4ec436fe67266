"""Night temperature given: camps with and without a temperature."""

from functools import partial

import pytest

from tests.rules.calendar_worlds import soft_case, told
from tests.rules.party_worlds import cold
from tests.rules.worlds import RequestCase, request_found, world

RULE = "night_temperature_given"
_case = partial(soft_case, RULE)
WORLD = world("strip strip-c1 c1-c2 c2-c1-strip")

CASES = (
    _case("of both camps", cold(WORLD, c1=-10.0, c2=-20.0)),
    _case("of one of two", cold(WORLD, c1=-10.0), 1),
    _case("of none", WORLD, 2),
    _case("nobody sleeps out", world("strip-c1-strip")),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_camps_of_no_told_temperature_are_counted(case: RequestCase) -> None:
    """Every camp but the start place where people sleep has its temperature told."""
    assert request_found(case.problem, RULE) == case.finds


def test_camps_are_named() -> None:
    """The words name the camps whose temperature is not given."""
    (finding,) = told(CASES[2].problem, RULE)
    assert finding.message.startswith("how cold nights are at c1 and c2 is not given")
