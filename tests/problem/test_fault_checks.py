"""Each check of faults, asked by itself, finds its own faults and lets a sound world pass."""

from dataclasses import replace

import pytest

from solver.problem import Evacuation, Flight, FlightDirection, Item, Need, NeedKind, read_timeline
from solver.problem.fault_checks import (
    calendar,
    flights,
    gear,
    nights,
    roster,
    route,
    stores,
    supplies,
)
from tests.problem.small_world import apart, day, small_world, with_days, with_legs

WORLD = small_world()
CHECKS = (
    calendar.rope_team_faults,
    calendar.place_faults,
    calendar.clock_faults,
    calendar.end_faults,
    calendar.leg_faults,
    flights.flight_faults,
    flights.evacuation_faults,
    gear.item_faults,
    gear.line_faults,
    roster.person_faults,
    roster.sled_faults,
    route.leg_faults,
    route.tree_faults,
    supplies.cook_group_faults,
    supplies.night_set_faults,
    supplies.reserve_faults,
    supplies.setting_faults,
)
OF_NIGHTS = (
    nights.sleeping_faults,
    nights.reserve_place_faults,
    nights.split_faults,
    stores.bag_faults,
    stores.fuel_faults,
    stores.sled_way_faults,
)
FLIGHT = Flight("in-1", FlightDirection.FLY_IN, 300_000, 2, person_ids=("ann", "nobody"))


def with_night_set(**changes):
    """The small world with one night set changed."""
    first, second = WORLD.night_sets
    return replace(WORLD, night_sets=(replace(first, **changes), second))


def with_cans(**changes):
    """The small world with the north group's containers changed."""
    first, second = WORLD.cook_groups
    (can,) = first.containers
    changed = replace(first, containers=(replace(can, **changes),))
    return replace(WORLD, cook_groups=(changed, second))


def codes(check, problem, *timeline):
    """The codes of what one check finds."""
    return [fault.code for fault in check(problem, *timeline)]


@pytest.mark.parametrize("check", CHECKS)
def test_a_sound_world_passes_each_check(check):
    """A world without faults has none for any check that needs no calendar."""
    assert codes(check, WORLD) == []


@pytest.mark.parametrize("check", OF_NIGHTS)
def test_a_sound_calendar_passes_each_check_of_nights(check):
    """A world without faults has none for any check of nights and amounts."""
    assert codes(check, WORLD, read_timeline(WORLD)) == []


SPOILT = (
    (calendar.rope_team_faults, replace(WORLD, roster=WORLD.roster[:2]), ["unknown_id"] * 4),
    (calendar.place_faults, with_days(day("road", "moon")), ["unknown_id"]),
    (
        calendar.clock_faults,
        with_days(replace(day("road"), start_hour=9.0, turn_round_hour=8.0)),
        ["turns_round_too_soon"],
    ),
    (calendar.end_faults, with_days(day("road", "camp")), ["not_back_at_start"]),
    (calendar.leg_faults, with_days(day("road", "high", "road")), ["no_leg", "no_leg"]),
    (flights.flight_faults, replace(WORLD, flights=(FLIGHT,)), ["unknown_id"]),
    (
        flights.evacuation_faults,
        replace(WORLD, evacuations=(Evacuation("ann", 5),)),
        ["no_such_day"],
    ),
    (gear.item_faults, replace(WORLD, gear=WORLD.gear[:1] * 2), ["duplicate_id"]),
    (
        gear.line_faults,
        replace(WORLD, gear=(Item("x", 1, 1, Need(NeedKind.AT_PLACE, "high", "cache")),)),
        ["not_on_one_line"],
    ),
    (roster.person_faults, replace(WORLD, roster=()), ["empty"]),
    (roster.sled_faults, replace(WORLD, sleds=WORLD.sleds * 2), ["duplicate_id"]),
    (route.leg_faults, with_legs(*WORLD.route.legs, WORLD.route.legs[0]), ["duplicate_id"]),
    (route.tree_faults, with_legs(*WORLD.route.legs[:2]), ["not_joined"]),
    (supplies.night_set_faults, with_night_set(gross_g=350), ["parts_exceed_whole"]),
    (supplies.cook_group_faults, with_cans(capacity_ml=900), ["less_than_content"]),
    (
        supplies.reserve_faults,
        replace(WORLD, reserves=(replace(WORLD.reserves[0], nights=0),)),
        ["too_small"],
    ),
    (supplies.setting_faults, replace(WORLD, fuel_margin_percent=-1), ["too_small"]),
)


@pytest.mark.parametrize(("check", "problem", "expected"), SPOILT)
def test_each_check_finds_its_own_fault(check, problem, expected):
    """A world spoilt in one place gives the code of that fault."""
    found = codes(check, problem)
    assert found[: len(expected)] == expected


SPOILT_NIGHTS = (
    (
        nights.sleeping_faults,
        replace(WORLD, night_sets=tuple(replace(s, sets_per_bag=3) for s in WORLD.night_sets)),
        {"bags_not_whole"},
    ),
    (
        nights.reserve_place_faults,
        replace(WORLD, reserves=(replace(WORLD.reserves[0], place_id="road"),)),
        {"nobody_sleeps_here"},
    ),
    (
        nights.split_faults,
        replace(
            with_days(
                day("road", "camp"),
                apart(("camp", "high"), ("camp",)),
                apart(("high", "camp", "road"), ("camp", "road")),
            ),
            gear=(Item("radio", 300, 300, Need(NeedKind.EVERY_NIGHT)),),
        ),
        {"people_apart"},
    ),
    (stores.bag_faults, with_night_set(bag_count=9), {"too_few_bags"}),
    (stores.fuel_faults, with_cans(count=2), {"too_few_containers"}),
    (
        stores.sled_way_faults,
        with_legs(
            replace(WORLD.route.legs[0], sled_factor_outbound_percent=5), *WORLD.route.legs[1:]
        ),
        {"sled_cannot_go"},
    ),
)


@pytest.mark.parametrize(("check", "problem", "expected"), SPOILT_NIGHTS)
def test_each_check_of_nights_finds_its_own_fault(check, problem, expected):
    """A world whose nights or amounts are spoilt gives the code of that fault alone."""
    assert set(codes(check, problem, read_timeline(problem))) == expected
