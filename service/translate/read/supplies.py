"""Cook groups, fuel, reserves and waste of a request, read onto the grid."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from api_schema.fuel import ContainerRequest, FuelRequest
from api_schema.plan_request import PlanRequest
from api_schema.reserves import WasteRequest
from service.translate.read import defaults, quantities
from service.translate.read.defaults import PRACTICE
from service.translate.read.menu import SetAt, SleptAt
from service.translate.read.notes import Notes, pointer_to
from solver.problem import (
    Calendar,
    Container,
    CookGroup,
    NightSet,
    Person,
    Reserve,
    ReserveKind,
    Waste,
)
from solver.quantities import units_up


def places_slept_at(people: Sequence[Person], calendar: Calendar) -> SleptAt:
    """Where each cook group sleeps, as its first member's rope team does."""
    teams: dict[str, str] = {}
    for person in people:
        teams.setdefault(person.cook_group_id, person.rope_team_id)
    return {
        group: tuple(
            dict.fromkeys(
                visit.places[-1]
                for day in calendar.days[:-1]
                for visit in day.visits
                if team in visit.rope_team_ids and visit.places
            )
        )
        for group, team in teams.items()
    }


def read_cook_groups(fuel: FuelRequest, set_at: SetAt, notes: Notes) -> tuple[CookGroup, ...]:
    """The cook groups with the night sets that they use and their fuel containers."""
    groups = []
    for index, (group, places) in enumerate(set_at.items()):
        notes.point(("cook_groups", index), "/roster")
        notes.point(("cook_groups", index, "set_at"), "/menu")
        notes.point(("cook_groups", index, "containers"), "/fuel/containers")
        containers: list[Container] = []
        for number, wire in enumerate(fuel.containers or ()):
            pointer = pointer_to("fuel", "containers", number)
            if wire.cook_group is not None and wire.cook_group not in set_at:
                known = ", ".join(set_at)
                if index == 0:
                    notes.fault(
                        f"{pointer}/cook_group",
                        "unknown_id",
                        f"There is no cook group {wire.cook_group}. Known are: {known}.",
                    )
            if wire.cook_group in (None, group):
                notes.point(("cook_groups", index, "containers", len(containers)), pointer)
                containers.append(_read_container(wire, group, pointer, notes))
        if fuel.containers is None:
            containers.append(_bottle(group, notes))
        groups.append(CookGroup(group, tuple(places.items()), tuple(containers)))
    return tuple(groups)


def _read_container(wire: ContainerRequest, group: str, pointer: str, notes: Notes) -> Container:
    container = Container(
        container_id=wire.container_id,
        cook_group_id=group,
        content_ml=notes.volume_down(wire.content, f"{pointer}/content"),
        tare_g=notes.mass_up(wire.tare, f"{pointer}/tare"),
        volume_ml=notes.volume_up(wire.volume, f"{pointer}/volume"),
        count=wire.count,
        capacity_ml=(
            None
            if wire.capacity is None
            else notes.volume_down(wire.capacity, f"{pointer}/capacity")
        ),
    )
    if wire.name:
        notes.names[container.unit_id] = wire.name
    return container


def _bottle(group: str, notes: Notes) -> Container:
    bottle = defaults.BOTTLE
    notes.assume(
        "/fuel/containers",
        "Fuel containers, as many as needed: usable content, tare, volume.",
        f"{bottle.content_ml} mL, {bottle.tare_g} g, {bottle.volume_ml / 1000:g} L",
        PRACTICE,
    )
    container = Container(
        container_id=bottle.container_id,
        cook_group_id=group,
        content_ml=bottle.content_ml,
        tare_g=bottle.tare_g,
        volume_ml=bottle.volume_ml,
    )
    notes.names[container.unit_id] = bottle.name
    return container


def read_fuel_figures(fuel: FuelRequest, notes: Notes) -> tuple[int, int]:
    """Density [g/L] and margin [per cent] of fuel."""
    if fuel.density is not None:
        density_g_per_l = notes.within(
            quantities.whole_up(fuel.density), "/fuel/density", least=500, most=1200, unit="g/L"
        )
    else:
        density_g_per_l = defaults.FUEL_DENSITY_G_PER_L
        notes.assume("/fuel/density", "Density of liquid fuel.", "0.7 kg/L", PRACTICE)
    if fuel.margin is not None:
        margin_percent = notes.within(
            quantities.whole_up(fuel.margin), "/fuel/margin", least=0, most=300, unit="%"
        )
    else:
        margin_percent = defaults.FUEL_MARGIN_PERCENT
        notes.assume("/fuel/margin", "Margin on all fuel burnt.", "12 %", PRACTICE)
    return density_g_per_l, margin_percent


def read_reserves(
    request: PlanRequest,
    night_sets: Sequence[NightSet],
    set_at: SetAt,
    slept_at: SleptAt,
    notes: Notes,
) -> tuple[Reserve, ...]:
    """Storm nights of places and reserves of the request, one for each cook group."""
    storm_sets = {s.cook_group_id: s.set_id for s in reversed(night_sets) if s.storm}
    reserves: list[Reserve] = []

    def add(reserve: Reserve, pointer: str) -> None:
        group, place = reserve.cook_group_id, reserve.place_id
        set_id = reserve.set_id or storm_sets.get(group) or set_at.get(group, {}).get(place)
        if set_id is None:
            notes.fault(
                pointer,
                "no_night_set",
                f"No storm set and no night set at {place} is known for cook group {group}. Name "
                "the set_id of the reserve.",
            )
            return
        notes.point(("reserves", len(reserves)), pointer)
        reserves.append(replace(reserve, set_id=set_id))

    for index, wire in enumerate(request.route.places):
        if wire.storm_nights:
            pointer = pointer_to("route", "places", index, "storm_nights")
            for group in _holders(wire.place_id, ReserveKind.STORM, slept_at):
                notes.point(("reserves", len(reserves), "place_id"), pointer)
                storm = Reserve(wire.place_id, group, ReserveKind.STORM, wire.storm_nights, "")
                add(storm, pointer)
    for index, reserve in enumerate(request.reserves):
        pointer = pointer_to("reserves", index)
        kind = ReserveKind(reserve.kind)
        if reserve.cook_group is not None:
            groups: tuple[str, ...] = (reserve.cook_group,)
        else:
            groups = _holders(reserve.place, kind, slept_at)
        for group in groups:
            notes.point(("reserves", len(reserves), "place_id"), f"{pointer}/place")
            held = Reserve(
                place_id=reserve.place,
                cook_group_id=group,
                kind=kind,
                nights=reserve.nights,
                set_id=reserve.set_id or "",
                people=reserve.people,
            )
            add(held, pointer)
    if not reserves:
        notes.assume("/reserves", "Nights of food and fuel held in reserve.", "none", PRACTICE)
    return tuple(reserves)


def _holders(place: str, kind: ReserveKind, slept_at: SleptAt) -> tuple[str, ...]:
    """The cook groups that hold a reserve for all; those that never sleep there need none."""
    sleeping = tuple(group for group, places in slept_at.items() if place in places)
    return tuple(slept_at) if kind is ReserveKind.BASE_WAIT or not sleeping else sleeping


def read_waste(waste: WasteRequest, notes: Notes) -> Waste:
    """What people and packaging leave, and the sacks that it is carried down in."""
    notes.point(("waste",), "/waste")
    given = (
        (
            "per_person_night",
            "Human waste of one person in one night: 150 g, a 20 g liner, 15 g of paper.",
            "185 g",
        ),
        ("trash_sack", "Most that one trash sack holds.", "4 kg"),
        ("waste_sack", "Most that one waste sack holds.", "4 kg"),
        ("trash_density", "Density of packed trash.", "0.2 kg/L"),
        ("waste_density", "Density of packed waste.", "0.5 kg/L"),
    )
    for field, what, value in given:
        if getattr(waste, field) is None:
            notes.assume(f"/waste/{field}", what, value, PRACTICE)
    return Waste(
        waste_g_per_person_night=(
            defaults.WASTE_G_PER_PERSON_NIGHT
            if waste.per_person_night is None
            else notes.mass_up(waste.per_person_night, "/waste/per_person_night")
        ),
        trash_sack_g=(
            defaults.SACK_G
            if waste.trash_sack is None
            else notes.mass_down(waste.trash_sack, "/waste/trash_sack")
        ),
        waste_sack_g=(
            defaults.SACK_G
            if waste.waste_sack is None
            else notes.mass_down(waste.waste_sack, "/waste/waste_sack")
        ),
        trash_ml_per_g=_ml_per_g(
            waste.trash_density, "/waste/trash_density", defaults.TRASH_ML_PER_G, notes
        ),
        waste_ml_per_g=_ml_per_g(
            waste.waste_density, "/waste/waste_density", defaults.WASTE_ML_PER_G, notes
        ),
        may_be_left=waste.may_be_left,
    )


def _ml_per_g(density: str | None, pointer: str, default: int, notes: Notes) -> int:
    """Room that a gram takes, rounded up [mL/g]."""
    if density is None:
        return default
    density_g_per_l = notes.within(
        quantities.whole_down(density), pointer, least=20, most=5000, unit="g/L"
    )
    return units_up(amount=1000, per_unit=max(density_g_per_l, 1))
