"""Planned against used as one table: a line for each kind, kitchen, leg, load and rate."""

from __future__ import annotations

from collections.abc import Iterator

from api_schema.report_answer import TripReportAnswer
from service.reports.tables import Cell, Table

COLUMNS = ("part", "what", "where", "unit", "planned", "used", "ratio", "remark")

_Row = tuple[Cell, ...]


def report_table(report: TripReportAnswer) -> Table:
    """The table of a report; `used` is empty where nothing was counted."""
    rows = (*_stores(report), *_days(report), *_rates(report))
    remarks = tuple(("remark", None, None, None, None, None, None, r) for r in report.remarks)
    return Table(COLUMNS, (*rows, *remarks))


def _stores(report: TripReportAnswer) -> Iterator[_Row]:
    for night in report.nights:
        where = night.place
        yield (
            "nights", night.cook_group, where, "person-nights", night.planned, night.spent, None, ""
        )  # fmt: skip
    for food in report.night_sets:
        home = "not counted" if food.home is None else f"{food.home} home, {food.gone} gone"
        yield "food", food.unit_id, None, "night sets", food.planned, food.used, food.ratio, home
    for kind in report.containers:
        planned = kind.taken - kind.planned_unopened
        remark = "not counted" if kind.opened is None else f"{kind.unopened} full at home"
        yield "containers", kind.unit_id, None, "opened", planned, kind.opened, None, remark
    for fuel in report.fuel:
        remark = f"{fuel.person_nights} person-nights, margin not in planned"
        cells = fuel.planned_ml, fuel.used_ml, fuel.ratio
        yield "fuel", fuel.cook_group, None, "mL", *cells, remark


def _days(report: TripReportAnswer) -> Iterator[_Row]:
    for leg in report.hours:
        days = f"days {', '.join(map(str, leg.days))}"
        way = f"{leg.from_} to {leg.to}"
        yield "hours", leg.leg_id, way, "h", leg.planned_h, leg.measured_h, leg.ratio, days
    for load in report.loads:
        when = f"day {load.day}, step {load.step}, {load.part}"
        cells = load.planned_kg, load.weighed_kg, load.ratio
        yield "load", load.person_id, when, "kg", *cells, ""
    for unit in report.weighed:
        cells = unit.planned_kg, unit.weighed_kg, unit.ratio
        yield "weighed", unit.unit_id, None, "kg", *cells, ""


def _rates(report: TripReportAnswer) -> Iterator[_Row]:
    for rate in report.rates:
        little = "; says little" if rate.says_little else ""
        remark = f"{rate.based_on}{little}"
        yield "rate", rate.pointer, None, None, rate.planned, rate.value, rate.ratio, remark
