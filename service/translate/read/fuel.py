"""Cook groups and their fuel: what kinds of container, how many, how dense, what margin."""

from __future__ import annotations

from api_schema.fuel import ContainerRequest, FuelRequest
from service.translate.read import defaults, generic_food, quantities, words
from service.translate.read.guests import is_guest, kitchen_of
from service.translate.read.menu_types import SetAt
from service.translate.read.notes import Notes, pointer_to
from solver.problem import (
    Container,
    CookGroup,
)

MOST_KINDS_OF_CONTAINER = 10
"""Kinds of container that one cook group may have."""


def read_cook_groups(fuel: FuelRequest, set_at: SetAt, notes: Notes) -> tuple[CookGroup, ...]:
    """The cook groups with the night sets that they use and their fuel containers."""
    groups = []
    kitchens = [group for group in set_at if not is_guest(group)]
    for index, (group, places) in enumerate(set_at.items()):
        notes.point(("cook_groups", index), "/roster")
        notes.point(("cook_groups", index, "set_at"), "/menu")
        notes.point(("cook_groups", index, "containers"), "/fuel/containers")
        containers: list[Container] = []
        for number, wire in enumerate(fuel.containers or ()):
            pointer = pointer_to("fuel", "containers", number)
            if wire.cook_group is not None and wire.cook_group not in kitchens and index == 0:
                notes.unknown_id(f"{pointer}/cook_group", "cook group", wire.cook_group, kitchens)
            if wire.cook_group in (None, group) and group in kitchens:
                notes.point(("cook_groups", index, "containers", len(containers)), pointer)
                containers.append(_read_container(wire, group, pointer, notes))
        if len(containers) > MOST_KINDS_OF_CONTAINER:
            notes.fault(
                "/fuel/containers",
                "too_many",
                f"Cook group {group} has {len(containers)} kinds of container. Give it at most "
                f"{MOST_KINDS_OF_CONTAINER}.",
            )
            del containers[MOST_KINDS_OF_CONTAINER:]
        if fuel.containers is None and group in kitchens:
            containers.append(_bottle(group, notes))
        host = kitchen_of(group) if is_guest(group) else None
        groups.append(CookGroup(group, tuple(places.items()), tuple(containers), host))
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
    bottle = generic_food.BOTTLE
    notes.assume(
        "/fuel/containers",
        "Fuel containers, as many as needed: usable content, tare, volume.",
        f"{words.millilitres(bottle.content_ml)}, {words.grams(bottle.tare_g)}, "
        f"{words.litres(bottle.volume_ml)}",
        bottle.source_words,
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
        density_g_per_l = notes.default("/fuel/density", defaults.FUEL_DENSITY)
    if fuel.margin is not None:
        margin_percent = notes.within(
            quantities.whole_up(fuel.margin), "/fuel/margin", least=0, most=300, unit="%"
        )
    else:
        margin_percent = notes.default("/fuel/margin", defaults.FUEL_MARGIN)
    return density_g_per_l, margin_percent
