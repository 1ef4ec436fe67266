"""Water to make at each camp: melted and boiled apart, with what dried meals take up inside."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.calculators.water_need import Band, published_water_range_l, water_need
from solver.problem import Conditions, Problem, RuleSettings, Timeline
from solver.requirements.figures import Figure, Input, Notice, Part
from solver.requirements.surroundings import (
    PRACTICE,
    as_given,
    assumed,
    elevation,
    out_of_range,
    sleepers,
)

LOWEST_M, HIGHEST_M = -430, 8849
REHYDRATION_L = 1.0
SOURCE = (
    "4.0 L low on the mountain, 4.3 L in the middle band of the rulebook, 4.6 L in the high one, "
    f"3.5 L on a storm day: {PRACTICE}, inside published ranges (read)"
)
_UNIT = "L/person-night"


@dataclass(frozen=True, slots=True)
class WaterPattern:
    """Water of one person and night, melted and boiled; rehydration is inside the boiled."""

    melted: Input
    boiled: Input
    rehydration_l: float

    @property
    def total_l(self) -> float:
        """Melted and boiled together [L]."""
        return float(self.melted.value) + float(self.boiled.value)


def water_pattern(
    *, elevation_m: int, storm: bool, conditions: Conditions, rules: RuleSettings
) -> WaterPattern:
    """Water of one person and night at an elevation [L]: what the request gives, else the default.

    One of melted and boiled given and the other not: the other is the default's own. Raises
    ValueError for an elevation outside -430 to 8849 m.
    """
    if not LOWEST_M <= elevation_m <= HIGHEST_M:
        raise ValueError(
            f"elevation: {elevation_m} m was given; allowed is {LOWEST_M} to {HIGHEST_M} m."
        )
    band: Band = "storm" if storm else rules.elevation_band(elevation_m)
    need = water_need(band=band, rehydration_l=REHYDRATION_L)
    melted, boiled = conditions.melted_l, conditions.boiled_l
    boiled_l = need.boiled_l if boiled is None else boiled
    return WaterPattern(
        melted=(
            assumed("melted", round(need.melted_l, 6), "L", SOURCE)
            if melted is None
            else as_given("melted", melted, "L")
        ),
        boiled=(
            assumed("boiled", boiled_l, "L", "1 L for dried meals, 1 L of hot drinks: " + PRACTICE)
            if boiled is None
            else as_given("boiled", boiled_l, "L")
        ),
        rehydration_l=min(need.rehydration_l, boiled_l),
    )


def water(problem: Problem, timeline: Timeline) -> Part:
    """Litres melted and boiled for each person and night, camp by camp, and in all [L]."""
    figures: list[Figure] = []
    notices: list[Notice] = []
    for place_id, person_nights in sleepers(timeline).items():
        place = problem.route.place(place_id)
        about = (("place_id", place_id),)
        try:
            pattern = water_pattern(
                elevation_m=place.elevation_m,
                storm=False,
                conditions=problem.conditions,
                rules=problem.rules,
            )
        except ValueError as error:
            notices.append(out_of_range("water_melted", about, error))
            continue
        inputs = (elevation(place), pattern.melted, pattern.boiled)
        nights = as_given("person_nights", person_nights, "person-nights")
        for figure_id, value, unit, formula, its_inputs in (
            ("water_melted", float(pattern.melted.value), _UNIT, "drunk cold or warm", inputs),
            ("water_boiled", float(pattern.boiled.value), _UNIT, "meals and hot drinks", inputs),
            ("water_rehydration", pattern.rehydration_l, _UNIT, "inside the boiled", inputs),
            (
                "water_at_camp",
                pattern.total_l * person_nights,
                "L",
                "(melted + boiled) × person-nights",
                (*inputs, nights),
            ),
        ):
            figures.append(
                Figure(figure_id, about, value, unit, formula, SOURCE, "practice", its_inputs)
            )
        notices.extend(_outside_guidance(place_id, pattern))
    return Part(tuple(figures), tuple(notices))


def _outside_guidance(place_id: str, pattern: WaterPattern) -> Iterator[Notice]:
    least_l, most_l = published_water_range_l(setting="cold_general")
    if not least_l <= pattern.total_l <= most_l:
        yield Notice(
            "water_outside_guidance",
            (("place_id", place_id),),
            f"{pattern.total_l:.1f} L a person and night lies outside the {least_l:.1f} to "
            f"{most_l:.1f} L that guidance names for the cold.",
        )
