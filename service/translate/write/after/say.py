"""A report in a few sentences."""

from __future__ import annotations

from collections.abc import Iterator

from api_schema.report_answer import FuelReportAnswer, TripReportAnswer


def say(report: TripReportAnswer) -> Iterator[str]:
    """What a leader should know first: nights, fuel, food, hours, loads, and how sure it is."""
    spent = sum(one.spent for one in report.nights)
    first = [one.planned_first for one in report.nights if one.planned_first is not None]
    planned = f" The first plan had {sum(first)}." if len(first) == len(report.nights) else ""
    yield f"Spent: {spent} person-nights.{planned}"
    for kitchen in report.fuel:
        yield from _fuel(kitchen)
    yield from _food(report)
    hours = [one for one in report.hours if one.planned_h]
    if hours:
        measured = sum(one.measured_h * len(one.days) for one in hours)
        planned_h = sum((one.planned_h or 0) * len(one.days) for one in hours)
        yield f"Trips that were measured took {measured / planned_h:.2f} times the planned hours."
    if report.loads_ratio is not None:
        yield f"Loads that were weighed came to {report.loads_ratio:.2f} times the planned loads."
    little = sum(rate.says_little for rate in report.rates)
    if report.rates:
        yield (
            f"The next request may take {len(report.rates)} rates from here. {little} of them "
            "come from so few nights or trips that they say little."
        )
    else:
        yield "Nothing was counted or measured from which a rate follows."


def _fuel(kitchen: FuelReportAnswer) -> Iterator[str]:
    if kitchen.used_ml is None:
        yield f"Fuel of {kitchen.cook_group}: not counted."
        return
    beyond = ""
    if kitchen.used_ml > kitchen.planned_with_margin_ml:
        beyond = " That is more than the plan had with its margin."
    times = "" if kitchen.ratio is None else f" ({kitchen.ratio:.2f} times)"
    yield (
        f"Fuel of {kitchen.cook_group}: {kitchen.used_ml} mL used, {kitchen.planned_ml} mL "
        f"planned without the margin{times}, in {kitchen.person_nights} person-nights.{beyond}"
    )


def _food(report: TripReportAnswer) -> Iterator[str]:
    counted = [one for one in report.night_sets if one.used is not None]
    if counted:
        used = sum(one.used or 0 for one in counted)
        home = sum(one.home or 0 for one in counted)
        planned = sum(one.planned for one in counted)
        yield (
            f"Food that was counted: {used} night sets used, {planned} planned for these nights, "
            f"{home} came home."
        )
