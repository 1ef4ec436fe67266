"""A plan written as the wire has it: kilograms and litres, names, dates, nights of stock."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from service.translate.read.requests import ReadRequest
from service.translate.write.days import date_of, kind_of
from service.translate.write.load_figures import LoadFigures, figures_of
from solver.checker.queries.flights import flying_mass_g
from solver.plan import FlightLoad, Load, NightStock, Plan, Stowed, TripLoads
from solver.problem import Purpose, Timeline, Trip
from solver.quantities import units_up
from solver.requirements.consumption import NightMeal, burn_schedule, night_meals

Document = dict[str, Any]


def kilograms(mass_g: int) -> float:
    """A mass as the wire has it [kg]."""
    return round(mass_g / 1000, 3)


def litres(volume_ml: int) -> float:
    """A volume as the wire has it [L]."""
    return round(volume_ml / 1000, 3)


def share(fraction: int) -> float:
    """A load fraction as the wire has it; fractions are whole 1/10,000."""
    return round(fraction / 10_000, 4)


class PlanWriter:
    """Writes the plan of one request."""

    def __init__(self, read: ReadRequest, timeline: Timeline) -> None:
        self._read = read
        self._problem = read.problem
        self._timeline = timeline
        self._meals = night_meals(read.problem, timeline)
        self._open_ml = {
            (f"{spell.container.unit_id}/open-{spell.number}", spell.from_day): spell.left_ml
            for group in read.problem.cook_groups
            for spell in burn_schedule(read.problem, group, self._meals).open_spells
        }

    def plan(self, plan: Plan) -> Document:
        """The whole plan."""
        last_day = len(self._problem.calendar.days)
        start = self._problem.start_place
        return {
            "days": [self._day(number) for number in range(1, last_day + 1)],
            "trips": [
                self._trip(trip, told)
                for trip, told in zip(self._timeline.trips, plan.trips, strict=True)
            ],
            "taken_along": self._at(plan, 0, start),
            "stock": [self._stock(entry) for entry in plan.stock],
            "used": [self._used(meal) for meal in self._meals],
            "flights": [self._flight(told) for told in plan.flights],
            "comes_down": self._at(plan, last_day, start),
        }

    def _flight(self, told: FlightLoad) -> Document:
        flight = next(f for f in self._problem.flights if f.flight_id == told.flight_id)
        people = {
            person_id: flying_mass_g(
                self._problem, self._problem.person(person_id), flight.direction
            )
            for person_id in told.person_ids
        }
        people_g = sum(people.values())
        cargo_g = sum(stowed.count * stowed.mass_g for stowed in told.units)
        return {
            "flight_id": flight.flight_id,
            "direction": flight.direction.value,
            "people": [
                {"person_id": person_id, "kg": kilograms(mass_g)}
                for person_id, mass_g in people.items()
            ],
            "seats": flight.seats,
            "people_kg": kilograms(people_g),
            "cargo_kg": kilograms(cargo_g),
            "payload_kg": kilograms(flight.payload_g),
            "load_fraction": share(
                units_up(amount=10_000 * (people_g + cargo_g), per_unit=flight.payload_g)
            ),
            "cargo_l": litres(_volume_ml(told.units)),
            "volume_l": None if flight.volume_ml is None else litres(flight.volume_ml),
            "fuel_aboard": any(self._holds_fuel(stowed.unit_id) for stowed in told.units),
            "units": [self._stowed(stowed) for stowed in told.units],
        }

    def _holds_fuel(self, unit_id: str) -> bool:
        """Whether a unit is a fuel container, full, opened or empty, or fuel in the gear."""
        gear = self._problem.gear
        if any(item.unit_id == unit_id and item.purpose is Purpose.FUEL for item in gear):
            return True
        return any(
            unit_id == container.unit_id or unit_id.startswith(f"{container.unit_id}/")
            for group in self._problem.cook_groups
            for container in group.containers
        )

    def _date(self, day: int) -> str | None:
        return date_of(self._read.start_date, day)

    def _day(self, number: int) -> Document:
        day = self._problem.calendar.days[number - 1]
        return {
            "day": number,
            "date": self._date(number),
            "places": {
                team: list(visit.places) for visit in day.visits for team in visit.rope_team_ids
            },
            "kind": kind_of(self._problem, day),
            "note": day.note or None,
        }

    def _at(self, plan: Plan, day: int, place_id: str) -> list[Document]:
        return [
            self._stowed(stowed)
            for entry in plan.stock
            if entry.day == day and entry.place_id == place_id
            for stowed in entry.units
        ]

    def _trip(self, trip: Trip, told: TripLoads) -> Document:
        return {
            "day": trip.day,
            "date": self._date(trip.day),
            "step": trip.step,
            "from": trip.from_place,
            "to": trip.to_place,
            "leg_id": trip.leg.leg_id,
            "mode": trip.leg.mode.value,
            "direction": trip.direction.value,
            "loads": [
                self._load(load, figures_of(self._problem, trip, load)) for load in told.loads
            ],
        }

    def _load(self, load: Load, figures: LoadFigures) -> Document:
        return {
            "person_id": load.person_id,
            "pack_kg": kilograms(figures.pack_g),
            "pack_cap_kg": kilograms(figures.pack_cap_g),
            "pack_l": litres(_volume_ml(load.pack)),
            "water_kg": kilograms(load.water_g),
            "lunch_kg": kilograms(load.lunch_g),
            "sled_id": load.sled_id,
            "sled_kg": kilograms(figures.sled_g),
            "sled_cap_kg": kilograms(figures.sled_cap_g),
            "sled_l": litres(_volume_ml(load.sled)),
            "total_kg": kilograms(figures.pack_g + figures.sled_g),
            "load_limit_kg": None if figures.limit_g is None else kilograms(figures.limit_g),
            "load_fraction": share(figures.fraction),
            "pack": [self._stowed(stowed) for stowed in load.pack],
            "sled": [self._stowed(stowed) for stowed in load.sled],
        }

    def _stowed(self, stowed: Stowed) -> Document:
        return {
            "unit_id": stowed.unit_id,
            "name": self._name(stowed.unit_id),
            "count": stowed.count,
            "each_kg": kilograms(stowed.mass_g),
            "each_l": litres(stowed.volume_ml),
        }

    def _name(self, unit_id: str) -> str | None:
        known = self._read.names.get(unit_id)
        if known is not None:
            return known
        head, _, tail = unit_id.rpartition("/")
        if unit_id.startswith(("trash/", "waste/")):
            what, _, *whose, _ = unit_id.split("/")
            return f"{what} sack of {whose[0]}" if whose else f"{what} sack"
        if head == "sled":
            return "sled, empty"
        if tail.startswith(("open-", "empty-")):
            container = self._read.names.get(head, head)
            return f"{container}, {tail.partition('-')[0]}"
        return None

    def _stock(self, entry: NightStock) -> Document:
        return {
            "day": entry.day,
            "date": self._date(entry.day),
            "place": entry.place_id,
            "kg": kilograms(sum(s.count * s.mass_g for s in entry.units)),
            "cook_groups": [
                self._lasting(group_id, entry) for group_id in self._groups_with_stock(entry)
            ],
            "units": [self._stowed(stowed) for stowed in entry.units],
        }

    def _groups_with_stock(self, entry: NightStock) -> list[str]:
        heads = {stowed.unit_id.partition("/")[0] for stowed in entry.units}
        return [g.cook_group_id for g in self._problem.cook_groups if g.cook_group_id in heads]

    def _lasting(self, group_id: str, entry: NightStock) -> Document:
        """How long a group's food and fuel at a place would last all of it."""
        people = len(self._problem.members(group_id))
        per_bag = {s.unit_id: s.sets_per_bag for s in self._problem.night_sets}
        ours = {s.unit_id for s in self._problem.night_sets if s.cook_group_id == group_id}
        sets = sum(s.count * per_bag[s.unit_id] for s in entry.units if s.unit_id in ours)
        contents = {c.unit_id: c.content_ml for c in self._problem.cook_group(group_id).containers}
        fuel_ml = sum(s.count * contents.get(s.unit_id, 0) for s in entry.units)
        fuel_ml += sum(
            self._open_ml.get((s.unit_id, entry.day), 0)
            for s in entry.units
            if s.unit_id.rpartition("/open-")[0] in contents
        )
        nightly_ml = next(
            (
                meal.fuel_ml
                for meal in self._meals
                if meal.cook_group_id == group_id and meal.place_id == entry.place_id
            ),
            0,
        )
        return {
            "cook_group": group_id,
            "nights_of_food": round(sets / people, 2),
            "nights_of_fuel": round(fuel_ml / nightly_ml, 2) if nightly_ml else None,
            "night_sets": sets,
            "fuel_ml": fuel_ml,
        }

    def _used(self, meal: NightMeal) -> Document:
        return {
            "day": meal.day,
            "date": self._date(meal.day),
            "place": meal.place_id,
            "cook_group": meal.cook_group_id,
            "people": meal.people,
            "set_id": meal.night_set.set_id,
            "night_sets": meal.people,
            "bags": meal.bags,
            "fuel_ml": meal.fuel_ml,
            "energy_kcal_each": meal.night_set.energy_kcal,
        }


def _volume_ml(units: Iterable[Stowed]) -> int:
    return sum(stowed.count * stowed.volume_ml for stowed in units)
