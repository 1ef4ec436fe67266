"""Energy and mass of food, from its macronutrients or from rules of bulk rationing.

Masses here are net food. Packaging is a mass of its own: it stays when the food is eaten.
"""

from __future__ import annotations

from typing import Literal

from solver.calculators._ranges import require_choice, require_within

TripKind = Literal[
    "cool_days_cold_nights",
    "mild",
    "very_cold_with_sleds",
    "warm",
]
Bound = Literal["high", "low"]

_KG_PER_POUND = 0.45359237

_BULK_POUNDS = {
    "warm": {"low": 1.5, "high": 1.5},
    "mild": {"low": 1.75, "high": 2.0},
    "cool_days_cold_nights": {"low": 2.0, "high": 2.25},
    "very_cold_with_sleds": {"low": 2.5, "high": 2.5},
}
_BULK_KCAL = {
    "warm": {"low": 2500.0, "high": 3000.0},
    "mild": {"low": 3000.0, "high": 3500.0},
    "cool_days_cold_nights": {"low": 3500.0, "high": 4500.0},
    "very_cold_with_sleds": {"low": 4000.0, "high": 5000.0},
}


def atwater_energy_kcal(
    *,
    protein_g: float,
    available_carbohydrate_g: float,
    fat_g: float,
    fibre_g: float,
    alcohol_g: float,
) -> float:
    """Energy of food by the Atwater general factors [kcal].

    Range: each mass 0-100 000 g. Outside it: ValueError. Carbohydrate is without fibre; where a
    table gives carbohydrate by difference, take the fibre off first.

    Source: FAO (2003), Food energy: methods of analysis and conversion factors, Food and
    Nutrition Paper 77: protein 4, available carbohydrate 4, fat 9, alcohol 7, fibre 2 kcal/g.
    From memory, unverified.

    Departs: nowhere. Food tables often use factors special to a food, so a printed energy may
    differ by some per cent.

    Independent check: the printed energies of the generic foods, which come from special factors,
    all agree within 10 % once their fibre is taken off the carbohydrate.
    """
    for name, mass_g in (
        ("protein_g", protein_g),
        ("available_carbohydrate_g", available_carbohydrate_g),
        ("fat_g", fat_g),
        ("fibre_g", fibre_g),
        ("alcohol_g", alcohol_g),
    ):
        require_within(name, mass_g, 0, 100_000, "g")
    return 4 * protein_g + 4 * available_carbohydrate_g + 9 * fat_g + 2 * fibre_g + 7 * alcohol_g


def energy_density_kcal_per_g(*, energy_kcal: float, mass_g: float) -> float:
    """Energy a gram of food [kcal/g].

    Range: energy 0-1 000 000 kcal, mass 1-1 000 000 g, and no more than 9.3 kcal/g, which is more
    than pure fat. Outside it: ValueError.

    Source: definition.

    Departs: nowhere.

    Independent check: a cold-weather military ration, 3 bags of 1540 kcal and 15 lb for 12 bags
    with packaging, is 2.72 kcal/g gross (US Defense Logistics Agency page, read).
    """
    require_within("energy_kcal", energy_kcal, 0, 1_000_000, "kcal")
    require_within("mass_g", mass_g, 1, 1_000_000, "g")
    density = energy_kcal / mass_g
    require_within("energy_kcal / mass_g", density, 0, 9.3, "kcal/g")
    return density


def ration_mass_g(*, energy_kcal: float, energy_density_kcal_per_g: float) -> float:
    """Net food that supplies an energy [g].

    Range: energy 0-1 000 000 kcal, density 1-9.3 kcal/g. Outside it: ValueError.

    Source: definition.

    Departs: nowhere.

    Independent check: bulk-ration guidance of 2.5 lb for 4000-5000 kcal (quoted) is 3.5-4.4
    kcal/g; at those densities the mass comes back to 1134 g.
    """
    require_within("energy_kcal", energy_kcal, 0, 1_000_000, "kcal")
    require_within("energy_density_kcal_per_g", energy_density_kcal_per_g, 1, 9.3, "kcal/g")
    return energy_kcal / energy_density_kcal_per_g


def bulk_ration_kg(*, people: float, days: float, pounds_per_person_day: float) -> float:
    """Food for a whole party by the pounds-per-person-per-day method [kg].

    Range: 1-50 people, 1-120 days, 1-3 lb a person and day. Outside it: ValueError.

    Source: bulk-ration method of an outdoor-education cookery book (Pearson, ed.), worked example
    quoted.

    Departs: the result is in kilograms (1 lb = 0.45359237 kg), the method in pounds.

    Independent check: the book's example, 4 people x 8 days x 1.75 lb = 56 lb (quoted).
    """
    require_within("people", people, 1, 50, "people")
    require_within("days", days, 1, 120, "days")
    require_within("pounds_per_person_day", pounds_per_person_day, 1, 3, "lb/person-day")
    return people * days * pounds_per_person_day * _KG_PER_POUND


def bulk_ration_pounds_per_person_day(*, trip: TripKind, bound: Bound) -> float:
    """Bulk-ration guidance by kind of trip, low or high end [lb/person-day].

    Range: the kinds of trip and bounds named in the types. Any other name: ValueError.

    Source: bulk-ration method of an outdoor-education cookery book (Pearson, ed.), quoted.

    Departs: the names of the kinds are ours.

    Independent check: polar expeditions carry just under 1 kg for some 5500 kcal (a polar
    leader's page, read) and outdoor clubs about 1 kg (read); the coldest kind is 1.13 kg of less
    rich food.
    """
    return require_choice("bound", bound, require_choice("trip", trip, _BULK_POUNDS))


def bulk_ration_kcal_per_person_day(*, trip: TripKind, bound: Bound) -> float:
    """Energy that the bulk-ration guidance stands for, low or high end [kcal/person-day].

    Range: the kinds of trip and bounds named in the types. Any other name: ValueError.

    Source: bulk-ration method of an outdoor-education cookery book (Pearson, ed.), quoted.

    Departs: the names of the kinds are ours.

    Independent check: hard work in the cold takes about 4000 kcal (US Army TC 21-3, 1986,
    paragraph 5-1, read), inside the band of the coldest kind.
    """
    return require_choice("bound", bound, require_choice("trip", trip, _BULK_KCAL))
