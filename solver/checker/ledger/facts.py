"""What the problem alone settles, whatever the plan: the units there can be, and the nights."""

from __future__ import annotations

from dataclasses import dataclass, field

from solver.checker.ledger.course import Event
from solver.checker.ledger.fuel import Burning, OpenContainer, burn
from solver.checker.ledger.meals import Meal, read_lunches, read_meals
from solver.checker.ledger.needs import Needs
from solver.checker.ledger.once import Memory
from solver.checker.ledger.stays import sacks
from solver.checker.ledger.times import after_night
from solver.checker.ledger.units import Unit, UnitKind, provided_units
from solver.checker.ledger.whereabouts import read_waters, read_whereabouts
from solver.problem import Item, NeedKind, Night, Problem, Timeline, Trip, read_timeline
from solver.quantities import fuel_mass_nearest

Weight = tuple[int, int]
"""Mass and volume of one unit [g, mL]."""


@dataclass(frozen=True, slots=True)
class Facts:
    """The calendar's trips and nights, and what each night uses and makes.

    `lunches` and `waters` are by person and day [g], `open_ml` by open container and night
    [mL]; `worn` units are in no load and no store; `whereabouts` are everybody's places after
    each moment.
    """

    problem: Problem
    timeline: Timeline
    needs: Needs
    units: dict[str, Unit]
    worn: frozenset[str]
    meals: tuple[Meal, ...]
    lunches: dict[tuple[str, int], int]
    waters: dict[tuple[str, int], int]
    burnings: dict[str, Burning]
    open_ml: dict[tuple[str, int], int]
    night_events: dict[str, list[Event]]
    whereabouts: tuple[dict[str, str], ...]
    memory: Memory = field(init=False, default_factory=dict, compare=False, repr=False)

    def weights(self, night: int) -> dict[str, Weight]:
        """Mass and volume of one of each unit after the night of a day [g, mL].

        Only open containers change from night to night; while one is not open it has none.
        """
        weights: dict[str, Weight] = {}
        for unit_id, unit in self.units.items():
            if unit.kind is not UnitKind.OPEN:
                weights[unit_id] = unit.mass_g, unit.volume_ml
            elif (left_ml := self.open_ml.get((unit_id, night))) is not None:
                density = self.problem.fuel_density_g_per_l
                fuel_g = fuel_mass_nearest(volume_ml=left_ml, density_g_per_l=density)
                weights[unit_id] = unit.mass_g + fuel_g, unit.volume_ml
        return weights

    def in_use(self, item: Item, trip: Trip) -> bool:
        """Whether an item is in use on a trip and so adds nothing to any load."""
        return trip.leg.mode in item.in_use_on and self.needs.must_ride(item, trip)

    def night(self, day: int) -> Night:
        """The night of a day."""
        return self.timeline.nights[day - 1]


def read_facts(problem: Problem, timeline: Timeline | None = None) -> Facts:
    """Work out of a problem without faults what no plan can change.

    Who has read the problem's timeline hands it on.
    """
    timeline = timeline or read_timeline(problem)
    meals = read_meals(problem, timeline)
    burnings = {g.cook_group_id: burn(problem, g, meals) for g in problem.cook_groups}
    opened = [container for burning in burnings.values() for container in burning.opened]
    facts = Facts(
        problem=problem,
        timeline=timeline,
        needs=Needs(problem, timeline),
        units={unit.unit_id: unit for unit in provided_units(problem)},
        worn=frozenset(i.unit_id for i in problem.gear if i.need.kind is NeedKind.WORN),
        meals=meals,
        lunches=read_lunches(problem, meals),
        waters=read_waters(problem),
        burnings=burnings,
        open_ml={(c.open_id, day): ml for c in opened for day, ml in c.left_ml.items()},
        night_events={},
        whereabouts=read_whereabouts(problem, timeline),
    )
    for meal in meals:
        _change(facts, meal.day, meal.place_id, meal.night_set.unit_id, -meal.bags)
    for container in opened:
        _add_container(facts, container)
    for stay, sack in sacks(problem, timeline, meals):
        facts.units[sack.unit_id] = sack
        _change(facts, stay.days[-1], stay.place_id, sack.unit_id, 1)
    return facts


def _add_container(facts: Facts, opened: OpenContainer) -> None:
    """Add what one opened container becomes: open while something is left in it, then empty."""
    kind = opened.container
    _change(facts, opened.opened_day, opened.opened_at, kind.unit_id, -1)
    made: list[tuple[str, UnitKind]] = []
    if opened.left_ml:
        made.append((opened.open_id, UnitKind.OPEN))
        _change(facts, opened.opened_day, opened.opened_at, opened.open_id, 1)
    if opened.emptied_day is not None:
        made.append((opened.empty_id, UnitKind.EMPTY))
        _change(facts, opened.emptied_day, opened.emptied_at, opened.empty_id, 1)
        if opened.left_ml:
            _change(facts, opened.emptied_day, opened.emptied_at, opened.open_id, -1)
    for unit_id, unit_kind in made:
        facts.units[unit_id] = Unit(
            unit_id=unit_id,
            kind=unit_kind,
            mass_g=kind.tare_g,
            volume_ml=kind.volume_ml,
            provided=0,
            cook_group_id=kind.cook_group_id,
        )


def _change(facts: Facts, day: int, place_id: str, unit_id: str, change: int) -> None:
    event = Event(after_night(facts.night(day)), place_id, change)
    facts.night_events.setdefault(unit_id, []).append(event)
