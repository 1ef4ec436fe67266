"""The nights that were spent: those of the plan, or those that a report gives instead."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from api_schema.report_answer import NightsReportAnswer
from service.translate.read.guests import kitchen_of
from service.translate.read.report_facts import Document, ReadReport
from solver.problem import CookGroup, NightSet
from solver.quantities import share_up


@dataclass(frozen=True, slots=True)
class Eaten:
    """What a cook group should have eaten and burnt at a place in some nights, by the plan."""

    cook_group_id: str
    place_id: str
    people: int
    nights: int
    night_set: NightSet

    @property
    def kitchen_id(self) -> str:
        """The kitchen that burns for it."""
        return kitchen_of(self.cook_group_id)

    @property
    def person_nights(self) -> int:
        """One for each person and night."""
        return self.people * self.nights

    @property
    def fuel_ml(self) -> int:
        """Planned fuel without the margin [mL]."""
        return self.person_nights * self.night_set.fuel_ml

    def fuel_with_margin_ml(self, margin_percent: int) -> int:
        """Planned fuel with the margin, rounded up for each night as the plan does [mL]."""
        nightly = self.people * self.night_set.fuel_ml
        return self.nights * share_up(amount=nightly, percent=100 + margin_percent)


def eaten_by_plan(report: ReadReport) -> tuple[Eaten, ...]:
    """The nights of the plan."""
    return tuple(
        Eaten(
            row["cook_group"],
            row["place"],
            row["people"],
            1,
            report.problem.night_set(row["cook_group"], row["set_id"]),
        )
        for row in report.plan["used"]
    )


def eaten_in_fact(report: ReadReport) -> tuple[Eaten, ...]:
    """The nights spent: those of the report for the kitchens that it names, else the plan's."""
    planned = eaten_by_plan(report)
    named = {
        kitchen.cook_group_id
        for kitchen in report.problem.kitchens
        for one in report.asked.nights
        if one.cook_group in {None, kitchen.cook_group_id}
    }
    kept = (meal for meal in planned if meal.kitchen_id not in named)
    return (*kept, *_given(report, planned, named))


def _given(report: ReadReport, planned: Sequence[Eaten], named: set[str]) -> Iterator[Eaten]:
    for kitchen in report.problem.kitchens:
        for one in report.asked.nights if kitchen.cook_group_id in named else ():
            if one.nights and one.cook_group in {None, kitchen.cook_group_id}:
                for group in report.problem.fed_from(kitchen):
                    yield from _at(report, group, planned, one.place, one.nights)


def _at(
    report: ReadReport, group: CookGroup, planned: Sequence[Eaten], place: str, nights: int
) -> Iterator[Eaten]:
    """Nights of a group at a place: as many people, and the set, as on its last planned one there.

    Where it has none there, all of its people, and the set of the place.
    """
    ours = [meal for meal in planned if meal.cook_group_id == group.cook_group_id]
    there = [meal for meal in ours if meal.place_id == place]
    if there:
        last = there[-1]
        yield Eaten(group.cook_group_id, place, last.people, nights, last.night_set)
    elif ours and place in dict(group.set_at):
        people = max(meal.people for meal in ours)
        its_set = report.problem.night_set(group.cook_group_id, group.set_id_at(place))
        yield Eaten(group.cook_group_id, place, people, nights, its_set)


def write_nights(report: ReadReport, eaten: Sequence[Eaten]) -> list[NightsReportAnswer]:
    """Person-nights by kitchen and place: in the first plan, in this one, and spent."""
    first = _by_place(report.line.first_outcome) if report.line.is_whole else None
    planned = _by_place(report.line.outcome)
    spent: Counter[tuple[str, str]] = Counter()
    for meal in eaten:
        spent[meal.kitchen_id, meal.place_id] += meal.person_nights
    keys = dict.fromkeys([*(first or ()), *planned, *spent])
    return [
        NightsReportAnswer(
            cook_group=kitchen,
            place=place,
            planned_first=None if first is None else first[kitchen, place],
            planned=planned[kitchen, place],
            spent=spent[kitchen, place],
        )
        for kitchen, place in keys
    ]


def _by_place(outcome: Document) -> Counter[tuple[str, str]]:
    nights: Counter[tuple[str, str]] = Counter()
    for row in outcome["plan"]["used"]:
        nights[kitchen_of(row["cook_group"]), row["place"]] += row["people"]
    return nights
