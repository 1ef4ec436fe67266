"""The menu of a request without one: the generic sets that its places need."""

from __future__ import annotations

from collections.abc import Mapping

from service.translate.read import generic_food, words
from service.translate.read.defaults import PRACTICE
from service.translate.read.menu_types import OpenFuel, SetAt, SleptAt
from service.translate.read.notes import Notes
from solver.problem import NightSet, RuleSettings


def generic_menu(
    slept_at: SleptAt, elevations: Mapping[str, int], notes: Notes, rules: RuleSettings
) -> tuple[tuple[NightSet, ...], SetAt, OpenFuel]:
    """The generic sets that the places need, and the generic storm set."""
    notes.point(("night_sets",), "/menu")
    used: SetAt = {
        group: {p: rules.elevation_band(elevations[p]) for p in slept if p in elevations}
        for group, slept in slept_at.items()
    }
    wanted = {set_id for places in used.values() for set_id in places.values()}
    taken = [s for s in generic_food.BANDS.values() if s.set_id in wanted]
    for chosen in (*taken, generic_food.STORM):
        notes.assume(
            "/menu",
            f"Night set {chosen.set_id}, {chosen.where(rules)}: gross mass and energy.",
            f"{words.grams(chosen.gross_g)}, {chosen.energy_kcal} kcal",
            chosen.source_words,
        )
        notes.assume(
            "/menu",
            f"Night set {chosen.set_id}: packaging, travel lunch, volume.",
            f"{words.grams(chosen.packaging_g)}, {words.grams(chosen.lunch_g)}, "
            f"{words.litres(chosen.volume_ml)}",
            PRACTICE,
        )
    night_sets = tuple(
        NightSet(
            set_id=chosen.set_id,
            cook_group_id=group,
            gross_g=chosen.gross_g,
            packaging_g=chosen.packaging_g,
            lunch_g=chosen.lunch_g,
            volume_ml=chosen.volume_ml,
            fuel_ml=0,
            storm=chosen is generic_food.STORM,
            energy_kcal=chosen.energy_kcal,
        )
        for group in slept_at
        for chosen in (*taken, generic_food.STORM)
    )
    for night_set in night_sets:
        notes.names[night_set.unit_id] = f"bag of 1 night set, {night_set.set_id}"
    return night_sets, used, {(s.cook_group_id, s.set_id): "/menu" for s in night_sets}
