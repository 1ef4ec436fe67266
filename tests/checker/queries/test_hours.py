"""Hours of a trip: the leg's own, else reckoned, else unknown."""

import pytest

from solver.checker.queries.hours import PACK_FACTOR, given_hours, trip_hours
from solver.problem import Direction, read_timeline
from tests.rules.legs import with_legs
from tests.rules.worlds import world


def _hours(**said):
    problem = with_legs(world("strip-c1-strip"), **said)
    return [trip_hours(problem, trip) for trip in read_timeline(problem).trips]


def test_the_legs_own_hours_come_first():
    """What the leg gives of a direction is taken as it is."""
    assert _hours(hours_outbound=3.0, hours_homeward=1.5, distance_m=9_000, ascent_m=900) == [
        3.0,
        1.5,
    ]
    leg = with_legs(world(), hours_outbound=3.0).route.legs[0]
    assert (given_hours(leg, Direction.OUTBOUND), given_hours(leg, Direction.HOMEWARD)) == (
        3.0,
        None,
    )


def test_hours_are_unknown_without_distance_or_ascent():
    """One of the two alone is not enough."""
    assert _hours(distance_m=6_000) == [None, None]
    assert _hours(ascent_m=900) == [None, None]


def test_munters_units_give_the_hours_otherwise():
    """4 km and 400 m up are 8 units at 4 an hour, so two hours, times the factor of packs."""
    up, _ = _hours(distance_m=4_000, ascent_m=400, descent_m=0)
    assert up == pytest.approx(2 * PACK_FACTOR)
