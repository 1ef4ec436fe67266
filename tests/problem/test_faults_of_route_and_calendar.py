"""Faults of the route and of the days that people spend on it."""

from dataclasses import replace

import pytest

from solver.problem import Calendar, Day, Leg, LegMode, Place, Route, Visit
from solver.problem.faults import find_faults
from tests.problem.small_world import (
    TEAMS,
    apart,
    codes,
    day,
    only_fault,
    small_world,
    with_days,
    with_legs,
)

PACK = LegMode.PACK
L1, L2, L3 = small_world().route.legs


def test_small_world_has_no_faults() -> None:
    """The world that the other tests spoil has no faults of its own."""
    assert find_faults(small_world()) == ()


def test_leg_to_unknown_place() -> None:
    """A leg that joins nothing names the end that the route does not have, and those it has."""
    fault = only_fault(with_legs(L1, L2, L3, Leg("l4", "high", "top", PACK)))
    assert (fault.where, fault.code) == (("route", "legs", 3, "to_place"), "unknown_id")
    assert "top" in fault.detail
    assert "road, camp, high, cache" in fault.detail


def test_leg_that_joins_itself() -> None:
    """A leg from a place to itself is a fault of its end."""
    assert "joins_itself" in codes(with_legs(L1, L2, L3, Leg("l4", "high", "high", PACK)))


def test_two_legs_between_two_places() -> None:
    """Two legs that join the same places, whichever way round, are a fault."""
    fault = only_fault(with_legs(L1, L2, L3, Leg("l4", "high", "camp", PACK)))
    assert (fault.where, fault.code) == (("route", "legs", 3), "legs_doubled")


def test_leg_that_points_inward() -> None:
    """A leg written towards the start is told to be turned round."""
    fault = only_fault(with_legs(L1, L2, Leg("l3", "cache", "camp", PACK)))
    assert (fault.where, fault.code) == (("route", "legs", 2), "points_inward")
    assert "camp to cache" in fault.detail


def test_legs_in_a_ring() -> None:
    """A leg that makes a second way to a place closes a ring."""
    assert codes(with_legs(L1, L2, L3, Leg("l4", "high", "cache", PACK))) == ["closes_a_ring"]


def test_place_that_no_leg_leads_to() -> None:
    """A place that cannot be reached from the start is a fault."""
    fault = only_fault(with_legs(L1, L2))
    assert (fault.where, fault.code) == (("route", "places", 3, "place_id"), "not_joined")


def test_place_and_leg_ids_stand_once() -> None:
    """The second place and the second leg of one id are at fault, not the first."""
    world = small_world()
    places = (*world.route.places, Place("camp", 1))
    legs = (*world.route.legs[:2], replace(L3, leg_id="l2"))
    faults = find_faults(replace(world, route=Route(places, legs)))
    assert [(f.where, f.code) for f in faults] == [
        (("route", "places", 4, "place_id"), "duplicate_id"),
        (("route", "legs", 2, "leg_id"), "duplicate_id"),
    ]


def test_route_without_a_branch_is_not_required() -> None:
    """A branch of the route is no fault: the cache lies aside of the way to the high camp."""
    world = with_days(
        day("road", "camp"), day("camp", "cache", "camp", "high"), day("high", "camp", "road")
    )
    assert find_faults(world) == ()


def test_day_that_teleports() -> None:
    """A day must begin where its people slept, and the fault is at its first place."""
    fault = only_fault(with_days(day("road", "camp"), day("high", "camp", "road")))
    where = ("calendar", "days", 1, "visits", 0, "places", 0)
    assert (fault.where, fault.code) == (where, "teleports")


def test_one_rope_team_teleports() -> None:
    """Only the rope team that did not sleep where its day begins is at fault."""
    world = with_days(
        apart(("road", "camp"), ("road",)),
        apart(("camp", "road"), ("camp", "road")),
    )
    fault = only_fault(world)
    where = ("calendar", "days", 1, "visits", 1, "places", 0)
    assert (fault.where, fault.code) == (where, "teleports")


def test_step_that_no_leg_joins() -> None:
    """Two places in a row without a leg between are a fault, with the way there told."""
    fault = only_fault(with_days(day("road", "high"), day("high", "camp", "road")))
    where = ("calendar", "days", 0, "visits", 0, "places", 1)
    assert (fault.where, fault.code) == (where, "no_leg")
    assert "road, camp, high" in fault.detail


def test_place_that_follows_itself() -> None:
    """A place named twice in a row is a fault."""
    assert codes(with_days(day("road", "camp", "camp"), day("camp", "road"))) == ["place_repeated"]


def test_night_at_a_cache_site() -> None:
    """Nobody sleeps at a cache site."""
    fault = only_fault(with_days(day("road", "camp", "cache"), day("cache", "camp", "road")))
    assert fault.code == "no_sleeping_here"


def test_end_elsewhere_than_the_start() -> None:
    """The last day ends where the trip began."""
    fault = only_fault(with_days(day("road", "camp"), day("camp", "high")))
    where = ("calendar", "days", 1, "visits", 0, "places", 1)
    assert (fault.where, fault.code) == (where, "not_back_at_start")


@pytest.mark.parametrize(
    ("visits", "code"),
    [
        ((Visit(("north",), ("road", "camp")),), "rope_team_missing"),
        ((Visit(TEAMS, ("road", "camp")), Visit(("south",), ("road", "camp"))), "rope_team_twice"),
        ((Visit((*TEAMS, "east"), ("road", "camp")),), "unknown_id"),
    ],
)
def test_rope_teams_of_a_day(visits: tuple[Visit, ...], code: str) -> None:
    """Every rope team of the roster stands once in a day, and no other does."""
    assert only_fault(with_days(Day(visits), day("camp", "road"))).code == code


def test_unknown_place_in_a_day() -> None:
    """A place that the route does not have is at fault where the day names it."""
    faults = find_faults(with_days(day("road", "cmap", "road")))
    assert [(f.where[-1], f.code) for f in faults] == [(1, "unknown_id")]


def test_calendar_without_days() -> None:
    """A calendar without days is one fault and no crash."""
    assert codes(replace(small_world(), calendar=Calendar(()))) == ["empty"]


def test_day_without_visits() -> None:
    """A day that says nothing of anybody misses every rope team."""
    assert codes(with_days(Day(()), day("camp", "road"))) == ["rope_team_missing"] * 2


def test_leg_and_teleport_are_told_together() -> None:
    """A leg that joins nothing does not hide a day that teleports."""
    world = with_legs(L1, L2, L3, Leg("l4", "high", "top", PACK))
    days = (day("road", "camp"), day("high", "camp", "road"))
    assert codes(replace(world, calendar=Calendar(days))) == ["unknown_id", "teleports"]
