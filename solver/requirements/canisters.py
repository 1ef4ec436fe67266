"""Whether gas canisters feed their stoves at each camp, in words and as a share left inside."""

from __future__ import annotations

from functools import lru_cache

from solver.calculators.canister_answer import CanisterAnswer, canister_answer
from solver.calculators.canister_gas import GasBlend
from solver.problem import Conditions, FuelKind, Place, Problem, Timeline
from solver.requirements.figures import Figure, Input, Notice, Part
from solver.requirements.stove_chain import blend_of
from solver.requirements.surroundings import (
    PRACTICE,
    as_given,
    assumed,
    night_temperature,
    out_of_range,
    pressure,
    sleepers,
)

SOURCE = "Raoult's law and Rayleigh's law of distillation with the pressures of the pure gases"


def canister_part(problem: Problem, timeline: Timeline) -> Part:
    """For each camp what a canister there does: share left, where it burns well, the answer."""
    if problem.conditions.fuel_kind is not FuelKind.CANISTER_GAS:
        return Part()
    figures: list[Figure] = []
    notices: list[Notice] = []
    for place_id in sleepers(timeline):
        about = (("place_id", place_id),)
        place = problem.route.place(place_id)
        try:
            blend, inputs, answer = _answer_at(place, problem.conditions)
        except ValueError as error:
            notices.append(out_of_range("canister_gas", about, error))
            continue
        unknown = blend_is_default(problem.conditions)
        inputs = (*inputs, *_blend_inputs(blend, is_default=unknown))
        figures.extend(
            Figure(figure_id, about, value, unit, formula, SOURCE, "computed", inputs)
            for figure_id, value, unit, formula in (
                (
                    "canister_gas_left",
                    100 * answer.fraction_left,
                    "%",
                    "share of the gas inside when the pressure falls to the air's",
                ),
                (
                    "canister_works_well_above",
                    answer.works_well_above_c,
                    "degC",
                    "half its gas left, 300 hPa above the air's pressure",
                ),
            )
        )
        notices.append(Notice("canister_gas", about, answer.sentence))
    return Part(tuple(figures), tuple(notices))


def gas_left_inside(problem: Problem, timeline: Timeline) -> float:
    """Largest share of its gas that a canister keeps at any camp [-]; 0 for liquid fuel.

    Camps out of the model's range are left out, as ``canister_part`` says of them.
    """
    if problem.conditions.fuel_kind is not FuelKind.CANISTER_GAS:
        return 0.0
    left = 0.0
    for place_id in sleepers(timeline):
        try:
            answer = _answer_at(problem.route.place(place_id), problem.conditions)[2]
        except ValueError:
            continue
        left = max(left, answer.fraction_left)
    return left


def blend_is_default(conditions: Conditions) -> bool:
    """Whether no share of the blend is given."""
    shares = (conditions.propane_share, conditions.isobutane_share, conditions.n_butane_share)
    return all(share is None for share in shares)


def _answer_at(
    place: Place, conditions: Conditions
) -> tuple[GasBlend, tuple[Input, ...], CanisterAnswer]:
    blend = blend_of(conditions)
    if conditions.canister_temperature_c is not None:
        canister = as_given("canister_temperature", conditions.canister_temperature_c, "degC")
    else:
        night = night_temperature(
            elevation_m=place.elevation_m, night_temperature_c=place.night_temperature_c
        )
        canister = assumed(
            "canister_temperature",
            float(night.value),
            "degC",
            f"as cold as the night, not warmed: {PRACTICE}",
        )
    air = pressure(elevation_m=place.elevation_m)
    answer = _cached(blend, float(air.value), float(canister.value))
    return blend, (canister, air), answer


@lru_cache(maxsize=256)
def _cached(blend: GasBlend, pressure_hpa: float, canister_temperature_c: float) -> CanisterAnswer:
    return canister_answer(
        blend=blend, pressure_hpa=pressure_hpa, canister_temperature_c=canister_temperature_c
    )


def _blend_inputs(blend: GasBlend, *, is_default: bool) -> tuple[Input, ...]:
    names = ("propane_share", "isobutane_share", "n_butane_share")
    source = PRACTICE if is_default else ""
    return tuple(
        Input(name, share, "-", is_default, source)
        for name, share in zip(names, blend.mass_fractions(), strict=True)
    )
