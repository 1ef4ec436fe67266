"""Small things that are used up: medical refills, hygiene, repair; rounded up to what is sold.

The amounts are common practice, no source. A physician decides what a medical kit holds and how it
is used; this module only counts refills.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from solver.calculators._ranges import require_within
from solver.calculators._rounding import whole_up

Basis = Literal["person", "person_day", "group", "group_day"]


@dataclass(frozen=True, slots=True)
class Consumable:
    """A thing that is used up, its rate [units per basis] and the package it is sold in [units]."""

    name: str
    unit: str
    rate: float
    basis: Basis
    units_per_pack: float
    g_per_unit: float


# Common practice, no source.
COMMON = (
    Consumable("blister dressing", "piece", 0.15, "person_day", 5, 2.0),
    Consumable("adhesive plaster", "piece", 0.10, "person_day", 10, 1.0),
    Consumable("pain-relief tablet", "piece", 0.50, "person_day", 20, 0.8),
    Consumable("throat lozenge", "piece", 1.00, "person_day", 20, 3.0),
    Consumable("rehydration salts sachet", "piece", 0.10, "person_day", 10, 6.0),
    Consumable("anti-diarrhoea tablet", "piece", 0.05, "person_day", 12, 0.5),
    Consumable("zinc-oxide tape", "m", 0.10, "person_day", 10, 6.0),
    Consumable("disposable glove pair", "pair", 2.00, "person", 5, 8.0),
    Consumable("lip balm", "stick", 0.05, "person_day", 1, 9.0),
    Consumable("hand cleanser", "ml", 3.00, "person_day", 60, 1.0),
    Consumable("lighter", "piece", 3.00, "group", 1, 15.0),
    Consumable("repair tape", "m", 5.00, "group", 5, 12.0),
)


@dataclass(frozen=True, slots=True)
class ConsumableNeed:
    """Units wanted, packages to buy and the mass to carry."""

    units: float
    packs: int
    mass_g: float


def consumable_need(*, consumable: Consumable, persons: int, days: float) -> ConsumableNeed:
    """Units and whole packages of one consumable for a group and a number of days [count, g].

    Range: 0 to 100 persons, 0 to 120 days; refused outside.

    Source: rate times basis; the rates in ``COMMON`` are common practice, no source. A rate per
    event is given as a rate per person-day by the caller, who knows how often it happens.

    Departs: not a published model. The mass is that of whole packages, because they are carried.

    Independent check: none was found; it is arithmetic.
    """
    require_within("persons", persons, 0, 100, "persons")
    require_within("days", days, 0.0, 120.0, "days")
    require_within("rate", consumable.rate, 0.0, float("inf"), consumable.unit)
    require_within("units_per_pack", consumable.units_per_pack, 1e-9, float("inf"), consumable.unit)
    group = 1 if persons else 0
    times = {
        "person": float(persons),
        "person_day": persons * days,
        "group": float(group),
        "group_day": group * days,
    }
    units = consumable.rate * times[consumable.basis]
    packs = whole_up(units / consumable.units_per_pack)
    return ConsumableNeed(
        units=units,
        packs=packs,
        mass_g=packs * consumable.units_per_pack * consumable.g_per_unit,
    )
