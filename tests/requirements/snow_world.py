"""Two people on one camp in the snow for some nights, with a cache below and a summit above."""

from __future__ import annotations

from dataclasses import replace

from solver.problem import (
    Calendar,
    Caps,
    Conditions,
    Container,
    CookGroup,
    Day,
    Leg,
    LegMode,
    NightSet,
    Person,
    Place,
    PlaceKind,
    Problem,
    Reserve,
    ReserveKind,
    Route,
    Visit,
    Waste,
    read_timeline,
)
from solver.requirements.figures import Figure, Notice, Part

WORKED = Conditions(
    snow_temperature_c=-15.0,
    melted_l=3.0,
    boiled_l=2.0,
    stove_efficiency=0.40,
    wind_kmh=30.0,
    simmer_minutes=0.0,
    priming_g=0.0,
)
"""The conditions of the worked example that the fuel chain is tested on: it only boils water."""


def snow_world(*, nights: int = 2, conditions: Conditions = WORKED) -> Problem:
    """Up to a camp at 4300 m, to the summit on the last day but one, and down."""
    stay = [("camp",)] * (nights - 2)
    visits = [("road", "cache", "camp"), *stay, ("camp", "summit", "camp")]
    visits.append(("camp", "cache", "road"))
    return Problem(
        route=Route(
            places=(
                Place("road", 1000, PlaceKind.ROAD_HEAD, -2.0),
                Place("cache", 3000, PlaceKind.CACHE_SITE, -10.0),
                Place("camp", 4300, night_temperature_c=-15.0),
                Place("summit", 5000, PlaceKind.SUMMIT, -25.0),
            ),
            legs=(
                Leg("l1", "road", "cache", LegMode.SLED),
                Leg("l2", "cache", "camp", LegMode.PACK),
                Leg("l3", "camp", "summit", LegMode.SUMMIT),
            ),
        ),
        calendar=Calendar(tuple(Day((Visit(("rope",), places),)) for places in visits)),
        roster=tuple(
            Person(name, Caps(pack_g=25_000), 80_000, "rope", "kitchen", body_mass_g=70_000)
            for name in ("ann", "bo")
        ),
        cook_groups=(
            CookGroup(
                "kitchen", (("camp", "high"),), (Container("bottle", "kitchen", 750, 190, 1200),)
            ),
        ),
        night_sets=(
            NightSet("high", "kitchen", 800, 50, 300, 2000, fuel_ml=205),
            NightSet("calm", "kitchen", 700, 40, 200, 1500, fuel_ml=160, storm=True),
        ),
        reserves=(Reserve("camp", "kitchen", ReserveKind.STORM, 2, "calm"),),
        waste=Waste(waste_g_per_person_night=150),
        fuel_density_g_per_l=725,
        fuel_margin_percent=10,
        conditions=conditions,
    )


def with_conditions(problem: Problem, **changes: object) -> Problem:
    """The problem with some facts told otherwise."""
    return replace(problem, conditions=replace(problem.conditions, **changes))


def with_place(problem: Problem, place_id: str, **changes: object) -> Problem:
    """The problem with one place changed."""
    places = tuple(
        replace(place, **changes) if place.place_id == place_id else place
        for place in problem.route.places
    )
    return replace(problem, route=replace(problem.route, places=places))


def with_leg(problem: Problem, leg_id: str, **changes: object) -> Problem:
    """The problem with one leg changed."""
    legs = tuple(
        replace(leg, **changes) if leg.leg_id == leg_id else leg for leg in problem.route.legs
    )
    return replace(problem, route=replace(problem.route, legs=legs))


def reckoned(part, problem: Problem) -> Part:
    """What a part of the requirements comes to for a problem."""
    return part(problem, read_timeline(problem))


def figure(found: Part, figure_id: str, **about: str | int) -> Figure:
    """The one figure of that id about that; the test fails unless there is exactly one."""
    (one,) = figures(found, figure_id, **about)
    return one


def figures(found: Part, figure_id: str, **about: str | int) -> list[Figure]:
    """All figures of that id about that."""
    return [
        f
        for f in found.figures
        if f.figure_id == figure_id and about.items() <= dict(f.about).items()
    ]


def notices(found: Part, notice_id: str, **about: str | int) -> list[Notice]:
    """All notices of that id about that."""
    return [
        n
        for n in found.notices
        if n.notice_id == notice_id and about.items() <= dict(n.about).items()
    ]


def told(one: Figure, name: str):
    """The input of a figure of that name."""
    return next(i for i in one.inputs if i.name == name)
