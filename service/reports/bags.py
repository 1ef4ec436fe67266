"""Labels for the bags and containers of a plan: whose, what is in it, when and where it is used."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from api_schema.bag_answer import BagAnswer
from api_schema.purchase_answer import BasisName
from service.reports.purchases import bases_of
from service.reports.tables import Table, table_of
from service.translate.read.requests import ReadRequest
from service.translate.write.days import date_of
from service.translate.write.unit_labels import UnitLabels

Document = dict[str, Any]

COLUMNS = tuple(BagAnswer.model_fields)


def bags_of(read: ReadRequest, outcome: Document) -> list[BagAnswer]:
    """All labels: food by night and reserve, containers in the order of use, personal bags."""
    return list(_Labels(read, outcome["plan"]).all())


def bags_table(bags: list[BagAnswer]) -> Table:
    """One line for each label; places in one cell."""
    rows = [bag.model_dump(mode="json") | {"waits_at": ", ".join(bag.waits_at)} for bag in bags]
    return table_of(COLUMNS, rows)


class _Labels:
    """Writes the labels of one plan."""

    def __init__(self, read: ReadRequest, plan: Document) -> None:
        self._read = read
        self._plan = plan
        self._known = UnitLabels(read.problem, read.names)
        self._bases = bases_of(read)
        self._taken = {unit["unit_id"]: unit for unit in plan["taken_along"]}

    def all(self) -> Iterator[BagAnswer]:
        """Every label."""
        for unit_id in self._taken:
            kind = self._known.of(unit_id).kind
            if kind == "food":
                yield from self._food(unit_id)
            elif kind == "fuel":
                yield from self._fuel(unit_id)
        yield from self._personal()

    def _food(self, unit_id: str) -> Iterator[BagAnswer]:
        """A label for the bags of each night, and one for those that no night uses."""
        left = self._taken[unit_id]["count"]
        for used in self._plan["used"]:
            if f"{used['cook_group']}/{used['set_id']}" == unit_id and used["bags"]:
                left -= used["bags"]
                yield self._label(unit_id, used["bags"], used["day"], used["place"])
        if left > 0:
            yield self._label(unit_id, left, None, None)

    def _fuel(self, unit_id: str) -> Iterator[BagAnswer]:
        """A label for each container that is opened, and one for those that stay full."""
        opened: dict[int, Document] = {}
        for night in self._plan["stock"]:
            for unit in night["units"]:
                head, _, number = unit["unit_id"].rpartition("-")
                if head in {f"{unit_id}/open", f"{unit_id}/empty"} and number.isdigit():
                    opened.setdefault(int(number), night)
        for _, night in sorted(opened.items()):
            yield self._label(unit_id, 1, night["day"], night["place"])
        full = self._taken[unit_id]["count"] - len(opened)
        if full > 0:
            yield self._label(unit_id, full, None, None)

    def _label(self, unit_id: str, count: int, day: int | None, place: str | None) -> BagAnswer:
        known = self._known.of(unit_id)
        owner = known.cook_group or "all"
        date = None if day is None else date_of(self._read.start_date, day)
        when = "reserve" if day is None else f"day {day}, {place}"
        sets, fuel_ml = known.night_sets, known.fuel_ml
        what = f"night sets: {sets}" if sets is not None else f"fuel: {(fuel_ml or 0) / 1000:g} L"
        return BagAnswer(
            kind="food" if known.kind == "food" else "fuel",
            owner=owner,
            label=f"{owner} | {known.label} | {when}",
            count=count,
            contents=f"{what} in each",
            kg=round(count * self._taken[unit_id]["each_kg"], 3),
            first_day=day,
            first_date=date,
            used_at=place,
            waits_at=self._waits_at(unit_id, day),
            basis=self._bases.get(unit_id, "given"),
        )

    def _waits_at(self, unit_id: str, before_day: int | None) -> list[str]:
        """Where such things stand on nights before a day, or on any night."""
        start = self._read.problem.start_place
        return list(
            dict.fromkeys(
                night["place"]
                for night in self._plan["stock"]
                if night["place"] != start
                and (before_day is None or night["day"] < before_day)
                and any(unit["unit_id"] == unit_id for unit in night["units"])
            )
        )

    def _personal(self) -> Iterator[BagAnswer]:
        """A label for what each person brings, all of it."""
        for person in self._read.problem.roster:
            own = {
                unit_id: unit
                for unit_id, unit in self._taken.items()
                if self._known.of(unit_id).owner == person.person_id
            }
            bases = {self._bases.get(unit_id, "given") for unit_id in own}
            basis: BasisName = next(
                (basis for basis in ("assumed", "volume_assumed") if basis in bases), "given"
            )
            yield BagAnswer(
                kind="personal",
                owner=person.person_id,
                label=f"{person.person_id} | personal kit",
                count=1,
                contents="; ".join(
                    f"{unit['count']} x {self._own_label(unit_id, person.person_id)}"
                    for unit_id, unit in own.items()
                ),
                kg=round(sum(u["count"] * u["each_kg"] for u in own.values()), 3),
                first_day=1,
                first_date=date_of(self._read.start_date, 1),
                used_at=self._read.problem.start_place,
                waits_at=[],
                basis=basis,
            )

    def _own_label(self, unit_id: str, person_id: str) -> str:
        return self._known.of(unit_id).label.removesuffix(f" of {person_id}")
