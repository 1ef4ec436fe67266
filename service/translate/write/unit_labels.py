"""What the unit ids of a plan stand for: kind, use, owner, and what to call them on paper."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from api_schema.gear import PurposeName
from api_schema.unit_answer import PlanUnitAnswer, UnitKindName
from service.translate.write.choices import PURPOSES
from service.translate.write.stowed import StowedWriter
from solver.plan import Plan, Stowed
from solver.problem import Container, Item, NightSet, Problem, Purpose


def write_units(problem: Problem, plan: Plan, names: Mapping[str, str]) -> list[PlanUnitAnswer]:
    """Each unit id that rides or stands anywhere in a plan, in the order in which it turns up."""
    labels = UnitLabels(problem, names)
    return [labels.of(unit_id) for unit_id in dict.fromkeys(s.unit_id for s in _all(plan))]


def _all(plan: Plan) -> Iterable[Stowed]:
    for night in plan.stock:
        yield from night.units
    for trip in plan.trips:
        for load in trip.loads:
            yield from (*load.pack, *load.sled)
    for flight in plan.flights:
        yield from flight.units


class UnitLabels:
    """Describes the units of one problem."""

    def __init__(self, problem: Problem, names: Mapping[str, str]) -> None:
        self._names = names
        self._stowed = StowedWriter(names)
        self._items = {item.unit_id: item for item in problem.gear}
        self._sets = {night_set.unit_id: night_set for night_set in problem.night_sets}
        self._containers = {c.unit_id: c for g in problem.cook_groups for c in g.containers}
        self._many_groups = len(problem.cook_groups) > 1

    def of(self, unit_id: str) -> PlanUnitAnswer:
        """What one unit id stands for."""
        head, _, tail = unit_id.rpartition("/")
        if unit_id in self._items:
            return self._item(self._items[unit_id])
        if unit_id in self._sets:
            return self._food(self._sets[unit_id])
        if unit_id in self._containers:
            return self._fuel(unit_id, self._containers[unit_id], "")
        if head in self._containers:
            return self._fuel(unit_id, self._containers[head], tail.partition("-")[0])
        if head == "sled":
            return _unit(unit_id, f"{tail}, empty", "sled")
        return _unit(unit_id, self._stowed.name(unit_id) or unit_id, "waste")

    def _item(self, item: Item) -> PlanUnitAnswer:
        label = self._names.get(item.unit_id) or _words(item.item_id)
        purpose = None if item.purpose is None else PURPOSES[item.purpose]
        if item.owner_id is not None:
            label = f"{label} of {item.owner_id}"
        kind: UnitKindName = "fuel" if item.purpose is Purpose.FUEL else "gear"
        return _unit(item.unit_id, label, kind, purpose=purpose, owner=item.owner_id)

    def _food(self, night_set: NightSet) -> PlanUnitAnswer:
        label = self._names.get(night_set.unit_id) or f"night set {night_set.set_id}"
        if night_set.sets_per_bag > 1:
            label = f"bag of {night_set.sets_per_bag} x {label}"
        group = night_set.cook_group_id
        return PlanUnitAnswer(
            unit_id=night_set.unit_id,
            label=self._with_group(label, group),
            kind="food",
            purpose=None,
            owner=None,
            cook_group=group,
            night_sets=night_set.sets_per_bag,
            fuel_ml=None,
        )

    def _fuel(self, unit_id: str, container: Container, state: str) -> PlanUnitAnswer:
        label = self._names.get(container.unit_id) or _words(container.container_id)
        if state:
            label = f"{label}, {state}"
        return PlanUnitAnswer(
            unit_id=unit_id,
            label=self._with_group(label, container.cook_group_id),
            kind="fuel",
            purpose=None,
            owner=None,
            cook_group=container.cook_group_id,
            night_sets=None,
            fuel_ml=None if state else container.content_ml,
        )

    def _with_group(self, label: str, group_id: str) -> str:
        return f"{label} ({group_id})" if self._many_groups else label


def _words(item_id: str) -> str:
    return item_id.replace("-", " ").replace("_", " ").replace(".", ": ")


def _unit(
    unit_id: str,
    label: str,
    kind: UnitKindName,
    *,
    purpose: PurposeName | None = None,
    owner: str | None = None,
) -> PlanUnitAnswer:
    return PlanUnitAnswer(
        unit_id=unit_id,
        label=label,
        kind=kind,
        purpose=purpose,
        owner=owner,
        cook_group=None,
        night_sets=None,
        fuel_ml=None,
    )
