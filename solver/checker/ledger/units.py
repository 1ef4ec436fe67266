"""What units there can be in a plan, with the mass and volume of one, read from the problem."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from solver.problem import Item, NeedKind, Problem, Purpose
from solver.quantities import fuel_mass_nearest


class UnitKind(StrEnum):
    """What a unit is; open and empty containers and sacks are made on the way."""

    ITEM = "item"
    BAG = "bag"
    FULL = "full container"
    OPEN = "open container"
    EMPTY = "empty container"
    SACK = "sack"


@dataclass(frozen=True, slots=True)
class Unit:
    """One kind of unit: mass [g] and volume [mL] of one, and how many stand at the start.

    `provided` is None where the plan says how many are taken along. The mass of an open
    container is its tare; what is left in it is added for the day. `allergens` are those in the
    food whose packaging is in a sack.
    """

    unit_id: str
    kind: UnitKind
    mass_g: int
    volume_ml: int
    provided: int | None
    item: Item | None = None
    cook_group_id: str | None = None
    content_ml: int = 0
    allergens: frozenset[str] = frozenset()

    @property
    def is_gear_fuel(self) -> bool:
        """Whether it is fuel that the gear lists, beside what the cook groups burn."""
        return self.item is not None and self.item.purpose is Purpose.FUEL

    @property
    def holds_fuel(self) -> bool:
        """Whether there is fuel in it."""
        return self.kind in (UnitKind.FULL, UnitKind.OPEN) or self.is_gear_fuel


def provided_units(problem: Problem) -> Iterator[Unit]:
    """Everything that stands at the start place before anybody moves."""
    for item in problem.gear:
        if item.need.kind is not NeedKind.WORN:
            yield Unit(
                unit_id=item.unit_id,
                kind=UnitKind.ITEM,
                mass_g=item.mass_g,
                volume_ml=item.packed_volume_ml,
                provided=item.count,
                item=item,
            )
    for night_set in problem.night_sets:
        yield Unit(
            unit_id=night_set.unit_id,
            kind=UnitKind.BAG,
            mass_g=night_set.gross_g * night_set.sets_per_bag,
            volume_ml=night_set.volume_ml * night_set.sets_per_bag,
            provided=night_set.bag_count,
            cook_group_id=night_set.cook_group_id,
        )
    for group in problem.cook_groups:
        for container in group.containers:
            fuel_g = fuel_mass_nearest(
                volume_ml=container.content_ml, density_g_per_l=problem.fuel_density_g_per_l
            )
            yield Unit(
                unit_id=container.unit_id,
                kind=UnitKind.FULL,
                mass_g=container.tare_g + fuel_g,
                volume_ml=container.volume_ml,
                provided=container.count,
                cook_group_id=group.cook_group_id,
                content_ml=container.content_ml,
            )
