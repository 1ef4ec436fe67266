"""Fuel that night sets really took: for each set of the menu, or else as a stove's efficiency."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from api_schema.report_answer import FuelReportAnswer
from service.translate.read.guests import kitchen_of, menu_of
from service.translate.write.after.rates import FEW_NIGHTS, Rates, upwards
from solver.problem import NightSet
from solver.requirements.stove_chain import camp_chain

_LEAST_EFFICIENCY, _MOST_EFFICIENCY = 0.10, 0.75
"""The ends of what a request takes."""


def fuel_rates(rates: Rates, fuel: Sequence[FuelReportAnswer]) -> None:
    """Add the rates of fuel of all kitchens whose containers were counted."""
    counted = [one for one in fuel if one.used_ml is not None and one.planned_ml]
    if not counted:
        return
    menu = rates.report.line.request.get("menu")
    if menu is None:
        _as_efficiency(rates, counted)
        return
    for index, wire in enumerate(menu["night_sets"]):
        _of_set(rates, index, wire, counted)


def _of_set(
    rates: Rates, index: int, wire: dict[str, Any], counted: Sequence[FuelReportAnswer]
) -> None:
    """The fuel of one set of the menu, by what the kitchens that use it burnt together."""
    sets = sets_of(rates, wire)
    kitchens = {kitchen_of(one.cook_group_id) for one in sets}
    ours = [one for one in counted if one.cook_group in kitchens]
    planned_ml = max((one.fuel_ml for one in sets), default=0)
    if not ours or not planned_ml:
        return
    times = _times(ours)
    rates.add(
        f"/menu/night_sets/{index}/fuel",
        upwards(planned_ml * times, "mL"),
        f"{planned_ml} mL",
        times,
        based_on=_based_on(ours),
        says_little=_says_little(ours),
        why="Without the margin. What each set takes was not measured: all are raised or lowered "
        "alike.",
    )


def sets_of(rates: Rates, wire: dict[str, Any]) -> list[NightSet]:
    """The night sets of the problem that one set of the menu became."""
    return [
        one
        for one in rates.report.problem.night_sets
        if one.set_id == wire["set_id"]
        and menu_of(one.cook_group_id) == wire.get("menu")
        and wire.get("cook_group") in {None, kitchen_of(one.cook_group_id)}
    ]


def _as_efficiency(rates: Rates, counted: Sequence[FuelReportAnswer]) -> None:
    """The share of heat that reached the water, where the fuel of sets was computed from it.

    Computed fuel is a part that goes with 1 / efficiency and the priming, which does not. It was
    rounded up to a whole millilitre a person-night, which is taken off again, so that the
    efficiency never comes out too high.
    """
    problem = rates.report.problem
    place = problem.route.places[0]
    chain = camp_chain(
        elevation_m=max(0, place.elevation_m),
        night_temperature_c=place.night_temperature_c,
        storm=False,
        density_g_per_l=problem.fuel_density_g_per_l,
        conditions=problem.conditions,
        rules=problem.rules,
    )
    given = {one.name: float(one.value) for one in chain.inputs if one.name in _OF_CHAIN}
    person_nights = sum(one.person_nights for one in counted)
    priming_ml = person_nights * given["priming"] * 1000 / problem.fuel_density_g_per_l
    planned_ml = sum(one.planned_ml for one in counted) - priming_ml - person_nights
    used_ml = sum(one.used_ml or 0 for one in counted) - priming_ml
    times = _times(counted)
    share = given["efficiency"] * planned_ml / used_ml if used_ml > 0 else math.inf
    share = math.floor(share * 1000) / 1000 if share < _MOST_EFFICIENCY else share
    if not _LEAST_EFFICIENCY <= share <= _MOST_EFFICIENCY:
        rates.not_given.append(
            f"Fuel × {times:.2f}: no stove efficiency from 10 to 75 % comes to that. Give a menu "
            "with the fuel of each set."
        )
        return
    rates.add(
        "/conditions/stove_efficiency",
        f"{share * 100:.1f} %",
        f"{given['efficiency'] * 100:g} %",
        times,
        based_on=_based_on(counted),
        says_little=_says_little(counted),
        why="The request has no menu, so the fuel of its sets is computed. With this efficiency "
        "the computed fuel is what was used, before the margin.",
    )


_OF_CHAIN = frozenset({"efficiency", "priming"})


def _times(kitchens: Sequence[FuelReportAnswer]) -> float:
    return sum(one.used_ml or 0 for one in kitchens) / sum(one.planned_ml for one in kitchens)


def _based_on(kitchens: Sequence[FuelReportAnswer]) -> str:
    people = sum(one.person_nights for one in kitchens)
    return f"{people} person-nights on {max(one.nights for one in kitchens)} nights"


def _says_little(kitchens: Sequence[FuelReportAnswer]) -> bool:
    return max(one.nights for one in kitchens) < FEW_NIGHTS
