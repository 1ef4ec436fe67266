"""Stays at places and the sacks of trash and waste that each leaves behind."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from solver.checker.ledger.meals import Meal
from solver.checker.ledger.units import Unit, UnitKind
from solver.problem import Problem, Timeline
from solver.quantities import even_parts


@dataclass(frozen=True, slots=True)
class Stay:
    """A run of nights on which people sleep at a place; `number` counts them at that place."""

    place_id: str
    number: int
    days: tuple[int, ...]


def read_stays(timeline: Timeline) -> tuple[Stay, ...]:
    """All stays, by place and then in order of time."""
    days_at: dict[str, list[int]] = defaultdict(list)
    for night in timeline.nights:
        for place_id in {place for _, place in night.sleeps_at}:
            days_at[place_id].append(night.day)
    stays: list[Stay] = []
    for place_id, days in sorted(days_at.items()):
        runs: list[list[int]] = []
        for day in days:
            if runs and runs[-1][-1] == day - 1:
                runs[-1].append(day)
            else:
                runs.append([day])
        stays.extend(Stay(place_id, n, tuple(run)) for n, run in enumerate(runs, start=1))
    return tuple(stays)


def sacks(
    problem: Problem, timeline: Timeline, meals: tuple[Meal, ...]
) -> Iterator[tuple[Stay, Unit]]:
    """Each sack with the stay on whose last night it appears, where the stay was.

    With a person who reacts severely and several kitchens, each kitchen has its own trash.
    """
    waste = problem.waste
    kitchen_of = {g.cook_group_id: g.kitchen_of or g.cook_group_id for g in problem.cook_groups}
    kitchens = {kitchen_of[person.cook_group_id] for person in problem.roster}
    apart = len(kitchens) > 1 and any(person.reacts_to for person in problem.roster)
    packed: dict[tuple[str, int], dict[str, list[Meal]]] = defaultdict(lambda: defaultdict(list))
    for meal in meals:
        name = f"{kitchen_of[meal.cook_group_id]}/" if apart else ""
        packed[meal.place_id, meal.day][name].append(meal)
    sleepers = {
        (place, night.day): len(night.sleepers_at(place))
        for night in timeline.nights
        for place in {place for _, place in night.sleeps_at}
    }
    since = problem.history.waste_since if problem.history is not None else 1
    for stay in read_stays(timeline):
        ours = [day for day in stay.days if day >= since]
        by_kitchen: dict[str, list[Meal]] = defaultdict(list)
        for day in ours:
            for name, theirs in packed[stay.place_id, day].items():
                by_kitchen[name] += theirs
        for name, theirs in by_kitchen.items():
            total_g = sum(meal.packaging_g for meal in theirs)
            inside = frozenset(a for meal in theirs for a in meal.night_set.contains)
            for part, mass_g in enumerate(_filled(total_g, waste.trash_sack_g), start=1):
                unit_id = f"trash/{stay.place_id}/{name}{stay.number}-{part}"
                volume_ml = mass_g * waste.trash_ml_per_g
                yield stay, _sack(unit_id, mass_g, volume_ml, inside if name else frozenset())
        nights = sum(sleepers[stay.place_id, day] for day in ours)
        filled = _filled(nights * waste.waste_g_per_person_night, waste.human_waste_sack_g)
        for part, mass_g in enumerate(filled, start=1):
            unit_id = f"human-waste/{stay.place_id}/{stay.number}-{part}"
            yield stay, _sack(unit_id, mass_g, mass_g * waste.human_waste_ml_per_g, frozenset())


def _filled(total_g: int, largest_g: int) -> tuple[int, ...]:
    """The masses of the sacks that a mass fills [g]."""
    return even_parts(total=total_g, largest=largest_g)


def _sack(unit_id: str, mass_g: int, volume_ml: int, allergens: frozenset[str]) -> Unit:
    return Unit(unit_id, UnitKind.SACK, mass_g, volume_ml, provided=0, allergens=allergens)
