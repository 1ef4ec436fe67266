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
    """A run of nights with somebody asleep at a place; `number` counts them at that place."""

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
    """Each sack with the stay on whose last night it appears, where the stay was."""
    waste = problem.waste
    packaging_g: dict[tuple[str, int], int] = defaultdict(int)
    for meal in meals:
        packaging_g[meal.place_id, meal.day] += meal.packaging_g
    sleepers = {
        (place, night.day): len(night.sleepers_at(place))
        for night in timeline.nights
        for place in {place for _, place in night.sleeps_at}
    }
    for stay in read_stays(timeline):
        trash_g = sum(packaging_g[stay.place_id, day] for day in stay.days)
        nights = sum(sleepers[stay.place_id, day] for day in stay.days)
        for word, total_g, largest_g, ml_per_g in (
            ("trash", trash_g, waste.trash_sack_g, waste.trash_ml_per_g),
            (
                "waste",
                nights * waste.waste_g_per_person_night,
                waste.waste_sack_g,
                waste.waste_ml_per_g,
            ),
        ):
            for index, mass_g in enumerate(even_parts(total=total_g, largest=largest_g), start=1):
                unit_id = f"{word}/{stay.place_id}/{stay.number}-{index}"
                yield stay, Unit(unit_id, UnitKind.SACK, mass_g, mass_g * ml_per_g, provided=0)
