"""Worlds about taking somebody down: six people and kit for two parties, or less of either."""

from __future__ import annotations

from dataclasses import replace

from solver.problem import (
    Evacuation,
    Item,
    Need,
    NeedKind,
    NightSet,
    Person,
    Problem,
    Purpose,
    Sled,
)
from tests.rules.party_worlds import team, thing
from tests.rules.worlds import EVERY_NIGHT, EVERY_TRIP, world

DAYS = "strip-c1 c1-strip"
SIX = (*team("r1", "m1", "m2", "m3"), *team("r2", "m4", "m5", "m6"))
GUIDED_SIX = (*team("r1", "guide-1", "c-1", "c-2"), *team("r2", "guide-2", "c-3", "c-4"))
ON_TRIPS = (
    Purpose.ROPE,
    Purpose.SHOVEL,
    Purpose.MEDICAL_KIT,
    Purpose.COMMUNICATOR,
    Purpose.NAVIGATION,
)
AT_CAMP = (Purpose.STOVE, Purpose.POT, Purpose.SHELTER)


def kit(less: Purpose | None = None, places: int = 3) -> tuple[Item, ...]:
    """Kit for two parties; of one purpose there is one unit less. Each unit weighs 10 g."""
    needs: dict[Purpose, Need] = {
        **dict.fromkeys(ON_TRIPS, EVERY_TRIP),
        Purpose.RESCUE_KIT: EVERY_TRIP,
        **dict.fromkeys(AT_CAMP, EVERY_NIGHT),
    }
    return tuple(
        thing(
            purpose,
            need,
            count=(4 if purpose is Purpose.RESCUE_KIT else 2) - (purpose is less),
            shelter_places=places if purpose is Purpose.SHELTER else 0,
        )
        for purpose, need in needs.items()
    )


def camp(
    people: tuple[Person, ...] = SIX,
    gear: tuple[Item, ...] | None = None,
    *,
    days: str = DAYS,
    asked: tuple[Evacuation, ...] = (),
    meal: NightSet | None = None,
    sleds: tuple[Sled, ...] = (),
    factor_down: int = 100,
) -> Problem:
    """People who sleep at c1 for a night, with kit for two parties unless told otherwise."""
    problem = world(
        days,
        people=people,
        gear=kit() if gear is None else gear,
        sleds=sleds,
        sled_leg_factors=(100, factor_down) if sleds else None,
    )
    if meal is not None:
        problem = replace(problem, night_sets=(meal,))
    return replace(problem, evacuations=asked)


STANDING_TENT = Need(NeedKind.AT_PLACE, up_to="c1")
