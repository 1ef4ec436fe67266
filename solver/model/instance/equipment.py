"""What several rules ask of the world: things by purpose, food and fuel by cook group."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from solver.model.instance.cargo import Cargo, CargoKind
from solver.model.instance.placement import need_of
from solver.model.instance.world import World
from solver.model.rows import LossRow
from solver.problem import CookGroup, Item, NeedKind, NightSet, Purpose, Trip

Terms = tuple[tuple[int, int], ...]
"""(cargo index, weight) pairs."""


def is_listed(world: World, purpose: Purpose) -> bool:
    """Whether the gear has anything of a purpose, worn or carried."""
    return any(item.purpose is purpose for item in world.problem.gear)


def things(world: World, purpose: Purpose) -> tuple[Cargo, ...]:
    """The cargoes of a purpose; what is worn is none."""
    return tuple(c for c in world.cargo if c.item is not None and c.item.purpose is purpose)


def units_of(world: World, purpose: Purpose) -> Terms:
    """Each unit of a purpose counted as one."""
    return tuple((cargo.index, 1) for cargo in things(world, purpose))


def shelter_places(world: World) -> Terms:
    """Each shelter counted by the people that it covers."""
    return tuple(
        (cargo.index, cargo.item.shelter_places)
        for cargo in things(world, Purpose.SHELTER)
        if cargo.item is not None and cargo.item.shelter_places
    )


def worn_by(world: World, purpose: Purpose, people: Iterable[str]) -> int:
    """Units of a purpose that some of these people wear."""
    there = set(people)
    return sum(
        item.count
        for item in world.problem.gear
        if item.purpose is purpose
        and item.need.kind is NeedKind.WORN
        and _wears(world, item, there)
    )


def _wears(world: World, item: Item, people: set[str]) -> bool:
    return not need_of(world, item).people.isdisjoint(people)


def fuel(world: World, state: int, cook_group_id: str | None = None) -> Terms:
    """Fuel in a state [mL], full containers and open ones, of one cook group or of all."""
    return tuple(
        (cargo.index, cargo.fuel_ml)
        for cargo in world.cargo
        if cargo.kind in (CargoKind.FULL, CargoKind.OPEN)
        and cook_group_id in (None, cargo.cook_group_id)
        and cargo.is_there(state)
    )


def night_sets(world: World, cook_group_id: str) -> Terms:
    """Night sets of a cook group, whichever they are."""
    return tuple(
        (cargo.index, cargo.sets)
        for cargo in world.cargo
        if cargo.kind is CargoKind.BAG and cargo.cook_group_id == cook_group_id
    )


def nights_from(world: World, day: int) -> int:
    """How many nights the calendar has from the night of a day on."""
    return max(0, len(world.timeline.nights) - day + 1)


def loss_row(world: World, rule_id: str, trip: Trip, terms: Terms, at_least: int) -> LossRow:
    """What must be left within reach of a trip, at the places of its party's day."""
    return LossRow(rule_id, trip.index, places_of_day(world, trip), terms, at_least)


def places_of_day(world: World, trip: Trip) -> tuple[str, ...]:
    """The places that a trip's party visits on its day: what stands there is within its reach."""
    team = world.problem.person(trip.person_ids[0]).rope_team_id
    return tuple(dict.fromkeys(world.problem.calendar.days[trip.day - 1].visit_of(team).places))


def within_reach(world: World, trip: Trip) -> tuple[str, ...]:
    """Everybody who is at one of the places of a trip's day once the trip has arrived."""
    stays = world.stays[world.clock.trip_event[trip.index]]
    places = places_of_day(world, trip)
    return tuple(person for person, place in stays.items() if place in places)


def by_cook_group(world: World, people: Iterable[str]) -> Counter[str]:
    """How many of some people eat in each cook group."""
    return Counter(world.problem.person(person).cook_group_id for person in people)


def burnt_ml(world: World, kitchen: CookGroup, day: int) -> int:
    """What a kitchen burns on the night of a day for all who eat from it, before margin [mL]."""
    return sum(
        len(world.problem.members(group.cook_group_id))
        * set_tonight(world, group.cook_group_id, day).fuel_ml
        for group in world.problem.fed_from(kitchen)
        if world.problem.members(group.cook_group_id)
    )


def set_tonight(world: World, cook_group_id: str, day: int) -> NightSet:
    """The night set that a cook group uses on the night of a day."""
    member = world.problem.members(cook_group_id)[0]
    place_id = world.sleeps[day, member.person_id]
    set_id = world.problem.cook_group(cook_group_id).set_id_at(place_id)
    return world.problem.night_set(cook_group_id, set_id)
