"""A small table of generic foods, each with its public source, for menus without labels."""

from __future__ import annotations

import csv
import functools
from dataclasses import dataclass
from pathlib import Path

from solver.calculators._ranges import require_choice, require_within
from solver.calculators.food_energy import atwater_energy_kcal

_TABLE = Path(__file__).parent / "data" / "generic_foods.csv"


@dataclass(frozen=True, kw_only=True)
class GenericFood:
    """One food per 100 g as bought; carbohydrate is by difference and holds the fibre."""

    food_id: str
    usda_description: str
    fdc_id: str
    ndb_number: str
    energy_kcal: float
    protein_g: float
    fat_g: float
    carbohydrate_g: float
    fibre_g: float
    status: str


@functools.cache
def generic_foods() -> tuple[GenericFood, ...]:
    """All generic foods, each per 100 g [kcal and g].

    Range: the rows of data/generic_foods.csv, in its order.

    Source: USDA National Nutrient Database for Standard Reference, release 28 (2015), and SR
    Legacy (2018). Each row says whether it was read, quoted, or written from memory, unverified.

    Departs: nowhere; packaging is not in the table.

    Independent check: each printed energy against the Atwater general factors, within 10 %.
    """
    lines = _TABLE.read_text(encoding="utf-8").splitlines()
    table = csv.DictReader((line for line in lines if not line.startswith("#")), strict=True)
    return tuple(
        GenericFood(
            food_id=row["food_id"],
            usda_description=row["usda_description"],
            fdc_id=row["fdc_id"],
            ndb_number=row["ndb_number"],
            energy_kcal=float(row["energy_kcal"]),
            protein_g=float(row["protein_g"]),
            fat_g=float(row["fat_g"]),
            carbohydrate_g=float(row["carbohydrate_g"]),
            fibre_g=float(row["fibre_g"]),
            status=row["status"],
        )
        for row in table
    )


def generic_food(*, food_id: str) -> GenericFood:
    """One generic food by its id, per 100 g [kcal and g].

    Range: the ids of the table. Any other id: ValueError with the ids that exist.

    Source: as generic_foods.

    Departs: nowhere.

    Independent check: as generic_foods.
    """
    return require_choice("food_id", food_id, {food.food_id: food for food in generic_foods()})


def generic_food_energy_kcal(*, food_id: str, mass_g: float) -> float:
    """Energy of a mass of a generic food [kcal].

    Range: the ids of the table, mass 0-100 000 g. Outside it: ValueError.

    Source: as generic_foods, in proportion to the mass.

    Departs: nowhere.

    Independent check: other public texts that quote the same entries, see the tests.
    """
    food = generic_food(food_id=food_id)
    require_within("mass_g", mass_g, 0, 100_000, "g")
    return food.energy_kcal * mass_g / 100


def generic_food_atwater_difference(*, food_id: str) -> float:
    """How far Atwater's general factors lie from the printed energy, as a share of it [1].

    Range: the ids of the table. Any other id: ValueError.

    Source: as atwater_energy_kcal and generic_foods.

    Departs: the fibre is taken off the carbohydrate and counted with its own factor. With the
    fibre left in at 4 kcal/g, dried fruit would lie 11-12 % high, since its special factors are
    lower.

    Independent check: none of the rows lies further off than 10 %.
    """
    food = generic_food(food_id=food_id)
    atwater_kcal = atwater_energy_kcal(
        protein_g=food.protein_g,
        available_carbohydrate_g=food.carbohydrate_g - food.fibre_g,
        fat_g=food.fat_g,
        fibre_g=food.fibre_g,
        alcohol_g=0,
    )
    return (atwater_kcal - food.energy_kcal) / food.energy_kcal
