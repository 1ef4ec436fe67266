"""What those who take an ill person down would carry, and how much they may."""

from __future__ import annotations

from itertools import pairwise

from solver.checker.ledger.facts import Facts
from solver.problem import Direction, Leg, LegMode, NeedKind, Person, Purpose, Sled
from solver.quantities import fuel_mass_nearest, share_down, units_up

ONE_EACH = (
    Purpose.STOVE,
    Purpose.POT,
    Purpose.SHOVEL,
    Purpose.MEDICAL_KIT,
    Purpose.COMMUNICATOR,
    Purpose.NAVIGATION,
)
"""What each of the two parties has one of, beside rope, rescue kit and shelter."""

Things = dict[Purpose, list[tuple[int, int]]]
"""By purpose each unit that is there for sure, as (mass, shelter places), the lightest first."""


def legs_home(facts: Facts, place_id: str) -> list[Leg]:
    """The legs from a place home to the start, the first travelled first."""
    route = facts.problem.route
    return [route.leg_between(a, b) for a, b in pairwise(route.way_home(place_id))]


def mass_of_tents_g(things: Things, leaving: int, staying: int) -> int | None:
    """The least mass of shelters that cover those who leave and leave enough to the rest [g]."""
    lightest: dict[int, int] = {0: 0}
    units = things.get(Purpose.SHELTER, [])
    for mass_g, places in units:
        for covered, so_far_g in list(lightest.items()):
            with_it = so_far_g + mass_g
            if with_it < lightest.get(covered + places, with_it + 1):
                lightest[covered + places] = with_it
    total = sum(places for _, places in units)
    fits = [
        g for covered, g in lightest.items() if covered >= leaving and total - covered >= staying
    ]
    return min(fits, default=None)


def mass_taken_g(
    facts: Facts, parties: tuple[list[Person], list[Person]], place_id: str, things: Things
) -> int:
    """All that those who leave take: their own things, kit, food, fuel and water [g]."""
    leaving, staying = parties
    kits = facts.problem.rules.whole("least_rescue_kits")
    names = {person.person_id for person in leaving}
    own_g = sum(
        item.mass_g * item.count
        for item in facts.problem.gear
        if item.owner_id in names and item.need.kind in {NeedKind.EVERY_TRIP, NeedKind.EVERY_NIGHT}
    )
    tents_g = mass_of_tents_g(things, len(leaving), len(staying)) or 0
    kit_g = sum(things[purpose][0][0] for purpose in (Purpose.ROPE, *ONE_EACH))
    kit_g += sum(mass_g for mass_g, _ in things[Purpose.RESCUE_KIT][:kits])
    water_g = sum(person.water_g for person in leaving)
    food_g = sum(_food_and_fuel_g(facts, person, place_id) for person in leaving)
    return own_g + tents_g + kit_g + water_g + food_g


def _food_and_fuel_g(facts: Facts, person: Person, place_id: str) -> int:
    """One person's food and fuel for the nights of an evacuation, without cans [g]."""
    problem = facts.problem
    nights = problem.rules.whole("evacuation_nights")
    group = problem.cook_group(person.cook_group_id)
    night_set = problem.night_set(group.cook_group_id, group.set_id_at(place_id))
    fuel_ml = units_up(
        amount=nights * night_set.fuel_ml * (100 + problem.fuel_margin_percent), per_unit=100
    )
    fuel_g = fuel_mass_nearest(volume_ml=fuel_ml, density_g_per_l=problem.fuel_density_g_per_l)
    return nights * night_set.gross_g + fuel_g


def mass_that_may_be_taken_g(
    facts: Facts, leaving: list[Person], place_id: str, sled_ids: list[str]
) -> int:
    """What those who leave may carry and haul, the ill person hardly anything [g]."""
    most_ill_g = 1000 * facts.problem.rules.whole("evacuee_load_kg")
    legs = legs_home(facts, place_id)
    ill, *companions = leaving
    room_g = min(most_ill_g, _most_g(ill, legs, None))
    for person in companions:
        sled = next(
            (
                sled
                for sled in facts.problem.sleds
                if sled.sled_id in sled_ids
                and (sled.hauler_id, sled.second_hauler_id) == (person.person_id, None)
            ),
            None,
        )
        room_g += _most_g(person, legs, sled)
    return room_g


def _most_g(person: Person, legs: list[Leg], sled: Sled | None) -> int:
    """What one person may carry and haul over all these legs on the way down [g].

    A sled is of use only where all legs are sled legs, else it would be left on the way.
    """
    most: list[int] = [] if person.load_limit_g is None else [person.load_limit_g]
    hauls = sled is not None and all(leg.mode is LegMode.SLED for leg in legs)
    for leg in legs:
        pack_g = person.caps.pack_on(leg.mode, Direction.HOMEWARD)
        if sled is None or not hauls:
            most.append(pack_g)
            continue
        sled_g = share_down(
            amount=min(person.caps.sled_g, sled.mass_limit_g),
            percent=leg.sled_factor_homeward_percent,
        )
        total_g = pack_g + sled_g
        if person.caps.total_g is not None:
            total_g = min(total_g, person.caps.total_g)
        most.append(max(pack_g, total_g - sled.tare_g))
    return min(most)
