"""Worlds in which nothing matters but how pieces are shared out among packs on one leg.

A party with equal pack caps takes every piece out and home again in one day; there is no
night, and so no food or fuel. The cap of the way home is so large that only the way out
counts: the least peak load is then the least makespan of the pieces on identical machines, a
classical problem with known answers.
"""

from __future__ import annotations

from collections.abc import Sequence

from solver.problem import (
    Calendar,
    Caps,
    CookGroup,
    Day,
    Direction,
    Item,
    Leg,
    LegMode,
    Need,
    NeedKind,
    Person,
    Place,
    PlaceKind,
    Problem,
    Route,
    Visit,
)

HOMEWARD_CAP_G = 1_000_000


def one_leg(masses_g: Sequence[int], *, people: int, cap_g: int) -> Problem:
    """So many people with packs of this cap carry pieces of these masses over one leg [g]."""
    home = (LegMode.PACK, Direction.HOMEWARD, HOMEWARD_CAP_G)
    caps = Caps(pack_g=cap_g, pack_by_leg=(home,))
    return Problem(
        route=Route(
            places=(Place("road", 1000, PlaceKind.ROAD_HEAD), Place("camp", 1500)),
            legs=(Leg("leg", "road", "camp", LegMode.PACK),),
        ),
        calendar=Calendar((Day((Visit(("team",), ("road", "camp", "road")),)),)),
        roster=tuple(
            Person(f"m{number}", caps, 1_000_000, "team", "kitchen")
            for number in range(1, people + 1)
        ),
        gear=tuple(
            Item(f"piece-{number}", mass_g, 0, Need(NeedKind.EVERY_TRIP))
            for number, mass_g in enumerate(masses_g, start=1)
        ),
        cook_groups=(CookGroup("kitchen", ()),),
    )
