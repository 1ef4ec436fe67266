"""Food and fuel, planned against used, by kind, container and kitchen."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from api_schema.report_answer import (
    ContainersReportAnswer,
    FuelReportAnswer,
    SetsReportAnswer,
)
from service.translate.read.report_facts import ReadReport
from service.translate.read.report_fuel import drawn_ml, is_counted, planned_unopened, spilt_ml
from service.translate.write.after.nights import Eaten
from solver.problem import CookGroup


def ratio(used: float | None, planned: float | None) -> float | None:
    """Used as a multiple of planned; None where either is not known or nothing was planned."""
    if used is None or not planned:
        return None
    return round(used / planned, 4)


def write_sets(report: ReadReport, eaten: Sequence[Eaten]) -> list[SetsReportAnswer]:
    """Night sets of each kind that was taken along or planned for a night."""
    planned: dict[str, int] = defaultdict(int)
    for meal in eaten:
        planned[meal.night_set.unit_id] += meal.person_nights
    home = {one.unit_id: one for one in report.asked.night_sets}
    rows = []
    for unit_id, its_set in report.sets().items():
        if not (report.had(unit_id) or planned[unit_id]):
            continue
        taken = report.had(unit_id) * its_set.sets_per_bag
        gone = report.gone(unit_id) * its_set.sets_per_bag
        told = home.get(unit_id)
        back = None if told is None else told.bags * its_set.sets_per_bag + told.sets
        used = None if back is None else taken - gone - back
        rows.append(
            SetsReportAnswer(
                unit_id=unit_id,
                cook_group=its_set.cook_group_id,
                set_id=its_set.set_id,
                taken=taken,
                planned=planned[unit_id],
                gone=gone,
                home=back,
                used=used,
                ratio=ratio(used, planned[unit_id]),
            )
        )
    return rows


def write_containers(report: ReadReport) -> list[ContainersReportAnswer]:
    """Containers of each kind that was taken along."""
    home = {one.unit_id: one for one in report.asked.containers}
    rows = []
    for unit_id, kind in report.containers().items():
        had, gone = report.had(unit_id), report.gone(unit_id)
        if not had:
            continue
        told = home.get(unit_id)
        missing: int | None = None
        if told is not None:
            back = told.full + len(told.open)
            missing = 0
            if told.empty is not None:
                missing = had - gone - report.opened_gone(unit_id) - back - told.empty
        rows.append(
            ContainersReportAnswer(
                unit_id=unit_id,
                cook_group=kind.cook_group_id,
                taken=had,
                planned_unopened=planned_unopened(report, kind),
                gone=gone,
                unopened=None if told is None else told.full,
                opened=None if told is None else had - gone - told.full,
                not_accounted=missing,
            )
        )
    return rows


def write_fuel(report: ReadReport, eaten: Sequence[Eaten]) -> list[FuelReportAnswer]:
    """Fuel of each kitchen that has containers, in the nights that were spent."""
    return [
        _kitchen(report, kitchen, [m for m in eaten if m.kitchen_id == kitchen.cook_group_id])
        for kitchen in report.problem.kitchens
        if kitchen.containers
    ]


def _kitchen(report: ReadReport, kitchen: CookGroup, meals: list[Eaten]) -> FuelReportAnswer:
    kitchen_id, margin = kitchen.cook_group_id, report.problem.fuel_margin_percent
    person_nights = sum(meal.person_nights for meal in meals)
    planned_ml = sum(meal.fuel_ml for meal in meals)
    spilt = spilt_ml(report, kitchen_id)
    used_ml = None
    if is_counted(report, kitchen_id):
        used_ml = drawn_ml(report, kitchen_id) - spilt
    water_l = _water_l(report, meals)
    return FuelReportAnswer(
        cook_group=kitchen_id,
        person_nights=person_nights,
        nights=sum(meal.nights for meal in meals if meal.cook_group_id == kitchen_id),
        planned_ml=planned_ml,
        planned_with_margin_ml=sum(meal.fuel_with_margin_ml(margin) for meal in meals),
        used_ml=used_ml,
        spilt_ml=spilt,
        planned_ml_per_person_night=_each(planned_ml, person_nights),
        used_ml_per_person_night=_each(used_ml, person_nights),
        water_l=None if water_l is None else round(water_l, 1),
        planned_ml_per_litre=_each(planned_ml, water_l),
        used_ml_per_litre=_each(used_ml, water_l),
        ratio=ratio(used_ml, planned_ml),
    )


def _each(amount: int | None, number: float | None) -> float | None:
    return round(amount / number, 1) if amount is not None and number else None


def _water_l(report: ReadReport, meals: list[Eaten]) -> float | None:
    """Water that the plan melts and boils in these nights [L]; None where a place has none."""
    each: dict[str, dict[str, float]] = {"water_melted": {}, "water_boiled": {}}
    for figure in report.line.outcome.get("requirements", ()):
        if figure["figure_id"] in each:
            each[figure["figure_id"]][figure["about"].get("place_id")] = figure["value"]
    total = 0.0
    for meal in meals:
        if any(meal.place_id not in places for places in each.values()):
            return None
        total += meal.person_nights * sum(places[meal.place_id] for places in each.values())
    return total
