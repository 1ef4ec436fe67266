"""Stoves as a resource: hours that each kitchen melts and boils, against those it has."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from solver.calculators.stove_power import StoveKind, melting_hours, pot_power_w
from solver.problem import FuelKind, Problem, Purpose
from solver.requirements.consumption import NightMeal
from solver.requirements.figures import About, Figure, Input, Notice, Part
from solver.requirements.stove_chain import CampChain
from solver.requirements.surroundings import PRACTICE, as_given, as_given_or, assumed

MELTING_H = 3.0
"""Two hours in the evening and one in the morning."""

POWER_SOURCE = (
    "single home tests in still air, 1.1 kW on liquid fuel, 0.96 kW on gas (read), times 0.7 "
    f"behind a snow wall: {PRACTICE}; wind on the flame leaves 0.44, cold and thin air are not in "
    "it: measure your own stove"
)


@dataclass(frozen=True, slots=True)
class Kitchen:
    """One kitchen at one place: nights, people, guests too, heat and the stoves that it has."""

    about: About
    people: int
    days: tuple[int, ...]
    heat_kj: float
    stoves: int
    with_spares: int


def melting_part(
    problem: Problem,
    by_camp: dict[tuple[str, str], list[NightMeal]],
    chains: dict[tuple[str, bool], CampChain],
) -> Part:
    """Hours of melting of each kitchen and camp on each day, and what does not fit."""
    power = _power(problem)
    time = as_given_or("melting_time", problem.conditions.melting_hours, MELTING_H, "h")
    in_use, with_spares = _stoves(problem)
    figures: list[Figure] = []
    notices: list[Notice] = []
    kitchens: dict[str, list[Kitchen]] = {}
    for (group_id, place_id), meals in by_camp.items():
        fed = problem.fed_from(problem.cook_group(group_id))
        if not fed or (place_id, False) not in chains:
            continue
        people = sum(len(problem.members(group.cook_group_id)) for group in fed)
        kitchen = Kitchen(
            (("cook_group_id", group_id), ("place_id", place_id)),
            people,
            tuple(meal.day for meal in meals),
            people * chains[place_id, False].chain.useful_kj,
            in_use,
            with_spares,
        )
        figures.append(_figure(kitchen, power, time))
        kitchens.setdefault(group_id, []).append(kitchen)
    for ours in kitchens.values():
        notices += _finding(ours, float(power.value), float(time.value))
    return Part(tuple(figures), tuple(notices))


def _power(problem: Problem) -> Input:
    given = problem.conditions.stove_power_w
    if given is not None:
        return as_given("stove_power", given, "W")
    kind: StoveKind = "liquid"
    if problem.conditions.fuel_kind is FuelKind.CANISTER_GAS:
        kind = "canister"
    power_w = pot_power_w(stove=kind, shelter="sheltered")
    return assumed("stove_power", power_w, "W", POWER_SOURCE)


def _stoves(problem: Problem) -> tuple[int, int]:
    """Stoves that each kitchen has at once without and with the spares; 1 at least."""
    listed = sum(item.count for item in problem.gear if item.purpose is Purpose.STOVE)
    kitchens = max(1, len(problem.kitchens))
    spare = min(problem.rules.whole("spare_stoves"), max(0, listed - kitchens))
    return max(1, (listed - spare) // kitchens), max(1, listed // kitchens)


def _figure(kitchen: Kitchen, power: Input, time: Input) -> Figure:
    hours = _hours(kitchen, kitchen.stoves, float(power.value))
    return Figure(
        "melting_hours",
        kitchen.about,
        hours,
        "h/day",
        "people × heat a person and night / (stoves × power into the pot)",
        POWER_SOURCE,
        "practice",
        (
            as_given("people", kitchen.people, "people"),
            as_given("heat", round(kitchen.heat_kj, 1), "kJ"),
            as_given("stoves", kitchen.stoves, "stoves"),
            power,
            time,
            as_given("days", len(kitchen.days), "days"),
        ),
    )


def _hours(kitchen: Kitchen, stoves: int, power_w: float) -> float:
    return melting_hours(
        useful_kj=min(2_000_000.0, kitchen.heat_kj), stoves=min(50, stoves), power_w=power_w
    )


def _finding(kitchens: list[Kitchen], power_w: float, available_h: float) -> Iterator[Notice]:
    """That a group's melting does not fit into its time, and which stoves or hours settle it.

    Listed once, for the camp where it takes longest.
    """
    kitchen = max(kitchens, key=lambda one: one.heat_kj)
    long = [one for one in kitchens if _hours(one, one.stoves, power_w) > available_h]
    hours = _hours(kitchen, kitchen.stoves, power_w)
    if hours <= available_h:
        return
    enough = math.ceil(kitchen.stoves * hours / available_h)
    where = dict(kitchen.about)
    days = sum(len(one.days) for one in long)
    stoves = f"{kitchen.stoves} stove" + ("s" if kitchen.stoves > 1 else "")
    spare = ""
    if kitchen.stoves < enough <= kitchen.with_spares:
        spare = "; with the spares burning too it fits, and then there is no spare"
    yield Notice(
        "melting_too_long",
        kitchen.about,
        f"Kitchen {where['cook_group_id']} at {where['place_id']}, day {kitchen.days[0]}: melting "
        f"and boiling for {kitchen.people} people takes {hours:.1f} h on {stoves} of "
        f"{power_w / 1000:.2f} kW into the pot; evening and morning together have "
        f"{available_h:g} h. So it is on {days} days of this kitchen. {enough} stoves at once or "
        f"{math.ceil(10 * hours) / 10:.1f} h a day settle it{spare}.",
    )
