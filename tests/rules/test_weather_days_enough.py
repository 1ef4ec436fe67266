"""Weather days enough: days without travel on the way, as a share of the calendar."""

from functools import partial

import pytest

from tests.rules.calendar_worlds import numbered, soft_case, told
from tests.rules.worlds import RequestCase, request_found, world

RULE = "weather_days_enough"
_case = partial(soft_case, RULE)


def _days(spare: int, travelling: int, after: int = 0) -> str:
    """Out on day 1, days at the camp, carries from there, home, and days at the strip."""
    carries = " c1-c2-c1" * (travelling - 2)
    return "strip-c1" + " c1" * spare + carries + " c1-strip" + " strip" * after


CASES = (
    _case("short trips need none", world(_days(0, 6))),
    _case("seven days need two", world(_days(0, 7)), 2),
    _case("seven days with two", world(_days(2, 5))),
    _case("fourteen days need three", world(_days(2, 12)), 1),
    _case("fourteen days with three", world(_days(3, 11))),
    _case("days at the end are none on the way", world(_days(1, 5, after=1)), 1),
    _case(
        "another share: twenty days, one in five",
        numbered(world(_days(4, 16)), weather_days_percent=20),
    ),
    _case("one in five and a bit", numbered(world(_days(4, 16)), weather_days_percent=21), 1),
    _case("twenty days at 15 per cent", world(_days(3, 17))),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_long_calendar_has_days_to_spare(case: RequestCase) -> None:
    """Days without travel between first and last trip make up their share, rounded up."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_days_are_counted_in_words() -> None:
    """The words tell how many days there are and how many are wanted."""
    (finding,) = told(CASES[3].problem, RULE)
    assert "14 days has 2 days without travel on the way, 15 % of it is 3" in finding.message
    assert finding.instead == ("add 1 more without travel",)
