"""Hours and loads, planned against measured."""

from __future__ import annotations

from dataclasses import dataclass

from api_schema.report_answer import HoursReportAnswer, LoadReportAnswer, WeighedReportAnswer
from service.translate.read import quantities
from service.translate.read.report_days import trips_of
from service.translate.read.report_facts import Document, ReadReport, load_of
from service.translate.write.after.stores import ratio
from solver.problem import Direction
from solver.requirements.travel import Hours, hours_by_trip

_FIELDS = {
    "pack": ("pack_kg",),
    "sled": ("sled_kg",),
    "both": ("pack_kg", "sled_kg"),
}


@dataclass(frozen=True, slots=True)
class Measured:
    """One trip that was measured: its leg, direction and day, and its hours [h]."""

    leg_id: str
    direction: Direction
    day: int
    from_place: str
    to_place: str
    measured_h: float
    planned: Hours | None


def measured_trips(report: ReadReport) -> tuple[Measured, ...]:
    """The trips whose hours a report gives, with what the plan has for them."""
    problem, timeline = report.problem, report.read.timeline
    known, _ = hours_by_trip(problem, timeline)
    hours = {
        (trip.day, trip.step, trip.leg.leg_id): known[trip.index]
        for trip in timeline.trips
        if trip.index in known
    }
    return tuple(
        _measured(trips_of(report, one)[0], quantities.hours(one.time), hours)
        for one in report.asked.hours
    )


def _measured(
    trip: Document, measured_h: float, hours: dict[tuple[int, int, str], Hours]
) -> Measured:
    return Measured(
        trip["leg_id"],
        Direction(trip["direction"]),
        trip["day"],
        trip["from"],
        trip["to"],
        measured_h,
        hours.get((trip["day"], trip["step"], trip["leg_id"])),
    )


def by_leg(trips: tuple[Measured, ...]) -> dict[tuple[str, Direction], list[Measured]]:
    """Measured trips by leg and direction."""
    legs: dict[tuple[str, Direction], list[Measured]] = {}
    for trip in trips:
        legs.setdefault((trip.leg_id, trip.direction), []).append(trip)
    return legs


def write_hours(trips: tuple[Measured, ...]) -> list[HoursReportAnswer]:
    """Means by leg and direction; the planned one over the same trips."""
    rows = []
    for ours in by_leg(trips).values():
        measured = sum(trip.measured_h for trip in ours) / len(ours)
        planned = mean_planned(ours)
        rows.append(
            HoursReportAnswer(
                leg_id=ours[0].leg_id,
                from_=ours[0].from_place,
                to=ours[0].to_place,
                days=[trip.day for trip in ours],
                planned_h=None if planned is None else round(planned, 2),
                measured_h=round(measured, 2),
                ratio=ratio(measured, planned),
            )
        )
    return rows


def mean_planned(trips: list[Measured]) -> float | None:
    """The mean of planned hours [h]; None where the plan has none for one of the trips."""
    hours = [trip.planned.value for trip in trips if trip.planned is not None]
    return sum(hours) / len(hours) if len(hours) == len(trips) else None


def write_loads(report: ReadReport) -> list[LoadReportAnswer]:
    """Each load that was weighed, gross, beside the load of the plan."""
    rows = []
    for one in report.asked.loads:
        found = load_of(report, one.person_id, one.day, one.step)
        if found is None:
            continue
        trip, load = found
        planned = sum(load[name] for name in _FIELDS[one.part])
        weighed = quantities.grams(one.mass) / 1000
        rows.append(
            LoadReportAnswer(
                person_id=one.person_id,
                day=one.day,
                step=trip["step"],
                part=one.part,
                planned_kg=round(planned, 3),
                weighed_kg=round(weighed, 3),
                ratio=ratio(weighed, planned),
            )
        )
    return rows


def write_weighed(report: ReadReport) -> list[WeighedReportAnswer]:
    """Each unit that was weighed, beside the mass that the plan has for it."""
    planned = {unit["unit_id"]: unit["each_kg"] for unit in report.plan["taken_along"]}
    return [
        WeighedReportAnswer(
            unit_id=one.unit_id,
            planned_kg=planned[one.unit_id],
            weighed_kg=round(quantities.grams(one.mass) / 1000, 3),
            ratio=ratio(quantities.grams(one.mass) / 1000, planned[one.unit_id]),
        )
        for one in report.asked.weighed
    ]
