"""Travel hours limited: hours of a day's trips, told or reckoned."""

from functools import partial

import pytest

from solver.problem import PlaceKind, Problem
from tests.rules.calendar_worlds import at_elevations, on_legs, soft_case, told, with_kind
from tests.rules.worlds import RequestCase, request_found, world

RULE = "travel_hours_limited"
_case = partial(soft_case, RULE)


def _world(hours_outbound: float | None, hours_homeward: float | None, **leg: float) -> Problem:
    return on_legs(
        world("strip-c1-strip"),
        {"hours_outbound": hours_outbound, "hours_homeward": hours_homeward, **leg},
    )


TO_SUMMIT = with_kind(_world(8.0, 4.0), "c1", PlaceKind.SUMMIT)
RECKONED = at_elevations(_world(None, None, distance_m=6_000, ascent_m=600), 0, 600)

CASES = (
    _case("at", _world(6.0, 2.0)),
    _case("a hair above", _world(6.0, 2.005), 1),
    _case("an hour and a half above", _world(6.0, 3.5), 90),
    _case("one way not told and not to be reckoned", _world(12.0, None)),
    _case("a summit day is judged by its own times", TO_SUMMIT),
    _case("reckoned from distance and ascent", RECKONED),
    _case(
        "reckoned: three times as far up and down",
        at_elevations(_world(None, None, distance_m=18_000, ascent_m=1_800), 0, 1_800),
        870,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_day_with_loads_is_no_longer_than_its_limit(case: RequestCase) -> None:
    """The hours of a day's trips add up to the limit at most, counted in minutes above it.

    The last case by hand, in Munter's units: 18 km and 1800 m are 36, so 9 h up at 4 an hour and
    6 h down at 6; half as much again with packs is 22.5 h, 14.5 h above the limit.
    """
    assert request_found(case.problem, RULE) == case.finds


def test_the_day_and_its_hours_are_named() -> None:
    """The words tell the day, the people and the hours."""
    (finding,) = told(CASES[2].problem, RULE)
    assert finding.message == "day 1, m1: 9.5 h on the way, 8.0 h are the most with loads"
