"""Labels for the bags and containers of a plan: whose, what is in it, when and where it is used."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from api_schema.bag_answer import BagAnswer, WaitAnswer
from api_schema.purchase_answer import BasisName
from service.reports.purchases import bases_of
from service.reports.tables import Table, table_of
from service.reports.whereabouts import Traced, Use, Wait, apart_from, trace, waits_of
from service.translate.read.requests import ReadRequest
from service.translate.write.days import date_of
from service.translate.write.unit_labels import UnitLabels
from solver.problem import Person

Document = dict[str, Any]

COLUMNS = tuple(BagAnswer.model_fields)


def bags_of(read: ReadRequest, outcome: Document) -> list[BagAnswer]:
    """All labels: food by night and reserve, containers in the order of use, personal bags.

    Units with one use that wait at different places have a label for each way.
    """
    return list(_Labels(read, outcome["plan"]).all())


def bags_table(bags: list[BagAnswer]) -> Table:
    """One line for each label; places in one cell."""
    rows = [
        bag.model_dump(mode="json")
        | {"waits_at": ", ".join(bag.waits_at), "waits": "; ".join(map(_words, bag.waits))}
        for bag in bags
    ]
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
        """Labels for the bags of each night, then for those that no night uses."""
        eaten = [
            Use(used["day"], used["place"], used["bags"])
            for used in self._plan["used"]
            if f"{used['cook_group']}/{used['set_id']}" == unit_id and used["bags"]
        ]
        yield from self._labels(unit_id, eaten)

    def _fuel(self, unit_id: str) -> Iterator[BagAnswer]:
        """A label for each container that is opened, then for those that stay full."""
        opened: dict[int, Document] = {}
        for night in self._plan["stock"]:
            for unit in night["units"]:
                head, _, number = unit["unit_id"].rpartition("-")
                if head in {f"{unit_id}/open", f"{unit_id}/empty"} and number.isdigit():
                    opened.setdefault(int(number), night)
        nights = [Use(night["day"], night["place"], 1) for _, night in sorted(opened.items())]
        yield from self._labels(unit_id, nights)

    def _labels(self, unit_id: str, uses: list[Use]) -> Iterator[BagAnswer]:
        """One label for units with one use that wait at the same places on the same nights."""
        count = self._taken[unit_id]["count"]
        for traced in trace(self._plan, unit_id, uses):
            count -= traced.count
            yield self._label(unit_id, traced)
        if count > 0:
            yield self._label(unit_id, Traced(count, None))

    def _label(self, unit_id: str, traced: Traced) -> BagAnswer:
        known = self._known.of(unit_id)
        owner = known.cook_group or "all"
        day, place = traced.used or (None, None)
        sets, fuel_ml = known.night_sets, known.fuel_ml
        what = f"night sets: {sets}" if sets is not None else f"fuel: {(fuel_ml or 0) / 1000:g} L"
        return BagAnswer(
            kind="food" if known.kind == "food" else "fuel",
            owner=owner,
            label=f"{owner} | {known.label} | {_when(traced)}",
            count=traced.count,
            contents=f"{what} in each",
            kg=round(traced.count * self._taken[unit_id]["each_kg"], 3),
            first_day=day,
            first_date=None if day is None else date_of(self._read.start_date, day),
            used_at=place,
            waits_at=self._places(traced.waits),
            waits=_written(traced.waits),
            basis=self._bases.get(unit_id, "given"),
        )

    def _places(self, waits: tuple[Wait, ...]) -> list[str]:
        """The places of waits but the start, each once."""
        start = self._read.problem.start_place
        return list(dict.fromkeys(wait.place for wait in waits if wait.place != start))

    def _personal(self) -> Iterator[BagAnswer]:
        """Labels for what each person brings: what stays with them, and what waits elsewhere."""
        for person in self._read.problem.roster:
            own = {
                unit_id: unit["count"]
                for unit_id, unit in self._taken.items()
                if self._known.of(unit_id).owner == person.person_id
            }
            apart: dict[tuple[Wait, ...], dict[str, int]] = {}
            slept = self._asleep(person)
            for unit_id, (count, nights) in apart_from(self._plan, slept, own).items():
                own[unit_id] -= count
                apart.setdefault(waits_of(nights), {})[unit_id] = count
            kit = {unit_id: count for unit_id, count in own.items() if count}
            if kit or not apart:
                yield self._own(person.person_id, kit, ())
            for waits, units in apart.items():
                yield self._own(person.person_id, units, waits)

    def _asleep(self, person: Person) -> dict[int, str]:
        """Where a person sleeps, by day."""
        team = person.rope_team_id
        return {
            day["day"]: day["places"][team][-1]
            for day in self._plan["days"]
            if day["places"].get(team)
        }

    def _own(self, person_id: str, units: dict[str, int], waits: tuple[Wait, ...]) -> BagAnswer:
        """A label for some of what one person brings, with where it waits apart from them."""
        bases = {self._bases.get(unit_id, "given") for unit_id in units}
        basis: BasisName = next(
            (basis for basis in ("assumed", "volume_assumed") if basis in bases), "given"
        )
        places = ", ".join(dict.fromkeys(wait.place for wait in waits))
        return BagAnswer(
            kind="personal",
            owner=person_id,
            label=f"{person_id} | personal kit" + (f" | waits at {places}" if places else ""),
            count=1,
            contents="; ".join(
                f"{count} x {self._own_label(unit_id, person_id)}"
                for unit_id, count in units.items()
            ),
            kg=round(sum(n * self._taken[unit_id]["each_kg"] for unit_id, n in units.items()), 3),
            first_day=1,
            first_date=date_of(self._read.start_date, 1),
            used_at=self._read.problem.start_place,
            waits_at=self._places(waits),
            waits=_written(waits),
            basis=basis,
        )

    def _own_label(self, unit_id: str, person_id: str) -> str:
        return self._known.of(unit_id).label.removesuffix(f" of {person_id}")


def _when(traced: Traced) -> str:
    """When and where units are used; of a reserve, how far it goes."""
    if traced.used is not None:
        return "day {}, {}".format(*traced.used)
    if not traced.nights:
        return "reserve"
    if traced.turns_at is not None:
        return f"reserve, up to {traced.turns_at}"
    stays = {place for _, place in traced.nights}
    return f"reserve, stays at {stays.pop()}" if len(stays) == 1 else "reserve"


def _written(waits: tuple[Wait, ...]) -> list[WaitAnswer]:
    return [WaitAnswer(**wait._asdict()) for wait in waits]


def _words(wait: WaitAnswer) -> str:
    """A wait in one part of a cell, such as `camp 2-4`."""
    days = str(wait.from_day) if wait.from_day == wait.to_day else f"{wait.from_day}-{wait.to_day}"
    return f"{wait.place} {days}"
