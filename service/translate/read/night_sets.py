"""One night set of a request, read onto the grid."""

from __future__ import annotations

from api_schema.menu import NightSetRequest
from service.translate.read import quantities
from service.translate.read.notes import Notes
from solver.problem import NightSet


def read_night_set(wire: NightSetRequest, group: str, pointer: str, notes: Notes) -> NightSet:
    """The night set as one cook group has it; a fuel left out is nought until it is computed."""
    return NightSet(
        set_id=wire.set_id,
        cook_group_id=group,
        gross_g=notes.mass_up(wire.mass, f"{pointer}/mass"),
        packaging_g=notes.mass_up(wire.packaging, f"{pointer}/packaging"),
        lunch_g=notes.mass_up(wire.lunch, f"{pointer}/lunch"),
        volume_ml=notes.volume_up(wire.volume, f"{pointer}/volume"),
        fuel_ml=0 if wire.fuel is None else notes.volume_up(wire.fuel, f"{pointer}/fuel"),
        sets_per_bag=wire.sets_per_bag,
        bag_count=wire.bags,
        storm=wire.storm,
        energy_kcal=wire.energy_kcal,
        contains=tuple(dict.fromkeys(wire.contains or ())),
        diets=tuple(dict.fromkeys(wire.suits_diets)),
        simmers=wire.simmers,
        lowest_m=_elevation_m(wire.lowest),
        highest_m=_elevation_m(wire.highest),
        dinner_kinds=wire.dinner_kinds,
        lunch_needs_cooking=wire.lunch_needs_cooking,
        lunch_kcal=wire.lunch_energy_kcal,
        spoils_below_c=(
            None if wire.spoils_below is None else quantities.temperature_c(wire.spoils_below)
        ),
    )


def _elevation_m(text: str | None) -> int | None:
    return None if text is None else quantities.whole_nearest(text)
