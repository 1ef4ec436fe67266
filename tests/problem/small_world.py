"""A small expedition without faults, which each test spoils in one place."""

from __future__ import annotations

from dataclasses import replace

from solver.errors import ProblemFault
from solver.problem import (
    Calendar,
    Caps,
    Container,
    CookGroup,
    Day,
    Item,
    Leg,
    LegMode,
    Need,
    NeedKind,
    NightSet,
    Person,
    Place,
    PlaceKind,
    Problem,
    Reserve,
    ReserveKind,
    Route,
    Sled,
    Visit,
)
from solver.problem.faults import find_faults

TEAMS = ("north", "south")


def day(*places: str) -> Day:
    """A day on which both rope teams visit the same places."""
    return Day((Visit(TEAMS, places),))


def apart(north: tuple[str, ...], south: tuple[str, ...]) -> Day:
    """A day on which the rope teams go their own ways."""
    return Day((Visit(("north",), north), Visit(("south",), south)))


def small_world() -> Problem:
    """Four people, two rope teams and cook groups; road, camp, high camp, and a cache aside."""
    return Problem(
        route=Route(
            places=(
                Place("road", 1000, PlaceKind.ROAD_HEAD),
                Place("camp", 1500),
                Place("high", 2000),
                Place("cache", 1600, PlaceKind.CACHE_SITE),
            ),
            legs=(
                Leg("l1", "road", "camp", LegMode.SLED),
                Leg("l2", "camp", "high", LegMode.PACK),
                Leg("l3", "camp", "cache", LegMode.PACK),
            ),
        ),
        calendar=Calendar(
            (day("road", "camp"), day("camp", "high"), day("high"), day("high", "camp", "road"))
        ),
        roster=tuple(
            Person(
                person_id=name,
                caps=Caps(pack_g=25_000, sled_g=30_000 if name == "ann" else 0),
                pack_volume_ml=80_000,
                rope_team_id=team,
                cook_group_id=team,
            )
            for name, team in (("ann", "north"), ("bo", "north"), ("cy", "south"), ("di", "south"))
        ),
        sleds=(Sled("sled", "ann", 3_000, 40_000, 120_000),),
        gear=(
            Item("tent", 3_000, 9_000, Need(NeedKind.EVERY_NIGHT), rope_team_id="north"),
            Item("wands", 500, 1_000, Need(NeedKind.AT_PLACE, up_to="camp")),
            Item("bag", 1_500, 14_000, Need(NeedKind.EVERY_NIGHT), owner_id="ann"),
        ),
        cook_groups=tuple(
            CookGroup(
                team,
                (("camp", "low"), ("high", "low")),
                (Container("can", team, 1_000, 150, 1_100, count=4),),
            )
            for team in TEAMS
        ),
        night_sets=tuple(
            NightSet("low", team, 900, 60, 300, 2_000, 200, bag_count=10) for team in TEAMS
        ),
        reserves=(Reserve("high", "north", ReserveKind.STORM, 2, "low"),),
    )


def with_days(*days: Day) -> Problem:
    """The small world with another calendar."""
    return replace(small_world(), calendar=Calendar(days))


def with_legs(*legs: Leg) -> Problem:
    """The small world with other legs."""
    world = small_world()
    return replace(world, route=replace(world.route, legs=legs))


def only_fault(problem: Problem) -> ProblemFault:
    """The one fault that is found; another number fails the test."""
    faults = find_faults(problem)
    assert len(faults) == 1, faults
    return faults[0]


def codes(problem: Problem) -> list[str]:
    """The codes of all faults found."""
    return [fault.code for fault in find_faults(problem)]
