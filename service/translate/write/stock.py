"""What stands at each place after each night, as the wire has it, and how long it lasts."""

from __future__ import annotations

from api_schema.stock_answer import CookGroupStockAnswer, StockAnswer, UsedAnswer
from service.translate.read.requests import ReadRequest
from service.translate.write.days import date_of
from service.translate.write.stowed import StowedWriter
from service.translate.write.units import kilograms
from solver.plan import NightStock
from solver.requirements.consumption import NightMeal, burn_schedule, night_meals


class StockWriter:
    """Writes the stock of one request's plan, and what its nights use."""

    def __init__(self, read: ReadRequest, units: StowedWriter) -> None:
        self._read = read
        self._problem = read.problem
        self._units = units
        self._meals = night_meals(read.problem, read.timeline)
        self._open_ml = {
            (f"{spell.container.unit_id}/open-{spell.number}", spell.from_day): spell.left_ml
            for group in read.problem.cook_groups
            for spell in burn_schedule(read.problem, group, self._meals).open_spells
        }

    def stock(self, entry: NightStock) -> StockAnswer:
        """What stands at one place after one night."""
        heads = {stowed.unit_id.partition("/")[0] for stowed in entry.units}
        groups = [g.cook_group_id for g in self._problem.cook_groups if g.cook_group_id in heads]
        return StockAnswer(
            day=entry.day,
            date=date_of(self._read.start_date, entry.day),
            place=entry.place_id,
            kg=kilograms(sum(s.count * s.mass_g for s in entry.units)),
            cook_groups=[self._lasting(group_id, entry) for group_id in groups],
            units=self._units.all(entry.units),
        )

    def used(self) -> list[UsedAnswer]:
        """What each cook group uses each night."""
        return [
            UsedAnswer(
                day=meal.day,
                date=date_of(self._read.start_date, meal.day),
                place=meal.place_id,
                cook_group=meal.cook_group_id,
                people=meal.people,
                set_id=meal.night_set.set_id,
                night_sets=meal.people,
                bags=meal.bags,
                fuel_ml=meal.fuel_ml,
                energy_kcal_each=meal.night_set.energy_kcal,
            )
            for meal in self._meals
        ]

    def _lasting(self, group_id: str, entry: NightStock) -> CookGroupStockAnswer:
        """How long a group's food and fuel at a place would last all of it."""
        people = len(self._problem.members(group_id))
        per_bag = {
            night_set.unit_id: night_set.sets_per_bag
            for night_set in self._problem.night_sets
            if night_set.cook_group_id == group_id
        }
        sets = sum(s.count * per_bag.get(s.unit_id, 0) for s in entry.units)
        fuel_ml = self._fuel_ml(group_id, entry)
        nightly_ml = self._nightly_ml(group_id, entry.place_id)
        return CookGroupStockAnswer(
            cook_group=group_id,
            nights_of_food=round(sets / people, 2),
            nights_of_fuel=round(fuel_ml / nightly_ml, 2) if nightly_ml else None,
            night_sets=sets,
            fuel_ml=fuel_ml,
        )

    def _fuel_ml(self, group_id: str, entry: NightStock) -> int:
        """A group's fuel at a place, in full containers and open ones [mL]."""
        contents = {c.unit_id: c.content_ml for c in self._problem.cook_group(group_id).containers}
        return sum(
            stowed.count * contents.get(stowed.unit_id, 0)
            + (
                self._open_ml.get((stowed.unit_id, entry.day), 0)
                if stowed.unit_id.rpartition("/open-")[0] in contents
                else 0
            )
            for stowed in entry.units
        )

    def _nightly_ml(self, group_id: str, place_id: str) -> int:
        """What a kitchen burns in a night at a place for all who eat from it [mL].

        0 where nobody of it ever sleeps there, and for guests, who burn nothing themselves.
        """
        fed = self._problem.fed_from(self._problem.cook_group(group_id))
        burnt: dict[str, NightMeal] = {}
        for meal in self._meals:
            if meal.place_id == place_id:
                burnt.setdefault(meal.cook_group_id, meal)
        return sum(burnt[g.cook_group_id].fuel_ml for g in fed if g.cook_group_id in burnt)
